"""Where the Recipe box lies: the platform's folder for a person's data, or another.

A folder named in the environment counts first, then the one that was chosen in the window.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from platformdirs import PlatformDirs
from platformdirs.unix import Unix

NAME = "hobwort"
VARIABLE = "HOBWORT_STORE"
SETTINGS_VARIABLE = "HOBWORT_SETTINGS"
STORE_FILE = "recipe-box.db"
BACKUP_FOLDER = "backups"


def store_folder() -> Path:
    """Return the folder of the store: the one that HOBWORT_STORE names, else the chosen one.

    Where none is chosen it is the usual one.
    """
    return named_folder() or chosen_folder() or usual_folder()


def named_folder() -> Path | None:
    """Return the folder that the environment variable HOBWORT_STORE names, if it does."""
    named = os.environ.get(VARIABLE, "").strip()
    return Path(named).expanduser() if named else None


def usual_folder() -> Path:
    """Return the folder of the store where no other is named or chosen: for a person's data.

    $XDG_DATA_HOME, else ~/.local/share; %APPDATA% on Windows; ~/Library/Application Support on
    macOS, whatever XDG_DATA_HOME says: there boxes have lain since the first release.
    """
    if sys.platform == "darwin" and "XDG_DATA_HOME" in os.environ:
        return Path.home() / "Library" / "Application Support" / NAME
    return _folders().user_data_path


def chosen_folder() -> Path | None:
    """Return the folder that was chosen in the window; None for none."""
    try:
        text = _choice().read_text(encoding="utf-8", errors="surrogateescape").strip("\r\n")
    except OSError:
        return None
    folder = Path(text)
    return folder if text and "\0" not in text and folder.is_absolute() else None


def choose_folder(folder: Path | None) -> None:
    """Let the store lie in a folder from the next start on; None for the usual one.

    Raises OSError.
    """
    if folder is None or folder == usual_folder():
        _choice().unlink(missing_ok=True)
        return
    _choice().parent.mkdir(parents=True, exist_ok=True)
    text = f"{folder.absolute()}\n".encode("utf-8", "surrogateescape")
    beside = _choice().with_suffix(".new")
    beside.write_bytes(text)
    beside.replace(_choice())


def _choice() -> Path:
    """Return the file that holds the choice: beside the other settings."""
    named = os.environ.get(SETTINGS_VARIABLE)
    return (Path(named) if named else _settings_folder()) / "recipe-box-folder.txt"


def _settings_folder() -> Path:
    """Return where Qt keeps a file of settings: on macOS too that is $XDG_CONFIG_HOME."""
    if sys.platform == "darwin":
        return Unix(NAME).user_config_path
    return _folders().user_config_path


def _folders() -> PlatformDirs:
    return PlatformDirs(NAME, appauthor=False, roaming=True)


def store_path(folder: Path) -> Path:
    """Return the store's file in its folder."""
    return folder / STORE_FILE
