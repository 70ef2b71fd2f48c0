"""What can go wrong with a store, in words that say what happened and what to do.

SQLite tells faults by codes (https://www.sqlite.org/rescode.html); each kind that a kitchen laptop
meets has an error of its own here, so that a window can offer what helps.
"""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from designer.errors import DesignerError
from designer.recipe.message import say, word
from designer.translation import message, tr
from designer.units.quoting import one_line

NOTHING_LOST = message("what was saved before is untouched.")
NOT_AS_MADE = message("its tables are not as they were made")


class StoreBusyError(DesignerError):
    """Another program held the store for longer than we would wait."""


class StoreFullError(DesignerError):
    """The disk has no room left."""


class StoreReadOnlyError(DesignerError):
    """The store can be read but not changed."""


class StoreForbiddenError(StoreReadOnlyError):
    """The program has no permission for the store's file or folder."""


class StoreGoneError(DesignerError):
    """The store's file or folder is not where it was."""


class StoreDamagedError(DesignerError):
    """The store's file cannot be read as what it was: see `designer.library.store.rescue`."""


class NotInStoreError(DesignerError):
    """What was asked for is not in the store (any more)."""


def shown(path: Path) -> str:
    """Return a path in one line, fit for a message."""
    return one_line(str(path))[:300]


def is_busy(fault: sqlite3.Error) -> bool:
    """Tell whether waiting may help: SQLITE_BUSY and SQLITE_LOCKED, 5 and 6."""
    return _primary(fault) in (5, 6)


def _primary(fault: sqlite3.Error) -> int:
    """Return the primary result code; extended codes hold more in the higher bits."""
    return int(getattr(fault, "sqlite_errorcode", 0) or 0) & 0xFF


def in_words(fault: sqlite3.Error, path: Path) -> DesignerError:
    """Return the error that a brewer may read for a fault of SQLite at `path`."""
    if _primary(fault) == _CANNOT_OPEN:
        return _why_not_opened(path)
    where = shown(path)
    code = _CORRUPT if "decode" in str(fault) else _primary(fault)
    kind, words = _KINDS.get(code, (DesignerError, _OTHER))
    reason = one_line(str(fault))[:120]
    return kind(tr(words, where=where, reason=reason, kept=tr(NOTHING_LOST)))


def tells_damage(fault: sqlite3.Error) -> bool:
    """Tell whether a fault while reading is in the file itself, not in reaching it."""
    return _primary(fault) not in (3, 5, 6, 8, 10, 14)


def damaged(path: Path, reason: str) -> StoreDamagedError:
    """Return the error for a store that does not hold what was written."""
    return StoreDamagedError(tr(_DAMAGED, where=shown(path), reason=reason))


_CORRUPT, _CANNOT_OPEN = 11, 14
_BUSY = message(
    "The Recipe box {where} is being held by another program. Nothing was written; {kept} "
    "Close the other program (or let a backup or synchronising program finish) and try again."
)
_FULL = message(
    "The disk that holds the Recipe box {where} is full. This change was not kept; {kept} "
    "Make room on the disk, then save again; until then leave the window open."
)
_READ_ONLY = message(
    "The Recipe box {where} cannot be written: the file, its folder or the disk is read-only; "
    "{kept} Allow writing there, or export the recipe to a file elsewhere."
)
_DAMAGED = message(
    "The Recipe box {where} is damaged ({reason}). It was left as it is. Set it aside and go on "
    "with the newest backup, or with what can still be read of it."
)
_DEVICE = message(
    "The disk that holds the Recipe box {where} could not be read or written ({reason}). This "
    "change was not kept. Check the disk and its cable, then save again; until then leave the "
    "window open."
)
_OTHER = message(
    "The Recipe box {where} could not do that ({reason}). This change was not kept; {kept} "
    "Export the recipe to a file to be safe."
)
_KINDS: dict[int, tuple[type[DesignerError], str]] = {
    3: (StoreReadOnlyError, _READ_ONLY),  # SQLITE_PERM
    5: (StoreBusyError, _BUSY),
    6: (StoreBusyError, _BUSY),  # SQLITE_LOCKED
    8: (StoreReadOnlyError, _READ_ONLY),
    10: (DesignerError, _DEVICE),  # SQLITE_IOERR
    _CORRUPT: (StoreDamagedError, _DAMAGED),  # SQLITE_CORRUPT
    13: (StoreFullError, _FULL),
    26: (StoreDamagedError, _DAMAGED),  # SQLITE_NOTADB
}


def busy(path: Path) -> StoreBusyError:
    """Return the error for a store that another program held for too long."""
    return StoreBusyError(tr(_BUSY, where=shown(path), kept=tr(NOTHING_LOST)))


def gone(path: Path) -> StoreGoneError:
    """Return the error for a store that was moved, removed or whose drive went away."""
    return StoreGoneError(
        say(
            "box-taken-away",
            "The Recipe box {path} is no longer there: its drive was taken away, or the file was "
            "moved or replaced. What was typed last is not kept. Put it back (connect the drive), "
            "then try again; or choose another folder.",
            path=shown(path),
        )
    )


def forbidden(path: Path) -> StoreForbiddenError:
    """Return the error for a folder or file that the program has no permission for."""
    return StoreForbiddenError(
        say(
            "box-forbidden",
            "The Recipe box cannot be used: the program has no permission for {path}; "
            "{nothing_lost} Change the permissions there and try again, or choose another folder.",
            path=shown(path),
            nothing_lost=word(NOTHING_LOST),
        )
    )


def is_forbidden(fault: OSError) -> bool:
    """Tell whether a fault is for want of permission."""
    return fault.errno in (errno.EACCES, errno.EPERM)


def _why_not_opened(path: Path) -> DesignerError:
    """Return why SQLite could not open a file: it does not tell, the system does."""
    try:
        path.stat()
    except FileNotFoundError:
        return gone(path)
    except OSError as fault:
        return system_words(fault, path, tr("Opening the Recipe box"))
    if not os.access(path, os.R_OK):
        return forbidden(path)
    if not os.access(path.parent, os.W_OK | os.X_OK):
        return forbidden(path.parent)
    return StoreGoneError(
        say(
            "box-not-a-file",
            "The Recipe box {path} cannot be opened as a file; {nothing_lost} Look what is "
            "there, then try again; or choose another folder.",
            path=shown(path),
            nothing_lost=word(NOTHING_LOST),
        )
    )


@contextmanager
def faults_told(path: Path, doing: str, database: Path | None = None) -> Iterator[None]:
    """Raise a fault of the system or of SQLite in words: as a DesignerError.

    SQLite's is one of `database` where that is not the file at `path`.
    """
    try:
        yield
    except sqlite3.Error as fault:
        raise in_words(fault, database or path) from fault
    except OSError as fault:
        raise system_words(fault, path, doing) from fault


_OF_SYSTEM: tuple[tuple[tuple[int, ...], type[DesignerError], str, str], ...] = (
    ((errno.ENOSPC, errno.EDQUOT, errno.EFBIG), StoreFullError, message("the disk is full"),
     message("Make room there")),
    ((errno.EROFS,), StoreReadOnlyError, message("the disk is read-only"), message("Allow writing "
                                                                                   "there")),
    ((errno.EACCES, errno.EPERM), StoreForbiddenError, message("the program has no permission for "
                                                               "{place}"),
     message("Change the permissions there")),
    ((errno.ENOENT, errno.ENODEV, errno.ENXIO), StoreGoneError,
     message("the folder or its drive is not there"), message("Connect the drive")),
    ((errno.ENOTDIR, errno.EEXIST, errno.EISDIR), StoreGoneError,
     message("something else is where it should be"), message("Move that elsewhere")),
    ((errno.EIO,), DesignerError, message("the disk could not be read or written"),
     message("Check the disk and its cable")),
)  # fmt: skip


def system_words(fault: OSError, path: Path, doing: str) -> DesignerError:
    """Return the error for a fault of the system while `doing` something at `path`."""
    known = (each for each in _OF_SYSTEM if fault.errno in each[0])
    other = ((), DesignerError, (fault.strerror or str(fault)).lower(), message("Check the disk"))
    _, kind, reason, way = next(known, other)
    return kind(
        say(
            "did-not-work",
            "{doing} {path} did not work: {reason}; {nothing_lost} {way} and try again, or choose "
            "another folder.",
            doing=doing,
            path=shown(path),
            reason=say("reason", reason, place=_place_of(fault, path)),
            nothing_lost=word(NOTHING_LOST),
            way=word(way),
        )
    )


def _place_of(fault: OSError, path: Path) -> str:
    """Return the folder that a fault is about, if it tells."""
    named = fault.filename
    return shown(Path(named).parent if isinstance(named, str) and named else path)
