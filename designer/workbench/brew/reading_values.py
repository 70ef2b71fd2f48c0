"""A reading as the plain values of a log, and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from designer.brewday.measured.readings import By, Measured, Reading
from designer.workbench.brew.entry_values import count_in, number_in, text_in


def values_of(reading: Reading) -> dict[str, Any]:
    """Return the plain values of a reading; what is as usual is left out."""
    values: dict[str, Any] = {
        "what": str(reading.what),
        "value": reading.value,
        "by": str(reading.by),
        "half_width": reading.half_width,
        "boil": reading.boil,
        "fermenter": reading.fermenter,
        "left_min": reading.left_min,
        "lines": reading.lines,
        "line_id": reading.line_id,
    }
    return {key: value for key, value in values.items() if value not in (None, "", 0)} | {
        "value": reading.value
    }


def reading_of(values: Mapping[str, Any]) -> Reading | None:
    """Return the reading; None for one that a later program knows, or that is damaged."""
    value = number_in(values, "value")
    try:
        what, by = Measured(text_in(values, "what")), By(text_in(values, "by"))
    except ValueError:
        return None
    if value is None:
        return None
    return Reading(
        what,
        value,
        by,
        number_in(values, "half_width"),
        count_in(values, "boil", 1),
        count_in(values, "fermenter", 1),
        number_in(values, "left_min"),
        text_in(values, "lines"),
        count_in(values, "line_id", 0),
    )
