"""What is wrong with a document: the first problems word for word, all others counted.

A file of some megabytes can have hundreds of thousands of them. Nobody reads so many, and their
words would take gigabytes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from designer.recipe.limits import MOST_PROBLEMS
from designer.recipe.message import listed
from designer.translation import tr, trn

Kind = Callable[[int], str]


def values(count: int) -> str:
    """Return in words how many more values cannot be taken."""
    return trn(
        "{count} more value that cannot be taken",
        "{count} more values that cannot be taken",
        count,
        count=f"{count:,}",
    )


def unknown_keys(count: int) -> str:
    """Return in words how many more keys are unknown."""
    return trn("{count} more unknown key", "{count} more unknown keys", count, count=f"{count:,}")


class Problems:
    """The problems found so far; false as long as there are none."""

    def __init__(self) -> None:
        self._told: list[str] = []
        self._counted: Counter[Kind] = Counter()

    def __bool__(self) -> bool:
        return bool(self._told)

    def append(self, problem: str | Callable[[], str], kind: Kind = values) -> None:
        """Note a problem; the words of a callable are made only where they are told.

        `kind` counts in words what is not told.
        """
        if len(self._told) < MOST_PROBLEMS:
            self._told.append(problem if isinstance(problem, str) else problem())
        else:
            self._counted[kind] += 1

    def lines(self) -> list[str]:
        """Return a line for each problem told, and one for all others together."""
        if not self._counted:
            return list(self._told)
        more = listed([kind(count) for kind, count in self._counted.items()])
        return [*self._told, tr("and {more}", more=more)]
