"""A day of the calendar as a part of a message, its month by name so that no order misleads."""

from __future__ import annotations

from datetime import date

from designer.recipe.message import Message, say, word
from designer.translation import message

_WEEKDAYS = (
    message("Mon"), message("Tue"), message("Wed"), message("Thu"), message("Fri"),
    message("Sat"), message("Sun"),
)  # fmt: skip
_MONTHS = (
    message("January"), message("February"), message("March"), message("April"), message("May"),
    message("June"), message("July"), message("August"), message("September"),
    message("October"), message("November"), message("December"),
)  # fmt: skip


def day_words(day: date) -> Message:
    """Return a day as "Sat 11 April"."""
    return say(
        "weekday-day-month",
        "{weekday} {day} {month}",
        weekday=word(_WEEKDAYS[day.weekday()]),
        day=str(day.day),
        month=word(_MONTHS[day.month - 1]),
    )


def day_and_year(day: date) -> Message:
    """Return a day as "11 April 2026"."""
    return say(
        "day-month-year",
        "{day} {month} {year}",
        day=str(day.day),
        month=word(_MONTHS[day.month - 1]),
        year=str(day.year),
    )
