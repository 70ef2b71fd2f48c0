"""What of an open recipe is worked on: as it is written, or one boil of its plan.

Editors see a plain recipe in either case, with its day, and their edits are put where they belong.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, Signal, SignalInstance

from designer.recipe.document import Recipe
from designer.recipe.edits import LISTS, Edit
from designer.recipe.named import lines_of
from designer.recipe.plan import (
    boils_of,
    fermenters_of,
    is_planned,
    pours,
    recipe_at,
    recipe_of_pour,
)
from designer.recipe.plan_edits import InBoil, idle_as_written, idle_in_boil
from designer.window.parts.field_recipe import FieldRecipe
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.results import Day


NOTHING: frozenset[str] = frozenset()


class EditedRecipe(FieldRecipe, Protocol):
    """What editors of lines ask of the recipe, beside what fields do."""

    @property
    def values_changed(self) -> SignalInstance:
        """The values of the day are known, the rest is not yet."""

    @property
    def outlook_changed(self) -> SignalInstance:
        """All is known that is forecast."""

    @property
    def waiting(self) -> bool:
        """Whether nothing has been forecast yet."""

    @property
    def day(self) -> Day:
        """The day of what is edited."""

    @property
    def brewed(self) -> Recipe:
        """What is edited as a plain recipe that can be brewed by itself."""

    def make(self, edit: Edit) -> bool:
        """Make an edit, as one undo step; False if it changes nothing, or is refused."""

    def outcome(self, edit: Edit) -> Recipe:
        """Return the recipe that an edit would make; raises RefusedInputError."""


class WorkedOn(QObject):
    """The part of an open recipe that its editors show.

    `boil` is counted from 1, None for the recipe as it is written; `fermenter` is one of those that
    the boil goes into. `idle` names what has no effect there, such as "pot" or
    "process.boil_time". `part_changed` says that another part is shown, or that there are others.
    """

    recipe_changed = Signal(object)
    values_changed = Signal(object)
    outlook_changed = Signal(object)
    part_changed = Signal()

    def __init__(self, opened: OpenRecipe) -> None:
        super().__init__(opened)
        self.opened = opened
        self.boil: int | None = None
        self.fermenter = 1
        self.recipe, self.opening = opened.recipe, opened.opening
        self.idle = NOTHING
        self._turns = 0
        self._written: tuple[Recipe, Day] | None = None
        self._look()
        opened.recipe_changed.connect(self._follow)
        opened.values_changed.connect(self.values_changed)
        opened.outlook_changed.connect(self.outlook_changed)

    # what is shown

    def choose(self, boil: int | None, fermenter: int = 1) -> None:
        """Show the recipe as it is written, or a boil and one of the fermenters it goes into."""
        if (boil, fermenter) == (self.boil, self.fermenter):
            return
        self.boil, self.fermenter = boil, fermenter
        self._turns += 1
        self._look()
        self.recipe_changed.emit(self.recipe)
        self.part_changed.emit()
        if not self.opened.waiting:
            self.outlook_changed.emit(self.opened.outlook)

    def choose_boil(self, boil: int) -> None:
        """Show a boil, with the first of the fermenters that it goes into."""
        into = [each.fermenter for each in pours(self.opened.recipe) if each.boil == boil]
        self.choose(boil, into[0] if into else 1)

    def choose_fermenter(self, fermenter: int) -> None:
        """Show a fermenter, with the first of the boils that it is filled from."""
        of = [each.boil for each in pours(self.opened.recipe) if each.fermenter == fermenter]
        self.choose(of[0] if of else 1, fermenter)

    @property
    def brewed(self) -> Recipe:
        """What is shown as a plain recipe that can be brewed by itself."""
        whole = self.opened.reckoned
        for each in pours(whole) if self.boil is not None else ():
            if (each.boil, each.fermenter) == (self.boil, self.fermenter):
                return recipe_of_pour(whole, each)
        return self.recipe if self.boil is not None else whole

    def fermenters(self) -> tuple[int, ...]:
        """Return the fermenters that the boil which is shown goes into."""
        return tuple(each.fermenter for each in pours(self.opened.recipe) if each.boil == self.boil)

    def _follow(self, _recipe: Recipe) -> None:
        part = self.boil, self.fermenter
        if self.opened.opening + self._turns != self.opening:
            self.boil, self.fermenter = None, 1
        self._look()
        self.recipe_changed.emit(self.recipe)
        if part != (self.boil, self.fermenter):
            self.part_changed.emit()

    def _look(self) -> None:
        """Find what is shown now; a part that is gone gives way to the recipe as written."""
        whole, shown = self.opened.recipe, self.recipe
        self.opening = self.opened.opening + self._turns
        if self.boil is not None and not has_part(whole, self.boil, self.fermenter):
            self.boil, self.fermenter = None, 1
            self._turns += 1
            self.opening += 1
        if self.boil is None:
            self.recipe = whole
            self.idle = idle_as_written(whole) if is_planned(whole) else NOTHING
        else:
            found = recipe_at(whole, self.boil, self.fermenter)
            self.recipe = _with_lines_of(shown, found)
            self.idle = idle_in_boil(whole, self.boil)

    # what is forecast of it

    @property
    def waiting(self) -> bool:
        """Whether nothing has been forecast yet."""
        return self.opened.waiting

    @property
    def day(self) -> Day:
        """The day of what is shown: of the boil, or of the recipe brewed as it is written."""
        plan = self.opened.plan
        if plan is None:
            return self.opened.day
        if self.boil is not None and self.boil <= len(plan.boils):
            return plan.boils[self.boil - 1].day
        return self.written_day()

    def written_day(self) -> Day:
        """Return the day of a planned recipe if it were brewed as it is written."""
        # The first picture is painted before the brew day is loaded.
        from designer.brewday.day import brew

        recipe = self.opened.recipe
        if self._written is None or self._written[0] is not recipe:
            self._written = recipe, brew(recipe)
        return self._written[1]

    # changing it

    def put(self, edit: Edit) -> Edit:
        """Return the edit of the whole recipe that an edit of what is shown comes to."""
        return edit if self.boil is None else InBoil(edit, self.boil, self.fermenter)

    def make(self, edit: Edit) -> bool:
        """Make an edit of what is shown, as one undo step."""
        return self.opened.make(self.put(edit))

    def make_or_refuse(self, edit: Edit) -> bool:
        """Make an edit of what is shown. Raises RefusedInputError."""
        return self.opened.make_or_refuse(self.put(edit))

    def outcome(self, edit: Edit) -> Recipe:
        """Return the whole recipe that an edit of what is shown would make."""
        return self.opened.outcome(self.put(edit))

    def start_typing(self) -> str:
        """Return a key that is new, for the edits of one stay in a field."""
        return self.opened.start_typing()

    def take_back(self, merge_key: str) -> None:
        """Take back what was typed under a key, if it is the last thing done."""
        self.opened.take_back(merge_key)

    def set_untaken(self, owner: object, said: tuple[str, ...]) -> None:
        """Hear of a field what is typed there and could not be taken."""
        self.opened.set_untaken(owner, said)


def has_part(recipe: Recipe, boil: int, fermenter: int) -> bool:
    """Whether the plan of a recipe has so many boils and fermenters."""
    is_there = boil <= len(boils_of(recipe)) and fermenter <= len(fermenters_of(recipe))
    return is_planned(recipe) and is_there


def _with_lines_of(before: Recipe, found: Recipe) -> Recipe:
    """Return what was found with the very lists of before where they say the same."""
    same = {
        name: lines_of(before, name)
        for name in LISTS
        if lines_of(found, name) == lines_of(before, name)
        and [each.line_id for each in lines_of(found, name)]
        == [each.line_id for each in lines_of(before, name)]
    }
    return replace(found, **same) if same else found  # type: ignore[arg-type]
