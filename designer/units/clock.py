"""Clock times as they are typed: `09:00`, `9:30`, `18:30`."""

from __future__ import annotations

import re

from designer.errors import RefusedInputError
from designer.units.quoting import quoted

CLOCK_PATTERN = "(?:[01]?[0-9]|2[0-3]):[0-5][0-9]"
CLOCK_ACCEPTED = "a time of the day, such as 09:00 or 18:30"


def is_clock(text: str) -> bool:
    """Whether the text is a time of the 24-hour clock."""
    return re.fullmatch(CLOCK_PATTERN, text.strip()) is not None


def read_clock(text: str) -> str:
    """Return the clock time that was typed.

    Raises RefusedInputError with one line that says what would be taken.
    """
    if not is_clock(text):
        raise RefusedInputError(f"{quoted(text)} is not {CLOCK_ACCEPTED}")
    return text
