"""How much to freeze and how long to cool, against the heat balance and against every choice."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fermenter import HOTTEST_TO_POUR_C
from designer.brewday.fit.changed_recipe import mass, with_process
from designer.brewday.fit.cooling_plan import cooling_plan, with_frozen
from designer.recipe.quantity import Quantity
from designer.wort.chilling import mixed_with_ice


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
    """Handbook mixing rule H = m1 c1 T1 + m2 cw T2 + mi (ci Ti - L), run by the wort module."""
    plan = cooling_plan(porter, 3.0)
    day = brew(with_frozen(porter, 3.0))
    wort_kg = float(day.fermenter.from_pot_l) * 1.10  # at 1.11 SG or so
    found = mixed_with_ice(
        wort_kg, 3.6, plan.planned.cool_to_c, plan.planned.liquid_top_up_l, 12.0,
        plan.planned.frozen_kg, -18.0,
    )  # fmt: skip
    mixed = found[0] if isinstance(found, tuple) else found
    assert float(mixed) == pytest.approx(plan.planned.mixed_c, abs=1.5)


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
