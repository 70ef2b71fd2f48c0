"""A press beside a list of offers closes the list and is carried out on what lies there.

Left to itself Qt closes the list and, on some desktops, forgets the press.
"""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QApplication, QCompleter, QWidget


class PressBeside(QObject):
    """For the list that offers names below a field."""

    def __init__(self, completer: QCompleter, field: QWidget) -> None:
        super().__init__(field)
        self._field, self._list = field, cast(QAbstractItemView, completer.popup())
        self._list.setAttribute(Qt.WidgetAttribute.WA_NoMouseReplay)  # where Qt would repeat it
        self._list.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.MouseButtonPress:
            return False
        press = cast(QMouseEvent, event)
        if self._list.rect().contains(press.position().toPoint()):
            return False
        self._list.hide()
        window = self._field.window()
        place = window.childAt(window.mapFromGlobal(press.globalPosition().toPoint()))
        if place is not None and place.isEnabled():
            _press(place, press)
        return True


def _press(place: QWidget, press: QMouseEvent) -> None:
    """Press what lies there, as if no list had been open."""
    taking: QWidget | None = place
    while taking is not None and not taking.focusPolicy() & Qt.FocusPolicy.ClickFocus:
        taking = taking.parentWidget()
    if taking is not None:
        taking.setFocus(Qt.FocusReason.MouseFocusReason)
    if isinstance(place, QAbstractButton):
        if press.button() == Qt.MouseButton.LeftButton:
            place.click()
        return
    at = QPointF(place.mapFromGlobal(press.globalPosition().toPoint()))
    for kind in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonRelease):
        again = QMouseEvent(
            kind, at, press.globalPosition(), press.button(), press.buttons(), press.modifiers()
        )
        QApplication.sendEvent(place, again)
