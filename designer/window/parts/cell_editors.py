"""Editing in a cell: Return keeps what is typed, Escape takes it back, and nothing is lost.

What cannot be taken is marked while it is typed. On Return the editor then stays open with the
text and says why beside it; where the cell is left otherwise, the text stays in it, marked, and the
old value counts.
"""

from __future__ import annotations

from functools import partial
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
from designer.translation import tr
from designer.window.parts.being_typed import (
    EMPTIES_CELL,
    mark,
    show_anew,
    step,
    steps_of,
    with_way_back,
)
from designer.window.parts.control_characters import taken_out
from designer.window.parts.notes import Notes, ways_of
from designer.window.parts.scrolling import bring_into_view
from designer.window.parts.table_model import Index, Role
from designer.window.parts.typed_table import TypedTable
from designer.window.parts.unit_words import unit_words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QStyleOptionViewItem

    from designer.window.parts.beside_field import Ways
    from designer.window.parts.choice_editor import ChoiceEditor
    from designer.window.parts.doubtful_number import Other

_Key = Qt.Key
_Hint = QAbstractItemDelegate.EndEditHint


class CellEditors(QStyledItemDelegate):
    """Editors of a `TypedTable`; a table that follows each key says more in a subclass."""

    def __init__(self, model: TypedTable, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._model, self.not_taken = model, model.not_taken
        self._notes = Notes(self)
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
            # The first picture has no open editor.
            from designer.window.parts.choice_editor import ChoiceEditor

            box = self._box = ChoiceEditor(parent, self.leave_soon, self.finish)
            for each in words:
                box.addItem(tr(each), each)
            box.setAccessibleName(tr(column.heading))
            box.activated.connect(lambda _: self.finish(box))
            return box
        edit = QLineEdit(parent)
        edit.setMaxLength(LONGEST_TYPED)
        edit.setAccessibleName(tr(column.heading))
        edit.setFrame(False)
        if column.facts is not None:  # a tablet shows its figures first
            edit.setInputMethodHints(Qt.InputMethodHint.ImhPreferNumbers)
        if column.suggests:
            # Nor is anything offered in it.
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
            mark(editor, refused=True, why=found.why)
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
        why = self._model.fault_of(place, text) if refused else ""
        mark(edit, refused=refused, why=why)
        if bool(edit.property("told")):
            self._tell(edit, why)

    def _tell(self, edit: QLineEdit, why: str) -> None:
        """Say beside an editor why its text is not taken; nothing for one that now is."""
        edit.setProperty("told", True)
        if why:
            self._notes.say(edit, why, refused=True, ways=self._ways(self._place, edit.text()))
        else:
            self._notes.withdraw(edit)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, QComboBox):
            row = editor.findData(str(index.data(Role.EditRole) or ""))
            editor.setCurrentIndex(row if row >= 0 else editor.currentIndex())
        elif isinstance(editor, QLineEdit):
            stood = editor.property("stood")
            if stood is not None and self._model.text_to_edit(index) not in (stood, editor.text()):
                # Undone by a button, say: what is typed here is not wanted any more.
                editor.setProperty("touched", False)
                editor.setProperty("stood", None)
                mark(editor, refused=False)
            text = str(index.data(Role.EditRole) or "")
            if not editor.property("touched") and text != editor.text():
                show_anew(editor, text)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            self.take(index, str(editor.currentData()))
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
        why = with_way_back(why, self._model.text_to_edit(index), EMPTIES_CELL)
        self.not_taken.note(index, text, why, self._model.text_to_edit(index))
        self._tell_left(editor, why, index)

    def _ask(self, editor: QWidget, place: QPersistentModelIndex, other: Other) -> None:
        """Ask beside a cell that is left whether a figure was meant otherwise."""
        table = editor.parentWidget()
        if table is None:
            return
        take = partial(self._put, place, other.text)
        self._notes.ask(table, other, take, self._keep_it, rect=editor.geometry())
        self._asked = (place, self._model.text_to_edit(place))
        model = place.model()
        for changed in (model.dataChanged, model.rowsRemoved, model.modelReset):
            changed.connect(self._withdraw_answered, Qt.ConnectionType.UniqueConnection)

    def _keep_it(self) -> None:
        self._asked = None

    def _withdraw_answered(self) -> None:
        """Take a question away that is about a value no longer there."""
        if self._asked is None:
            return
        place, stood = self._asked
        if not place.isValid() or self._model.text_to_edit(place) != stood:
            self._asked = None
            self._notes.withdraw(self._table())

    def _ways(self, index: Index, text: str) -> Ways:
        """Return the buttons of a refusal: the other reading of the text, if it has one."""
        place = QPersistentModelIndex(index)
        return ways_of(self._model.otherwise(index, text), partial(self._put, place))

    def _put(self, place: QPersistentModelIndex, text: str) -> None:
        """Put a text into a cell in place of what was typed: one step."""
        self._asked = None
        if not place.isValid():
            return
        table = self._table()
        cell = place.model().index(place.row(), place.column())
        editor = table.indexWidget(cell) if table is not None else None
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
                self._notes.withdraw(self._table())
                self.take_late(each.cell, each.text)

    def _table(self) -> QTableView | None:
        table = self.parent()
        return table if isinstance(table, QTableView) else None

    def _tell_left(self, editor: QWidget, why: str, index: Index) -> None:
        """Say for a while beside a cell that is left why its text was not taken."""
        table = editor.parentWidget()
        if why and table is not None:
            text = editor.text() if isinstance(editor, QLineEdit) else ""
            ways, rect = self._ways(index, text), editor.geometry()
            self._notes.say(table, why, rect=rect, refused=True, ways=ways, lingers=True)
        else:
            self._notes.withdraw(editor)

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
                return step(editor, cast(QWheelEvent, event).angleDelta().y() / 120.0)
        return bool(super().eventFilter(editor, event))

    def _key(self, editor: QLineEdit, event: QKeyEvent) -> bool:
        key = event.key()
        if key in (_Key.Key_Return, _Key.Key_Enter):
            return self._return(editor)
        if key == _Key.Key_Escape:
            self._take_back(editor)
            return False
        steps = steps_of(editor, event)
        return bool(steps) and step(editor, steps)

    def _return(self, editor: QLineEdit) -> bool:
        """Keep the text and close; at once, so that the next key is for the table.

        A text that cannot be taken stays in the open editor, to be mended.
        """
        index, why = self._place, ""
        if editor.property("touched") or editor.property("refused"):
            why = self._model.fault_of(index, editor.text())
        if why:
            editor.setProperty("stood", None)
            self.give_up()  # a unit half typed is so no longer: nothing of it counts
            editor.setProperty("stood", self._model.text_to_edit(index))
            mark(editor, refused=True, why=why)
            self._tell(editor, with_way_back(why, self._model.text_to_edit(index), EMPTIES_CELL))
            editor.selectAll()
            editor.setProperty("returned", True)
            return True
        self.commitData.emit(editor)
        self.closeEditor.emit(editor)
        return True

    def _take_back(self, editor: QLineEdit) -> None:
        self.give_up()
        self.not_taken.drop(self._place)
        self._notes.withdraw(editor)
