"""What can go wrong with a store, in words that say what happened and what to do.

SQLite tells faults by codes (https://www.sqlite.org/rescode.html); each kind that a kitchen laptop
meets has an error of its own here, so that a window can offer what helps.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from designer.errors import DesignerError
from designer.units.quoting import one_line

if TYPE_CHECKING:
    import sqlite3

NOTHING_LOST = "what was saved before is untouched."


class StoreBusyError(DesignerError):
    """Another program held the store for longer than we would wait."""


class StoreFullError(DesignerError):
    """The disk has no room left."""


class StoreReadOnlyError(DesignerError):
    """The store can be read but not changed."""


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
    where = shown(path)
    code = _CORRUPT if "decode" in str(fault) else _primary(fault)
    kind, words = _KINDS.get(code, (DesignerError, _OTHER))
    reason = one_line(str(fault))[:120]
    return kind(words.format(where=where, reason=reason, kept=NOTHING_LOST))


def tells_damage(fault: sqlite3.Error) -> bool:
    """Tell whether a fault while reading is in the file itself, not in reaching it."""
    return _primary(fault) not in (3, 5, 6, 8, 10, 14)


def damaged(path: Path, reason: str) -> StoreDamagedError:
    """Return the error for a store that does not hold what was written."""
    return StoreDamagedError(_DAMAGED.format(where=shown(path), reason=reason))


_CORRUPT = 11
_BUSY = (
    "The Recipe box {where} is being held by another program. Nothing was written; {kept} "
    "Close the other program (or let a backup or synchronising program finish) and try again."
)
_FULL = (
    "The disk that holds the Recipe box {where} is full. This change was not kept; {kept} "
    "Make room on the disk, then save again; until then leave the window open."
)
_READ_ONLY = (
    "The Recipe box {where} cannot be written: the file, its folder or the disk is read-only; "
    "{kept} Allow writing there, or export the recipe to a file elsewhere."
)
_GONE = (
    "The Recipe box {where} cannot be opened: the folder or the drive is not there, or may not be "
    "read. Connect the drive again or check the folder's rights; {kept}"
)
_DAMAGED = (
    "The Recipe box {where} is damaged ({reason}). It was left as it is. Set it aside and go on "
    "with the newest backup, or with what can still be read of it."
)
_DEVICE = (
    "The disk that holds the Recipe box {where} could not be read or written ({reason}). This "
    "change was not kept. Check the disk and its cable, then save again; until then leave the "
    "window open."
)
_OTHER = (
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
    14: (StoreGoneError, _GONE),  # SQLITE_CANTOPEN
    26: (StoreDamagedError, _DAMAGED),  # SQLITE_NOTADB
}


def busy(path: Path) -> StoreBusyError:
    """Return the error for a store that another program held for too long."""
    return StoreBusyError(_BUSY.format(where=shown(path), kept=NOTHING_LOST))


def gone(path: Path) -> StoreGoneError:
    """Return the error for a store that was moved, removed or whose drive went away."""
    return StoreGoneError(
        f"The Recipe box {shown(path)} is no longer there: its drive was taken away, or the file "
        "was moved or replaced. What was typed last is not kept. Put it back (connect the drive), "
        "then open it again; or export the recipe to a file elsewhere."
    )


def system_words(fault: OSError, path: Path, doing: str) -> DesignerError:
    """Return the error for a fault of the system while `doing` something at `path`."""
    import errno

    reason = (fault.strerror or str(fault)).lower()
    kind: type[DesignerError] = DesignerError
    if fault.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
        kind = StoreFullError
    elif fault.errno in (errno.EROFS, errno.EACCES, errno.EPERM):
        kind = StoreReadOnlyError
    elif fault.errno in (errno.ENOENT, errno.ENOTDIR, errno.ENODEV, errno.ENXIO):
        kind = StoreGoneError
    return kind(
        f"{doing} {shown(path)} did not work: {reason}; {NOTHING_LOST} Choose another folder, or "
        "make room and allow writing there."
    )
