"""Words on the screen as the reader's program says them.

Pages name them in English, as the source of the program does, in every language of the guide: so
what the guide calls a button is what stands on it, whoever translated either.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

PATH = ", "
"""Between the menu and what is chosen in it."""


def bare(sentence: str) -> str:
    """Return words as they are named: without the mark of their key, dots and colon."""
    return _without_key(sentence).rstrip(".…: \u202f") or sentence


def _without_key(sentence: str) -> str:
    return sentence.replace("&", "")


class ScreenWords:
    """Finds words of the screen among the program's sentences; `said` maps these to the reader's.

    A way through menus, "File, Open", is found as the menu and what is chosen in it.
    """

    def __init__(self, said: Mapping[str, str]) -> None:
        self._as_written = {_without_key(each): _without_key(words) for each, words in said.items()}
        # Of sentences that differ in such marks alone, the one without any has the word.
        ordered = sorted(said.items(), key=lambda pair: bare(pair[0]) == pair[0])
        self._said = {bare(sentence): bare(words) for sentence, words in ordered}

    def find(self, words: str) -> str | None:
        """Return words in the reader's language; None if the program has no such words.

        Words that a sentence has with these very marks are that sentence: "Leave out…" is on one
        button, "Leave out" on another.
        """
        if (written := self._as_written.get(words)) is not None:
            return written
        found = self._said.get(bare(words))
        if found is not None:
            return f"{found}…" if words.endswith("…") else found
        for place in (at for at in range(len(words)) if words.startswith(PATH, at)):
            menu, entry = words[:place], self.find(words[place + len(PATH) :])
            if entry is not None and (first := self._said.get(bare(menu))) is not None:
                return PATH.join((first, entry))
        return None


@cache
def screen_words(language: str) -> ScreenWords | None:
    """Return what finds the words of a language; None for English, which has them as written."""
    from designer.spoken_language import catalogue_if_any

    catalogue = catalogue_if_any(f"program_{language}") if language != "en" else None
    return ScreenWords(dict(catalogue.pairs())) if catalogue is not None else None
