"""Times as tables write them: ISO, day or month first, a clock of 12 hours, seconds since 1970.

A time without a zone is one of the place. Whether 3/4 is the third of April or the fourth of March
no single line tells; `TimeForm` is found from all of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise

_CLOCK = re.compile(
    r"(?P<hour>\d{1,2})[:.h](?P<minute>\d{2})(?:[:.](?P<second>\d{2})(?:[.,]\d+)?)?\s*(?P<half>[ap]\.?m\.?)?",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_YEAR_LAST = re.compile(r"(\d{1,2})([-/.])\s?(\d{1,2})[-/.]\s?(\d{4}|\d{2})(?!\d)")
_IN_WORDS = re.compile(r"(\d{1,2})\.?[ -]([A-Za-zäéû]{3,10})\.?,?[ -](\d{4})")
_MONTH_FIRST = re.compile(r"([A-Za-z]{3,10})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})")
_SINCE_1970 = re.compile(r"\d{10}(?:\d{3})?(?:\.\d+)?")
_SECONDS_IN_MS = 1e11
_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            ("jan",), ("feb", "fév", "fev"), ("mar", "mär", "mrz"), ("apr", "avr"),
            ("may", "mai"), ("jun", "juin"), ("jul", "juil"), ("aug", "aoû", "aou"), ("sep",),
            ("oct", "okt"), ("nov",), ("dec", "dez", "déc"),
        ),
        1,
    )
    for name in names
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class TimeForm:
    """How the times of a table are to be read."""

    day_first: bool = True

    def wall_of(self, text: str) -> float | None:
        """Return seconds since 1970; None for what is no time."""
        text = text.strip().strip('"')
        if _SINCE_1970.fullmatch(text):
            told = float(text)
            return told / 1000.0 if told > _SECONDS_IN_MS else told
        try:
            return self._by_calendar(text)
        except (ValueError, OverflowError, OSError):
            return None

    def _by_calendar(self, text: str) -> float | None:
        if _YEAR_FIRST.match(text):
            iso = text.replace("/", "-").replace(".", "-", 2) if text[4] in "/." else text
            with suppress(ValueError):  # a day without its noughts, or a clock of 12 hours
                return datetime.fromisoformat(iso).timestamp()
        day = self._date(text)
        if day is None:
            return None
        (year, month, date), rest = day
        clock = _CLOCK.search(rest)
        hour, minute, second = (0, 0, 0) if clock is None else _time(clock)
        if clock is None and rest.strip(" ,T"):
            return None
        return datetime(year, month, date, hour, minute, second).timestamp()

    def _date(self, text: str) -> tuple[tuple[int, int, int], str] | None:
        if found := _YEAR_FIRST.match(text):
            year, month, day = map(int, found.groups())
            return (year, month, day), text[found.end() :]
        if found := _YEAR_LAST.match(text):
            first, sign, second, last = found.groups()
            year = int(last) + (2000 if len(last) == 2 else 0)
            numbers = int(first), int(second)
            day, month = numbers if self.day_first or sign == "." else numbers[::-1]
            return (year, month, day), text[found.end() :]
        if found := _IN_WORDS.match(text):
            return _worded(found[3], found[2], found[1]), text[found.end() :]
        if found := _MONTH_FIRST.match(text):
            return _worded(found[3], found[1], found[2]), text[found.end() :]
        return None


def _worded(year: str, month: str, day: str) -> tuple[int, int, int]:
    number = next((at for name, at in _MONTHS.items() if month.lower().startswith(name)), 0)
    return int(year), number, int(day)  # a month 0 is refused by the calendar


def _time(found: re.Match[str]) -> tuple[int, int, int]:
    hour, half = int(found["hour"]), (found["half"] or "").lower()
    if half:
        hour = hour % 12 + (12 if half.startswith("p") else 0)
    return hour, int(found["minute"]), int(found["second"] or 0)


def is_time_of_day(text: str) -> bool:
    """Whether a cell holds a clock and no date."""
    return _CLOCK.fullmatch(text.strip()) is not None


def is_date_alone(text: str) -> bool:
    """Whether a cell holds a date and no clock."""
    return _CLOCK.search(text.strip()[8:]) is None and TimeForm().wall_of(text) is not None


def form_of(texts: Sequence[str]) -> TimeForm:
    """Return how these times are read: as many as can be, in the order that goes on most evenly."""
    return max((TimeForm(True), TimeForm(False)), key=lambda form: _goodness(form, texts))


def _goodness(form: TimeForm, texts: Iterable[str]) -> tuple[int, float]:
    told = [wall for text in texts if (wall := form.wall_of(text)) is not None]
    gaps = [abs(b - a) for a, b in pairwise(told)]
    return len(told), -max(gaps, default=0.0)
