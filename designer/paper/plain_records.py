"""Dataclasses without the source of methods that no brewer's doing calls.

Python writes the source of each method of a dataclass and compiles it, at every start: of those
that refuse to change one that is frozen, and of the one that tells its fields to whoever debugs,
was a third of what sixty dataclasses take until the last picture is painted. These three do the
same without source of their own. The others, which every forecast calls, are compiled as ever, and
so are all where a Python makes them otherwise (from 3.13 on).
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

Method = Callable[..., Any]
_as_ever = {name: getattr(dataclasses, name, None) for name in ("_repr_fn", "_frozen_get_del_attr")}


def make_records_plainly() -> None:
    """Have dataclasses made from now on refuse changes, and tell their fields, by one source."""
    if all(_as_ever.values()) and hasattr(dataclasses, "_recursive_repr"):
        dataclasses._repr_fn = _telling  # type: ignore[attr-defined]
        dataclasses._frozen_get_del_attr = _refusing  # type: ignore[attr-defined]


def make_records_as_ever() -> None:
    """Have dataclasses made from now on as Python makes them."""
    for name, method in _as_ever.items():
        if method:
            setattr(dataclasses, name, method)


def _telling(fields: list[Any], _globals: object) -> Method:
    names = [field.name for field in fields]

    def __repr__(self: object) -> str:  # noqa: N807
        told = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{self.__class__.__qualname__}({told})"

    telling: Method = dataclasses._recursive_repr(__repr__)  # type: ignore[attr-defined]
    return telling


def _refusing(made: Any, fields: list[Any], _globals: object) -> tuple[Method, Method]:
    names = frozenset(field.name for field in fields)

    def __setattr__(self: object, name: str, value: object) -> None:  # noqa: N807
        if type(self) is made or name in names:
            raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")
        super(made, self).__setattr__(name, value)

    def __delattr__(self: object, name: str) -> None:  # noqa: N807
        if type(self) is made or name in names:
            raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")
        super(made, self).__delattr__(name)

    return __setattr__, __delattr__
