"""Promises that hold for every public function of numbers: arrays, empty pots, no numpy.

The functions are found by walking the package, and called by the names of their parameters, so a
new function is covered without being listed here.
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

import designer.wort
from designer.wort import bitterness, colour, extract

# An ordinary value in the kitchen for every parameter that does not have a name below.
ORDINARY = {
    "absorption_l_per_kg": 1.0,
    "added_mg_l": 300.0,
    "alcohol_by_weight": 4.0,
    "alpha_fraction": 0.06,
    "altitude_m": 600.0,
    "apparent_extract": 3.0,
    "batch_l": 19.0,
    "boil_gravity_sg": 1.06,
    "boil_l": 9.0,
    "calibrated_c": 15.0,
    "ceiling_ibu": 100.0,
    "cells": 2e11,
    "cells_per_gram": 1e10,
    "chloramine_mg_l": 2.0,
    "chlorine_mg_l": 1.0,
    "coil_l": 0.5,
    "colour_ebc": 20.0,
    "colour_kg_lovibond": 40.0,
    "colour_srm": 9.5,
    "constant": 4.15,
    "constant_per_min": 0.05,
    "coolant_c": 12.0,
    "correction": 1.04,
    "density_kg_m3": 1045.0,
    "diameter_m": 0.01,
    "enthalpy_kj": 900.0,
    "excess": 1.5,
    "extract_fraction": 0.12,
    "extract_kg": 1.2,
    "extract_plato": 12.0,
    "final_brix": 6.0,
    "final_gravity": 1.012,
    "final_volume_l": 19.0,
    "first_c": 90.0,
    "free_fraction": 0.2,
    "from_c": 95.0,
    "from_min": 5.0,
    "grain_c": 20.0,
    "grain_kg": 0.5,
    "gravity_sg": 1.052,
    "headspace_fraction": 0.2,
    "heat_capacity_kj_k": 40.0,
    "hop_kg": 0.03,
    "hops_kg": 0.06,
    "ice_c": -18.0,
    "ice_kg": 2.0,
    "initial_brix": 12.5,
    "label_ibu": 25.0,
    "label_mg_per_kg": 490.0,
    "label_volume_l": 23.0,
    "length_m": 8.0,
    "loss_w_k": 4.0,
    "lovibond": 60.0,
    "lower_fraction": 0.4,
    "malt_colour_units": 12.0,
    "malt_ebc": 120.0,
    "malt_specific_heat": 0.4,
    "malt_srm": 60.0,
    "metabisulfite_mg": 440.0,
    "minutes_apart": 8.0,
    "moisture_percent": 3.5,
    "net_power_w": 1400.0,
    "opening_cm2": 400.0,
    "original_extract": 12.0,
    "original_gravity": 1.05,
    "path_cm": 6.0,
    "points_l_per_kg": 300.0,
    "pot_l": 9.0,
    "pot_volume_l": 10.0,
    "ppg": 36.0,
    "ppg_steeped": 18.0,
    "pressure_bar": 0.8,
    "rate": 0.75e6,
    "reading_brix": 12.5,
    "reading_sg": 1.048,
    "real_extract": 4.5,
    "real_fermentability": 0.6,
    "refractive_index": 1.35,
    "room_c": 20.0,
    "sample_c": 28.0,
    "second_c": 60.0,
    "stop_c": 60.0,
    "surface_cm2": 530.0,
    "tablet_g": 0.44,
    "target_c": 20.0,
    "target_volumes": 2.4,
    "temp_c": 66.0,
    "time_min": 20.0,
    "to_c": 70.0,
    "to_min": 25.0,
    "trub_l": 0.7,
    "volume_l": 10.0,
    "volumes": 2.5,
    "water_c": 10.0,
    "water_kg": 8.0,
    "water_l": 9.0,
    "water_l_per_kg": 8.0,
    "wavelength_nm": 520.0,
    "wort_c": 90.0,
    "wort_kg": 9.0,
    "wort_specific_heat": 3.95,
    "yeast_attenuation": 0.75,
}


def _of_numbers(function):
    """Whether every parameter without a default is one number."""
    parameters = inspect.signature(function).parameters.values()
    return all(
        one.annotation in ("Numeric", "float", "float | None")
        for one in parameters
        if one.default is one.empty
    )


def functions():
    found = {}
    for module_info in pkgutil.iter_modules(designer.wort.__path__):
        if module_info.name == "numeric":
            continue
        module = importlib.import_module(f"designer.wort.{module_info.name}")
        for name, function in vars(module).items():
            public = inspect.isfunction(function) and not name.startswith("_")
            if public and function.__module__ == module.__name__ and _of_numbers(function):
                found[f"{module_info.name}.{name}"] = function
    return found


FUNCTIONS = functions()
NUMBERS = {"Numeric", "float", "float | None"}


def _numeric_names(function):
    parameters = inspect.signature(function).parameters.values()
    return [one.name for one in parameters if one.annotation == "Numeric"]


def ordinary_call(function):
    parameters = inspect.signature(function).parameters.values()
    return {one.name: ORDINARY[one.name] for one in parameters if one.annotation in NUMBERS}


def results(answer):
    return answer if isinstance(answer, tuple) else (answer,)


def numbers_in(answer):
    return [one for one in results(answer) if not isinstance(one, str)]


def test_the_walk_finds_the_whole_package():
    assert len(FUNCTIONS) > 90
    assert {"extract.water_for_volume", "heat.temperature_for"} <= set(FUNCTIONS)


TAKES_ARRAYS = [name for name, function in FUNCTIONS.items() if _numeric_names(function)]


@pytest.mark.parametrize("name", TAKES_ARRAYS)
def test_arrays_answer_as_their_numbers_do(name):
    function = FUNCTIONS[name]
    plain = ordinary_call(function)
    for scales in ([1.0, 0.9, 0.5], [0.0, 1.0, 1.05]):
        columns = {
            key: np.array(scales) * value if key in _numeric_names(function) else value
            for key, value in plain.items()
        }
        together = results(function(**columns))
        for row, scale in enumerate(scales):
            one = {
                key: scale * value if key in _numeric_names(function) else value
                for key, value in plain.items()
            }
            for column, single in zip(together, results(function(**one)), strict=True):
                assert isinstance(single, float)
                got = float(np.broadcast_to(column, 3)[row])
                assert got == pytest.approx(single, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("name", TAKES_ARRAYS)
def test_one_array_among_plain_numbers_is_enough(name):
    function = FUNCTIONS[name]
    plain = ordinary_call(function)
    single = results(function(**plain))
    for key in _numeric_names(function):
        mixed = results(function(**plain | {key: np.full(4, plain[key])}))
        for column, expected in zip(mixed, single, strict=True):
            assert np.broadcast_to(column, 4) == pytest.approx(np.full(4, expected), rel=1e-12)


@pytest.mark.parametrize("number", [0.0, 1e-12, 1e3])
@pytest.mark.parametrize("name", FUNCTIONS)
def test_nothing_and_far_too_much_still_answer(name, number):
    # Warnings are errors in this project's tests, so this also proves silence.
    function = FUNCTIONS[name]
    names = ordinary_call(function)
    for answer in numbers_in(function(**dict.fromkeys(names, number))):
        assert not math.isnan(answer)
    columns = {key: np.full(2, number) for key in _numeric_names(function)}
    for answer in numbers_in(function(**dict.fromkeys(names, number) | columns)):
        assert not np.isnan(answer).any()


@pytest.mark.parametrize("name", FUNCTIONS)
def test_any_one_number_may_be_nothing(name):
    function = FUNCTIONS[name]
    plain = ordinary_call(function)
    for key in plain:
        for answer in numbers_in(function(**plain | {key: 0.0})):
            assert not math.isnan(answer)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_every_function_says_what_it_returns(name):
    assert FUNCTIONS[name].__doc__.startswith("Return ")


def test_plain_numbers_never_import_numpy():
    calls = [
        f"import designer.wort.{name.split('.')[0]} as module; "
        f"module.{name.split('.')[1]}(**{ordinary_call(function)!r})"
        for name, function in FUNCTIONS.items()
    ]
    last = "import sys; assert 'numpy' not in sys.modules"
    script = "\n".join([*calls, last])
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    ("of_volume", "at_19_l"),
    [
        (partial(bitterness.alpha_added_mg_l, 0.01, 0.05), 26.315789),
        (partial(bitterness.hopped_kit_ibu, 25.0, 23.0), 30.263158),
        (partial(bitterness.pot_ceiling, 6.0), 31.578947),
        (partial(colour.malt_colour_units, 40.0), 17.569263),
        (lambda litres: 1000 * (extract.gravity_by_points(1.0, litres) - 1), 20.296890),
    ],
)
def test_half_a_litre_dilutes_as_nineteen_litres_do(of_volume, at_19_l):
    """Twice the wort, half the strength (mass balance)."""
    assert of_volume(19.0) == pytest.approx(at_19_l, rel=1e-5)
    assert of_volume(0.5) == pytest.approx(38.0 * at_19_l, rel=1e-5)
