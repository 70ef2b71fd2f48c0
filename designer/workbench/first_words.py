"""Plain words read as what a brewer wants: "best bitter, not too sweet"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from designer.library import catalogue
from designer.library.catalogue import StyleEntry
from designer.library.flavours import PlainWord, flavour_entries, plain_words
from designer.library.style_grists import grist_of
from designer.recipe.message import Message, in_a_row, say, word
from designer.recipe.same_name import folded
from designer.translation import message
from designer.workbench.first_answers import Reading

_WORD = re.compile(r"[^\W_]+")
LONGEST_TEXT = 300
AXES = ("sweetness", "strength", "bitterness", "colour", "hops")
_THAN_USUAL = {
    "sweetness": (message("drier than usual"), message("sweeter than usual")),
    "strength": (message("weaker than usual"), message("stronger than usual")),
    "bitterness": (message("softer than usual"), message("more bitter than usual")),
    "colour": (message("paler than usual"), message("darker than usual")),
    "hops": (message("with little scent of hops"), message("with much scent of hops")),
}
_ALONE = {
    "sweetness": (message("dry"), message("sweet")),
    "strength": (message("weak"), message("strong")),
    "bitterness": (message("soft"), message("bitter")),
    "colour": (message("pale"), message("dark")),
    "hops": (message("with little scent of hops"), message("with much scent of hops")),
}


@dataclass(slots=True)
class Understood:
    """What plain words come to: which way along each axis, -1 to 1, and figures without a style."""

    style: StyleEntry | None = None
    steps: dict[str, float] = field(default_factory=dict)
    alone: dict[str, float] = field(default_factory=dict)
    flavours: tuple[str, ...] = ()
    unread: str = ""


def read_words(words: str) -> Reading:
    """Return what is understood of a style's name or of plain words."""
    found = understood(words)
    style = found.style
    family = grist_of(style.name).family.name if style is not None else ""
    return Reading(style, family, _said(found), found.unread)


def _said(found: Understood) -> Message:
    parts: list[object] = [found.style.name] if found.style is not None else []
    words = _ALONE if found.style is None else _THAN_USUAL
    for axis in AXES:
        step = found.steps.get(axis, 0.0)
        if step:
            parts.append(word(words[axis][1 if step > 0.0 else 0]))
    labels = {each.key: each.name for each in flavour_entries()}
    parts += [say("tasting-of", "tasting of {flavour}", flavour=word(labels[key]))
              for key in found.flavours]  # fmt: skip
    if not parts:
        return say("read-as-nothing", "")
    return say("read-as", "read as: {beer}", beer=in_a_row(parts))


def understood(words: str) -> Understood:
    """Return what plain words say of a beer."""
    by_code = catalogue.find_style(words)
    if by_code is not None:
        return Understood(by_code)
    spelt = [(each, folded(each)) for each in _WORD.findall(words[:LONGEST_TEXT])]
    found = Understood()
    unread: list[str] = []
    styled = _with_style(spelt, found)
    turned = False
    for piece in _pieces([each for _, each in styled]):
        place, count, meaning = piece
        if meaning is None:
            unread.append(styled[place][0])
        elif meaning.means == "negation":
            turned = True
        elif meaning.means != "nothing":
            _take(found, meaning, turned=turned)
            turned = False
        del count
    found.unread = " ".join(unread)
    return found


def _with_style(spelt: list[tuple[str, str]], found: Understood) -> list[tuple[str, str]]:
    """Take the longest name of a style out of the words."""
    keys = [each for _, each in spelt]
    for length in range(min(len(keys), 6), 0, -1):
        for start in range(len(keys) - length + 1):
            name = _style_names().get(tuple(keys[start : start + length]))
            if name is not None and not _is_turned(keys, start):
                found.style = catalogue.find_style(name)
                return spelt[:start] + spelt[start + length :]
    return spelt


def _is_turned(keys: list[str], start: int) -> bool:
    """Whether a word before says that it is not so: "not too bitter" is no bitter."""
    before = keys[max(start - 2, 0) : start]
    turns = {each.words[0] for each in plain_words() if each.means == "negation"}
    return any(each in turns for each in before) or before[-1:] == ["too"]


@cache
def _style_names() -> dict[tuple[str, ...], str]:
    names = {each.words: each.value for each in plain_words() if each.means == "style"}
    for style in catalogue.styles():
        for name in (style.name, style.name.split(":")[-1], style.name.split("(")[0]):
            names.setdefault(tuple(_WORD.findall(folded(name))), style.name)
    return names


@cache
def _meanings() -> dict[tuple[str, ...], PlainWord]:
    return {each.words: each for each in plain_words() if each.means != "style"}


def _pieces(keys: list[str]) -> Iterator[tuple[int, int, PlainWord | None]]:
    """Yield where each run of words begins, how many they are, and what they mean."""
    place = 0
    while place < len(keys):
        for count in (3, 2, 1):
            meaning = _meanings().get(tuple(keys[place : place + count]))
            if meaning is not None or count == 1:
                yield place, count, meaning
                place += count
                break


def _take(found: Understood, meaning: PlainWord, *, turned: bool) -> None:
    if meaning.means == "flavour":
        if not turned and meaning.value not in found.flavours:
            found.flavours = (*found.flavours, meaning.value)
        return
    step = -meaning.step if turned else meaning.step
    found.steps[meaning.means] = min(max(found.steps.get(meaning.means, 0.0) + step, -1.0), 1.0)
    if meaning.alone is not None and not turned:
        found.alone[meaning.means] = meaning.alone
