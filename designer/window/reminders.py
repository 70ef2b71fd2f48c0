"""What beers are to be remembered for, said over the page, and in the tray where nobody looks.

One at a time, the longest due first: one press leads to its beer, others say that it was seen to,
or that tomorrow will do.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from designer.translation import tr, trn
from designer.window.paged_window import PagedWindow
from designer.window.parts.dates import day_text
from designer.window.parts.tray import Tray
from designer.window.session.reminding import Reminding
from designer.workbench.brew.clocks import now
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reminders import Reminder

if TYPE_CHECKING:
    from designer.window.session.open_brew import OpenBrew

TOPIC = "reminder"


class Reminders(QObject):
    """For one window. `show_beer` gets the lasting name of a brew."""

    def __init__(self, window: PagedWindow, show_beer: Callable[[str], None]) -> None:
        super().__init__(window)
        autosave, brews = window.autosave, window.keeping.brews
        assert autosave is not None
        assert brews is not None
        self._window, self._show_beer = window, show_beer
        self.reminding = Reminding(autosave, brews, self._now, self._shown, self)
        self.reminding.due_changed.connect(self._say)
        self.reminding.failed.connect(window.say_fault)
        self.tray = Tray(window)
        self._said_in_tray: frozenset[tuple[str, bool]] = frozenset()

    def begin(self) -> None:
        """Ask for the first time what there is to be remembered."""
        self.reminding.look()

    def _now(self) -> Instant:
        clock = self._window.brew_clock
        return clock.now() if clock is not None else now()

    def _shown(self) -> OpenBrew | None:
        page = self._window.brew_page
        return page.brew if page is not None else None

    def _say(self, due: tuple[Reminder, ...]) -> None:
        if not due:
            self._window.messages.withdraw(TOPIC)
            self.tray.put_away()
            return
        first, more = due[0], len(due) - 1
        text = self._words(first)
        if more:
            others = trn("{number} more after it.", "{number} more after it.", more)
            text = tr("{first} {others}", first=text, others=others)
        self._window.messages.say(
            text,
            actions=[
                (tr("Show the beer"), partial(self._show, first)),
                (tr("Seen to"), partial(self.reminding.seen_to, first)),
                (tr("Tomorrow"), partial(self.reminding.put_off, first)),
            ],
            topic=TOPIC,
            lasts=True,
        )
        self._say_in_tray(due)

    def _show(self, reminder: Reminder) -> None:
        """Show its beer; what was to be done is told until it is seen to, or put away."""
        self._show_beer(reminder.brew)

    def _words(self, reminder: Reminder) -> str:
        """Say for which beer it is, since when, and what."""
        beer, today = reminder.beer[:60], datetime.fromtimestamp(self._now().wall).date()
        if reminder.day == today:
            return tr("Today, {beer}: {what}", beer=beer, what=_sentence(reminder.text))
        since = day_text(datetime.fromtimestamp(reminder.wall).astimezone())
        return tr(
            "Since {day}, {beer}: {what}", day=since, beer=beer, what=_sentence(reminder.text)
        )

    def _say_in_tray(self, due: tuple[Reminder, ...]) -> None:
        """Say it where the window is not looked at, of each once today and once at its time."""
        at = self._now().wall
        keys = {(each.key, each.wall <= at): each for each in due}
        news = [each for key, each in keys.items() if key not in self._said_in_tray]
        self._said_in_tray |= keys.keys()
        if news and not self._window.isActiveWindow():
            self.tray.say(tr("Hobwort"), self._words(news[0]), partial(self._show, news[0]))

    def close(self) -> None:
        """Tell of nothing any more: the window closes."""
        self.reminding.close()
        self.tray.put_away()


def _sentence(text: str) -> str:
    """Return what is to be done with its full stop."""
    return text if text.endswith((".", "!", "?")) else f"{text}."
