"""Figures of sentences that are made below the window, written as it writes its own."""

from __future__ import annotations

from designer.window.parts.display_format import DisplayFormat
from designer.workbench.figures import Figures


def written_figures(display: DisplayFormat) -> Figures:
    """Return what writes figures in the preferred units, on the preferred scales."""
    settings = display.settings
    return Figures(
        settings.units,
        settings.gravity,
        settings.colour,
        settings.decimal_comma,
        settings.ingredient_colour,
    )
