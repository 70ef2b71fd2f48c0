"""The boil and the other timers of a brew beside the step, and what can be done about them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from designer.window.brew.boil_questions import BoiledAt, WhatIsLeft, WhatTime
from designer.window.brew.card_panel import CardPanel
from designer.window.brew.countdown_card import TimerCard
from designer.window.brew.ring import BoilRing, RingMark
from designer.window.parts.page_frame import scrolled
from designer.workbench.brew import timer_moves
from designer.workbench.brew.timed_steps import additions_of

if TYPE_CHECKING:
    from designer.sheet.stove import StoveStep
    from designer.window.parts.display_format import DisplayFormat
    from designer.window.session.open_brew import OpenBrew
    from designer.workbench.brew.instants import Instant
    from designer.workbench.brew.timers import TimerState

GAP, CARD_GAP, PEEK = 12, 8, 28
BOIL = "boil"


class TimersList(QWidget):
    """The timers that are not the boil of the ring, the one that ends first above."""

    def __init__(self, brew: OpenBrew, column: ClocksColumn) -> None:
        super().__init__()
        self._brew, self._column = brew, column
        self.cards: dict[str, TimerCard] = {}
        self._content = QWidget()
        self._rows = QVBoxLayout(self._content)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setSpacing(CARD_GAP)
        self._rows.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.area: QScrollArea = scrolled(self._content)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.area)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.hide()

    def show_timers(self, timers: Sequence[TimerState], now: Instant) -> None:
        """Show these timers, and no others."""
        for gone in set(self.cards) - {each.id for each in timers}:
            card = self.cards.pop(gone)
            card.hide()
            card.deleteLater()
        for place, timer in enumerate(sorted(timers, key=lambda each: each.left_s(now))):
            card = self.cards.get(timer.id) or self._made(timer)
            if self._rows.indexOf(card) != place:
                self._rows.removeWidget(card)
                self._rows.insertWidget(place, card)
            card.show_timer(timer, now)
        self._content.setMinimumHeight(self._height())
        self.setMaximumHeight(self._height())
        self.setVisible(bool(timers))
        self.updateGeometry()

    def _height(self) -> int:
        """How high all of them are."""
        heights = [each.sizeHint().height() for each in self.cards.values()]
        return sum(heights) + CARD_GAP * max(len(heights) - 1, 0)

    def _made(self, timer: TimerState) -> TimerCard:
        brew, card = self._brew, TimerCard(timer)
        card.paused.connect(brew.pause_timer)
        card.resumed.connect(brew.resume_timer)
        card.added.connect(brew.lengthen_timer)
        card.stopped.connect(brew.stop_timer)
        card.heard.connect(brew.confirm_timer)
        card.left_wanted.connect(self._column.ask_left)
        self.cards[timer.id] = card
        return card

    def show_time(self, now: Instant) -> None:
        """Let the time go on."""
        for each in self.cards.values():
            each.show_time(now)

    def sizeHint(self) -> QSize:
        """The first of them and, where there are more, enough of the next to be seen."""
        more = CARD_GAP + PEEK if len(self.cards) > 1 else 0
        return QSize(0, self.minimumSizeHint().height() + more)

    def minimumSizeHint(self) -> QSize:
        cards = list(self.cards.values())
        return QSize(0, cards[0].sizeHint().height() if cards else 0)


class ClocksColumn(QWidget):
    """Ring and timers of a brew, put to what is pressed; questions are asked on the card."""

    def __init__(self, brew: OpenBrew, card: QWidget, display: DisplayFormat) -> None:
        super().__init__()
        self._brew = brew
        self.frame = QFrame()
        self.frame.setObjectName("card")
        self.ring = BoilRing()
        inside = QVBoxLayout(self.frame)
        inside.setContentsMargins(8, 8, 8, 8)
        inside.addWidget(self.ring)
        self.timers = TimersList(brew, self)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(GAP)
        rows.addWidget(self.frame, 1)
        rows.addWidget(self.timers)
        self._boil, self._shown = 1, ""
        self.boiled_at = BoiledAt(card)
        self.what_time = WhatTime(card)
        self.what_is_left = WhatIsLeft(card, display)
        self.panels: tuple[CardPanel, ...] = (self.boiled_at, self.what_time, self.what_is_left)
        self._connect()

    def _connect(self) -> None:
        ring, brew = self.ring, self._brew
        ring.begun.connect(self._begin)
        ring.paused.connect(lambda: brew.pause_timer(self._shown))
        ring.resumed.connect(lambda: brew.resume_timer(self._shown))
        ring.added.connect(lambda minutes: brew.lengthen_timer(self._shown, minutes))
        ring.heard.connect(lambda: brew.confirm_timer(self._shown))
        ring.boiled_at_wanted.connect(self._ask_when)
        ring.left_wanted.connect(lambda: self.ask_left(self._shown))
        ring.time_wanted.connect(self._ask_time)
        self.boiled_at.told.connect(self._began_at)
        self.what_time.told.connect(brew.it_is)
        self.what_is_left.told.connect(brew.set_timer_left)

    # what is shown

    def show_brew(self, now: Instant) -> None:
        """Show the timers of the brew as it stands."""
        brewing = self._brew.brewing
        if brewing is None:
            return
        timers = self._brew.timers
        shown = self._boil_shown(timers, now)
        if shown is None:
            self._boil = _next_boil(brewing.steps, brewing.done_keys)
            self._shown = timer_moves.timer_id(BOIL, self._boil)
        else:
            self._boil, self._shown = shown.boil, shown.id
        self.show_ring(brewing.steps, shown, now, brewing.done_keys)
        others = [each for each in timers if each.id != self._shown and not each.ended]
        self.timers.show_timers(others, now)

    def show_ring(
        self,
        steps: Sequence[StoveStep],
        timer: TimerState | None,
        now: Instant,
        done: frozenset[str] = frozenset(),
    ) -> None:
        """Show the boil of the ring, or that of a plan not begun yet."""
        begins = {e.starts.boil: e.starts for e in steps if e.starts and e.starts.name == BOIL}
        confirmed = done | (timer.confirmed if timer is not None else frozenset())
        marks = [
            RingMark(each.mark, each.left_min, each.key in confirmed, str(each.name))
            for each in additions_of(steps)
            if each.boil == self._boil
        ]
        self.ring.setEnabled(timer is not None or (self._brew.is_open and self._boil in begins))
        minutes = begins[self._boil].minutes if self._boil in begins else 0.0
        number = self._boil if len(begins) > 1 else 0
        self.ring.show_boil(timer, marks, now, minutes=minutes, boil=number)

    def show_plan(self, steps: Sequence[StoveStep], now: Instant) -> None:
        """Show what will be boiled, before the day begins."""
        self._boil = _next_boil(steps, frozenset())
        self.show_ring(steps, None, now)
        self.timers.show_timers((), now)

    def _boil_shown(self, timers: Sequence[TimerState], now: Instant) -> TimerState | None:
        """The boil of the ring: of those under way the one that ends first, else the last one."""
        boils = [each for each in timers if each.kind == BOIL]
        under_way = [each for each in boils if not each.ended]
        if under_way:
            return min(under_way, key=lambda each: each.left_s(now))
        brewing = self._brew.brewing
        to_come = brewing is not None and _to_come(brewing.steps, brewing.done_keys)
        return boils[-1] if boils and not to_come else None

    def show_time(self, now: Instant) -> None:
        """Let the time go on: only what reads otherwise is painted."""
        self.ring.show_time(now)
        self.timers.show_time(now)

    # what is asked

    def _begin(self) -> None:
        """It boils: the step that says so is done."""
        key = self._begins()
        if key:
            self._brew.done(key)

    def _begins(self) -> str:
        brewing = self._brew.brewing
        steps = brewing.steps if brewing is not None else ()
        found = (e.key for e in steps if e.starts and (e.starts.name, e.boil) == (BOIL, self._boil))
        return next(found, "")

    def _began_at(self, wall: float) -> None:
        if self._brew.find_timer(self._shown) is None:
            self._begin()
        self._brew.it_boiled_at(wall, self._boil)

    def _ask_when(self) -> None:
        self._put_away()
        self.boiled_at.ask_when(self._brew.now().wall)

    def _ask_time(self) -> None:
        self._put_away()
        self.what_time.ask_time(self._brew.now().wall)

    def ask_left(self, timer: str) -> None:
        """Ask how much is left of a timer."""
        self._put_away()
        card = self.timers.cards.get(timer)
        name = card.name_in_words() if card is not None else self.ring.name_in_words()
        self.what_is_left.ask_left(timer, name)

    def _put_away(self) -> None:
        for each in self.panels:
            each.put_away()


def _to_come(steps: Sequence[StoveStep], done: frozenset[str]) -> list[int]:
    """The boils that have not begun, in order."""
    return [
        each.starts.boil
        for each in steps
        if each.starts is not None and each.starts.name == BOIL and each.key not in done
    ]


def _next_boil(steps: Sequence[StoveStep], done: frozenset[str]) -> int:
    """The boil that comes next, the first where there is none."""
    return next(iter(_to_come(steps, done)), 1)
