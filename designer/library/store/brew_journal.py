"""Journals of brews: entries that the store has not confirmed yet, on the disk at once.

A store may answer late or never; the boil does not wait. So each entry goes into a plain file at
once, one for each brew and window: lines of JSON, the brew's head first, only ever added to and
flushed to the disk. Once the store has all of it the file goes. What a killed process left is taken
in by the next; that does no harm twice, for each entry has a name of its own.
"""

from __future__ import annotations

import json
import os
import secrets
import time
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, fields
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING, Any

from designer.errors import DesignerError
from designer.library.file_bytes import bytes_of, flush_folder
from designer.library.store.brews import Brew
from designer.library.store.faults import faults_told, shown
from designer.library.store.windows import locked
from designer.recipe.message import say
from designer.translation import message, tr

if TYPE_CHECKING:
    from designer.library.store.store import Store

JOURNAL_FOLDER = "brews"
WRITING = message("Writing down the brew log in")
LOG_SUFFIX = ".jsonl"
"""The ending of journals, and of logs that are saved elsewhere."""
LARGEST_LOG = 20_000_000
_LOCK_AT = 1 << 40
"""Where the lock lies: behind all that is written, for Windows lets no one read what is locked."""
_STALE_S = 86_400.0
"""On a disk without locks nobody can tell whether a file's window is open; by then it is not."""
_TRIES, _PAUSE_S = 5, 0.005
_HEAD = ("uid", "recipe", "version", "name", "started", "document", "file")


class Journal:
    """The journal of one brew in one window. Threads may share it."""

    def __init__(self, folder: Path, brew: Brew) -> None:
        self._folder, self._brew = folder / JOURNAL_FOLDER, brew
        self._handle = -1
        self._path = self._folder
        self._size = 0
        self._lines: dict[str, str] = {}
        self._lock = Lock()

    def append(self, entries: Iterable[Mapping[str, Any]]) -> None:
        """Write entries and wait until they are on the disk. Raises DesignerError.

        Where that fails nothing of them is left, as far as the disk allows.
        """
        lines = {str(each.get("id", "")): _line(each) for each in entries}
        with self._lock, faults_told(self._folder, tr(WRITING)):
            self._put("".join(lines.values()))
            self._lines |= lines
            if not self._is_there():  # the drive was taken away, and what was written with it
                self._let_go()
                self._put("".join(self._lines.values()), again=True)

    def tell_head(self, brew: Brew) -> None:
        """The brew is told of otherwise from now on: the last head counts. Raises DesignerError."""
        with self._lock, faults_told(self._folder, tr(WRITING)):
            self._brew = brew
            if self._handle >= 0:
                self._put(_head_line(brew))

    def _put(self, text: str, *, again: bool = False) -> None:
        if self._handle < 0:
            self._begin()
            text = text if again else "".join(self._lines.values()) + text
        try:
            self._write(text.encode())
            os.fsync(self._handle)
        except OSError:
            self._cut_back()
            raise
        self._size += len(text.encode())

    def _begin(self) -> None:
        """Make a file of its own, with the head of the brew."""
        self._folder.mkdir(parents=True, exist_ok=True)
        self._path = self._folder / f"{self._brew.uid}-{secrets.token_hex(4)}{LOG_SUFFIX}"
        flags = os.O_RDWR | os.O_CREAT | os.O_EXCL | os.O_APPEND | getattr(os, "O_BINARY", 0)
        self._handle = os.open(self._path, flags, 0o600)
        os.lseek(self._handle, _LOCK_AT, os.SEEK_SET)
        for _ in range(_TRIES):  # another window may be looking whether it is left behind
            if locked(self._handle):
                break
            time.sleep(_PAUSE_S)
        head = _head_line(self._brew).encode()
        try:
            self._write(head)
        except OSError:
            self._drop()
            raise
        self._size = len(head)
        flush_folder(self._folder)

    def _write(self, raw: bytes) -> None:
        while raw:
            raw = raw[os.write(self._handle, raw) :]

    def _is_there(self) -> bool:
        """Whether the file is still the one at its place."""
        try:
            return os.path.samestat(self._path.stat(), os.fstat(self._handle))
        except OSError:
            return False

    def _cut_back(self) -> None:
        """Take what is half written away; where that fails too the next begins another file."""
        try:
            os.ftruncate(self._handle, self._size)
        except OSError:
            self._let_go()

    def forget(self, entries: Iterable[str]) -> None:
        """The store has these entries: without others the file is not needed any more.

        A disk that does not answer is not waited for; the file is taken in at the next start then.
        """
        if not self._lock.acquire(blocking=False):
            return
        try:
            for each in entries:
                self._lines.pop(each, None)
            if not self._lines and self._handle >= 0:
                self._drop()
        finally:
            self._lock.release()

    def _drop(self) -> None:
        self._let_go()
        with suppress(OSError):
            self._path.unlink()

    def _let_go(self) -> None:
        with suppress(OSError):
            os.close(self._handle)
        self._handle = -1

    def close(self) -> None:
        """Let the file go, unless it is being written; what the store does not have stays in it."""
        if self._lock.acquire(blocking=False):
            if self._handle >= 0:
                self._let_go()
            self._lock.release()


@dataclass(frozen=True, slots=True)
class Kept:
    """What a journal holds: the head of its brew, and the entries that can be read."""

    path: Path
    brew: Brew
    entries: tuple[dict[str, Any], ...]


def journals(folder: Path) -> list[Kept]:
    """Return what the journals beside a store hold. Raises DesignerError.

    A line that was torn is passed over; a file without a head is left where it lies.
    """
    return [kept for kept in map(_read, _paths(folder)) if kept is not None]


def _paths(folder: Path) -> list[Path]:
    within = folder / JOURNAL_FOLDER
    with faults_told(within, tr("Reading the brew logs in")):
        return sorted(within.glob(f"*{LOG_SUFFIX}")) if within.is_dir() else []


def take_in(store: Store) -> list[Brew]:
    """Put what journals hold into the store, and clear those away whose window is closed.

    Returns the brews that got entries. Raises DesignerError; then the journals stay.
    """
    found = []
    for path in [] if store.read_only else _paths(store.folder):
        kept = _read(path)
        if kept is not None and kept.entries:
            found.append(store.brews.put(kept.brew, kept.entries))
        _clear(path, kept)
    return found


def carry_over(store: Store, folder: Path) -> None:
    """Put what the journals of another folder hold into a store; they stay where they lie.

    A folder that cannot be read has none to tell of. Raises DesignerError.
    """
    found: list[Kept] = []
    with suppress(DesignerError, OSError):
        found = journals(folder)
    for kept in found:
        if kept.entries:
            store.brews.put(kept.brew, kept.entries)


def _clear(path: Path, kept: Kept | None) -> None:
    """Delete a journal that is in the store, unless its window may still write into it.

    What has no head goes only if nothing else can be read of it: it was killed with its first line.
    """
    with suppress(OSError):
        handle = os.open(path, os.O_RDWR)
        try:
            os.lseek(handle, _LOCK_AT, os.SEEK_SET)
            is_free = locked(handle) or time.time() - path.stat().st_mtime > _STALE_S
            again = _read(path)
            holds_more = kept is None and b"\n" in path.read_bytes()
        finally:
            os.close(handle)
        if is_free and again == kept and not holds_more:
            path.unlink()


def remove_journals(folder: Path, uid: str) -> None:
    """Delete the journals of a brew that is to be deleted, as far as the system lets us."""
    for kept in journals(folder):
        if kept.brew.uid == uid:
            with suppress(OSError):
                kept.path.unlink()


def _read(path: Path) -> Kept | None:
    try:
        text = path.read_text(encoding="utf-8", errors="replace")
    except OSError:
        return None
    return log_of_text(text, path)


def log_of_text(text: str, path: Path) -> Kept | None:
    """Return what a text holds that `log_text` made, or a journal; None for any other text."""
    lines = [line for line in map(_values, text.split("\n")) if line]
    heads = [head for line in lines if (head := _head(line.get("brew"))) is not None]
    entries = tuple(line for line in lines if isinstance(line.get("id"), str))
    return Kept(path, heads[-1], entries) if heads else None


def take_in_file(store: Store, path: Path) -> Brew:
    """Put a log that was saved to a file into the store; return its brew.

    Raises DesignerError, also for a file that is no such log.
    """
    raw = bytes_of(path, LARGEST_LOG)
    kept = log_of_text(raw.decode("utf-8", errors="replace"), path)
    if kept is None:
        raise DesignerError(
            say("no-brew-log", "{path} is no brew log that was saved by Hobwort.", path=shown(path))
        )
    return store.brews.put(kept.brew, kept.entries)


def _head(values: object) -> Brew | None:
    """Return the head of a brew; None for values that are none."""
    if not isinstance(values, dict) or not values.get("uid"):
        return None
    kinds = {each.name: int if each.type == "int" else str for each in fields(Brew)}
    if any(not isinstance(values.get(name), kinds[name]) for name in _HEAD):
        return None
    return Brew(id=0, finished="", **{name: values[name] for name in _HEAD})


def _values(line: str) -> dict[str, Any]:
    try:
        found = json.loads(line)
    except (ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}


def _line(values: Mapping[str, Any]) -> str:
    return json.dumps(values) + "\n"


def log_text(brew: Brew, entries: Sequence[Mapping[str, Any]]) -> str:
    """Return a brew and its entries as a journal holds them, to be kept elsewhere."""
    return _head_line(brew) + "".join(map(_line, entries))


def _head_line(brew: Brew) -> str:
    return _line({"brew": {name: getattr(brew, name) for name in _HEAD}})
