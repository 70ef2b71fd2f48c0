"""A recipe with what the kitchen taught in the fields that it leaves empty.

What a recipe has typed stays; a figure of a pot, a fermenter or a yeast is taken for one of that
name alone. The recipe itself, and its file, stay as they were typed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from designer.brewday.learning.figures import Figure
from designer.brewday.learning.open_figures import BATHS
from designer.brewday.results import Cause, Outlook, PlanDays, Range
from designer.errors import DesignerError
from designer.recipe.document import Recipe
from designer.recipe.quantity import TaughtQuantity
from designer.recipe.taught import Filled, Path, filled_with, value_at
from designer.units import read
from designer.workbench.learning.figure_places import PLACES
from designer.workbench.learning.taken import TakenFigure

_OF_BOILS = (Figure.EVAPORATION, Figure.LEFT_IN_POT)
_OF_POTS = (*_OF_BOILS, Figure.COOLING)


def offered_by(recipe: Recipe, taken: Iterable[TakenFigure]) -> tuple[Filled, ...]:
    """Return every field that a figure was taken for, empty or not: to be offered beside it."""
    found = []
    for each in taken:
        quantity = _quantity(each)
        if quantity is not None:
            found += [Filled(path, quantity) for path in _paths(recipe, each)]
    return tuple(found)


def filled_by(recipe: Recipe, taken: Iterable[TakenFigure]) -> tuple[Filled, ...]:
    """Return those of them that are empty: what is reckoned with there was taught."""
    return tuple(e for e in offered_by(recipe, taken) if value_at(recipe, e.path) is None)


def with_taught(recipe: Recipe, taken: Sequence[TakenFigure]) -> Recipe:
    """Return the recipe with each empty field filled by what was taken for it, if anything was."""
    return filled_with(recipe, filled_by(recipe, taken)) if taken else recipe


def _paths(recipe: Recipe, taken: TakenFigure) -> Iterator[Path]:
    """Yield the ways to the fields that a figure is of."""
    figure, subject, field = taken.figure, taken.subject, PLACES[taken.figure].field
    if figure in _OF_POTS:
        yield from _of_pots(recipe, figure, subject, field)
    elif figure is Figure.VOLUME_BIAS:
        yield from _of_named(recipe, "fermenter", subject, field)
    elif figure is Figure.ATTENUATION:
        yield from _of_named(recipe, "yeast", subject, field)
    elif not subject:
        yield ("process", field)


def _of_named(recipe: Recipe, part: str, name: str, field: str) -> Iterator[Path]:
    """Yield the field of a part, of the recipe and of each fermenter of a plan, of that name."""
    ways: list[Path] = [(part,)]
    ways += [("fermenters", place, part) for place in range(len(recipe.fermenters))]
    for way in ways:
        if getattr(value_at(recipe, way), "name", None) == name:
            yield (*way, field)


def _of_pots(recipe: Recipe, figure: Figure, subject: str, field: str) -> Iterator[Path]:
    """Yield the fields of a pot: of the recipe's own, or of each boil, which has one of its own.

    What a recipe has typed for all boils is no empty field of any.
    """
    if figure is Figure.COOLING and recipe.process.cooling not in BATHS:
        return
    if recipe.pot.name == subject and (not recipe.boils or figure not in _OF_BOILS):
        yield ("process", field)
    if figure in _OF_BOILS and value_at(recipe, ("process", field)) is None:
        for place, boil in enumerate(recipe.boils):
            if boil.pot.name == subject:
                yield ("boils", place, field)


def _quantity(taken: TakenFigure) -> TaughtQuantity | None:
    """Return a taken figure as a field has it; None for a text that was damaged."""
    try:
        found = read(PLACES[taken.figure].kind, taken.value, kept=True)
    except DesignerError:
        return None
    return TaughtQuantity(found.value, found.text, found.spread, brews=len(taken.brews))


def naming_what_it_rests_on(outlook: Outlook, fills: Sequence[Filled]) -> Outlook:
    """Return an outlook whose causes say which of them rest on brews, and on how many."""
    keys = {each.field: each.key for each in PLACES.values()}
    brews = {keys[str(each.path[-1])]: each.quantity.brews for each in fills}
    if not brews:
        return outlook
    forecasts = dict(_named(outlook.forecasts, brews))
    return replace(outlook, forecasts=forecasts, plan=_plan_named(outlook.plan, brews))


def _plan_named(plan: PlanDays | None, brews: dict[str, int]) -> PlanDays | None:
    if plan is None:
        return None
    boils = (replace(e, forecasts=dict(_named(e.forecasts, brews))) for e in plan.boils)
    filled = (replace(e, forecasts=dict(_named(e.forecasts, brews))) for e in plan.fermenters)
    return PlanDays(tuple(boils), tuple(filled))


def _named(forecasts: dict[str, Range], brews: dict[str, int]) -> Iterator[tuple[str, Range]]:
    for key, found in forecasts.items():
        yield key, replace(found, causes=tuple(_rested(each, brews) for each in found.causes))


def _rested(cause: Cause, brews: dict[str, int]) -> Cause:
    number = brews.get(cause.key, 0)
    return replace(cause, rests_on=number) if number else cause
