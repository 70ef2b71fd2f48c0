"""The search of the Recipe box as window and command line both tell of it."""

from __future__ import annotations

from typing import Any

from designer.library.store.search import Found
from designer.library.store.search_words import FittingPot
from designer.library.store.values import RecipeRow
from designer.translation import message, named, tr
from designer.units.quoting import one_line

GRAMMAR = message(
    "porter oat: words of name, style, ingredients, notes or tags\n"
    "ibu >30, ibu 30..40, og 1.040.., abv <5, abv <=5: also fg, srm, batch\n"
    "with oats, without wheat, style porter, tagged winter\n"
    "fits 9 L: at its fullest it stays below the foam line of a pot of that size"
)
"""What may be searched for, a kind a line."""
_FIGURES = {
    "original_gravity": ("og", ".3f", "OG {}"),
    "abv_percent": ("abv", ".1f", "{} %"),
    "bitterness_ibu": ("ibu", ".0f", "{} IBU"),
    "colour_srm": ("srm", ".0f", "{} SRM"),
    "batch_l": ("batch_l", ".3g", "{} L"),
}


def fits_told(pot: FittingPot, limit: str) -> str:
    """Say what fits a pot that is searched for; `limit` is its foam line as it is shown."""
    return tr(
        "“fits {pot}” leaves room for foam: at its fullest below the foam line, {limit}.",
        pot=pot.typed,
        limit=limit,
    )


def found_lines(found: Found) -> list[str]:
    """Return a line for each recipe: its name, style and main figures."""
    lines = [_line(row) for row in found.rows]
    return lines or [tr("Nothing matches.")]


def _line(row: RecipeRow) -> str:
    figures = [
        shown.format(format(value, rounded))
        for column, rounded, shown in _FIGURES.values()
        if (value := getattr(row.summary, column)) is not None
    ]
    return one_line(" · ".join(filter(None, (row.name, named(row.summary.style), *figures))))


def found_document(found: Found) -> dict[str, Any]:
    """Return what was found, for JSON: figures as they are kept, null where they are not known."""
    return {
        "form": 1,
        "recipes": [
            {
                "name": row.name,
                "style": row.summary.style,
                "tags": list(row.tags),
                **{key: getattr(row.summary, column) for key, (column, *_) in _FIGURES.items()},
                "fullest_l": row.summary.pot_fullest_l,
            }
            for row in found.rows
        ],
        "fits": [{"pot": pot.typed, "foam_line_l": pot.foam_line_l} for pot in found.pots],
    }
