"""A timer beside the boil: what it is for, what is left, and the buttons that change it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from designer.translation import message, tr
from designer.window.brew.clock_figure import ClockFigure
from designer.window.brew.sign_button import SignButton
from designer.window.parts.eliding import ElidedLabel
from designer.window.parts.inks import inks_for
from designer.window.parts.plain_text import tip
from designer.workbench.brew.announcements import NAMES, as_clock
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.timers import TimerState

STATES = {
    "runs": message("runs"),
    "stands": message("stands still"),
    "over": message("time is up"),
    "heard": message("time is up"),
    "doubtful": message("what is left is not known"),
}


class TimerBar(QWidget):
    """How much of a timer has run."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._share, self._ink = 0.0, "heat"
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(60, 6)

    def show_share(self, share: float, ink: str) -> None:
        """Show how much has run, 0 to 1; painted anew when that is a pixel more."""
        share = min(max(share, 0.0), 1.0)
        if ink != self._ink or abs(share - self._share) * self.width() >= 1.0:
            self._share, self._ink = share, ink
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            inks = inks_for(self.palette())
            whole = QRectF(0, 0, self.width(), self.height())
            for ink, share in ((inks.strip, 1.0), (getattr(inks, self._ink), self._share)):
                painter.setBrush(QColor(ink))
                part = QRectF(0, 0, share * whole.width(), whole.height())
                painter.drawRoundedRect(part, 3, 3)


class TimerCard(QFrame):
    """One timer that is not the boil; what is pressed is told with its id."""

    paused = Signal(str)
    resumed = Signal(str)
    added = Signal(str, float)
    stopped = Signal(str)
    heard = Signal(str)
    left_wanted = Signal(str)

    def __init__(self, timer: TimerState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.timer = timer
        self._state = ""
        self.name = ElidedLabel()
        self.time = ClockFigure(32)
        self.bar = TimerBar()
        self.pause_button = SignButton(self._turn)
        self.add_button = SignButton(lambda: self.added.emit(self.timer.id, 1.0))
        self.stop_button = SignButton(lambda: self.stopped.emit(self.timer.id), plain=True)
        above = QHBoxLayout()
        above.setSpacing(4)
        above.addWidget(self.name, 1)
        above.addWidget(self.stop_button)
        below = QHBoxLayout()
        below.setSpacing(6)
        below.addWidget(self.time, 1)
        below.addWidget(self.pause_button)
        below.addWidget(self.add_button)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(12, 6, 8, 10)
        rows.setSpacing(4)
        rows.addLayout(above)
        rows.addLayout(below)
        rows.addWidget(self.bar)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_timer(self, timer: TimerState, now: Instant) -> None:
        """Show the timer as it stands."""
        self.timer, self._state = timer, ""
        self.show_time(now)

    def show_time(self, now: Instant) -> None:
        """Show what is left by now."""
        timer = self.timer
        left = timer.left_s(now)
        state = _state(timer, now)
        if state != self._state:
            self._state = state
            self._show_state(state)
        ink = {"runs": "ink", "stands": "ink_soft"}.get(state, "brass")
        self.time.show_time("?" if state == "doubtful" else as_clock(left), ink=ink)
        whole = max(timer.length_s, 1.0)
        self.bar.show_share(timer.ran_by(now) / whole, "brass" if state == "over" else "heat")

    def _show_state(self, state: str) -> None:
        name = self.name_in_words()
        self.name.setText(name)
        self.name.setToolTip(tip(name))
        self.stop_button.show_sign("away", tr("Take this timer away"))
        self._show_words()
        if state == "over":
            self.pause_button.show_sign("heard", tr("I heard it"))
        elif state == "doubtful":
            self.pause_button.show_words("?", tr("Say how much is left"))
        elif state == "stands":
            self.pause_button.show_sign("go", tr("Let this timer go on"))
        else:
            self.pause_button.show_sign("pause", tr("Let this timer stand"))
        self.pause_button.setVisible(state != "heard")
        self.setAccessibleName(tr("{name}: {state}", name=name, state=tr(STATES[state])))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._show_words()

    def _show_words(self) -> None:
        """Say "+1 min" where that leaves the time its room."""
        whole, short = tr("+1 min"), tr("+1")
        beside = self.time.sizeHint().width() + self.pause_button.sizeHint().width() + 36
        room = self.width() - beside
        fits = self.add_button.needs(whole) <= room
        self.add_button.show_words(whole if fits else short, tr("One minute more"))

    def name_in_words(self) -> str:
        """Return what the timer is for."""
        return self.timer.name or tr(NAMES.get(self.timer.kind, NAMES["free"]))

    def _turn(self) -> None:
        told = {
            "runs": self.paused,
            "stands": self.resumed,
            "over": self.heard if self.timer.kind != "free" else self.stopped,
            "doubtful": self.left_wanted,
        }
        told[self._state].emit(self.timer.id)

    def is_whole(self) -> bool:
        """Whether all but the name, which is shortened with a sign, has room."""
        return self.time.is_whole()


def _state(timer: TimerState, now: Instant) -> str:
    if timer.doubtful(now):
        return "doubtful"
    if timer.left_s(now) <= 0:
        return "heard" if "" in timer.confirmed else "over"
    return "runs" if timer.running else "stands"
