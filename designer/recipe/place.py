"""A place of a recipe: what a finding is about, what a change has touched, what a command sets."""

from __future__ import annotations

from typing import NamedTuple


class Place(NamedTuple):
    """A list or part of a recipe, or what stands in it: `hops.3`, `process.top_up_to`, `notes`.

    `of` names the list, the part or a field of the recipe itself; "recipe" is all of it. `line` is
    the line_id of a line, but in a place that is typed its number in the list, from 1. Without
    `field` it is all of the line or part.
    """

    of: str
    field: str = ""
    line: int | None = None

    def __str__(self) -> str:
        line = "" if self.line is None else str(self.line)
        return ".".join(each for each in (self.of, line, self.field) if each)


def read_place(text: str) -> Place:
    """Return the place that a text such as `hops.2.alpha` names, be it in a recipe or not.

    Where words stand for the number of a line it is 0, which no list has.
    """
    of, *rest = text.strip().split(".")
    if len(rest) > 2:
        return Place(text)
    if len(rest) == 2 or (rest and _is_number(rest[0])):
        number = rest.pop(0)
        line = int(number[:9]) if _is_number(number) else 0
        return Place(of, "".join(rest), line)
    return Place(of, "".join(rest))


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit()
