"""The styles that a beer falls in, what is said of a missed one, and how it is brought in.

The ranges are those of the BJCP Beer Style Guidelines 2021, as resources/styles.csv has them; how
near a style is and what counts as sure are judgements of ours, without a source.
"""

from dataclasses import replace

import pytest

from designer.brewday.asked_ranges import as_shown, how_far_off, share_inside
from designer.brewday.levers import levers_of
from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.library.catalogue import find_style, styles
from designer.library.recipe_file import load
from designer.library.round_trip import as_held
from designer.recipe.document import Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.resource_files import resource_path
from designer.units import read
from designer.workbench.style_watch import IN_NONE, MISSED, into_style, outlook_of
from designer.workbench.style_words import brought_words, too_far
from designer.workbench.styles import (
    FIVE,
    asked_by,
    missing_of,
    nearest_missed,
    ranked,
    style_fit,
)
from tests.workbench.planned_red import two_boils

REACHABLE = ("Altbier", "Strong Bitter", "British Brown Ale", "American Pale Ale", "Doppelbock")


@pytest.fixture
def bitter():
    return load(resource_path("examples/slipway_bitter.hobwort"))


def ranges(**values):
    return {key: Range(value, value, value) for key, value in values.items()}


def beer(og=1.050, fg=1.011, abv=5.0, ibu=40.0, srm=9.0):
    figures = (og, fg, abv, ibu, srm)
    return ranges(**dict(zip(FIVE, figures, strict=True)))


def test_what_keeps_a_beer_out_is_said_by_figure_and_by_how_much():
    # American Pale Ale, 18B: OG 1.045-1.060, FG 1.010-1.015, 4.5-6.2 %, 30-50 IBU, SRM 5-10.
    pale_ale = find_style("American Pale Ale")
    assert style_fit(beer(), pale_ale).missing == ()
    strong = style_fit(beer(og=1.0642, ibu=26.2, srm=12.3), pale_ale)
    assert [too_far(each) for each in strong.missing] == [
        "original gravity 0.004 too high",
        "4 IBU not bitter enough",
        "2 SRM too dark",
    ]
    assert style_fit(beer(og=1.0604), pale_ale).missing == (), "it is shown as 1.060"


def test_how_far_off_a_beer_is_is_what_its_misses_weigh():
    for found in (beer(), beer(og=1.0642, ibu=26.2, srm=12.3), beer(1.02, 1.004, 2.1, 3.0, 44.0)):
        shown = {key: as_shown(key, found[key].value) for key in FIVE}
        for style in styles():
            off = how_far_off(shown, asked_by(style))
            assert off == sum(each.weight for each in missing_of(found, style)), style.name
            assert off == 0.0 or how_far_off(shown, asked_by(style), enough=off / 2.0) >= off / 2.0
    nearest = nearest_missed(beer(1.02, 1.004, 2.1, 3.0, 44.0))
    assert nearest is ranked(beer(1.02, 1.004, 2.1, 3.0, 44.0))[0].style
    assert nearest_missed(beer()) is None


def test_those_it_falls_in_come_first_and_then_the_nearest():
    found = ranked(beer())
    first = next(n for n, each in enumerate(found) if each.missing)
    assert first > 0
    assert all(each.missing for each in found[first:])
    assert [each.off for each in found] == sorted(each.off for each in found)
    assert len(found) == len(styles())


def test_the_range_decides_how_surely_it_is_inside():
    def about(low, high):
        found = beer()
        found["original_gravity"] = Range(1.050, low, high)
        return style_fit(found, find_style("American Pale Ale")).standing

    assert about(1.048, 1.052) == "inside"
    assert about(1.042, 1.058) == "mostly inside"
    assert about(1.020, 1.080) == "just inside"
    even = Range(5.0, 0.5, 9.5, (), 2.5, 5.0, 7.5)
    assert share_inside(even, 2.5, 7.5) == pytest.approx(0.5)
    assert share_inside(even, -90.0, 90.0) == 1.0


@pytest.mark.parametrize("name", REACHABLE)
def test_what_brings_it_in_really_does_with_nothing_graver_and_as_one_step(bitter, name):
    style = find_style(name)
    before = outlook_of(bitter, ranges=False)
    edit, found = into_style(bitter, style)
    after = edit.apply(bitter)
    seen = outlook_of(after, ranges=False)
    assert after.style == style.name
    assert not found.is_out_of_reach
    for key, (low, high) in asked_by(style).items():
        value = seen.forecasts[key].value
        assert found.values[key] == pytest.approx(value)
        assert low - 0.5 <= value <= high + 0.5
    assert style_fit(seen.forecasts, style).missing == ()
    grave = {each.code for each in before.findings if each.severity is not Severity.NOTE}
    assert not {e.code for e in seen.findings if e.severity is not Severity.NOTE} - grave
    assert as_held(bitter, after) == after, "a file holds it"


def test_amounts_are_such_as_a_kitchen_weighs_in_the_units_typed(bitter):
    grams = [
        line.amount.value * 1000.0
        for name in REACHABLE[:4]
        for lines in ("fermentables", "hops")
        for line in lines_of(into_style(bitter, find_style(name))[0].apply(bitter), lines)
    ]
    assert all(each == pytest.approx(round(each)) for each in grams)
    assert all(each % 5.0 == pytest.approx(0.0, abs=1e-6) for each in grams if each > 500.0)
    wheat = load(resource_path("examples/foghorn_wheat.hobwort"))
    texts = [
        hop.amount.text for hop in into_style(wheat, find_style("Kölsch"))[0].apply(wheat).hops
    ]
    assert all(text.endswith(" oz") for text in texts)


def test_where_amounts_will_not_do_a_hop_is_boiled_longer(bitter):
    edit, found = into_style(bitter, find_style("Specialty IPA: Brown IPA"))
    assert "East Kent Golding boiled for " in str(found.changes)
    after = edit.apply(bitter)
    assert after.hops[1].when.minutes > bitter.hops[1].when.minutes
    assert after.hops[1].when.minutes % 5.0 == 0.0
    assert style_fit(look_ahead(after).forecasts, find_style("Specialty IPA: Brown IPA")).off == 0.0


def test_of_a_long_recipe_the_largest_amounts_alone_are_looked_at_one_by_one(bitter):
    grains = tuple(
        replace(bitter.fermentables[3], amount=typed(Kind.MASS, 0.01 + 0.001 * number))
        for number in range(30)
    )
    hops = (*bitter.hops[:2], *(bitter.hops[0],) * 10)
    long = with_line_ids(replace(bitter, fermentables=(*bitter.fermentables, *grains), hops=hops))
    levers = levers_of(long)
    assert len(levers) < 20
    assert max(len(each.means) for each in levers) == 31
    edit, found = into_style(long, find_style("Irish Red Ale"))
    assert (edit is None) is found.is_out_of_reach


def test_what_is_locked_stays_as_it_is(bitter):
    kit = replace(
        bitter,
        fermentables=tuple(replace(each, locked=True) for each in bitter.fermentables),
        hops=tuple(replace(each, locked=True) for each in bitter.hops),
    )
    edit, _ = into_style(kit, find_style("Altbier"))
    after = edit.apply(kit)
    assert (after.fermentables, after.hops) == (kit.fermentables, kit.hops)
    assert after.process.top_up_to.value < kit.process.top_up_to.value
    edit, found = into_style(kit, find_style("British Brown Ale"))
    assert edit is None
    assert [each.key for each in found.missing]


def test_out_of_reach_is_said_with_what_is_missed_at_the_nearest(bitter):
    stout = find_style("Imperial Stout")
    edit, found = into_style(bitter, stout)
    assert edit is None
    said = str(brought_words(stout, found))
    assert said.startswith("No change of amounts, times or water brings it into Imperial Stout. ")
    assert said.endswith("is below 30 SRM.")


def test_a_missed_style_is_said_once_with_its_cure_and_mildly(bitter):
    red = replace(bitter, style="Strong Bitter")
    (said,) = [e for e in outlook_of(red, cures=True).findings if e.code.startswith("style")]
    assert said.severity is Severity.NOTE
    assert said.code == MISSED
    assert str(said.message) == (
        "Outside Strong Bitter: original gravity 1.042 is below 1.048, alcohol 4.3 % is below "
        "4.6 %, bitterness 28 IBU is below 30 IBU."
    )
    assert style_fit(look_ahead(said.fix.apply(red)).forecasts, find_style("11C")).missing == ()
    assert not [e for e in outlook_of(bitter).findings if e.code.startswith("style")]


def test_a_weak_beer_in_no_style_is_not_left_without_a_word(bitter):
    process = replace(bitter.process, top_up_to=read(Kind.VOLUME, "19 L"))
    fermenter = replace(bitter.fermenter, volume=read(Kind.VOLUME, "30 L"))
    thin = replace(bitter, style="", process=process, fermenter=fermenter)
    (said,) = [e for e in outlook_of(thin).findings if e.code == IN_NONE]
    assert str(said.message).startswith("It is in the range of no style. The nearest is ")
    own = replace(thin, style="Grandmother's")
    assert [e.message for e in outlook_of(own).findings if e.code == IN_NONE] == [said.message]
    assert not outlook_of(with_line_ids(Recipe())).forecasts["original_gravity"].value > 1.005
    assert not [e for e in outlook_of(Recipe()).findings if e.code.startswith("style")]


def test_a_planned_recipe_is_brought_in_as_a_whole():
    red = two_boils()
    style = find_style("American Amber Ale")
    edit, found = into_style(red, style)
    assert (edit is None) is found.is_out_of_reach
    seen = outlook_of(red if edit is None else edit.apply(red), ranges=False)
    assert (style_fit(seen.forecasts, style).missing == ()) is (edit is not None)
