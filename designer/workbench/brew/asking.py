"""Whether a reading is asked about before it is taken: beside the day as it was known before it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.measured.digit_slips import figure_in
from designer.brewday.measured.doubtful import Doubtful, doubts_of, misread
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.results import Outlook
from designer.recipe.quantity import Kind
from designer.sheet.stove import Blank
from designer.workbench.brew.as_brewed import readings_as_brewed
from designer.workbench.brew.blank_places import place_of
from designer.workbench.brew.brewing import Brewing
from designer.workbench.brew.reckoning import Reckoned, where_it_was

OF_A_LINE = (Measured.ALPHA, Measured.WEIGHT)


def doubt_of(
    brewing: Brewing, known: Reckoned, reading: Reading, typed: str, corrects: str = ""
) -> Doubtful | None:
    """Return what is doubtful of a reading that was typed; None where it can be taken.

    `corrects` is the id of the entry that it corrects: what that said tells nothing of it.
    """
    brewing = where_it_was(brewing)
    return doubts_of(
        reading,
        _before(brewing, known, corrects),
        known.recipe,
        typed=typed,
        beside=tuple(_beside(brewing, reading)),
    )


def misread_of(
    brewing: Brewing, known: Reckoned, blank: Blank, typed: str, corrects: str = ""
) -> Doubtful | None:
    """Return what may have been meant by a text that is no reading of a blank; None for nothing.

    Gravities alone are written in so many ways that a bare figure may still be guessed.
    """
    figure = figure_in(typed) if set(typed.strip()) <= set("0123456789.,") else None
    if figure is None or blank.kind is not Kind.GRAVITY:
        return None
    brewing, reading = where_it_was(brewing), reading_at(blank, figure)
    before = _before(brewing, known, corrects)
    return misread(reading, before, known.recipe, typed, tuple(_beside(brewing, reading)))


def _before(brewing: Brewing, known: Reckoned, corrects: str) -> Outlook:
    """Return the day as it was known before a reading, without what that corrects."""
    if not corrects and known.whole:
        return known.outlook
    others = tuple(each for each in brewing.readings if each.entry != corrects)
    readings = readings_as_brewed(replace(brewing, readings=others))
    return day_measured(known.recipe, readings, ranges=False)  # what is read there has its own


def reading_at(blank: Blank, value: float) -> Reading:
    """Return a reading of so much at a blank."""
    return Reading(
        blank.what,
        value,
        blank.by,
        boil=blank.boil,
        fermenter=blank.fermenter,
        left_min=blank.left_min,
        lines=blank.lines,
        line_id=blank.line_id,
    )


def _beside(brewing: Brewing, reading: Reading) -> Iterator[Reading]:
    """Yield what is expected in the other blanks of the day."""
    for step in brewing.steps:
        for each in step.blanks:
            if place_of(each) != place_of(reading) and each.what not in OF_A_LINE:
                yield reading_at(each, each.value)
