"""Editing in a cell: what is typed counts at once, Return keeps it, Escape takes it back."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)
from PySide6.QtGui import QKeyEvent, QStandardItem, QStandardItemModel, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QLineEdit,
    QStyledItemDelegate,
    QWidget,
)

from designer.recipe.limits import LONGEST_TYPED
from designer.window.lines_model import LinesModel
from designer.window.shown import stepped
from designer.window.suggestions import Suggestion, suggest

if TYPE_CHECKING:
    from PySide6.QtWidgets import QStyleOptionViewItem

Index = QModelIndex | QPersistentModelIndex
COARSE_STEPS = 10.0
_AMOUNT = r"\s*(?:[\d.,/½¼¾]+\s*)+(?:kg|g|lbs?|oz|ml|l|tablets?|packets?|tsp|tbsp)?\s+"


class _OfferedItem(QStandardItem):
    """One offer: its text is taken over behind the amount typed, text and remark are shown."""

    def __init__(self, offer: Suggestion, amount: str) -> None:
        super().__init__()
        self._offer, self._amount = offer, amount

    def data(self, role: int = Qt.ItemDataRole.UserRole) -> object:
        """Return the text for an editor, or text and remark for the list."""
        if role == Qt.ItemDataRole.EditRole:
            return self._amount + self._offer.text
        if role == Qt.ItemDataRole.DisplayRole:
            offer = self._offer
            return f"{offer.text}  ·  {offer.beside}" if offer.beside else offer.text
        return super().data(role)


def attach_suggestions(edit: QLineEdit, of: str) -> QCompleter:
    """Offer names of a part of the catalogue below an editor while it is typed in."""
    model = QStandardItemModel(edit)
    completer = QCompleter(model, edit)
    completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
    completer.setCompletionRole(Qt.ItemDataRole.EditRole)
    completer.setMaxVisibleItems(10)
    edit.setCompleter(completer)

    def refresh(typed: str) -> None:
        model.clear()
        amount, name = _split_amount(typed)
        for offer in suggest(of, name):
            model.appendRow(_OfferedItem(offer, amount))

    edit.textEdited.connect(refresh)
    return completer


def _split_amount(typed: str) -> tuple[str, str]:
    """`1 1/2 oz fug` is the amount `1 1/2 oz ` and the name `fug`."""
    found = re.match(_AMOUNT, typed, re.IGNORECASE)
    return (found.group(0), typed[found.end() :]) if found is not None else ("", typed)


class CellDelegate(QStyledItemDelegate):
    """Editors of a `LinesModel`."""

    def __init__(self, model: LinesModel, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self._merge_key = ""

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        column = self._model.spec.columns[index.column()]
        self._merge_key = self._model.opened.start_typing()
        if column.choices:
            from designer.window.icons import Choice

            box = Choice(parent)
            box.addItems(list(column.choices))
            box.setAccessibleName(f"{column.heading}")
            box.activated.connect(lambda _: self._finish(box))
            return box
        edit = QLineEdit(parent)
        edit.setMaxLength(LONGEST_TYPED)
        edit.setAccessibleName(column.heading)
        edit.setFrame(False)
        if column.suggests:
            attach_suggestions(edit, column.suggests)
        place = QPersistentModelIndex(index)
        edit.textEdited.connect(lambda text: self._try(edit, place, text))
        return edit

    def _finish(self, box: QWidget) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    def _try(self, edit: QLineEdit, place: QPersistentModelIndex, text: str) -> None:
        edit.setProperty("touched", True)
        if place.isValid() and self._model.line_at(place.row()) is not None:
            taken = self._model.type_in(place, text, self._merge_key, trying=True)
            _mark(edit, refused=not taken)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        text = str(index.data(Qt.ItemDataRole.EditRole) or "")
        if isinstance(editor, QComboBox):
            editor.setCurrentText(text)
        elif isinstance(editor, QLineEdit) and not editor.property("touched"):
            editor.setText(text)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            text = editor.currentText()
        else:
            text = cast(QLineEdit, editor).text()
        if not self._model.type_in(index, text, self._merge_key) and text.strip():
            self._model.opened.take_back(self._merge_key)

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        rect = option.rect
        if isinstance(editor, QLineEdit):
            needed = editor.fontMetrics().horizontalAdvance(editor.text()) + 40
            rect.setWidth(max(rect.width(), min(needed, 320)))
        editor.setGeometry(rect)

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        if isinstance(editor, QLineEdit):
            if event.type() == QEvent.Type.KeyPress and self._key(editor, cast(QKeyEvent, event)):
                return True
            if event.type() == QEvent.Type.Wheel:
                steps = cast(QWheelEvent, event).angleDelta().y() / 120.0
                return _step(editor, steps)
        return bool(super().eventFilter(editor, event))

    def _key(self, editor: QLineEdit, event: QKeyEvent) -> bool:
        key = event.key()
        if key == Qt.Key.Key_Escape:
            popup = editor.completer().popup() if editor.completer() is not None else None
            if popup is not None and popup.isVisible():
                return False
            self._model.opened.take_back(self._merge_key)
            return False
        if key in (Qt.Key.Key_Up, Qt.Key.Key_Down) and editor.completer() is None:
            coarse = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            steps = (1.0 if key == Qt.Key.Key_Up else -1.0) * (COARSE_STEPS if coarse else 1.0)
            return _step(editor, steps)
        return False


def _mark(edit: QLineEdit, *, refused: bool) -> None:
    """Show that what stands in an editor cannot be taken yet."""
    if bool(edit.property("refused")) != refused:
        edit.setProperty("refused", refused)
        edit.style().unpolish(edit)
        edit.style().polish(edit)


def _step(edit: QLineEdit, steps: float) -> bool:
    """Step the number in an editor, as if it had been typed."""
    text = stepped(edit.text(), steps)
    if text is None:
        return False
    edit.setText(text)
    edit.textEdited.emit(text)
    return True
