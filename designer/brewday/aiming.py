"""Make it so: the change of one line, or of the volume, that brings a forecast to a wanted value.

The day itself is run backwards: a root is sought through `brew`, no second formula. Each forecast
rises or falls steadily with each of its means, so a bracketed search finds the one answer, or shows
that there is none. Only hops can be too many: in a small pot they hold back the wort they are to
make bitter, so the search ends about where more of them bring less. Of a recipe that is brewed by a
plan the whole plan is run, and lists of which a boil has its own are no means.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from designer.brewday.day import brew
from designer.brewday.first.kitchen import step_for
from designer.brewday.plan_days import day_alone, planned_outlook
from designer.brewday.predictions import BY_KEY, Prediction
from designer.brewday.results import Day
from designer.brewday.search import root
from designer.brewday.weighable import FINE, pourable, weighable
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine, ChangePart, Edit, with_amount
from designer.recipe.fields import facts_of
from designer.recipe.kinds import typed
from designer.recipe.message import say, within
from designer.recipe.named import Line, is_locked, lines_of
from designer.recipe.plan import is_planned
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.recipe.systems import is_in_us
from designer.translation import message

LARGEST_AMOUNT_KG = 50.0
STEPS = {
    "fermentables": ((0.1, 0.005), (0.0, 0.001)),
    "hops": ((0.05, 0.001), (0.0, 0.0005)),
    "process": ((0.0, 0.1),),
}
"""Steps in which an amount is weighed or measured, from so much of it on, in kg and L: a kitchen
scale shows a gram, and nobody hits it among hundreds; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Means:
    """What may be changed: a line's amount, or a field of the process. `name` is for a menu."""

    lines: str
    line_id: int
    name: str


TOP_UP = Means("process", 0, message("Top-up mark"))


@dataclass(frozen=True, slots=True)
class Aim:
    """What was found: the edit and the forecast it gives; or no edit, and how far it could go.

    `low` and `high` are the forecasts at both ends of what may be changed.
    """

    edit: Edit | None
    reached: float
    low: float
    high: float


def means_for(key: str, recipe: Recipe) -> tuple[Means, ...]:
    """Return what can bring the forecast `key` elsewhere; nothing locked, nor idle for a plan."""
    found: list[Means] = []
    for each in BY_KEY[key].means:
        if each == "water":
            found += [] if recipe.fermenters else [TOP_UP]
        elif all(getattr(boil, each) is None for boil in recipe.boils):
            found += _lines_to_change(recipe, each)
    return tuple(found)


def day_of(recipe: Recipe) -> Day:
    """Return the day of a recipe; where it is planned, that of the whole plan."""
    if not is_planned(recipe):
        return brew(recipe)
    return planned_outlook(recipe, day_alone, watching=False).day


def _lines_to_change(recipe: Recipe, lines: str) -> list[Means]:
    return [
        Means(lines, line.line_id, line.name)
        for line in lines_of(recipe, lines)
        if not is_locked(line) and line.when.stage is not Stage.DRY_HOP
    ]


def make_it(recipe: Recipe, key: str, wanted: float, means: Means) -> Aim:
    """Return the change of `means` after which the forecast `key` is as wanted.

    The amount is rounded to what a kitchen scale shows and a jug is read to (`STEPS`), so `reached`
    may differ from `wanted` by what that rounding causes. Raises KeyError for an unknown forecast.
    """
    aimed_at = BY_KEY[key]
    change = _changer(recipe, means, wanted, aimed_at)

    def forecast(amount: float) -> float:
        return float(aimed_at.compute(day_of(change(amount).apply(recipe))))

    first, last = _ends(recipe, means)
    low, high = forecast(first), forecast(last)
    while means.lines == "hops" and (nearer := forecast(last / 2.0)) > high:
        last, high = last / 2.0, nearer  # so many hops drink up the wort they make bitter
    if not min(low, high) <= wanted <= max(low, high):
        return Aim(None, low if abs(low - wanted) < abs(high - wanted) else high, low, high)
    amount = root(forecast, wanted, (first, low), (last, high), aimed_at.close)
    edit = change(_rounded(amount, means), weighed=amount_of(recipe, means))
    return Aim(edit, float(aimed_at.compute(day_of(edit.apply(recipe)))), low, high)


def _ends(recipe: Recipe, means: Means) -> tuple[float, float]:
    if means.lines == "process":
        # Extract may go straight into the fermenter: nothing need come from the pot.
        day = day_of(recipe)
        return float(day.fermenter.from_pot_l), 20.0 * float(day.fermenter.batch_l)
    now = _amount_kg(recipe, means)
    return 0.0, min(max(20.0 * now, 0.2 if means.lines == "hops" else 5.0), LARGEST_AMOUNT_KG)


def _line(recipe: Recipe, means: Means) -> Line:
    lines: tuple[Line, ...] = lines_of(recipe, means.lines)
    return next(each for each in lines if each.line_id == means.line_id)


def amount_of(recipe: Recipe, means: Means) -> Quantity | None:
    """Return how much there is of what may be changed; None where nobody said."""
    if means.lines == "process":
        return recipe.process.top_up_to
    return _line(recipe, means).amount


def _amount_kg(recipe: Recipe, means: Means) -> float:
    amount = amount_of(recipe, means)
    return amount.value if amount is not None else 0.0


class _Changer(Protocol):
    """Makes the edit to an amount, in kg or L; `weighed` is the amount before, for its units."""

    def __call__(
        self, amount: float, *, weighed: Quantity | None = None
    ) -> ChangeLine | ChangePart: ...


def _changer(recipe: Recipe, means: Means, wanted: float, aimed_at: Prediction) -> _Changer:
    by = within(means.name) if means.lines == "process" else means.name
    said = _said(aimed_at, wanted)
    text = say("make-it-by", "make it {wanted} by {means}", wanted=said, means=by)
    if means.lines == "process":
        high = facts_of(recipe.process, "top_up_to").high

        def top_up(amount: float, *, weighed: Quantity | None = None) -> ChangePart:
            filled = typed(Kind.VOLUME, min(amount, high), ".4g")
            if weighed is not None and is_in_us(weighed.text):
                filled = pourable(filled.value, weighed, FINE)
            return ChangePart("process", "top_up_to", filled, text)

        return top_up
    line = _line(recipe, means)

    def weigh(amount: float, *, weighed: Quantity | None = None) -> ChangeLine:
        mass = typed(Kind.MASS, amount)
        if amount > 0.0 and weighed is not None and is_in_us(weighed.text):
            mass = weighable(amount, weighed, FINE)
        return ChangeLine(means.lines, means.line_id, with_amount(line, mass), text)

    return weigh


def _said(aimed_at: Prediction, wanted: float) -> str:
    if aimed_at.kind is Kind.GRAVITY:
        return f"{wanted:.3f}"
    return f"{wanted:.3g} {aimed_at.unit}".rstrip()


def _rounded(amount: float, means: Means) -> float:
    step = step_for(amount, STEPS[means.lines])
    return round(round(amount / step) * step, 6)
