"""Sheets of the demo kitchen, and recipes of up to sixty lines of any kind."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import strategies as st

from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.document import (
    COOLING_WAYS,
    FERMENTABLE_KINDS,
    FERMENTER_KINDS,
    HOP_FORMS,
    PACKAGES,
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Pot,
    Process,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Quantity, Stage, When
from designer.resource_files import resource_path
from designer.sheet.content import brew_sheet
from designer.units import ShownUnits

EXAMPLES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")


def _amounts(low, high):
    kitchen = st.floats(max(low, 0.0), min(high, 100.0)) if high > 0 else st.floats(low, high)
    return st.one_of(kitchen, st.sampled_from([low, high])).map(lambda v: Quantity(v, f"{v}"))


def _part(of, /, **choices):
    fields = {
        each.name: st.one_of(st.none(), _amounts(facts.low, facts.high))
        for each, facts in quantity_fields(of)
    }
    return st.builds(of, **{**fields, **choices})


_WHENS = st.builds(
    lambda stage, minutes, temp, days: When(stage, str(stage), minutes, temp, days),
    st.sampled_from(Stage),
    st.sampled_from([0.0, 5.0, 15.0, 60.0, 90.0, 1440.0]),
    st.sampled_from([40.0, 75.0, 90.0, 105.0]),
    st.sampled_from([0.0, 3.0, 7.5, 400.0]),
)
_NAMES = st.sampled_from(
    ["", "Challenger", "Pale malt extract", "{0} %s <b>&", "ホップ\n\t", "x" * 300]
)
_TEXTS = st.one_of(_NAMES, st.text(max_size=60), st.just("a long note " * 400))


@st.composite
def recipes(draw, most=20):
    """Any valid recipe with up to `most` lines in each of its three lists."""
    grain = st.sampled_from(FERMENTABLE_KINDS)
    doses = st.builds(Quantity, st.floats(0, 1e3), st.just("?"), st.none(), st.sampled_from(
        ["g", "mL", "tablet"]))  # fmt: skip
    made = Recipe(
        name=draw(_TEXTS),
        style=draw(_NAMES),
        notes=draw(_TEXTS),
        pot=draw(_part(Pot, name=_NAMES)),
        fermenter=draw(_part(Fermenter, kind=st.sampled_from(FERMENTER_KINDS))),
        process=draw(
            _part(
                Process,
                cooling=st.sampled_from(COOLING_WAYS),
                package=st.sampled_from(PACKAGES),
                start_time=st.sampled_from(["09:00", "23:50", "", "noon", "25:99"]),
            )
        ),
        fermentables=tuple(
            draw(st.lists(_part(Fermentable, name=_NAMES, kind=grain, when=_WHENS), max_size=most))
        ),
        hops=tuple(
            draw(
                st.lists(
                    _part(Hop, name=_NAMES, form=st.sampled_from(HOP_FORMS), when=_WHENS),
                    max_size=most,
                )
            )
        ),
        yeast=draw(_part(Yeast, name=_NAMES, amount=st.one_of(st.none(), doses))),
        extras=tuple(
            draw(
                st.lists(
                    st.builds(Extra, _NAMES, _NAMES, st.one_of(st.none(), doses), _WHENS),
                    max_size=most,
                )
            )
        ),
    )
    return with_line_ids(made)


@pytest.fixture(scope="session")
def any_recipe():
    """The strategy of recipes, for tests that draw from it."""
    return recipes


@pytest.fixture
def example():
    """Return a demo recipe by its name."""

    def found(name):
        return load(resource_path(f"examples/{name}.hobwort"))

    return found


@pytest.fixture
def sheet_of():
    """Return the sheet of a recipe; metric, full, without a date unless told otherwise."""

    def made(recipe, units="metric", ranges=True, outlook=None, **wishes):
        wanted = {"start": None, "brew_date": None, **wishes}
        seen = look_ahead(recipe, ranges=ranges) if outlook is None else outlook
        return brew_sheet(recipe, seen, shown=ShownUnits(units), **wanted)

    return made


@pytest.fixture
def empty_recipe():
    """Nothing typed at all."""
    return with_line_ids(Recipe())


@pytest.fixture
def kitchen_of(example):
    """Return the porter with parts changed; `hops` pairs a hop with another time."""

    def changed(*, process=None, fermenter=None, hops=None):
        recipe = example("harbour_lamp_porter")
        recipe = replace(
            recipe,
            process=replace(recipe.process, **(process or {})),
            fermenter=replace(recipe.fermenter, **(fermenter or {})),
        )
        if hops is not None:
            recipe = replace(recipe, hops=tuple(replace(hop, when=when) for hop, when in hops))
        return with_line_ids(recipe)

    return changed
