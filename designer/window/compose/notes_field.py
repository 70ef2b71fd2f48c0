"""The notes of the recipe: some lines of text, live while they are typed."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent, QSignalBlocker
from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QPlainTextEdit, QWidget

from designer.errors import RefusedInputError
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from designer.translation import tr
from designer.window.parts.plain_text import tip
from designer.window.session.worked_on import EditedRecipe

LINES = 4


class NotesField(QPlainTextEdit):
    """Follows the recipe's notes; what cannot be taken stays here, marked, until it is mended."""

    def __init__(self, opened: EditedRecipe, label: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened, self._label = opened, label
        self._merge_key, self._putting = "", False
        self._opening = opened.opening
        self.setAccessibleName(label)
        self.setTabChangesFocus(True)
        self.setUndoRedoEnabled(False)  # the recipe's undo knows of other steps too
        self.setFixedHeight(LINES * self.fontMetrics().lineSpacing() + 16)
        self.textChanged.connect(self._put)
        opened.recipe_changed.connect(self.refresh)
        self.refresh()

    @property
    def _is_refused(self) -> bool:
        return bool(self.property("refused"))

    def refresh(self) -> None:
        """Show the recipe's notes, unless what is typed here is not taken."""
        notes = self._opened.recipe.notes
        if self._is_refused and self._opening == self._opened.opening:
            return
        self._opening = self._opened.opening
        self._mark("")
        if not self._putting and notes != self.toPlainText():
            with QSignalBlocker(self):
                self.setPlainText(notes)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._merge_key = self._opened.start_typing()

    def event(self, event: QEvent) -> bool:
        """Leave Undo and Redo to the recipe."""
        if event.type() == QEvent.Type.ShortcutOverride:
            pressed = cast(QKeyEvent, event)
            both = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
            if any(pressed.matches(each) for each in both):
                self._mark("")
                event.ignore()
                return True
        return super().event(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.field_menu import open_meaning_menu  # no start opens a menu

        open_meaning_menu(self, event)

    def _put(self) -> None:
        edit = ChangeRecipe(
            "notes", self.toPlainText(), say("change-notes", "change the notes"), self._merge_key
        )
        self._putting = True
        try:
            self._opened.make_or_refuse(edit)
        except RefusedInputError as fault:
            self._mark(str(fault))
        else:
            self._mark("")
        finally:
            self._putting = False

    def _mark(self, fault: str) -> None:
        if bool(fault) == self._is_refused:
            return
        self.setProperty("refused", bool(fault))
        self.style().unpolish(self)
        self.style().polish(self)
        said = tr("Not taken: {fault}", fault=fault) if fault else ""
        self.setToolTip(tip(said) if said else "")
        self._opened.set_untaken(self, (self._label,) if fault else ())
