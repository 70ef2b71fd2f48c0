"""Ingredients are read out of the tables, lists and letters that people send each other.

The texts are made up, in the shapes of everyday spreadsheets and letters ("common practice, no
source").
"""

from contextlib import suppress

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.library.pasted import Means, Parting, Use, pasted_table
from designer.recipe.quantity import Stage


def read_as(table):
    """What can be added with an amount: list, grams, name."""
    lines = [(row.lines, row.line) for row in table.rows if row.line is not None]
    return [f"{of} {1000 * line.amount.value:g} {line.name}" for of, line in lines if line.amount]


CERTAIN = {
    "Amount (kg)\tMalt\tColour (EBC)\n1.5\tLight liquid malt extract\t10\n0.25\tMild malt\t8": (
        "fermentables 1500 Light liquid malt extract", "fermentables 250 Mild malt"),
    "Menge kg;Malz\n2,5;Pilsner Malz\n0,25;Münchner Malz": (
        "fermentables 2500 Pilsner malt", "fermentables 250 Münchner Malz"),
    "2,5\tkg\tPale malt\n300\tg\tMunich malt": (
        "fermentables 2500 Pale malt", "fermentables 300 Munich malt"),
    '"1,5 kg",Light liquid malt extract\n"0,5 kg",Honey': (
        "fermentables 1500 Light liquid malt extract", "fermentables 500 Honey"),
    "1.500,25 g;Pale malt\n2,5 kg;Mild malt": (
        "fermentables 1500.25 Pale malt", "fermentables 2500 Mild malt"),
    "1,5 kg Light liquid malt extract\n250 g Crystal malt 60 °L": (
        "fermentables 1500 Light liquid malt extract", "fermentables 250 Crystal malt 60 °L"),
    "3.3 lb light liquid malt extract\n2 lb 4 oz honey": (
        "fermentables 1496.85 Light liquid malt extract", "fermentables 1020.58 Honey"),
    "| 500 g | Pale malt |\n| 1 kg | Mild malt |": (
        "fermentables 500 Pale malt", "fermentables 1000 Mild malt"),
    "Fermentables:\n500 g Pale malt\nHops:\n20 g Fuggle": (
        "fermentables 500 Pale malt", "hops 20 Fuggle"),
    "Hop;Menge g;alpha %;min\nFuggle;20;4,5;60\nChallenger;12,5;7;15": (
        "hops 20 Fuggle", "hops 12.5 Challenger"),
    '"Weight, oz",Variety,AA %,Boil time (min)\n1,Fuggle,4.5,60': ("hops 28.3495 Fuggle",),
    "Variety,Weight (g),min\nFuggle,20,60": ("hops 20 Fuggle",),
    "amount   name         when\n20 g     Fuggle       60 min\n12 g     Northern Brewer  15 min": (
        "hops 20 Fuggle", "hops 12 Northern Brewer"),
    "Fuggle        20 g   60 min\nChallenger    12 g   flame-out": (
        "hops 20 Fuggle", "hops 12 Challenger"),
    "20 g Challenger 60 min\nFuggle 1 oz @ 15\nEast Kent Golding - 15g - flame out": (
        "hops 20 Challenger", "hops 28.3495 Fuggle", "hops 15 East Kent Golding"),
    "* 1 oz (28 g) Fuggle (4.5% AA) at 10 min": ("hops 28.3495 Fuggle",),
    "• 10 g Fuggle, dry hop 4 days\n- 8 g of Challenger for 60 minutes": (
        "hops 10 Fuggle", "hops 8 Challenger"),
    "20 g\tFuggle\r\n12 g\tChallenger\r": ("hops 20 Fuggle", "hops 12 Challenger"),
    "List,Ingredient,Amount\nhop,Fuggle,20 g\nmalt,Mild malt,1 kg": (
        "hops 20 Fuggle", "fermentables 1000 Mild malt"),
    "12 g Fuggle": ("hops 12 Fuggle",),
    "1-1/2 oz Fuggle 15 min\n½ oz Fuggle, 60m": ("hops 42.5243 Fuggle", "hops 14.1748 Fuggle"),
    "15 min: 20 g Fuggle pellets\n@60 12 g Challenger (leaf)": (
        "hops 20 Fuggle", "hops 12 Challenger"),
    "Fuggle, AA 4.5, 20 g, 60 min": ("hops 20 Fuggle",),
    "- [x] 500 g sugar\n- [ ] 1 kg DME": ("fermentables 500 sugar", "fermentables 1000 DME"),
    "> 500 g sugar\n> 3 lbs. dry extract": (
        "fermentables 500 sugar", "fermentables 1360.78 dry extract"),
    "500 g\tsugar\t\t\n\t\t\t\n": ("fermentables 500 sugar",),
}  # fmt: skip


@pytest.mark.parametrize(("text", "found"), CERTAIN.items())
def test_what_is_certain_is_read_without_a_question(text, found):
    table = pasted_table(text, found[0].split()[0])
    assert table.certain
    assert read_as(table) == list(found)


@pytest.mark.parametrize(
    ("text", "stage", "minutes"),
    [
        ("20 g Fuggle @ 15", Stage.BOIL, 15),
        ("20 g Fuggle at 15 min", Stage.BOIL, 15),
        ("20 g Fuggle, 1 h", Stage.BOIL, 60),
        ("20 g Fuggle, 60 minutes", Stage.BOIL, 60),
        ("20 g Fuggle 30'", Stage.BOIL, 30),
        ("20 g Fuggle at flameout", Stage.FLAME_OUT, 0),
        ("20 g Fuggle first wort", Stage.FIRST_WORT, 0),
        ("20 g Fuggle, stand 20 min at 80 °C", Stage.STAND, 20),
        ("20 g Fuggle dry hop", Stage.DRY_HOP, 0),
        ("Hop\tg\tmin\nFuggle\t20\t60", Stage.BOIL, 60),
        ("Hop\tg\tAdded\nFuggle\t20\tfor 60 min", Stage.BOIL, 60),
        ("Hop\tg\tDays\nFuggle\t20\t4", Stage.DRY_HOP, 0),
    ],
)
def test_when_it_goes_in_is_understood_as_brewers_say_it(text, stage, minutes):
    table = pasted_table(text, "hops")
    assert table.certain
    when = table.rows[-1].line.when
    assert (when.stage, when.minutes) == (stage, minutes)


@pytest.mark.parametrize(
    ("lines", "text"),
    [
        ("hops", "Fuggle\t60\t20"),  # which is grams, which minutes?
        ("hops", "20 g\tFuggle\t15"),
        ("hops", "Amount\tHop\n20\tFuggle"),
        ("hops", "Hop\tg\tTime\nFuggle\t20\t60"),
        ("hops", "Hop\tg\tNotes\nFuggle\t20\tfrom Ann"),
        ("fermentables", "1.500 kg\tPale malt"),
        ("fermentables", "1,500 kg\tPale malt"),
        ("fermentables", "1,5 kg\tPale malt\n1.5 kg\tMild malt"),
        ("fermentables", "1,5 kg,Pale malt"),
        ("fermentables", "1,5 kg,Pale malt\n2,2 kg,Mild malt"),  # numbered, or decimal commas?
        ("fermentables", "20 g Challenger 60 min"),  # a hop on the fermentables
        ("hops", "500 g Pale ale malt"),
        ("hops", "Total\t20 g\nFuggle\t20 g"),
        ("hops", "2 x 20 g Fuggle"),
        ("hops", "10-20 g Fuggle"),
        ("hops", "about 20 g Fuggle or 15 g Challenger"),
        ("hops", "I used 20 g of Fuggle and it was lovely."),
        ("hops", "20 g is too much for my pot"),
        ("hops", "20 g Fuggle 60 min 15 min"),
        ("hops", "20 L\tFuggle"),
        ("hops", "20 g Fuggle 15"),
        ("hops", "20 g Fuggle for 4 days"),
        ("hops", "20 g Fuggle steep 30 min"),
        ("hops", "20 g Fuggle (second addition)"),
        ("hops", "Challenger 20 g, Fuggle 10 g"),
        ("hops", "Hop\tkg\nFuggle\t20"),  # grams, surely
        ("hops", "Hop\tg\tAlpha %\nFuggle\t20\t0.045"),  # a share
        ("hops", "Hop\tg\nFuggle\t20\nChallenger\t"),
        ("hops", "Fuggle\t20 g\t60 min\nChallenger\t15 min\t12 g"),
        ("fermentables", "Malt\tAmount\nPale malt\t1e3"),
        ("fermentables", "Malt\tAmount\nPale malt\t5-6"),
        ("fermentables", "Malt\tAmount (g/oz)\nPale malt\t500"),
        ("fermentables", "Malt\tkg\tlb\nPale malt\t2\t4.4"),
        ("fermentables", "90% Pale malt"),
        ("fermentables", "1 tin light extract"),
        ("fermentables", "500 g sugar or honey"),
        ("fermentables", "Then add 500 g sugar"),
        ("fermentables", "11 g Dry English ale yeast"),
        ("fermentables", "Grandmother's own"),
        (None, "Ingredient,Amount\nHarbour mixture,2 kg"),
        ("hops", "Malt\tkg\nPale malt\t2\nHop\tg\nFuggle\t20"),  # two tables below each other
    ],
)
def test_what_is_not_certain_is_asked_about(lines, text):
    assert not pasted_table(text, lines).certain


def test_a_second_table_is_not_read_under_the_headings_of_the_first():
    table = pasted_table("Malt\tkg\nPale malt\t2\nHop\tg\nFuggle\t20", "fermentables")
    assert [row.line is not None for row in table.rows] == [False, True, False, False]
    assert "other headings" in table.rows[3].fault


@pytest.mark.parametrize("lines", ["fermentables", "extras", None])
def test_a_heading_says_which_list_its_names_are_of(lines):
    table = pasted_table("Hop\tg\tmin\nHarbour Gold\t20\t60", lines)
    assert table.certain
    assert read_as(table) == ["hops 20 Harbour Gold"]


def test_a_letter_offers_its_ingredients_and_leaves_its_prose():
    letter = (
        "Hi Ann,\n\nyesterday I brewed 10 litres with 2 kg of malt and it was great.\n\n"
        "- 1.5 kg light liquid malt extract\n- 250 g Crystal malt 60 °L\n\nHops:\n"
        "20 g Challenger, 60 min\n10 g Fuggle dry hop 4 days\n\nYeast:\n"
        "11 g Dry English ale yeast\n\nCheers, Bob\n"
    )
    table = pasted_table(letter, "fermentables")
    assert not table.certain
    likely = [(row.lines, row.line.name) for row in table.rows if row.line and row.likely]
    assert likely == [
        ("fermentables", "Light liquid malt extract"),
        ("fermentables", "Crystal malt 60 °L"),
        ("hops", "Challenger"),
        ("hops", "Fuggle"),
    ]
    assert all(row.fault or row.doubt for row in table.rows if not row.likely)


def test_the_brewer_says_what_columns_are():
    table = pasted_table("Fuggle\t60\t20\nChallenger\t15\t10", "hops")
    assert table.parting is Parting.TABS
    table = table.with_use(1, Use(Means.WHEN, "min")).with_use(2, Use(Means.AMOUNT, "g"))
    assert read_as(table) == ["hops 20 Fuggle", "hops 10 Challenger"]
    assert [row.line.when.minutes for row in table.rows] == [60, 15]


def test_the_brewer_says_the_decimal_sign_and_the_parting():
    table = pasted_table("1.500 g\tPale malt", "fermentables")
    assert read_as(table) == ["fermentables 1.5 Pale malt"]
    assert read_as(table.with_comma(True)) == ["fermentables 1500 Pale malt"]
    parted = pasted_table("1,5 kg,Pale malt", "fermentables").parted(Parting.LINES)
    assert parted.rows[0].line.amount.value == 1.5


def test_a_cell_is_mended_and_a_row_sent_to_another_list():
    table = pasted_table("Amount\tHop\n2\tMild malt\n20 g\tFuggle", "hops")
    assert "no unit" in table.rows[1].fault
    table = table.with_cell(1, 0, "2 kg").with_list(1, "fermentables")
    assert table.rows[1].lines == "fermentables"
    assert table.rows[1].line.amount.value == 2.0


def test_a_line_that_was_not_understood_is_taken_apart_anew():
    table = pasted_table("2 x 20 g Fuggle, 60 min\n10 g Challenger", "hops")
    assert "one figure" in table.rows[0].fault
    assert table.rows[0].likely
    at = next(at for at, cell in enumerate(table.cells[0]) if cell)
    table = table.with_cell(0, at, "40 g Fuggle, 60 min")
    assert read_as(table) == ["hops 40 Fuggle", "hops 10 Challenger"]
    assert table.rows[0].line.when.minutes == 60


def test_a_yeast_is_a_line_only_if_the_brewer_sends_it_there():
    table = pasted_table("11 g Dry English ale yeast", "extras")
    assert table.rows[0].line is None
    assert table.with_list(0, "extras").rows[0].line.name == "Dry English ale yeast"


def test_an_amount_without_a_name_is_not_passed_over():
    (row,) = [row for row in pasted_table("Hop\tg\nFuggle\t20\n\t15", "hops").rows if row.fault][1:]
    assert row.likely
    assert "no name" in row.fault


def test_a_column_is_one_thing_only():
    table = pasted_table("20 g\tFuggle\t15", "hops").with_use(2, Use(Means.AMOUNT, "g"))
    assert [use.means for use in table.uses] == [Means.OUT, Means.NAME, Means.AMOUNT]


@pytest.mark.parametrize("comma", [True, False])
@pytest.mark.parametrize("text", ["1,5 kg\tPale malt", "1.5 kg\tPale malt", "1,2345 kg\tPale malt"])
def test_what_is_read_means_the_same_to_every_reader(text, comma):
    from designer.recipe.quantity import Kind
    from designer.units import read

    amount = pasted_table(text, "fermentables", comma=comma).rows[0].line.amount
    for other in (True, False):
        assert read(Kind.MASS, amount.text, decimal_comma=other).value == amount.value


def test_an_unguarded_formula_is_a_name():
    (row,) = pasted_table("20 g\t'=Fuggle", "hops").rows
    assert row.line.name == "=Fuggle"


@pytest.mark.parametrize("text", ["", " \n\t\n", "\x00\x00", "\u200e"])
def test_nothing_is_refused_in_words(text):
    with pytest.raises(RefusedInputError, match="nothing"):
        pasted_table(text, "hops")


WORDS = ("20 g", "1,5", "1.500", "Fuggle", "kg", "min", "@ 15", "4.5 %", "Hops:", "Amount (g)",
         "Hop", "60", "½", "1/0 g", "9" * 300 + " g", "stand 5 min at 999 °C", "\x00", "\u200e",
         "\ud800", "and", "60 L", "6-8 %", "±", "=1", "'", '"', "(", ")", "2 x")  # fmt: skip
MIXED = st.lists(
    st.one_of(
        st.sampled_from((*WORDS, " ", "  ", "\t", ";", ",", "|", "\r", "\n")), st.text(max_size=8)
    ),
    max_size=40,
).map("".join)


@given(MIXED, st.sampled_from(("fermentables", "hops", "extras", None)), st.booleans())
@example("amount (kg)\tname\n1e400\tmalt", "fermentables", False)
def test_no_text_breaks_the_reading(text, lines, comma):
    with suppress(RefusedInputError):
        table = pasted_table(text, lines, comma=comma)
        for other in (table, *(table.parted(each) for each in Parting)):
            assert len(other.rows) == len(other.cells)
            assert all(row.line is not None or row.fault for row in other.rows)


MANY = 4_900_000
LARGE = ("," * MANY, "5 g " * 1_200_000, "500 g malt\n" * 400_000, '"' * MANY, "(" * MANY,
         "1/" * 2_400_000, "5" * MANY, "\r" * MANY + "5 g Fuggle")  # fmt: skip


@pytest.mark.parametrize("text", LARGE, ids=[text[:6] for text in LARGE])
def test_five_million_signs_are_read_or_refused(text):
    with suppress(RefusedInputError):
        assert len(pasted_table(text, "hops").rows) == 1


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("Malt\tAmount\tppg\nDark syrup\t1 kg\t36", 36.0 / 46.21),
        ("Malt\tAmount\tYield (%)\nDark syrup\t1 kg\t78", 0.78),
        ("Malz;Menge;Ausbeute L°/kg\nSirup;1 kg;300", 300.0 / (46.21 * 8.3454)),
        ("Malt\tAmount\tL°/kg\nDark syrup\t1 kg\t300", 300.0 / (46.21 * 8.3454)),
        ("Dark syrup\t1 kg\t36 ppg", 36.0 / 46.21),
        ("1 kg Dark syrup (36 ppg)", 36.0 / 46.21),
        ("1 kg Dark syrup, 300 L°/kg, boil 15 min", 300.0 / (46.21 * 8.3454)),
    ],
)
def test_an_extract_yield_is_read_as_the_trade_writes_it(text, share):
    table = pasted_table(text, "fermentables")
    assert table.certain, [*table.doubts, *table.rows]
    ((_, line),) = table.found
    assert line.extract.value == pytest.approx(share)
    assert line.amount.value == 1.0


def test_hops_have_no_extract_yield():
    (row,) = pasted_table("Hop\tAmount\tppg\nFuggle\t20 g\t36", "hops").rows[1:]
    assert row.line is None
    assert "figure of fermentables" in row.fault


def test_a_yield_without_its_unit_is_asked_about():
    table = pasted_table("Malt\tAmount\tYield\nDark syrup\t1 kg\t36", "fermentables")
    assert not table.certain
    assert any("without a unit" in doubt for doubt in table.doubts)
    assert table.with_use(2, Use(Means.YIELD, "ppg")).found[0][1].extract.text == "36 ppg"
