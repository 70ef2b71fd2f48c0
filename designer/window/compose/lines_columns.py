"""The columns of the three editors; how a line of each begins, is renamed, and what it gives."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from designer.errors import RefusedInputError
from designer.library.new_lines import new_line
from designer.library.renaming import Changes, renamed_extra, renamed_fermentable, renamed_hop
from designer.recipe.document import LINE_TYPES, Hop
from designer.recipe.fields import label_of, table_fields
from designer.recipe.named import Line
from designer.recipe.quantity import Kind, Quantity, Stage
from designer.translation import message, tr
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat
from designer.wort.density import plato_from_gravity

if TYPE_CHECKING:
    from designer.brewday.results import Day


LINES_MIME = "application/x-hobwort-lines"
"""Lines on the clipboard, exactly as they are."""


class LinesWords(NamedTuple):
    """What is said of one list, looked up where it is shown.

    `noun` is one of its lines within a sentence, `invitation` stands where the next is typed.
    """

    heading: str
    noun: str
    invitation: str
    add: str
    more: str
    instead: str
    unnamed: str


class LinesSpec(NamedTuple):
    """One editor: its list in the recipe, its columns, how a line begins, and what one gives."""

    lines: str
    words: LinesWords
    columns: tuple[Column, ...]
    begin: Callable[[str, DisplayFormat], Line]
    renamed: Callable[[Any, str], Changes]
    details: tuple[str, ...] = ()
    gives: Callable[[Line, Day, DisplayFormat], str] | None = None


def _points(line: Line, day: Day, display: DisplayFormat) -> str:
    gives = day.gives.get(line.line_id)
    if gives is None:
        return ""
    if display.settings.gravity == "plato":
        plato = float(plato_from_gravity(1.0 + gives.points / 1000.0))
        return display.decimal(f"{plato:.1f} °P")
    return tr("{number} points", number=display.decimal(f"{gives.points:.1f}"))


def _ibu(line: Line, day: Day, display: DisplayFormat) -> str:
    gives = day.gives.get(line.line_id)
    if gives is None or (isinstance(line, Hop) and line.when.stage is Stage.DRY_HOP):
        return tr("aroma") if isinstance(line, Hop) and line.amount is not None else ""
    return display.decimal(f"{gives.bitterness_ibu:.1f} IBU")


def _leading_amount(text: str, kind: Kind, display: DisplayFormat) -> tuple[Quantity | None, str]:
    """Split "1.5 kg light extract" into the amount and the name; no amount, the text alone.

    As many words as can be belong to a measured amount ("2 fl oz"), all of them where it stands
    alone; a piece is one word, or the name behind it would be taken for pieces too ("2 tablets fish
    finings"), and what has no more than that is a name ("2 lemons").
    """
    words = text.split()
    if not words or not (words[0][0].isdigit() or words[0][0] in "½¼¾"):
        return None, text.strip()
    found: tuple[Quantity | None, str] = None, text.strip()
    for count in range(min(len(words), 4), 0, -1):
        head = " ".join(words[:count])
        if not any(sign.isalpha() for sign in head):
            continue
        try:
            amount = display.read(kind, head, look_up=False)
        except RefusedInputError:
            continue
        is_measured = amount.unit in ("", "g", "mL")
        if is_measured or count < len(words):
            found = amount, " ".join(words[count:])
        if is_measured:
            break
    return found


def _begin(lines: str, kind: Kind, text: str, display: DisplayFormat) -> Line:
    """Return a new line of what was typed: an amount, if there is one, and a name."""
    amount, name = _leading_amount(text, kind, display)
    line = new_line(lines, name)
    # What the catalogue doses keeps its usual dose where none is typed.
    return replace(line, amount=amount) if amount is not None else line


_FIRST = ("amount", "name", "kind", "form", "purpose", "when", "colour", "alpha")
"""The order of the columns; others that are declared follow in theirs."""
_WHEN: dict[str, Any] = {
    "text": lambda line, display: display.when(line.when),
    "read": lambda typed: typed.display.read_when(typed.text),
    "width": 104,  # "dry hop 14 days", and its margins
}
_LOOKS: dict[tuple[str, str], dict[str, Any]] = {
    ("fermentables", "amount"): {"bare": ("kg", "lb"), "width": 64},
    ("hops", "amount"): {"bare": ("g", "oz"), "width": 64},
    ("extras", "amount"): {"width": 64},
    ("fermentables", "name"): {"suggests": "fermentables", "width": 210},
    ("hops", "name"): {"suggests": "hops", "width": 210},
    ("extras", "name"): {"suggests": "extras", "width": 210},
    ("fermentables", "when"): {"suggests": "extract whens", **_WHEN},
    ("hops", "when"): {"suggests": "hop whens", **_WHEN},
    ("extras", "when"): {"suggests": "extra whens", **_WHEN},
    ("fermentables", "kind"): {"width": 100},
    ("fermentables", "colour"): {"width": 90},  # a swatch, and "1,324 EBC" in any typeface
    ("hops", "form"): {"width": 100},
    ("hops", "alpha"): {"width": 132},  # with the range of a variety
    ("extras", "purpose"): {"width": 210},
}
"""Width, offers and unit of a bare number of a column, where they are not the usual ones."""


def _columns(lines: str, *given: Column) -> tuple[Column, ...]:
    """Return a column for each field declared to have one, then those of what a line gives."""
    declared = sorted(
        table_fields(LINE_TYPES[lines]),
        key=lambda pair: _FIRST.index(pair[0].name) if pair[0].name in _FIRST else len(_FIRST),
    )
    found = []
    for each, table in declared:
        facts, choices = each.metadata.get("facts"), each.metadata.get("choices", ())
        look = {"width": 70, "right": facts is not None} | _LOOKS.get((lines, each.name), {})
        found.append(
            Column(
                each.name, table.heading, facts, label=label_of(each), choices=choices,
                tip=table.tip, **look,
            )
        )  # fmt: skip
    return (*found, *given)


def _details(lines: str) -> tuple[str, ...]:
    """Return the fields of a line that have no column; its lock is a tick of its own."""
    return tuple(
        each.name
        for each in fields(LINE_TYPES[lines])
        if each.metadata.get("table") is None and each.name not in ("locked", "line_id")
    )


FERMENTABLES = LinesSpec(
    "fermentables",
    LinesWords(
        message("Fermentables"),
        message("fermentable"),
        message("Type here to add: amount and name, of extract, sugar or grain"),
        message("Add a fermentable"),
        message("Details of the chosen fermentable"),
        message("Replace with another fermentable"),
        message("unnamed fermentable"),
    ),
    _columns(
        "fermentables",
        Column("gives", message("Gives"), editable=False, right=True, width=80,
               tip=message("What the line adds to the original gravity (OG)")),
    ),
    partial(_begin, "fermentables", Kind.MASS),
    renamed_fermentable,
    _details("fermentables"),
    _points,
)  # fmt: skip
HOPS = LinesSpec(
    "hops",
    LinesWords(
        message("Hops"),
        message("hop"),
        message("Type here to add: amount and variety"),
        message("Add a hop"),
        message("Details of the chosen hop"),
        message("Replace with another hop"),
        message("unnamed hop"),
    ),
    _columns(
        "hops",
        Column("gives", message("Gives"), editable=False, right=True, width=62,
               tip=message("Bitterness from this line in the finished beer")),
    ),
    partial(_begin, "hops", Kind.MASS),
    renamed_hop,
    _details("hops"),
    _ibu,
)  # fmt: skip
EXTRAS = LinesSpec(
    "extras",
    LinesWords(
        message("Extras"),
        message("extra"),
        message("Type here to add: finings, yeast nutrient, antifoam …"),
        message("Add an extra"),
        message("Details of the chosen extra"),
        message("Replace with another extra"),
        message("unnamed extra"),
    ),
    _columns("extras"),
    partial(_begin, "extras", Kind.DOSE),
    renamed_extra,
    _details("extras"),
)  # fmt: skip
ALL = (FERMENTABLES, HOPS, EXTRAS)
