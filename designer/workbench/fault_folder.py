"""Where reports of the program's own faults lie: a folder beside the store for its user alone.

Each fault has a file of its own, and beside it the recipe that was open. The last few are kept. A
report has two parts: what may be shown to others, and the fault's own words, which may tell of a
recipe and stay here.
"""

from __future__ import annotations

import os
import re
import stat
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

FAULT_FOLDER = "faults"
KEPT = 10
DIVIDE = "\n---- The fault in its own words, which may tell of your recipe ----\n"
_NAMES = re.compile(r"fault-\d{4}-\d\d-\d\d-\d{6}-[0-9a-f]{8}\.(txt|hobwort)")


def keep_fault(store: Path, shown: str, own_words: str, recipe: str) -> tuple[Path, Path]:
    """Keep a report and the text of the open recipe; return the files of both.

    Beside the store, or in a new folder of the system's for passing files where that cannot be.
    Raises OSError.
    """
    folder = _own_folder(store / FAULT_FOLDER)
    name = f"fault-{datetime.now(UTC):%Y-%m-%d-%H%M%S}-{os.urandom(4).hex()}"
    report, rescued = folder / f"{name}.txt", folder / f"{name}.hobwort"
    _write(rescued, recipe)
    _write(report, f"{shown}{DIVIDE}{own_words}")
    _let_go(folder, name)
    return report, rescued


def newest_fault(store: Path) -> tuple[Path, str] | None:
    """Return the file of the newest report kept beside a store, and what may be shown of it."""
    with suppress(OSError):
        for path in sorted(_reports(store / FAULT_FOLDER), reverse=True):
            text = path.read_text(encoding="utf-8", errors="replace")
            return path, text.partition(DIVIDE)[0]
    return None


def _reports(folder: Path) -> list[Path]:
    return [each for each in folder.iterdir() if _is_ours(each) and each.suffix == ".txt"]


def _is_ours(path: Path) -> bool:
    return bool(_NAMES.fullmatch(path.name)) and stat.S_ISREG(path.lstat().st_mode)


def is_own(folder: Path) -> bool:
    """Make a folder if it is not there; no link, and no one else's, is taken for it."""
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        with suppress(FileExistsError):
            folder.mkdir(mode=0o700)
        found = folder.lstat()
        if stat.S_ISDIR(found.st_mode) and found.st_uid == getattr(os, "getuid", lambda: 0)():
            folder.chmod(0o700)
            return os.access(folder, os.W_OK)
    except OSError:
        pass
    return False


def _own_folder(folder: Path) -> Path:
    """Return the folder, or a new one of the system's for passing files. Raises OSError."""
    if is_own(folder):
        return folder
    import tempfile  # it makes a folder of a name that nobody knows, for this user alone

    return Path(tempfile.mkdtemp(prefix="hobwort-fault-"))


def _write(path: Path, text: str) -> None:
    """Write a new file that only its user can read; one that is there is not touched."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_NOFOLLOW", 0)
    with os.fdopen(os.open(path, flags, 0o600), "w", encoding="utf-8", newline="\n") as file:
        file.write(text)


def _let_go(folder: Path, newest: str) -> None:
    """Delete the oldest beyond the number that is kept, never the one just written."""
    with suppress(OSError):
        others = sorted(each.stem for each in _reports(folder) if each.stem != newest)
        for old in others[: max(len(others) - KEPT + 1, 0)]:
            for ending in (".txt", ".hobwort"):
                (folder / f"{old}{ending}").unlink(missing_ok=True)
