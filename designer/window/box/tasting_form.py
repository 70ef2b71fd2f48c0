"""Tasting notes: a mark from 1 to 5, each with its word, and what there is to say."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr, tr_of
from designer.window.box.time_line_model import mark_text, tasting_day
from designer.window.parts.buttons import button
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.workbench.brew.brew_told import MARKS, BrewTold

LONGEST_NOTE = 4000
NOTE_HEIGHT = 64
_DIGITS = tuple(map(str, MARKS))
_KEY = Qt.Key
_ARROWS = {_KEY.Key_Right: 1, _KEY.Key_Down: 1, _KEY.Key_Left: -1, _KEY.Key_Up: -1}


class MarkButton(QRadioButton):
    """A mark with its word; arrows are for the form, for Qt would stay within a row of buttons."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _ARROWS:
            event.ignore()
        else:
            super().keyPressEvent(event)


class TastingForm(QFrame):
    """Five marks with their words, and room for what there is to say."""

    kept = Signal(int, str)
    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.told = QLabel()
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.told.setWordWrap(True)
        self.told.setObjectName("soft")
        self.marks = QButtonGroup(self)
        marks = QWidget()
        row = FlowLayout(marks, across=10)
        for number in MARKS:
            each = MarkButton(mark_text(number))
            each.setAccessibleName(tr_of("tasting", "Mark {mark}", mark=mark_text(number)))
            self.marks.addButton(each, number)
            row.addWidget(each)
        self.note = QPlainTextEdit()
        self.note.setAccessibleName(tr("How it tastes"))
        self.note.setPlaceholderText(tr("How it looks, smells and tastes"))
        self.note.setTabChangesFocus(True)
        self.note.setFixedHeight(NOTE_HEIGHT)
        self.keep_button = button(tr("Keep the notes"), tr("Add them to the brew's log"), self.keep)
        self.keep_button.setObjectName("primary")
        self.leave_button = button(tr("Cancel"), tr("Keep no tasting notes"), self.left.emit)
        buttons = QHBoxLayout()
        buttons.addWidget(self.keep_button)
        buttons.addWidget(self.leave_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(heading(tr("Tasting notes")))
        layout.addWidget(self.told)
        layout.addWidget(marks)
        layout.addWidget(self.note)
        layout.addLayout(buttons)
        for keys, act in (
            (QKeySequence("Ctrl+Return"), self.keep),
            (QKeySequence(Qt.Key.Key_Escape), self.left.emit),
        ):
            shortcut = QShortcut(keys, self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(act)
        self.marks.idToggled.connect(lambda *_: self._enable())
        self.note.textChanged.connect(self._enable)

    def begin(self, told: BrewTold) -> None:
        """Ask how a brew is; what was said of it before stands above."""
        lines = []
        for each in told.tastings[-3:]:
            said = ". ".join(
                filter(None, (mark_text(each.mark) if each.mark else "", each.text[:200]))
            )
            lines.append(tr("{day}: {said}", day=tasting_day(each.at.wall), said=said))
        self.told.setText("\n".join(lines))
        self.told.setVisible(bool(lines))
        self.marks.setExclusive(False)
        for mark in self.marks.buttons():
            mark.setChecked(False)
        self.marks.setExclusive(True)
        self.note.clear()
        self._enable()
        self.marks.button(1).setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A digit is the mark; arrows go to the one beside."""
        number = max(self.marks.checkedId(), 0)
        if event.text() in _DIGITS:
            number = int(event.text())
        else:
            number += _ARROWS.get(Qt.Key(event.key()), -number)
        if number not in MARKS:
            super().keyPressEvent(event)
        else:
            mark = self.marks.button(number)
            mark.setFocus(Qt.FocusReason.OtherFocusReason)
            mark.setChecked(True)

    def _enable(self) -> None:
        says = bool(self.note.toPlainText().strip()) or self.marks.checkedId() > 0
        self.keep_button.setEnabled(says)

    def keep(self) -> None:
        """Hand over what was said, if anything was."""
        if self.keep_button.isEnabled():
            mark = max(self.marks.checkedId(), 0)
            self.kept.emit(mark, self.note.toPlainText().strip()[:LONGEST_NOTE])
