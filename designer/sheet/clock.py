"""Clock times and dates as the sheet prints them, in its own language whatever the machine's."""

from __future__ import annotations

from datetime import date, timedelta

from designer.recipe.message import refused
from designer.sheet.language import Language, message
from designer.units.clock import USUAL_START_MIN, minutes_of, time_after

_WEEKDAYS = (
    message("Mon"), message("Tue"), message("Wed"), message("Thu"), message("Fri"),
    message("Sat"), message("Sun"),
)  # fmt: skip
_MONTHS = (
    message("January"), message("February"), message("March"), message("April"), message("May"),
    message("June"), message("July"), message("August"), message("September"),
    message("October"), message("November"), message("December"),
)  # fmt: skip
_SHORT_MONTHS = (
    message("Jan"), message("Feb"), message("Mar"), message("Apr"), message("May"),
    message("Jun"), message("Jul"), message("Aug"), message("Sep"), message("Oct"),
    message("Nov"), message("Dec"),
)  # fmt: skip


def start_minutes(asked: str | None, of_recipe: str) -> int:
    """Return when the day starts: as asked, else as the recipe says, else at nine.

    Raises RefusedInputError if what was asked is no time of the 24 h clock.
    """
    if asked is None:
        found = minutes_of(of_recipe)
        return USUAL_START_MIN if found is None else found
    found = minutes_of(asked)
    if found is None:
        raise refused(
            "no-start-time",
            "“{asked}” is not a time of the day; write it like 09:00 or 18:30",
            asked=" ".join(asked.split()),
        )
    return found


def clock(start_min: int, minutes: float, spoken: Language) -> str:
    """Return the clock time so many minutes after the start, such as "00:10 next day"."""
    days, text = time_after(start_min, minutes)
    if days == 0:
        return text
    if days == 1:
        return spoken.say("{time} next day", time=text)
    return spoken.say("{time} {days} days on", time=text, days=str(days))


def date_text(day: date, spoken: Language) -> str:
    """Return a date as "Sat 28 March 2026"."""
    return spoken.say(
        "{weekday} {day} {month} {year}",
        weekday=spoken.say(_WEEKDAYS[day.weekday()]),
        day=str(day.day),
        month=spoken.say(_MONTHS[day.month - 1]),
        year=str(day.year),
    )


def plain_date(day: date, spoken: Language) -> str:
    """Return a date as "28 March 2026"."""
    return spoken.say(
        "{day} {month} {year}",
        day=str(day.day),
        month=spoken.say(_MONTHS[day.month - 1]),
        year=str(day.year),
    )


def day_text(brew_date: date | None, days: int, spoken: Language) -> str:
    """Return the day so many after brew day: "Day 14", with its date where that is known."""
    text = spoken.say("Day {days}", days=str(days))
    if brew_date is None:
        return text
    try:
        then = brew_date + timedelta(days=days)
    except OverflowError:
        return text
    short = spoken.say(
        "{weekday} {day} {month}",
        weekday=spoken.say(_WEEKDAYS[then.weekday()]),
        day=str(then.day),
        month=spoken.say(_SHORT_MONTHS[then.month - 1]),
    )
    return f"{text}\n{short}"
