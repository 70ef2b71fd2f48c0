"""Plain words read as what a brewer wants: "best bitter, not too sweet"."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache

from designer.brewday.in_words import colour_in_words
from designer.library import catalogue
from designer.library.catalogue import StyleEntry
from designer.library.flavours import PlainWord, flavour_entries, plain_words
from designer.library.names import in_other_languages
from designer.library.style_grists import grist_of
from designer.recipe.message import Message, Number, in_a_row, listed, say, word
from designer.recipe.quantity import Kind
from designer.recipe.same_name import folded
from designer.translation import message
from designer.workbench.first_answers import Reading
from designer.wort.colour import srm_from_ebc

_WORD = re.compile(r"[^\W_]+")
_FIGURE = re.compile(
    r"(?P<value>\d+(?:[.,]\d+)?)\s*(?P<unit>%|(?:per|pour) ?cent\b|Prozent\b|IBU\b|SRM\b|EBC\b)"
    r"|\b(?P<gravity>1[.,][01]\d\d)\b",
    re.IGNORECASE,
)
_KINDS = {
    "original_gravity": Kind.GRAVITY,
    "bitterness_ibu": Kind.BITTERNESS,
    "colour_srm": Kind.BEER_COLOUR,
}
_UNITS = {"ibu": "bitterness_ibu", "srm": "colour_srm"}
_TOO = ("too", "zu", "trop")
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
    """What plain words come to.

    `steps` say which way along each axis, -1 to 1, `alone` the figures where no style is named;
    `figures` are those that were typed among the words, by the name of their answer.
    """

    style: StyleEntry | None = None
    steps: dict[str, float] = field(default_factory=dict)
    alone: dict[str, float] = field(default_factory=dict)
    figures: dict[str, float] = field(default_factory=dict)
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
        if found.style is None and axis == "colour" and axis in found.alone:
            parts.append(word(colour_in_words(found.alone[axis])))
        elif step:
            parts.append(word(words[axis][1 if step > 0.0 else 0]))
    parts += [_shown(key, value) for key, value in found.figures.items()]
    labels = {each.key: each.name for each in flavour_entries()}
    if found.flavours:
        tastes = listed([word(labels[key]) for key in found.flavours])
        parts.append(say("tasting-of", "tasting of {flavour}", flavour=tastes))
    if not parts:
        return say("read-as-nothing", "")
    return say("read-as", "read as: {beer}", beer=in_a_row(parts))


def _shown(key: str, value: float) -> Message:
    if key == "abv_percent":
        return say("per-cent", "{value} %", value=Number(f"{value:g}"))
    return say("figure", "{0}", (_KINDS[key], value))


def understood(words: str) -> Understood:
    """Return what plain words say of a beer."""
    by_code = catalogue.find_style(words)
    if by_code is not None:
        return Understood(by_code)
    found = Understood()
    rest = _FIGURE.sub(lambda figure: _figured(found, figure), words[:LONGEST_TEXT])
    spelt = [(each, folded(each)) for each in _WORD.findall(rest)]
    unread: list[str] = []
    styled = _with_style(spelt, found)
    turned = False
    for place, meaning in _pieces([each for _, each in styled]):
        if meaning is None:
            unread.append(styled[place][0])
        elif meaning.means == "negation":
            turned = True
        elif meaning.means != "nothing":
            _take(found, meaning, turned=turned)
            turned = False
    found.unread = " ".join(unread)
    return found


def _figured(found: Understood, figure: re.Match[str]) -> str:
    """Take a figure out of the words: "4.5 %", "25 IBU", "18 EBC", "1.045"."""
    value = float((figure["value"] or figure["gravity"]).replace(",", "."))
    unit = folded(figure["unit"] or "")
    if figure["gravity"]:
        found.figures["original_gravity"] = value
    elif unit == "ebc":
        found.figures["colour_srm"] = float(srm_from_ebc(value))
    else:
        found.figures[_UNITS.get(unit, "abv_percent")] = value
    return " "


def _with_style(spelt: list[tuple[str, str]], found: Understood) -> list[tuple[str, str]]:
    """Take the longest name of a style out of the words."""
    keys = [each for _, each in spelt]
    for length in range(min(len(keys), 6), 0, -1):
        for start in reversed(range(len(keys) - length + 1)):  # what it is comes last
            name = _style_names().get(tuple(keys[start : start + length]))
            if name is not None and not _is_turned(keys, start):
                called = tuple(keys[start : start + length])
                found.style = _nearest(called, catalogue.find_style(name), found.figures)
                return spelt[:start] + spelt[start + length :]
    return spelt


def _nearest(
    called: tuple[str, ...], usual: StyleEntry | None, figures: dict[str, float]
) -> StyleEntry | None:
    """Return the style of which the figures are, where a word stands for several.

    A stout is an Irish one unless more is said; one of 6 % is stronger than those are.
    """
    if usual is None or _outside(usual, figures) == 0.0:
        return usual
    ends = slice(-len(called), None)
    alike = [each for each in catalogue.styles() if _name_words(each.name)[ends] == called]
    if usual not in alike or _name_words(usual.name) == called:
        return usual
    return min([usual, *alike], key=lambda each: _outside(each, figures))


def _outside(style: StyleEntry, figures: dict[str, float]) -> float:
    """Return how far figures lie outside a style, in widths of its ranges."""
    far = 0.0
    for key, value in figures.items():
        least, most = getattr(style, key)
        far += max(least - value, value - most, 0.0) / (most - least)
    return far


def _name_words(name: str) -> tuple[str, ...]:
    return tuple(_WORD.findall(folded(name)))


def _is_turned(keys: list[str], start: int) -> bool:
    """Whether a word before says that it is not so: "not too bitter" is no bitter."""
    if not start:
        return False
    turns = {each.words[0] for each in plain_words() if each.means == "negation"}
    return keys[start - 1] in turns or keys[start - 1] in _TOO


@cache
def _style_names() -> dict[tuple[str, ...], str]:
    names = {each.words: each.value for each in plain_words() if each.means == "style"}
    for style in catalogue.styles():
        for called in (style.name, *in_other_languages(style.name)):
            for name in (called, called.split(":")[-1], called.split("(")[0]):
                names.setdefault(_name_words(name), style.name)
    return names


@cache
def _meanings() -> dict[tuple[str, ...], PlainWord]:
    return {each.words: each for each in plain_words() if each.means != "style"}


def _pieces(keys: list[str]) -> Iterator[tuple[int, PlainWord | None]]:
    """Yield where each run of words begins, and what it means."""
    place = 0
    while place < len(keys):
        for count in (3, 2, 1):
            meaning = _meanings().get(tuple(keys[place : place + count]))
            if meaning is not None or count == 1:
                yield place, meaning
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
