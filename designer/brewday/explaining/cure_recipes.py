"""The recipe of the beer as it is, and with what is put in: each step as edit and as plain values.

A fermenter that was topped up holds what its mark says, so what goes in afterwards raises the mark
by what it fills; else the day would pour in as much less water.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from designer.brewday.measured.advice_ahead import FIRST_ADDED_ID
from designer.brewday.measured.advice_levers import Change
from designer.brewday.measured.line_levers import PutIn
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import ChangeLine, ChangePart, Edit, Together, all_lists, with_amount
from designer.recipe.fields import key_of
from designer.recipe.kinds import typed
from designer.recipe.message import Message, say
from designer.recipe.named import Line, lines_of
from designer.recipe.plan import pours, recipe_of_boil
from designer.recipe.plan_edits import InBoil
from designer.recipe.quantity import Kind, Quantity, When

LEAST_MOVED_L, LEAST_MOVED_SG = 1e-3, 1e-5
"""Less than that moves no reading."""
_OF_CURE = say("cure", "cure an odd reading")


@dataclass(frozen=True, slots=True)
class Step:
    """One change: its edit, as plain values of a log, and as the words of `--set`.

    A line that is put into a boil of a plan has no such words.
    """

    edit: Edit
    change: Change
    settings: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """The fermenter that was read, and the boil of which it is filled first; counted from 1."""

    recipe: Recipe
    fermenter: int

    @property
    def boil(self) -> int:
        """The boil."""
        own = [each.boil for each in pours(self.recipe) if each.fermenter == self.fermenter]
        return own[0] if own else 1

    @property
    def fermentables(self) -> tuple[Fermentable, ...]:
        """What goes into that boil."""
        recipe = self.recipe
        return (recipe_of_boil(recipe, self.boil) if recipe.boils else recipe).fermentables

    def fermentable(self, line_id: int) -> Fermentable | None:
        """Return the line of that line_id; None where there is none."""
        return next((each for each in self.fermentables if each.line_id == line_id), None)

    def volume(self, litres: float) -> Step:
        """Return the step that fills the fermenter up to so much."""
        mark = typed(Kind.VOLUME, round(litres, 2), ".6g")
        planned = bool(self.recipe.fermenters)
        change = {
            "part": "process",
            "field": "top_up_to",
            "to": mark.text,
            "fermenter": self.fermenter if planned else 0,
        }
        edit = InBoil(ChangePart("process", "top_up_to", mark, _OF_CURE), self.boil, self.fermenter)
        where = f"fermenters.{self.fermenter}" if planned else "process"
        return Step(edit, change, ((f"{where}.top_up_to", mark.text),))

    def amount(self, line_id: int, amount: Quantity) -> Iterator[Step]:
        """Yield the steps by which a fermentable has another amount."""
        own, known = bool(self.recipe.boils), self.fermentables
        at = next((n for n, each in enumerate(known, 1) if each.line_id == line_id), 0)
        if not at:
            return
        where = f"boils.{self.boil}.fermentables.{at}" if own else f"fermentables.{at}"
        for field, value in with_amount(known[at - 1], amount):
            change = {
                "lines": "fermentables",
                "line_id": line_id,
                "field": field,
                "to": value.text,
                "boil": self.boil if own else 0,
            }
            edit = ChangeLine("fermentables", line_id, ((field, value),), _OF_CURE)
            yield Step(InBoil(edit, self.boil), change, ((f"{where}.{field}", value.text),))

    def put_in(self, line: Fermentable, when: When) -> Step:
        """Return the step that puts a fermentable in, at the end of the list."""
        taken = [each.line_id for lines in all_lists(self.recipe) for each in lines]
        new = replace(line, when=when, line_id=max([FIRST_ADDED_ID - 1, *taken]) + 1)
        own = bool(self.recipe.boils)
        texts = dict(_texts(new))
        change = {
            "lines": "fermentables",
            "line_id": new.line_id,
            "add": texts,
            "boil": self.boil if own else 0,
        }
        edit = PutIn("fermentables", new, self.boil, _OF_CURE)
        at = len(lines_of(self.recipe, "fermentables")) + 1
        settings = () if own else tuple((f"fermentables.{at}.{k}", t) for k, t in texts.items())
        return Step(edit, change, settings)

    def since(self, more_l: float, by_sg: float) -> Iterator[Change]:
        """Yield what moves readings taken before: so much is in it more, and so much stronger."""
        if abs(more_l) >= LEAST_MOVED_L:
            number = self.fermenter if self.recipe.fermenters else 0
            yield {"fermenter": number, "more_l": round(more_l, 4)}
        if abs(by_sg) >= LEAST_MOVED_SG:
            yield {"of_fermenter": self.fermenter, "raises": round(by_sg, 6)}


def _texts(line: Line) -> Iterator[tuple[str, str]]:
    """Yield what a file would hold of a line that is put in, its name first."""
    for each in fields(line):
        value: Any = getattr(line, each.name)
        if each.name in ("line_id", "locked", "price") or value is None:
            continue
        text = value if isinstance(value, str) else value.text
        yield key_of(each), str(text)


def together(steps: Iterable[Step], text: Message) -> Edit | None:
    """Return steps as one that undo takes back; None where there are none."""
    edits = tuple(each.edit for each in steps)
    return Together(edits, text) if edits else None


def settings_of(steps: Sequence[Step]) -> dict[str, str]:
    """Return steps as the words of `--set`; none where not all of them can be said so."""
    if not all(each.settings for each in steps):
        return {}
    return dict(pair for each in steps for pair in each.settings)
