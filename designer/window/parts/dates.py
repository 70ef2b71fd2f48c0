"""Days and times as the window shows them: the month by its name, so that no order misleads."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from PySide6.QtCore import QDate, QLocale

from designer.translation import spoken

CLOCK = "HH:mm"
_DAY, _DAY_IN = "d MMM yyyy", {"de": "d. MMM yyyy"}


def day_form() -> str:
    """Return how a day is written in the user's language, as Qt says it."""
    return _DAY_IN.get(spoken(), _DAY)


def day_text(moment: datetime) -> str:
    """Return the day of a moment where the machine stands: "25 Nov 2026"."""
    here = moment.astimezone()
    return QLocale().toString(QDate(here.year, here.month, here.day), day_form())


def kept_day(moment: str, text: Callable[[datetime], str] = day_text) -> str:
    """Return the day of a time that is kept as text; of one that is no time its first signs."""
    try:
        return text(datetime.fromisoformat(moment)) if moment else ""
    except ValueError:
        return moment[:10]


def moment_text(moment: datetime) -> str:
    """Return day and time of a moment where the machine stands: "25 Nov 2026, 16:43"."""
    return f"{day_text(moment)}, {moment.astimezone():%H:%M}"
