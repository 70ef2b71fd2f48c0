"""Dataclasses whose methods are compiled once they are called.

Python writes the source of each method of a dataclass and compiles it, at every start: a tenth of
all that is done until the last picture of the window is painted. Of four such methods three are
never called. Here each is compiled at its first call, by Python's own way, and takes its place; a
later call is that of the compiled one. Where a Python makes dataclasses otherwise (from 3.13 on)
all is as ever.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

Method = Callable[..., Any]
_as_ever: Callable[..., Method] | None = getattr(dataclasses, "_create_fn", None)


def make_records_plainly() -> None:
    """Have methods of dataclasses that are made from now on compiled at their first call."""
    if _as_ever is not None:
        dataclasses._create_fn = _once_called  # type: ignore[attr-defined]


def make_records_as_ever() -> None:
    """Have dataclasses made from now on as Python makes them."""
    if _as_ever is not None:
        dataclasses._create_fn = _as_ever  # type: ignore[attr-defined]


def _once_called(name: str, *source: Any, **more: Any) -> Method:
    """Return what Python's own `_create_fn` makes of a source, compiled at its first call."""
    compiled: Method | None = None

    def method(self: object, *words: Any, **named: Any) -> Any:
        nonlocal compiled
        if compiled is None:
            assert _as_ever is not None
            compiled = _as_ever(name, *source, **more)
            compiled.__qualname__ = method.__qualname__
            for each in type(self).__mro__:
                if vars(each).get(name) is method:
                    setattr(each, name, compiled)
        return compiled(self, *words, **named)

    method.__name__ = method.__qualname__ = name
    return method
