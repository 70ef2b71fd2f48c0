"""Qt for Python without what it loads beside Qt, and without its look into each module's source."""

from __future__ import annotations

import builtins
import sys
from types import ModuleType
from typing import Any

from designer.once_asked import put_off
from designer.paper.plain_enums import make_enums_plainly
from designer.plain_loading import load_plainly

LOADER = "shibokensupport.signature.loader"
PUT_OFF = ("errorhandler", "layout", "parser", "enum_sig", "pyi_generator", "tool")
"""What tells the signatures of Qt's functions, and the module that loads it before any is asked.

Its `mapping` is not among them: Qt reads that one past Python's own way to ask a module.
"""


def import_qt() -> None:
    """Import Qt, and leave Python's own import statement in place.

    PySide6 puts one of its own there, which reads the source of each module to see whether it asks
    for other spellings of Qt's names (`from __feature__ import snake_case`). Hobwort never does;
    reading some hundred files took 10 of 210 ms of the processor until the editors can be used.

    It also compiles, from source and at every start, what tells the signatures of Qt's functions:
    makers of stubs ask for them, and the message about a call with wrong arguments. That is there
    once it is asked for; it took half of the time that the import of Qt takes. A PySide6 with
    modules of other names loads all, as ever.
    """
    if "PySide6.QtCore" in sys.modules:
        return
    load_plainly()
    make_enums_plainly()
    own = builtins.__import__

    def importing(name: str, *words: Any, **named: Any) -> ModuleType:
        given = dict(zip(("globals", "locals", "fromlist"), words, strict=False)) | named
        asked = given.get("fromlist") or ()
        if not asked or (given.get("globals") or {}).get("__name__") != LOADER:
            return own(name, *words, **named)
        own(name)
        for each in set(PUT_OFF).intersection(asked):
            put_off(f"{name}.{each}")
        found = own(name, *words, **named)
        if "feature" in asked and hasattr(found.feature, "_mod_uses_pyside"):
            found.feature._mod_uses_pyside = _asks_for_no_other_spelling
        return found

    builtins.__import__ = importing
    try:
        import PySide6.QtCore  # noqa: F401
    finally:
        builtins.__import__ = own


def _asks_for_no_other_spelling(module: ModuleType) -> bool:
    return False
