"""Recipes out of files, changed as the words of a command say."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from designer.errors import DesignerError, RefusedInputError
from designer.library.file_bytes import is_there
from designer.library.places import set_field
from designer.library.recipe_file import load, save
from designer.library.round_trip import unmarked
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.recipe.plan import plan_faults
from designer.translation import tr
from designer.units.control_characters import DROPPED
from designer.units.quoting import one_line, quoted


def read_recipe(file: str, changes: Sequence[str] = ()) -> Recipe:
    """Return the recipe of a file with fields set first, each change as `place="text"`.

    Raises DesignerError; every change that cannot be made is a problem.
    """
    return changed(load(Path(file)), changes, "--set")


def changed(recipe: Recipe, changes: Sequence[str], option: str) -> Recipe:
    """Return a recipe with fields set, each change as `place="text"` of an option.

    Raises RefusedInputError with every change that cannot be made.
    """
    problems: list[str] = []
    for change in changes:
        place, equals, text = change.partition("=")
        try:
            if not equals:
                raise refused(
                    "no-place-and-text", '{change}: write it as place="text"', change=quoted(change)
                )
            recipe = set_field(recipe, place, text)
        except RefusedInputError as fault:
            problems += [f"{option} {problem}" for problem in fault.problems]
    if changes and not problems:  # only all of them together make a plan, or none
        problems = [f"{option} {fault}" for fault in plan_faults(recipe)]
    if problems:
        raise RefusedInputError(problems)
    return recipe


def read_for_paper(files: Sequence[str], changes: Sequence[str] = ()) -> list[Recipe]:
    """Return all recipes, or raise all that is wrong with any of them.

    Marks that would turn words round on paper are taken out of them, and that is said.
    """
    recipes: list[Recipe] = []
    problems: list[str] = []
    for file in files:
        try:
            opened = read_recipe(file, changes)
            recipes.append(unmarked(opened))
            if recipes[-1] is not opened:
                sys.stderr.write(f"{one_line(file)}: {tr(DROPPED)}\n")
        except RefusedInputError as fault:
            problems += fault.problems
        except DesignerError as fault:
            problems.append(str(fault))
    if problems:
        raise RefusedInputError(list(dict.fromkeys(problems)))
    return recipes


def write_new(recipe: Recipe, output: str) -> None:
    """Write a recipe to a file that is not there yet. Raises DesignerError."""
    path = Path(output)
    if is_there(path):
        raise refused(
            "over-a-file",
            "{path} is there already and stays as it is; name a file that is not there yet.",
            path=one_line(output),
        )
    save(recipe, path, instead_of=b"")
