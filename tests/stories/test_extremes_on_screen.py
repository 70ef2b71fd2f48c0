"""Every field at the ends of what it takes, as the window shows it: no fault, no lost figure."""

import re
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QLabel

from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.fields import quantity_fields
from designer.recipe.quantity import Kind, Quantity
from designer.units import show

NO_FIGURE = re.compile(r"(?<![^\W\d_])(?:nan|inf|infinity)(?![^\W\d_])", re.IGNORECASE)
OWNERS = {**PART_TYPES, **LINE_TYPES}
PLACES = [
    (owner, field.name, facts, end)
    for owner, of in OWNERS.items()
    for field, facts in quantity_fields(of)
    for end in sorted({facts.low, facts.high})
]
GROUPS = 6


def with_value(recipe, owner, name, facts, value):
    dose = facts.kind is Kind.DOSE
    text = f"{value:g} g" if dose else show(facts.kind, value)
    typed = {name: Quantity(value, text, unit="g" if dose else "")}
    if owner in PART_TYPES:
        return replace(recipe, **{owner: replace(getattr(recipe, owner), **typed)})
    first, *others = getattr(recipe, owner)
    return replace(recipe, **{owner: (replace(first, **typed), *others)})


def words_on(page):
    """Everything that a page says: its labels, what is read aloud, the cells of its tables."""
    for label in page.findChildren(QLabel):
        yield label.text()
    for widget in (page, *page.findChildren(QAbstractItemView)):
        yield widget.accessibleName()
        yield widget.accessibleDescription()
        model = widget.model() if isinstance(widget, QAbstractItemView) else None
        for row in range(model.rowCount() if model is not None else 0):
            for column in range(model.columnCount()):
                yield str(model.index(row, column).data(Qt.ItemDataRole.DisplayRole) or "")


@pytest.mark.parametrize("group", range(GROUPS))
def test_a_field_at_its_ends_is_shown_in_figures(qtbot, window, porter, group):
    window.opened.want_ranges()
    for owner, name, facts, end in PLACES[group::GROUPS]:
        window.opened.replace_by(with_value(porter, owner, name, facts, end), None)
        window.opened.refresh_outlook()
        window.grab()
        for row in window.compose.forecast.rows:
            assert NO_FIGURE.search(row.sentence()) is None, (owner, name, end)
        for text in words_on(window.compose):
            assert NO_FIGURE.search(text) is None, (owner, name, end, text)
