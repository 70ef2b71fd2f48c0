"""A blank of the paper sheet in the form: what was written there, and what is asked about it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QVBoxLayout, QWidget

from designer.brewday.measured.doubtful import Doubtful
from designer.brewday.measured.readings import Reading
from designer.errors import RefusedInputError
from designer.sheet.stove import Blank
from designer.translation import tr
from designer.window.parts.buttons import button
from designer.window.parts.flow import FlowLayout
from designer.window.parts.plain_text import unbroken
from designer.workbench.brew.blank_places import whole_label

FIELD_WIDTH = 128
LONGEST = 60
Read = Callable[[Blank, str], Reading]
Doubt = Callable[[Reading, str], Doubtful | None]
Way = tuple[str, Callable[[], None]]


class BlankField(QLineEdit):
    """Return takes what is typed and goes on to the next blank; it does not end the form."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.editingFinished.emit()
            self.focusNextChild()
        else:
            super().keyPressEvent(event)


class PaperBlank(QWidget):
    """One blank. `reading` is what stands there, None while it is empty or waits for an answer."""

    changed = Signal()

    def __init__(self, blank: Blank, read: Read, doubt: Doubt) -> None:
        super().__init__()
        self.blank, self._read, self._doubt = blank, read, doubt
        self.reading: Reading | None = None
        self._looked_at = self._anyway = ""
        name = QLabel(whole_label(blank))
        self.field = BlankField()
        self.field.setMaxLength(LONGEST)
        self.field.setFixedWidth(FIELD_WIDTH)
        if blank.forecast:
            self.field.setPlaceholderText(blank.forecast)
        self.field.setAccessibleName(
            tr("{blank}, forecast {forecast}", blank=whole_label(blank), forecast=blank.forecast)
            if blank.forecast
            else whole_label(blank)
        )
        name.setBuddy(self.field)
        self.note = QLabel()
        self.note.setTextFormat(Qt.TextFormat.PlainText)
        self.note.setWordWrap(True)
        self.note.setObjectName("differs")
        self.note.hide()
        self.ways = QWidget()
        self._ways = FlowLayout(self.ways, across=6)
        self.ways.hide()
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(name, 1)
        row.addWidget(self.field)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(row)
        layout.addWidget(self.note)
        layout.addWidget(self.ways)
        self.field.editingFinished.connect(self.look)

    @property
    def typed(self) -> str:
        """What is typed, without the spaces around it."""
        return self.field.text().strip()

    @property
    def is_open(self) -> bool:
        """Whether what is typed is not taken: it cannot be read, or waits for an answer."""
        return bool(self.typed) and self.reading is None

    def look(self) -> None:
        """Read what is typed; ask where it is doubtful."""
        typed = self.typed
        if typed == self._looked_at:
            return
        self._looked_at, self.reading = typed, None
        self._say("", ())
        if typed:
            try:
                self._take(self._read(self.blank, typed), typed)
            except RefusedInputError as fault:
                self._say(str(fault), ())
        self.changed.emit()

    def look_again(self) -> None:
        """More is known of the day now: what was taken may be doubtful."""
        if self.reading is not None and self._anyway != self.typed:
            self._looked_at = ""
            self.look()

    def _take(self, reading: Reading, typed: str) -> None:
        doubtful = self._doubt(reading, typed) if typed != self._anyway else None
        if doubtful is None:
            self.reading = reading
            return
        ways: list[Way] = [
            (str(each.question), partial(self._answer, each.meant)) for each in doubtful.slips
        ]
        ways.append((str(doubtful.anyway), partial(self._answer, reading)))
        self._say(unbroken(str(doubtful.message)), ways)

    def _answer(self, reading: Reading) -> None:
        """What was meant is known."""
        self.reading, self._anyway = reading, self.typed
        self._say("", ())
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)
        self.changed.emit()

    def _say(self, words: str, ways: Sequence[Way]) -> None:
        while (item := self._ways.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for text, act in ways:
            self._ways.addWidget(button(text, text, act))
        self.note.setText(words)
        self.note.setVisible(bool(words))
        self.ways.setVisible(bool(ways))
        self.field.setAccessibleDescription(words)
