"""Qt for Python without its look into the source of every module that is imported after it."""

from __future__ import annotations

import builtins
import linecache


def import_qt() -> None:
    """Import Qt, and leave Python's own import statement in place.

    PySide6 puts one of its own there, which reads the source of each module to see whether it asks
    for other spellings of Qt's names (`from __feature__ import snake_case`). Hobwort never does;
    reading some hundred files took 10 of 210 ms of the processor until the editors can be used.
    """
    own = builtins.__import__
    import PySide6.QtCore  # noqa: F401

    builtins.__import__ = own
    linecache.clearcache()  # what it has read by then would be kept: 0.2 MB
