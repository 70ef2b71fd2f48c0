"""The line above the parts: which part, which brew, how far it is, and what is always at hand."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFont, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QButtonGroup,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.part_names import PARTS, SHORT, Part
from designer.window.parts.eliding import ElidedLabel
from designer.window.parts.icons import Choice
from designer.window.parts.sized_text import SizedText, grown
from designer.window.parts.targets import TARGET_PX

CLOCK_PX = 24.0
PARTED = " · "
TOLD_APART = 18
"""So much room lies between two things told beside each other."""
PARTS_PX = 1180.0
"""From this width on all parts go by their whole names."""


class PartButton(QPushButton):
    """The button of a part of the page."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.setObjectName("partButton")
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(TARGET_PX, TARGET_PX))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()


class HowFar(ElidedLabel):
    """How far a brew is, as much of it as has room: what stands first gives way first."""

    side = Qt.TextElideMode.ElideLeft

    def shown_text(self) -> str:
        """Return what is seen of the words, in whole parts if there is room for one."""
        room, left = self.contentsRect().width(), self.text()
        while self.fontMetrics().horizontalAdvance(left) > room:
            _, parted, left = left.partition(PARTED)
            if not parted:
                return super().shown_text()
        return left


class Told(QWidget):
    """What is told between parts and buttons, side by side or, in little room, below each other."""

    def __init__(self, screen: QLabel, how_far: QLabel) -> None:
        super().__init__()
        self._screen, self._how_far = screen, how_far
        self._box = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._box.setContentsMargins(0, 0, 0, 0)
        self._box.setSpacing(0)
        self._box.addWidget(screen)
        self._box.addWidget(how_far, 1)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.arrange()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:
            self.arrange()
        return bool(super().event(event))

    def arrange(self) -> None:
        """Put one below the other where both do not fit beside each other."""
        both = not (self._screen.isHidden() or self._how_far.isHidden())
        wide = self._screen.sizeHint().width() + self._how_far.sizeHint().width() + TOLD_APART
        below = both and wide > self.width()
        ways, sides = QBoxLayout.Direction, Qt.AlignmentFlag
        way = ways.TopToBottom if below else ways.LeftToRight
        if self._box.direction() is not way:
            self._box.setDirection(way)
            self._screen.setAlignment(
                sides.AlignVCenter | (sides.AlignRight if below else sides.AlignLeft)
            )
            self._box.update()


class PageBar(QWidget):
    """Parts at the left, what there is to press at the right; at full screen the clock too."""

    part_wanted = Signal(object)
    """Carries the key of a part."""
    brew_wanted = Signal(object)

    def __init__(self, parts: Sequence[Part], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = ElidedLabel()
        self.name.setObjectName("brewName")
        font = QFont()
        font.setPointSizeF(1.3 * QApplication.font().pointSizeF())
        self.name.setFont(font)
        self.clock = SizedText(bold=True, align=Qt.AlignmentFlag.AlignRight)
        self.state = HowFar()
        self.state.setObjectName("soft")
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.state.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.may_go_dark = ElidedLabel()
        """Said where the screen may go dark."""
        self.may_go_dark.setObjectName("soft")
        self.may_go_dark.side = Qt.TextElideMode.ElideLeft
        self.may_go_dark.hide()
        self.brews = Choice()
        self.brews.setMinimumHeight(TARGET_PX)
        self.brews.setAccessibleName(tr("Which brew is shown"))
        self.brews.setToolTip(tr("Several brews are under way: which of them is shown"))
        self.brews.activated.connect(
            lambda number: self.brew_wanted.emit(self.brews.itemData(number))
        )
        self.brews.hide()
        self.part_buttons = QButtonGroup(self)
        self._parts: dict[Part, PartButton] = {}
        self.buttons: list[LargeButton] = []
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(12, 3, 20, 3)
        self._row.setSpacing(6)
        self._row.addWidget(self.name)
        for part in parts:
            self._parts[part] = button = PartButton(tr(PARTS[part]))
            button.setAccessibleName(tr(PARTS[part]))
            button.clicked.connect(partial(self._want_part, part))
            self.part_buttons.addButton(button)
            self._row.addWidget(button)
        self.choice = Choice()
        """Of the parts, in place of their buttons where these have no room."""
        self.choice.setMinimumHeight(TARGET_PX)
        self.choice.setAccessibleName(tr("Which part of the brew day is shown"))
        for part in parts:
            self.choice.addItem(tr(SHORT[part]), part.value)
        self.choice.activated.connect(
            lambda number: self.part_wanted.emit(Part(self.choice.itemData(number)))
        )
        self.choice.hide()
        self._row.addWidget(self.choice)
        self._row.addWidget(self.brews)
        self._row.addWidget(Told(self.may_go_dark, self.state), 100)
        self._row.addWidget(self.clock)
        self.check_part(Part.STOVE)
        self.show_full(full=False)

    def add(self, button: LargeButton) -> LargeButton:
        """Add a button at the right."""
        button.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._row.addWidget(button)
        self.buttons.append(button)
        return button

    def show_full(self, *, full: bool) -> None:
        """Show name and clock where header and menus are not seen."""
        self.name.setVisible(full)
        self.clock.setVisible(full)
        self.clock.set_pixels(grown(self, CLOCK_PX))
        self.clock.setFixedSize(round(grown(self, 84)), TARGET_PX)
        self._yield_room()

    def show_brews(
        self, brews: list[tuple[str, str]], shown: str, begin: str, *, is_told: bool
    ) -> None:
        """Offer brews by their words and names, and to begin another; the one `shown` stands there.

        Where there is one, and it `is_told` elsewhere which, there is no choice.
        """
        wanted = [*brews, (begin, "")] if brews else []
        before = [
            (self.brews.itemText(n), self.brews.itemData(n)) for n in range(self.brews.count())
        ]
        if wanted != before:
            self.brews.clear()
            for words, uid in wanted:
                self.brews.addItem(words, uid)
        self.brews.setCurrentIndex(max(self.brews.findData(shown), 0))
        self.brews.setVisible(len(brews) > 1 or (len(brews) == 1 and not is_told))

    def _want_part(self, part: Part, _checked: bool = False) -> None:
        self.part_wanted.emit(part)

    def button_of(self, part: Part) -> PartButton:
        """Return the button of a part."""
        return self._parts[part]

    def check_part(self, seen: Part) -> None:
        """Show which part is seen."""
        for part, button in self._parts.items():
            is_seen = part is seen
            button.setChecked(is_seen)
            # Tab goes to the pressed one, the arrows to the others, as with any choice of one.
            policy = Qt.FocusPolicy.TabFocus if is_seen else Qt.FocusPolicy.ClickFocus
            button.setFocusPolicy(policy)
        self.choice.setCurrentIndex(self.choice.findData(seen.value))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._yield_room()

    def _yield_room(self) -> None:
        """How far it is gives way where the clock is shown, for the list tells it too.

        Where there is less room still, the parts go by short names.
        """
        self.state.setMinimumWidth(0)
        roomy = self.width() > grown(self, 900) and not self.clock.isVisibleTo(self)
        self.state.setVisible(roomy)
        called = PARTS if self.width() >= grown(self, PARTS_PX) else SHORT
        for part, button in self._parts.items():
            if button.text() != tr(called[part]):
                button.setText(tr(called[part]))
                button.setToolTip("" if called is PARTS else tr(PARTS[part]))
        wanted = self._needs(*self._parts.values())
        for button in self._parts.values():
            button.setVisible(wanted <= self.width())
        self.choice.setVisible(wanted > self.width())

    def event(self, event: QEvent) -> bool:
        """What is at hand says something else, or more of it is: there may be less room."""
        if event.type() == QEvent.Type.LayoutRequest:
            self._yield_room()
        return bool(super().event(event))

    def _needs(self, *parts: QWidget) -> int:
        """Return how wide all is that has to be seen, with these for the parts."""
        margins = self._row.contentsMargins()
        others = (self.brews, self.name, self.clock, self.may_go_dark, *self.buttons)
        seen = [*parts, *(each for each in others if not each.isHidden())]
        wide = sum(each.minimumSizeHint().width() for each in seen)
        return wide + self._row.spacing() * (len(seen) + 2) + margins.left() + margins.right()

    def minimumSizeHint(self) -> QSize:
        return QSize(self._needs(self.choice), super().minimumSizeHint().height())
