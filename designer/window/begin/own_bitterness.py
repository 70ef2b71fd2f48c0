"""How bitter: in words, by a slider, or in IBU."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QWidget

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.begin.own_column import Column, WayBack, end_label
from designer.window.begin.own_slider import Scale
from designer.window.begin.own_strength import SteppedEdit
from designer.window.begin.own_switch import Switch
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import read_from, within_reach

if TYPE_CHECKING:
    from designer.workbench.first_answers import Wished

WORDS, IBU = "words", "ibu"
USUAL_IBU = 25.0
LEAST_IBU, MOST_IBU = 5.0, 80.0
MOST_IBU_TYPED = 300.0


class BitternessField(Column):
    """`changed` when another bitterness is asked for."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        label = tr("Bitterness")
        self._display = display
        self._asked: float | None = None
        self._og: float | None = None
        self.slider = Scale(label, 1.0)
        self.field = SteppedEdit()
        self.field.setAccessibleName(label)
        self.switch = Switch(label, ((WORDS, tr("words")), (IBU, "IBU")))
        self.way_back = WayBack(label)
        self._shown = QStackedWidget()
        for each in (self._between_ends(), self.field):
            self._shown.addWidget(each)
        super().__init__(label, self._shown, self.switch, self.way_back)
        self.slider.set_ends(LEAST_IBU, MOST_IBU)
        self.slider.show_value(USUAL_IBU)
        self.slider.moved.connect(self._slide)
        self.field.textEdited.connect(self._type)
        self.switch.chosen.connect(self._show_way)
        self.way_back.clicked.connect(self._leave)

    def _between_ends(self) -> QWidget:
        """Return the slider between what its ends are called."""
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for each in (end_label(tr("soft")), self.slider, end_label(tr("sharp"))):
            row.addWidget(each, 1 if each is self.slider else 0)
        return made

    def given(self) -> float | None:
        """Return the bitterness in IBU; None where it is left to the style.

        Raises FieldRefusedError.
        """
        return self._read() if self.switch.key() == IBU else self._asked

    def control(self) -> QWidget:
        """Return where it is answered now."""
        return self.field if self.switch.key() == IBU else self.slider

    def _read(self) -> float | None:
        text = self.field.text()
        if not text.strip():
            return None
        with read_from(self.field):
            found = self._display.read(Kind.BITTERNESS, text)
            return within_reach(found, MOST_IBU_TYPED, text).value

    def _slide(self, ibu: float) -> None:
        self.field.setText(self._display.value(Kind.BITTERNESS, ibu))
        self._ask(ibu)

    def _type(self, _text: str) -> None:
        with suppress(RefusedInputError):  # it is marked by whoever asks for all answers
            self._asked = self._read()
        self._ask(self._asked)

    def _leave(self) -> None:
        self.field.setText("")
        self._ask(None)

    def _ask(self, ibu: float | None) -> None:
        self._asked = ibu
        self.slider.is_answered = ibu is not None
        self.way_back.setVisible(ibu is not None)
        if ibu is not None:
            self._tell(ibu)
        self.changed.emit()

    def _show_way(self, way: str) -> None:
        self._shown.setCurrentIndex((WORDS, IBU).index(way))
        if self._asked is not None:
            self.slider.show_value(self._asked)
        self.changed.emit()  # what is typed and not taken counts only where it is seen

    def show_wished(self, wished: Wished) -> None:
        """Stand where the style has it if nothing is asked for, and say it in words."""
        self.slider.set_ends(*wished.ibu_ends)
        if self._asked is None:
            self.slider.show_value(wished.bitterness_ibu)
        usual = self._display.value(Kind.BITTERNESS, round(wished.bitterness_ibu))
        self.field.setPlaceholderText(usual if self._asked is None else "")
        self._og = wished.original_gravity
        self._tell(self.slider.figure() if self._asked is None else self._asked)

    def _tell(self, ibu: float) -> None:
        """Say in words what a bitterness is in a beer of that strength."""
        if self._og is None:
            return
        # Known by now: the first answer came from where it is loaded.
        from designer.brewday.in_words import bitterness_in_words

        balance = tr(bitterness_in_words(ibu, self._og))
        figure = self._display.value(Kind.BITTERNESS, round(ibu))
        self.said.setText(tr("{bitterness} · {balance}", balance=balance, bitterness=figure))
        self.slider.setAccessibleDescription(self.said.text())
