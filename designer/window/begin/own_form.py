"""The few questions before a first recipe, each of which may be left open."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from designer.recipe.limits import LONGEST_TYPED
from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.begin.own_bitterness import BitternessField
from designer.window.begin.own_colour import ColourField
from designer.window.begin.own_column import Column
from designer.window.begin.own_flavours import Flavours
from designer.window.begin.own_kitchen import KitchenAnswers
from designer.window.begin.own_strength import StrengthField
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_text import as_signs

if TYPE_CHECKING:
    from designer.workbench.first_answers import Answers, Reading, Wished

MARGIN, SPACING = 15, 14
LEAST_WORDS = 26
"""So many letters of a style are seen at least."""


class AnswersForm(QFrame):
    """`changed` with each answer that is given, changed or taken back."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._display = display
        self._understood: tuple[Reading, Wished] | None = None
        self.words = QLineEdit()
        letter = self.fontMetrics().averageCharWidth()
        self.words.setMinimumWidth(LEAST_WORDS * letter)
        self.words.setMaxLength(LONGEST_TYPED)
        self.words.setPlaceholderText(tr("such as: best bitter, not too sweet"))
        self.words.setAccessibleName(tr("A style, or plain words"))
        self._style = Column(tr("A style, or plain words"), self.words)
        self._style.caption.setBuddy(self.words)
        self._style.said.setTextFormat(Qt.TextFormat.RichText)
        self._style.said.setObjectName("readAs")
        self.strength = StrengthField(display)
        self.bitterness = BitternessField(display)
        self.colour = ColourField(display)
        self.flavours = Flavours()
        self.kitchen = KitchenAnswers(display)
        self.fields: dict[str, QLineEdit] = {
            "words": self.words,
            "strength": self.strength.field,
            "bitterness": self.bitterness.field,
            **self.kitchen.fields,
        }
        self.words.textEdited.connect(lambda _text: self.changed.emit())
        for each in (self.strength, self.bitterness, self.colour, self.flavours, self.kitchen):
            each.changed.connect(self.changed)
        self._lay_out()

    def _lay_out(self) -> None:
        self._columns: tuple[QWidget, ...] = (
            self._style, self.strength, self.bitterness, self._with_glass(),
        )  # fmt: skip
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(SPACING)
        self._in_a_row = 0
        self._arrange(4)
        rule = QFrame()
        rule.setObjectName("rule")
        rule.setFixedHeight(1)
        taste = QHBoxLayout()
        taste.setSpacing(10)
        words = QLabel(tr("Should taste of"))
        words.setObjectName("soft")
        taste.addWidget(words, 0, Qt.AlignmentFlag.AlignTop)
        taste.addWidget(self.flavours, 1)
        words.setMinimumHeight(self.flavours.minimumHeight())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 10, MARGIN, 10)
        layout.setSpacing(8)
        layout.addLayout(self._grid)
        layout.addWidget(rule)
        layout.addLayout(taste)
        layout.addWidget(self.kitchen)

    def _with_glass(self) -> QWidget:
        both = QWidget()
        row = QHBoxLayout(both)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        row.addWidget(self.colour, 1)
        row.addWidget(self.colour.glass, 0, Qt.AlignmentFlag.AlignTop)
        return both

    def minimumSizeHint(self) -> QSize:
        """Hold no more room than two questions in a row take: they are arranged with the room."""
        least = 2 * max(each.minimumSizeHint().width() for each in self._columns)
        return QSize(least + 2 * MARGIN + SPACING, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        least = sum(each.minimumSizeHint().width() for each in self._columns)
        room = self.width() - 2 * MARGIN - (len(self._columns) - 1) * SPACING
        self._arrange(4 if room >= least else 2)

    def _arrange(self, in_a_row: int) -> None:
        """Stand the first four questions in one row, or in two where there is little room."""
        if in_a_row == self._in_a_row:
            return
        self._in_a_row = in_a_row
        for number, each in enumerate(self._columns):
            self._grid.addWidget(each, number // in_a_row, number % in_a_row)
        shares = (26, 13, 24, 24) if in_a_row == 4 else (1, 1, 0, 0)
        for column, share in enumerate(shares):
            self._grid.setColumnStretch(column, share)

    # keys, and what comes after the first picture

    def stops(self) -> list[QWidget]:
        """Return all that Tab comes to, in its order."""
        strength, bitterness, colour = self.strength, self.bitterness, self.colour
        return [
            self.words,
            strength.field,
            *strength.switch.buttons(),
            bitterness.slider,
            bitterness.field,
            *bitterness.switch.buttons(),
            bitterness.way_back,
            colour.slider,
            colour.way_back,
            *self.flavours.chips,
            *self.kitchen.fields.values(),
            *self.kitchen.ticks(),
        ]

    def places(self) -> dict[str, QWidget]:
        """Return where answers are given, by their keys."""
        strength, bitterness = self.strength.field, self.bitterness
        return {
            "original_gravity": strength,
            "abv_percent": strength,
            "bitterness_ibu": bitterness.field,
            "colour_srm": self.colour.slider,
            **self.kitchen.fields,
        }

    def after(self, answer: QWidget) -> QWidget | None:
        """Return where the answer after this one is given; None behind the last."""
        order: list[QWidget] = [
            self.words,
            self.strength.field,
            self.bitterness.control(),
            self.colour.slider,
            *self.flavours.chips[:1],
            *self.kitchen.fields.values(),
        ]
        at = order.index(answer) + 1 if answer in order else len(order)
        return order[at] if at < len(order) else None

    def complete(self) -> None:
        """Add what needs the catalogue."""
        from designer.library.sources import STYLE_NUMBERS
        from designer.window.parts.doubtful_number import ask_when_left
        from designer.window.parts.offers import attach_suggestions
        from designer.window.parts.unit_words import unit_words
        from designer.workbench.first_recipe import flavours

        attach_suggestions(self.words, "styles")
        self.words.setToolTip(STYLE_NUMBERS)
        for field in self.kitchen.fields.values():
            ask_when_left(field, self._display, Kind.VOLUME)
        unit_words().known.connect(self.changed)
        self.flavours.offer([(each.key, each.label) for each in flavours()])

    # what is answered

    def answers(self) -> Answers:
        """Return all answers; raises FieldRefusedError for one that cannot be read."""
        # With the first reckoning, once the page has been painted.
        from designer.workbench.first_answers import Answers

        gravity, percent = self.strength.given()
        pot, fermenter, kitchen = self.kitchen.brewed_with()
        return Answers(
            words=self.words.text().strip(),
            original_gravity=gravity,
            abv_percent=percent,
            bitterness_ibu=self.bitterness.given(),
            colour_srm=self.colour.given(),
            flavours=self.flavours.given(),
            pot=pot,
            fermenter=fermenter,
            batch=self.kitchen.batch(),
            in_hand=self.kitchen.in_hand(),
            is_simple=self.kitchen.simple.isChecked(),
            whole_packs=self.kitchen.whole.isChecked(),
            units=self._display.one_system,
            kitchen=kitchen,
        )

    def show_wished(self, reading: Reading, wished: Wished) -> None:
        """Say how the words were read, and fill in what they and the style leave open."""
        told = [reading.said.said(self._display.rounded, self._display.quantity)]
        if reading.unread:
            told.append(tr("not understood: {words}", words=f"“{reading.unread}”"))
        plain = " · ".join(filter(None, told))
        self.words.setAccessibleDescription(plain)
        marked = as_signs(plain)
        if reading.style is not None:
            name = as_signs(named(reading.style.name))
            marked = marked.replace(name, f"<b>{name}</b>", 1)
        self._style.said.setText(marked)
        self._understood = (reading, wished)
        for each in (self.strength, self.bitterness, self.colour, self.kitchen):
            each.show_wished(wished)

    def show_anew(self) -> None:
        """Figures are to be shown in other units."""
        self.kitchen.show_anew()
        if self._understood is not None:
            self.show_wished(*self._understood)
