"""What a field of the recipe is: label, kind, limits, default and the ground of the default.

Every field of the document is declared once with `quantity()` or `words()`. Tables, range checks,
the recipe file, its schema and the sheet walk these declarations.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field, field, fields
from typing import Any, NamedTuple

from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, When


class FieldFacts(NamedTuple):
    """The declaration of one quantity field.

    `low` and `high` bound what is accepted, in base units, both included. `default` is the value
    taken when the field is left out (None: stays unknown), `default_text` how it is shown (as it
    would be typed, unless words say it), and `source` the ground for it. `spread` is the usual half
    width of its 5 to 95 % range, in base units or, with `relative`, as a share of the value. `bare`
    is the unit of a bare number where it is not the usual one of the kind; `likely` the range of
    usual figures where it is not that of the kind, see `designer.recipe.kinds`.
    """

    label: str
    kind: Kind
    low: float
    high: float
    default: float | None = None
    default_text: str = ""
    source: str = ""
    spread: float = 0.0
    relative: bool = False
    spread_source: str = ""
    bare: str = ""
    likely: tuple[float, float] | None = None


class InTable(NamedTuple):
    """How a field of an ingredient stands in the tables; quantities without one are further ones.

    `heading` is that of its column, with a `tip`; `bill` heads its column in the bill of
    ingredients (the heading, where it is left out). `on_sheet` says it where it is bought, with its
    `{value}`, a share in per cent; "" where it is not said there.
    """

    heading: str
    bill: str = ""
    on_sheet: str = ""
    tip: str = ""

    @property
    def billed_as(self) -> str:
        """What heads its column in the bill."""
        return self.bill or self.heading.lower()


def quantity(
    label: str,
    kind: Kind,
    *,
    low: float,
    high: float,
    default: float | None = None,
    default_text: str = "",
    source: str = "",
    spread: float = 0.0,
    relative: bool = False,
    spread_source: str = "",
    bare: str = "",
    likely: tuple[float, float] | None = None,
    table: InTable | None = None,
) -> Any:
    """Declare a field that holds a `Quantity` or None; see `FieldFacts` and `InTable`."""
    if default is not None and not default_text:
        default_text = typed(kind, default).text
    facts = FieldFacts(
        label, kind, low, high, default, default_text, source, spread, relative, spread_source,
        bare, likely,
    )  # fmt: skip
    return field(default=None, metadata={"facts": facts, "table": table})


def words(
    label: str, *, default: str = "", choices: tuple[str, ...] = (), table: InTable | None = None
) -> Any:
    """Declare a field of text; with `choices`, one of those words or the default."""
    return field(default=default, metadata={"label": label, "choices": choices, "table": table})


def moment(default: When, *, table: InTable) -> Any:
    """Declare the field that holds the `When` of a line."""
    return field(default_factory=lambda: default, metadata={"label": "Goes in", "table": table})


def clock_time(label: str, *, default: str) -> Any:
    """Declare a field that holds a time of the 24-hour clock as text, such as "09:00"."""
    return field(default=default, metadata={"label": label, "choices": (), "clock": True})


def whole_number(label: str, *, default: int, low: int, high: int) -> Any:
    """Declare a field that holds a whole number within limits, both included."""
    return field(default=default, metadata={"label": label, "whole": (low, high)})


def whole_part(label: str, of: type, *, default: Any) -> Any:
    """Declare a field that holds a part of its own; `default` makes the one that is left out."""
    return field(default_factory=default, metadata={"label": label, "part": of})


def part_or_none(label: str, of: type, *, default_text: str) -> Any:
    """Declare a field that holds a part of its own, or None; `default_text` says what that is."""
    return field(default=None, metadata={"label": label, "part": of, "default_text": default_text})


def parts(label: str, of: type, *, most: int, default_text: str, key: str = "") -> Any:
    """Declare a field that holds a tuple of up to so many parts; `key` is its name in a file.

    `default_text` says what it means that there are none.
    """
    found = {
        "label": label, "parts": of, "most": most, "key": key, "default_text": default_text,
    }  # fmt: skip
    return field(default=(), metadata=found)


def parts_or_none(label: str, of: type, *, most: int, default_text: str) -> Any:
    """Declare a field that holds a tuple of parts, which may have none; None where it is unsaid.

    `default_text` says what it means that it is.
    """
    found = {"label": label, "parts": of, "most": most, "default_text": default_text}
    return field(default=None, metadata=found)


def default_text_of(each: Field[Any]) -> str:
    """Return in words what is taken where a field is left out; "" where nothing is."""
    facts: FieldFacts | None = each.metadata.get("facts")
    return str(each.metadata.get("default_text", "")) if facts is None else facts.default_text


def key_of(each: Field[Any]) -> str:
    """Return the name of a field in a file."""
    return each.metadata.get("key") or each.name


def label_of(each: Field[Any]) -> str:
    """Return what a field of the document is called."""
    facts: FieldFacts | None = each.metadata.get("facts")
    return facts.label if facts is not None else str(each.metadata.get("label", ""))


def table_fields(part: Any) -> Iterator[tuple[Field[Any], InTable]]:
    """Yield each field of an ingredient that has a column (class or instance), as declared."""
    for each in fields(part):
        table: InTable | None = each.metadata.get("table")
        if table is not None:
            yield each, table


def quantity_fields(part: Any) -> Iterator[tuple[Field[Any], FieldFacts]]:
    """Yield each quantity field of a part of the document (class or instance) with its facts."""
    for each in fields(part):
        facts = each.metadata.get("facts")
        if facts is not None:
            yield each, facts


_FOUND: dict[tuple[type[Any], str], FieldFacts] = {}


def facts_of(part: Any, name: str) -> FieldFacts:
    """Return the declaration of the quantity field `name`; KeyError if it is not one.

    What was found is kept: a day reads some hundreds of fields at every keystroke.
    """
    owner = part if isinstance(part, type) else type(part)
    found = _FOUND.get((owner, name))
    if found is None:
        found = _FOUND[owner, name] = dict(
            (each.name, facts) for each, facts in quantity_fields(owner)
        )[name]
    return found


def number_or_none(part: Any, name: str) -> float | None:
    """Return the value of a field, its default, or None where it stays unknown."""
    typed: Quantity | None = getattr(part, name)
    return typed.value if typed is not None else facts_of(part, name).default


def number(part: Any, name: str) -> float:
    """Return the value of a field: what was typed, or else its default.

    Raises KeyError for a field that is not typed and has no default.
    """
    value = number_or_none(part, name)
    if value is None:
        raise KeyError(name)
    return value
