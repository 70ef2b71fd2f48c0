"""Figures to tap, for a tablet without a keyboard: shown when a field of figures is touched."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QObject, QPoint, Qt, QTimer
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QApplication, QFrame, QGridLayout, QLineEdit, QWidget

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.settings import Settings

ROWS = ("789", "456", "123")
SIDE_PX = 52


class NumberPad(QFrame):
    """Types into the field that was touched, as keys would."""

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
        below = field.mapTo(page, QPoint(0, field.height() + 8)).y()
        has_room_below = below + self.height() <= page.height() - 8
        self.move(x, below if place.y() < 8 and has_room_below else max(place.y(), 8))
        self.show()
        self.raise_()

    def put_away(self) -> None:
        """Hide the figures."""
        self._field = None
        self.hide()

    def _type(self, sign: str) -> None:
        if self._field is not None:
            kind, plain = QKeyEvent.Type.KeyPress, Qt.KeyboardModifier.NoModifier
            QApplication.sendEvent(self._field, QKeyEvent(kind, ord(sign), plain, sign))

    def _press(self, key: Qt.Key) -> None:
        field = self._field
        if field is None:
            return
        for kind in (QKeyEvent.Type.KeyPress, QKeyEvent.Type.KeyRelease):
            event = QKeyEvent(kind, key, Qt.KeyboardModifier.NoModifier)
            QApplication.sendEvent(field, event)
        if not field.hasFocus():
            self.put_away()


class PadAtHand(QObject):
    """Shows figures for fields that a finger touches; they go as soon as the keyboard does."""

    def __init__(self, fields: Iterable[QLineEdit], settings: Settings) -> None:
        fields = list(fields)
        super().__init__(fields[0])
        self._settings = settings
        self.pad: NumberPad | None = None
        """None until a finger has touched one."""
        for each in fields:
            each.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(watched, QLineEdit):
            kinds = (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick)
            if isinstance(event, QMouseEvent) and event.type() in kinds:
                if event.source() != Qt.MouseEventSource.MouseEventNotSynthesized:
                    self._open_for(watched)
            elif isinstance(event, QFocusEvent) and event.type() == QEvent.Type.FocusOut:
                stays = event.reason() is Qt.FocusReason.ActiveWindowFocusReason
                if self.pad is not None and not stays:
                    self.pad.put_away()
        return False

    def _open_for(self, field: QLineEdit) -> None:
        if self.pad is None or self.pad.parentWidget() is not field.window():
            if self.pad is not None:
                self.pad.deleteLater()
            sign = "," if self._settings.decimal_comma else "."
            self.pad = NumberPad(field.window(), decimal_sign=sign)
        self.pad.open_for(field)
        if field.text():  # the press is done with by then: figures go in place of what stands there
            QTimer.singleShot(0, field, field.selectAll)
