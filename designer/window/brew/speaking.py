"""Asks four times a second what the timers have to say, whatever page is shown, and says it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.window.brew.alarm import Alarm
from designer.window.brew.screen_awake import ScreenAwake
from designer.workbench.brew.announcements import Announcement, what_to_say
from designer.workbench.brew.timed_steps import additions_of

if TYPE_CHECKING:
    from designer.window.session.open_brew import OpenBrew

TICK_MS = 250


class Speaking(QObject):
    """What is due in an open brew; `due_changed` tells it."""

    due_changed = Signal(object)

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
        self.follow()

    def follow(self) -> None:
        """Go with the brew that is open: silent while there is none, or it is over."""
        brewing, brew = self._brew.brewing, self._brew.brew
        under_way = brewing is not None and brewing.finished is None
        of = brew.uid if brew is not None else ""
        if of != self._of:
            self._of = of
            self.alarm.be_quiet()
            if under_way:
                self.alarm.sound.look_for_device()
        self.awake.keep(under_way)
        if under_way:
            self._ticks.start()
        else:
            self._ticks.stop()
        self.tick()

    def tick(self) -> None:
        """Say what is due by now."""
        brewing = self._brew.brewing
        due: tuple[Announcement, ...] = ()
        if brewing is not None and brewing.finished is None:
            self._brew.note_clocks()
            now = self._brew.now()
            due = what_to_say(self._brew.timers, additions_of(brewing.steps), now)
            self.alarm.tell(due, now)
        if due != self.due:
            self.due = due
            self.due_changed.emit(due)

    def confirm(self, due: Announcement) -> None:
        """What was due is done, or was heard."""
        timer = self._brew.find_timer(due.timer)
        if due.addition:
            self._brew.done(due.addition)
        elif timer is not None and timer.kind == "free":
            self._brew.stop_timer(due.timer)
        else:
            self._brew.confirm_timer(due.timer)

    def close_down(self) -> None:
        """The window goes."""
        self._ticks.stop()
        self.awake.keep(False)
