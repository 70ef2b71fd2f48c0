"""What may be changed to bring forecasts elsewhere: amounts, times of hops, the water on top.

Nothing that is locked, nor a list of which a boil of the plan has its own. Of a long recipe the
largest amounts are looked at one by one, the others only together.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from designer.brewday.aiming import TOP_UP, Means, day_of, means_for
from designer.brewday.weighable import pourable, weighable
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine, ChangePart, Edit, with_amount
from designer.recipe.fields import number
from designer.recipe.message import Figure, Message, say
from designer.recipe.named import Line, lines_of
from designer.recipe.quantity import Kind, Quantity, Stage, When

LEAST, MOST = 0.3, 3.0
"""How far an amount may go, as a part of what it was; further it is another recipe. A judgement."""
LEAST_WATER, MOST_WATER = 0.75, 1.35
LEAST_MIN, STEP_MIN = 5.0, 5.0
"""The least boil time of a hop, and the steps in which it is told; judgement."""
MOST_ALONE, MOST_TIMES = 4, 2


@dataclass(frozen=True, slots=True, eq=False)
class Lever:
    """What is changed as one: lines that are scaled alike, the water topped up to, or a time.

    `low` and `high` are how far, as parts of what it is. Each is one of its own.
    """

    means: tuple[Means, ...]
    low: float = LEAST
    high: float = MOST
    is_time: bool = False

    def overlaps(self, other: Lever) -> bool:
        """Whether both would change the same of a line; a weight and a time are two things."""
        return self.is_time == other.is_time and bool({*self.means} & {*other.means})


def levers_of(recipe: Recipe) -> tuple[Lever, ...]:
    """Return what may be changed, that which is most likely taken first."""
    return tuple(_levers(recipe))


def _levers(recipe: Recipe) -> Iterator[Lever]:
    weighed = [each for each in means_for("colour_srm", recipe) if _kg(recipe, each) > 0.0]
    extracts = tuple(each for each in weighed if _stage(recipe, each) is not Stage.STEEP)
    grains = tuple(each for each in weighed if each not in extracts)
    hops = tuple(each for each in means_for("bitterness_ibu", recipe) if _kg(recipe, each) > 0.0)
    for group in (extracts, hops):
        if group:
            yield Lever(group)
    yield from (Lever((each,)) for each in _largest(recipe, grains))
    if len(grains) > MOST_ALONE:
        yield Lever(grains)
    yield from _water(recipe)
    for group in (extracts, hops):
        if len(group) > 1:
            yield from (Lever((each,)) for each in _largest(recipe, group))
    for each in _largest(recipe, hops)[:MOST_TIMES]:
        yield from _time(recipe, each)


def _water(recipe: Recipe) -> Iterator[Lever]:
    volume = recipe.process.top_up_to
    if TOP_UP in means_for("original_gravity", recipe) and volume is not None and volume.value:
        from_pot = float(day_of(recipe).fermenter.from_pot_l) / volume.value
        yield Lever((TOP_UP,), max(LEAST_WATER, min(from_pot, 1.0)), MOST_WATER)


def _time(recipe: Recipe, means: Means) -> Iterator[Lever]:
    when, boil = _line(recipe, means).when, number(recipe.process, "boil_time")
    if when.stage is Stage.BOIL and LEAST_MIN <= when.minutes <= boil:
        low, high = LEAST_MIN / when.minutes, boil / when.minutes
        yield Lever((means,), low, high, is_time=True)


def _largest(recipe: Recipe, means: tuple[Means, ...]) -> list[Means]:
    """Return the largest amounts, in the order of the recipe."""
    largest = sorted(means, key=lambda each: -_kg(recipe, each))[:MOST_ALONE]
    return [each for each in means if each in largest]


def _line(recipe: Recipe, means: Means) -> Line:
    lines = lines_of(recipe, means.lines)
    return next(each for each in lines if each.line_id == means.line_id)


def _kg(recipe: Recipe, means: Means) -> float:
    amount = _line(recipe, means).amount
    return amount.value if amount is not None else 0.0


def _stage(recipe: Recipe, means: Means) -> Stage:
    return _line(recipe, means).when.stage


def change_of(
    recipe: Recipe, lever: Lever, means: Means, factor: float, fineness: float
) -> tuple[Edit, Message] | None:
    """Return what a pulled lever changes of one of its means, and that in words; None for nothing.

    With a `fineness` below 1 steps are divided; 0 leaves amounts and times unrounded.
    """
    if means == TOP_UP:
        return _other_mark(recipe, factor, fineness)
    line = _line(recipe, means)
    if lever.is_time:
        return _other_time(means, line, factor, fineness)
    amount = line.amount
    assert amount is not None
    mass = weighable(factor * amount.value, amount, fineness)
    if mass.value == amount.value:
        return None
    text = say("from-to", "{name} {0} to {1}", *_both(Kind.MASS, amount, mass), name=line.name)
    return ChangeLine(means.lines, means.line_id, with_amount(line, mass), text), text


def _other_mark(recipe: Recipe, factor: float, fineness: float) -> tuple[Edit, Message] | None:
    before = recipe.process.top_up_to
    assert before is not None
    volume = pourable(factor * before.value, before, fineness)
    if volume.value == before.value:
        return None
    text = say("top-up-from-to", "top-up mark {0} to {1}", *_both(Kind.VOLUME, before, volume))
    return ChangePart("process", "top_up_to", volume, text), text


def _other_time(
    means: Means, line: Line, factor: float, fineness: float
) -> tuple[Edit, Message] | None:
    step, before = max(STEP_MIN * fineness, 1e-6), line.when.minutes
    minutes = round(round(factor * before / step) * step, 6)
    if minutes == before:
        return None
    when = When(Stage.BOIL, f"boil {minutes:g} min", minutes)
    figures = ((Kind.TIME, before), (Kind.TIME, minutes))
    text = say("boiled-from-to", "{name} boiled for {1}, not {0}", *figures, name=line.name)
    return ChangeLine(means.lines, means.line_id, (("when", when),), text), text


def _both(kind: Kind, before: Quantity, after: Quantity) -> tuple[Figure, Figure]:
    return (kind, before), (kind, after)
