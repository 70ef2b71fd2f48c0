"""Qt's enumerations, made of names and whole numbers without the care that Python takes of each.

PySide6 has Python's `enum` make them, and all of a class once the class is used: 220 with 3,300
members until the editors can be used. `enum` is ready there for whatever may be written into the
body of a class, which was a sixth of all that is done by then. Here a member is made as it comes
out of that, and noted in the same books. Where a Python keeps other books, and for an enumeration
of anything but numbers, all is as ever.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from enum import KEEP, Enum, EnumType, Flag, IntFlag
from typing import Any

TRIED = (Enum, IntFlag)
"""Kinds that are tried before any is made plainly: with flags and numbers of their own, without."""
SAMPLE = [("one", 1), ("also_one", 1), ("four", 4), ("three", 3), ("none", 0), ("two", 2)]
"""Numbers of every sort that Qt has: an alias, one bit, several, none; not in their order."""
NOT_PLAIN = {"", "mro", "name", "value"}
"""Names that an enumeration refuses, or that mean something else to it."""

made_with_care = EnumType._create_  # type: ignore[attr-defined]
"""What `kind(called, names)` of Python's `enum` does."""


def make_enums_plainly() -> None:
    """Have enumerations of numbers made plainly from now on, if that comes to the same here.

    On Python 3.11 alone: the Qt for Python of later ones (6.12) ends the process with a fault of
    memory if members are not made by `enum` itself.
    """
    if sys.version_info < (3, 12) and all(
        told(_sample(made_with_care, kind)) == told(_sample(made_plainly, kind)) for kind in TRIED
    ):
        EnumType._create_ = made_plainly  # type: ignore[attr-defined]


def made_plainly(
    kind: type[Enum], called: str, names: Any, *, module: str | None = None, **more: Any
) -> Any:
    """Return the enumeration that `made_with_care` does."""
    if module is None:  # that of whoever asks `enum`, as `enum` finds it itself
        module = sys._getframe(2).f_globals.get("__name__")
    if not _are_plain(names):
        return made_with_care(kind, called, names, module=module, **more)
    made = made_with_care(kind, called, [], module=module, **more)
    _fill(made, names)
    return made


def told(made: type[Enum]) -> dict[str, object]:
    """Return all that an enumeration knows of itself and its members, to be compared."""
    return {
        name: vars(value) | {"__objclass__": None} if isinstance(value, made) else str(value)
        for name, value in vars(made).items()
    }


def _sample(make: Callable[..., type[Enum]], kind: type[Enum]) -> type[Enum]:
    return make(kind, "Sample", SAMPLE, module=__name__, boundary=KEEP)


def _are_plain(names: Any) -> bool:
    return type(names) is list and all(
        type(each) is tuple
        and type(each[1]) is int
        and each[0] not in NOT_PLAIN
        and each[0][0] != "_"
        for each in names
    )


def _fill(made: Any, names: list[tuple[str, int]]) -> None:
    """Give an enumeration that has no members those of these names."""
    bare, takes_number, is_flag = made._new_member_, made._use_args_, issubclass(made, Flag)
    in_order, by_name, by_number = (
        made._member_names_,
        made._member_map_,
        made._value2member_map_,
    )
    mask = singles = 0
    for name, number in names:
        is_single = number != 0 and not number & (number - 1)
        mask |= number
        singles |= number if is_single else 0
        member = by_number.get(number)
        if member is None:
            by_number[number] = member = bare(made, number) if takes_number else bare(made)
            member._value_ = number
            member._name_ = name
            member.__objclass__ = made
            member._sort_order_ = len(in_order)
            if is_single or not is_flag:
                in_order.append(name)
        by_name[name] = member
        type.__setattr__(made, name, member)
    if is_flag:
        made._flag_mask_, made._singles_mask_ = mask, singles
        made._all_bits_ = 2 ** mask.bit_length() - 1
        numbers = [each._value_ for each in made]
        if numbers != sorted(numbers):
            made._iter_member_ = made._iter_member_by_def_
