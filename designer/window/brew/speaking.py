"""Asks four times a second what the timers have to say, whatever page is shown, and says it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.window.brew.alarm import Alarm
from designer.window.brew.screen_awake import ScreenAwake
from designer.workbench.brew.announcements import (
    Announcement,
    When,
    in_order_of_saying,
    of_brew,
    what_to_say,
)
from designer.workbench.brew.timed_steps import additions_of

if TYPE_CHECKING:
    from designer.library.store.brews import Brew
    from designer.window.session.open_brew import OpenBrew
    from designer.workbench.brew.brewing import Brewing
    from designer.workbench.brew.instants import Instant

TICK_MS = 250


class Speaking(QObject):
    """What is due in the brews under way, the one shown and others; `due_changed` tells it.

    `left_wanted` tells of which timer the brewer has to say what is left.
    """

    due_changed = Signal(object)
    left_wanted = Signal(str)

    def __init__(
        self, brew: OpenBrew, alarm: Alarm, awake: ScreenAwake, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._brew, self.alarm, self.awake = brew, alarm, awake
        self.due: tuple[Announcement, ...] = ()
        self._of = ""
        self._ticks = QTimer(self, interval=TICK_MS)
        self._ticks.timeout.connect(self.tick)
        brew.changed.connect(self.follow)
        brew.running_changed.connect(self.follow)
        self.follow()

    def follow(self) -> None:
        """Go with the brews under way; silent while there is none."""
        under_way = bool(self._under_way())
        of = self._brew.brew.uid if self._brew.brew is not None else ""
        if of != self._of:
            self._of = of
            self.alarm.be_quiet()
        if under_way and not self._ticks.isActive():
            self.alarm.sound.look_for_device()
            self._ticks.start()
        elif not under_way:
            self._ticks.stop()
        self.awake.keep(self._is_wanted_lit())
        self.tick()

    def _is_wanted_lit(self) -> bool:
        """Whether somebody looks at it: a brew is shown, or the timers of another run."""
        now = self._brew.now()
        return any(
            (brew is None and brewing.finished is None) or _runs(brewing, now)
            for brew, brewing in self._under_way()
        )

    def _under_way(self) -> list[tuple[Brew | None, Brewing]]:
        """The brews whose timers speak; that which is shown is named by None."""
        shown: list[tuple[Brew | None, Brewing]] = []
        if self._brew.brewing is not None:
            shown.append((None, self._brew.brewing))
        found, now = [*shown, *self._brew.elsewhere()], self._brew.now()
        return [each for each in found if each[1].finished is None or _runs(each[1], now)]

    def tick(self) -> None:
        """Say what is due by now."""
        due: list[Announcement] = []
        self._brew.note_clocks()
        now = self._brew.now()
        for brew, brewing in self._under_way():
            found = what_to_say(brewing.timers, additions_of(brewing.steps), now)
            if brew is not None:  # what is left of a brew is asked when it is shown
                known = [each for each in found if each.when is not When.ASK]
                found = of_brew(known, brew.uid, brew.name)
            due += found
        told = in_order_of_saying(due)
        self.alarm.tell(told, now)
        if told != self.due:
            self.due = told
            self.due_changed.emit(told)

    def confirm(self, due: Announcement) -> None:
        """What was due is done, or was heard; that of another brew is shown first."""
        if due.brew:
            self._brew.go_on(due.brew)
            return
        timer = self._brew.find_timer(due.timer)
        if due.when is When.ASK:
            self.left_wanted.emit(due.timer)
        elif due.addition:
            self._brew.done(due.addition)
        elif timer is not None and timer.kind == "free":
            self._brew.stop_timer(due.timer)
        else:
            self._brew.confirm_timer(due.timer)

    def close_down(self) -> None:
        """The window goes."""
        self._ticks.stop()
        self.awake.keep(False)


def _runs(brewing: Brewing, now: Instant) -> bool:
    """Whether a timer of a brew runs and can be believed."""
    return any(each.running and not each.doubtful(now) for each in brewing.timers)
