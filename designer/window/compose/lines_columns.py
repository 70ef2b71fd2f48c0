"""The columns of the three editors: what each shows, how it is typed, what it changes.

Columns are data, so that one model and one delegate serve fermentables, hops and extras.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from designer.library import catalogue
from designer.recipe.document import FERMENTABLE_KINDS, HOP_FORMS, Extra, Fermentable, Hop
from designer.recipe.edits import Line
from designer.recipe.fields import FieldFacts, facts_of
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.units import ShownUnits
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from designer.brewday.results import Outlook

Changes = tuple[tuple[str, Any], ...]


class Column(NamedTuple):
    """One column: `field` is the recipe's, or "" for what is computed."""

    key: str
    heading: str
    field: str = ""
    facts: FieldFacts | None = None
    choices: tuple[str, ...] = ()
    suggests: str = ""
    bare_metric: str = ""
    bare_us: str = ""
    right: bool = False
    width: int = 90
    gives: Callable[[Line, Outlook, DisplayFormat], str] | None = None
    tip: str = ""

    @property
    def editable(self) -> bool:
        """Whether the column can be typed in."""
        return bool(self.field)

    def bare(self, display: DisplayFormat) -> str:
        """Return the unit of a bare number in an empty cell, where it is no usual one."""
        return self.bare_us if display.one_system is ShownUnits.US else self.bare_metric


class LinesSpec(NamedTuple):
    """One editor: its list in the recipe, its columns, and how a line begins."""

    lines: str
    heading: str
    noun: str
    invitation: str
    columns: tuple[Column, ...]
    begin: Callable[[str, DisplayFormat], Line]
    renamed: Callable[[Any, str], Changes]
    details: tuple[str, ...] = ()


def parsed(
    column: Column, line: Line, text: str, display: DisplayFormat, before: str = ""
) -> Changes:
    """Return the changes that typing `text` in a column makes; raises RefusedInputError.

    `before` is what the cell showed when typing began, if that is not what it shows now.
    """
    from designer.library.document_reading import checked_quantity

    if column.facts is not None:
        if not text.strip():
            return ((column.field, None),)
        before = before or display.to_edit(column.facts.kind, getattr(line, column.field))
        found = display.read(column.facts.kind, text, before, column.bare(display))
        return ((column.field, checked_quantity(column.facts, found)),)
    if column.field == "when":
        return (("when", display.read_when(text)),)
    return ((column.field, text.strip()),)


def shown_text(column: Column, line: Line, outlook: Outlook | None, display: DisplayFormat) -> str:
    """Return what a cell shows; what a line gives is blank as long as nothing is forecast."""
    if column.gives is not None:
        return column.gives(line, outlook, display) if outlook is not None else ""
    value = getattr(line, column.field)
    if isinstance(value, When):
        return display.when(value)
    if isinstance(value, str):
        return value
    return display.quantity(column.facts.kind, value) if column.facts is not None else ""


def _facts(of: type[Any], name: str) -> FieldFacts:
    return facts_of(of, name)


def _points(line: Line, outlook: Outlook, display: DisplayFormat) -> str:
    gives = outlook.day.gives.get(line.line_id)
    if gives is None:
        return ""
    if display.settings.gravity == "plato":
        from designer.wort.density import plato_from_gravity

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
    from designer.errors import RefusedInputError

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
    from designer.library.new_lines import new_line  # only a new line needs it, not the start

    amount, name = _leading_amount(text, kind, display)
    line = new_line(lines, name)
    # What the catalogue doses keeps its usual dose where none is typed.
    return replace(line, amount=amount) if amount is not None else line


def _renamed_fermentable(line: Fermentable, name: str) -> Changes:
    entry = catalogue.find_fermentable(name)
    if entry is None or name == line.name:
        return (("name", name),)
    new = catalogue.new_fermentable(entry)
    kept = ("kind", "colour", "extract", "fermentability")
    changes: Changes = (("name", entry.name), *((key, getattr(new, key)) for key in kept))
    moves = (new.when.stage is Stage.STEEP) is not (line.when.stage is Stage.STEEP)
    return (*changes, ("when", new.when)) if moves else changes


def _renamed_hop(hop: Hop, name: str) -> Changes:
    entry = catalogue.find_hop(name)
    if entry is None or name == hop.name:
        return (("name", name),)
    return (("name", entry.name), ("alpha", catalogue.new_hop(entry).alpha))


def _renamed_extra(extra: Extra, name: str) -> Changes:
    entry = catalogue.find_aid(name)
    if entry is None or name == extra.name:
        return (("name", name),)
    new = catalogue.new_extra(entry)
    return (("name", entry.name), ("purpose", new.purpose), ("when", new.when))


_WHEN = "When it goes in: steep, boil 60 min (minutes left), flame-out, stand 20 min at 80 °C …"

FERMENTABLES = LinesSpec(
    "fermentables",
    "Fermentables",
    "fermentable",
    "Type here to add: amount and name, of extract, sugar or grain",
    (
        Column("amount", "Amount", "amount", _facts(Fermentable, "amount"), bare_metric="kg",
               bare_us="lb", right=True, width=64),
        Column("name", "Fermentable", "name", suggests="fermentables", width=210),
        Column("kind", "Kind", "kind", choices=FERMENTABLE_KINDS, width=100),
        Column("when", "Goes in", "when", suggests="extract whens", width=86, tip=_WHEN),
        Column("colour", "Colour", "colour", _facts(Fermentable, "colour"), right=True, width=70,
               tip="Colour of the ingredient, °L, EBC or SRM"),
        Column("gives", "Gives", gives=_points, right=True, width=62,
               tip="What the line adds to the gravity before yeast"),
    ),
    partial(_begin, "fermentables", Kind.MASS),
    _renamed_fermentable,
    ("extract", "fermentability", "label_bitterness", "label_volume", "label_amount", "price"),
)  # fmt: skip
HOPS = LinesSpec(
    "hops",
    "Hops",
    "hop",
    "Type here to add: amount and variety",
    (
        Column("amount", "Amount", "amount", _facts(Hop, "amount"), bare_metric="g",
               bare_us="oz", right=True, width=64),
        Column("name", "Hop", "name", suggests="hops", width=210),
        Column("form", "Form", "form", choices=HOP_FORMS, width=100),
        Column("when", "Goes in", "when", suggests="hop whens", width=86, tip=_WHEN),
        Column("alpha", "Alpha acid", "alpha", _facts(Hop, "alpha"), right=True, width=70,
               tip="As printed on the packet; 7.2 % ± 0.5 % if you know how sure it is"),
        Column("gives", "Gives", gives=_ibu, right=True, width=62,
               tip="Bitterness from this line in the finished beer"),
    ),
    partial(_begin, "hops", Kind.MASS),
    _renamed_hop,
    ("price",),
)  # fmt: skip
EXTRAS = LinesSpec(
    "extras",
    "Extras",
    "extra",
    "Type here to add: finings, yeast nutrient, antifoam …",
    (
        Column("amount", "Amount", "amount", _facts(Extra, "amount"), right=True, width=64),
        Column("name", "Extra", "name", suggests="extras", width=210),
        Column("purpose", "For", "purpose", width=210),
        Column("when", "Goes in", "when", suggests="extra whens", width=86, tip=_WHEN),
    ),
    partial(_begin, "extras", Kind.DOSE),
    _renamed_extra,
    ("price",),
)  # fmt: skip
ALL = (FERMENTABLES, HOPS, EXTRAS)
