"""Letting the Recipe box lie in another folder: with all that it holds, where that can be read.

What lies in the folder before stays there as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from designer.errors import DesignerError
from designer.library.store.backups import Told, copy_store
from designer.library.store.brew_journal import carry_over
from designer.library.store.contents import Contents, contents_of
from designer.library.store.faults import faults_told, shown
from designer.library.store.folder import choose_folder, store_path, usual_folder
from designer.library.store.folder_check import refuse_unfit
from designer.library.store.steps import unknown_steps
from designer.library.store.store import Store
from designer.recipe.message import say
from designer.translation import message, tr

OWN_FOLDER = "Recipe box"
DOING = message("Moving the Recipe box to")


@dataclass(frozen=True, slots=True)
class Moved:
    """Where the box lies now, what it holds, and whether that was copied from the one before."""

    folder: Path
    holds: Contents
    is_copy: bool


def move_box(old: Path, wanted: Path, told: Told | None = None) -> Moved:
    """Let the box lie in a folder from now on, and at later starts.

    A box that lies there already is gone on with. Else the one in `old` is copied, if it can be
    read, or an empty one is begun. A folder that holds other things gets a folder of its own for
    it. Raises DesignerError; then the box stays where it was.
    """
    with faults_told(wanted, tr(DOING)):
        folder = _own_folder(wanted)
        if folder.absolute() == old.absolute():
            raise DesignerError(
                say("box-there-already", "The Recipe box is kept in {old} already.", old=shown(old))
            )
        refuse_unfit(folder, fresh=True, expected=False)
        is_copy = not store_path(folder).exists() and _copied(old, folder, told)
        with Store.open(folder, fresh=True) as store:
            carry_over(store, old)
            holds = contents_of(store.connection.db.conn)
        choose_folder(folder)
    return Moved(folder, holds, is_copy)


def _own_folder(wanted: Path) -> Path:
    """Return the folder itself where it is empty, the usual one, or has a box; else one in it."""
    if not wanted.is_dir() or wanted == usual_folder() or store_path(wanted).exists():
        return wanted
    return wanted / OWN_FOLDER if any(wanted.iterdir()) else wanted


def _copied(old: Path, folder: Path, told: Told | None) -> bool:
    """Copy the box into another folder; False if it cannot be opened here, or is a newer one."""
    try:
        store = Store.open(old, expected=True)
    except DesignerError:
        return False
    with store:
        if unknown_steps(store.connection.db):
            return False
        copy_store(store.connection, store_path(folder), told)
    return True
