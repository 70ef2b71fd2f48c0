"""Whose work the program is made of: a list of all parts, and the licence of the chosen one."""

from __future__ import annotations

from PySide6.QtCore import Qt, qVersion
from PySide6.QtWidgets import (
    QHeaderView,
    QPlainTextEdit,
    QSplitter,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from designer.translation import message, tr, tr_of
from designer.window.about.words import words
from designer.workbench.licences import LicencedPart, parts

OF_ALL = message(
    "Choose a part to read its licence. That of Qt tells how to put another Qt in its place."
)
NOT_HERE = message("The text of this licence is missing here. It belongs at {place}.")
IN_WORDS = frozenset(
    (
        message("Parts of others in Qt"),
        message("ICU (in Qt)"),
        message("PyInstaller (start of the bundle)"),
        message("various"),
    )
)
"""What is no name of its own among those of parts and licences."""
NAME, VERSION, LICENCE = range(3)


class LicencesTab(QWidget):
    """The list, Hobwort itself first, and the text below it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = _list()
        self.text = QPlainTextEdit()
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._parts = parts()
        self.list.addTopLevelItems([_row(each) for each in self._parts])
        self.list.currentItemChanged.connect(lambda *_: self._show())
        both = QSplitter(Qt.Orientation.Vertical)
        both.addWidget(self.list)
        both.addWidget(self.text)
        both.setChildrenCollapsible(False)
        both.setSizes([1, 2])
        both.setStretchFactor(0, 1)
        both.setStretchFactor(1, 2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 12, 12, 12)
        layout.setSpacing(10)
        layout.addWidget(words(tr(OF_ALL)))
        layout.addWidget(both, 1)
        self.list.setCurrentIndex(self.list.model().index(0, NAME))

    def _show(self) -> None:
        """Show the licence of the chosen part, from its beginning."""
        part = self._parts[self.list.currentIndex().row()]
        try:
            text = part.text_path.read_text(encoding="utf-8")
        except OSError:
            text = tr(NOT_HERE, place=part.text_path)
        self.text.setPlainText(text)
        self.text.setAccessibleName(tr("Licence of {part}", part=_said(part.name)))


def _said(name: str) -> str:
    return tr(name) if name in IN_WORDS else name


def _list() -> QTreeWidget:
    made = QTreeWidget()
    made.setAccessibleName(tr("Parts of Hobwort and their licences"))
    made.setHeaderLabels([tr("Part"), tr_of("program", "Version"), tr("Licence")])
    made.setRootIsDecorated(False)
    made.setUniformRowHeights(True)
    made.setTabKeyNavigation(False)
    header = made.header()
    header.setStretchLastSection(True)
    header.setSectionsMovable(False)
    for column in (NAME, VERSION):
        header.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
    return made


def _row(part: LicencedPart) -> QTreeWidgetItem:
    version = part.version or (qVersion() if part.text_path.name == "qt.txt" else "")
    licence = _said(part.licence)
    row = QTreeWidgetItem([_said(part.name), version, licence])
    row.setToolTip(LICENCE, licence)
    if not version:
        row.setData(VERSION, Qt.ItemDataRole.AccessibleTextRole, tr("no version"))
    return row
