"""Asking about a number that may have been meant a thousand times smaller or larger.

Nothing is refused or changed for that: the question stands beside the field, with the other reading
as one press, which is one step to undo.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from designer.errors import RefusedInputError
from designer.recipe.fields import FieldFacts
from designer.recipe.likely import likely
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.numbers import with_decimal_sign
from designer.units.writing import unit_of
from designer.window.parts.beside_field import say_beside
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from PySide6.QtCore import QRect
    from PySide6.QtWidgets import QLineEdit, QWidget

    from designer.recipe.document import Recipe

_THOUSANDTHS = {"kg": "g", "L": "mL", "l": "ml", "litres": "mL", "kW": "W"}
_THOUSANDFOLDS = {"g": "kg", "mL": "L", "ml": "L", "W": "kW"}


class Other(NamedTuple):
    """What a text was read as, what may have been meant, and the text to be typed for that."""

    read_as: str
    meant: str
    text: str


def otherwise(
    display: DisplayFormat,
    facts: FieldFacts,
    text: str,
    line: object = None,
    recipe: Recipe | None = None,
) -> Other | None:
    """Return what may have been meant by a text; None if it is as likely as it was read.

    The text says its unit. What may have been meant is the other reading of its comma or point, or
    the same figure in the unit a thousand times smaller or larger.
    """
    low, high = likely(facts, line, recipe)
    value = _value(display, facts.kind, text)
    if value is None or value == 0.0 or low <= abs(value) <= high:
        return None
    comma = display.settings.decimal_comma
    unit = unit_of(text)
    others = [with_decimal_sign(text, from_comma=not comma, to_comma=comma)]
    for units in (_THOUSANDTHS, _THOUSANDFOLDS):
        if unit in units and text.endswith(unit):
            others.append(text.removesuffix(unit) + units[unit])
    for other in others:
        found = _value(display, facts.kind, other)
        if found is not None and found != value and low <= abs(found) <= high:
            return Other(display.value(facts.kind, value), display.value(facts.kind, found), other)
    return None


def _value(display: DisplayFormat, kind: Kind, text: str) -> float | None:
    try:
        return display.read(kind, text).value
    except RefusedInputError:
        return None


def ask(
    place: QWidget,
    other: Other,
    take: Callable[[], None],
    keep: Callable[[], None],
    *,
    rect: QRect | None = None,
    owner: object = None,
) -> None:
    """Ask beside a field whether the other reading was meant.

    `take` puts it in; `keep` hears that the figure was meant as it was read.
    """
    say_beside(
        place,
        tr("Read as {amount}. Meant {other}?", amount=other.read_as, other=other.meant),
        rect=rect,
        ways=(
            (tr("Make it {amount}", amount=other.meant), take),
            (tr("Keep {amount}", amount=other.read_as), keep),
        ),
        owner=owner,
    )


def ask_when_left(edit: QLineEdit, display: DisplayFormat, kind: Kind) -> None:
    """Ask about a number in a field that belongs to no recipe, when it is left."""
    facts = FieldFacts(edit.accessibleName(), kind, -inf, inf)

    def put(text: str) -> None:
        edit.setText(text)
        edit.textEdited.emit(text)

    def left() -> None:
        if not edit.isModified():
            return
        edit.setModified(False)
        other = otherwise(display, facts, display.with_unit(kind, edit.text()))
        if other is not None:
            ask(edit, other, lambda: put(other.text), lambda: None, owner=edit)

    edit.editingFinished.connect(left)
