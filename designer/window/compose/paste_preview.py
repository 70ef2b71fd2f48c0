"""Before pasted text becomes lines: what each column is, and what each row would become.

Asked only where something is not certain. Nothing is added before the button is pressed, nothing
at all with Esc; Return presses a button only where it has the keyboard.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from PySide6.QtCore import QEvent, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.errors import RefusedInputError
from designer.library.pasted import Parting, PastedTable
from designer.recipe.document import Recipe
from designer.translation import message, parted, tr, trn
from designer.window.compose.pasted_rows import ADD, LIST_NAMES, PastedRows
from designer.window.compose.pasted_view import PastedView
from designer.window.compose.use_header import StillChoice
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for

MOST_DOUBTS = 6
USUAL = (1200, 600)
NOT_CERTAIN = message(
    "Not all of this text is certain. Say above each column what it is; only what is ticked will "
    "be added."
)
IN_DOUBT = message(
    "Not all of this text is certain. Say above each column what it is; only what is ticked will "
    "be added. In doubt: {doubts}."
)
SIGNS = (message("point: 1.5 kg"), message("comma: 1,5 kg"))


class PastePreview(QDialog):
    """The question. `chosen` carries the edit that adds what is ticked."""

    chosen = Signal(object)

    def __init__(
        self,
        table: PastedTable,
        recipe: Recipe,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Paste lines") if table.asked_for else tr("Import lines"))
        self.rows = PastedRows(table, recipe, display, self)
        self.rows.inks = inks_for(self.palette())
        self.view = PastedView(self.rows)
        self.doubts, self.chosen_row, self.count = _words(), _words(), _words()
        self.chosen_row.setObjectName("soft")
        self.chosen_row.setMinimumHeight(2 * self.fontMetrics().lineSpacing() + 4)
        self.parting = _choice(tr("Cells are separated by"), [tr(each) for each in Parting])
        self.sign = _choice(tr("Decimal sign"), [tr(each) for each in SIGNS])
        self.default = _choice(
            tr("Rows that say no list"), [tr(each) for each in LIST_NAMES.values()]
        )
        self.parting.activated.connect(self._part)
        self.sign.activated.connect(lambda at: self.rows.show(self.rows.table.with_comma(at == 1)))
        self.default.activated.connect(
            lambda at: self.rows.show(self.rows.table.with_default(list(LIST_NAMES)[at]))
        )
        self.add_button, self.cancel_button = QPushButton(), QPushButton(tr("Cancel"))
        for button in (self.add_button, self.cancel_button):
            button.setAutoDefault(False)
        self.add_button.clicked.connect(self._add)
        self.cancel_button.clicked.connect(self.reject)
        self._lay_out()
        self.rows.changed.connect(self._follow)
        self.view.selectionModel().currentChanged.connect(self._tell_row)
        self.rows.modelReset.connect(self._begin)
        self._follow()
        self._begin()
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        ways = QHBoxLayout()
        ways.setSpacing(8)
        for choice in (self.parting, self.sign, self.default):
            label = QLabel(choice.accessibleName())
            label.setBuddy(choice)
            ways.addWidget(label)
            ways.addWidget(choice)
            ways.addSpacing(12)
        ways.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self.count, 1)
        foot.addWidget(self.cancel_button)
        foot.addWidget(self.add_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 14, 16, 14)
        layout.setSpacing(10)
        layout.addWidget(self.doubts)
        layout.addLayout(ways)
        layout.addWidget(self.view, 1)
        layout.addWidget(self.chosen_row)
        layout.addLayout(foot)
        parent = self.parentWidget()
        room = parent.size() if parent is not None else self.maximumSize()
        self.resize(min(USUAL[0], room.width() - 40), min(USUAL[1], room.height() - 40))

    def _begin(self) -> None:
        """Go to the first row that cannot be read yet, or is in doubt; Tab goes from the top."""
        rows = self.rows.table.rows
        unread = (at for at, row in enumerate(rows) if row.line is None and row.likely)
        doubted = (at for at, row in enumerate(rows) if row.doubt)
        first = next(unread, next(doubted, 0))
        self.view.setCurrentIndex(self.rows.index(first, ADD))
        order = [self.parting, self.sign, self.default, *self.view.heading.choices, self.view]
        for before, after in pairwise([*order, self.cancel_button, self.add_button]):
            self.setTabOrder(before, after)

    def _part(self, at: int) -> None:
        try:
            self.rows.show(self.rows.table.parted(list(Parting)[at]))
        except RefusedInputError as fault:
            self._follow()
            self.chosen_row.setText(str(fault))

    def _follow(self) -> None:
        """Say anew what would be added, and what is in doubt."""
        table = self.rows.table
        with QSignalBlocker(self.parting), QSignalBlocker(self.sign), QSignalBlocker(self.default):
            self.parting.setCurrentIndex(list(Parting).index(table.parting))
            self.sign.setCurrentIndex(int(table.signs.comma))
            self.default.setCurrentIndex(list(LIST_NAMES).index(table.lines))
        doubts = parted(table.doubts[:MOST_DOUBTS])
        self.doubts.setText(tr(IN_DOUBT, doubts=doubts) if doubts else tr(NOT_CERTAIN))
        ticked = sum(self.rows.is_ticked(row) for row in range(self.rows.rowCount()))
        refusal = self.rows.refusal() if ticked else ""
        lost = sum(1 for row in table.rows if row.line is None and row.likely)
        self.count.setText(refusal or _counted(ticked, self.rows.rowCount(), lost))
        self.add_button.setText(
            trn("&Add {number} line", "&Add {number} lines", ticked) if ticked else tr("&Add lines")
        )
        self.add_button.setEnabled(bool(ticked) and not refusal)
        self._tell_row()

    def _tell_row(self) -> None:
        index = self.view.currentIndex()
        self.chosen_row.setText(
            tr("Row {number}: {said}", number=index.row() + 1, said=self.rows.said(index.row()))
            if index.isValid()
            else ""
        )

    def _add(self) -> None:
        self.chosen.emit(self.rows.edit())
        self.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            return
        focus = self.focusWidget()
        if isinstance(focus, QPushButton):
            focus.click()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange and hasattr(self, "rows"):
            self.rows.inks = inks_for(self.palette())


def _counted(ticked: int, total: int, lost: int) -> str:
    """Say how many rows will be added, and how many cannot be read."""
    said = trn(
        "{ticked} of {number} row will be added.",
        "{ticked} of {number} rows will be added.",
        total,
        ticked=ticked,
    )
    if not lost:
        return said
    unread = trn("{number} row cannot be read yet.", "{number} rows cannot be read yet.", lost)
    return f"{said} {unread}"


def _words() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def _choice(name: str, words: Sequence[str]) -> StillChoice:
    made = StillChoice()
    made.addItems(list(words))
    made.setAccessibleName(name)
    return made
