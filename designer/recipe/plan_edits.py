"""Changes to one boil of a plan and one of its fermenters, made as if both were a plain recipe.

What is not of the boil or the fermenter alone, such as the temperature to cool to, is changed for
the whole recipe.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from typing import Any

from designer.recipe.document import LINE_TYPES, PlannedBoil, Process, Recipe
from designer.recipe.edits import Edit, next_line_id
from designer.recipe.message import Message
from designer.recipe.named import Line
from designer.recipe.plan import boils_of, recipe_at

OF_A_BOIL = ("start_water", "boil_time", "evaporation", "left_in_pot")
"""Fields of the process that a boil of a plan has for itself."""
OF_A_FERMENTER = ("top_up_to", "frozen_top_up")
"""Fields of the process that a fermenter of a plan has for itself."""


@dataclass(frozen=True, slots=True)
class InBoil:
    """An edit of the plain recipe of a boil and a fermenter, both counted from 1."""

    edit: Edit
    boil: int
    fermenter: int = 1

    @property
    def text(self) -> Message:
        """The phrase of the edit."""
        return self.edit.text

    @property
    def merge_key(self) -> str:
        """The key of the edit: what is typed in a field is one step here too."""
        return self.edit.merge_key

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe with what was changed put back into its plan."""
        before = recipe_at(recipe, self.boil, self.fermenter)
        after = self.edit.apply(before)
        changes = {
            name: getattr(after, name)
            for name in ("name", "style", "notes", "methods", "leaflet")
            if getattr(after, name) != getattr(before, name)
        }
        boil, fermenter = dict(_lists(recipe, before, after)), dict[str, Any]()
        for name, of in (("pot", boil), ("fermenter", fermenter), ("yeast", fermenter)):
            if getattr(after, name) != getattr(before, name):
                of[name] = getattr(after, name)
        common: dict[str, Any] = {}
        for name, value in _changed(before.process, after.process):
            own = boil if name in OF_A_BOIL else fermenter if name in OF_A_FERMENTER else common
            own[name] = value
        changed = replace(recipe, **changes) if changes else recipe
        changed = _with_process(changed, common)
        changed = _with_own(changed, "boils", self.boil, boil)
        return _with_own(changed, "fermenters", self.fermenter, fermenter)


def _changed(before: Process, after: Process) -> Iterator[tuple[str, Any]]:
    for each in fields(after):
        value = getattr(after, each.name)
        if value != getattr(before, each.name):
            yield each.name, value


def _lists(recipe: Recipe, before: Recipe, after: Recipe) -> Iterator[tuple[str, Any]]:
    """Yield the lists that are other ones, new lines under numbers that no line has."""
    free = next_line_id(recipe)
    for name in LINE_TYPES:
        was: tuple[Line, ...] = getattr(before, name)
        now: tuple[Line, ...] = getattr(after, name)
        known = [line.line_id for line in was]
        if now == was and [line.line_id for line in now] == known:
            continue
        found = []
        for line in now:
            is_new = line.line_id not in known
            found.append(replace(line, line_id=free) if is_new else line)
            free += is_new
        yield name, tuple(found)


def _with_process(recipe: Recipe, changes: dict[str, Any]) -> Recipe:
    return replace(recipe, process=replace(recipe.process, **changes)) if changes else recipe


def _with_own(recipe: Recipe, plan: str, number: int, changes: dict[str, Any]) -> Recipe:
    """Return the recipe with a boil or fermenter of its plan changed; itself if it has none."""
    if not changes:
        return recipe
    each: tuple[Any, ...] = getattr(recipe, plan)
    if not each:
        of_process = changes.keys() & {*OF_A_BOIL, *OF_A_FERMENTER}
        process = {name: changes.pop(name) for name in of_process}
        return _with_process(replace(recipe, **changes), process)
    made = replace(each[number - 1], **changes)
    whole: dict[str, Any] = {plan: (*each[: number - 1], made, *each[number:])}
    return replace(recipe, **whole)


def idle_as_written(recipe: Recipe) -> frozenset[str]:
    """Return what of the recipe as written has no effect as long as its plan stands.

    Named are parts, "pot", or their fields, "process.boil_time".
    """
    found: set[str] = set()
    if recipe.boils:
        found.add("pot")
        found |= {f"process.{name}" for name in OF_A_BOIL if _all_own(recipe.boils, name)}
        if not any(_measured_here(recipe, each) for each in recipe.boils):
            found.add("process.cooling_constant")
    if recipe.fermenters:
        found |= {"fermenter", *(f"process.{name}" for name in OF_A_FERMENTER)}
        if _all_own(recipe.fermenters, "yeast"):
            found.add("yeast")
    return frozenset(found)


def idle_in_boil(recipe: Recipe, number: int) -> frozenset[str]:
    """Return what has no effect on one boil: how a pot cools was measured on the written one."""
    here = _measured_here(recipe, boils_of(recipe)[number - 1])
    return frozenset() if here else frozenset({"process.cooling_constant"})


def _measured_here(recipe: Recipe, boil: PlannedBoil) -> bool:
    return boil.pot.volume == recipe.pot.volume


def _all_own(each: tuple[Any, ...], name: str) -> bool:
    return all(getattr(one, name) is not None for one in each)
