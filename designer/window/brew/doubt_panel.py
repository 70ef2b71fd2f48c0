"""A reading that cannot be is asked about in place: what was likely meant, each as one press."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from designer.brewday.measured.readings import Measured
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.plain_text import caption, unbroken

if TYPE_CHECKING:
    from designer.brewday.measured.doubtful import Doubtful
    from designer.brewday.measured.slip import Slip
    from designer.recipe.message import Message


class DoubtPanel(QFrame):
    """Lies over the blanks while a reading waits for an answer.

    `meant` carries the reading that was meant; `anyway` that it was read so; `again` that it will
    be typed again.
    """

    meant = Signal(object)
    anyway = Signal()
    again = Signal()
    explain = Signal()
    """What may lie behind it is asked: offered of the original gravity alone."""

    def __init__(self, over: QWidget, display: DisplayFormat) -> None:
        super().__init__(over)
        self._over, self._display = over, display
        self.setObjectName("doubt")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.text = QLabel()
        self.text.setObjectName("strong")
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setWordWrap(True)
        self.buttons: list[LargeButton] = []
        self._ways = FlowLayout(across=8, down=6)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 10)
        layout.setSpacing(8)
        layout.addWidget(self.text)
        layout.addLayout(self._ways)
        layout.addStretch(1)
        over.installEventFilter(self)
        self.hide()

    def ask(self, label: str, doubtful: Doubtful) -> None:
        """Ask about a reading at a blank."""
        for each in self.buttons:
            each.hide()
            each.deleteLater()
        self.text.setText(
            tr("{blank}: {doubt}", blank=label, doubt=unbroken(self._words(doubtful.message)))
        )
        self.buttons = [self._slip(each) for each in doubtful.slips]
        if doubtful.anyway is not None:
            self.buttons.append(self._button(self._words(doubtful.anyway), self.anyway.emit))
        if doubtful.reading.what is Measured.ORIGINAL_GRAVITY and doubtful.anyway is not None:
            self.buttons.append(self._button(tr("What may lie behind it"), self.explain.emit))
        self.buttons.append(self._button(tr("Type it again"), self.again.emit))
        self.setAccessibleName(self.text.text())
        self.setGeometry(self._over.rect())
        self.show()
        self.raise_()
        self.buttons[0].setFocus(Qt.FocusReason.OtherFocusReason)

    def _words(self, message: Message) -> str:
        """Return a message in the units that are shown."""
        return message.said(self._display.short, self._display.quantity)

    def _slip(self, slip: Slip) -> LargeButton:
        return self._button(self._words(slip.question), lambda: self.meant.emit(slip.meant))

    def _button(self, text: str, act: Callable[[], object]) -> LargeButton:
        made = LargeButton(caption(text), "", act)
        self._ways.addWidget(made)
        made.show()
        return made

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.again.emit()
        else:
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and not self.isHidden():
            self.setGeometry(self._over.rect())
        return False
