"""Editing in a cell: Return keeps what is typed, Escape takes it back, and nothing is lost.

What cannot be taken is marked while it is typed. On Return the editor then stays open with the
text and says why beside it; where the cell is left otherwise, the text stays in it, marked, and the
old value counts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QObject,
    QPersistentModelIndex,
    Qt,
    QTimer,
)
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QComboBox,
    QLineEdit,
    QStyledItemDelegate,
    QTableView,
    QWidget,
)

from designer.recipe.limits import LONGEST_TYPED
from designer.window.parts.display_format import stepped
from designer.window.parts.seen import bring_into_view
from designer.window.parts.table_model import Index, Role
from designer.window.parts.typed_table import TypedTable
from designer.window.parts.unit_words import unit_words
from designer.window.parts.unseen_marks import taken_out

if TYPE_CHECKING:
    from PySide6.QtWidgets import QStyleOptionViewItem

    from designer.window.parts.beside_field import Ways
    from designer.window.parts.choice_editor import ChoiceEditor
    from designer.window.parts.second_reading import Other

COARSE_STEPS = 10.0
_Key = Qt.Key
_Hint = QAbstractItemDelegate.EndEditHint


class CellEditors(QStyledItemDelegate):
    """Editors of a `TypedTable`; a table that follows each key says more in a subclass."""

    def __init__(self, model: TypedTable, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._model, self.not_taken = model, model.not_taken
        self._place = QPersistentModelIndex()
        self._box: ChoiceEditor | None = None
        self._asked: tuple[QPersistentModelIndex, str] | None = None
        self._edit: QLineEdit | None = None
        unit_words().known.connect(self.retry)
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._leave)

    # what a table that follows each key says otherwise

    def begin(self) -> None:
        """Hear that an editor opens."""

    def take(self, index: Index, text: str) -> None:
        """Put a text that can be taken into the model."""
        self._model.type_in(index, text)

    def take_late(self, index: Index, text: str) -> None:
        """Put a text into the model that could not be taken when it was typed."""
        self.take(index, text)

    def try_text(self, index: Index, text: str) -> bool:
        """Hear of each key; False if what stands there now could not be taken."""
        return not self._model.fault_of(index, text)

    def give_up(self) -> None:
        """Take back what was tried."""

    def amount_of(self, index: Index) -> Index | None:
        """Return the cell of the amount that a new line began with, if the row takes new ones."""
        return None

    # editors

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        column = self._model.columns[index.column()]
        words = self._model.words(column)
        self._place = place = QPersistentModelIndex(index)
        self.begin()
        if words:
            from designer.window.parts.choice_editor import ChoiceEditor

            box = self._box = ChoiceEditor(parent, self.leave_soon, self.finish)
            box.addItems(list(words))
            box.setAccessibleName(column.heading)
            box.activated.connect(lambda _: self.finish(box))
            return box
        edit = QLineEdit(parent)
        edit.setMaxLength(LONGEST_TYPED)
        edit.setAccessibleName(column.heading)
        edit.setFrame(False)
        if column.suggests:
            from designer.window.parts.offers import attach_suggestions

            attach_suggestions(edit, column.suggests)
        edit.textEdited.connect(lambda text: self._typed(edit, place, text))
        self._edit = edit
        return edit

    def destroyEditor(self, editor: QWidget, index: Index) -> None:
        if editor is self._box:
            self._box = None
        if editor is self._edit:
            self._edit = None
        super().destroyEditor(editor, index)

    def opened(self, editor: QWidget, index: Index) -> None:
        """Say what is wrong with a text that was left in a cell and is taken up again."""
        found = self.not_taken.at(index) if self.not_taken else None
        if found is not None and isinstance(editor, QLineEdit) and not editor.property("touched"):
            _mark(editor, refused=True)
            self._tell(editor, found.why)

    def finish(self, box: ChoiceEditor, hint: _Hint = _Hint.NoHint) -> None:
        """Take the word that a choice shows, and close its editor."""
        if box is self._box:
            self._box = None
            box.hidePopup()
            box.setFocus(Qt.FocusReason.OtherFocusReason)  # and so back to the table
            self.commitData.emit(box)
            self.closeEditor.emit(box, hint)

    def leave_soon(self) -> None:
        """Close the editor whose list was closed, unless a word is taken from it first."""
        if self._box is not None:
            self._soon.start()

    def _leave(self) -> None:
        box, self._box = self._box, None
        if box is not None:
            box.setFocus(Qt.FocusReason.OtherFocusReason)
            self.closeEditor.emit(box)

    def _typed(self, edit: QLineEdit, place: QPersistentModelIndex, text: str) -> None:
        edit.setProperty("touched", True)
        edit.setProperty("returned", False)
        bring_into_view(edit)
        text = taken_out(edit, text)
        if not place.isValid():
            return
        edit.setProperty("stood", None)
        refused = not self.try_text(place, text)
        edit.setProperty("stood", self._model.text_to_edit(place))
        _mark(edit, refused=refused)
        if bool(edit.property("told")):
            self._tell(edit, self._model.fault_of(place, text) if refused else "")

    def _tell(self, edit: QLineEdit, why: str) -> None:
        """Say beside an editor why its text is not taken; nothing for one that now is."""
        from designer.window.parts.beside_field import note_of, say_beside

        edit.setProperty("told", True)
        if why:
            ways = self._ways(self._place, edit.text())
            say_beside(edit, why, refused=True, ways=ways, owner=self)
        elif (note := note_of(edit)) is not None:
            note.withdraw(self)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, QComboBox):
            editor.setCurrentText(str(index.data(Role.EditRole) or ""))
        elif isinstance(editor, QLineEdit):
            stood = editor.property("stood")
            if stood is not None and self._model.text_to_edit(index) not in (stood, editor.text()):
                # Undone by a button, say: what is typed here is not wanted any more.
                editor.setProperty("touched", False)
                editor.setProperty("stood", None)
                _mark(editor, refused=False)
            text = str(index.data(Role.EditRole) or "")
            if not editor.property("touched") and text != editor.text():
                show_anew(editor, text)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            self.take(index, editor.currentText())
            return
        edit = cast(QLineEdit, editor)
        if not edit.property("touched"):
            return
        text, why = edit.text(), self._model.fault_of(index, edit.text())
        if not why:
            self.not_taken.drop(index)
            self._tell_left(editor, "", index)
            other, amount = self._model.otherwise(index, text), self.amount_of(index)
            self.take(index, text)
            if amount is not None and other is None:
                other = self._model.otherwise(amount, self._model.text_to_edit(amount))
            if other is not None:
                self._ask(editor, QPersistentModelIndex(amount or index), other)
            return
        self.give_up()
        why = f"{why.rstrip('. ')}. {self._way_back(index)}"
        self.not_taken.note(index, text, why, self._model.text_to_edit(index))
        self._tell_left(editor, why, index)

    def _ask(self, editor: QWidget, place: QPersistentModelIndex, other: Other) -> None:
        """Ask beside a cell that is left whether a figure was meant otherwise."""
        from designer.window.parts.second_reading import ask

        table = editor.parentWidget()
        if table is None:
            return
        ask(
            table,
            other,
            lambda: self._put(place, other.text),
            self._keep_it,
            rect=editor.geometry(),
            owner=self,
        )
        self._asked = (place, self._model.text_to_edit(place))
        model = place.model()
        for changed in (model.dataChanged, model.rowsRemoved, model.modelReset):
            changed.connect(self._withdraw_answered, Qt.ConnectionType.UniqueConnection)

    def _keep_it(self) -> None:
        self._asked = None

    def _withdraw_answered(self) -> None:
        """Take a question away that is about a value no longer there."""
        from designer.window.parts.beside_field import note_of

        if self._asked is None:
            return
        place, stood = self._asked
        if not place.isValid() or self._model.text_to_edit(place) != stood:
            self._asked = None
            table = self.parent()
            note = note_of(table) if isinstance(table, QWidget) else None
            if note is not None:
                note.withdraw(self)

    def _ways(self, index: Index, text: str) -> Ways:
        """Return the buttons of a refusal: the other reading of the text, if it has one."""
        from designer.window.parts.second_reading import ways_of

        other, place = self._model.otherwise(index, text), QPersistentModelIndex(index)
        return ways_of(other, lambda: self._put(place, other.text if other is not None else ""))

    def _put(self, place: QPersistentModelIndex, text: str) -> None:
        """Put a text into a cell in place of what was typed: one step."""
        self._asked = None
        if not place.isValid():
            return
        table = self.parent()
        cell = place.model().index(place.row(), place.column())
        editor = table.indexWidget(cell) if isinstance(table, QTableView) else None
        if isinstance(editor, QLineEdit):
            editor.setText(text)
            editor.textEdited.emit(text)
            self._return(editor)
            return
        self.not_taken.drop(place)
        self.begin()
        self.take(place, text)

    def retry(self) -> None:
        """Take what was typed if it can be taken now: rarer units have become known."""
        edit, place = self._edit, self._place
        if edit is not None and edit.property("touched"):
            wants_to_leave = bool(edit.property("returned"))
            self._typed(edit, place, edit.text())
            if wants_to_leave:
                self._return(edit)
                edit = self._edit
        for each in self.not_taken.texts():
            is_open = edit is not None and each.cell == place
            if not is_open and not self._model.fault_of(each.cell, each.text):
                self.not_taken.drop(each.cell)
                self._withdraw_note()
                self.take_late(each.cell, each.text)

    def _withdraw_note(self) -> None:
        from designer.window.parts.beside_field import note_of

        table = self.parent()
        if isinstance(table, QWidget) and (note := note_of(table)) is not None:
            note.withdraw(self)

    def _way_back(self, index: Index) -> str:
        stood = self._model.text_to_edit(index)
        return f"Escape brings {stood} back." if stood else "Escape empties the cell."

    def _tell_left(self, editor: QWidget, why: str, index: Index) -> None:
        """Say for a while beside a cell that is left why its text was not taken."""
        from designer.window.parts.beside_field import note_of, say_beside

        table = editor.parentWidget()
        if why and table is not None:
            text = editor.text() if isinstance(editor, QLineEdit) else ""
            ways, rect = self._ways(index, text), editor.geometry()
            note = say_beside(table, why, rect=rect, refused=True, ways=ways, owner=self)
            note.linger()
        elif (old := note_of(editor)) is not None:
            old.withdraw(self)

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        rect = option.rect
        if isinstance(editor, QLineEdit):
            needed = editor.fontMetrics().horizontalAdvance(editor.text()) + 40
            rect.setWidth(max(rect.width(), min(needed, 320)))
        editor.setGeometry(rect)

    # keys of an editor

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        if isinstance(editor, QLineEdit):
            if event.type() == QEvent.Type.KeyPress and self._key(editor, cast(QKeyEvent, event)):
                return True
            if event.type() == QEvent.Type.Wheel:
                return self._turned(editor, cast(QWheelEvent, event))
        return bool(super().eventFilter(editor, event))

    def _key(self, editor: QLineEdit, event: QKeyEvent) -> bool:
        key = event.key()
        if key in (_Key.Key_Return, _Key.Key_Enter):
            return self._return(editor)
        if key == _Key.Key_Escape:
            self._take_back(editor)
            return False
        if key in (_Key.Key_Up, _Key.Key_Down) and editor.completer() is None:
            coarse = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            steps = (1.0 if key == _Key.Key_Up else -1.0) * (COARSE_STEPS if coarse else 1.0)
            return _step(editor, steps)
        return False

    def _return(self, editor: QLineEdit) -> bool:
        """Keep the text and close; at once, so that the next key is for the table.

        A text that cannot be taken stays in the open editor, to be mended.
        """
        index, why = self._place, ""
        if editor.property("touched") or editor.property("refused"):
            why = self._model.fault_of(index, editor.text())
        if why:
            _mark(editor, refused=True)
            self._tell(editor, f"{why.rstrip('. ')}. {self._way_back(index)}")
            editor.selectAll()
            editor.setProperty("returned", True)
            return True
        self.commitData.emit(editor)
        self.closeEditor.emit(editor)
        return True

    def _take_back(self, editor: QLineEdit) -> None:
        from designer.window.parts.beside_field import note_of

        self.give_up()
        self.not_taken.drop(self._place)
        if (note := note_of(editor)) is not None:
            note.withdraw(self)

    def _turned(self, editor: QLineEdit, event: QWheelEvent) -> bool:
        return _step(editor, event.angleDelta().y() / 120.0)


def show_anew(edit: QLineEdit, text: str) -> None:
    """Show another text; what is chosen to be typed over stays so."""
    is_chosen = edit.hasSelectedText() and edit.selectedText() == edit.text()
    edit.setText(text)
    if is_chosen:
        edit.selectAll()


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
