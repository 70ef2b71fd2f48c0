"""What is to be done with the beer as a calendar file, for whatever calendar one keeps.

Events are all-day ones by the calendar of wherever they are read, each with a reminder at an hour
of that day. What an event is called by (`uid`) stays the same however often the file is written, so
a calendar that takes it in again moves its events and doubles none. No event tells an amount of
sugar: what is right on the day is asked of the program then.

Source: RFC 5545 (iCalendar).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from designer import __version__
from designer.recipe.message import Message, say
from designer.translation import tr

LONGEST_OCTETS = 75
REMIND_AT_HOUR = 9
_MINUTE_S = 60.0


@dataclass(frozen=True, slots=True)
class CalendarEvent:
    """A day on which something is to be done, what, and what to mind; `uid` is its lasting name."""

    uid: str
    day: date
    title: str
    notes: str = ""
    remind_at_hour: int = REMIND_AT_HOUR


_READ = say(
    "calendar-read",
    "Shake the gas out of the sample, cool it to room temperature, and type the reading in.",
)
_PACKAGE = say(
    "calendar-package",
    "Only if the gravity has not fallen: bottles of unfinished beer burst, and glass flies. Ask "
    "for the sugar on the day.",
)
_TASTE = say(
    "calendar-taste",
    "Cold from the refrigerator. If it gushes, chill them all; ease the caps with gloves and "
    "goggles.",
)
_KEG = say("calendar-keg", "Let the pressure out before you open anything of the keg.")
_KINDS = {
    "beer-read-first": ("read", _READ),
    "beer-read-again": ("read", _READ),
    "beer-read-with-hydrometer": ("read", _READ),
    "read-again": ("read", _READ),
    "beer-bottle": ("package", _PACKAGE),
    "beer-bottle-if": ("package", _PACKAGE),
    "beer-keg": ("package", _KEG),
    "beer-keg-if": ("package", _KEG),
    "bottle-if-same": ("package", _PACKAGE),
    "beer-taste": ("taste", _TASTE),
    "taste-one": ("taste", _TASTE),
    "keg-look": ("keg-look", _KEG),
}
"""Which event a thing to do is, by its id, and what to mind; another is an event of its own."""


def events_of(
    brew_uid: str, name: str, dates: Iterable[tuple[date, Message]], fermenter: int = 1
) -> tuple[CalendarEvent, ...]:
    """Return what is to be done with a beer on days, as `BeerNow.dates` and `Packaged.dates` have.

    What is the same thing to do is the same event whoever tells it, so a later file moves it.
    Twice on one day it is one.
    """
    beer = brew_uid if fermenter == 1 else f"{brew_uid}-{fermenter}"
    made: list[CalendarEvent] = []
    days: dict[str, list[date]] = {}
    for day, what in dates:
        kind, notes = _KINDS.get(what.id, (what.id, None))
        told = days.setdefault(kind, [])
        if day in told:
            continue
        told.append(day)
        number = "" if len(told) == 1 else f"-{len(told)}"
        title = tr("{beer}: {what}", beer=name, what=what.text)
        made.append(
            CalendarEvent(f"{beer}-{kind}{number}", day, title, "" if notes is None else notes.text)
        )
    return tuple(made)


def calendar_text(events: Iterable[CalendarEvent], now: datetime) -> str:
    """Return the calendar file, its lines as RFC 5545 has them; `now` is an instant with a zone."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:-//Hobwort//Hobwort {escaped(__version__)}//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
    ]
    for each in events:
        lines += _event(each, now)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line))


def _event(event: CalendarEvent, now: datetime) -> Iterator[str]:
    title = escaped(event.title)
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(event.uid)}@hobwort"
    yield f"DTSTAMP:{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    yield f"SEQUENCE:{_revision(now)}"
    yield f"DTSTART;VALUE=DATE:{_day(event.day)}"
    if event.day < date.max:
        yield f"DTEND;VALUE=DATE:{_day(event.day + timedelta(days=1))}"
    yield f"SUMMARY:{title}"
    if event.notes:
        yield f"DESCRIPTION:{escaped(event.notes)}"
    yield "TRANSP:TRANSPARENT"
    yield "BEGIN:VALARM"
    yield "ACTION:DISPLAY"
    yield f"DESCRIPTION:{title}"
    yield f"TRIGGER:PT{event.remind_at_hour}H"
    yield "END:VALARM"
    yield "END:VEVENT"


def _day(day: date) -> str:
    return f"{day.year:04d}{day.month:02d}{day.day:02d}"


def _revision(now: datetime) -> int:
    """A number that grows, by which a calendar knows the newer of two files."""
    return max(int(now.timestamp() / _MINUTE_S), 0)


def escaped(text: str) -> str:
    """Return a text as the value of a property; what cannot stand in one is left out."""
    plain = text.replace("\r\n", "\n").replace("\r", "\n").replace("\u2028", "\n")
    kept = "".join(
        each for each in plain if each in "\n\t" or unicodedata.category(each) not in ("Cc", "Cs")
    )
    for sign in ("\\", ";", ","):
        kept = kept.replace(sign, f"\\{sign}")
    return kept.replace("\n", "\\n")


def folded(line: str) -> Iterator[str]:
    """Return a line in pieces of at most 75 octets, all but the first after a space.

    No letter is cut in two.
    """
    piece, room = "", LONGEST_OCTETS
    for letter in line:
        octets = len(letter.encode("utf-8"))
        if octets > room:
            yield piece
            piece, room = " ", LONGEST_OCTETS - 1
        piece += letter
        room -= octets
    yield piece
