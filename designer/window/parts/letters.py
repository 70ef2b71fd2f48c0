"""The letters by which entries of a menu are chosen: one each, in whatever language they are.

A text marks its own with &. Where two of a menu have the same, or one has none, another letter of
its words is marked, the first of a word if there is one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import partial

from PySide6.QtWidgets import QMenu, QMenuBar

_MARK = re.compile(r"&(?=[^&\s])")
_DOUBLED = "&&"


def lettered(texts: Sequence[str]) -> list[str]:
    """Return the texts, each with a letter of its own as long as that can be."""
    wished = [_letters(text) for text in texts]
    holders: dict[str, int] = {}
    for number, text in enumerate(texts):
        holders.setdefault(letter_of(text), number)
    holders.pop("", None)
    for number in sorted(set(range(len(texts))) - set(holders.values())):
        _give(number, wished, holders, set())
    letters = {number: letter for letter, number in holders.items()}
    return [_marked(text, letters.get(number, "")) for number, text in enumerate(texts)]


def _give(
    number: int, wished: Sequence[list[str]], holders: dict[str, int], tried: set[str]
) -> bool:
    """Give a text a letter; where all of its own are taken, one whose holder can take another."""
    for letter in wished[number]:
        if letter not in holders:
            holders[letter] = number
            return True
    for letter in wished[number]:
        if letter not in tried:
            tried.add(letter)
            if _give(holders[letter], wished, holders, tried):
                holders[letter] = number
                return True
    return False


def _letters(text: str) -> list[str]:
    """Return the letters of a text: its own, the first of its words, all others."""
    plain = _unmarked(text).partition("\t")[0].casefold()
    beginnings = [match.group() for match in re.finditer(r"\b\w", plain)]
    every = [sign for sign in plain if sign.isalnum()]
    own = letter_of(text)
    return list(dict.fromkeys([*([own] if own else []), *beginnings, *every]))


def _marked(text: str, letter: str) -> str:
    """Return a text that marks a letter, where it begins a word if it does."""
    if letter_of(text) == letter:
        return text
    plain, tab, key = _unmarked(text).partition("\t")
    folded = plain.casefold()
    begins = re.search(rf"\b{re.escape(letter)}", folded) if letter else None
    at = begins.start() if begins else folded.find(letter) if letter else -1
    return f"{plain[:at]}&{plain[at:]}{tab}{key}" if at >= 0 else plain + tab + key


def letter_of(text: str) -> str:
    """Return the letter that a text marks; "" for none."""
    match = _MARK.search(text.replace(_DOUBLED, "  "))
    return text[match.end()].casefold() if match else ""


def _unmarked(text: str) -> str:
    return _DOUBLED.join(_MARK.sub("", part) for part in text.split(_DOUBLED))


def lettered_when_opened(menu: QMenu) -> None:
    """Let each entry of a menu have a letter of its own whenever the menu is opened."""
    menu.aboutToShow.connect(partial(letter, menu))


def letter(menu: QMenu | QMenuBar) -> None:
    """Give each entry of a menu, or each menu of a bar, a letter of its own."""
    actions = [each for each in menu.actions() if not each.isSeparator() and each.text()]
    for action, text in zip(actions, lettered([each.text() for each in actions]), strict=True):
        if action.text() != text:
            action.setText(text)
