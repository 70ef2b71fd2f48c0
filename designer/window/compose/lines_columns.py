"""The columns of the three editors; how a line of each begins, is renamed, and what it gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from designer.errors import RefusedInputError
from designer.library.new_lines import new_line
from designer.library.renaming import Changes, renamed_extra, renamed_fermentable, renamed_hop
from designer.recipe.document import FERMENTABLE_KINDS, HOP_FORMS, Extra, Fermentable, Hop
from designer.recipe.fields import facts_of
from designer.recipe.named import Line
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.wort.density import plato_from_gravity

if TYPE_CHECKING:
    from designer.brewday.results import Outlook


LINES_MIME = "application/x-hobwort-lines"
"""Lines on the clipboard, exactly as they are."""


class LinesSpec(NamedTuple):
    """One editor: its list in the recipe, its columns, how a line begins, and what one gives."""

    lines: str
    heading: str
    noun: str
    invitation: str
    columns: tuple[Column, ...]
    begin: Callable[[str, DisplayFormat], Line]
    renamed: Callable[[Any, str], Changes]
    details: tuple[str, ...] = ()
    gives: Callable[[Line, Outlook, DisplayFormat], str] | None = None


def _points(line: Line, outlook: Outlook, display: DisplayFormat) -> str:
    gives = outlook.day.gives.get(line.line_id)
    if gives is None:
        return ""
    if display.settings.gravity == "plato":
        plato = float(plato_from_gravity(1.0 + gives.points / 1000.0))
        return display.decimal(f"{plato:.1f} °P")
    return display.decimal(f"{gives.points:.1f} pt")


def _ibu(line: Line, outlook: Outlook, display: DisplayFormat) -> str:
    gives = outlook.day.gives.get(line.line_id)
    if gives is None or (isinstance(line, Hop) and line.when.stage is Stage.DRY_HOP):
        return "aroma" if isinstance(line, Hop) and line.amount is not None else ""
    return display.decimal(f"{gives.bitterness_ibu:.1f} IBU")


def _leading_amount(text: str, kind: Kind, display: DisplayFormat) -> tuple[Quantity | None, str]:
    """Split "1.5 kg light extract" into the amount and the name; no amount, the text alone.

    As many words as can be belong to a measured amount ("2 fl oz"); a piece is one word, or the
    name behind it would be taken for pieces too ("2 tablets fish finings").
    """
    words = text.split()
    if not words or not (words[0][0].isdigit() or words[0][0] in "½¼¾"):
        return None, text.strip()
    found: tuple[Quantity | None, str] = None, text.strip()
    for count in range(min(len(words) - 1, 4), 0, -1):
        head = " ".join(words[:count])
        if not any(sign.isalpha() for sign in head):
            continue
        try:
            amount = display.read(kind, head, look_up=False)
        except RefusedInputError:
            continue
        found = amount, " ".join(words[count:])
        if amount.unit in ("", "g", "mL"):
            break
    return found


def _begin(lines: str, kind: Kind, text: str, display: DisplayFormat) -> Line:
    """Return a new line of what was typed: an amount, if there is one, and a name."""
    amount, name = _leading_amount(text, kind, display)
    line = new_line(lines, name)
    # What the catalogue doses keeps its usual dose where none is typed.
    return replace(line, amount=amount) if amount is not None else line


_WHEN_TIP = "When it goes in: steep, boil 60 min (minutes left), flame-out, stand 20 min at 80 °C …"


def _when(suggests: str) -> Column:
    return Column(
        "when", "Goes in",
        text=lambda line, display: display.when(line.when),
        read=lambda typed: typed.display.read_when(typed.text),
        suggests=suggests, width=86, tip=_WHEN_TIP,
    )  # fmt: skip


FERMENTABLES = LinesSpec(
    "fermentables",
    "Fermentables",
    "fermentable",
    "Type here to add: amount and name, of extract, sugar or grain",
    (
        Column("amount", "Amount", facts_of(Fermentable, "amount"), bare=("kg", "lb"),
               right=True, width=64),
        Column("name", "Fermentable", suggests="fermentables", width=210),
        Column("kind", "Kind", choices=FERMENTABLE_KINDS, width=100),
        _when("extract whens"),
        Column("colour", "Colour", facts_of(Fermentable, "colour"), right=True, width=70,
               tip="Colour of the ingredient, °L, EBC or SRM"),
        Column("gives", "Gives", editable=False, right=True, width=62,
               tip="What the line adds to the gravity before yeast"),
    ),
    partial(_begin, "fermentables", Kind.MASS),
    renamed_fermentable,
    ("extract", "fermentability", "label_bitterness", "label_volume", "label_amount", "price"),
    _points,
)  # fmt: skip
HOPS = LinesSpec(
    "hops",
    "Hops",
    "hop",
    "Type here to add: amount and variety",
    (
        Column("amount", "Amount", facts_of(Hop, "amount"), bare=("g", "oz"), right=True, width=64),
        Column("name", "Hop", suggests="hops", width=210),
        Column("form", "Form", choices=HOP_FORMS, width=100),
        _when("hop whens"),
        Column("alpha", "Alpha acid", facts_of(Hop, "alpha"), right=True, width=70,
               tip="As printed on the packet; 7.2 % ± 0.5 % if you know how sure it is"),
        Column("gives", "Gives", editable=False, right=True, width=62,
               tip="Bitterness from this line in the finished beer"),
    ),
    partial(_begin, "hops", Kind.MASS),
    renamed_hop,
    ("price",),
    _ibu,
)  # fmt: skip
EXTRAS = LinesSpec(
    "extras",
    "Extras",
    "extra",
    "Type here to add: finings, yeast nutrient, antifoam …",
    (
        Column("amount", "Amount", facts_of(Extra, "amount"), right=True, width=64),
        Column("name", "Extra", suggests="extras", width=210),
        Column("purpose", "For", width=210),
        _when("extra whens"),
    ),
    partial(_begin, "extras", Kind.DOSE),
    renamed_extra,
    ("price",),
)  # fmt: skip
ALL = (FERMENTABLES, HOPS, EXTRAS)
