"""A sample in a line: when, what was typed, where it was drawn and how it was stirred."""

from __future__ import annotations

from designer.brewday.explaining.asked import Drawn, Stirred
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.brew.afterwards import KeptSample
from designer.workbench.brew.log_lines import clock_of, local_time
from designer.workbench.brew.reading_story import gravity_of, typed_parts

FROM = {
    Drawn.TOP: message("from the top"),
    Drawn.MIDDLE: message("from the middle"),
    Drawn.BOTTOM: message("from the bottom"),
    Drawn.TAP: message("from the tap"),
    Drawn.JAR: message("from a jar"),
}
STIRRED = {
    Stirred.NO: message("not stirred"),
    Stirred.LITTLE: message("stirred a little"),
    Stirred.HARD: message("stirred hard"),
    Stirred.POURED: message("poured across"),
}


def sample_line(kept: KeptSample, display: DisplayFormat) -> str:
    """Return a sample as a line of the list beside the form."""
    sample = kept.sample
    reading, warmth = typed_parts(kept.typed)
    clock, gravity = clock_of(local_time(kept.at)), display.short(Kind.GRAVITY, gravity_of(sample))
    if warmth:
        first = tr(
            "{clock}: {reading} in a sample of {warmth}, {gravity} at 20 °C",
            clock=clock,
            reading=reading,
            warmth=warmth,
            gravity=gravity,
        )
    else:
        first = tr(
            "{clock}: {reading}, {gravity} at 20 °C", clock=clock, reading=reading, gravity=gravity
        )
    told = [first]
    if sample.drawn in FROM:
        told.append(tr(FROM[sample.drawn]))
    if sample.stirred in STIRRED:
        told.append(tr(STIRRED[sample.stirred]))
    return ", ".join(told)
