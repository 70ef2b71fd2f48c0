"""Figures to tap, for a tablet without a keyboard: shown when a blank is touched with a finger."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QFrame, QGridLayout, QLineEdit, QWidget

from designer.translation import tr
from designer.window.brew.large_button import LargeButton

ROWS = ("789", "456", "123")
SIDE_PX = 52


class NumberPad(QFrame):
    """Types into the blank that was touched, as keys would."""

    def __init__(self, page: QWidget, *, decimal_sign: str) -> None:
        super().__init__(page)
        self.setObjectName("cardPanel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._field: QLineEdit | None = None
        grid = QGridLayout(self)
        grid.setContentsMargins(8, 8, 8, 8)
        grid.setSpacing(6)
        self.buttons: dict[str, LargeButton] = {}
        for row, figures in enumerate(ROWS):
            for column, each in enumerate(figures):
                grid.addWidget(self._figure(each), row, column)
        grid.addWidget(self._figure(decimal_sign), 3, 0)
        grid.addWidget(self._figure("0"), 3, 1)
        self.back_button = self._key("⌫", tr("Take the last sign away"), Qt.Key.Key_Backspace)
        self.take_button = self._key("↵", tr("Take what is typed"), Qt.Key.Key_Return)
        self.take_button.as_primary(times=1.4)
        grid.addWidget(self.back_button, 3, 2)
        grid.addWidget(self.take_button, 0, 3, 4, 1)
        self.hide()

    def _figure(self, sign: str) -> LargeButton:
        made = self._made(sign, sign)
        made.clicked.connect(lambda _checked=False: self._type(sign))
        self.buttons[sign] = made
        return made

    def _key(self, sign: str, tip: str, key: Qt.Key) -> LargeButton:
        made = self._made(sign, tip)
        made.setToolTip(tip)
        made.clicked.connect(lambda _checked=False: self._press(key))
        return made

    def _made(self, sign: str, name: str) -> LargeButton:
        made = LargeButton(sign, least=SIDE_PX)
        made.setMinimumWidth(SIDE_PX)
        made.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        made.setAccessibleName(name)
        return made

    def open_for(self, field: QLineEdit) -> None:
        """Show the figures above a field, or below it, wherever there is room."""
        self._field = field
        page = self.parentWidget()
        assert page is not None
        self.adjustSize()
        place = field.mapTo(page, QPoint(0, -self.height() - 8))
        x = min(max(place.x(), 8), page.width() - self.width() - 8)
        self.move(x, max(place.y(), 8))
        self.show()
        self.raise_()

    def put_away(self) -> None:
        """Hide the figures."""
        self._field = None
        self.hide()

    def _type(self, sign: str) -> None:
        if self._field is not None:
            self._field.insert(sign)
            self._field.setModified(True)

    def _press(self, key: Qt.Key) -> None:
        field = self._field
        if field is None:
            return
        for kind in (QKeyEvent.Type.KeyPress, QKeyEvent.Type.KeyRelease):
            event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier)
            QApplication.sendEvent(field, event)
        if not field.hasFocus():
            self.put_away()
