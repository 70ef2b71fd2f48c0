"""A question asked on the card of the step, in place: nothing moves, and Escape takes it back."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.flow import FlowLayout
from designer.window.parts.going_round import go_round
from designer.window.parts.targets import TARGET_PX


class CardPanel(QFrame):
    """A question over the card: its title, a field, usual answers to tap, what carries it out.

    `answered` carries the text of the field; `closed` tells that it is away again.
    """

    answered = Signal(str)
    closed = Signal()

    def __init__(self, card: QWidget, title: str, label: str, carry_out: str) -> None:
        super().__init__(card)
        self.setObjectName("cardPanel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._card = self._before = card
        self.title = QLabel(title)
        self.title.setObjectName("cardQuestion")
        font = QFont()
        font.setPointSizeF(1.5 * QApplication.font().pointSizeF())
        font.setBold(True)
        self.title.setFont(font)
        self.title.setWordWrap(True)
        self.title.setTextFormat(Qt.TextFormat.PlainText)
        self.field = QLineEdit()
        self.field.setMinimumHeight(TARGET_PX)
        self.field.setAccessibleName(label)
        self.field.setPlaceholderText(label)
        self.field.returnPressed.connect(self.carry_out)
        self.usual: list[LargeButton] = []
        self._chips = FlowLayout(across=8, down=8)
        self.ok_button = LargeButton(carry_out, "", self.carry_out).as_primary()
        self.cancel_button = LargeButton(
            tr("Cancel"), tr("Go back to the step (Escape)"), self.put_away
        )
        self.ways = QHBoxLayout()
        self.ways.addWidget(self.ok_button)
        self.ways.addWidget(self.cancel_button)
        self.ways.addStretch(1)
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(20, 16, 20, 14)
        self.rows.setSpacing(10)
        self.rows.addWidget(self.title)
        self.rows.addLayout(self._chips)
        self.rows.addWidget(self.field)
        self.rows.addStretch(1)
        self.rows.addLayout(self.ways)
        card.installEventFilter(self)
        self.hide()

    def offer(self, texts: Sequence[str], take: Callable[[str], None]) -> None:
        """Offer usual answers, each taken by one tap."""
        for each in self.usual:
            each.hide()
            each.deleteLater()
        self.usual = []
        for text in texts:
            chip = LargeButton(text)
            chip.clicked.connect(lambda _checked=False, said=text: take(said))
            self._chips.addWidget(chip)
            self.usual.append(chip)

    def ask(self, title: str = "", text: str = "") -> None:
        """Show the question."""
        if title:
            self.title.setText(title)
        focus = QApplication.focusWidget()
        if focus is None or not self.isAncestorOf(focus):
            is_on_card = focus is not None and self._card.isAncestorOf(focus)
            self._before = focus if is_on_card and focus is not None else self._card
        self.field.setText(text)
        self._lie_over_card()
        self.show()
        self.raise_()
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)

    def carry_out(self) -> None:
        """Take what the field says."""
        text = self.field.text().strip()
        self.put_away()
        self.answered.emit(text)

    def put_away(self) -> None:
        """Hide it; the keyboard goes back to where on the card it was."""
        if not self.isHidden():
            self.hide()
            there = isValid(self._before) and self._before.isVisible()
            (self._before if there else self._card).setFocus(Qt.FocusReason.OtherFocusReason)
            self.closed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape puts it away. No key goes on to the page, for which it would mean the step."""
        focus = QApplication.focusWidget()
        returns = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        elif returns and isinstance(focus, QAbstractButton) and self.isAncestorOf(focus):
            focus.click()
        event.accept()

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Go round within the question: it lies over the step."""
        go_round(self, forward=forward)
        return True

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and not self.isHidden():
            self._lie_over_card()
        return False

    def _lie_over_card(self) -> None:
        """Take the place of the card; where it is low, the last of the usual answers have none."""
        place = self._card.rect()
        self.setGeometry(place)
        for each in self.usual:
            each.show()
        for each in reversed(self.usual):
            self.rows.invalidate()
            if self.rows.totalHeightForWidth(place.width()) <= place.height():
                break
            each.hide()
