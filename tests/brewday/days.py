"""Days with some of their figures changed, for what is said of a day."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.brewday.results import Day

PARTS = ("steep", "pot", "fermenter", "beer")


def with_figures(day: Day, **figures: Any) -> Day:
    """Return the day with these figures, wherever in its parts they stand."""
    for name, value in figures.items():
        part = next((each for each in PARTS if hasattr(getattr(day, each), name)), None)
        new = {name: value}
        day = replace(day, **(new if part is None else {part: replace(getattr(day, part), **new)}))
    return day
