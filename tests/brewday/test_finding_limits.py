"""Each finding comes just beyond its edge, and not just before it.

Edges that have a source are those of the modules' docstrings: steeps at 66 to 77 °C (Palmer, How to
Brew, 1st ed., online, ch. 13), Tinseth's table from 1.030 to 1.130; the rest is common practice, no
source. The day is that of the porter with one number put where it is wanted, so that nothing else
moves.
"""

from dataclasses import replace

import pytest

from designer.brewday import findings_beer, findings_lines, findings_vessels, findings_wort
from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.brewday.foam import foam_line_l
from designer.brewday.results import Contribution
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.wort.bitterness import POT_CEILING_IBU
from designer.wort.colour import HIGHEST_FITTED_SRM
from tests.brewday.days import with_figures
from tests.brewday.quantities import ONE_GRAIN_PORTER


@pytest.fixture(scope="module")
def porter():
    return load(ONE_GRAIN_PORTER)


@pytest.fixture(scope="module")
def day(porter):
    return brew(porter)


def codes(finder, recipe, day):
    return {each.code for each in finder(recipe, day)}


def named(value):
    """A test's name must not hold the address of a function."""
    return value.__name__ if callable(value) else str(value)


# (finder, code, field of the day, just before the edge, just beyond it)
EDGES_OF_THE_DAY = [
    (findings_vessels.pot_too_full, "pot-overflows", "fullest_l", 8.999, 9.001),
    (findings_vessels.pot_too_full, "foam-room", "fullest_boiling_l", 7.249, 7.251),
    (findings_vessels.fermenter_too_full, "krausen-room", "batch_l", 10.249, 10.251),
    (findings_vessels.fermenter_too_full, "fermenter-overflows", "batch_l", 11.999, 12.001),
    (findings_vessels.no_top_up_possible, "no-top-up", "batch_l", 10.049, 10.051),
    (findings_vessels.no_water, "boils-dry", "boil_gravity_end", 1.1999, 1.2001),
    (findings_vessels.steep_heat, "steep-not-reached", "steeped_c", 66.01, 65.99),
    (findings_vessels.pitching_heat, "too-warm", "mixed_c", 23.99, 24.01),
    (findings_vessels.pitching_heat, "too-cold", "mixed_c", 14.01, 13.99),
    (findings_vessels.frozen_left_over, "frozen-left-over", "frozen_kg", 1.451, 1.449),
    (findings_wort.no_wort, "nothing-to-ferment", "original_gravity", 1.0011, 1.0009),
    (findings_lines.no_hops, "no-hops", "bitterness_ibu", 0.51, 0.49),
    (findings_lines.too_bitter_for_the_pot, "pot-bitterness", "pot_ibu",
     POT_CEILING_IBU - 0.01, POT_CEILING_IBU + 0.01),
    (findings_lines.extract_could_go_late, "extract-early", "boil_gravity_start", 1.0599, 1.0601),
    (findings_beer.outside_published_range, "bitterness-range", "boil_gravity_end", 1.1299, 1.1301),
    (findings_beer.outside_published_range, "bitterness-range-weak", "boil_gravity_end",
     1.0301, 1.0299),
    (findings_beer.outside_published_range, "colour-range", "colour_srm",
     HIGHEST_FITTED_SRM - 0.01, HIGHEST_FITTED_SRM + 0.01),
    (findings_beer.outside_published_range, "strong", "original_gravity", 1.1199, 1.1201),
    # eleven grams of yeast: short below 95 % of the least dose, which is 0.75 of what is wanted,
    # and little below half of that
    (findings_beer.yeast_short, "yeast-short", "yeast_wanted_g", 11.57 / 0.75, 11.59 / 0.75),
    (findings_beer.yeast_short, "yeast-little", "yeast_wanted_g", 21.99, 22.01),
]  # fmt: skip


@pytest.mark.parametrize(
    ("finder", "code", "field", "before", "beyond"), EDGES_OF_THE_DAY, ids=named
)
def test_a_finding_comes_just_beyond_its_edge(porter, day, finder, code, field, before, beyond):
    assert code not in codes(finder, porter, with_figures(day, **{field: before}))
    assert code in codes(finder, porter, with_figures(day, **{field: beyond}))


# (finder, code, place in the recipe, just before the edge, just beyond it)
EDGES_OF_THE_RECIPE = [
    (findings_vessels.steep_heat, "steep-too-hot", "process.steep_temperature", "77 °C", "77.1 °C"),
    (findings_vessels.steep_heat, "steep-too-cool", "process.steep_temperature", "60 °C",
     "59.9 °C"),
    (findings_lines.longer_than_the_boil, "longer-than-boil", "process.boil_time", "60 min",
     "59 min"),
    (findings_lines.alpha_acid_doubtful, "alpha-too-high", "hops.1.alpha", "25 %", "25.1 %"),
    (findings_lines.no_amount, "no-amount", "hops.1.amount", "0.1 g", "0 g"),
    (findings_lines.extract_could_go_late, "extract-early", "fermentables.1.when", "boil 20 min",
     "boil 21 min"),
    (findings_lines.extract_could_go_late, "extract-early", "process.boil_time", "29 min",
     "30 min"),
    (findings_beer.outside_published_range, "boil-range", "process.boil_time", "120 min",
     "121 min"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("finder", "code", "place", "before", "beyond"), EDGES_OF_THE_RECIPE, ids=named
)
def test_a_finding_comes_just_beyond_what_is_typed(
    porter, day, finder, code, place, before, beyond
):
    """The day stays that of the porter: only what is typed is looked at."""
    assert code not in codes(finder, set_field(porter, place, before), day)
    assert code in codes(finder, set_field(porter, place, beyond), day)


def test_sugar_is_told_of_above_a_fifth_of_the_gravity(porter, day):
    sugar = set_field(porter, "fermentables.2.kind", "sugar")
    line_id = sugar.fermentables[1].line_id
    points = 1000 * (day.beer.original_gravity - 1)

    def told(share):
        gives = {**day.gives, line_id: Contribution(points=share * points)}
        return codes(findings_lines.much_sugar, sugar, replace(day, gives=gives))

    assert told(0.199) == set()
    assert told(0.201) == {"much-sugar"}
    tiny = with_figures(day, original_gravity=1.0049, gives={line_id: Contribution(points=4.9)})
    assert codes(findings_lines.much_sugar, sugar, tiny) == set()


def test_yeast_is_asked_for_only_where_there_is_something_to_ferment(porter, day):
    without = replace(porter, yeast=replace(porter.yeast, name="", amount=None))
    assert codes(findings_beer.yeast_short, without, day) == {"no-yeast"}
    water = with_figures(day, original_gravity=1.0009)
    assert codes(findings_beer.yeast_short, without, water) == set()
    named = replace(porter, yeast=replace(porter.yeast, amount=None))
    assert codes(findings_beer.yeast_short, named, day) == set()
    liquid = replace(porter, yeast=replace(porter.yeast, form="liquid"))
    short = with_figures(day, yeast_wanted_g=70.0)
    assert codes(findings_beer.yeast_short, liquid, short) == set()


@pytest.mark.parametrize(
    ("wanted_g", "offered_g", "severity", "text"),
    [(20.0, 22.0, "note", "Pitch 2 packets, 22 g"), (47.0, 55.0, "care", "Pitch 5 packets, 55 g")],
)
def test_the_yeast_that_is_offered_comes_in_whole_packets(
    wanted_g, offered_g, severity, text, porter, day
):
    """Packets of 11 g; common practice, no source."""
    short = with_figures(day, yeast_wanted_g=wanted_g)
    (finding,) = findings_beer.yeast_short(porter, short)
    assert (finding.fix.value.value, finding.severity) == (offered_g, severity)
    assert finding.fix.text.text == text
    cured = finding.fix.apply(porter)
    assert codes(findings_beer.yeast_short, cured, short) == set()


def test_without_hops_no_bitterness_formula_is_doubted(porter, day):
    plain = replace(porter, hops=())
    strong = with_figures(day, boil_gravity_end=1.15)
    assert codes(findings_beer.outside_published_range, plain, strong) == set()
    weak = with_figures(day, boil_gravity_end=1.01)
    assert codes(findings_beer.outside_published_range, plain, weak) == set()


def test_evaporation_beyond_the_stove_s_heat_is_told(porter, day):
    """2000 W x 0.74 less 4 W/K x 80 K drive off about 1.8 L/h: Bubník's heat of vaporisation."""
    told = []
    for litres in (1.5, 1.8, 2.0, 2.2, 2.5):
        recipe = set_field(porter, "process.evaporation", f"{litres} L/h")
        told.append("evaporation-too-high" in codes(findings_vessels.stove, recipe, day))
    assert told[0] is False
    assert told[-1] is True
    assert told == sorted(told)
    cold = with_figures(day, reached_boil=False)
    assert codes(findings_vessels.stove, porter, cold) == {"no-boil"}


def test_the_worst_comes_first(porter):
    recipe = set_field(set_field(porter, "pot.volume", "5 L"), "process.carbonation", "3 vol")
    order = [each.severity for each in findings(recipe, brew(recipe))]
    ranks = {"stop": 0, "care": 1, "note": 2}
    assert [ranks[each] for each in order] == sorted(ranks[each] for each in order)
    assert order[0] == "stop"


def test_what_stops_the_brewer_comes_before_what_is_found_earlier(porter):
    """That no hops are in it is found first; that the pot overflows is told first."""
    recipe = replace(set_field(porter, "pot.volume", "5 L"), hops=())
    order = [each.code for each in findings(recipe, brew(recipe))]
    assert order.index("pot-overflows") < order.index("no-hops") < order.index("extract-early")


def test_a_wide_pot_leaves_seven_centimetres_for_foam(porter):
    """A fifth of a 9 L pot 30 cm wide is only 2.5 cm: 7 cm of it are 4.9 L (common practice)."""
    wide = set_field(porter, "pot.diameter", "30 cm")
    assert foam_line_l(wide.pot) == pytest.approx(9.0 - 4.948, abs=0.01)
    narrow = set_field(porter, "pot.diameter", "15 cm")
    assert foam_line_l(narrow.pot) == foam_line_l(porter.pot)
    assert foam_line_l(replace(porter.pot, volume=None)) is None
    assert "foam-room" in codes(findings_vessels.pot_too_full, wide, brew(wide))
