"""The blank of a reading: one of the steps' own, or, for what no step asks, one made for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from designer.brewday.measured.readings import By, Measured, Reading
from designer.recipe.quantity import Kind
from designer.sheet.stove import Blank, StoveStep
from designer.translation import message, tr

Place = tuple[Measured, int, int, str, int]
"""Where something is measured: what, in which boil and fermenter, and of which line."""
_MADE: dict[Measured, tuple[Kind, By, str]] = {
    Measured.WATER_IN: (Kind.VOLUME, By.MARK, message("Water in")),
    Measured.STRIKE: (Kind.TEMPERATURE, By.THERMOMETER, message("Before the grain")),
    Measured.STEEP: (Kind.TEMPERATURE, By.THERMOMETER, message("Steep")),
    Measured.BOIL_START_VOLUME: (Kind.VOLUME, By.MARK, message("Boil starts")),
    Measured.BOIL_START_GRAVITY: (Kind.GRAVITY, By.HYDROMETER, message("its gravity")),
    Measured.BOIL_VOLUME: (Kind.VOLUME, By.MARK, message("In the boil")),
    Measured.BOIL_GRAVITY: (Kind.GRAVITY, By.HYDROMETER, message("Gravity in the boil")),
    Measured.BOIL_END_VOLUME: (Kind.VOLUME, By.MARK, message("Boil ends")),
    Measured.BOIL_END_GRAVITY: (Kind.GRAVITY, By.HYDROMETER, message("Gravity at its end")),
    Measured.COOLED: (Kind.TEMPERATURE, By.THERMOMETER, message("Cooled to")),
    Measured.INTO_FERMENTER: (Kind.VOLUME, By.MARK, message("From the pot")),
    Measured.TOPPED_UP: (Kind.VOLUME, By.MARK, message("Topped up to")),
    Measured.MIXED: (Kind.TEMPERATURE, By.THERMOMETER, message("Mixed")),
    Measured.ORIGINAL_GRAVITY: (Kind.GRAVITY, By.HYDROMETER, message("OG, mixed")),
    Measured.ALPHA: (Kind.FRACTION, By.PACKET, message("Alpha acid")),
    Measured.WEIGHT: (Kind.MASS, By.SCALE, message("Weight")),
}

_WHOLE: dict[Measured, str] = {
    Measured.BOIL_START_VOLUME: message("Volume at the start of the boil"),
    Measured.BOIL_START_GRAVITY: message("Gravity at the start of the boil"),
    Measured.BOIL_END_VOLUME: message("Volume at the end of the boil"),
    Measured.BOIL_END_GRAVITY: message("Gravity at the end of the boil"),
}
"""What is read apart from the blanks about it: "its gravity" says nothing by itself."""


def whole_label(blank: Blank) -> str:
    """Return what a blank is for, where it is named by itself: in the log, in a question."""
    return tr(_WHOLE[blank.what]) if blank.what in _WHOLE else blank.label


def made_blank(what: Measured, boil: int = 1, fermenter: int = 1) -> Blank:
    """Return a blank for what no step asks to be measured; it has no forecast."""
    kind, by, label = _MADE[what]
    return Blank(what, tr(label), kind, "", 0.0, by, boil, fermenter)


def blank_of(reading: Reading, steps: Iterable[StoveStep]) -> Blank:
    """Return the blank of a reading."""
    wanted = place_of(reading)
    for step in steps:
        for each in (*step.blanks, *step.portion_blanks):
            if place_of(each) == wanted:
                return each
    made = made_blank(reading.what, reading.boil, reading.fermenter)
    return replace(made, lines=reading.lines, line_id=reading.line_id)


def place_of(about: Reading | Blank) -> Place:
    """Return where on the day something is measured: what has one place is typed into one blank."""
    return about.what, about.boil, about.fermenter, about.lines, about.line_id
