"""Edits: small values with a menu text and `apply(recipe) -> recipe`.

Every change to an open recipe goes through one of these, so that it can be undone, merged while a
field is being typed in, and offered as the cure of a finding. They know nothing of Qt.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any, NamedTuple, Protocol

from designer.recipe.document import LINE_TYPES, PART_TYPES, Fermentable, PlannedBoil, Recipe
from designer.recipe.message import Message, say, within
from designer.recipe.named import Line, lines_of, part_of
from designer.recipe.quantity import Quantity
from designer.recipe.same_line import partner_of

LISTS, PARTS = tuple(LINE_TYPES), tuple(PART_TYPES)


def _with(recipe: Recipe, name: str, value: Any) -> Recipe:
    changes: dict[str, Any] = {name: value}
    return replace(recipe, **changes)


class Edit(Protocol):
    """A change to a recipe."""

    @property
    def text(self) -> Message:
        """The brewer's phrase for the undo menu, such as "change hop amount"."""

    @property
    def merge_key(self) -> str:
        """Edits that follow each other with the same key, not empty, become one undo step."""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the changed recipe."""


class ChangeRecipe(NamedTuple):
    """Set one field of the recipe itself: its words, or a whole part in place of the old one."""

    field: str
    value: Any
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the field set."""
        return _with(recipe, self.field, self.value)


class ChangePart(NamedTuple):
    """Set one field of `pot`, `fermenter`, `process`, `methods` or `yeast`."""

    part: str
    field: str
    value: Any
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the field set."""
        return _with(
            recipe, self.part, replace(part_of(recipe, self.part), **{self.field: self.value})
        )


class ChangeLine(NamedTuple):
    """Set fields of one line of `fermentables`, `hops` or `extras`; no line, no change."""

    lines: str
    line_id: int
    changes: tuple[tuple[str, Any], ...]
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the line changed."""
        changed = tuple(
            replace(line, **dict(self.changes)) if line.line_id == self.line_id else line
            for line in lines_of(recipe, self.lines)
        )
        return _with(recipe, self.lines, changed)


class AddLine(NamedTuple):
    """Put a line into `fermentables`, `hops` or `extras` at `position` (None: at the end)."""

    lines: str
    line: Line
    text: Message
    position: int | None = None
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the line added under a line_id of its own."""
        old = lines_of(recipe, self.lines)
        new = replace(self.line, line_id=next_line_id(recipe))
        at = len(old) if self.position is None else self.position
        return _with(recipe, self.lines, (*old[:at], new, *old[at:]))


class RemoveLines(NamedTuple):
    """Take lines out of `fermentables`, `hops` or `extras`."""

    lines: str
    line_ids: frozenset[int]
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe without the lines."""
        kept = tuple(
            each for each in lines_of(recipe, self.lines) if each.line_id not in self.line_ids
        )
        return _with(recipe, self.lines, kept)


class MoveLine(NamedTuple):
    """Move a line to `position` among the others of its list."""

    lines: str
    line_id: int
    position: int
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with the line moved."""
        lines = lines_of(recipe, self.lines)
        moved = [each for each in lines if each.line_id == self.line_id]
        others = [each for each in lines if each.line_id != self.line_id]
        at = max(0, min(self.position, len(others)))
        return _with(recipe, self.lines, (*others[:at], *moved, *others[at:]))


class Together(NamedTuple):
    """Several edits as one undo step."""

    edits: tuple[Edit, ...]
    text: Message
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe after all of them, in order."""
        for edit in self.edits:
            recipe = edit.apply(recipe)
        return recipe


PASTE = say("paste", "paste {what}")
BRING_IN = say("bring-in", "import {what}")


def lines_added(found: Sequence[tuple[str, Line]], text: Message) -> Together:
    """Return the edit that adds lines, each given with its list, as one undo step.

    In its text is put `what`: the name of the one line, or how many they are.
    """
    many = say("lines", "{number} lines", number=len(found))
    text = text._replace(names=(("what", found[0][1].name if len(found) == 1 else many),))
    return Together(tuple(AddLine(lines, line, text) for lines, line in found), text)


def changing(label: str) -> Message:
    """Return the phrase for the change of a field, or of a choice, with that label."""
    return say("change", "change {field}", field=within(label))


def set_locked(lines: str, line: Line, locked: bool) -> ChangeLine:
    """Return the edit that locks a line against change, or unlocks it."""
    text = (
        say("lock", "lock {name}", name=line.name)
        if locked
        else say("unlock", "unlock {name}", name=line.name)
    )
    return ChangeLine(lines, line.line_id, (("locked", locked),), text)


def with_amount(line: Line, amount: Quantity | None) -> tuple[tuple[str, Any], ...]:
    """Return the changes that give a line another amount, for a `ChangeLine`.

    What the label of a hopped kit says is for the tin as it was: that amount is kept beside it, so
    that half a tin brings half its bitterness.
    """
    changes: tuple[tuple[str, Any], ...] = (("amount", amount),)
    if not isinstance(line, Fermentable) or line.label_volume is None:
        return changes
    if line.label_amount is None and line.amount is not None and line.amount.value > 0.0:
        changes = (*changes, ("label_amount", line.amount))
    return changes


def next_line_id(recipe: Recipe) -> int:
    """Return a line_id that no line of the recipe has, nor any of a boil of its plan."""
    return 1 + max((line.line_id for lines in all_lists(recipe) for line in lines), default=0)


def all_lists(recipe: Recipe) -> Iterator[tuple[Line, ...]]:
    """Yield the lists of the recipe as it is written, then those that its boils have for them."""
    for name in LISTS:
        yield lines_of(recipe, name)
    for boil in recipe.boils:
        for name in LISTS:
            yield getattr(boil, name) or ()


def with_line_ids(recipe: Recipe) -> Recipe:
    """Return the recipe with fresh line_ids on every line, as after loading."""
    count = 0
    for name in LISTS:
        lines = lines_of(recipe, name)
        numbered = tuple(replace(line, line_id=count + i) for i, line in enumerate(lines, 1))
        count += len(numbered)
        recipe = _with(recipe, name, numbered)
    if recipe.boils:
        recipe = replace(recipe, boils=tuple(_numbered(recipe, each) for each in recipe.boils))
    return recipe


def _numbered(recipe: Recipe, boil: PlannedBoil) -> PlannedBoil:
    """Return a boil whose own lines bear the number of the written line that they are."""
    free = next_line_id(recipe)
    for name in LISTS:
        own: tuple[Line, ...] | None = getattr(boil, name)
        if own is None:
            continue
        written, found = list(lines_of(recipe, name)), []
        for line in own:
            partner = partner_of(line, written)
            if partner is not None:
                written.remove(partner)
            found.append(replace(line, line_id=free if partner is None else partner.line_id))
            free += partner is None
        changes: dict[str, Any] = {name: tuple(found)}
        boil = replace(boil, **changes)
    return boil
