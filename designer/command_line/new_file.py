"""Where a command writes to: a file of a kind it can write, that is not there yet."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from designer.library.file_bytes import is_there
from designer.recipe.message import refused
from designer.units.quoting import one_line


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
