"""Values of an entry as they are wanted; what is missing, damaged or of another kind is nothing."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any


def text_in(values: Mapping[str, Any], key: str) -> str:
    """Return a text; "" where there is none."""
    found = values.get(key)
    return found if isinstance(found, str) else ""


def number_in(values: Mapping[str, Any], key: str) -> float | None:
    """Return a finite number; None where there is none."""
    found = values.get(key)
    if isinstance(found, bool) or not isinstance(found, int | float):
        return None
    try:
        number = float(found)
    except OverflowError:
        return None
    return number if math.isfinite(number) else None


def count_in(values: Mapping[str, Any], key: str, default: int) -> int:
    """Return a whole number; the default where there is none."""
    found = number_in(values, key)
    return default if found is None else int(found)


def values_in(values: Mapping[str, Any], key: str) -> dict[str, Any]:
    """Return values within values; none where there are none."""
    found = values.get(key)
    return found if isinstance(found, dict) else {}
