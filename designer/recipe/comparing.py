"""What differs between two recipes, line by line, in a brewer's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field, dataclass, fields
from typing import Any

from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.fields import table_fields
from designer.recipe.named import is_locked, lines_of, part_of, value_of
from designer.recipe.quantity import Quantity, When
from designer.recipe.same_line import partner_of
from designer.translation import message, tr


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that differs: what it is, and its text in each recipe ("" where it is not)."""

    what: str
    before: str
    after: str


def differences(before: Recipe, after: Recipe) -> tuple[Difference, ...]:
    """Return all that differs, in the order of the document; lines are matched by name and time."""
    return tuple(_all(before, after))


def _all(before: Recipe, after: Recipe) -> Iterator[Difference]:
    for name, label in (
        ("name", message("Name")),
        ("style", message("Style")),
        ("notes", message("Notes")),
    ):
        first, second = value_of(before, name), value_of(after, name)
        if first != second:
            yield Difference(tr(label), first, second)
    for lines in LINE_TYPES:
        yield from _lines(lines_of(before, lines), lines_of(after, lines))
    for part in PART_TYPES:
        yield from _part(part_of(before, part), part_of(after, part))


def _part(before: Any, after: Any) -> Iterator[Difference]:
    for each in fields(before):
        first, second = getattr(before, each.name), getattr(after, each.name)
        if first != second:
            facts = each.metadata.get("facts")
            label = facts.label if facts is not None else each.metadata.get("label", each.name)
            yield Difference(tr(label), _text(each, first), _text(each, second))


def _lines(before: tuple[Any, ...], after: tuple[Any, ...]) -> Iterator[Difference]:
    left = list(after)
    for line in before:
        partner = partner_of(line, left)
        if partner is None:
            yield Difference(line.name or tr("unnamed"), line_text(line), "")
            continue
        left.remove(partner)
        if line != partner:
            texts = (line_text(line), line_text(partner))
            if line.name != partner.name:  # the same ingredient, its name written in another way
                texts = (f"{line.name}, {texts[0]}", f"{partner.name}, {texts[1]}")
            yield Difference(line.name or tr("unnamed"), *texts)
    for line in left:
        yield Difference(line.name or tr("unnamed"), "", line_text(line))


_TOLD_APART = ("name", "kind", "purpose", "amount", "when")
"""Fields of a line that stand at its beginning or end, or go without saying."""


def line_text(line: Any) -> str:
    """Return a line in words: amount, figures, when it goes in."""
    texts = [line.amount.text if line.amount is not None else ""]
    for each, _ in table_fields(line):
        if each.name not in _TOLD_APART:
            texts.append(_text(each, value_of(line, each.name)))
    texts.append(line.when.text)
    if is_locked(line):
        texts.append(tr("locked"))
    return ", ".join(text for text in texts if text)


def _text(of: Field[Any], value: object) -> str:
    if isinstance(value, Quantity | When):
        return value.text
    if value is None:
        return ""
    return tr(str(value)) if of.metadata.get("choices") else str(value)
