"""Which windows are open, in whatever process: so that drafts left behind by a crash are known.

Each open window holds a lock on a file of its own. The system lets go of a lock when its process
ends, however it ends; a process number, which another process may get later, would not tell.

A window's sittings (a recipe open in it, from being opened to being left) are named after it, each
with a number of its own: no draft is ever written over that of another sitting.
"""

from __future__ import annotations

import os
import secrets
import sys
import time
from contextlib import suppress
from pathlib import Path

from designer.library.store.faults import faults_told
from designer.translation import tr

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

WINDOWS_FOLDER = "windows"
TRIES, PAUSE_S = 20, 0.01
_ENDING = ".open"


def new_window_name() -> str:
    """Return a name that no window ever had."""
    return secrets.token_hex(8)


def sitting_name(window: str, number: int) -> str:
    """Return the name under which a window keeps the draft of one sitting."""
    return f"{window}.{number}"


def window_of(sitting: str) -> str:
    """Return the name of the window that a sitting was in."""
    return sitting.partition(".")[0]


class OpenWindow:
    """Marks a window as open until it is closed or its process ends; `name` is for its drafts."""

    def __init__(self, folder: Path, name: str = "") -> None:
        """Mark a window on the store in a folder. Raises DesignerError."""
        self.name = name or new_window_name()
        self._path = folder / WINDOWS_FOLDER / f"{self.name}{_ENDING}"
        with faults_told(folder, tr("Opening a window on")):
            self._path.parent.mkdir(exist_ok=True)
            self._handle = self._marked()

    def _marked(self) -> int:
        """Return the handle of the file, locked if the system can lock.

        Another window that looks at it before it is locked takes it for one left behind.
        """
        for _ in range(TRIES):
            handle = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)
            if locked(handle) and self._path.exists():
                return handle
            os.close(handle)
            time.sleep(PAUSE_S)
        return os.open(self._path, os.O_RDWR | os.O_CREAT, 0o600)

    def close(self) -> None:
        """Tell others that the window is closed."""
        with suppress(OSError):
            os.close(self._handle)
        with suppress(OSError):
            self._path.unlink(missing_ok=True)


def open_windows(folder: Path) -> frozenset[str]:
    """Return the names of the windows that are open; marks left behind are cleared away."""
    within = folder / WINDOWS_FOLDER
    found = within.glob(f"*{_ENDING}") if within.is_dir() else ()
    return frozenset(path.name.removesuffix(_ENDING) for path in found if _is_open(path))


def _is_open(path: Path) -> bool:
    try:
        handle = os.open(path, os.O_RDWR)
    except OSError:
        return False
    try:
        is_open = not locked(handle)
    finally:
        os.close(handle)
    if not is_open:
        with suppress(OSError):
            path.unlink()
    return is_open


def locked(handle: int) -> bool:
    """Lock a file of ours if no one has; return whether it is locked by us now."""
    try:
        if sys.platform == "win32":
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
