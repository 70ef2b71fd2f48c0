"""The bill of ingredients as a table: CSV for a spreadsheet, both ways, and plain text to read.

Columns: list, amount, name, kind, goes in, figure. The figure is the colour of a fermentable and
the alpha acid of a hop. Quantities are as they were typed.
"""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from typing import Any

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.library.figures import with_figures
from designer.recipe.document import LINE_TYPES, Extra, Fermentable, Hop, Recipe
from designer.recipe.edits import Line
from designer.recipe.fields import facts_of
from designer.units import read, read_when

COLUMNS = ("list", "amount", "name", "kind", "goes in", "figure")
MOST_ROWS = 500
_KIND = {"fermentables": "kind", "hops": "form", "extras": "purpose"}
_FIGURE = {"fermentables": "colour", "hops": "alpha"}


def bill_rows(recipe: Recipe) -> list[tuple[str, ...]]:
    """Return the bill as rows of text under `COLUMNS`."""
    rows: list[tuple[str, ...]] = []
    for name in LINE_TYPES:
        for line in getattr(recipe, name):
            amount = line.amount.text if line.amount is not None else ""
            figure = getattr(line, _FIGURE[name], None) if name in _FIGURE else None
            rows.append(
                (name, amount, line.name, getattr(line, _KIND[name]), line.when.text,
                 figure.text if figure is not None else "")
            )  # fmt: skip
    return rows


def bill_csv(recipe: Recipe) -> str:
    """Return the bill as CSV with a row of headings, as RFC 4180 has it."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    writer.writerows(bill_rows(recipe))
    return out.getvalue()


def bill_text(recipe: Recipe) -> str:
    """Return the bill as lines to read, one ingredient each."""
    lines = [recipe.name, ""]
    for _, amount, name, kind, when, figure in bill_rows(recipe):
        beside = ", ".join(part for part in (kind, figure, when) if part)
        lines.append(f"{amount:>10}  {name} ({beside})" if beside else f"{amount:>10}  {name}")
    if recipe.yeast.name:
        amount = recipe.yeast.amount.text if recipe.yeast.amount is not None else ""
        lines.append(f"{amount:>10}  {recipe.yeast.name}")
    return "\n".join(lines) + "\n"


def read_bill(text: str) -> tuple[tuple[str, Line], ...]:
    """Return the lines of a CSV bill, each with the name of its list, figures from the catalogue.

    Commas, semicolons or tabs part the cells. Raises RefusedInputError with one line for each row
    that cannot be taken.
    """
    first = text.lstrip("\ufeff").split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    rows = list(csv.reader(io.StringIO(text.lstrip("\ufeff")), delimiter=delimiter))
    if not rows or tuple(cell.strip().lower() for cell in rows[0]) != COLUMNS:
        raise RefusedInputError(f"line 1: the headings are {', '.join(COLUMNS)}")
    if len(rows) > MOST_ROWS:
        raise RefusedInputError(f"{len(rows)} rows are more than the {MOST_ROWS} a bill may have")
    faults: list[str] = []
    found = []
    for number, row in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in row):
            continue
        try:
            found.append(_line([cell.strip() for cell in row]))
        except RefusedInputError as fault:
            faults.append(f"line {number}: {fault}")
    if faults:
        raise RefusedInputError(faults)
    return tuple(found)


def _line(cells: list[str]) -> tuple[str, Line]:
    if len(cells) != len(COLUMNS):
        raise RefusedInputError(f"{len(cells)} cells, but {len(COLUMNS)} headings")
    name, amount, called, kind, when, figure = cells
    if name not in LINE_TYPES:
        raise RefusedInputError(f"“{name[:40]}” is not one of: {', '.join(LINE_TYPES)}")
    values: dict[str, Any] = {"name": called}
    of = LINE_TYPES[name]
    if amount:
        values["amount"] = _quantity(of, "amount", amount)
    if when:
        values["when"] = read_when(when)
    if figure and name in _FIGURE:
        values[_FIGURE[name]] = _quantity(of, _FIGURE[name], figure)
    if kind:
        values[_KIND[name]] = _kind(of, _KIND[name], kind)
    line = of(**values)
    held: dict[str, Any] = {name: (line,)}
    completed: tuple[Fermentable | Hop | Extra, ...] = getattr(with_figures(Recipe(**held)), name)
    return name, replace(completed[0], line_id=0)


def _quantity(of: type, field: str, text: str) -> Any:
    facts = facts_of(of, field)
    return checked_quantity(facts, read(facts.kind, text))


def _kind(of: type, field: str, text: str) -> str:
    choices = next(
        each.metadata.get("choices", ()) for each in of.__dataclass_fields__.values()  # type: ignore[attr-defined]
        if each.name == field
    )  # fmt: skip
    if choices and text not in choices:
        raise RefusedInputError(f"“{text[:40]}” is not one of: {', '.join(choices)}")
    return text
