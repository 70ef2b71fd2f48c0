"""The stages of the day as the time line shows them: what is between two of them, and after.

Water that goes off, heat that is wasted, what stays behind: mass and heat balance.
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from designer.brewday.day import brew
from designer.recipe.document import Fermentable, Hop
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Stage, When
from tests.brewday.quantities import q


@pytest.fixture
def porter(harbour_porter):
    return harbour_porter


def changed(recipe, part="process", **fields):
    return replace(recipe, **{part: replace(getattr(recipe, part), **fields)})


def at(day, stage):
    return [each for each in day.moments if each.stage == stage]


def span(day, key):
    return [each for each in day.spans if each.key == key]


@pytest.mark.parametrize("stage", ["heat water", "heat to boil"])
def test_water_warms_evenly_on_the_time_line_between_two_stages(porter, stage):
    day = brew(changed(porter, boil_time=q(60, "min")))
    (heating, *_) = span(day, stage)
    first = next(each for each in day.moments if each.time_min == heating.start_min)
    notes = [each for each in at(day, stage) if each.time_min <= heating.end_min][:4]
    assert len(notes) == 4
    reached = notes[3].temperature_c
    for part, note in zip((0.25, 0.5, 0.75, 1.0), notes, strict=True):
        took = heating.end_min - heating.start_min
        assert note.time_min == pytest.approx(heating.start_min + part * took)
        if stage == "heat water":
            from_c = first.temperature_c
            assert note.temperature_c == pytest.approx(from_c + part * (reached - from_c))
    steps = [b.temperature_c - a.temperature_c for a, b in pairwise(notes)]
    assert steps == pytest.approx([steps[0]] * 3)
    assert steps[0] > 3.0


def test_what_stays_in_the_pot_is_wort_as_it_was(porter):
    day = brew(porter)
    (left,) = at(day, "move")
    before = at(day, "cool")[-1]
    behind = float(day.fermenter.lost_to_trub_l) + float(day.fermenter.lost_to_hops_l)
    assert left.wort_l == pytest.approx(behind, rel=1e-6)
    assert left.gravity_sg == pytest.approx(before.gravity_sg)
    assert left.bitterness_ibu == pytest.approx(before.bitterness_ibu)
    assert left.bitterness_ibu == pytest.approx(float(day.fermenter.pot_ibu), rel=1e-6)
    assert left.temperature_c == pytest.approx(float(day.fermenter.cool_to_c))
    assert left.fermenter_volume_l == pytest.approx(float(day.fermenter.from_pot_l), rel=1e-6)
    assert left.time_min == pytest.approx(before.time_min + 10.0)
    (moved,) = span(day, "move")
    assert (moved.start_min, moved.end_min) == pytest.approx((before.time_min, left.time_min))
    (mixed,) = span(day, "top up")
    assert mixed.end_min - mixed.start_min == pytest.approx(10.0)
    (pitched,) = at(day, "pitch")
    assert pitched.fermenter_volume_l == pytest.approx(float(day.fermenter.batch_l))
    assert pitched.temperature_c == pytest.approx(float(day.fermenter.mixed_c))


def test_an_empty_pot_has_no_bitterness(porter):
    none = replace(changed(porter, left_in_pot=q(0, "L")), hops=())
    (left,) = at(brew(none), "move")
    assert (left.wort_l, left.bitterness_ibu) == (pytest.approx(0.0, abs=1e-9), 0.0)


@pytest.mark.parametrize("minutes", [0.5, 1.0, 20.0, 60.0, 71.0, 135.0])
def test_what_boils_away_goes_with_the_time(porter, minutes):
    """0.9 L/h; a stove of 2 kW drives off twice that."""
    plain = replace(changed(porter, boil_time=q(minutes, "min")), hops=(), extras=())
    plain = replace(plain, fermentables=plain.fermentables[2:])
    day = brew(with_line_ids(plain))
    assert float(day.pot.evaporated_l) == pytest.approx(0.9 * minutes / 60.0, rel=2e-3)
    (boil,) = span(day, "boil")
    assert boil.end_min - boil.start_min == pytest.approx(minutes)
    assert float(day.pot.boil_start_l - day.pot.boil_end_l) == pytest.approx(
        float(day.pot.evaporated_l), rel=0.01
    )


def test_lifting_the_grain_takes_five_minutes_and_what_it_holds(porter):
    grain = replace(porter.fermentables[2], amount=q(0.5, "kg"))
    recipe = replace(porter, fermentables=(*porter.fermentables[:2], grain))
    recipe = changed(recipe, grain_absorption=q(1.2, "L/kg"))
    day = brew(recipe)
    assert float(day.steep.held_in_grain_l) == pytest.approx(0.6, rel=1e-6)
    (lift,) = span(day, "lift")
    assert lift.end_min - lift.start_min == pytest.approx(5.0)
    before, after = at(day, "steep")[-1], at(day, "lift")[-1]
    assert before.wort_l - after.wort_l == pytest.approx(0.6, abs=0.01)
    assert before.pot_volume_l - after.pot_volume_l == pytest.approx(0.6 + 0.5 * 0.65, abs=0.08)


def test_the_bag_never_holds_more_than_nine_tenths_of_the_water(porter):
    grain = replace(porter.fermentables[2], amount=q(3.0, "kg"))
    recipe = replace(porter, fermentables=(grain,))
    recipe = changed(recipe, start_water=q(2.0, "L"), grain_absorption=q(1.5, "L/kg"))
    assert float(brew(recipe).steep.held_in_grain_l) == pytest.approx(1.8, rel=0.01)


def late(porter, *extra_hops, stage=Stage.FLAME_OUT):
    lines = list(porter.fermentables)
    lines[0] = replace(lines[0], when=When(stage, "flame-out"))
    return with_line_ids(
        replace(porter, fermentables=tuple(lines), hops=(*porter.hops, *extra_hops))
    )


def test_extract_off_the_boil_waits_a_minute_and_is_kept_hot_for_ten(porter):
    """Common practice, no source: 75 °C for ten minutes kills what spoils beer."""
    day = brew(late(porter))
    (still,) = span(day, "off the boil")
    (hot,) = span(day, "kept hot")
    assert still.end_min - still.start_min == pytest.approx(1.0)
    assert hot.end_min - hot.start_min == pytest.approx(10.0)
    assert at(day, "kept hot")[0].temperature_c >= 75.0
    assert at(day, "heat again") == []


def test_cold_extract_in_little_wort_is_heated_again(porter):
    much = late(changed(porter, start_water=q(3, "L")))
    lines = (replace(much.fermentables[0], amount=q(3.0, "kg")), *much.fermentables[1:])
    day = brew(replace(much, fermentables=lines))
    assert len(span(day, "heat again")) == 1
    assert at(day, "heat again")[-1].temperature_c == pytest.approx(75.0)
    assert at(day, "kept hot")[0].temperature_c == pytest.approx(75.0)


def test_a_coil_takes_its_room_from_the_boil_on(porter):
    coil = changed(late(porter), cooling="coil")
    with_coil = changed(coil, "pot", coil=q(0.5, "L"))
    without = changed(coil, "pot", coil=q(0.0, "L"))
    one, other = brew(with_coil), brew(without)
    for before, after in zip(other.moments, one.moments, strict=True):
        boils = before.stage in ("extract in", "boil", "flame-out", "kept hot")
        assert before.stage == after.stage
        assert after.pot_volume_l - before.pot_volume_l == pytest.approx(0.5 if boils else 0.0), (
            before.stage
        )
    assert float(one.pot.fullest_boiling_l - other.pot.fullest_boiling_l) == pytest.approx(0.5)


def stand(name, minutes, temperature):
    when = When(Stage.STAND, f"stand {minutes} min", float(minutes), temperature=temperature)
    return Hop(name, "pellets", q(0.05), q(0.01, "kg"), when)


def test_stands_are_held_from_the_warmest_down_and_hops_go_in_as_their_time_has_come(porter):
    hops = (stand("Cool", 10, 70.0), stand("Short", 5, 80.0), stand("Long", 20, 80.0))
    day = brew(with_line_ids(replace(porter, hops=hops)))
    warm, cool = span(day, "stand")
    assert warm.end_min - warm.start_min == pytest.approx(20.0)
    assert cool.end_min - cool.start_min == pytest.approx(10.0)
    assert warm.end_min < cool.start_min
    went_in = {each.name: each.time_min for each in day.additions if each.lines == "hops"}
    assert went_in["Long"] == pytest.approx(warm.start_min)
    assert went_in["Short"] == pytest.approx(warm.start_min + 15.0)
    assert went_in["Cool"] == pytest.approx(cool.start_min)
    temperatures = [round(each.temperature_c, 6) for each in at(day, "stand")]
    assert temperatures == [80.0, 80.0, 80.0, 70.0, 70.0]
    nowhere = brew(with_line_ids(replace(porter, hops=(stand("Usual", 10, None),))))
    assert at(nowhere, "stand")[0].temperature_c == pytest.approx(80.0)


def test_a_hop_in_the_last_minutes_boils_so_long_and_the_count_goes_on(porter):
    hops = tuple(
        Hop(f"At {left}", "pellets", q(0.05), q(0.01, "kg"), When(Stage.BOIL, "boil", float(left)))
        for left in (75, 60, 20, 0)
    )
    day = brew(with_line_ids(replace(porter, hops=hops, extras=())))
    (boil,) = span(day, "boil")
    went_in = {each.name: each for each in day.additions if each.lines == "hops"}
    for left, name in ((60.0, "At 75"), (60.0, "At 60"), (20.0, "At 20"), (0.0, "At 0")):
        assert went_in[name].boil_left_min == left
        assert went_in[name].time_min == pytest.approx(boil.end_min - left)


def test_a_grain_or_an_extract_of_nothing_changes_nothing(porter):
    nothing = Fermentable("None", "dry extract", q(0, "kg"), When(Stage.BOIL, "boil", 15.0))
    same = with_line_ids(replace(porter, fermentables=(*porter.fermentables, nothing)))
    plain, other = brew(porter), brew(same)
    assert float(other.beer.original_gravity) == pytest.approx(float(plain.beer.original_gravity))
    assert float(other.total_min) == pytest.approx(float(plain.total_min))
