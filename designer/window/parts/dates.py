"""Days and times as the window shows them: the month by its name, so that no order misleads."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QDate, QLocale

from designer.translation import spoken

DAY, CLOCK = "d MMM yyyy", "HH:mm"
_DAY_IN = {"de": "d. MMM yyyy"}


def day_text(moment: datetime) -> str:
    """Return the day of a moment where the machine stands: "25 Nov 2026"."""
    here = moment.astimezone()
    form = _DAY_IN.get(spoken(), DAY)
    return QLocale().toString(QDate(here.year, here.month, here.day), form)


def moment_text(moment: datetime) -> str:
    """Return day and time of a moment where the machine stands: "25 Nov 2026, 16:43"."""
    return f"{day_text(moment)}, {moment.astimezone():%H:%M}"
