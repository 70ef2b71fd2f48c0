"""Qt for Python without what it loads beside Qt, and without its look into each module's source."""

from __future__ import annotations

import builtins
import linecache
import sys
from collections.abc import Iterable
from importlib.util import find_spec, module_from_spec
from types import ModuleType
from typing import Any

LOADER = "shibokensupport.signature.loader"
PUT_OFF = ("errorhandler", "layout", "parser", "enum_sig", "pyi_generator", "tool")
"""What tells the signatures of Qt's functions, and the module that loads it before any is asked.

Its `mapping` is not among them: Qt reads that one past Python's own way to ask a module.
"""


class _OnceAsked(ModuleType):
    """A module that is executed when something of it is asked for."""

    def __getattr__(self, name: str) -> Any:
        spec = self.__spec__
        if name.startswith("__") or spec is None or spec.loader is None:
            raise AttributeError(name)
        self.__class__ = ModuleType  # type: ignore[assignment]
        published, spec.name = spec.name, self.__name__  # PySide6 names it anew
        spec.loader.exec_module(self)
        spec.name = published
        return getattr(self, name)


def _put_off(package: str, names: Iterable[str]) -> None:
    """Have modules of a package there, to be executed once something of them is asked for."""
    for name in names:
        full = f"{package}.{name}"
        if name in PUT_OFF and full not in sys.modules and (spec := find_spec(full)) is not None:
            module = module_from_spec(spec)
            module.__class__ = _OnceAsked
            sys.modules[full] = module
            setattr(sys.modules[package], name, module)


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
    own = builtins.__import__

    def importing(name: str, *words: Any, **named: Any) -> ModuleType:
        given = dict(zip(("globals", "locals", "fromlist"), words, strict=False)) | named
        if given.get("fromlist") and (given.get("globals") or {}).get("__name__") == LOADER:
            own(name)
            _put_off(name, given["fromlist"])
        return own(name, *words, **named)

    builtins.__import__ = importing
    try:
        import PySide6.QtCore  # noqa: F401
    finally:
        builtins.__import__ = own
    linecache.clearcache()  # what it has read by then would be kept: 0.2 MB
