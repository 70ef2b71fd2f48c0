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
    """Return the texts, each with a letter of its own as long as there are any left."""
    taken: set[str] = set()
    kept: dict[int, str] = {}
    for number, text in enumerate(texts):
        letter = letter_of(text)
        if letter and letter not in taken:
            taken.add(letter)
            kept[number] = text
    return [kept.get(number) or _with_another(text, taken) for number, text in enumerate(texts)]


def letter_of(text: str) -> str:
    """Return the letter that a text marks; "" for none."""
    match = _MARK.search(text.replace(_DOUBLED, "  "))
    return text[match.end()].casefold() if match else ""


def _with_another(text: str, taken: set[str]) -> str:
    plain, tab, key = _unmarked(text).partition("\t")
    beginnings = [match.start() for match in re.finditer(r"\b\w", plain)]
    for at in (*beginnings, *range(len(plain))):
        letter = plain[at].casefold()
        if letter.isalnum() and letter not in taken:
            taken.add(letter)
            return f"{plain[:at]}&{plain[at:]}{tab}{key}"
    return plain + tab + key


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
