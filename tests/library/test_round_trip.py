"""Whatever is done to a recipe, a file gives it back; what no file holds is refused in words."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.errors import RefusedInputError
from designer.library.recipe_file import document_text, load, read_document
from designer.library.round_trip import as_held
from designer.recipe.document import Extra, Fermentable, Hop, Recipe
from designer.recipe.edits import (
    AddLine,
    ChangeLine,
    ChangePart,
    ChangeRecipe,
    MoveLine,
    RemoveLines,
    Together,
    with_line_ids,
)
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES, LONGEST_WORDS, MOST_LINES
from designer.recipe.message import word
from designer.recipe.quantity import Quantity, Stage, When
from designer.resource_files import resource_path

UNSAID = word("")
LISTS = ("fermentables", "hops", "extras")
NEW = {"fermentables": Fermentable, "hops": Hop, "extras": Extra}


def made(recipe, edit):
    return as_held(recipe, edit.apply(recipe))


def opened_again(recipe):
    return read_document(document_text(recipe), "brew")


def refusal(recipe, edit):
    with pytest.raises(RefusedInputError) as told:
        made(recipe, edit)
    return str(told.value)


@pytest.fixture
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


words = st.one_of(
    st.text(max_size=30),  # lone halves of a surrogate pair among them
    st.sampled_from(["Fuggle", "Challenger", "Light dry malt extract", "Dry English ale yeast"]),
    st.sampled_from([0, 1, LONGEST_WORDS - 1, LONGEST_WORDS, LONGEST_WORDS + 1]).map("ä".__mul__),
)
figures = st.one_of(st.floats(-1e6, 1e6), st.floats(0.0, 2.0), st.sampled_from([0.0, 1.0, 1e4]))
masses = st.one_of(
    st.none(),
    figures.map(lambda kg: Quantity(kg, f"{kg:.1f} kg")),
    figures.map(lambda kg: Quantity(kg, f"{1000.0 * kg:g} g")),
)
shares = st.one_of(
    st.none(),
    figures.map(lambda share: Quantity(share, f"{100.0 * share:.3g} %")),
    figures.map(lambda share: Quantity(share, f"{100.0 * share:.3f} %".replace(".", ","))),
    figures.map(lambda share: Quantity(share, "7,2 % ± 1,250 %", 0.0125)),
)
lines = st.one_of(
    st.builds(
        lambda name, amount: ("fermentables", Fermentable(name, amount=amount)), words, masses
    ),
    st.builds(lambda name, alpha: ("hops", Hop(name, alpha=alpha)), words, shares),
    st.builds(lambda name, purpose: ("extras", Extra(name, purpose)), words, words),
)
numbers = st.integers(1, 12)
edits = st.one_of(
    st.builds(ChangeRecipe, st.sampled_from(["name", "style", "notes"]), words, st.just(UNSAID)),
    st.builds(lambda line, at: AddLine(*line, UNSAID, at), lines, st.integers(0, 5)),
    st.builds(
        lambda line, n: Together((AddLine(*line, UNSAID),) * n, UNSAID),
        lines, st.integers(1, 300),
    ),
    st.builds(
        lambda name, ids: RemoveLines(name, frozenset(ids), UNSAID),
        st.sampled_from(LISTS),
        st.sets(numbers),
    ),
    st.builds(MoveLine, st.sampled_from(LISTS), numbers, numbers, st.just(UNSAID)),
    st.builds(
        lambda n, name, alpha: ChangeLine("hops", n, (("name", name), ("alpha", alpha)), UNSAID),
        numbers, words, shares,
    ),
    st.builds(
        lambda n, amount: ChangeLine(
            "fermentables", n, (("amount", amount), ("colour", None)), UNSAID
        ),
        numbers, masses,
    ),
    st.builds(lambda name, value: ChangePart("yeast", name, value, UNSAID),
              st.sampled_from(["attenuation"]), shares),
    st.builds(lambda value: ChangePart("pot", "foam_room", value, UNSAID), shares),
    st.builds(lambda value: ChangePart("process", "frozen_top_up", value, UNSAID), masses),
    st.builds(lambda name: ChangePart("pot", "name", name, UNSAID), words),
    st.builds(lambda start: ChangePart("process", "start_time", start, UNSAID),
              st.sampled_from(["9:", "09:30", "noon", "24:00"])),
)  # fmt: skip


@settings(max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(edits, max_size=12))
def test_whatever_is_done_to_a_recipe_a_file_gives_it_back(doing):
    recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    for edit in doing:
        try:
            recipe = made(recipe, edit)
        except RefusedInputError:
            continue
    assert opened_again(recipe) == recipe


@pytest.mark.parametrize("digits", [3, 4])
def test_every_share_and_mass_is_given_back_to_its_last_digit(porter, digits):
    """A hundredth of 2.54 as read and 0.0254 as reckoned are two floats: the file's one counts."""
    hop = porter.hops[0].line_id
    for n in range(10, 3 * 10 ** (digits - 1), 7):
        share, kg = n / 10**digits, n / 1000.0
        percent = f"{100.0 * share:.{digits}g} %".replace(".", ",."[n % 2])
        changes = (
            ("alpha", Quantity(share, percent)),
            ("amount", Quantity(kg, f"{1000.0 * kg:g} g")),
        )
        recipe = made(porter, ChangeLine("hops", hop, changes, UNSAID))
        assert opened_again(recipe) == recipe
        found = recipe.hops[0]
        assert found.alpha.value == pytest.approx(share, rel=1e-12)
        assert found.amount.value == pytest.approx(kg, rel=1e-12)


@pytest.mark.parametrize("name", LISTS)
def test_more_lines_than_a_recipe_holds_are_refused_with_the_limit_and_a_way_out(name):
    line = NEW[name]("Fuggle")
    full = made(Recipe(), Together((AddLine(name, line, UNSAID),) * MOST_LINES, word("paste")))
    assert opened_again(full) == full
    assert refusal(full, AddLine(name, line, word("add"))) == (
        f"A recipe holds up to 500 {name.removesuffix('s')} lines; with these it would have 501. "
        "Add fewer, or take some out first."
    )
    assert "would have 600" in refusal(
        Recipe(), Together((AddLine(name, line, UNSAID),) * 600, UNSAID)
    )


@pytest.mark.parametrize("sign", ["a", "ä", "酒", "🍺", "\x01", '"'])
def test_a_name_as_long_as_may_be_is_given_back_and_a_longer_one_is_refused(sign):
    longest = made(Recipe(), ChangeRecipe("name", LONGEST_WORDS * sign, UNSAID))
    assert opened_again(longest) == longest
    said = refusal(Recipe(), ChangeRecipe("name", (LONGEST_WORDS + 1) * sign, UNSAID))
    assert said.startswith("Name: up to 20,000 characters are held, and this has 20,001. Shorten")


def test_half_a_character_is_refused_and_its_place_told():
    said = refusal(Recipe(), ChangeRecipe("name", "ale\ud83c", UNSAID))
    assert said.startswith("Name: character 4 is half of one")


@pytest.mark.parametrize("sign", ["a", "🍺", "\x01"])
def test_all_the_words_of_a_recipe_together_stay_below_what_a_file_may_have(sign):
    recipe, count = Recipe(), 0
    line = Hop(LONGEST_WORDS * sign)
    while count < MOST_LINES:
        try:
            recipe = made(recipe, AddLine("hops", line, UNSAID))
        except RefusedInputError as fault:
            said = str(fault)
            break
        count += 1
    assert 10 < count < MOST_LINES
    assert said.startswith(
        "A recipe holds up to 500,000 characters in all; with this it would have"
    )
    assert len(document_text(recipe).encode()) < LARGEST_DOCUMENT_BYTES
    assert opened_again(recipe) == recipe
    shorter = made(recipe, ChangeLine("hops", 1, (("name", "Fuggle"),), UNSAID))
    assert opened_again(shorter) == shorter


def test_the_fullest_recipe_that_can_be_made_is_given_back():
    amount = Quantity(1.005, "1 kg" + 193 * " " + "5 g")  # as long as a field takes
    adding = (
        AddLine("fermentables", Fermentable("Light dry malt extract", amount=amount), UNSAID),
        AddLine("hops", Hop("Fuggle", amount=amount), UNSAID),
        AddLine("extras", Extra("Irish moss", 100 * "\x01"), UNSAID),
    )
    full = made(Recipe(), Together(adding * MOST_LINES, UNSAID))
    assert opened_again(full) == full


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            Quantity(20_000.0, "20000 kg"),
            "Amount of “Fuggle”: “20000 kg” is outside 0 g to 10000 kg",
        ),
        (Quantity(-1.0, "-1 kg"), "Amount of “Fuggle”: “-1 kg” is outside 0 g to 10000 kg"),
        (Quantity(float("nan"), "nan kg"), "Amount of “Fuggle”: “nan kg” cannot be written"),
        (Quantity(1e300, "much"), "outside 0 g to 10000 kg"),
    ],
)
def test_a_figure_beyond_its_field_is_refused_with_its_line_and_limits(porter, changed, said):
    fuggle = Hop("Fuggle", amount=changed)
    told = refusal(porter, AddLine("hops", fuggle, UNSAID))
    assert said in told


@pytest.mark.parametrize(
    ("reckoned", "held"),
    [
        (Quantity(6.5432, "6.5 L"), Quantity(6.5, "6.5 L")),  # rounded: what is shown counts
        (Quantity(0.04, "0.0 L"), Quantity(0.04, "0.04 L")),  # rounded away: written out
        (Quantity(7.25, "7,250 L"), Quantity(7.25, "7.250 L")),  # of a locale: means 7250 in a file
        (Quantity(7.25, "seven and a bit"), Quantity(7.25, "7.25 L")),
    ],
)
def test_a_reckoned_figure_is_what_its_text_says(porter, reckoned, held):
    made_so = made(porter, ChangePart("process", "top_up_to", reckoned, UNSAID))
    assert made_so.process.top_up_to == held


def test_a_time_is_what_its_text_says(porter):
    when = When(Stage.BOIL, "boil 12.3 min", 12.3456)
    line = porter.hops[0].line_id
    assert (
        made(porter, ChangeLine("hops", line, (("when", when),), UNSAID)).hops[0].when.minutes
        == 12.3
    )


def test_a_figure_emptied_on_purpose_is_not_filled_again_from_the_catalogue(porter):
    """Left out, it comes from the catalogue; null says that it is to stay empty."""
    hop, line = porter.hops[0], porter.fermentables[0]
    for edit in (
        ChangeLine("hops", hop.line_id, (("alpha", None),), UNSAID),
        ChangeLine("fermentables", line.line_id, (("extract", None),), UNSAID),
        ChangePart("yeast", "attenuation", None, UNSAID),
        ChangeLine("extras", porter.extras[0].line_id, (("purpose", ""),), UNSAID),
    ):
        porter = made(porter, edit)
    assert '"alpha": null' in document_text(porter)
    assert opened_again(porter) == porter
    assert opened_again(porter).hops[0].alpha is None


def test_what_a_recipe_held_already_stands_in_nobodys_way():
    """A file at the limits, of an older program or by hand, can be opened and changed."""
    full = with_line_ids(
        Recipe(
            hops=tuple(Hop(LONGEST_WORDS * "h") for _ in range(40)),
            pot=replace(Recipe().pot, volume=Quantity(1e6, "1000000 L")),
        )
    )
    renamed = made(full, ChangeRecipe("name", "Bitter", UNSAID))
    assert renamed.name == "Bitter"
    assert "Shorten the notes" in refusal(full, ChangeRecipe("notes", "Longer still", UNSAID))
    fewer = made(renamed, RemoveLines("hops", frozenset({1}), UNSAID))
    assert len(fewer.hops) == 39


def test_parts_put_in_whole_are_looked_at_as_fields_are(porter):
    pot = replace(porter.pot, volume=Quantity(2e5, "200000 L"))
    assert refusal(porter, ChangeRecipe("pot", pot, UNSAID)).startswith(
        "Pot volume: “200000 L” is outside"
    )
