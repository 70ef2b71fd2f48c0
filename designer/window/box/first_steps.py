"""A panel below the list of the box: what lies there at first, why nothing does, and ways on."""

from __future__ import annotations

from enum import Enum, auto

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from designer.translation import tr, trn
from designer.window.parts.flow import FlowLayout

OWN, KIT = 0, 1
"""The doors of Begin, as they are counted there."""


class Shown(Enum):
    """What the panel is there for."""

    EXAMPLES = auto()
    EMPTY = auto()
    NOT_FOUND = auto()


class FirstSteps(QFrame):
    """Says what the list is for and offers the first step; hidden where the list speaks itself."""

    door_wanted = Signal(int)
    import_wanted = Signal()
    all_wanted = Signal()
    trash_wanted = Signal()
    hidden = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("firstSteps")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self.title, self.words = QLabel(), QLabel()
        font = self.title.font()
        font.setPointSizeF(1.2 * font.pointSizeF())
        font.setBold(True)
        self.title.setFont(font)
        self.words.setWordWrap(True)
        self.own = self._button(tr("Begin one of my own"), OWN)
        self.kit = self._button(tr("Type in a kit"), KIT)
        self.bring_in, self.all = QPushButton(tr("Import recipe files…")), QPushButton()
        self.trash = QPushButton(tr("Look in the trash"))
        self.hide_it = QPushButton(tr("Hide this"))
        self.hide_it.setObjectName("cure")
        self.own.setObjectName("primary")
        self.bring_in.clicked.connect(self.import_wanted)
        self.all.clicked.connect(self.all_wanted)
        self.trash.clicked.connect(self.trash_wanted)
        self.hide_it.clicked.connect(self.hidden)
        ways = QWidget()
        row = FlowLayout(ways, across=8)
        for each in (self.all, self.own, self.kit, self.bring_in, self.trash, self.hide_it):
            row.addWidget(each)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 12, 18, 12)
        layout.addWidget(self.title)
        layout.addWidget(self.words)
        layout.addWidget(ways)
        self.hide()

    def _button(self, text: str, door: int) -> QPushButton:
        button = QPushButton(text)
        button.clicked.connect(lambda _checked=False: self.door_wanted.emit(door))
        return button

    def show_examples(self, count: int) -> None:
        """Say what the examples are for; the brewer may hide that for good."""
        four = tr("Four examples to look around in")
        other = trn(
            "{number} example to look around in", "{number} examples to look around in", count
        )
        self.title.setText(four if count == 4 else other)
        self.words.setText(
            tr(
                "Change one and it is yours; the example stays as it was. Take one away and the "
                "trash keeps it."
            )
        )
        self._offer(Shown.EXAMPLES)

    def show_empty(self) -> None:
        """Say what the box is for."""
        self.title.setText(tr("Nothing is kept yet"))
        self.words.setText(tr("A recipe that you save (Ctrl+S) is kept here, with every version."))
        self._offer(Shown.EMPTY)

    def show_not_found(self, typed: str) -> None:
        """Say that nothing matches what was typed."""
        self.title.setText(tr("Nothing here matches “{typed}”", typed=typed[:60]))
        self.words.setText(tr("Take a word away, or look in the trash."))
        self.all.setText(tr("Show all"))
        self._offer(Shown.NOT_FOUND)

    def _offer(self, shown: Shown) -> None:
        is_search = shown is Shown.NOT_FOUND
        self.all.setVisible(is_search)
        self.trash.setVisible(is_search)
        self.kit.setVisible(not is_search)
        self.bring_in.setVisible(not is_search)
        self.hide_it.setVisible(shown is Shown.EXAMPLES)
        self.show()
