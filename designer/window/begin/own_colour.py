"""How dark: the real colours of beer as a slider, and a glass of the one that is chosen."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from designer.translation import tr
from designer.window.begin.own_column import Column, WayBack
from designer.window.begin.own_slider import BeerColours
from designer.window.parts.beer_glass import USUAL_SRM, BeerGlass
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_text import unbroken
from designer.wort.colour import EBC_PER_SRM

if TYPE_CHECKING:
    from designer.workbench.first_answers import Wished

LEAST_SRM, MOST_SRM = 2.0, 40.0


class ColourField(Column):
    """`changed` when another colour is asked for."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        label = tr("Colour")
        self._display = display
        self._asked: float | None = None
        self._word_of: Callable[[float], str] | None = None
        in_ebc = display.settings.colour == "ebc"
        self.slider = BeerColours(label, 1.0 / EBC_PER_SRM if in_ebc else 1.0)
        self.way_back = WayBack(label)
        super().__init__(label, self.slider, self.way_back)
        self.glass = BeerGlass()
        self.slider.set_ends(LEAST_SRM, MOST_SRM)
        self.show_wished(None)
        self.slider.moved.connect(self._ask)
        self.way_back.clicked.connect(lambda: self._ask(None))

    def given(self) -> float | None:
        """Return the colour that is asked for; None where it is left to the style."""
        return self._asked

    def _ask(self, srm: float | None) -> None:
        self._asked = srm
        self.slider.is_answered = srm is not None
        self.way_back.setVisible(srm is not None)
        self._tell(self.slider.figure())
        self.changed.emit()

    def show_wished(self, wished: Wished | None) -> None:
        """Stand where the style has it, if no colour is asked for."""
        if wished is not None:
            # With the first answer: no first picture needs the brew day.
            from designer.brewday.in_words import colour_in_words

            self._word_of = colour_in_words
            self.slider.set_ends(
                min(LEAST_SRM, wished.srm_ends[0]), max(MOST_SRM, wished.srm_ends[1])
            )
        if self._asked is None:
            self.slider.show_value(wished.colour_srm if wished is not None else USUAL_SRM)
        self._tell(self.slider.figure())

    def _tell(self, srm: float) -> None:
        self.glass.show_colour(srm)
        ebc, plain = f"{srm * EBC_PER_SRM:.0f} EBC", f"{srm:.0f} SRM"
        first, second = (ebc, plain) if self._display.settings.colour == "ebc" else (plain, ebc)
        if self._word_of is None:
            text = f"{first} · {second}"
        else:
            word = tr(self._word_of(srm))
            text = tr("{colour}, {first} · {second}", colour=word, first=first, second=second)
        self.glass.setAccessibleName(tr("A glass of it: {colour}", colour=text))
        self.said.setText(unbroken(text))
        self.slider.setAccessibleDescription(text)
