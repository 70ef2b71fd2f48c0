"""A store's files: made beside their place, moved into it, set aside or dropped.

Nothing is overwritten: a file takes its name when it is complete and only where that is free.
"""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from designer.library.store.faults import faults_told
from designer.translation import tr

SET_ASIDE_FOLDER = "set-aside"
UNFINISHED = ".new-"
BESIDE = ("", "-wal", "-journal", "-shm")
"""Endings of the files that make up a store. The log belongs to the file: they move together."""


def beside_of(path: Path) -> Path:
    """Return the name of a file of no bytes, newly made in the folder of `path`."""
    with faults_told(path, tr("Making the Recipe box")):
        handle, name = tempfile.mkstemp(prefix=UNFINISHED, suffix=".db", dir=path.parent)
    os.close(handle)
    return Path(name)


def move_into_place(beside: Path, path: Path) -> bool:
    """Give a finished file its name; return False, and do nothing, if a file has that name.

    A hard link never replaces a file; where the system has none, moving is the next best.
    """
    try:
        os.link(beside, path)
    except FileExistsError:
        return False
    except OSError:
        if path.exists():
            return False
        beside.replace(path)
    return True


def set_aside(path: Path) -> Path | None:
    """Move a store's files, whole or damaged, into a folder of their own; return the main one's.

    Nothing is overwritten: the folder's name is the time, with a number if it is taken. None if
    there was nothing to move. Raises OSError.
    """
    there = [Path(f"{path}{ending}") for ending in BESIDE]
    there = [each for each in there if each.exists()]
    if not there:
        return None
    folder = _new_folder(path.parent / SET_ASIDE_FOLDER)
    for each in there:
        each.rename(folder / each.name)
    return folder / path.name


def drop(path: Path) -> None:
    """Delete a store's files, one made only for a while; what cannot be deleted stays."""
    for ending in BESIDE:
        with suppress(OSError):
            Path(f"{path}{ending}").unlink(missing_ok=True)


def _new_folder(within: Path) -> Path:
    within.mkdir(exist_ok=True)
    name, number = datetime.now(UTC).strftime("%Y-%m-%d-%H%M%S"), 1
    while True:
        folder = within / (name if number == 1 else f"{name}-{number}")
        try:
            folder.mkdir()
        except FileExistsError:
            number += 1
        else:
            return folder
