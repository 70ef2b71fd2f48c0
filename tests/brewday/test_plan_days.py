"""The days of a planned recipe: what is shared and mixed keeps its extract, bitterness and water.

That masses add up and that what is mixed is a mean by volume are laws of physics.
"""

from dataclasses import replace

import pytest

from designer.brewday import outlook
from designer.brewday.day import brew
from designer.brewday.outlook import glimpse, look_ahead
from designer.brewday.plan_days import cooled_for_all, days_of
from designer.brewday.plan_together import forecasts_mixed
from designer.brewday.results import Range
from designer.library.places import set_field
from designer.recipe.choices import Turn
from designer.recipe.document import (
    Fermenter,
    PlannedBoil,
    PlannedFermenter,
    WortShare,
)
from designer.recipe.kinds import typed
from designer.recipe.plan import pours, recipe_of_pour, wort_share
from designer.recipe.quantity import Kind


def litres(value):
    return typed(Kind.VOLUME, value)


def bucket(size, mark, *wort):
    return PlannedFermenter(Fermenter("Bucket", litres(size)), tuple(wort), top_up_to=litres(mark))


def halves(recipe, turn=Turn.AFTER):
    water = litres(0.7 * recipe.process.start_water.value)
    half = PlannedBoil(recipe.pot, typed(Kind.FRACTION, 0.5), turn.value, start_water=water)
    return (half, half)


@pytest.fixture
def porter(porter):
    """The porter without ice, which none of these fermenters get."""
    return replace(porter, process=replace(porter.process, frozen_top_up=None))


@pytest.fixture
def written(porter):
    return look_ahead(porter)


def mark_of(porter):
    return porter.process.top_up_to.value


def test_one_boil_shared_evenly_makes_the_written_beer_in_each_bucket(porter, written):
    half = mark_of(porter) / 2.0
    shared = replace(
        porter, fermenters=tuple(bucket(12.0, half, wort_share(1, 0.5)) for _ in range(2))
    )
    outlook = look_ahead(shared)
    assert outlook.forecasts == written.forecasts
    for each in outlook.plan.fermenters:
        assert each.forecasts == written.forecasts
        assert each.total_l == pytest.approx(half, abs=1e-6)
        assert each.from_pot_l == pytest.approx(float(written.day.fermenter.from_pot_l) / 2)
    whole = outlook.day
    assert float(whole.beer.water_l) == pytest.approx(float(written.day.beer.water_l))
    assert float(whole.beer.packaged_l) == pytest.approx(float(written.day.beer.packaged_l))
    assert whole.beer.priming_g == pytest.approx(written.day.beer.priming_g)


def test_uneven_marks_make_a_stronger_and_a_weaker_beer_of_the_same_extract(porter, written):
    mark = mark_of(porter)
    low, high = 0.45 * mark, 0.55 * mark
    shared = replace(
        porter,
        fermenters=(
            bucket(12.0, low, wort_share(1, 0.5)),
            bucket(12.0, high, wort_share(1, 0.5)),
        ),
    )
    strong, weak = look_ahead(shared).plan.fermenters
    points = [1000.0 * (each.forecasts["original_gravity"].value - 1.0) for each in (strong, weak)]
    assert points[0] > points[1]
    before = 1000.0 * (written.forecasts["original_gravity"].value - 1.0) * mark
    # gravity points are as good as in proportion to extract: within a tenth of a point
    assert points[0] * low + points[1] * high == pytest.approx(before, abs=0.1 * mark)
    ibu = [each.forecasts["bitterness_ibu"].value * each.total_l for each in (strong, weak)]
    assert sum(ibu) == pytest.approx(written.forecasts["bitterness_ibu"].value * mark, rel=1e-3)


def test_two_boils_into_one_vessel_are_mixed_there(porter):
    mark = mark_of(porter)
    apart = replace(
        porter,
        boils=halves(porter),
        fermenters=(bucket(12.0, mark / 2, WortShare(1)), bucket(12.0, mark / 2, WortShare(2))),
    )
    into_one = replace(apart, fermenters=(bucket(25.0, mark, WortShare(1), WortShare(2)),))
    one, two = look_ahead(into_one), look_ahead(apart)
    for key, found in one.forecasts.items():
        assert found.value == pytest.approx(two.forecasts[key].value), key
    (vessel,) = one.plan.fermenters
    assert vessel.total_l == pytest.approx(mark, abs=1e-6)
    assert [each.boil for each in vessel.poured] == [1, 2]
    assert sum(each.filled_l for each in vessel.poured) == pytest.approx(mark, abs=1e-6)
    assert one.plan.boils_alike


def test_yeast_goes_in_when_the_last_wort_is_in(porter):
    mark = mark_of(porter)
    plan = replace(
        porter,
        boils=halves(porter),
        fermenters=(bucket(25.0, mark, WortShare(1), WortShare(2)),),
    )
    outlook = look_ahead(plan)
    first, second = outlook.plan.boils
    assert first.starts_min == 0.0
    assert second.starts_min == pytest.approx(float(first.day.total_min))
    (vessel,) = outlook.plan.fermenters
    assert vessel.pitched_min == pytest.approx(second.starts_min + float(second.day.total_min))
    assert float(outlook.day.total_min) == pytest.approx(vessel.pitched_min)


def test_two_pots_at_once_take_no_longer_than_the_slower_of_them(porter):
    plan = replace(porter, boils=halves(porter, Turn.AT_ONCE))
    outlook = look_ahead(plan)
    longest = max(float(each.day.total_min) for each in outlook.plan.boils)
    assert float(outlook.day.total_min) == pytest.approx(longest)


def test_a_boil_of_another_day_begins_its_own_clock_and_pitches_by_itself(porter):
    mark = mark_of(porter)
    plan = replace(
        porter,
        boils=halves(porter, Turn.ANOTHER_DAY),
        fermenters=(bucket(12.0, mark / 2, WortShare(1)), bucket(12.0, mark / 2, WortShare(2))),
    )
    first, second = look_ahead(plan).plan.fermenters
    assert (first.on_day, second.on_day) == (0, 1)
    assert first.pitched_min == pytest.approx(second.pitched_min)


def test_each_line_of_the_recipe_gives_as_much_in_two_halves_as_in_the_whole_it_makes(porter):
    plan = replace(porter, boils=halves(porter))
    outlook = look_ahead(plan)
    points = sum(each.points for each in outlook.day.gives.values())
    gravity = 1000.0 * (outlook.forecasts["original_gravity"].value - 1.0)
    assert points == pytest.approx(gravity, abs=0.2)
    assert (
        outlook.day.gives.keys()
        == {line.line_id for line in (*porter.fermentables, *porter.hops)}
        & outlook.day.gives.keys()
    )


def test_a_vessel_too_small_for_what_it_gets_is_found_and_named(porter):
    mark = mark_of(porter)
    plan = replace(
        porter,
        fermenters=(
            bucket(6.0, 0.7 * mark, wort_share(1, 0.7)),
            bucket(2.0, 0.3 * mark, wort_share(1, 0.3)),
        ),
    )
    full = [each for each in look_ahead(plan).findings if str(each.about).startswith("fermenters")]
    roomy = replace(
        plan,
        fermenters=tuple(
            replace(each, fermenter=Fermenter("Tub", litres(60.0))) for each in plan.fermenters
        ),
    )
    fine = [each for each in look_ahead(roomy).findings if "will not fit" in each.message.text]
    assert len([each for each in full if "will not fit" in each.message.text]) == 2
    assert fine == []
    assert all(each.fix is None for each in full)


def test_wort_that_goes_nowhere_is_told(porter):
    plan = replace(porter, fermenters=(bucket(25.0, 5.0, wort_share(1, 0.5)),))
    said = [each.message.text for each in look_ahead(plan).findings]
    assert "50 % of the wort of boil 1 goes into no fermenter." in said


def test_while_typing_the_values_of_a_plan_are_shown_with_the_ranges_there_were(porter):
    plan = replace(porter, boils=halves(porter))
    before = look_ahead(plan)
    changed = set_field(plan, "yeast.attenuation", "70 %")
    seen, after = glimpse(changed, before), look_ahead(changed)
    for key, found in after.forecasts.items():
        assert seen.forecasts[key].value == pytest.approx(found.value), key


def test_what_was_glimpsed_of_a_plan_is_not_run_again(porter, monkeypatch):
    unlike = (PlannedBoil(porter.pot, typed(Kind.FRACTION, 0.6)),
              PlannedBoil(porter.pot, typed(Kind.FRACTION, 0.4)))  # fmt: skip
    plan = replace(porter, boils=unlike)
    before = look_ahead(plan)
    changed = set_field(plan, "yeast.attenuation", "70 %")
    whole, runs = look_ahead(changed), []
    monkeypatch.setattr(outlook, "brew", lambda recipe: runs.append(recipe) or brew(recipe))
    seen = glimpse(changed, before)
    assert len(runs) == 2
    assert look_ahead(changed, glimpsed=seen) == whole
    assert len(runs) == 2
    other = set_field(plan, "yeast.attenuation", "71 %")
    assert look_ahead(other, glimpsed=seen) == look_ahead(other)


def test_worts_that_lean_to_different_sides_lean_where_their_mix_does():
    higher = Range(10.0, 9.0, 14.0, (), 10.5, 11.0, 12.0)
    level = Range(10.0, 8.0, 12.0, (), 9.0, 10.0, 11.0)
    assert higher.leans == "higher"
    (mixed,) = forecasts_mixed([{"x": higher}, {"x": level}], [1.0, 1.0]).values()
    assert (mixed.value, mixed.low, mixed.high) == (10.0, 8.5, 13.0)
    assert (mixed.first_quartile, mixed.leans) == (9.75, "")
    (mostly,) = forecasts_mixed([{"x": higher}, {"x": level}], [9.0, 1.0]).values()
    assert mostly.leans == "higher"


def test_a_pot_that_is_shared_with_glass_is_cooled_for_the_glass(porter):
    """Wort above some 30 °C never goes into a glass carboy, whichever vessel is named first."""
    half = mark_of(porter) / 2.0
    plastic, other = (bucket(12.0, half, wort_share(1, 0.5)) for _ in range(2))
    glass = replace(other, fermenter=replace(other.fermenter, kind="glass carboy"))
    (boil,) = look_ahead(replace(porter, fermenters=(plastic, glass))).plan.boils
    assert float(boil.day.fermenter.cool_to_c) <= 30.0 + 1e-6
    hot = replace(porter, process=replace(porter.process, cool_to=typed(Kind.TEMPERATURE, 60.0)))
    for order in ((plastic, glass), (glass, plastic)):
        codes = {each.code for each in look_ahead(replace(hot, fermenters=order)).findings}
        assert "hot-into-glass" in codes
    bare = look_ahead(replace(hot, fermenters=(plastic, plastic)))
    assert "hot-into-glass" not in {each.code for each in bare.findings}


def test_a_pot_is_cooled_once_for_the_vessel_that_wants_it_coldest(porter):
    """What gets no water on top has to come out of the pot at pitching temperature."""
    half = mark_of(porter) / 2.0
    diluted = bucket(12.0, 1.5 * half, wort_share(1, 0.5))
    undiluted = replace(bucket(12.0, half, wort_share(1, 0.5)), top_up_to=None)
    alone = [
        float(look_ahead(replace(porter, fermenters=(each, each))).day.fermenter.cool_to_c)
        for each in (diluted, undiluted)
    ]
    assert alone[0] > alone[1] + 1.0
    both = look_ahead(replace(porter, fermenters=(diluted, undiluted)))
    (boil,) = both.plan.boils
    assert float(boil.day.fermenter.cool_to_c) == pytest.approx(alone[1], abs=0.1)


def test_a_recipe_without_a_plan_is_one_boil_and_one_fermenter(porter, written):
    plan = days_of(porter, written)
    (boil,), (fermenter,) = plan.boils, plan.fermenters
    assert (boil.number, boil.on_day, boil.starts_min) == (1, 0, 0.0)
    assert (fermenter.number, fermenter.on_day) == (1, 0)
    assert fermenter.pitched_min == written.day.total_min
    assert (fermenter.vessel, fermenter.yeast) == (porter.fermenter, porter.yeast)
    assert fermenter.total_l == written.day.fermenter.batch_l
    (poured,) = fermenter.poured
    assert (poured.boil, poured.share) == (1, 1.0)
    assert poured.from_pot_l == pytest.approx(float(written.day.fermenter.from_pot_l))
    assert poured.top_up_l == pytest.approx(float(written.day.fermenter.top_up_l))
    assert poured.filled_l == pytest.approx(float(written.day.fermenter.batch_l))
    assert boil.day is fermenter.day is written.day


@pytest.mark.parametrize(
    ("turn", "starts", "days"),
    [(Turn.AFTER, 1.0, (0, 0)), (Turn.AT_ONCE, 0.0, (0, 0)), (Turn.ANOTHER_DAY, 0.0, (0, 1))],
)
def test_boils_follow_each_other_as_they_are_planned(porter, turn, starts, days):
    planned = replace(porter, boils=halves(porter, turn))
    outlook = look_ahead(planned)
    first, second = outlook.plan.boils
    assert (first.starts_min, first.on_day) == (0.0, 0)
    assert second.starts_min == pytest.approx(starts * float(first.day.total_min))
    assert (first.on_day, second.on_day) == days
    (fermenter,) = outlook.plan.fermenters
    assert fermenter.on_day == days[1]
    assert fermenter.pitched_min == pytest.approx(second.starts_min + float(second.day.total_min))
    whole = float(outlook.day.total_min)
    each = float(first.day.total_min), float(second.day.total_min)
    assert whole == pytest.approx(max(each) if turn is Turn.AT_ONCE else sum(each))
    later = [each.start_min for each in outlook.day.spans if each.key == "boil"]
    assert (later[1] > later[0] + 60.0) is (turn is not Turn.AT_ONCE)


def test_only_the_pot_whose_wort_goes_into_glass_is_cooled_for_it(porter):
    glass = Fermenter("Glass", litres(12.0), kind="glass carboy")
    planned = replace(
        porter,
        boils=halves(porter),
        fermenters=(
            PlannedFermenter(glass, (wort_share(1, 1.0),), top_up_to=litres(5.0)),
            bucket(12.0, 5.0, wort_share(2, 1.0)),
        ),
    )
    first, second = pours(planned)
    made = {each: recipe_of_pour(planned, each) for each in (first, second)}
    assert cooled_for_all(planned, first, made[first]).fermenter.kind == "glass carboy"
    assert cooled_for_all(planned, second, made[second]) is made[second]
    both = replace(
        planned, fermenters=(planned.fermenters[0], bucket(12.0, 5.0, wort_share(1, 0.5)))
    )
    into_bucket = pours(both)[-1]
    plain = recipe_of_pour(both, into_bucket)
    assert plain.fermenter.kind != "glass carboy"
    assert cooled_for_all(both, into_bucket, plain).fermenter.kind == "glass carboy"
