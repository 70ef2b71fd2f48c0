"""What to measure on the next brew day, so that it teaches most."""

from __future__ import annotations

from designer.brewday.predictions import PREDICTIONS
from designer.brewday.results import Outlook
from designer.recipe.message import Message, say, within, word
from designer.translation import message

_ASKED = ("original_gravity", "final_gravity")
"""Forecasts that a kitchen can teach; where both depend alike on something, the first is told."""
_TAUGHT_BY = {"attenuation": message("read the gravity until it no longer falls")}
"""What teaches an input, where that is not what knows it better at once."""
WORTH_TELLING = 0.10
"""So much of what is open must hang on it."""


def next_to_measure(outlook: Outlook) -> Message | None:
    """Return what to measure next, by how much of what is open in the gravities hangs on it.

    None where nothing that a kitchen can measure makes a tenth of it.
    """
    found = [
        (cause.share, -place, _TAUGHT_BY.get(cause.key, cause.advice))
        for place, key in enumerate(_ASKED)
        for cause in outlook.forecasts[key].causes
        if cause.advice and cause.share >= WORTH_TELLING
    ]
    if not found:
        return None
    share, place, advice = max(found)
    label = next(each.label for each in PREDICTIONS if each.key == _ASKED[-place])
    return say(
        "teaches-most",
        "Next time {advice}: {percent} % of what is open in the {forecast} hangs on that.",
        advice=word(advice),
        percent=f"{100.0 * share:.0f}",
        forecast=within(label),
    )
