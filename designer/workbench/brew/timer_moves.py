"""What TIMER and CLOCK entries hold: the plain values of each thing that is done to a timer.

A timer that a step starts is named after its kind and boil ("boil 1"), a free one as its maker
likes; starting a timer again that is there begins it anew.
"""

from __future__ import annotations

from typing import Any

KINDS = ("boil", "steep", "stand", "kept hot", "free")


def timer_id(kind: str, boil: int = 1) -> str:
    """Return the name by which the timer of a step is known."""
    return f"{kind} {boil}"


def start(
    kind: str, minutes: float, *, name: str = "", boil: int = 1, timer: str = ""
) -> dict[str, Any]:
    """Return what starts a timer of `KINDS`; a free one needs a `timer` of its own."""
    return {
        "timer": timer or timer_id(kind, boil),
        "does": "start",
        "kind": kind,
        "minutes": minutes,
        "name": name,
        "boil": boil,
    }


def pause(timer: str) -> dict[str, Any]:
    """Return what pauses a timer: the burner is off, the boil stands still."""
    return {"timer": timer, "does": "pause"}


def resume(timer: str) -> dict[str, Any]:
    """Return what lets a timer go on."""
    return {"timer": timer, "does": "resume"}


def add(timer: str, minutes: float) -> dict[str, Any]:
    """Return what makes a timer longer or, below 0, shorter."""
    return {"timer": timer, "does": "add", "minutes": minutes}


def move(timer: str, to_left_min: float) -> dict[str, Any]:
    """Return what says how much is left of a timer: it began earlier or later than written."""
    return {"timer": timer, "does": "move", "to_left_min": to_left_min}


def stop(timer: str) -> dict[str, Any]:
    """Return what takes a timer away."""
    return {"timer": timer, "does": "stop"}


def end(timer: str) -> dict[str, Any]:
    """Return what brings a timer to its end, with a step: it stays, for how long it ran."""
    return {"timer": timer, "does": "end"}


def confirm(timer: str, addition: str = "") -> dict[str, Any]:
    """Return what says that an addition is in, or, without one, that the end was heard."""
    return {"timer": timer, "does": "confirm", "addition": addition}


def it_is(wall: float) -> dict[str, Any]:
    """Return the answer to what time it is, for a CLOCK entry: seconds since 1970.

    A CLOCK entry without it only notes that the wall clock was set.
    """
    return {"wall": wall}
