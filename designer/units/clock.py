"""Clock times as they are typed, `09:00`, `9:30`, `18:30`, and as minutes after midnight."""

from __future__ import annotations

import math
import re

from designer.recipe.message import refused, word
from designer.translation import message
from designer.units.quoting import quoted

CLOCK_PATTERN = "(?:[01]?[0-9]|2[0-3]):[0-5][0-9]"
DAY_MIN = 1440
USUAL_START_MIN = 9 * 60
"""When a brew day starts of which nothing is said."""
CLOCK_ACCEPTED = message("a time of the day, such as 09:00 or 18:30")


def is_clock(text: str) -> bool:
    """Whether the text is a time of the 24-hour clock."""
    return re.fullmatch(CLOCK_PATTERN, text.strip()) is not None


def read_clock(text: str) -> str:
    """Return the clock time that was typed.

    Raises RefusedInputError with one line that says what would be taken.
    """
    if not is_clock(text):
        raise refused(
            "not-a-clock-time",
            "{text} is not {accepted}",
            text=quoted(text),
            accepted=word(CLOCK_ACCEPTED),
        )
    return text


def minutes_of(text: str) -> int | None:
    """Return the minutes after midnight of "09:00"; None if it is no time of the 24-hour clock.

    "9.30" and "9h30", as other countries write it, are understood too.
    """
    found = re.fullmatch(r"(\d{1,2})[:.h](\d{2})", text.strip())
    if found is None:
        return None
    hours, minutes = int(found.group(1)), int(found.group(2))
    return 60 * hours + minutes if hours < 24 and minutes < 60 else None


def time_after(start_min: int, minutes: float) -> tuple[int, str]:
    """Return the clock time some minutes after a start, "09:25", and how many days later that is.

    `start_min` counts from midnight. Half a minute is rounded up.
    """
    days, of_day = divmod(start_min + math.floor(minutes + 0.5), DAY_MIN)
    return days, f"{of_day // 60:02d}:{of_day % 60:02d}"
