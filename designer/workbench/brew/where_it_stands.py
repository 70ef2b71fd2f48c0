"""Where a brew stands for advice: how far each boil and fermenter has come by the steps done."""

from __future__ import annotations

from designer.brewday.measured.standing import At, Standing
from designer.workbench.brew.as_brewed import lines_in
from designer.workbench.brew.brewing import Brewing, Status
from designer.workbench.brew.timers import timers_of

AFTER = {
    "fill": At.FILLED,
    "steep": At.STEEPED,
    "lift": At.STEEPED,
    "boils": At.BOILING,
    "addition": At.BOILING,
    "flame-out": At.BOILED,
    "kept hot": At.BOILED,
    "stand": At.BOILED,
    "cool": At.COOLED,
    "move": At.MOVED,
    "top-up": At.TOPPED_UP,
    "mix": At.TOPPED_UP,
    "pitch": At.PITCHED,
}
"""How far a step brings its boil, or what it fills, by its kind."""
OVER = (Status.DONE, Status.LEFT_OUT)
_OF_POT = At.MOVED
"""The last that is said of a boil; what comes after is said of a fermenter."""


def standing_of(brewing: Brewing) -> Standing:
    """Return where a brew stands, and what was left of each boil when its log was last written."""
    boils: dict[int, At] = {}
    fermenters: dict[int, At] = {}
    passed = [each for each in brewing.states if each.status in OVER]
    for state in passed:
        step, at = state.step, AFTER.get(state.step.kind, At.BEFORE)
        if step.kind == "addition" and step.left_min is None:
            continue
        if at <= _OF_POT:
            boils[step.boil] = max(boils.get(step.boil, At.BEFORE), at)
        else:
            place = max(step.fermenter, 1)
            fermenters[place] = max(fermenters.get(place, At.BEFORE), at)
    gone = frozenset(each for status in OVER for each in lines_in(brewing.states, status))
    return Standing(boils, fermenters, gone, _left(brewing))


def _left(brewing: Brewing) -> dict[int, float]:
    """Return what is left of the boils under way, minutes: by their timers, else by the steps."""
    left: dict[int, float] = {}
    for state in brewing.states:
        step = state.step
        in_boil = step.kind in ("boils", "addition") and state.status in OVER
        if in_boil and step.left_min is not None:
            left[step.boil] = min(left.get(step.boil, step.left_min), step.left_min)
    if brewing.live:
        now = brewing.live[-1].at
        for timer in timers_of(brewing.live):
            if timer.kind == "boil" and not timer.doubtful(now):
                left[timer.boil] = max(timer.left_s(now) / 60.0, 0.0)
    return left
