"""Finding by words, whatever it is: words in any order, each the beginning of one that it has.

Case and accents do not matter. What is called as typed comes first, then what begins so, what has
the words in its name, what has them beside it, and last names that have them within a word: in some
languages words are written together.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Generic, Protocol, TypeVar

from designer.recipe.same_name import folded

_WORD = re.compile(r"[^\W_]+(?:[.,]\d+)?")
WITHIN = 3
"""Signs that a word must have to be looked for within others."""


class Findable(Protocol):
    """What can be found: its name, and further words that it is found by."""

    @property
    def title(self) -> str:
        """Its name."""

    @property
    def words(self) -> str:
        """What it is found by besides."""


T = TypeVar("T", bound=Findable)


def words_in(text: str) -> list[str]:
    """Return the words of a text as they are compared."""
    return _WORD.findall(folded(text))


class Findables(Generic[T]):
    """Things whose words were read once, so that each key is answered at once."""

    def __init__(self, things: Iterable[T]) -> None:
        self._read: list[tuple[T, str, list[str], list[str]]] = []
        for each in things:
            title = words_in(each.title)
            self._read.append((each, " ".join(title), title, words_in(each.words)))

    def found(self, typed: str, most: int) -> list[T]:
        """Return the things that have all words that were typed, the best first."""
        words = words_in(typed)
        if not words:
            return []
        scored = [
            (score, len(name), number)
            for number, (_, name, title, more) in enumerate(self._read)
            if (score := _score(words, name, title, more)) is not None
        ]
        return [self._read[number][0] for *_, number in sorted(scored)[:most]]


def _score(words: Sequence[str], name: str, title: list[str], more: list[str]) -> int | None:
    """0 for what is called so; larger is worse; None where a word is missing."""
    typed = " ".join(words)
    if name.startswith(typed):
        return 0 if name == typed else 1
    if all(_begins(word, title) for word in words):
        return 2
    if all(_begins(word, title) or _begins(word, more) for word in words):
        return 3
    if all(word in name for word in words) and max(map(len, words)) >= WITHIN:
        return 4
    return None


def _begins(word: str, words: list[str]) -> bool:
    return any(each.startswith(word) for each in words)
