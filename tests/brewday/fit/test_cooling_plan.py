"""How much to freeze and how long to cool, against the heat balance and against every choice."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import mass, with_process
from designer.brewday.fit.cooling_plan import cooling_plan, with_frozen
from designer.brewday.fit.draft_way import Kitchen, in_kitchen, with_freezer
from designer.brewday.fit.fermenters import cellar_for
from designer.brewday.fit.original import original_of
from designer.brewday.fit.wish import wish_for
from designer.brewday.hot_wort import HOTTEST_INTO_GLASS_C, HOTTEST_TO_POUR_C
from designer.recipe.quantity import Kind, Quantity
from tests.proof.comparisons import mixed_with_ice_c


def with_kg(recipe, kg):
    return with_process(recipe, frozen_top_up=mass(kg))


def test_the_plan_lands_at_pitching_temperature_in_the_fewest_minutes(quay_pale):
    kettle = replace(quay_pale, process=replace(quay_pale.process, start_water=Quantity(9, "9 L")))
    plan = cooling_plan(kettle, 6.0)
    assert plan.planned.lands
    days = [(kg / 10, brew(with_kg(kettle, kg / 10))) for kg in range(61)]
    landing = [(kg, day) for kg, day in days if abs(day.fermenter.mixed_c - 19.0) <= 1.0]
    fastest = min(float(day.fermenter.cooling_min) for _, day in landing)
    assert plan.planned.cooling_min <= fastest + 1.0
    least = min(kg for kg, day in landing if day.fermenter.cooling_min <= fastest + 1.0)
    assert plan.planned.frozen_kg == pytest.approx(least, abs=0.11)
    assert plan.without.frozen_kg == 0.0
    assert plan.without.cooling_min > plan.planned.cooling_min + 3.0


def test_the_mix_is_that_of_the_heat_balance(porter):
    """Handbook mixing rule H = m1 c1 T1 + m2 cw T2 + mi (ci Ti - L)."""
    plan = cooling_plan(porter, 3.0)
    day = brew(with_frozen(porter, 3.0))
    wort_kg = float(day.fermenter.from_pot_l) * 1.10  # at 1.11 SG or so
    wort = wort_kg, 3.6, plan.planned.cool_to_c
    water, ice = (plan.planned.liquid_top_up_l, 12.0), (plan.planned.frozen_kg, -18.0)
    assert mixed_with_ice_c(wort, water, ice) == pytest.approx(plan.planned.mixed_c, abs=1.5)


def test_wort_is_never_poured_hotter_than_is_safe(porter):
    for kg in (0.0, 1.0, 3.0, 8.0):
        assert cooling_plan(porter, kg).planned.cool_to_c <= HOTTEST_TO_POUR_C + 1e-9


def test_with_nothing_in_the_freezer_the_bath_does_it_all(porter):
    plan = cooling_plan(porter, 0.0)
    assert plan.planned == plan.without
    assert "tap water" in plan.sentence.text
    assert "frozen" not in plan.sentence.text


def test_a_bath_too_warm_for_the_yeast_is_said(porter):
    """Tap water of 26 °C cools nothing to 19 °C; frozen water does."""
    summer = replace(
        porter,
        process=replace(
            porter.process,
            cooling="cold water bath",
            tap_temperature=Quantity(26.0, "26 °C"),
            frozen_top_up=None,
        ),
    )
    warm = cooling_plan(summer)
    assert not warm.planned.lands
    assert "wait before you pitch" in warm.sentence.text
    iced = cooling_plan(summer, 3.0)
    assert iced.planned.lands
    assert iced.planned.frozen_kg > 0.0
    assert not iced.without.lands


def test_none_is_frozen_for_a_minute_or_two(breakwater_red):
    assert cooling_plan(breakwater_red, 3.0).planned.frozen_kg == 0.0


@pytest.fixture(scope="module")
def concentrated(quay_pale):
    """19 L from a boil of 14 L: much to cool, and 5 L to top up with."""
    return with_process(quay_pale, start_water=Quantity(14.0, "14 L"), frozen_top_up=None)


def kg(recipe):
    return recipe.process.frozen_top_up.value


def test_no_more_is_frozen_than_the_freezer_holds_in_tenths_of_a_kilogram(concentrated):
    full = kg(with_frozen(concentrated, 99.0))
    assert full > 1.0
    assert kg(with_frozen(concentrated, 0.95)) == pytest.approx(0.9)
    assert kg(with_frozen(concentrated, 1.0)) == pytest.approx(1.0)
    assert kg(with_frozen(concentrated, full + 0.5)) == full


def test_no_more_is_frozen_than_there_is_top_up(quay_pale):
    """A litre of top-up freezes to a kilogram."""
    near = with_process(
        quay_pale, start_water=Quantity(19.0, "19 L"), top_up_to=Quantity(20.0, "20 L"),
        cooling="standing in air",
    )  # fmt: skip
    top_up = float(brew(with_process(near, frozen_top_up=None)).fermenter.top_up_l)
    assert 0.5 < top_up < 2.0
    made = with_frozen(near, 50.0)
    assert top_up - 0.11 <= kg(made) <= top_up
    assert kg(made) == pytest.approx(round(kg(made), 1))


def test_frozen_water_shortens_the_bath_or_is_not_frozen(concentrated):
    bare = brew(with_process(concentrated, frozen_top_up=mass(0.0)))
    for most in (0.1, 0.3, 0.5, 1.0, 2.0, 4.0):
        made = with_frozen(concentrated, most)
        saved = float(bare.fermenter.cooling_min) - float(brew(made).fermenter.cooling_min)
        assert saved >= 3.0 or kg(made) == 0.0


def test_a_bath_that_ice_shortens_by_less_than_three_minutes_is_left_without(concentrated):
    """For two minutes nobody boils and freezes water: a judgement, no source."""
    bare = brew(with_process(concentrated, frozen_top_up=mass(0.0)))
    some = [with_process(concentrated, frozen_top_up=mass(n / 10)) for n in range(1, 40)]
    saved = [
        float(bare.fermenter.cooling_min) - float(brew(each).fermenter.cooling_min) for each in some
    ]
    least = next(n for n, each in enumerate(saved, 1) if each >= 3.0)
    assert kg(with_frozen(concentrated, (least - 1) / 10)) == 0.0
    assert kg(with_frozen(concentrated, least / 10)) == pytest.approx(least / 10)


def test_the_least_that_lets_the_pot_be_poured_as_hot_as_may_be_is_frozen(concentrated):
    full = kg(with_frozen(concentrated, 99.0))
    at = brew(with_process(concentrated, frozen_top_up=mass(full)))
    less = brew(with_process(concentrated, frozen_top_up=mass(full - 0.2)))
    assert float(less.fermenter.cool_to_c) < HOTTEST_TO_POUR_C
    assert float(at.fermenter.cool_to_c) >= float(less.fermenter.cool_to_c)
    assert float(at.fermenter.mixed_c) >= 19.0 - 0.1


@pytest.mark.parametrize("start_l", [9.0, 10.0, 11.0, 12.5, 14.0, 16.0])
def test_it_is_the_most_tenths_that_still_let_the_pot_be_poured_hotter(quay_pale, start_l):
    """Up to 40 °C, less the twentieth of a degree that no thermometer shows."""
    recipe = with_process(quay_pale, start_water=Quantity(start_l, f"{start_l:g} L"))
    pours = [
        float(brew(with_process(recipe, frozen_top_up=mass(n / 10))).fermenter.cool_to_c)
        for n in range(45)
    ]
    most = max(n for n, pour in enumerate(pours) if pour <= HOTTEST_TO_POUR_C - 0.05)
    assert kg(with_frozen(recipe, 99.0)) == pytest.approx(most / 10)


def test_less_than_a_kilogram_of_ice_is_told_of_too(porter):
    some = with_process(porter, frozen_top_up=mass(0.9))
    assert "900 g of boiled and frozen water" in cooling_plan(some).sentence.text


@pytest.fixture(scope="module")
def summer(porter):
    """Tap water of 26 °C in the bath and on top: it never comes to 19 °C."""
    return with_process(
        porter, cooling="cold water bath", tap_temperature=Quantity(26.0, "26 °C"),
        frozen_top_up=None,
    )  # fmt: skip


def test_a_mix_more_than_a_degree_off_is_worth_freezing_for_however_few_minutes(summer):
    bare = brew(with_process(summer, frozen_top_up=mass(0.0)))
    assert float(bare.fermenter.mixed_c) - 19.0 > 1.0
    some = with_frozen(summer, 0.2)
    assert kg(some) == pytest.approx(0.2)
    assert float(bare.fermenter.cooling_min) - float(brew(some).fermenter.cooling_min) < 3.0
    assert float(brew(some).fermenter.mixed_c) < float(bare.fermenter.mixed_c)


def test_a_mix_within_a_degree_counts_as_landed(summer):
    """Yeast asks for no more: common practice, no source."""
    bare = float(brew(summer).fermenter.mixed_c)

    def lands(pitch):
        typed = with_process(summer, pitch_temperature=Quantity(pitch, f"{pitch} °C"))
        plan = cooling_plan(typed)
        assert plan.planned.lands == (abs(plan.planned.mixed_c - pitch) <= 1.0)
        return plan.planned.lands

    assert lands(bare - 0.9)
    assert not lands(bare - 1.2)


def test_what_the_recipe_says_is_kept_where_nothing_is_said_of_the_freezer(porter):
    plan = cooling_plan(porter)
    day = brew(porter)
    assert plan.planned.frozen_kg == float(day.fermenter.frozen_kg) == 1.5
    assert plan.planned.cooling_min == float(day.fermenter.cooling_min)
    assert plan.planned.mixed_c == float(day.fermenter.mixed_c)
    assert plan.planned.cool_to_c == float(day.fermenter.cool_to_c)
    assert plan.planned.liquid_top_up_l == float(day.fermenter.liquid_top_up_l)
    bare = brew(with_process(porter, frozen_top_up=None))
    assert plan.without.frozen_kg == 0.0
    assert plan.without.cooling_min == float(bare.fermenter.cooling_min)
    assert plan.without.mixed_c == float(bare.fermenter.mixed_c)


def test_the_plan_is_told_with_its_minutes_degrees_and_kilograms_in_order(porter):
    plan = cooling_plan(porter)
    kinds = [kind for kind, _ in plan.sentence.figures]
    assert kinds == [
        Kind.TIME, Kind.TEMPERATURE, Kind.TEMPERATURE, Kind.MASS, Kind.TIME, Kind.TEMPERATURE,
    ]  # fmt: skip
    values = [value for _, value in plan.sentence.figures]
    assert values == [
        plan.planned.cooling_min, plan.planned.cool_to_c, plan.planned.mixed_c,
        plan.planned.frozen_kg, plan.without.cooling_min, plan.without.mixed_c,
    ]  # fmt: skip
    assert "ice bath" in plan.sentence.text
    bare = cooling_plan(with_process(porter, frozen_top_up=None))
    assert [value for _, value in bare.sentence.figures] == [
        bare.planned.cooling_min, bare.planned.cool_to_c, bare.planned.mixed_c,
    ]  # fmt: skip


def test_a_mix_that_does_not_land_is_told_with_what_the_yeast_wants(summer):
    plan = cooling_plan(summer)
    assert [value for _, value in plan.sentence.figures] == [
        plan.planned.cooling_min, plan.planned.cool_to_c, plan.planned.mixed_c, 19.0,
    ]  # fmt: skip


def kitchen(recipe, **changes):
    return Kitchen(replace(wish_for(recipe, 9.0, (12.0, 30.0)), **changes), original_of(recipe))


def test_of_the_frozen_top_up_a_smaller_batch_has_its_share(porter):
    """1.5 kg for 10 L is 0.8 kg for 5 L, to the tenth that a box holds."""
    here = kitchen(porter)
    cellar = cellar_for(here.wish, 10.0)
    assert in_kitchen(here, cellar, 5.0).process.frozen_top_up.value == 0.8
    assert in_kitchen(here, cellar, 10.0).process.frozen_top_up == porter.process.frozen_top_up
    assert in_kitchen(here, cellar, 9.96).process.frozen_top_up == porter.process.frozen_top_up
    none = kitchen(with_process(porter, frozen_top_up=None))
    assert in_kitchen(none, cellar, 5.0).process.frozen_top_up is None


def test_a_recipe_in_a_kitchen_has_its_vessels_and_its_mark(porter):
    here = kitchen(porter)
    made = in_kitchen(here, cellar_for(here.wish, 8.0), 8.0)
    assert made.pot == here.wish.pot
    assert made.fermenter == here.wish.fermenters[1]
    assert made.process.top_up_to.value == 8.0
    assert made.fermentables == porter.fermentables


def test_the_freezer_s_own_holding_goes_before_the_recipe_s(concentrated):
    recipe = with_process(concentrated, frozen_top_up=mass(0.4))
    assert with_freezer(kitchen(recipe, most_frozen_kg=3.0), recipe) == with_frozen(recipe, 3.0)
    assert kg(with_freezer(kitchen(recipe, most_frozen_kg=0.0), recipe)) == 0.0


def test_the_recipe_s_own_ice_stays_unless_the_mix_lands_too_cold(porter):
    some = with_process(porter, frozen_top_up=mass(0.9))
    assert float(brew(some).fermenter.mixed_c) == pytest.approx(19.0)
    assert with_freezer(kitchen(some), some) is some
    plain = with_process(porter, frozen_top_up=None)
    assert with_freezer(kitchen(plain), plain) is plain
    much = with_process(porter, frozen_top_up=mass(4.0))
    assert float(brew(much).fermenter.mixed_c) < 18.0
    made = with_freezer(kitchen(much), much)
    assert kg(made) < 4.0
    assert float(brew(made).fermenter.mixed_c) >= 19.0 - 0.1


def test_frozen_water_never_lets_wort_be_poured_hot_into_glass(porter):
    glass = replace(porter, fermenter=replace(porter.fermenter, kind="glass carboy"))
    for kg in (0.0, 0.8, 3.0):
        assert cooling_plan(glass, kg).planned.cool_to_c <= HOTTEST_INTO_GLASS_C + 1e-9
