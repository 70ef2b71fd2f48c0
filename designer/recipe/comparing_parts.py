"""Parts and lines of a recipe that differ, in a brewer's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field, dataclass, fields
from typing import Any

from designer.recipe.fields import label_of, table_fields
from designer.recipe.named import is_locked, value_of
from designer.recipe.quantity import Quantity, When
from designer.recipe.same_line import partner_of
from designer.recipe.when_words import said_when
from designer.translation import named, tr


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that differs: what it is, and its text in each recipe ("" where it is not)."""

    what: str
    before: str
    after: str


def fields_that_differ(before: Any, after: Any) -> Iterator[Difference]:
    """Yield the fields of a part that differ."""
    for each in fields(before):
        first, second = getattr(before, each.name), getattr(after, each.name)
        if first != second:
            yield Difference(tr(label_of(each)), value_text(each, first), value_text(each, second))


def lines_that_differ(before: tuple[Any, ...], after: tuple[Any, ...]) -> Iterator[Difference]:
    """Yield the lines that differ, matched by name and time."""
    left = list(after)
    for line in before:
        partner = partner_of(line, left)
        if partner is None:
            yield Difference(named(line.name) or tr("unnamed"), line_text(line), "")
            continue
        left.remove(partner)
        if line != partner:
            texts = (line_text(line), line_text(partner))
            if line.name != partner.name:  # the same ingredient, its name written in another way
                texts = (f"{line.name}, {texts[0]}", f"{partner.name}, {texts[1]}")
            yield Difference(named(line.name) or tr("unnamed"), *texts)
    for line in left:
        yield Difference(named(line.name) or tr("unnamed"), "", line_text(line))


_TOLD_APART = ("name", "kind", "purpose", "amount", "when")
"""Fields of a line that stand at its beginning or end, or go without saying."""


def line_text(line: Any) -> str:
    """Return a line in words: amount, figures, when it goes in."""
    texts = [line.amount.text if line.amount is not None else ""]
    for each, _ in table_fields(line):
        if each.name not in _TOLD_APART:
            texts.append(value_text(each, value_of(line, each.name)))
    texts.append(said_when(line.when.text))
    if is_locked(line):
        texts.append(tr("locked"))
    return ", ".join(text for text in texts if text)


def value_text(of: Field[Any], value: object) -> str:
    """Return what a field holds in words; "" where it holds nothing."""
    if isinstance(value, When):
        return said_when(value.text)
    if isinstance(value, Quantity):
        return value.text
    if value is None:
        return ""
    return tr(str(value)) if of.metadata.get("choices") else str(value)
