"""Clock times and dates as the sheet prints them; English whatever the machine speaks."""

from __future__ import annotations

import math
import re
from datetime import date, timedelta

from designer.errors import RefusedInputError

DAY_MIN = 1440
DEFAULT_START_MIN = 9 * 60
_CLOCK = re.compile(r"\s*(\d{1,2})[:.h](\d{2})\s*")
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip


def minutes_of(text: str) -> int | None:
    """Return the minutes after midnight of "09:00"; None if it is no time of the 24 h clock."""
    found = _CLOCK.fullmatch(text)
    if found is None:
        return None
    hours, minutes = int(found.group(1)), int(found.group(2))
    return 60 * hours + minutes if hours < 24 and minutes < 60 else None


def start_minutes(asked: str | None, of_recipe: str) -> int:
    """Return when the day starts: as asked, else as the recipe says, else at nine.

    Raises RefusedInputError if what was asked is no time of the 24 h clock.
    """
    if asked is None:
        found = minutes_of(of_recipe)
        return DEFAULT_START_MIN if found is None else found
    found = minutes_of(asked)
    if found is None:
        raise RefusedInputError(
            f"“{' '.join(asked.split())}” is not a time of the day; write it like 09:00 or 18:30"
        )
    return found


def clock(start_min: int, minutes: float) -> str:
    """Return the clock time so many minutes after the start, such as "00:10 next day"."""
    days, of_day = divmod(start_min + math.floor(minutes + 0.5), DAY_MIN)
    text = f"{of_day // 60:02d}:{of_day % 60:02d}"
    if days == 0:
        return text
    return f"{text} next day" if days == 1 else f"{text} {days} days on"


def date_text(day: date) -> str:
    """Return a date as "Sat 28 March 2026"."""
    return f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def day_text(brew_date: date | None, days: int) -> str:
    """Return the day so many after brew day: "Day 14", with its date where that is known."""
    if brew_date is None:
        return f"Day {days}"
    try:
        then = brew_date + timedelta(days=days)
    except OverflowError:
        return f"Day {days}"
    return f"Day {days}\n{_WEEKDAYS[then.weekday()]} {then.day} {_MONTHS[then.month - 1][:3]}"
