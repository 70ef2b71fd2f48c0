"""Steps and timers: what is done in a boil at its minute, and which step ends what timer."""

from __future__ import annotations

from collections.abc import Iterable

from designer.recipe.message import Message, say
from designer.sheet.stove import ENDED_BY, StoveStep
from designer.workbench.brew.announcements import Addition
from designer.workbench.brew.timers import TimerState

_GOES_IN = ("addition", "extract", "coil")


def additions_of(steps: Iterable[StoveStep]) -> tuple[Addition, ...]:
    """Return what is done during the boils, in the order of the steps."""
    return tuple(
        Addition(
            each.key,
            _name(each),
            each.left_min,
            each.boil,
            each.mark,
            goes_in=each.kind in _GOES_IN,
            ends=each.kind == "flame-out",
        )
        for each in steps
        if each.left_min is not None and each.kind != "boils"
    )


def ended_by(step: StoveStep, timers: Iterable[TimerState]) -> tuple[str, ...]:
    """Return the ids of the timers that are over once a step is done, but for what it starts."""
    kinds = ENDED_BY.get(step.kind, ())
    starts = step.starts.name if step.starts is not None else ""
    return tuple(
        each.id
        for each in timers
        if each.kind in kinds and each.kind != starts and each.boil == step.boil and not each.ended
    )


def _name(step: StoveStep) -> str | Message:
    name = f"{step.amount} {step.name}".strip()
    if step.kind == "flame-out" and step.portions:
        return say("flame-out-with", "burner off, then {name}", name=name)
    return name
