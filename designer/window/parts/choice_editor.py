"""The editor of a cell that takes only some words."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemDelegate, QApplication, QWidget

from designer.window.parts.icons import Choice
from designer.window.parts.typed_keys import is_typed

_Hint = QAbstractItemDelegate.EndEditHint
_TABS = {Qt.Key.Key_Tab: _Hint.EditNextItem, Qt.Key.Key_Backtab: _Hint.EditPreviousItem}


class ChoiceEditor(Choice):
    """The words of a cell that takes no others: a list, searched by typing, closed by choosing.

    `leave_soon` is called when its list closes, `finish` with where to go when a word is taken.
    """

    def __init__(
        self,
        parent: QWidget,
        leave_soon: Callable[[], None],
        finish: Callable[[ChoiceEditor, _Hint], None],
    ) -> None:
        super().__init__(parent)
        self._leave_soon, self._finish = leave_soon, finish

    def hidePopup(self) -> None:
        """Close the editor with its list; what was chosen is taken before that."""
        super().hidePopup()
        self._leave_soon()

    def showPopup(self) -> None:
        super().showPopup()
        self.view().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Tab in the list takes the word that is chosen and goes on to the next cell."""
        if event.type() == QEvent.Type.KeyPress and watched is self.view():
            hint = _TABS.get(Qt.Key(cast(QKeyEvent, event).key()))
            if hint is not None:
                self.setCurrentIndex(self.view().currentIndex().row())
                self._finish(self, hint)
                return True
        return bool(super().eventFilter(watched, event))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_typed(event) and event.text().strip():
            self.search(event)
        else:
            super().keyPressEvent(event)

    def search(self, event: QKeyEvent) -> None:
        """Open the list and go to the word that begins with what is typed."""
        self.showPopup()
        again = QKeyEvent(event.type(), event.key(), event.modifiers(), event.text())
        QApplication.sendEvent(self.view(), again)
