"""What the time line says at its ends: the clock, an empty fermenter, a pot without a coil yet."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew, fullest_boiling_l
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.quantity import Stage, When


def at(day, stage):
    return next(each for each in day.moments if each.stage == stage)


def test_the_day_begins_at_nothing_with_the_water_that_was_typed(harbour_porter):
    first = brew(harbour_porter).moments[0]
    assert (first.time_min, first.stage) == (0.0, "fill")
    assert first.gravity_sg == pytest.approx(1.0, abs=1e-9)
    assert first.bitterness_ibu == 0.0
    # 6.5 L, measured from a tap of 12 °C: Bigg 1967, 999.5 kg/m³ there against 998.2 at 20 °C
    assert first.pot_volume_l == pytest.approx(6.5, abs=0.01)
    assert first.wort_l == pytest.approx(6.5 * 999.5 / 998.2, abs=1e-3)


def test_the_fermenter_is_empty_until_the_wort_is_moved(harbour_porter):
    day = brew(harbour_porter)
    before = [
        each.fermenter_volume_l for each in day.moments if each.stage not in ("move", "pitch")
    ]
    assert set(before) == {0.0}
    assert at(day, "move").fermenter_volume_l == pytest.approx(day.fermenter.from_pot_l)
    assert at(day, "pitch").fermenter_volume_l == pytest.approx(day.fermenter.batch_l)


def test_a_coil_takes_room_only_at_the_boil(harbour_porter, kitchen):
    """It goes in for the last of the boil, to be clean; common practice, no source."""
    process = replace(harbour_porter.process, cooling="coil")
    bare = brew(replace(harbour_porter, process=process))
    pot = replace(harbour_porter.pot, coil=kitchen.q(0.4, "L"))
    coiled = brew(replace(harbour_porter, process=process, pot=pot))
    for without, with_it in zip(bare.moments, coiled.moments, strict=True):
        more = 0.4 if without.stage in ("extract in", "boil", "flame-out") else 0.0
        assert with_it.pot_volume_l == pytest.approx(without.pot_volume_l + more), without.stage
        assert with_it.wort_l == without.wort_l


def test_in_an_empty_pot_nothing_is_bitter():
    day = brew(Recipe())
    assert all(each.bitterness_ibu == 0.0 for each in day.moments)
    assert day.beer.bitterness_ibu == 0.0
    assert day.pot.fullest_l == pytest.approx(0.0, abs=1e-5)
    assert day.pot.fullest_boiling_l == pytest.approx(0.0, abs=1e-5)


def test_a_pot_of_cold_water_is_no_fuller_for_being_watched(harbour_porter, kitchen):
    """The fullest moment is one of those on the time line, and none is fuller."""
    day = brew(harbour_porter)
    assert day.pot.fullest_l == max(each.pot_volume_l for each in day.moments)
    boiling = ("extract in", "boil", "flame-out")
    most = max(each.pot_volume_l for each in day.moments if each.stage in boiling)
    assert day.pot.fullest_boiling_l == pytest.approx(most)


def test_what_evaporates_is_the_rate_times_the_hour_of_the_boil(harbour_porter):
    """0.9 L/h, counted cold, for an hour, less the minutes in which cold extract stops it."""
    assert brew(harbour_porter).pot.evaporated_l == pytest.approx(0.9, abs=0.1)


@pytest.mark.parametrize("minutes", [15, 25, 40])
def test_late_extract_makes_the_pot_fuller_once_it_is_hot(minutes, harbour_porter, kitchen):
    """It goes in cold, and wort swells by some four per cent on its way to the boil."""
    lines = list(harbour_porter.fermentables)
    lines[0] = replace(lines[0], amount=kitchen.q(3.0, "kg"), when=kitchen.boil(minutes))
    recipe = replace(harbour_porter, fermentables=tuple(lines))
    day = brew(recipe)
    assert day.pot.fullest_at == "boil"
    assert fullest_boiling_l(recipe) == pytest.approx(day.pot.fullest_boiling_l, rel=1e-12)
    cold = next(each for each in day.moments if each.stage == "boil" and each.temperature_c < 95.0)
    assert cold.pot_volume_l < day.pot.fullest_boiling_l - 0.02


def test_sugar_that_is_put_into_the_steep_is_in_the_pot_from_then(harbour_porter, kitchen):
    sugar = Fermentable("Sugar", "sugar", kitchen.q(0.5, "kg"), When(Stage.STEEP, "steep"))
    lines = (*harbour_porter.fermentables, replace(sugar, line_id=9))
    day = brew(replace(harbour_porter, fermentables=lines))
    (added,) = [each for each in day.additions if each.name == "Sugar"]
    steeped = next(each for each in day.spans if each.key == "lift")
    assert (added.lines, added.line_id, added.stage) == ("fermentables", 9, "steep")
    assert added.boil_left_min is None
    assert added.time_min == pytest.approx(steeped.end_min)
    # all of half a kilogram of sucrose, but for what trub and hops keep: 384 points x L a kilogram
    assert day.gives[9].points == pytest.approx(0.5 * 384 / day.fermenter.batch_l, rel=0.12)


def when_in(stage):
    return When(stage, str(stage), minutes=10.0, temperature=80.0, days=3.0)


# where a brewer who typed so will find the line on the sheet: extract, hops
PLACES = {
    Stage.STEEP: ("steep", "first wort"),
    Stage.FIRST_WORT: ("extract in", "first wort"),
    Stage.BOIL: ("boil", "boil"),
    Stage.FLAME_OUT: ("flame-out", "flame-out"),
    Stage.STAND: ("flame-out", "stand"),
    Stage.FERMENTER: ("fermenter", "dry hop"),
    Stage.DRY_HOP: ("fermenter", "dry hop"),
}


@pytest.mark.parametrize("stage", PLACES, ids=str)
def test_extract_and_hops_go_in_once_whatever_their_stage(stage, harbour_porter):
    """Hops in the steep go into the first wort, extract for a stand in at flame-out."""
    assert set(PLACES) == set(Stage)
    malt = replace(harbour_porter.fermentables[0], when=when_in(stage), line_id=8)
    hop = replace(harbour_porter.hops[0], when=when_in(stage), line_id=9)
    recipe = replace(
        harbour_porter,
        fermentables=(*harbour_porter.fermentables[1:], malt),
        hops=(*harbour_porter.hops[1:], hop),
    )
    day = brew(recipe)
    went_in = [each.stage for each in day.additions if each.line_id in (8, 9)]
    assert sorted(went_in) == sorted(PLACES[stage])
    names = [(each.lines, each.line_id) for each in day.additions]
    assert len(names) == len(set(names)) == 3 + 2 + 1
