"""How a beer stands to styles in words, as lines for a terminal and as plain values."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from designer.brewday.asked_ranges import Miss, as_shown
from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Range
from designer.library.catalogue import StyleEntry, find_style
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit
from designer.recipe.kinds import KINDS
from designer.recipe.message import Figure, Message, in_a_row, say
from designer.recipe.quantity import Kind
from designer.translation import message, named, tr
from designer.workbench.figures import Figures
from designer.workbench.styles import NEAREST, STANDINGS, StyleFit, is_beer, ranked, style_fit

if TYPE_CHECKING:
    from designer.brewday.bringing_in import BroughtIn

TOO: dict[str, tuple[str, str]] = {
    "original_gravity": (
        message("original gravity {by} too low"),
        message("original gravity {by} too high"),
    ),
    "final_gravity": (
        message("final gravity {by} too low"),
        message("final gravity {by} too high"),
    ),
    "abv_percent": (message("alcohol {by} too low"), message("alcohol {by} too high")),
    "bitterness_ibu": (message("{by} not bitter enough"), message("{by} too bitter")),
    "colour_srm": (message("{by} too pale"), message("{by} too dark")),
}
"""A forecast below and above what is asked, by how much."""

BEYOND: dict[str, tuple[str, str]] = {
    "original_gravity": (
        message("original gravity {0} is below {1}"),
        message("original gravity {0} is above {1}"),
    ),
    "final_gravity": (
        message("final gravity {0} is below {1}"),
        message("final gravity {0} is above {1}"),
    ),
    "abv_percent": (message("alcohol {0} is below {1}"), message("alcohol {0} is above {1}")),
    "bitterness_ibu": (
        message("bitterness {0} is below {1}"),
        message("bitterness {0} is above {1}"),
    ),
    "colour_srm": (message("colour {0} is below {1}"), message("colour {0} is above {1}")),
}
"""The same with the figure and the limit that it misses."""

_KINDS = {
    "original_gravity": Kind.GRAVITY,
    "final_gravity": Kind.GRAVITY,
    "abv_percent": Kind.FRACTION,
    "bitterness_ibu": Kind.BITTERNESS,
    "colour_srm": Kind.BEER_COLOUR,
}


def plain_difference(miss: Miss) -> str:
    """Return by how much a forecast is off, in the usual scales."""
    kind = _KINDS[miss.key]
    if kind is Kind.GRAVITY:
        return f"{miss.by:.3f}"
    if kind is Kind.FRACTION:
        return f"{miss.by:.1f} %"
    return f"{miss.by:g} {KINDS[kind].metric[-1].unit}"


def difference_in(figures: Figures, miss: Miss) -> str:
    """Return by how much a forecast is off, on the scales that are preferred."""
    by = figures.change(BY_KEY[miss.key], miss.value, miss.limit)
    return by.lstrip("+-") or plain_difference(miss)


def too_far(miss: Miss, difference: Callable[[Miss], str] = plain_difference) -> str:
    """Return what keeps a beer out in a few words: "original gravity 0.004 too high"."""
    return tr(TOO[miss.key][miss.is_above], by=difference(miss))


def beyond(miss: Miss) -> Message:
    """Return what keeps a beer out as a message, with figure and limit."""
    kind, value, limit = _KINDS[miss.key], miss.value, miss.limit
    if kind is Kind.FRACTION:
        value, limit = value / 100.0, limit / 100.0
    which = "above" if miss.is_above else "below"
    figures: tuple[Figure, ...] = ((kind, value), (kind, limit))
    return Message(f"{miss.key}-{which}", BEYOND[miss.key][miss.is_above], figures)


def all_beyond(missing: tuple[Miss, ...]) -> object:
    """Return all that keeps a beer out."""
    return in_a_row([beyond(each) for each in missing])


def brought_words(style: StyleEntry, found: BroughtIn) -> Message:
    """Return what was found in a sentence: what is changed, or that it is out of reach."""
    if found.missing:
        return say(
            "style-out-of-reach",
            "No change of amounts, times or water brings it into {style}. At the nearest {misses}.",
            style=style.name,
            misses=all_beyond(found.missing),
        )
    if found.graver is not None:
        return say(
            "style-brings-graver",
            "Amounts that bring it into {style} bring something graver: {finding}",
            style=style.name,
            finding=found.graver.message,
        )
    if found.changes is None:
        return say("style-is-in", "It is in {style} as it stands.", style=style.name)
    return say(
        "style-brought-in", "Brings it into {style}: {changes}.",
        style=style.name, changes=found.changes,
    )  # fmt: skip


def style_lines(
    forecasts: Mapping[str, Range],
    many: int = NEAREST,
    difference: Callable[[Miss], str] = plain_difference,
) -> list[str]:
    """Return the nearest styles as lines."""
    found = ranked(forecasts)[:many]
    heads = [f"{each.style.code}  {named(each.style.name)}" for each in found]
    width = max(map(len, heads)) + 2
    return [
        f"  {head:<{width}}{standing_words(each, difference)}"
        for head, each in zip(heads, found, strict=True)
    ]


def standing_words(fit: StyleFit, difference: Callable[[Miss], str] = plain_difference) -> str:
    """Return how a beer stands to a style, and what keeps it out."""
    said = tr(STANDINGS[fit.standing])
    if not fit.missing:
        return said
    whys = ", ".join(too_far(each, difference) for each in fit.missing)
    return tr("{standing}: {whys}", standing=said, whys=whys)


def styles_document(
    recipe: Recipe, forecasts: Mapping[str, Range], many: int = NEAREST
) -> dict[str, Any]:
    """Return the chosen style and the nearest ones as plain values."""
    chosen = find_style(recipe.style) if recipe.style else None
    return {
        "chosen": None if chosen is None else _fit_document(style_fit(forecasts, chosen)),
        "nearest": [_fit_document(each) for each in ranked(forecasts)[:many]]
        if is_beer(forecasts)
        else [],
    }


def _fit_document(fit: StyleFit) -> dict[str, Any]:
    return {
        "code": fit.style.code,
        "name": fit.style.name,
        "inside": not fit.missing,
        "standing": fit.standing,
        "share_inside": round(fit.share, 2),
        "keeps_out": [
            {
                "forecast": each.key,
                "value": each.value,
                "low": each.low,
                "high": each.high,
                "by": each.by if each.is_above else -each.by,
            }
            for each in fit.missing
        ],
    }


def brought_document(style: StyleEntry, edit: Edit | None, found: BroughtIn) -> dict[str, Any]:
    """Return what brings a recipe into a style as plain values."""
    return {
        "code": style.code,
        "name": style.name,
        "reached": not found.is_out_of_reach,
        "change": None if edit is None else edit.text.text,
        "forecasts": {key: as_shown(key, value) for key, value in found.values.items()},
        "keeps_out": [each.key for each in found.missing],
        "graver": None if found.graver is None else found.graver.message.text,
    }
