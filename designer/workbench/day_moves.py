"""Where an addition can be moved to along the day: down the boil, and hops on beyond its end.

From early to late: so many minutes of boil left, flame-out, a stand as warm as the pot then is
while it cools, dry hopping so many days before packaging. Extract and extras end at flame-out.
"""

from __future__ import annotations

from collections.abc import Iterable

from designer.brewday.results import Day
from designer.brewday.time_line import Addition
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine
from designer.recipe.message import say
from designer.recipe.named import is_locked, lines_of
from designer.recipe.quantity import Stage, When
from designer.recipe.when_words import said_when
from designer.units import ShownUnits
from designer.units.reading import read_when
from designer.workbench.day_reading import at_time, boil_span

USUAL_STAND_MIN = 20.0
STAND_C = (60.0, 95.0)
"""A stand is warmer than where bitter acids are no longer made, and cooler than the boil."""
STAND_STEP = 5
"""Degrees, of the scale that is shown, from one place of a stand to the next."""
DRY_HOP_DAYS = (1, 7)
_ALL = {str(stage) for stage in (Stage.BOIL, Stage.FLAME_OUT)}
_HOPS = {str(stage) for stage in (Stage.STAND, Stage.DRY_HOP)}


def may_move(addition: Addition) -> bool:
    """Whether it goes in at a minute of the boil, at flame-out or, hops, later than that."""
    if addition.stage in _ALL or addition.boil_left_min is not None:
        return True
    return addition.lines == "hops" and addition.stage in _HOPS


def at_boil(minutes_left: float, longest: float) -> When:
    """Return the place with so much of the boil left, in whole minutes; its end is flame-out."""
    left = round(min(max(minutes_left, 0.0), longest))
    if left == 0:
        return When(Stage.FLAME_OUT, "flame-out")
    return When(Stage.BOIL, f"boil {left} min", float(left))


def at_stand(celsius: float, minutes: float, shown: ShownUnits) -> When:
    """Return a stand of some minutes, at a round temperature of the scale that is shown."""
    fahrenheit = shown is ShownUnits.US
    low, high = (_shown(each, fahrenheit) for each in STAND_C)
    found = STAND_STEP * round(_shown(celsius, fahrenheit) / STAND_STEP)
    first, last = STAND_STEP * round(low / STAND_STEP), STAND_STEP * int(high // STAND_STEP)
    degrees = min(max(found, first), last)
    unit = "°F" if fahrenheit else "°C"
    return read_when(f"stand {minutes:g} min at {degrees} {unit}")


def _shown(celsius: float, fahrenheit: bool) -> float:
    return 1.8 * celsius + 32.0 if fahrenheit else celsius


def at_dry_hop(days: float) -> When:
    """Return dry hopping so many whole days before packaging."""
    low, high = DRY_HOP_DAYS
    count = min(max(round(days), low), high)
    return When(Stage.DRY_HOP, f"dry hop {count} day{'' if count == 1 else 's'}", days=float(count))


def cooled_min(day: Day) -> float:
    """Return when the pot has been cooled, minutes: until then hops can stand in it."""
    ends = [each.end_min for each in day.spans if each.key in ("cool", "stand")]
    return max([boil_span(day)[1], *ends])


def place_at(day: Day, time_min: float, when: When, shown: ShownUnits) -> When:
    """Return where hops of a place go that are moved to a time of boiling or cooling.

    A stand keeps its minutes, and is as warm as the pot of the day is at that time.
    """
    start, end = boil_span(day)
    if time_min <= end:
        return at_boil(end - time_min, end - start)
    moment = at_time(day, time_min)
    celsius = moment.temperature_c if moment is not None else STAND_C[0]
    return at_stand(celsius, _stand_minutes(when), shown)


def _stand_minutes(when: When) -> float:
    return when.minutes if when.stage is Stage.STAND and when.minutes > 0.0 else USUAL_STAND_MIN


def next_place(
    when: When, later: bool, longest_boil: float, shown: ShownUnits, *, is_hop: bool
) -> When:
    """Return the next place later, or earlier, than one; the first and the last stay."""
    places = _places(when, longest_boil, shown, is_hop=is_hop)
    now = _order(when)
    behind = [each for each in places if _order(each) > now]
    before = [each for each in places if _order(each) < now]
    if later:
        return behind[0] if behind else when
    return before[-1] if before else when


def _places(when: When, longest_boil: float, shown: ShownUnits, *, is_hop: bool) -> list[When]:
    """Return all places from early to late."""
    boil = [at_boil(float(left), longest_boil) for left in range(int(longest_boil), -1, -1)]
    if not is_hop:
        return boil
    low, high = STAND_C
    minutes = _stand_minutes(when)
    stands = [at_stand(high - step, minutes, shown) for step in range(int(high - low) + 1)]
    few, many = DRY_HOP_DAYS
    late = [at_dry_hop(days) for days in range(many, few - 1, -1)]
    return [*boil, *dict.fromkeys(stands), *late]


_STAGES = (Stage.BOIL, Stage.FLAME_OUT, Stage.STAND, Stage.DRY_HOP)


def _order(when: When) -> tuple[int, float]:
    """Return what sorts places by when they are."""
    stage = when.stage if when.stage in _STAGES else Stage.BOIL
    behind = {Stage.BOIL: -when.minutes, Stage.STAND: -(when.temperature or 80.0)}
    return _STAGES.index(stage), behind.get(stage, -when.days)


def line_when(recipe: Recipe, addition: Addition) -> When | None:
    """Return when a line goes in as the recipe has it; None for one that is not there."""
    lines = lines_of(recipe, addition.lines)
    return next((one.when for one in lines if one.line_id == addition.line_id), None)


def moved_edits(
    recipe: Recipe, additions: Iterable[Addition], when: When, merge_key: str
) -> list[ChangeLine]:
    """Return the edits that put lines to a place; none for locked ones and those that are there."""
    edits = []
    for each in additions:
        line = next(
            (one for one in lines_of(recipe, each.lines) if one.line_id == each.line_id), None
        )
        if line is None or is_locked(line) or line.when == when:
            continue
        text = say("move-to", "move {name} to {when}", name=each.name, when=said_when(when.text))
        edits.append(ChangeLine(each.lines, each.line_id, (("when", when),), text, merge_key))
    return edits
