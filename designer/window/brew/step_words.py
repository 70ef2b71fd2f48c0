"""What the card says of a step beside the sheet's own words: its kind, and what Done is called."""

from __future__ import annotations

from designer.sheet.blocks import plain_words
from designer.sheet.stove import StoveStep
from designer.translation import message, tr
from designer.workbench.brew import timer_moves

BOIL, STEEP, STAND, KEPT_HOT, _ = timer_moves.KINDS
KINDS = {
    "fill": message("Water into the pot"),
    "heat": message("On the stove"),
    "steep": message("Steep"),
    "lift": message("Lift the grain"),
    "extract": message("Next into the pot"),
    "boils": message("The boil begins"),
    "addition": message("Next into the pot"),
    "sanitise": message("Meanwhile"),
    "coil": message("Next into the pot"),
    "flame-out": message("The boil ends"),
    KEPT_HOT: message("Kept hot"),
    "stand": message("Hop stand"),
    "cool": message("Cool"),
    "move": message("Into the fermenter"),
    "top-up": message("Top up"),
    "mix": message("Mix"),
    "read": message("Measure"),
    "pitch": message("Yeast"),
    "close": message("Close up"),
    "rinse": message("Clean up"),
}
NEXT = message("Next")
LATE = {
    "addition": message("late: put it in now"),
    "extract": message("late: put it in now"),
    "lift": message("late: lift it out now"),
    "flame-out": message("late: burner off now"),
    "move": message("late: move it now"),
}
"""What to do about a step that is due; `LATE_OTHERS` for the rest."""
LATE_OTHERS = message("late: do it now")
STARTS = {
    BOIL: message("It boils: start {minutes:g} min"),
    STEEP: message("Done: start {minutes:g} min steep"),
    STAND: message("Done: start {minutes:g} min stand"),
    KEPT_HOT: message("Done: start {minutes:g} min"),
}
_NOT_MUCH_TO_SAY = ("care", "stop")


def kind_of(step: StoveStep) -> str:
    """Return what sort of step it is, as the card heads it."""
    kind = tr(KINDS.get(step.kind, NEXT))
    return tr("{kind} · {whose}", kind=kind, whose=step.whose) if step.whose else kind


def what_to_do(step: StoveStep) -> str:
    """Return what to do about a step that is late."""
    return tr(LATE.get(step.kind, LATE_OTHERS))


def done_words(step: StoveStep) -> str:
    """Return what the button says that does the step: with the timer that it starts."""
    if step.starts is None:
        return tr("Done, go on")
    words = STARTS.get(step.starts.name, STARTS[KEPT_HOT])
    return tr(words, minutes=step.starts.minutes)


def headline(step: StoveStep) -> tuple[str, str]:
    """Return what is largest on the card, and the line below it: amount and name, or the name."""
    return (step.amount, step.name) if step.amount else (step.name, "")


def cautions(step: StoveStep) -> tuple[str, ...]:
    """Return what to take care of at a step."""
    return tuple(each.text for each in step.asides if each.kind in _NOT_MUCH_TO_SAY)


def sentence(step: StoveStep) -> str:
    """Return the sheet's sentence, as plain text."""
    return plain_words(step.do)


def title(step: StoveStep) -> str:
    """Return amount and name on one line."""
    return step.title or f"{step.amount} {step.name}".strip()
