"""The search of the Recipe box as window and command line both tell of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from designer.brewday.predictions import BY_KEY
from designer.library.store.search import Found
from designer.library.store.search_words import FittingPot
from designer.library.store.values import RecipeRow
from designer.recipe.quantity import Kind
from designer.translation import message, named, tr
from designer.units.quoting import one_line

if TYPE_CHECKING:
    from designer.workbench.figures import Figures

GRAMMAR = message(
    "porter oat: words of name, style, ingredients, notes or tags\n"
    "ibu >30, ibu 30..40, og 1.040.., abv <5, abv <=5: also fg, srm, batch\n"
    "with oats, without wheat, style porter, tagged winter\n"
    "fits 9 L: at its fullest it stays below the foam line of a pot of that size"
)
"""What may be searched for, a kind a line."""
_COLUMNS = {
    "original_gravity": "og",
    "abv_percent": "abv",
    "bitterness_ibu": "ibu",
    "colour_srm": "srm",
    "batch_l": "batch_l",
}
"""The figures of a recipe, by their keys, to the columns that hold them."""


def fits_told(pot: FittingPot, limit: str) -> str:
    """Say what fits a pot that is searched for; `limit` is its foam line as it is shown."""
    return tr(
        "“fits {pot}” leaves room for foam: at its fullest below the foam line, {limit}.",
        pot=pot.typed,
        limit=limit,
    )


def found_lines(found: Found, figures: Figures) -> list[str]:
    """Return a line for each recipe: its name, style and main figures."""
    lines = [_line(row, figures) for row in found.rows]
    return lines or [tr("Nothing matches.")]


def _line(row: RecipeRow, written: Figures) -> str:
    figures = [
        _figure(key, value, written)
        for key, column in _COLUMNS.items()
        if (value := getattr(row.summary, column)) is not None
    ]
    return one_line(" · ".join(filter(None, (row.name, named(row.summary.style), *figures))))


def _figure(key: str, value: float, figures: Figures) -> str:
    if key == "batch_l":
        return figures(Kind.VOLUME, value)
    each = BY_KEY[key]
    said = figures.forecast(each, value)
    return f"{tr(each.abbreviation)} {said}" if each.kind is Kind.GRAVITY else said


def found_document(found: Found) -> dict[str, Any]:
    """Return what was found, for JSON: figures as they are kept, null where they are not known."""
    return {
        "form": 1,
        "recipes": [
            {
                "name": row.name,
                "style": row.summary.style,
                "tags": list(row.tags),
                **{key: getattr(row.summary, column) for key, column in _COLUMNS.items()},
                "fullest_l": row.summary.pot_fullest_l,
            }
            for row in found.rows
        ],
        "fits": [{"pot": pot.typed, "foam_line_l": pot.foam_line_l} for pot in found.pots],
    }
