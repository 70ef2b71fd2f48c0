"""Whether a folder can hold the Recipe box; if not, why not, in a sentence that names the cause.

A folder without permission, a drive that is not connected, a folder that is gone, a file where the
folder should be: each is told apart, for each is mended otherwise.
"""

from __future__ import annotations

import stat
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.faults import (
    NOTHING_LOST,
    StoreGoneError,
    faults_told,
    forbidden,
    is_forbidden,
    shown,
    system_words,
)
from designer.library.store.folder import BACKUP_FOLDER, chosen_folder, store_path, usual_folder
from designer.recipe.message import say, word
from designer.translation import tr


def folder_fault(folder: Path, *, expected: bool | None = None) -> DesignerError | None:
    """Return why no Recipe box can be opened in a folder; None if one can, or can be made there.

    `expected` tells whether it was there before: then it is not to be made anew. Where that is not
    told, it was in a folder that was chosen, for one is made with the choice.
    """
    if expected is None:
        expected = folder == chosen_folder()
    path = store_path(folder)
    try:
        found = _folder_fault(folder, expected)
        if found is None and expected and not path.exists():
            _list(folder)
            found = _kept_before(folder) or _missing(path)
    except FileNotFoundError:
        return _missing(path) if expected else None
    except NotADirectoryError:
        return _not_a_folder(folder)
    except OSError as fault:
        if is_forbidden(fault):
            return forbidden(folder)
        return system_words(fault, folder, tr("Opening the Recipe box in"))
    except ValueError:
        return StoreGoneError(
            say(
                "no-folder-name",
                "“{folder}” cannot be the name of a folder. Choose another folder.",
                folder=shown(folder),
            )
        )
    return found


def _folder_fault(folder: Path, expected: bool) -> DesignerError | None:
    """Raises OSError and ValueError, as the system tells them."""
    try:
        mode = folder.stat().st_mode
    except FileNotFoundError:
        if folder == usual_folder() or folder.absolute().parent.is_dir():
            raise
        return StoreGoneError(
            say(
                "folder-not-there",
                "The folder {folder} of the Recipe box is not there, nor the one it is in: its "
                "drive may not be connected; {nothing_lost} Connect it and try again, or choose "
                "another folder.",
                folder=shown(folder),
                nothing_lost=word(NOTHING_LOST),
            )
        )
    if not stat.S_ISDIR(mode):
        return _not_a_folder(folder)
    try:
        store_path(folder).stat()
    except FileNotFoundError:
        _list(folder)  # one that cannot be looked into is not taken for one without a box
    return None


def _missing(path: Path) -> DesignerError:
    return StoreGoneError(
        say(
            "box-not-there",
            "The Recipe box {path} is not there: its drive may not be connected, or it was moved. "
            "Connect the drive or put it back and try again, or choose another folder.",
            path=shown(path),
        )
    )


def _list(folder: Path) -> None:
    for _ in folder.iterdir():
        return


def _not_a_folder(folder: Path) -> DesignerError:
    place = next((each for each in (folder, *folder.parents) if each.is_file()), folder)
    return StoreGoneError(
        say(
            "file-for-a-folder",
            "{place} is a file, but the Recipe box needs a folder there. Move that file elsewhere "
            "and try again, or choose another folder.",
            place=shown(place),
        )
    )


def _kept_before(folder: Path) -> DesignerError | None:
    """Return what is said where the box is not there but backups of it are."""
    within = folder / BACKUP_FOLDER
    if not within.is_dir() or not any(within.glob("*.db")):
        return None
    return StoreGoneError(
        say(
            "only-backups-there",
            "The Recipe box {folder} is not there, but backups of it are. Restore the newest "
            "backup, or begin an empty box.",
            folder=shown(store_path(folder)),
        )
    )


def refuse_unfit(folder: Path, *, fresh: bool, expected: bool) -> None:
    """Make the folder of a box if there is none. Raises DesignerError where none can be there.

    `fresh` tells that a box may be made beside backups of an earlier one.
    """
    found = folder_fault(folder, expected=False if fresh else expected or None)
    if found is not None:
        raise found
    with faults_told(folder, tr("Opening the Recipe box in")):
        folder.mkdir(parents=True, exist_ok=True)
        kept = None if fresh or store_path(folder).exists() else _kept_before(folder)
    if kept is not None:
        raise kept
