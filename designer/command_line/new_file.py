"""Where a command writes to: a file of a kind it can write, or `-`, standard output.

A file that is there is not written over, unless that is asked for: then one of the same kind is.
What is printed (sheets, labels, the guide) asks for it, since it can be made again.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from designer.command_line.output import STANDARD, print_bytes, remark
from designer.library.file_bytes import is_there, write_whole
from designer.library.recipe_file import SUFFIX
from designer.recipe.message import refused
from designer.units.quoting import one_line

_BEGINS = {
    ".pdf": b"%PDF-",
    ".html": b"<",
    ".htm": b"<",
    ".ics": b"BEGIN:VCALENDAR",
    ".json": b"{",
    SUFFIX: b"{",
}
"""How a file of a kind begins; text and tables in text begin with anything that is text."""
_LOOKED_AT = 1000


def kind_of_output(
    output: str, suffixes: Sequence[str], kind: str | None = None, *, force: bool
) -> str:
    """Return the suffix of what is to be written, one of `suffixes`.

    A file's name tells it; of standard output it is that of `kind`, the first without one. Raises
    RefusedInputError for a file of another kind or one that is there, as `new_file` does.
    """
    if output == STANDARD:
        return suffixes[0] if kind is None else f".{kind}"
    return new_file(output, suffixes, force=force).suffix.lower()


def write_out(output: str, content: bytes, *said: str) -> None:
    """Write to a file that `kind_of_output` took, or to standard output, and say so in lines.

    Nothing is said where that would stand among what was written. Raises DesignerError.
    """
    if output == STANDARD:
        print_bytes(content)
    else:
        write_whole(Path(output), content)
        remark(*said)


def new_file(output: str, suffixes: Sequence[str], *, force: bool) -> Path:
    """Return the file to write. Raises RefusedInputError for another kind or one that is there."""
    path = Path(output)
    if path.suffix.lower() not in suffixes:
        raise refused(
            "file-suffix",
            "{path}: this is written as {suffixes}; let the name end so.",
            path=one_line(output),
            suffixes=", ".join(suffixes),
        )
    refuse_those_there([path], force=force)
    return path


def refuse_those_there(paths: Sequence[Path], *, force: bool) -> None:
    """Refuse to write files that are there: all, or with `force` those that are of another kind.

    Raises RefusedInputError.
    """
    there = [path for path in paths if is_there(path)]
    others = [path for path in there if not _is_of_its_kind(path)]
    if others:
        raise refused(
            "over-another-kind",
            "{path} is there, and what it holds is something else than its name says; so it stays "
            "as it is. Name another file.",
            path=one_line(str(others[0])),
        )
    if there and not force:
        raise refused(
            "over-a-file",
            "{path} is there already and stays as it is; name another file, or replace it with "
            "--force.",
            path=one_line(str(there[0])),
        )


def _is_of_its_kind(path: Path) -> bool:
    """Whether a file begins as one of its suffix does; an empty one may become anything."""
    try:
        with path.open("rb") as file:
            head = file.read(_LOOKED_AT).removeprefix(b"\xef\xbb\xbf").lstrip()
    except OSError:
        return False
    begins = _BEGINS.get(path.suffix.lower())
    return not head or (b"\0" not in head if begins is None else head.startswith(begins))
