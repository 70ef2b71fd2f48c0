"""Figures that brews teach as text, in the units that are shown."""

from __future__ import annotations

from designer.brewday.learning.figures import Figure, Learned
from designer.brewday.results import Range
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.learning.figure_said import value_said

NO_BREAK = "\N{NO-BREAK SPACE}"


def value_text(figure: Figure, value: float, display: DisplayFormat) -> str:
    """Return a figure with its unit."""
    return value_said(figure, value, display.single, display.decimal)


def band_text(learned: Learned, known: Range, display: DisplayFormat) -> str:
    """Return where a figure lies nine times in ten: "0.95 to 1.13 L/h", not to be broken."""
    first, last = (value_text(learned.figure, end, display) for end in (known.low, known.high))
    low, _, unit = first.partition(" ")
    if not known.low:  # "0 mL to 0.8 L" would say no more
        low = "0"
    elif unit != last.partition(" ")[2]:
        low = first
    return tr("{low} to {high}", low=low, high=last).replace(" ", NO_BREAK)
