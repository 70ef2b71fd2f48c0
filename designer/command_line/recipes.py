"""Recipes out of files, changed as the words of a command say."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TypeVar

from designer.command_line.new_file import refuse_those_there
from designer.command_line.output import STANDARD, complain, notice, print_bytes
from designer.errors import DesignerError, RefusedInputError
from designer.library.places import set_field
from designer.library.recipe_file import (
    SUFFIX,
    checked_text,
    decoded,
    load,
    read_document,
    save,
)
from designer.library.round_trip import unmarked
from designer.recipe.document import Recipe
from designer.recipe.limits import LARGEST_DOCUMENT_BYTES
from designer.recipe.message import refused
from designer.recipe.plan import plan_faults
from designer.translation import labelled, tr
from designer.units.control_characters import DROPPED
from designer.units.quoting import one_line, quoted

Told = TypeVar("Told")


def read_recipe(file: str, changes: Sequence[str] = ()) -> Recipe:
    """Return the recipe of a file with fields set first, each change as `place="text"`.

    Raises DesignerError; every change that cannot be made is a problem.
    """
    return changed(_recipe_in(file), changes, "--set")


def _recipe_in(file: str) -> Recipe:
    if file != STANDARD:
        return load(Path(file))
    place = tr("standard input")
    raw = sys.stdin.buffer.read(LARGEST_DOCUMENT_BYTES + 1)
    if len(raw) > LARGEST_DOCUMENT_BYTES:
        raise refused(
            "too-much-of-it",
            "{place}: there are more than {largest} MB of it; a recipe has less. It is not one of "
            "ours.",
            place=place,
            largest=f"{LARGEST_DOCUMENT_BYTES / 1e6:.0f}",
        )
    if not raw.strip():
        raise refused(
            "nothing-came",
            "{place}: nothing came from it. Lead a recipe file to it, or name one.",
            place=place,
        )
    return read_document(decoded(raw, place), place)


def told_apart(
    files: Sequence[str],
    tell: Callable[[str], Told],
    refuse: Callable[[str, tuple[str, ...]], None] = lambda _, problems: None,
) -> list[tuple[str, Told | None]]:
    """Return what is told of each file; None of one that is refused, of which it is said why.

    `refuse` is told of each that is, with what is wrong with it. Raises RefusedInputError where
    standard input is to be read twice.
    """
    if list(files).count(STANDARD) > 1:
        raise refused("standard-input-twice", "- is standard input, and is read once; name it once")
    found: list[tuple[str, Told | None]] = []
    for file in files:
        try:
            found.append((file, tell(file)))
        except DesignerError as fault:
            problems = fault.problems if isinstance(fault, RefusedInputError) else (str(fault),)
            sys.stdout.flush()  # what is told stays in order where both go to one place
            complain(problems)
            refuse(file, problems)
            found.append((file, None))
    return found


def name_of(file: str) -> str:
    """Return what a file is called in what is told of it."""
    return tr("standard input") if file == STANDARD else one_line(file)


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
                notice([labelled(name_of(file), tr(DROPPED))])
        except RefusedInputError as fault:
            problems += fault.problems
        except DesignerError as fault:
            problems.append(str(fault))
    if problems:
        raise RefusedInputError(list(dict.fromkeys(problems)))
    return recipes


def write_new(recipe: Recipe, output: str, *, force: bool) -> None:
    """Write a recipe to a file, or to standard output. Raises DesignerError.

    A file is named with the suffix of recipe files, and not there yet, unless `force` replaces it.
    """
    if output == STANDARD:
        print_bytes(checked_text(recipe, tr("standard output")).encode("utf-8"))
        return
    path = Path(output)
    if path.suffix.lower() != SUFFIX and not os.path.isdir(path):  # noqa: PTH112 - takes any name
        raise refused(
            "recipe-suffix",
            "{path}: a recipe file ends in {suffix}; let the name end so.",
            path=one_line(output),
            suffix=SUFFIX,
        )
    refuse_those_there([path], force=force)
    save(recipe, path, instead_of=None if force else b"")
