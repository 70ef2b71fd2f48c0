"""Whether a reading is asked about before it is taken: beside the day as it was known before it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.measured.doubtful import Doubtful, doubts_of
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import Measured, Reading
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
    brewing, outlook = where_it_was(brewing), known.outlook
    if corrects or not known.whole:
        others = tuple(each for each in brewing.readings if each.entry != corrects)
        before = readings_as_brewed(replace(brewing, readings=others))
        outlook = day_measured(known.recipe, before)
    return doubts_of(
        reading,
        outlook,
        known.recipe,
        typed=typed,
        beside=tuple(_beside(brewing, reading)),
    )


def _beside(brewing: Brewing, reading: Reading) -> Iterator[Reading]:
    """Yield what is expected in the other blanks of the day."""
    for step in brewing.steps:
        for each in step.blanks:
            if place_of(each) != place_of(reading) and each.what not in OF_A_LINE:
                yield Reading(
                    each.what,
                    each.value,
                    each.by,
                    boil=each.boil,
                    fermenter=each.fermenter,
                    left_min=each.left_min,
                )
