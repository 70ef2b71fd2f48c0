"""From the phone: its log is pasted or read from a file, and taken into a brew.

What was pasted is read at once; the window says what is in it, or what is wrong and what would do.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from designer.errors import DesignerError
from designer.library.recipe_file import text_of
from designer.sheet.pocket.recipe_id import recipe_id
from designer.translation import message, tr, trn
from designer.window.parts.questions import Questions
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.entries import What
from designer.workbench.brew.pocket_entries import pocket_entries, pocket_uid
from designer.workbench.brew.pocket_text import PocketLog, read_pocket
from designer.workbench.brew.what_counts import what_counts

WIDTH, HEIGHT = 560, 460
SAME_DAY_S = 18 * 3600.0
HOW = message(
    "On the phone, under Back to the computer, copy the text or save the file and send it to "
    "yourself. Paste all of the text here; what stands around it does no harm."
)


class FromPhone(QDialog):
    """Asks for the text of a phone. `taken` carries the log, and whether it joins the brew here."""

    taken = Signal(object, bool)

    def __init__(self, brew: OpenBrew, questions: Questions, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("From the phone"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._brew, self._questions = brew, questions
        self.log: PocketLog | None = None
        self.text = QPlainTextEdit()
        self.text.setPlaceholderText(tr("Paste the text of the phone here"))
        self.text.setAccessibleName(tr("The text of the phone"))
        self.text.setTabChangesFocus(True)
        self.text.textChanged.connect(self._read)
        self.told = _words("")
        self.joins = QRadioButton()
        self.own = QRadioButton(tr("As a brew of its own"))
        self.own.setChecked(True)
        self.take_button = QPushButton(tr("Take it in"))
        self.take_button.setDefault(True)
        self.take_button.clicked.connect(self._take)
        self._lay_out()
        self._read()
        self.resize(WIDTH, HEIGHT)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(10)
        layout.addWidget(_words(tr(HOW)))
        layout.addWidget(self.text, 1)
        layout.addWidget(self.told)
        layout.addWidget(self.joins)
        layout.addWidget(self.own)
        row = QHBoxLayout()
        self.file_button = QPushButton(tr("Open a file…"))
        self.file_button.clicked.connect(self._open_file)
        cancel = QPushButton(tr("Cancel"))
        cancel.clicked.connect(self.reject)
        for button in (self.file_button, cancel):
            button.setAutoDefault(False)
        row.addWidget(self.file_button)
        row.addStretch(1)
        row.addWidget(cancel)
        row.addWidget(self.take_button)
        layout.addLayout(row)

    def _open_file(self) -> None:
        path = self._questions.which_pocket_log(self, str(Path.home()))
        if path is None:
            return
        try:
            self.text.setPlainText(text_of(path))
        except DesignerError as fault:
            self.told.setText(str(fault))

    def _read(self) -> None:
        """Say what was pasted, or why it is no log."""
        self.log, said = None, ""
        if self.text.toPlainText().strip():
            try:
                self.log = read_pocket(self.text.toPlainText())
                said = in_words(self.log)
            except DesignerError as fault:
                said = str(fault)
        self.told.setText(said)
        self.take_button.setEnabled(self.log is not None)
        self._offer_brew()

    def _offer_brew(self) -> None:
        """Let it join the brew that is open, where it is one of the same recipe."""
        head, log, brewing = self._brew.brew, self.log, self._brew.brewing
        is_own = head is None or brewing is None or log is None or head.uid == pocket_uid(log)
        self.joins.setVisible(not is_own)
        self.own.setVisible(not is_own)
        if head is None or brewing is None or log is None or is_own:
            self.own.setChecked(True)
            return
        alike = recipe_id(brewing.recipe) == log.recipe_id
        self.joins.setText(
            tr("Into the brew of “{name}” that is open", name=head.name)
            if alike
            else tr("Into the brew of “{name}” that is open: another recipe", name=head.name)
        )
        began = brewing.began
        near = began is not None and abs(began.wall - log.began) < SAME_DAY_S
        (self.joins if alike and near else self.own).setChecked(True)

    def _take(self) -> None:
        log = self.log
        if log is not None:
            joins = self.joins.isChecked() and not self.joins.isHidden()
            self.accept()
            self.taken.emit(log, joins)


def in_words(log: PocketLog) -> str:
    """Return what a log holds: of which recipe, when it was begun, how many steps and readings."""
    live = what_counts(pocket_entries(log)).live
    steps = sum(each.what is What.DONE for each in live)
    readings = sum(each.what is What.READING for each in live)
    return tr(
        "{name}, begun {when}: {steps}, {readings}.",
        name=log.recipe.name,
        when=f"{datetime.fromtimestamp(log.began):%Y-%m-%d %H:%M}",
        steps=trn("{number} step done", "{number} steps done", steps),
        readings=trn("{number} reading", "{number} readings", readings),
    )


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label
