"""The recipe as a brew makes it: what was accepted or cured, in hand, left out, and real times.

The recipe that the brew keeps never changes; this is folded anew from the log each time. What is
done at the stove is told by the recipe `with_accepted`: it still has the steps that were left out,
and the times as they are meant. The day is reckoned from the recipe `as_brewed`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from designer.brewday.measured.ahead import readings_moved
from designer.brewday.measured.as_read import as_read
from designer.brewday.measured.readings import Measured, Reading
from designer.recipe.document import LINE_TYPES, Recipe
from designer.recipe.edits import ChangeLine, ChangePart, ChangeRecipe, Edit, RemoveLines
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.named import lines_of
from designer.recipe.plan import boils_of, recipe_of_boil
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Stage, When
from designer.workbench.brew.accepted_changes import with_changes
from designer.workbench.brew.afterwards import Cured
from designer.workbench.brew.brewing import Answer, Brewing, KeptReading, Status, StepState
from designer.workbench.brew.reading_story import Fits, gravities_read, is_settled, superseded
from designer.workbench.brew.timers import timers_of

AS_BREWED = say("as-brewed", "keep it as it was brewed")
IN_HAND = (Measured.ALPHA, Measured.WEIGHT)
"""What is read of a line of the recipe."""
LATE_MIN = 1.0
"""So far from its time what goes in is still in time: nobody throws hops to the second."""
LONGEST_OVER_MIN = 120.0
"""A boil that ran on for longer than this was forgotten to be told as over; a judgement."""


def _ran_by_timer(brewing: Brewing, state: StepState) -> float | None:
    """Return the minutes that the boil had run by its timer when a step was done, None: not known.

    Its pauses are left out.
    """
    place = next((at for at, each in enumerate(brewing.live) if each.id == state.entry), None)
    if place is None or state.at is None or brewing.live[place].by_guess:
        return None
    for timer in timers_of(brewing.live[: place + 1]):
        if timer.kind == "boil" and timer.boil == state.step.boil:
            return None if timer.doubtful(state.at) else timer.ran_by(state.at) / 60.0
    return None


def with_accepted(recipe: Recipe, brewing: Brewing) -> Recipe:
    """Return the recipe with proposals and cures taken, and weights and alpha acids as in hand.

    Its lines and steps are all still there, so a log's steps find their own; it is told by the log
    alone, whatever steps that was folded with.
    """
    said: dict[str, Answer | Cured | KeptReading] = {e.entry: e for e in _answered(brewing)}
    said.update((each.entry, each) for each in brewing.readings)
    for entry in brewing.live:
        found = said.get(entry.id)
        if isinstance(found, Answer | Cured):
            recipe = with_changes(recipe, found.changes)
        elif found is not None:
            recipe = _in_hand(recipe, found.reading)
    return recipe


def as_brewed(recipe: Recipe, brewing: Brewing) -> Recipe:
    """Return the recipe as it is brewed, by all that is known of it."""
    made = with_accepted(recipe, brewing)
    for edit in (*_times(made, brewing), *_left_out(brewing)):
        made = edit.apply(made)
    return made


def readings_as_brewed(brewing: Brewing, fits: Fits = is_settled) -> tuple[Reading, ...]:
    """Return the readings of the day, by what is then left of a boil that lasts longer.

    Weights and alpha acids stand in the recipe as brewed already. `fits` tells which samples of the
    gravity count.
    """
    stood_for = superseded(brewing)
    place = {each.id: at for at, each in enumerate(brewing.live)}
    meant = with_accepted(brewing.recipe, brewing)
    over = {
        boil: _over(brewing, boil, number(recipe_of_boil(meant, boil).process, "boil_time"))
        for boil in range(1, len(boils_of(meant)) + 1)
    }
    read = [(e.entry, e.reading) for e in brewing.readings if e.entry not in stood_for]
    found = []
    for entry, reading in (*read, *gravities_read(brewing, fits)):
        later = [
            change
            for answer in _answered(brewing)
            if place.get(answer.entry, 0) > place.get(entry, 0)
            for change in _changes(answer)
        ]
        (moved,) = readings_moved((reading,), later)
        if moved.left_min is not None:
            left = moved.left_min + (over.get(moved.boil) or 0.0)
            moved = replace(moved, left_min=left)
        found.append(moved)
    return tuple(each for each in found if each.what not in IN_HAND)


def _answered(brewing: Brewing) -> tuple[Answer | Cured, ...]:
    """Return what changes the recipe: accepted proposals, and cures of odd readings."""
    return *brewing.accepted, *brewing.after.cures


def _changes(answer: Answer | Cured) -> list[Any]:
    return answer.changes if isinstance(answer.changes, list) else []


def _in_hand(recipe: Recipe, reading: Reading) -> Recipe:
    """Return the recipe with a packet's alpha acid, or the weight that went in.

    A packet is that of all boils that share the recipe's hops; a weight is that of one boil.
    """
    if reading.what not in IN_HAND:
        return recipe
    lists = "hops" if reading.what is Measured.ALPHA else reading.lines
    if lists not in LINE_TYPES:
        return recipe
    boil = min(max(reading.boil, 1), len(boils_of(recipe)))
    is_shared = reading.what is Measured.ALPHA and recipe.boils and not recipe.boils[boil - 1].hops
    if is_shared or not recipe.boils:
        return as_read(recipe, [reading])
    made = as_read(recipe_of_boil(recipe, boil), [reading])
    change = ChangeRecipe(lists, lines_of(made, lists), AS_BREWED)
    return InBoil(change, boil).apply(recipe)


def _left_out(brewing: Brewing) -> Iterator[Edit]:
    """Yield what takes out what was left out: lines, or the water on top."""
    for state in brewing.states:
        if state.status is not Status.LEFT_OUT:
            continue
        step = state.step
        boil, fermenter = max(step.boil, 1), max(step.fermenter, 1)
        if step.kind == "top-up":
            none = ChangePart("process", "top_up_to", None, AS_BREWED)
            yield InBoil(none, boil, fermenter)
        for lines in LINE_TYPES:
            gone = frozenset(each.line_id for each in step.portions if each.lines == lines)
            if gone:
                yield InBoil(RemoveLines(lines, gone, AS_BREWED), boil, fermenter)


def _times(recipe: Recipe, brewing: Brewing) -> Iterator[Edit]:
    """Yield how long each boil really was, and when things really went in."""
    for boil in range(1, len(boils_of(recipe)) + 1):
        boiled = recipe_of_boil(recipe, boil)
        minutes = number(boiled.process, "boil_time")
        over = _over(brewing, boil, minutes) or 0.0
        if over:
            time = typed(Kind.TIME, minutes + over, ".6g")
            yield InBoil(ChangePart("process", "boil_time", time, AS_BREWED), boil)
        yield from _additions(boiled, brewing, boil, minutes + over)


def _over(brewing: Brewing, boil: int, minutes: float) -> float | None:
    """Return by how much a boil was longer than meant; None while it is not over."""
    for state in brewing.states:
        step = state.step
        if step.kind == "flame-out" and step.boil == boil and state.status is Status.DONE:
            really = _ran_by_timer(brewing, state)
            over = 0.0 if really is None else round(really - minutes, 1)
            return over if LATE_MIN <= abs(over) <= LONGEST_OVER_MIN else 0.0
    return None


def _additions(boiled: Recipe, brewing: Brewing, boil: int, whole: float) -> Iterator[Edit]:
    """Yield when things really went into a boil that lasted so long, where that is another time."""
    for state in brewing.states:
        step = state.step
        if state.status is not Status.DONE or step.boil != boil or step.left_min is None:
            continue
        really = _ran_by_timer(brewing, state)
        if really is None:
            continue
        left = min(max(round(whole - really, 1), 0.0), whole)
        when = When(Stage.BOIL, f"boil {left:g} min", left)
        for each in step.portions:
            if _is_moved(boiled, each.lines, each.line_id, left, whole):
                change = ChangeLine(each.lines, each.line_id, (("when", when),), AS_BREWED)
                yield InBoil(change, boil)


def _is_moved(boiled: Recipe, lines: str, line_id: int, left: float, whole: float) -> bool:
    if lines not in LINE_TYPES:
        return False
    line = next((each for each in lines_of(boiled, lines) if each.line_id == line_id), None)
    if line is None or line.when.stage is not Stage.BOIL:
        return False
    return abs(min(line.when.minutes, whole) - left) >= LATE_MIN


def lines_in(states: Sequence[StepState], status: Status) -> Iterator[tuple[str, int, int]]:
    """Yield the lines of steps of that status: their list, line_id and boil."""
    for state in states:
        if state.status is status:
            for each in state.step.portions:
                yield each.lines, each.line_id, max(state.step.boil, 1)
