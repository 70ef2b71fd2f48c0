"""A log for whoever helps with a problem: what the program did, with nothing private in it.

A line is one of a fixed list, numbers, and the name of a class of the program, as of a kind of
fault or of a page: nothing else can be noted, so no name of a recipe, a file or a folder gets in.
Lines wait in a queue for a thread that writes them, a few small files beside the store: no key
waits for the disk, and where it is full or gone they are lost without a word.
"""

from __future__ import annotations

import time
from contextlib import suppress
from enum import StrEnum
from itertools import pairwise
from pathlib import Path
from queue import Empty, Full, Queue
from threading import Thread

from designer.workbench.fault_folder import is_own

FOLDER, NAME = "log", "hobwort.log"
MOST_BYTES, OLDER_FILES, MOST_WAITING = 64_000, 2, 500
LAST_LINES = 80
SLOW_S = 1.0
"""Work of the Recipe box that takes longer is noted."""
END_S = 0.5


class Noted(StrEnum):
    """What can be noted."""

    STARTED = "started"
    PAGE_SHOWN = "page shown"
    BOX_SLOW = "Recipe box slow"
    BOX_FAILED = "Recipe box failed"
    FAULT = "fault of the program"
    CLOSED = "closed"


_Lines = Queue[tuple[float, str] | None]

_waiting: _Lines = Queue(MOST_WAITING)
_writing: list[SupportLog] = []
"""The logs that are written, the one begun last at the end: what is noted goes there."""


def note(event: Noted, kind: type | None = None, **figures: float) -> None:
    """Note what happened, with a kind of fault or page and figures; never waits or raises."""
    told = [str(event), *(f"{name}={value:.4g}" for name, value in figures.items())]
    if kind is not None:
        told.append(kind.__qualname__)
    with suppress(Full):
        lines = _writing[-1].lines if _writing else _waiting
        lines.put_nowait((time.time(), " ".join(told)))


class SupportLog:
    """Writes what is noted into files beside a store until it is ended, or another is begun.

    `system` says which program, libraries and system these are; it goes first.
    """

    def __init__(self, store: Path, system: str = "") -> None:
        self._store, self._system = store, system
        self.lines: _Lines = Queue(MOST_WAITING)
        """What is still to be written."""
        with suppress(Empty):
            while True:
                self.lines.put_nowait(_waiting.get_nowait())
        _writing.append(self)
        self._thread = Thread(target=self._write, name="log", daemon=True)
        self._thread.start()

    def end(self) -> None:
        """Write what is still to be written; a disk that does not answer is not waited for."""
        with suppress(ValueError):
            _writing.remove(self)
        with suppress(Full):
            self.lines.put_nowait(None)
            self._thread.join(END_S)

    def _write(self) -> None:
        while (line := self.lines.get()) is not None:
            with suppress(OSError):
                if self._system:
                    _put(self._store, line[0], "; ".join(self._system.splitlines()))
                    self._system = ""
                _put(self._store, *line)


def write_waiting(store: Path) -> None:
    """Write at once what was noted: for a command, which has no thread for it."""
    with suppress(OSError), suppress(Empty):
        while (line := _waiting.get_nowait()) is not None:
            _put(store, *line)


def last_lines(store: Path) -> list[str]:
    """Return the last lines of the log beside a store; none where there is none."""
    lines: list[str] = []
    for name in (f"{NAME}.1", NAME):
        with suppress(OSError):
            lines += (store / FOLDER / name).read_text("utf-8", "replace").splitlines()
    return lines[-LAST_LINES:]


def _put(store: Path, moment: float, text: str) -> None:
    """Write a line beside a store that is there; nothing is held open. Raises OSError.

    The folder of a box on a drive that was taken away is not made: it would hide the box.
    """
    store.lstat()
    folder = store / FOLDER
    if not is_own(folder):
        return
    said = time.strftime("%Y-%m-%d %H:%M:%SZ", time.gmtime(moment))
    line = f"{said} {text}\n".encode()
    with suppress(FileNotFoundError):
        if (folder / NAME).stat().st_size + len(line) > MOST_BYTES:
            _begin_anew(folder)
    with (folder / NAME).open("ab") as file:
        file.write(line)


def _begin_anew(folder: Path) -> None:
    """Make what is written an older file, each older one older still, and drop the oldest."""
    # By hand: Python's own log, made for servers, holds 1 MB of a window's memory.
    names = [NAME, *(f"{NAME}.{number + 1}" for number in range(OLDER_FILES))]
    for newer, older in reversed(list(pairwise(names))):
        with suppress(FileNotFoundError):
            (folder / newer).replace(folder / older)
