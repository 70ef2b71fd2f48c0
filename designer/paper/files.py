"""Brew sheets as files: PDF, web page or plain text, one or many at once."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from designer.errors import DesignerError
from designer.library.recipe_file import SUFFIX, write_whole
from designer.library.system_reason import reason_of
from designer.paper.plain_imports import import_qt
from designer.recipe.message import refused, say
from designer.sheet.blocks import Sheet
from designer.sheet.plain import sheet_text
from designer.translation import tr, trn
from designer.units.quoting import one_line

WEB, TEXT = (".html", ".htm"), (".txt",)
KINDS = {"pdf": (".pdf",), "html": WEB, "txt": TEXT}
"""What a sheet can be, with the endings of its files, the usual one first."""
_SUFFIXES = tuple(suffix for suffixes in KINDS.values() for suffix in suffixes)


def places_for(recipes: Sequence[Path], output: str, kind: str = "") -> list[Path]:
    """Return where the sheet of each recipe file goes.

    One recipe goes to the file `output`, or into it where that is a folder; several go into the
    folder `output`, which is made if it is not there, each under the name of its recipe file. They
    are of a `kind` of `KINDS`; without one what the suffix of `output` says, PDF in a folder.

    Raises RefusedInputError where several recipes are to go into one file, a sheet would go over a
    recipe file, or the suffix is not one of the kind; DesignerError where the folder cannot be
    made.
    """
    places = _places_for(recipes, output, kind)
    for place in places:
        if place.suffix.lower() == SUFFIX or any(_is_same_file(place, each) for each in recipes):
            raise refused(
                "over-a-recipe",
                "{place}: a sheet does not go over a recipe file; name a file that ends in .pdf, "
                ".html or .txt",
                place=place,
            )
    return places


def _is_same_file(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except (OSError, ValueError):  # one of them is not there yet
        return False


def _places_for(recipes: Sequence[Path], output: str, kind: str) -> list[Path]:
    path = Path(output)
    into = len(recipes) > 1 or path.is_dir() or output.endswith(("/", os.sep))
    if not into:
        return [_of_kind(path, kind)]
    if path.is_file() or (len(recipes) > 1 and path.suffix.lower() in _SUFFIXES):
        raise refused(
            "sheets-into-one-file",
            "{place}: {number} sheets do not go into one file; name a folder",
            place=output,
            number=len(recipes),
        )
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise DesignerError(
            say(
                "folder-not-made",
                "{place}: the folder could not be made: {reason}. Name another folder.",
                place=output,
                reason=reason_of(fault),
            )
        ) from None
    return _names(recipes, path, KINDS[kind or "pdf"][0])


def _of_kind(path: Path, kind: str) -> Path:
    """Return the file of one sheet, with the suffix of its kind.

    Raises RefusedInputError for a suffix that no sheet has.
    """
    suffixes = KINDS[kind] if kind else _SUFFIXES
    found = path.suffix.lower()
    if found in suffixes or found == SUFFIX:  # to go over a recipe is refused in words of its own
        return path
    if found in _SUFFIXES:
        return path.with_suffix(suffixes[0])
    raise refused(
        "sheet-suffix",
        "{place}: a sheet is written as {suffixes}; let the name end so, or name a folder",
        place=one_line(str(path)),
        suffixes=", ".join(suffixes),
    )


def _names(recipes: Sequence[Path], folder: Path, suffix: str) -> list[Path]:
    """The name of each recipe file, numbered where two are alike to some system of files."""
    taken: set[str] = set()
    places = []
    for recipe in recipes:
        name, number = recipe.stem, 1
        while name.casefold() in taken:
            number += 1
            name = f"{recipe.stem}-{number}"
        taken.add(name.casefold())
        places.append(folder / f"{name}{suffix}")
    return places


def write_sheet(sheet: Sheet, path: Path, paper: str) -> str:
    """Write the sheet as the suffix of the file says and return in words what it has become.

    The file is replaced in one move. Raises DesignerError, in words for the brewer, if it cannot be
    written.
    """
    kind = next(each for each, suffixes in KINDS.items() if path.suffix.lower() in suffixes)
    content, words = sheet_bytes(sheet, kind, paper)
    write_whole(path, content)
    return words


def sheet_bytes(sheet: Sheet, kind: str, paper: str) -> tuple[bytes, str]:
    """Return the content of a sheet's file of one of `KINDS`, and in words what it is."""
    if kind == "html":
        from designer.sheet.html import sheet_html  # a PDF does without

        return sheet_html(sheet).encode("utf-8"), tr("a web page")
    if kind == "txt":
        return sheet_text(sheet).encode("utf-8"), tr("plain text")
    import_qt()  # only what is printed needs it
    from designer.paper.pages import pdf_bytes

    content, count = pdf_bytes(sheet, paper)
    return content, trn("{number} page", "{number} pages", count)
