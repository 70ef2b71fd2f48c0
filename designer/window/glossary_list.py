"""The glossary: all terms, found by typing, each with its meaning."""

from __future__ import annotations

import html

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QApplication,
    QDialog,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QSplitter,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from designer.library.glossary import Term, in_words, looked_up, terms
from designer.translation import tr, trn

SIZE = (720, 480)
_STEPS = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)


class GlossaryList(QDialog):
    """A field to search in, the terms below it, and beside them what the chosen one means.

    Up and Down walk through the list from the field too, so that no hand leaves the keys.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Glossary"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.search = QLineEdit()
        self.search.setPlaceholderText(tr("Search terms and meanings"))
        self.search.setAccessibleName(tr("Search terms and meanings"))
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._look_up)
        self.search.installEventFilter(self)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Terms"))
        self.list.currentItemChanged.connect(lambda *_: self._show())
        self.meaning = QTextBrowser()
        self.meaning.setAccessibleName(tr("Meaning"))
        self.meaning.setTabChangesFocus(True)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self._lay_out()
        self._look_up("")
        self.resize(*SIZE)

    def _lay_out(self) -> None:
        both = QSplitter()
        both.addWidget(self.list)
        both.addWidget(self.meaning)
        both.setStretchFactor(1, 1)
        both.setSizes([SIZE[0] * 2 // 5, SIZE[0] * 3 // 5])
        both.setChildrenCollapsible(False)
        close = QPushButton(tr("Close"))
        close.clicked.connect(self.accept)
        close.setAutoDefault(False)
        foot = QHBoxLayout()
        foot.addWidget(self.count, 1)
        foot.addWidget(close)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(10)
        layout.addWidget(self.search)
        layout.addWidget(both, 1)
        layout.addLayout(foot)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if (
            event.type() is QEvent.Type.KeyPress
            and isinstance(event, QKeyEvent)
            and event.key() in _STEPS
        ):
            QApplication.sendEvent(self.list, event)
            return True
        return super().eventFilter(watched, event)

    def _look_up(self, text: str) -> None:
        found = looked_up(text) if text.strip() else terms()
        self.list.clear()
        for each in found:
            item = QListWidgetItem(_title(each))
            item.setData(Qt.ItemDataRole.UserRole, each)
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self.count.setText(
            trn("{number} term", "{number} terms", len(found))
            if found
            else tr("No term has such words: try one of them, or fewer letters.")
        )
        if not found:
            self.meaning.clear()

    def _show(self) -> None:
        item: QListWidgetItem | None = self.list.currentItem()
        if item is None:
            return
        term: Term = item.data(Qt.ItemDataRole.UserRole)
        said = in_words(term)
        item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, said)
        others = ", ".join(term.called[1:])
        parts = [f"<h3>{html.escape(_title(term))}</h3>"]
        if others:
            parts.append(f"<p>{html.escape(tr('Also: {names}', names=others))}</p>")
        parts.append(f"<p>{html.escape(tr(term.meaning))}</p>")
        if term.source:
            parts.append(f"<p>{html.escape(tr('Source: {source}', source=term.source))}</p>")
        self.meaning.setHtml("".join(parts))


def _title(term: Term) -> str:
    name = term.called[0]
    return name[:1].upper() + name[1:]
