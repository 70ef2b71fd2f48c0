"""Recipes of the box written out as files, and files brought into it.

Both are done in pieces that end when their time is up, so that whatever else is asked of the store
meanwhile waits for one piece at most, however many recipes there are and however slow the disk is.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from designer.errors import DesignerError
from designer.library.file_bytes import free_path
from designer.library.file_names import file_name
from designer.library.recipe_file import SUFFIX, document_text, load, read_document, write_whole
from designer.translation import tr, trn
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import RecipeRow, Store

MOST_FAULTS = 5
PIECE_S = 0.04
"""How long a piece goes on taking items; a draft or a search is to be answered within 0.1 s."""
T = TypeVar("T")


def for_a_piece(items: Sequence[T], seconds: float = PIECE_S) -> Iterator[T]:
    """Yield items until the time of a piece is up; one at least."""
    end = time.monotonic() + seconds
    for number, item in enumerate(items):
        if number and time.monotonic() > end:
            return
        yield item


@dataclass(frozen=True, slots=True)
class WrittenRecipe:
    """A recipe's file, and its bill as text for who takes no files."""

    path: Path
    bill: str


def write_recipes(
    store: Store,
    rows: Sequence[RecipeRow],
    folder: Path,
    write: Callable[[Path, bytes], object] = write_whole,
) -> list[WrittenRecipe]:
    """Write the newest version of recipes into a folder, named after them; none is overwritten.

    Raises DesignerError.
    """
    found = []
    for row in rows:
        document = store.recipes.newest(row.id).document
        path = free_path(folder / (file_name(row.name) + SUFFIX))
        write(path, document.encode("utf-8"))
        found.append(WrittenRecipe(path, _bill(document, row.name)))
    return found


def write_a_piece(
    store: Store, recipes: Sequence[int], folder: Path, write: Callable[[Path, bytes], object]
) -> tuple[int, dict[int, WrittenRecipe]]:
    """Write the first of the recipes into a folder, as many as there is time for in one piece.

    Returns how many and their files by their numbers; those that are gone have none. Raises
    DesignerError.
    """
    found: dict[int, WrittenRecipe] = {}
    count = 0
    for recipe in for_a_piece(recipes):
        count += 1
        rows = store.finder.rows([recipe])
        found |= dict(
            zip((row.id for row in rows), write_recipes(store, rows, folder, write), strict=True)
        )
    return count, found


def written_words(pieces: Sequence[dict[int, WrittenRecipe]], folder: Path, left: int = 0) -> str:
    """Return what is said of recipes that were written out; `left` is how many were left out."""
    count = sum(map(len, pieces))
    said = [
        trn(
            "Exported {number:,} file to {folder}.",
            "Exported {number:,} files to {folder}.",
            count,
            folder=folder,
        )
    ]
    if left:
        said.append(trn("{number:,} recipe left out.", "{number:,} recipes left out.", left))
    return " ".join(said)


def _bill(document: str, name: str) -> str:
    # It brings all that reads pasted tables, which takes longer than the Recipe box to be shown.
    from designer.library.bill import bill_text

    try:
        return bill_text(read_document(document, name))
    except DesignerError:
        return f"{name}\n"  # its file says all that there is to say


@dataclass(frozen=True, slots=True)
class BroughtIn:
    """What came of some files: how many recipes are kept, and words about what cannot be read."""

    kept: int = 0
    faults: tuple[str, ...] = ()


def keep_a_piece(store: Store, paths: Sequence[Path]) -> tuple[int, BroughtIn]:
    """Keep the first of the recipe files in the box, as many as there is time for in one piece.

    Returns how many files were read and what came of them. Raises DesignerError.
    """
    faults, many = [], []
    for path in for_a_piece(paths):
        try:
            recipe = load(path)
        except DesignerError as fault:
            faults.append(str(fault))
            continue
        many.append((document_text(recipe), summary_of(recipe), ()))
    store.recipes.add_many(many)
    return len(many) + len(faults), BroughtIn(len(many), tuple(faults))


def brought_in_words(pieces: Sequence[BroughtIn], left: int = 0) -> tuple[str, bool]:
    """Return what is said of files that were brought in, and whether anything is amiss.

    `left` is how many files were left alone.
    """
    count = sum(each.kept for each in pieces)
    faults = [fault for each in pieces for fault in each.faults]
    said = [trn("{number:,} recipe imported.", "{number:,} recipes imported.", count)]
    if left:
        said.append(trn("{number:,} file left alone.", "{number:,} files left alone.", left))
    more = len(faults) - MOST_FAULTS
    rest = [tr("{more:,} more could not be read.", more=more)] if more > 0 else []
    return "\n".join([" ".join(said), *faults[:MOST_FAULTS], *rest]), bool(faults)
