"""The guide in a window of its own: contents, what is looked for, the page, and the way back."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QCloseEvent, QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from designer.guide.search import pages_with
from designer.translation import tr, trn
from designer.window.guide.contents_tree import ContentsTree
from designer.window.guide.guide_file import written
from designer.window.guide.guide_view import GuideView
from designer.window.parts.background import Latest
from designer.window.parts.on_screen import keep_on_screen
from designer.window.parts.questions import Questions
from designer.workbench.guide import guide

SIZE, SMALLEST = (1080, 760), (520, 360)
CONTENTS_PX = 280
_STEPS = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)


class GuideWindow(QWidget):
    """Reads the guide of a language; `show_wanted` carries a page of the program, in English."""

    show_wanted = Signal(str)

    def __init__(self, language: str, questions: Questions, paper: Callable[[], str]) -> None:
        """Read the guide of a language; `paper` tells that of the PDF."""
        super().__init__()
        self._questions, self._paper = questions, paper
        self.setWindowTitle(tr("Guide – Hobwort"))
        self.setMinimumSize(*SMALLEST)
        self.guide = guide(language)
        self.contents, self.view = ContentsTree(self.guide), GuideView(self.guide)
        self.search = QLineEdit()
        self.search.setPlaceholderText(tr("Find in the guide"))
        self.search.setAccessibleName(tr("Find in the guide"))
        self.search.setClearButtonEnabled(True)
        self.count = QLabel()
        self.count.setObjectName("soft")
        self.back = _button("←", tr("Back"))
        self.forward = _button("→", tr("Forward"))
        self.pdf = _worded(tr("PDF…"), tr("Write the whole guide as PDF"))
        self.web = _worded(tr("Web page…"), tr("Write the whole guide as one web page"))
        self.writing = Latest(self)
        self._read: list[tuple[str, int]] = []
        self._at = -1
        self._lay_out()
        self._connect()
        self.resize(*SIZE)
        keep_on_screen(self)

    def _lay_out(self) -> None:
        both = QSplitter()
        both.addWidget(self.contents)
        both.addWidget(self.view)
        both.setStretchFactor(1, 1)
        both.setSizes([CONTENTS_PX, SIZE[0] - CONTENTS_PX])
        both.setChildrenCollapsible(False)
        top = QHBoxLayout()
        for each in (self.back, self.forward):
            top.addWidget(each)
        top.addWidget(self.search, 1)
        top.addWidget(self.count)
        top.addWidget(self.pdf)
        top.addWidget(self.web)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.setSpacing(10)
        layout.addLayout(top)
        layout.addWidget(both, 1)

    def _connect(self) -> None:
        self.contents.chosen.connect(lambda name: self.open_page(name))
        self.view.page_wanted.connect(lambda name: self.open_page(name))
        self.view.show_wanted.connect(self.show_wanted)
        self.search.textChanged.connect(self._look_for)
        self.search.returnPressed.connect(self._go_on)
        self.search.installEventFilter(self)
        self.back.clicked.connect(lambda: self._go(-1))
        self.forward.clicked.connect(lambda: self._go(1))
        self.pdf.clicked.connect(lambda: self._write(".pdf"))
        self.web.clicked.connect(lambda: self._write(".html"))
        self.writing.answered.connect(self._say_written)
        for keys, act in (
            ("Ctrl+F", self._to_search),
            ("Alt+Left", self.back.click),
            ("Alt+Right", self.forward.click),
            ("Ctrl+W", self.close),
        ):
            QShortcut(QKeySequence(keys), self, act)

    # pages

    def open_page(self, name: str, heading: str = "") -> None:
        """Show a page by its name, from its beginning or from a heading on.

        The way back leads to the page before.
        """
        if self.guide.page(name) is None:
            return
        if self._at >= 0:
            self._read[self._at] = (self._read[self._at][0], self._scrolled)
        if self._at < 0 or self._read[self._at][0] != name:
            self._read = [*self._read[: self._at + 1], (name, 0)]
            self._at += 1
        self._show(name, 0)
        if heading:
            self.view.go_to_heading(heading)

    def _go(self, steps: int) -> None:
        """Go back or forward among the pages that were read."""
        if 0 <= self._at + steps < len(self._read):
            self._read[self._at] = (self._read[self._at][0], self._scrolled)
            self._at += steps
            self._show(*self._read[self._at])

    def _show(self, name: str, scrolled: int) -> None:
        page = self.guide.page(name)
        if page is None:
            return
        self.view.show_page(page)
        self.view.verticalScrollBar().setValue(scrolled)
        self.contents.mark(name)
        self.back.setEnabled(self._at > 0)
        self.forward.setEnabled(self._at + 1 < len(self._read))
        if self.search.text().strip():
            self.view.mark(self.search.text())

    @property
    def _scrolled(self) -> int:
        return self.view.verticalScrollBar().value()

    # what is looked for

    def _to_search(self) -> None:
        self.search.setFocus()
        self.search.selectAll()

    def _look_for(self, typed: str) -> None:
        """Show the pages that have the words, and the words on the page that is read."""
        if not typed.strip():
            self.contents.show_all()
            self.count.clear()
        else:
            found = pages_with(self.guide, typed)
            self.contents.show_found(found)
            self.count.setText(
                trn("{number} page", "{number} pages", len(found))
                if found
                else tr("No page has all these words")
            )
        self.contents.mark(self.view.page.name)
        self.view.mark(typed)

    def _go_on(self) -> None:
        """Go to the next place, at the end of a page to the next page that was found."""
        typed = self.search.text()
        if not typed.strip() or self.view.go_on():
            return
        found = [page.name for page in pages_with(self.guide, typed)]
        if found:
            here = self.view.page.name
            at = found.index(here) + 1 if here in found else 0
            self.open_page(found[at % len(found)])

    # as a file

    def _write(self, suffix: str) -> None:
        """Ask for a file and write the whole guide to it, beside the window."""
        path = self._questions.guide_where(self, suffix)
        if path is not None:
            self.count.setText(tr("Writing …"))
            self.writing.ask(partial(written, self.guide, path, self._paper()))

    def _say_written(self, told: str) -> None:
        self.count.setText(told)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Let a file be written to its end."""
        self.writing.wait()
        super().closeEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let the keys of the list work from the search field too."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            if event.key() in _STEPS:
                QApplication.sendEvent(self.contents, event)
                return True
            if event.key() == Qt.Key.Key_Escape and self.search.text():
                self.search.clear()
                return True
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes the guide."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            super().keyPressEvent(event)


def _worded(text: str, tip: str) -> QPushButton:
    button = QPushButton(text)
    button.setToolTip(tip)
    return button


def _button(sign: str, words: str) -> QToolButton:
    """A button with a sign; its words are told by tip and screen reader."""
    button = QToolButton()
    button.setText(sign)
    button.setToolTip(words)
    button.setAccessibleName(words)
    return button
