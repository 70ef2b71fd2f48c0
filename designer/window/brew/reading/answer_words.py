"""What is said of a reading before anything can be reckoned: what to type, what to do first."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.explaining.explained import Cure, Explained
from designer.recipe.message import Message
from designer.translation import tr
from designer.window.brew.reading.cause_rows import bitterness_text
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure

AFTER = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
"""The forecasts that are told after a cure, in this order, where they are known."""


@dataclass(frozen=True, slots=True)
class Said:
    """A verdict in a few words, and a sentence below it."""

    title: str
    words: str


def nothing_typed() -> Said:
    """Return what is said while nothing was read."""
    return Said(
        tr("Type what the hydrometer shows"),
        tr("The reading and the temperature of the sample are enough to begin with."),
    )


def cool_first(temperature: str) -> Said:
    """Return what is said of a sample that is too warm."""
    return Said(
        tr("Cool the sample first"),
        tr(
            "At {temperature} the reading says next to nothing. Hold the jar under the cold tap "
            "until it is at 20 °C, about four minutes, and read again.",
            temperature=temperature,
        ),
    )


def is_being_reckoned() -> Said:
    """Return what is said for the moment that it takes."""
    return Said(tr("Being compared with the day …"), "")


def in_words(message: Message, display: DisplayFormat) -> str:
    """Return a message in the units that are shown."""
    return message.said(display.short, display.quantity)


def after_cure(cure: Cure, display: DisplayFormat) -> str:
    """Return the forecasts after a cure."""
    found = []
    for key in AFTER:
        if key not in cure.after:
            continue
        value = cure.after[key].value
        if key == "bitterness_ibu":
            found.append(tr("{ibu} IBU", ibu=bitterness_text(value, display)))
        elif key == "original_gravity":
            found.append(tr("OG {gravity}", gravity=figure(key, value, display)))
        elif key == "final_gravity":
            found.append(tr("FG {gravity}", gravity=figure(key, value, display)))
        else:
            found.append(figure(key, value, display))
    return " · ".join(found)


def said_of(explained: Explained, display: DisplayFormat) -> Said:
    """Return the verdict of an answer."""
    return Said(in_words(explained.title, display), in_words(explained.words, display))
