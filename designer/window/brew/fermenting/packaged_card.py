"""What was bottled or kegged, what comes next, and how it tastes."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QLineEdit, QVBoxLayout

from designer.translation import tr
from designer.window.brew.fermenting.form_rows import choice_of
from designer.window.brew.fermenting.standing_panel import words_in
from designer.window.brew.large_button import LargeButton
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.workbench.brew.brew_told import MARKS

LONGEST_NOTE = 4000


class PackagedCard(QFrame):
    """`tasted` carries a mark, 0 for none, and what there is to say."""

    tasted = Signal(int, str)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("card")
        self.title = words_in(1.6, bold=True)
        self.words, self.dates, self.tastings = words_in(), words_in(), words_in()
        self.mark = choice_of(
            [(tr("no mark"), 0)]
            + [(tr("{mark}: {word}", mark=n, word=tr(w)), n) for n, w in MARKS.items()],
            self._enable,
        )
        self.mark.setAccessibleName(tr("Mark of the beer"))
        self.mark.setMinimumHeight(44)
        self.note = QLineEdit()
        self.note.setMaxLength(LONGEST_NOTE)
        self.note.setMinimumHeight(44)
        self.note.setAccessibleName(tr("How it tastes"))
        self.note.setPlaceholderText(tr("How it looks, smells and tastes"))
        self.note.textChanged.connect(self._enable)
        self.note.returnPressed.connect(self._keep)
        self.keep_button = LargeButton(
            tr("Keep the notes"), tr("Add them to the brew's log"), self._keep
        )
        row = FlowLayout(across=8, down=6)
        row.addWidget(self.mark)
        row.addWidget(self.keep_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(16, 12, 16, 12)
        layout.setSpacing(8)
        for each in (self.title, self.words, self.dates, heading(tr("Tasting notes"))):
            layout.addWidget(each)
        layout.addWidget(self.tastings)
        layout.addWidget(self.note)
        layout.addLayout(row)
        layout.addStretch(1)
        self._enable()

    def show_packaged(
        self, title: str, words: list[str], dates: list[str], tastings: list[str]
    ) -> None:
        """Show what was done, and what comes when."""
        self.title.setText(title)
        for label, lines in (
            (self.words, words), (self.dates, dates), (self.tastings, tastings)
        ):  # fmt: skip
            label.setText("\n".join(lines))
            label.setVisible(bool(lines))

    def _says(self) -> bool:
        return bool(self.note.text().strip()) or int(self.mark.currentData() or 0) > 0

    def _enable(self, _text: str = "") -> None:
        self.keep_button.setEnabled(self._says())

    def _keep(self) -> None:
        if self._says():
            mark, text = int(self.mark.currentData() or 0), self.note.text().strip()
            self.note.clear()
            self.mark.setCurrentIndex(0)
            self._enable()
            self.tasted.emit(mark, text)
