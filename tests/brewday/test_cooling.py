"""Cooling by way, volume and surface: home records, physics and a constant of the brewer's own."""

from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.cooling import Cooling, to_put_round, water_until_c
from designer.brewday.day import brew, brew_samples
from designer.brewday.doubts import draws
from designer.brewday.heat_doubts import COOLING, COOLING_IN_AIR, STAND, STOVES
from designer.brewday.measuring_better import better_half_width
from designer.brewday.outlook import look_ahead
from designer.brewday.pot import Contents
from designer.recipe.document import Pot, Process
from designer.recipe.quantity import Quantity, Stage, When
from designer.wort.heat import STOVE_EFFICIENCY


def plain(kitchen, litres, way, **typed):
    """A pot of plain water that nothing leaves, brought to the boil and cooled to 20 °C."""
    process = Process(
        start_water=kitchen.q(litres, "L"),
        evaporation=kitchen.q(0, "L/h"),
        left_in_pot=kitchen.q(0, "L"),
        tap_temperature=kitchen.q(12, "°C"),
        cool_to=kitchen.q(20, "°C"),
        cooling=way,
    )
    pot = Pot(power=kitchen.q(9000, "W"), diameter=typed.pop("diameter", None))
    return kitchen.recipe(process=replace(process, **typed), pot=pot)


def minutes(recipe):
    return float(brew(recipe).fermenter.cooling_min)


@pytest.mark.parametrize(
    ("litres", "least", "most"),
    [(4, 17, 30), (9.5, 30, 40), (19, 28, 50), (41, 45, 75)],
)
def test_a_larger_pot_takes_longer_in_an_ice_bath(litres, least, most, kitchen):
    """9.5 L took 30 to 40 min, 19 L 15 to 60 (home records, second-hand); else physics."""
    assert least <= minutes(plain(kitchen, litres, "ice bath")) <= most


def test_in_like_pots_the_time_goes_with_the_cube_root_of_the_volume(kitchen):
    small, large = (minutes(plain(kitchen, each, "cold water bath")) for each in (8, 27))
    assert large / small == pytest.approx(1.5, rel=1e-3)


def test_a_flat_pot_cools_faster_than_one_as_deep_as_wide(kitchen):
    """8 L fill a pot of 22 cm as deep as wide; of 40 cm they wet a fifth more for each litre."""
    usual, same, flat = (
        minutes(plain(kitchen, 8, "cold water bath", diameter=across and kitchen.q(across, "m")))
        for across in (None, 0.2168, 0.40)
    )
    assert same == pytest.approx(usual, rel=0.01)
    assert flat < 0.9 * usual


@pytest.mark.parametrize(("litres", "constant"), [(8, 0.27), (20, 0.11)])
def test_a_coil_cools_in_proportion_to_what_there_is(litres, constant, kitchen):
    """Computed with 150 W/K: 0.27 per minute at 8 L, 0.11 at 20 L."""
    found = np.log((100 - 12) / (20 - 12)) / minutes(plain(kitchen, litres, "coil"))
    assert found == pytest.approx(constant, abs=0.006)


def test_no_coil_takes_more_than_its_water_can_carry(kitchen):
    """4 L a minute take up 280 W for each kelvin (physics)."""
    sure = {
        "tap_temperature": Quantity(12.0, "12 °C", 0.0),
        "start_water": Quantity(8.0, "8 L", 0.0),
    }
    day, _ = brew_samples(plain(kitchen, 8, "coil", **sure), 512)
    fastest = np.log((100 - 12) / (20 - 12)) / float(np.min(day.fermenter.cooling_min))
    assert fastest == pytest.approx(0.06 * 280 / (8 * 0.998 * 4.1868), rel=0.02)


def test_a_covered_pot_in_air_takes_twice_as_long_as_the_open_kettle_of_the_fit(kitchen):
    """Source: Hosom's fit, 10 L in 26 cm: 100 to 80 °C in 22.4 min open; the lid is judgement."""
    recipe = plain(
        kitchen, 10, "standing in air", diameter=kitchen.q(0.26, "m"), cool_to=kitchen.q(80, "°C")
    )
    assert minutes(recipe) == pytest.approx(2 * 22.4, rel=0.01)


def test_a_typed_constant_is_the_brewers_own_whatever_the_volume(kitchen):
    own = kitchen.q(0.05, "/min")
    few, many = (
        minutes(plain(kitchen, each, "cold water bath", cooling_constant=own)) for each in (4, 40)
    )
    assert few == pytest.approx(many, rel=1e-3)
    assert few == pytest.approx(np.log(88 / 8) / 0.05, rel=1e-3)


@pytest.mark.parametrize(("litres", "ice_kg"), [(8, 1.8), (12, 2.7), (20, 4.5)])
def test_ice_takes_the_heat_from_forty_degrees_on(litres, ice_kg, kitchen):
    """Computed: 1.8, 2.7, 4.5 kg of ice for 8, 12, 20 L from 40 to 20 °C, water first."""
    found = float(brew(plain(kitchen, litres, "ice bath")).fermenter.bath_ice_kg)
    assert found == pytest.approx(ice_kg, rel=0.04)


def test_the_ice_of_the_bath_takes_up_what_the_wort_gives_off(kitchen):
    """Physics: heat in = heat out; ice of -18 °C melts and warms to the bath's 2 °C."""
    day = brew(plain(kitchen, 8, "ice bath"))
    given_kj = 8 * 0.9995 * 4.1868 * (40 - 20)
    taken_kj = 2.1 * 18 + 333.55 + 4.1868 * 2
    assert float(day.fermenter.bath_ice_kg) == pytest.approx(given_kj / taken_kj, rel=2e-3)


def test_for_the_last_degrees_that_water_takes_as_well_no_ice_is_bought(kitchen):
    for goal in (60, 40, 36):
        warm = plain(kitchen, 8, "ice bath", cool_to=kitchen.q(goal, "°C"))
        assert float(brew(warm).fermenter.bath_ice_kg) == 0.0
        assert minutes(warm) == pytest.approx(np.log(88 / (goal - 12)) / 0.05, rel=1e-3)
    cold = plain(kitchen, 8, "ice bath", cool_to=kitchen.q(34, "°C"))
    assert float(brew(cold).fermenter.bath_ice_kg) > 0.4
    for way in ("cold water bath", "coil", "standing in air"):
        assert float(brew(plain(kitchen, 8, way)).fermenter.bath_ice_kg) == 0.0


def test_warm_tap_water_is_left_for_ice_sooner():
    assert water_until_c(12.0) == 40.0
    assert water_until_c(34.0) == 44.0


@pytest.mark.parametrize(
    ("doubt", "low", "high"),
    [(COOLING, 0.607, 1.649), (COOLING_IN_AIR, 0.472, 2.117), (STAND, -2.0, 2.0),
     (STOVES["electric"], 0.60, 0.80), (STOVES["gas"], 0.30, 0.50),
     (STOVES["induction"], 0.75, 0.90)],
    ids=["cooling", "in air", "stand", "electric", "gas", "induction"],
)  # fmt: skip
def test_doubts_of_heat_are_as_wide_as_their_sources_have_them(doubt, low, high):
    """Cooling x or / e^0.5 from home records, in air e^0.75, a lid on or off; thermometer ±2 °C,
    common practice; heads: EPRI.
    """
    found = np.percentile(draws(doubt, doubt.words, 4000), (5, 95))
    assert found == pytest.approx([low, high], abs=2e-3)


def test_published_efficiencies_are_the_values_of_the_day():
    assert {stove: doubt.published for stove, doubt in STOVES.items()} == STOVE_EFFICIENCY


def test_two_readings_narrow_what_late_hops_give(kitchen, harbour_porter):
    """R 0.75 unmeasured in air, R 0.15 from two readings (judgement)."""
    late = replace(harbour_porter, hops=(replace(harbour_porter.hops[1], amount=kitchen.q(0.1)),))
    slow = replace(late.process, cooling="standing in air")
    before, sure = (
        look_ahead(replace(late, process=replace(slow, cooling_constant=each)))
        .forecasts["bitterness_ibu"] for each in (None, Quantity(0.0074, "0.0074 /min"))
    )  # fmt: skip
    cause = next(each for each in before.causes if each.key == COOLING.words)
    assert cause.advice == "take two readings of the wort while it cools"
    assert sure.high - sure.low < before.high - before.low
    assert cause.high - cause.low == pytest.approx(sure.high - sure.low, rel=0.12)
    _, tolerances = brew_samples(replace(late, process=slow), 8)
    left = better_half_width(COOLING.words, tolerances[COOLING.words])[1]
    assert left == pytest.approx(0.15 / 0.8223, rel=1e-3)


def test_a_stand_is_as_warm_as_its_thermometer_is_right(harbour_porter):
    hop = replace(
        harbour_porter.hops[1], when=When(Stage.STAND, "stand 30 min at 80 °C", 30.0, 80.0)
    )
    stood = replace(harbour_porter, hops=(hop,))
    assert STAND.words in brew_samples(stood, 8)[1]
    assert STAND.words not in brew_samples(harbour_porter, 8)[1]
    moment = next(each for each in brew(stood).moments if each.stage == "stand")
    assert moment.temperature_c == 80.0


def cooling(way, tap_c=12.0, typed=None, faster=1.0):
    return Cooling(way, tap_c, 20.0, None, typed, faster)


def pot_of(litres):
    pot = Contents()
    pot.pour_in("fill", "water", 0.0, 0.998 * litres, 90.0)
    return pot


def test_each_way_of_cooling_has_its_coolant_and_goes_to_a_degree_above_it():
    (water,) = cooling("cold water bath").legs(pot_of(8.0), 20.0)
    assert (water.coolant_c, water.until_c, water.takes_ice) == (12.0, 13.0, False)
    (coil,) = cooling("coil").legs(pot_of(8.0), 20.0)
    assert (coil.coolant_c, coil.until_c) == (12.0, 13.0)
    (air,) = cooling("standing in air").legs(pot_of(8.0), 20.0)
    assert (air.coolant_c, air.until_c) == (20.0, 21.0)
    first, ice = cooling("ice bath").legs(pot_of(8.0), 20.0)
    assert (first.coolant_c, first.until_c, first.takes_ice) == (12.0, 40.0, False)
    assert (ice.coolant_c, ice.until_c, ice.takes_ice) == (2.0, 3.0, True)
    assert first.constant_per_min < ice.constant_per_min


def test_ice_is_fetched_where_water_of_the_tap_does_no_more():
    """From 40 °C on, from 10 above the tap where that is warmer; not for the last five degrees."""

    def until(target, tap_c=12.0):
        return float(cooling("ice bath", tap_c).legs(pot_of(8.0), target)[0].until_c)

    assert [until(20.0), until(34.9), until(35.1), until(50.0)] == [40.0, 40.0, 35.1, 50.0]
    assert [until(20.0, 33.0), until(38.5, 33.0)] == [43.0, 38.5]


def test_a_constant_that_was_typed_goes_for_every_leg_and_a_faster_bath_is_faster():
    for way in ("ice bath", "cold water bath", "coil", "standing in air"):
        typed = cooling(way, typed=0.033).legs(pot_of(8.0), 20.0)
        assert {each.constant_per_min for each in typed} == {0.033}
    for way in ("ice bath", "cold water bath", "standing in air"):
        plain = cooling(way).legs(pot_of(8.0), 20.0)
        faster = cooling(way, faster=1.5).legs(pot_of(8.0), 20.0)
        assert [each.constant_per_min for each in faster] == pytest.approx(
            [1.5 * each.constant_per_min for each in plain]
        )


@pytest.mark.parametrize(
    ("takes", "put"), [(0.0, 0.0), (0.1, 0.5), (0.5, 0.5), (0.51, 1.0), (2.3, 2.5), (2.6, 3.0)]
)
def test_ice_for_a_bath_is_put_round_to_the_next_half_kilogram(takes, put):
    assert to_put_round(takes) == put
