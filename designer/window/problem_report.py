"""Report a problem: what can be told to others about the last fault, and what the program did.

It is there to look at and to copy.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt, QUrl
from PySide6.QtGui import QDesktopServices, QFontDatabase, QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.translation import message, tr
from designer.window.system_words import system_words
from designer.workbench.fault_folder import newest_fault
from designer.workbench.problem_words import home_words
from designer.workbench.support_log import last_lines

ABOUT = message(
    "Hobwort sends nothing by itself. Copy this text into your message to whoever looks after the "
    "program, and say what you did last. It holds nothing of your recipes."
)
DID = message("What the program did last:")
NO_FAULT = message("No fault of the program has been recorded.")
SIZE = (720, 460)


class ProblemReport(QDialog):
    """The text, and where the whole of it lies."""

    def __init__(self, store: Path, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Report a problem"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        found = newest_fault(store)
        about = _words(tr(ABOUT))
        told = f"{system_words()}\n\n{tr(NO_FAULT)}" if found is None else found[1]
        did = last_lines(store)
        self.text = QPlainTextEdit("\n".join([told, "", tr(DID), *did] if did else [told]))
        self.text.setReadOnly(True)
        self.text.setFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont))
        self.text.setAccessibleName(tr("Report of the problem"))
        self.copy_button = QPushButton(tr("Copy"))
        self.copy_button.setDefault(True)
        self.copy_button.clicked.connect(self._copy)
        close = QPushButton(tr("Close"))
        close.clicked.connect(self.accept)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.copy_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(10)
        layout.addWidget(about)
        layout.addWidget(self.text, 1)
        if found is not None:
            self.where = _words(
                tr(
                    "The whole report is {place}; the recipe that was open is beside it. Both may "
                    "show your recipe: they are for you alone.",
                    place=home_words(found[0]),
                )
            )
            layout.addWidget(self.where)
            folder = QPushButton(tr("Show the folder"))
            url = QUrl.fromLocalFile(str(found[0].parent))
            folder.clicked.connect(lambda _checked=False: QDesktopServices.openUrl(url))
            buttons.addWidget(folder)
        buttons.addWidget(close)
        layout.addLayout(buttons)
        self.resize(*SIZE)

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.text.toPlainText())
        self.copy_button.setText(tr("Copied"))


def _words(text: str) -> QLabel:
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
