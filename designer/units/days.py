"""Days as they are typed and shown in figures: 2026-03-28, or as the user's language has them."""

from __future__ import annotations

import re
from datetime import date

from designer.recipe.message import refused
from designer.translation import spoken
from designer.units.quoting import quoted

_FORMS = {"de": "%d.%m.%Y", "fr": "%d/%m/%Y"}
"""How a day is written in figures where year, month and day are not what one is used to."""
_BY_YEAR = re.compile(r"(\d{4})-(\d{2})-(\d{2})")
_BY_DAY = re.compile(r"(\d{1,2})([./])\s?(\d{1,2})\2\s?(\d{4}|\d{2})")


def read_day(text: str) -> date:
    """Return the day that was typed: 2026-03-28; 28.3.2026 or 28/3/2026 where that is usual.

    Raises RefusedInputError with one line that says what would be taken.
    """
    typed = text.strip()
    try:
        by_year = _BY_YEAR.fullmatch(typed)
        if by_year:
            return date(*map(int, by_year.groups()))
        by_day = _BY_DAY.fullmatch(typed)
        if by_day and spoken() in _FORMS:  # elsewhere 3/4/2026 may be in March
            year = int(by_day[4]) + (2000 if len(by_day[4]) == 2 else 0)
            return date(year, int(by_day[3]), int(by_day[1]))
        raise ValueError(typed)
    except ValueError:
        raise refused(
            "no-day",
            "{text} is not a day; write {example}, or year, month and day, such as 2026-03-28"
            if spoken() in _FORMS
            else "{text} is not a day; write year, month and day, such as 2026-03-28",
            text=quoted(text),
            example=day_in_figures(date(2026, 3, 28)),
        ) from None


def day_in_figures(day: date) -> str:
    """Return a day as it is typed in the user's language."""
    form = _FORMS.get(spoken())
    return day.isoformat() if form is None else day.strftime(form)
