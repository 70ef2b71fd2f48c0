"""Names offered below a field while one types: Return takes the one that is chosen, no more."""

from __future__ import annotations

import re
from typing import cast

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QStandardItem, QStandardItemModel
from PySide6.QtWidgets import QAbstractItemView, QApplication, QCompleter, QLineEdit

from designer.window.parts.drawn_icons import drawn_already, drawn_icon
from designer.window.parts.plain_text import long_tip
from designer.window.parts.press_beside import PressBeside
from designer.window.parts.things_drawn import of_offer
from designer.window.parts.whole_offers import WholeOffers
from designer.workbench.suggestions import Suggestion, suggest

_AMOUNT = r"\s*(?:[\d.,/½¼¾]+\s*)+(?:kg|g|lbs?|oz|ml|l|tablets?|packets?|tsp|tbsp)?\s+"
_LEAVING = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class _OfferedItem(QStandardItem):
    """One offer: its text is taken over behind the amount typed, all of it is shown."""

    def __init__(self, offer: Suggestion, amount: str, part: str) -> None:
        super().__init__()
        self._offer, self._amount = offer, amount
        self.drawing = of_offer(part, offer.english)

    def data(self, role: int = Qt.ItemDataRole.UserRole) -> object:
        """Return the text for an editor, all that is said for the list, the source for a tip."""
        if role == Qt.ItemDataRole.EditRole:
            return self._amount + self._offer.text
        if role == Qt.ItemDataRole.DisplayRole:
            offer = self._offer
            return "  ·  ".join(filter(None, (offer.text, offer.beside, offer.standing)))
        if role == Qt.ItemDataRole.ToolTipRole:
            return long_tip(self._offer.source) or None
        if role == Qt.ItemDataRole.DecorationRole:
            return drawn_already(self.drawing)
        return super().data(role)


class _ListKeys(QObject):
    """Keys of the open list.

    Left to themselves, Return and Tab would reach the field first, as if there were no list: what
    was half typed would be taken, or a button pressed, before the chosen name is put in. Where that
    name was `typed` out there is nothing to pick, and the key is the field's.
    """

    def __init__(self, completer: QCompleter, edit: QLineEdit) -> None:
        super().__init__(edit)
        self._edit, self.typed = edit, ""
        self._list = cast(QAbstractItemView, completer.popup())
        self._list.installEventFilter(self)
        # of the two signals of this name, the one with the text
        completer.activated[str].connect(self._take)  # type: ignore[index]

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.KeyPress:
            return False
        pressed = cast(QKeyEvent, event)
        if pressed.key() not in _LEAVING:
            return False
        chosen = self._list.currentIndex()
        text = str(chosen.data(Qt.ItemDataRole.EditRole)) if chosen.isValid() else None
        self._list.hide()
        is_typed_out = text is not None and text.casefold() == self.typed.casefold()
        if text is not None:
            self._take(text)
        if text is None or is_typed_out or pressed.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            again = QKeyEvent(pressed.type(), pressed.key(), pressed.modifiers(), pressed.text())
            QApplication.sendEvent(self._edit, again)  # the field has its key, now without a list
        return True

    def _take(self, text: str) -> None:
        """Put a name in as if it had been typed."""
        self._edit.setText(text)
        self._edit.textEdited.emit(text)


def attach_suggestions(edit: QLineEdit, of: str) -> QCompleter:
    """Offer names of a part of the catalogue below an editor while it is typed in."""
    model = QStandardItemModel(edit)
    completer = QCompleter(model, edit)
    completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
    completer.setCompletionRole(Qt.ItemDataRole.EditRole)
    completer.setMaxVisibleItems(10)
    edit.setCompleter(completer)
    keys: list[_ListKeys] = []

    def refresh(typed: str) -> None:
        if not keys:
            keys.append(_ListKeys(completer, edit))
            WholeOffers(completer, edit)
            PressBeside(completer, edit)
        keys[0].typed = typed
        model.clear()
        amount, name = split_amount(typed)
        for offer in suggest(of, name):
            model.appendRow(_OfferedItem(offer, amount, of))
        later.start()

    def draw() -> None:
        """Draw the icons that are new, once the list is seen: no key waits for one."""
        for row in range(model.rowCount()):
            item = cast(_OfferedItem, model.item(row))
            if item.drawing:
                drawn_icon(item.drawing)
        cast(QAbstractItemView, completer.popup()).viewport().update()

    later = QTimer(edit, singleShot=True, interval=0)
    later.timeout.connect(draw)
    edit.textEdited.connect(refresh)
    return completer


def split_amount(typed: str) -> tuple[str, str]:
    """`1 1/2 oz fug` is the amount `1 1/2 oz ` and the name `fug`."""
    found = re.match(_AMOUNT, typed, re.IGNORECASE)
    return (found.group(0), typed[found.end() :]) if found is not None else ("", typed)
