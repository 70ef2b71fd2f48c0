"""What can be done about a reading: each cure with its amounts, what the beer is then, its button.

One that cannot be done yet stays to be seen, off, with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QGridLayout, QVBoxLayout

from designer.brewday.explaining.explained import Cure
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.reading.answer_words import after_cure, in_words
from designer.window.brew.reading.wrapped import wrapped
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import caption


class CureRow(QFrame):
    """One cure."""

    taken = Signal(object)

    def __init__(self, cure: Cure, display: DisplayFormat) -> None:
        super().__init__()
        self.cure = cure
        self.setObjectName("cureRow")
        self.title = wrapped(in_words(cure.title, display), times=1.08, bold=True)
        self.words = wrapped(in_words(cure.words, display), "soft")
        self.after = wrapped(after_cure(cure, display), "")
        self.off = wrapped("" if cure.off is None else in_words(cure.off, display), "differs")
        self.button = LargeButton(
            caption(in_words(cure.offer, display)), "", partial(self.taken.emit, cure)
        )
        self.button.setEnabled(cure.off is None)
        if cure.off is not None:
            self.button.setToolTip(in_words(cure.off, display))
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 6, 0, 6)
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(2)
        for row, each in enumerate((self.title, self.words, self.after, self.off)):
            grid.addWidget(each, row, 0)
            each.setVisible(bool(each.text()))
        grid.addWidget(self.button, 0, 1, 4, 1, Qt.AlignmentFlag.AlignVCenter)
        grid.setColumnStretch(0, 1)
        said = (self.title, self.words, self.after, self.off)
        self.setAccessibleName(". ".join(each.text() for each in said if each.text()))


class CuresCard(QFrame):
    """The cures; `taken` carries the one that is pressed."""

    taken = Signal(object)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display, self._is_told_only = display, False
        self._shown: tuple[Cure, ...] = ()
        self.rows: list[CureRow] = []
        self._list = QVBoxLayout()
        self._list.setSpacing(0)
        self.foot = wrapped(tr("Each is one step, kept in the log; Undo takes it back."), "soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 12, 16, 12)
        layout.setSpacing(4)
        layout.addWidget(heading(tr("What can be done")))
        layout.addLayout(self._list)
        layout.addWidget(self.foot)
        layout.addStretch(1)

    def show_cures(self, cures: Sequence[Cure]) -> None:
        """Show these cures."""
        if tuple(cures) == self._shown:
            return
        self._shown = tuple(cures)
        for each in self.rows:
            self._list.removeWidget(each)
            each.hide()
            each.deleteLater()
        self.rows = [self._row(each) for each in cures]

    def offer_cures(self, offered: bool) -> None:
        """Show the buttons, or none where nothing can be kept."""
        self._is_told_only = not offered
        self.foot.setVisible(offered)
        for each in self.rows:
            each.button.setVisible(offered)

    def _row(self, cure: Cure) -> CureRow:
        row = CureRow(cure, self._display)
        row.button.setVisible(not self._is_told_only)
        row.taken.connect(self.taken)
        self._list.addWidget(row)
        return row
