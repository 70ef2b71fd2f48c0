"""Records, or sizes of packs, by what stands in a column; what is empty there comes last."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from designer.errors import DesignerError
from designer.recipe.quantity import Quantity
from designer.recipe.same_name import folded
from designer.units import read
from designer.units.pint_units import without_waiting
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.ordering import Order

Key = tuple[float, str]


def in_order(
    records: Sequence[Any], columns: Sequence[Column], order: Order, display: DisplayFormat
) -> tuple[Any, ...]:
    """Return records by what stands in a column; those alike there stay as they were."""
    column = next(each for each in columns if each.key == order.key)
    keys = [_key(column, each, display) for each in records]
    filled = [place for place, key in enumerate(keys) if key is not None]
    empty = [place for place, key in enumerate(keys) if key is None]
    filled.sort(key=lambda place: keys[place] or (0.0, ""), reverse=order.down)
    return tuple(records[place] for place in (*filled, *empty))


def _key(column: Column, record: Any, display: DisplayFormat) -> Key | None:
    """What a cell is compared by: a day, an amount in the base unit of its kind, else its words."""
    value = getattr(record, column.key)
    if isinstance(value, date):
        return float(value.toordinal()), ""
    if isinstance(value, Quantity):
        return value.value, ""
    if isinstance(value, bool):
        return float(value), ""
    if not value:
        return None
    if column.facts is not None:
        try:
            with without_waiting():
                return read(column.facts.kind, str(value)).value, ""
        except DesignerError:
            pass  # what cannot be read goes by its words
    return 0.0, folded(column.text_of(record, display))
