"""What is wrong with a document: the first problems word for word, all others counted.

A file of some megabytes can have hundreds of thousands of them. Nobody reads so many, and their
words would take gigabytes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

from designer.recipe.limits import MOST_PROBLEMS

VALUES = ("value that cannot be taken", "values that cannot be taken")
UNKNOWN_KEYS = ("unknown key", "unknown keys")


class Problems:
    """The problems found so far; false as long as there are none."""

    def __init__(self) -> None:
        self._told: list[str] = []
        self._counted: Counter[tuple[str, str]] = Counter()

    def __bool__(self) -> bool:
        return bool(self._told)

    def append(self, problem: str | Callable[[], str], kind: tuple[str, str] = VALUES) -> None:
        """Note a problem; the words of a callable are made only where they are told."""
        if len(self._told) < MOST_PROBLEMS:
            self._told.append(problem if isinstance(problem, str) else problem())
        else:
            self._counted[kind] += 1

    def lines(self) -> list[str]:
        """Return a line for each problem told, and one for all others together."""
        more = [f"{count:,} more {kind[count > 1]}" for kind, count in self._counted.items()]
        return [*self._told, f"and {' and '.join(more)}"] if more else list(self._told)
