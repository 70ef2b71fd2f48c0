"""Where a brew stands for advice: how far each boil and fermenter has come by the steps done."""

from __future__ import annotations

from designer.brewday.measured.standing import At, Standing
from designer.workbench.brew.as_brewed import lines_in
from designer.workbench.brew.brewing import Brewing, Status

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
IN_THE_BOIL = ("boils", "addition", "flame-out")
"""Steps that tell what is left of a boil."""
_OF_POT = At.MOVED
"""The last that is said of a boil; what comes after is said of a fermenter."""


def standing_of(brewing: Brewing) -> Standing:
    """Return where a brew stands; of a boil is left what was left at the last step done in it."""
    boils: dict[int, At] = {}
    fermenters: dict[int, At] = {}
    left: dict[int, float] = {}
    for state in brewing.states:
        if state.status is not Status.DONE:
            continue
        step = state.step
        at = AFTER.get(step.kind, At.BEFORE)
        if step.kind == "addition" and step.left_min is None:
            at = At.BEFORE
        of = boils if at <= _OF_POT else fermenters
        for place in {step.boil} - {0} if of is boils else {max(step.fermenter, 1)}:
            of[place] = max(of.get(place, At.BEFORE), at)
        if step.kind in IN_THE_BOIL and step.left_min is not None:
            left[step.boil] = min(left.get(step.boil, step.left_min), max(step.left_min, 0.0))
    over = (Status.DONE, Status.LEFT_OUT)
    gone = frozenset(each for status in over for each in lines_in(brewing.states, status))
    return Standing(boils, fermenters, gone, left)
