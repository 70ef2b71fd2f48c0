"""Find anywhere: one card over the window for ingredients, fields, terms, recipes and actions.

What is typed is looked for with each key. The keyboard stays in the field: arrows go through what
was found, Return takes what is chosen, Escape puts the card away.
"""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QModelIndex, QObject, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.translation import labelled, tr, trn
from designer.window.find.found_list import FoundList
from designer.window.find.recipes_found import RecipesFound
from designer.window.find.things import Thing, pages_of, things_of
from designer.window.paged_window import PagedWindow
from designer.window.parts.over_card import OverCard
from designer.workbench.finding import Findables

SIZE = QSize(860, 480)
MOST = 60
_STEPS = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1, Qt.Key.Key_PageDown: 8, Qt.Key.Key_PageUp: -8}


class FindCard(OverCard):
    """The field, what was found below it, and beside that what is known of what is chosen."""

    def __init__(self, window: PagedWindow, look: Callable[[], None]) -> None:
        super().__init__(window, tr("Find anywhere"))
        self._window, self._look = window, look
        self._things: Findables[Thing] = Findables(())
        self.recipes = RecipesFound(window, self)
        self.recipes.answered.connect(self._show_found)
        self.recipes.told.connect(self._tell_of_box)
        self.search = QLineEdit()
        self.search.setPlaceholderText(
            tr("Ingredient, field, word of the trade, recipe, page, or what to do")
        )
        self.search.setAccessibleName(tr("Find anywhere"))
        self.search.setAccessibleDescription(
            tr("Up and Down go through what is found, Return takes it, Escape closes.")
        )
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._look_up)
        self.search.installEventFilter(self)
        self.list = FoundList()
        self.list.selectionModel().currentChanged.connect(self._show_chosen)
        self.list.clicked.connect(self._click)
        self.list.doubleClicked.connect(self._double_click)
        self.title, self.told = QLabel(), QLabel()
        self.button = QPushButton()
        self.button.clicked.connect(self._do)
        self.count, self.told_of_box = QLabel(), QLabel()
        self._lay_out()

    def _lay_out(self) -> None:
        for label in (self.title, self.told, self.count, self.told_of_box):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
        self.title.setObjectName("sectionHeading")
        self.count.setObjectName("soft")
        self.told_of_box.setObjectName("soft")
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        beside = QVBoxLayout()
        beside.setSpacing(8)
        beside.addWidget(self.title)
        beside.addWidget(self.told, 1)
        beside.addWidget(self.button, 0, Qt.AlignmentFlag.AlignLeft)
        both = QHBoxLayout()
        both.setSpacing(16)
        both.addWidget(self.list, 3)
        both.addLayout(beside, 2)
        foot = QHBoxLayout()
        foot.addWidget(self.count)
        foot.addWidget(self.told_of_box, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 12)
        layout.setSpacing(10)
        layout.addWidget(self.search)
        layout.addLayout(both, 1)
        layout.addLayout(foot)

    def first(self) -> QWidget:
        return self.search

    def wanted_size(self, room: QSize) -> QSize:
        return SIZE.boundedTo(room)

    def open(self) -> None:
        """Lay the card over the window, and find among what is in it now."""
        self._look()
        self._things = Findables(things_of(self._window))
        self.lay_over()
        self.search.clear()
        self._look_up("")

    def put_away(self) -> None:
        self.recipes.forget()
        super().put_away()

    # finding

    def _look_up(self, typed: str) -> None:
        self.recipes.ask(typed)
        self._show(self._found(typed), keep=None)

    def _found(self, typed: str) -> list[Thing]:
        if not typed.strip():
            return pages_of(self._window)
        found = self._things.found(typed, MOST)
        if not self.recipes.things:
            return found
        named = Findables(self.recipes.things).found(typed, MOST)
        # What the box found by something else than its name and style comes last.
        others = [each for each in self.recipes.things if each not in named]
        return [*Findables([*found, *named]).found(typed, MOST), *others]

    def _tell_of_box(self, said: str) -> None:
        self.told_of_box.setText(said)

    def _show_found(self) -> None:
        """Show what the Recipe box had beside the rest; what is chosen stays chosen."""
        self._show(self._found(self.search.text()), keep=self.list.thing)

    def _show(self, found: list[Thing], keep: Thing | None) -> None:
        self.list.show_things(found, keep)
        self._show_chosen()
        if len(found) >= MOST:
            self.count.setText(tr("The first {number}; a word more finds the rest.", number=MOST))
        elif found:
            self.count.setText(trn("{number} found", "{number} found", len(found)))
        else:
            self.count.setText(tr("Nothing has all of these words: try fewer, or other letters."))

    def _show_chosen(self, *_: QModelIndex) -> None:
        """Tell what is known of what is chosen, and what Return does."""
        thing = self.list.thing
        self.title.setText(thing.title if thing is not None else "")
        self.told.setText(_told(thing) if thing is not None else "")
        act = thing.act if thing is not None else None
        self.button.setVisible(act is not None)
        if thing is not None and act is not None:
            self.button.setText(act.words)
            self.button.setEnabled(not thing.why_off)
            self.button.setAccessibleName(tr("{act}: {thing}", act=act.words, thing=thing.title))

    # taking

    def take(self) -> None:
        """Do what is done with what is chosen; what is read first has its button instead."""
        thing = self.list.thing
        if thing is None or thing.why_off:
            return
        if thing.at_once:
            self._do()
        else:
            self.button.setFocus(Qt.FocusReason.TabFocusReason)

    def _do(self) -> None:
        thing = self.list.thing
        if thing is not None and thing.act is not None and not thing.why_off:
            self.put_away()
            thing.act.do()

    def _click(self, _index: QModelIndex) -> None:
        self.search.setFocus(Qt.FocusReason.MouseFocusReason)

    def _double_click(self, _index: QModelIndex) -> None:
        self._do()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        is_key = watched is self.search and event.type() == QEvent.Type.KeyPress
        if is_key and isinstance(event, QKeyEvent):
            if event.key() in _STEPS:
                self.list.go(_STEPS[Qt.Key(event.key())])
                return True
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.take()
                return True
        return super().eventFilter(watched, event)


def _told(thing: Thing) -> str:
    """What is known of a thing: what it is, where it is, and why it cannot be had now."""
    why_off = tr("Not now: {why}.", why=thing.why_off.rstrip(".")) if thing.why_off else ""
    said = [labelled(thing.group, thing.beside) if thing.beside else thing.group]
    return "\n\n".join(each for each in (*said, thing.told(), thing.key, why_off) if each)
