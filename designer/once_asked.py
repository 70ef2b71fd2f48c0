"""Modules of other makers that are loaded once something of them is asked for."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from importlib.machinery import ModuleSpec, PathFinder
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


class _Waiting:
    """Has a module wait that is imported, in place of the loader that executes it."""

    def __init__(self, loader: Any, looked_at: Mapping[str, object]) -> None:
        self._loader, self._looked_at = loader, looked_at

    def create_module(self, spec: ModuleSpec) -> ModuleType | None:
        made: ModuleType | None = self._loader.create_module(spec)
        return made

    def exec_module(self, module: ModuleType) -> None:
        if module.__spec__ is not None:
            module.__spec__.loader = self._loader
        vars(module).update(self._looked_at)
        module.__class__ = _OnceAsked


def waiting_spec(
    name: str, path: Sequence[str] | None, looked_at: Mapping[str, object]
) -> ModuleSpec | None:
    """Return how a module is found, to be executed once something of it is asked for.

    It is that of a package on `path`, for whoever finds its modules; None where there is none.
    `looked_at` is as in `put_off`.
    """
    spec = PathFinder.find_spec(name, path)
    if spec is not None and spec.loader is not None:
        spec.loader = _Waiting(spec.loader, looked_at)  # type: ignore[assignment]
    return spec


def put_off(name: str, **looked_at: object) -> None:
    """Have a module there that is executed once something of it is asked for.

    One that is loaded already, or that nobody has, stays as it is. `looked_at` is given to whoever
    asks before for these names, which are only looked at then.
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
    vars(module).update(looked_at)
    module.__class__ = _OnceAsked
    sys.modules[name] = module
    package, _, last = name.rpartition(".")
    if package:
        setattr(sys.modules[package], last, module)
