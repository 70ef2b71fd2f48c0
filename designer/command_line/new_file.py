"""Where a command writes to: a file of a kind it can write, that is not there yet; or `-`,
standard output."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from designer.command_line.output import STANDARD, print_bytes, remark
from designer.library.file_bytes import is_there, write_whole
from designer.recipe.message import refused
from designer.units.quoting import one_line


def kind_of_output(output: str, suffixes: Sequence[str], kind: str | None = None) -> str:
    """Return the suffix of what is to be written, one of `suffixes`.

    A file's name tells it; of standard output it is that of `kind`, the first without one. Raises
    RefusedInputError for a file of another kind or one that is there.
    """
    if output == STANDARD:
        return suffixes[0] if kind is None else f".{kind}"
    return new_file(output, suffixes).suffix.lower()


def write_out(output: str, content: bytes, *said: str) -> None:
    """Write to a file that `kind_of_output` took, or to standard output, and say so in lines.

    Nothing is said where that would stand among what was written. Raises DesignerError.
    """
    if output == STANDARD:
        print_bytes(content)
    else:
        write_whole(Path(output), content)
        remark(*said)


def new_file(output: str, suffixes: Sequence[str]) -> Path:
    """Return the file to write. Raises RefusedInputError for another kind or one that is there."""
    path = Path(output)
    if path.suffix.lower() not in suffixes:
        raise refused(
            "file-suffix",
            "{path}: this is written as {suffixes}; let the name end so.",
            path=one_line(output),
            suffixes=", ".join(suffixes),
        )
    if is_there(path):
        raise refused(
            "over-a-file",
            "{path} is there already and stays as it is; name a file that is not there yet.",
            path=one_line(output),
        )
    return path
