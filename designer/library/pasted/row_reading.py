"""One row of a pasted table as a line of the recipe, or why it is none."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, NamedTuple

from designer.errors import RefusedInputError
from designer.library.catalogue import find_yeast
from designer.library.new_lines import is_known, new_line
from designer.library.pasted.cells import Signs, kind_of, quantity_of, share_of, when_of
from designer.library.pasted.columns import LIST_OF, LIST_WORDS, Means, Use
from designer.library.table_text import FIELDS
from designer.recipe.document import LINE_TYPES
from designer.recipe.fields import facts_of
from designer.recipe.likely import likely
from designer.recipe.limits import LONGEST_WORDS
from designer.recipe.message import refused, word
from designer.recipe.named import Line
from designer.recipe.quantity import Quantity
from designer.translation import message, parted, tr
from designer.units.quoting import quoted

_TOTALS = frozenset(("total", "totals", "sum", "gesamt", "summe", "subtotal"))
_NO_HOP = frozenset(("malt", "extract", "sugar", "honey", "syrup", "treacle", "malz"))
_FIGURE = {"hops": Means.ALPHA, "fermentables": Means.COLOUR}
_FIELDS = {
    Means.ALPHA: ("hops", "alpha"),
    Means.COLOUR: ("fermentables", "colour"),
    Means.YIELD: ("fermentables", "extract"),
}
"""The list that alone has a figure, and the field of its lines that holds it."""
NO_AMOUNT = message("there is no amount in it")
YEAST = message("the yeast is set in a place of its own, not as a line")


class Row(NamedTuple):
    """What a row is read as.

    `line` is what would be added to `lines`; None, and a `fault`, where it cannot be read. `doubt`
    says what is not certain about it, `likely` whether it is meant as an ingredient at all.
    """

    lines: str
    line: Line | None = None
    fault: str = ""
    doubt: str = ""
    likely: bool = True


class Place(NamedTuple):
    """The list that a row goes to, why that is in doubt, and whether the brewer chose it."""

    lines: str
    doubt: str = ""
    chosen: bool = False


def place_of(told: str, name: str, default: str, *, asked_for: bool) -> Place:
    """Return the list of a row: the one told, that of the catalogue's name, or the default."""
    if told:
        return Place(told)
    known = [lines for lines in LINE_TYPES if is_known(lines, name)]
    if default in known:
        return Place(default)
    if len(known) == 1:
        return Place(known[0], _goes_to(known[0]) if asked_for else "")
    if default != "fermentables" and _NO_HOP & set(name.lower().split()):
        return Place("fermentables", _goes_to("fermentables") if asked_for else "")
    lines = tr(LIST_WORDS[default])
    return Place(default, "" if asked_for else tr("it may not belong to {lines}", lines=lines))


def _goes_to(lines: str) -> str:
    return tr("by its name it goes to {lines}", lines=tr(LIST_WORDS[lines]))


def list_named(text: str) -> str | None:
    """Return the list that a cell names: "yeast" for the yeast, None for none."""
    return LIST_OF.get(text.strip().lower())


def read_row(cells: dict[Means, str], uses: dict[Means, Use], place: Place, signs: Signs) -> Row:
    """Return the line of a row whose cells are given by what they hold."""
    name = cells.get(Means.NAME, "")
    lines = place.lines
    if lines == "yeast":
        return Row(lines, None, tr(YEAST), likely=False)
    if not name:
        return Row(lines, None, tr("it has no name"), likely=Means.AMOUNT in cells)
    if len(name) > LONGEST_WORDS:
        return Row(lines, None, _too_long(name), likely=False)
    if name.lower().strip(" :.") in _TOTALS:
        return Row(lines, None, tr("it is a total"), likely=False)
    known = any(is_known(each, name) for each in LINE_TYPES)
    if not known and not place.chosen and find_yeast(name) is not None:
        return Row(lines, None, tr(YEAST), likely=False)
    values: dict[str, Any] = {}
    faults = []
    for means, text in cells.items():
        try:
            values |= _value(means, text, uses[means], lines, cells, signs)
        except RefusedInputError as fault:
            faults.append(str(fault))
    if faults:
        return Row(lines, None, parted(faults), place.doubt)
    meant = "amount" in values or is_known(lines, name)
    doubt = place.doubt or ("" if meant else tr(NO_AMOUNT)) or _unusual(lines, values)
    return Row(lines, replace(new_line(lines, name), **values), "", doubt, meant)


def _too_long(name: str) -> str:
    return tr("{count} characters are too many for a name", count=len(name))


def _unusual(lines: str, values: dict[str, Any]) -> str:
    """Say which figure is no likely one: its unit or decimal sign may have been another."""
    for field, value in values.items():
        if isinstance(value, Quantity):
            low, high = likely(facts_of(LINE_TYPES[lines], field))
            if not low <= value.value <= high:
                return tr("{amount} is not usual", amount=value.text)
    return ""


def _value(
    means: Means, text: str, use: Use, lines: str, cells: dict[Means, str], signs: Signs
) -> dict[str, Any]:
    """What a cell sets in its line."""
    if means is Means.FIGURE:
        if lines not in _FIGURE:
            raise refused(
                "figure-unwanted",
                "{text} is a figure, and {lines} have none",
                text=quoted(text),
                lines=word(LIST_WORDS[lines]),
            )
        means = _FIGURE[lines]
    if means is Means.AMOUNT:
        unit = use.unit or cells.get(Means.UNIT, "")
        return {"amount": quantity_of(lines, "amount", text, unit, signs)}
    if means is Means.WHEN:
        return {"when": when_of(text, use.unit, signs)}
    if means in _FIELDS:
        only, field = _FIELDS[means]
        if lines != only:
            raise refused(
                "figure-of-another-sort",
                "{text} is a figure of {only}",
                text=quoted(text),
                only=word(LIST_WORDS[only]),
            )
        text = share_of(text) if means is Means.ALPHA else text
        return {field: quantity_of(lines, field, text, use.unit, signs)}
    return {FIELDS[lines]["kind"].name: kind_of(lines, text)} if means is Means.KIND else {}
