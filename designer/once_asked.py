"""Modules of other makers that are loaded once something of them is asked for."""

from __future__ import annotations

import sys
from importlib.util import find_spec, module_from_spec
from threading import RLock
from types import ModuleType
from typing import Any

_executing = RLock()
"""A thread that asks while another has the module executed waits until it is whole."""


class _OnceAsked(ModuleType):
    """A module that is executed when something of it is asked for."""

    def __getattr__(self, name: str) -> Any:
        spec = self.__spec__
        if name.startswith("__") or spec is None or spec.loader is None:
            raise AttributeError(name)
        with _executing:
            if type(self) is _OnceAsked:
                self.__class__ = _BeingExecuted
                published, spec.name = spec.name, self.__name__  # PySide6 names its modules anew
                spec.loader.exec_module(self)
                spec.name = published
                self.__class__ = ModuleType  # type: ignore[assignment]
            return ModuleType.__getattribute__(self, name)


class _BeingExecuted(_OnceAsked):
    """The same while it is executed: what it has not yet is missing to itself, others wait."""


def put_off(name: str) -> None:
    """Have a module there that is executed once something of it is asked for.

    One that is loaded already, or that nobody has, stays as it is.
    """
    if name in sys.modules:
        return
    try:
        spec = find_spec(name)
    except ImportError:  # of what it lies in
        return
    if spec is None:
        return
    module = module_from_spec(spec)
    module.__class__ = _OnceAsked
    sys.modules[name] = module
    package, _, last = name.rpartition(".")
    if package:
        setattr(sys.modules[package], last, module)
