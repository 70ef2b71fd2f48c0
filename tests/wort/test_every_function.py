"""Promises of every public function of numbers, wherever in a kitchen it is asked.

One number at a time or many at once give the same answers over the whole domain, ends included: an
empty pot, no grain, no power, no time. Warnings of numpy count as errors, no answer may be nan, and
plain numbers never load numpy.
"""

import importlib
import inspect
import math
import pkgutil
import subprocess
import sys
from functools import partial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import designer.wort
from designer.wort import (
    bitterness,
    bitterness_methods,
    carbonation,
    chilling,
    colour,
    density,
    extract,
    fermentation,
    heat,
    hop_age,
    hydrometer,
    isomerisation_rate,
    pitching,
    refractometer,
    steeping,
    water,
    water_treatment,
)

KG, LITRES, MINUTES = (0.0, 60.0), (0.0, 100.0), (0.0, 240.0)
LIQUID_C, KITCHEN_C, COLD_C = (0.0, 100.0), (-10.0, 110.0), (0.0, 40.0)
GRAVITY, PLATO, SHARE, WATTS = (0.98, 1.25), (0.0, 60.0), (0.0, 1.0), (0.0, 5000.0)
ALTITUDE_M, HOPS_KG, SRM = (-500.0, 50000.0), (0.0, 2.0), (0.0, 120.0)

DOMAINS = {
    water.water_density: [LIQUID_C],
    water.air_pressure: [ALTITUDE_M],
    water.boiling_point: [ALTITUDE_M],
    density.wort_density: [(0.0, 0.85), LIQUID_C],
    density.density_slope: [(0.0, 0.85), LIQUID_C],
    density.extract_fraction_from_density: [(900.0, 1400.0), LIQUID_C],
    density.gravity_from_plato: [PLATO],
    density.plato_from_gravity: [GRAVITY],
    extract.plato: [KG, KG],
    extract.gravity: [KG, KG],
    extract.volume_l: [KG, KG, LIQUID_C],
    extract.extract_for: [GRAVITY, LITRES],
    extract.water_for_volume: [KG, LITRES],
    extract.yield_from_ppg: [(0.0, 50.0)],
    heat.heat_capacity_kj_k: [KG, KG, LIQUID_C],
    heat.enthalpy_kj: [KG, KG, LIQUID_C],
    heat.temperature_for: [(0.0, 30000.0), KG, KG],
    heat.heating_time_min: [(0.0, 300.0), LIQUID_C, LIQUID_C, WATTS, (0.0, 20.0), COLD_C],
    heat.temperature_after_heating: [(0.0, 300.0), LIQUID_C, MINUTES, WATTS, (0.0, 20.0), COLD_C],
    heat.heat_of_vaporisation: [LIQUID_C],
    heat.evaporation_kg_h: [(-2000.0, 5000.0), LIQUID_C],
    heat.boiling_point_rise: [(0.0, 100.0)],
    steeping.base_malt_yield: [LIQUID_C, MINUTES],
    steeping.strike_temperature: [LIQUID_C, KG, KG, LIQUID_C, SHARE],
    chilling.ice_enthalpy_kj: [KG, (-30.0, 5.0)],
    chilling.settled: [(-20000.0, 30000.0), KG, KG, KG],
    chilling.bath_constant: [SHARE, LITRES],
    chilling.coil_constant: [(0.0, 300.0), (0.0, 3.0)],
    chilling.standing_constant: [LITRES],
    chilling.bath_ice_kg: [(0.0, 30000.0), COLD_C, (-30.0, 0.0)],
    chilling.newton_temperature: [LIQUID_C, COLD_C, SHARE, MINUTES],
    chilling.newton_time: [LIQUID_C, LIQUID_C, LIQUID_C, SHARE],
    chilling.newton_constant: [LIQUID_C, LIQUID_C, LIQUID_C, MINUTES],
    hydrometer.extract_from_reading: [GRAVITY, (0.0, 60.0), (15.0, 20.0)],
    hydrometer.true_gravity: [GRAVITY, (0.0, 60.0), (15.0, 20.0)],
    hydrometer.reading_for: [GRAVITY, (0.0, 60.0), (15.0, 20.0)],
    hydrometer.on_its_scale: [GRAVITY, (15.0, 20.0)],
    hydrometer.on_its_scale: [GRAVITY, (15.0, 20.0)],
    refractometer.plato_from_brix: [PLATO, (0.0, 1.2)],
    refractometer.final_gravity_linear: [(0.0, 40.0), (0.0, 40.0)],
    refractometer.final_gravity_cubic: [(0.0, 40.0), (0.0, 40.0)],
    refractometer.final_gravity_older: [(0.0, 40.0), (0.0, 40.0)],
    fermentation.real_extract: [PLATO, (-3.0, 60.0)],
    fermentation.alcohol_by_weight: [PLATO, (-3.0, 60.0)],
    fermentation.alcohol_by_weight_cutaia: [PLATO, (-3.0, 60.0)],
    fermentation.alcohol_balling: [GRAVITY, GRAVITY],
    fermentation.alcohol_cutaia: [GRAVITY, GRAVITY],
    fermentation.alcohol_hall: [GRAVITY, GRAVITY],
    fermentation.alcohol_linear: [GRAVITY, GRAVITY],
    fermentation.alcohol_by_volume: [GRAVITY, GRAVITY],
    fermentation.kcal_from_extracts: [PLATO, (-3.0, 60.0), GRAVITY],
    fermentation.final_gravity: [GRAVITY, SHARE],
    carbonation.residual_co2: [KITCHEN_C],
    carbonation.extract_g_l_per_volume: [SHARE],
    carbonation.priming_sugar_g: [LITRES, (0.0, 5.0), KITCHEN_C],
    carbonation.volumes_at: [(-1.0, 6.0), COLD_C],
    carbonation.most_volumes: [(0.0, 6.0)],
    carbonation.warm_bottle_bar: [(0.0, 6.0)],
    carbonation.volumes_to_aim_at: [(0.0, 10.0)],
    carbonation.keg_pressure_bar: [(0.0, 5.0), COLD_C],
    water_treatment.metabisulfite_mg: [LITRES, (0.0, 10.0)],
    water_treatment.chlorine_from_chloramine: [(0.0, 10.0)],
    pitching.cells_needed: [LITRES, PLATO, (0.5e6, 2e6)],
    pitching.grams_from_cells: [(0.0, 1e12), (5e9, 2e10)],
    pitching.dry_yeast_wanted_g: [LITRES, PLATO],
    pitching.lateness: [(0.0, 100.0), (0.0, 100.0)],
    bitterness.tinseth_bigness: [GRAVITY],
    bitterness.bigness: [GRAVITY, SHARE],
    bitterness.dissolved_alpha_mg_l: [(0.0, 3000.0)],
    bitterness.tinseth_time_factor: [(-10.0, 240.0)],
    bitterness.tinseth_utilisation: [GRAVITY, (-10.0, 240.0)],
    bitterness.alpha_added_mg_l: [HOPS_KG, SHARE, LITRES],
    bitterness.tinseth_ibu: [HOPS_KG, SHARE, MINUTES, GRAVITY, LITRES],
    hop_age.alpha_kept: [(-1.0, 5.0)],
    hop_age.bitterness_kept: [SHARE],
    bitterness_methods.rager_utilisation: [(-10.0, 240.0)],
    bitterness_methods.rager_ibu: [HOPS_KG, SHARE, MINUTES, GRAVITY, LITRES],
    bitterness_methods.garetz_utilisation: [(-10.0, 240.0)],
    bitterness_methods.garetz_altitude_factor: [(0.0, 9000.0)],
    bitterness_methods.garetz_ibu: [HOPS_KG, SHARE, MINUTES, GRAVITY, LITRES, LITRES, (0.0, 9e3)],
    isomerisation_rate.relative_rate: [KITCHEN_C],
    isomerisation_rate.equivalent_minutes_straight: [KITCHEN_C, KITCHEN_C, (-10.0, 240.0)],
    isomerisation_rate.equivalent_minutes_cooling: [KITCHEN_C, KITCHEN_C, KITCHEN_C, SHARE],
    colour.malt_colour_units: [(0.0, 5000.0), LITRES],
    colour.morey: [(-10.0, 500.0)],
    colour.colour_units_for: [(-10.0, 500.0)],
    colour.mosher: [(0.0, 500.0)],
    colour.daniels: [(0.0, 500.0)],
    colour.shown_darkening: [SRM, (0.0, 0.5)],
    colour.ebc_from_srm: [SRM],
    colour.srm_from_ebc: [SRM],
    colour.srm_from_lovibond: [(0.0, 600.0)],
    colour.lovibond_from_srm: [(0.0, 800.0)],
    colour.ebc_from_lovibond: [(0.0, 600.0)],
    colour.lovibond_from_ebc: [(0.0, 1600.0)],
}

TAKES_OTHER_THINGS = {
    "ageing_per_day": "one packet at a time; tests of hop_age",
    "packets": "whole packets of one dose; tests of pitching",
    "packets_in": "whole packets of a weight that somebody wrote down; tests of pitching",
    "any_positive": "tests of numeric",
    "foam_limit_l": "one pot at a time; tests of vessel_fit",
    "hex_colour": "whole numbers; tests of swatch",
    "ingredient_hex": "one ingredient at a time; tests of swatch",
    "real_fermentability": "one sequence an ingredient; below",
    "swatch_hex": "one glass at a time; tests of swatch",
    "swatch_rgb": "one glass at a time; tests of swatch",
}


def public_functions():
    """Yield every public function that a module of the calculations defines."""
    for found in pkgutil.iter_modules(designer.wort.__path__):
        module = importlib.import_module(f"designer.wort.{found.name}")
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield function


def test_no_calculation_is_left_untried():
    left = {
        f"{function.__module__}.{function.__name__}"
        for function in public_functions()
        if function not in DOMAINS
        and function.__name__ not in TAKES_OTHER_THINGS
        and function.__module__ != "designer.wort.numeric"
    }
    assert not left


def each(answer):
    """Return the answer as a list of answers, one for a plain number and several for a tuple."""
    return list(answer) if isinstance(answer, tuple) else [answer]


@pytest.mark.parametrize("function", DOMAINS, ids=lambda function: function.__name__)
@settings(max_examples=40)
@given(data=st.data())
def test_an_array_is_answered_like_its_numbers(function, data):
    row = st.tuples(*(st.floats(low, high) for low, high in DOMAINS[function]))
    rows = data.draw(st.lists(row, min_size=1, max_size=4))
    together = each(function(*(np.array(column) for column in zip(*rows, strict=True))))
    for place, one_row in enumerate(rows):
        alone = each(function(*one_row))
        for single, several in zip(alone, together, strict=True):
            assert isinstance(single, (float, int))
            assert not math.isnan(single)
            in_array = np.broadcast_to(several, len(rows))[place]
            assert in_array == pytest.approx(single, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("function", DOMAINS, ids=lambda function: function.__name__)
def test_the_ends_of_the_domain_are_answered(function):
    domain = DOMAINS[function]
    for end in (0, 1):
        corner = [low_high[end] for low_high in domain]
        assert not any(math.isnan(answer) for answer in each(function(*corner)))
    lows = [np.array([low, high]) for low, high in domain]
    assert not any(np.isnan(answer).any() for answer in each(function(*lows)))


def ordinary(function):
    """Return a value within the domain for every parameter that has one, by name."""
    names = inspect.signature(function).parameters
    return {
        name: low + 0.4 * (high - low)
        for name, (low, high) in zip(names, DOMAINS[function], strict=False)
    }


def numeric_names(function, annotations=("Numeric", "float")):
    parameters = inspect.signature(function).parameters.values()
    return [each.name for each in parameters if each.annotation in annotations]


@pytest.mark.parametrize("function", DOMAINS, ids=lambda function: function.__name__)
def test_one_array_among_plain_numbers_is_enough(function):
    plain = ordinary(function)
    single = each(function(**plain))
    for key in plain:
        mixed = each(function(**plain | {key: np.full(4, plain[key])}))
        for column, expected in zip(mixed, single, strict=True):
            assert np.broadcast_to(column, 4) == pytest.approx(np.full(4, expected), rel=1e-12)


@pytest.mark.parametrize("number", [0.0, 1e-12, 1e3])
@pytest.mark.parametrize("function", DOMAINS, ids=lambda function: function.__name__)
def test_nothing_and_far_too_much_still_answer(function, number):
    numbers = dict.fromkeys(numeric_names(function), number)
    assert not any(math.isnan(answer) for answer in each(function(**numbers)))
    columns = {key: np.full(2, number) for key in numeric_names(function, ("Numeric",))}
    assert not any(np.isnan(answer).any() for answer in each(function(**numbers | columns)))


@pytest.mark.parametrize("function", DOMAINS, ids=lambda function: function.__name__)
def test_any_one_number_may_be_nothing(function):
    plain = ordinary(function)
    for key in numeric_names(function):
        answers = each(function(**plain | {key: 0.0}))
        assert not any(math.isnan(answer) for answer in answers)


def test_every_function_says_what_it_returns():
    assert [one.__name__ for one in DOMAINS if not one.__doc__.startswith("Return ")] == []


def test_plain_numbers_never_import_numpy():
    calls = [
        f"import {function.__module__} as module; "
        f"module.{function.__name__}(**{ordinary(function)!r})"
        for function in DOMAINS
    ]
    script = "\n".join([*calls, "import sys; assert 'numpy' not in sys.modules"])
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("of_volume", "at_19_l"),
    [
        (partial(bitterness.alpha_added_mg_l, 0.01, 0.05), 26.315789),
        (partial(colour.malt_colour_units, 40.0), 17.569263),
    ],
)
def test_half_a_litre_dilutes_as_nineteen_litres_do(of_volume, at_19_l):
    """Twice the wort, half the strength (mass balance)."""
    assert of_volume(19.0) == pytest.approx(at_19_l, rel=1e-5)
    assert of_volume(0.5) == pytest.approx(38.0 * at_19_l, rel=1e-5)


def test_a_number_out_of_an_array_stays_a_number():
    times = heat.heating_time_min(np.float64(40.0), 20.0, np.float64(60.0), np.float64(1000.0))
    assert isinstance(times, float)
    assert times == heat.heating_time_min(40.0, 20.0, 60.0, 1000.0)


@given(
    parts=st.lists(
        st.tuples(st.floats(0, 10), st.floats(0, 1), st.booleans()), min_size=1, max_size=5
    ),
    yeast=st.floats(0.5, 1),
)
def test_fermentability_of_arrays_is_that_of_their_numbers(parts, yeast):
    kilograms, shares, simple = zip(*parts, strict=True)
    alone = fermentation.real_fermentability(kilograms, shares, simple, yeast)
    arrays = [np.array([one, 2 * one]) for one in kilograms]
    together = fermentation.real_fermentability(arrays, shares, simple, yeast)
    doubled = fermentation.real_fermentability([2 * kg for kg in kilograms], shares, simple, yeast)
    assert together == pytest.approx([alone, doubled])
    assert 0 <= alone <= 1 + 1e-12
