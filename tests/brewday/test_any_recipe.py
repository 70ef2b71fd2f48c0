"""Any recipe that a brewer may type: the day balances and never raises."""

import math
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from designer.brewday.day import run_day
from designer.brewday.outlook import look_ahead
from designer.brewday.tolerances import LatinHypercube, Nominal
from designer.recipe.document import (
    COOLING_WAYS,
    FERMENTABLE_KINDS,
    HOP_FORMS,
    STOVES,
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Methods,
    Pot,
    Process,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Quantity, Stage, When


def amounts(low, high):
    """Quantities over the whole accepted range, crowded where kitchens are."""
    ordinary = st.floats(max(low, 0.0), min(high, 100.0)) if high > 0 else st.floats(low, high)
    edges = st.sampled_from([low, high, min(max(0.0, low), high)])
    spread = st.one_of(st.none(), st.floats(0.0, 5.0))
    return st.builds(
        lambda value, give: Quantity(value, f"{value}", give), st.one_of(ordinary, edges), spread
    )


def part(of, /, **choices):
    fields = {
        each.name: st.one_of(st.none(), amounts(facts.low, facts.high))
        for each, facts in quantity_fields(of)
    }
    return st.builds(of, **{**fields, **choices})


whens = st.builds(
    lambda stage, minutes, temp: When(stage, str(stage), minutes, temp, 3.0),
    st.sampled_from(Stage),
    st.sampled_from([0.0, 5.0, 15.0, 60.0, 90.0, 1440.0]),
    st.sampled_from([40.0, 75.0, 90.0, 105.0]),
)
names = st.sampled_from(["", "Challenger", "Pale malt extract", "{0} %s <b>", "ホップ"])
recipes = st.builds(
    lambda **parts: with_line_ids(Recipe(**parts)),
    pot=part(Pot, stove=st.sampled_from(STOVES)),
    fermenter=part(Fermenter),
    process=part(Process, cooling=st.sampled_from(COOLING_WAYS)),
    methods=part(
        Methods,
        bitterness=st.sampled_from(["Tinseth", "Rager", "Garetz"]),
        colour=st.sampled_from(["Morey", "Mosher", "Daniels"]),
        alcohol=st.sampled_from(["Balling", "Cutaia", "Hall", "linear"]),
    ),
    fermentables=st.lists(
        part(Fermentable, name=names, kind=st.sampled_from(FERMENTABLE_KINDS), when=whens),
        max_size=4,
    ).map(tuple),
    hops=st.lists(
        part(Hop, name=names, form=st.sampled_from(HOP_FORMS), when=whens), max_size=4
    ).map(tuple),
    yeast=part(Yeast, name=names),
    extras=st.lists(part(Extra, name=names, when=whens), max_size=2).map(tuple),
)
many = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@many
@given(recipes)
def test_any_valid_recipe_gets_a_forecast_of_finite_numbers(recipe):
    outlook = look_ahead(recipe)
    for key, forecast in outlook.forecasts.items():
        assert math.isfinite(forecast.value), key
        assert math.isfinite(forecast.low), key
        assert math.isfinite(forecast.high), key
        assert forecast.low <= forecast.value <= forecast.high, key
    assert all(finding.message.text for finding in outlook.findings)
    for moment in outlook.day.moments:
        assert math.isfinite(moment.pot_volume_l)
        assert math.isfinite(moment.temperature_c)


@many
@given(recipes)
def test_water_extract_grain_and_heat_balance_in_pot_and_fermenter(recipe):
    """Source: conservation of mass and energy."""
    day, run = run_day(recipe, Nominal(), noting=True)
    # Ice that has not melted holds a heat below 0 that no temperature of the wort shows.
    vessels = (run.pot, run.fermenter) if day.fermenter.frozen_melted else (run.pot,)
    for vessel in vessels:
        for name in ("extract_kg", "water_kg", "grain_kg", "heat_kj"):
            flows = [float(getattr(flow, name)) for flow in vessel.flows]
            scale = max([1.0, *map(abs, flows)])
            assert math.fsum(flows) == pytest.approx(getattr(vessel, name), abs=1e-9 * scale)


@many
@given(recipes)
def test_extract_weighed_in_is_in_the_fermenter_or_left_in_the_pot(recipe):
    """Source: conservation of mass."""
    _, run = run_day(recipe, Nominal(), noting=True)
    weighed = math.fsum(float(line.extract_kg) for line in run.inputs.extracts)
    late = math.fsum(float(line.extract_kg) for line in run.plan.fermenter)
    poured = -math.fsum(float(flow.extract_kg) for flow in run.pot.flows if flow.stage == "move")
    found = poured + float(run.pot.extract_kg) + late
    assert found == pytest.approx(weighed, rel=1e-9, abs=1e-9)


@many
@given(recipes)
def test_every_line_that_goes_in_is_on_the_time_line_once(recipe):
    day, _ = run_day(recipe, Nominal(), noting=True)
    listed = sorted((each.lines, each.line_id) for each in day.additions)
    wanted = sorted(
        (name, line.line_id)
        for name in ("fermentables", "hops", "extras")
        for line in getattr(recipe, name)
    )
    assert listed == wanted


@many
@given(recipes)
def test_the_time_line_never_runs_backwards(recipe):
    day, _ = run_day(recipe, Nominal(), noting=True)
    times = [moment.time_min for moment in day.moments]
    assert all(later >= earlier - 1e-9 for earlier, later in pairwise(times))


class CertainSampler(LatinHypercube):
    """A sampled draw in which nothing is doubtful: arrays of one and the same value."""

    def absolute(self, key, value, half_width):
        import numpy as np

        return np.full(4, value)

    relative = absolute

    def doubt(self, doubt, name=""):
        return self.absolute(doubt.words, doubt.published, 0.0)


@many
@given(recipes)
def test_arrays_run_through_the_same_day_as_floats(recipe):
    plain, _ = run_day(recipe, Nominal(), noting=False)
    arrays, _ = run_day(recipe, CertainSampler(4), noting=False)
    for part, name in (
        ("beer", "original_gravity"),
        ("beer", "final_gravity"),
        ("beer", "abv_percent"),
        ("beer", "bitterness_ibu"),
        ("beer", "colour_srm"),
        ("fermenter", "mixed_c"),
        ("fermenter", "batch_l"),
        ("pot", "boil_gravity_end"),
    ):
        alike, typed = (getattr(getattr(day, part), name) for day in (arrays, plain))
        values = [float(alike)] if getattr(alike, "ndim", 0) == 0 else list(map(float, alike))
        assert values == pytest.approx([float(typed)] * len(values), rel=1e-6), name
    assert arrays.total_min == pytest.approx(plain.total_min, rel=1e-6)
