"""A recipe with what the kitchen taught in the fields that it leaves empty.

What a recipe has typed stays; a figure of a pot, a fermenter or a yeast is taken for one of that
name alone. The recipe itself, and its file, stay as they were typed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from designer.brewday.learning.figures import Figure
from designer.brewday.results import Cause, Outlook, PlanDays, Range
from designer.errors import DesignerError
from designer.recipe.choices import CoolingWay
from designer.recipe.document import Fermenter, PlannedBoil, PlannedFermenter, Recipe, Yeast
from designer.recipe.quantity import Quantity
from designer.units import read
from designer.workbench.learning.figure_places import PLACES
from designer.workbench.learning.taken import TakenFigure

BATHS = (CoolingWay.ICE_BATH, CoolingWay.COLD_WATER_BATH)
"""Ways to cool whose constant is learned: a pot in a bath."""
_OF_POTS = (Figure.EVAPORATION, Figure.LEFT_IN_POT, Figure.COOLING)


@dataclass(frozen=True, slots=True)
class Filled:
    """A field of a recipe that is empty, and what was taken for it."""

    part: str
    field: str
    quantity: Quantity
    taken: TakenFigure


def filled_by(recipe: Recipe, taken: Iterable[TakenFigure]) -> tuple[Filled, ...]:
    """Return the fields of the recipe as written that are empty and have a figure taken."""
    return tuple(each for each in offered_by(recipe, taken) if _is_empty(recipe, each))


def offered_by(recipe: Recipe, taken: Iterable[TakenFigure]) -> tuple[Filled, ...]:
    """Return every field that has a figure taken, empty or not: to be offered beside it."""
    found = []
    for each in taken:
        place = PLACES[each.figure]
        if each.subject == _subject(recipe, each.figure):
            quantity = _quantity(each)
            if quantity is not None:
                found.append(Filled(place.part, place.field, quantity, each))
    return tuple(found)


def with_taught(recipe: Recipe, taken: Sequence[TakenFigure]) -> Recipe:
    """Return the recipe with each empty field filled by what was taken for it, if anything was."""
    if not taken:
        return recipe
    fills = filled_by(recipe, taken)
    if recipe.boils:  # each has a pot of its own
        fills = tuple(each for each in fills if each.taken.figure not in _OF_POTS)
    for each in fills:
        part = replace(getattr(recipe, each.part), **{each.field: each.quantity})
        recipe = replace(recipe, **{each.part: part})
    if not recipe.boils and not recipe.fermenters:
        return recipe
    boils = tuple(_boil(recipe, each, taken) for each in recipe.boils)
    fermenters = tuple(_fermenter(each, taken) for each in recipe.fermenters)
    if boils == recipe.boils and fermenters == recipe.fermenters:
        return recipe
    return replace(recipe, boils=boils, fermenters=fermenters)


def _subject(recipe: Recipe, figure: Figure) -> str | None:
    """Return of what a figure is in a recipe; None where it tells nothing there."""
    if figure is Figure.COOLING and recipe.process.cooling not in BATHS:
        return None
    if figure in _OF_POTS:
        return recipe.pot.name
    if figure is Figure.VOLUME_BIAS:
        return recipe.fermenter.name
    return recipe.yeast.name if figure is Figure.ATTENUATION else ""


def _is_empty(recipe: Recipe, filled: Filled) -> bool:
    return getattr(getattr(recipe, filled.part), filled.field) is None


def _quantity(taken: TakenFigure) -> Quantity | None:
    """Return a taken figure as a field has it; None for a text that was damaged."""
    try:
        return read(PLACES[taken.figure].kind, taken.value, kept=True)
    except DesignerError:
        return None


def _of(taken: Iterable[TakenFigure], figure: Figure, subject: str) -> Quantity | None:
    found = (e for e in taken if e.figure is figure and e.subject == subject)
    each = next(found, None)
    return None if each is None else _quantity(each)


def _boil(recipe: Recipe, boil: PlannedBoil, taken: Sequence[TakenFigure]) -> PlannedBoil:
    told: dict[str, Any] = {}
    for figure in (Figure.EVAPORATION, Figure.LEFT_IN_POT):
        field = PLACES[figure].field
        if getattr(boil, field) is None and getattr(recipe.process, field) is None:
            found = _of(taken, figure, boil.pot.name)
            told |= {} if found is None else {field: found}
    return replace(boil, **told) if told else boil


def _fermenter(planned: PlannedFermenter, taken: Sequence[TakenFigure]) -> PlannedFermenter:
    vessel = _marked(planned.fermenter, taken)
    yeast = None if planned.yeast is None else _fermenting(planned.yeast, taken)
    if vessel is planned.fermenter and yeast is planned.yeast:
        return planned
    return replace(planned, fermenter=vessel, yeast=yeast)


def _marked(vessel: Fermenter, taken: Sequence[TakenFigure]) -> Fermenter:
    found = None if vessel.marks_hold else _of(taken, Figure.VOLUME_BIAS, vessel.name)
    return vessel if found is None else replace(vessel, marks_hold=found)


def _fermenting(yeast: Yeast, taken: Sequence[TakenFigure]) -> Yeast:
    found = None if yeast.attenuation else _of(taken, Figure.ATTENUATION, yeast.name)
    return yeast if found is None else replace(yeast, attenuation=found)


def naming_what_it_rests_on(
    outlook: Outlook, recipe: Recipe, taken: Sequence[TakenFigure]
) -> Outlook:
    """Return an outlook whose causes say which of them rest on brews, and on how many.

    `recipe` is that as written.
    """
    fills = filled_by(recipe, taken)
    brews = {PLACES[each.taken.figure].key: len(each.taken.brews) for each in fills}
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
