"""There is no Recipe box yet: every command says so alike."""

from __future__ import annotations

from pathlib import Path

from designer.library.store.folder import VARIABLE
from designer.recipe.message import Message, say


def no_box_yet(folder: Path) -> Message:
    """Return that a folder holds no box, and how there comes to be one."""
    return say(
        "no-box-yet",
        "There is no Recipe box in {folder} yet: hobwort box import FILE makes one there, or "
        "{variable} names the folder of another.",
        folder=str(folder),
        variable=VARIABLE,
    )
