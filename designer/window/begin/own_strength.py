"""How strong: alcohol or original gravity, as a brewer thinks; the other is said below."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit

from designer.errors import RefusedInputError
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.window.begin.own_column import Column
from designer.window.begin.own_switch import Switch
from designer.window.parts.being_typed import step, steps_of
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import read_from

if TYPE_CHECKING:
    from designer.workbench.first_answers import Wished

ALCOHOL, GRAVITY = "alcohol", "gravity"
_A_GRAVITY = re.compile(r"^\s*(1[.,]\d{3}|1[01]\d\d)\s*(sg)?\s*$|°\s*p|plato|sg", re.IGNORECASE)
"""What cannot be meant for per cent of alcohol."""


class _Typed(NamedTuple):
    """What was typed last, and as what."""

    way: str
    text: str


class StrengthField(Column):
    """`changed` when another strength is asked for. Left empty, it is the style's."""

    changed = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        label = tr("Strength")
        self._display = display
        self._typed = _Typed(ALCOHOL, "")
        self._wished: Wished | None = None
        self.field = SteppedEdit()
        self.field.setAccessibleName(label)
        self.switch = Switch(label, ((ALCOHOL, "%"), (GRAVITY, tr("OG"))))
        super().__init__(label, self.field, self.switch)
        self.caption.setBuddy(self.field)
        self.field.textEdited.connect(self._take)
        self.switch.chosen.connect(self._show)

    def given(self) -> tuple[float | None, float | None]:
        """Return original gravity and alcohol in per cent, one of them at most.

        Raises FieldRefusedError.
        """
        way, text = self._typed
        if not text.strip():
            return None, None
        with read_from(self.field):
            if way == GRAVITY:
                bare = "°P" if self._display.settings.gravity == "plato" else ""
                return self._display.read(Kind.GRAVITY, text, bare=bare).value, None
            percent = 100.0 * self._display.read(Kind.FRACTION, text, bare="%").value
            if percent <= 0.0:
                raise RefusedInputError(tr("“{typed}” is not the strength of a beer", typed=text))
            return None, percent

    def _take(self, text: str) -> None:
        way = self.switch.key()
        if way == ALCOHOL and _A_GRAVITY.search(text):
            way = GRAVITY
        elif way == GRAVITY and "%" in text:
            way = ALCOHOL
        self._typed = _Typed(way, text)
        self.switch.choose(way)  # the text is in it already
        self._tell()
        self.changed.emit()

    def show_wished(self, wished: Wished | None) -> None:
        """Tell the other figure of strength, and what is taken where nothing is typed."""
        self._wished = wished
        self._show()

    def _show(self) -> None:
        """Show what was typed; what is asked for stays that to the letter, whatever is chosen."""
        way, text = self._typed
        if text.strip() and way != self.switch.key():
            text = self._other(self.switch.key())
        if text != self.field.text():
            self.field.setText(text)
        self.field.setPlaceholderText(self._other(self.switch.key()))
        self._tell()

    def _other(self, way: str) -> str:
        wished = self._wished
        if wished is None:
            return ""
        if way == GRAVITY:
            return self._display.value(Kind.GRAVITY, round(wished.original_gravity, 3))
        return self._display.decimal(f"{wished.abv_percent:.1f} %")

    def _tell(self) -> None:
        if self._wished is None:
            return
        if self.switch.key() == GRAVITY:
            text = tr("near {percent} alcohol", percent=self._other(ALCOHOL))
        else:
            text = tr("OG near {gravity}", gravity=self._other(GRAVITY))
        self.said.setText(text)


class SteppedEdit(QLineEdit):
    """A figure that the arrow keys step up and down."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = steps_of(self, event)
        if not steps or not step(self, steps):
            super().keyPressEvent(event)
