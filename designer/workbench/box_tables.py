"""Tables of the Recipe box for a spreadsheet: the ingredients of recipes, and the cupboard.

CSV as RFC 4180 has it; quantities as they were typed, cells that would be formulas guarded.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import fields

from designer.library.bill import COLUMNS, bill_rows
from designer.library.formula_guard import guarded
from designer.library.store.kitchen import CupboardRecord
from designer.recipe.document import Recipe

STOCK_COLUMNS = tuple(each.name for each in fields(CupboardRecord) if each.name != "id")


def bills_csv(recipes: Iterable[Recipe]) -> str:
    """Return the ingredients of recipes, the recipe's name in front of each."""
    rows = ((recipe.name, *row) for recipe in recipes for row in bill_rows(recipe))
    return _csv(("recipe", *COLUMNS), rows)


def stock_csv(records: Iterable[CupboardRecord]) -> str:
    """Return what lies in the cupboard, a row each; days as ISO 8601 has them."""
    return _csv(STOCK_COLUMNS, ([_cell(each, name) for name in STOCK_COLUMNS] for each in records))


def _cell(record: CupboardRecord, name: str) -> str:
    value = getattr(record, name)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def _csv(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(head)
    writer.writerows([guarded(" ".join(cell.split())) for cell in row] for row in rows)
    return out.getvalue()
