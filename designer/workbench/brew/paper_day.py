"""The log of a brew that was done from the paper sheet, written down afterwards.

Every time in it is by guess: steps are put where the plan has them, drawn out or pushed together so
that the day lasts from its start to the yeast.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from designer.brewday.measured.readings import Reading
from designer.recipe.taught import Filled
from designer.units.clock import minutes_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.taught_at_start import KEY, values_of_taught

if TYPE_CHECKING:
    from designer.sheet.stove import StoveStep

PITCH = "pitch"
"""The kind of the step at which the yeast goes in."""
MINUTE_S = 60.0


@dataclass(frozen=True, slots=True)
class PaperReading:
    """What was read at a step, and as it was typed."""

    step: str
    reading: Reading
    typed: str


@dataclass(frozen=True, slots=True)
class PaperDay:
    """What the paper says. `pitched` is when the yeast went in; `yeast` which, "" for the recipe's.

    `left_out` holds the keys of the steps that were not done, `steps` all steps of the plan; none
    where nobody says what was done. `taught` is what filled empty fields of the recipe.
    """

    began: datetime
    pitched: datetime
    steps: Sequence[StoveStep] = ()
    readings: tuple[PaperReading, ...] = ()
    left_out: frozenset[str] = frozenset()
    yeast: str = ""
    notes: str = ""
    shown: str = ""
    taught: tuple[Filled, ...] = ()


def entries_of_paper(day: PaperDay) -> tuple[Entry, ...]:
    """Return the log of a day, its times by guess."""
    entries: list[Entry] = []
    for wall, what, values in sorted(_said(day), key=lambda each: each[0]):
        entries.append(Entry(next_id(entries[-1:]), Instant(wall), what, values, by_guess=True))
    return tuple(entries)


def ends_at(steps: Sequence[StoveStep]) -> float:
    """Return the minutes from the start of a day to its yeast as planned; 0 where none is told."""
    pitch = [each.minutes for each in steps if each.kind == PITCH]
    return max(pitch, default=max((each.minutes for each in steps), default=0.0))


def _said(day: PaperDay) -> Iterator[tuple[float, What, dict[str, Any]]]:
    began = day.began.timestamp()
    pitched = max(day.pitched.timestamp(), began)
    planned = ends_at(day.steps)
    scale = (pitched - began) / (planned * MINUTE_S) if planned else 0.0
    start_min = minutes_of(f"{day.began:%H:%M}")
    taught = {KEY: values_of_taught(day.taught)} if day.taught else {}
    yield began, What.BEGAN, {"start_min": start_min, "shown": day.shown, **taught}
    for step in day.steps:
        at = min(began + step.minutes * MINUTE_S * scale, pitched)
        for each in day.readings:
            if each.step == step.key:
                values = {"reading": values_of(each.reading), "typed": each.typed}
                yield at, What.READING, {**values, "step": step.key}
        if step.kind == PITCH and day.yeast:
            yield at, What.NOTE, {"text": day.yeast, "step": step.key}
        if step.key in day.left_out:
            yield at, What.LEFT_OUT, {"step": step.key, "reason": ""}
        else:
            yield at, What.DONE, {"step": step.key}
    if day.yeast and not any(each.kind == PITCH for each in day.steps):
        yield pitched, What.NOTE, {"text": day.yeast}
    if day.notes:
        yield pitched, What.NOTE, {"text": day.notes}
    yield pitched, What.FINISHED, {}
