"""Scales that no factor turns into one another: degrees of heat, gravities, colours."""

from __future__ import annotations

from collections.abc import Callable

from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.quick_words import FACTORS, TEMPERATURES
from designer.wort.colour import (
    ebc_from_lovibond,
    ebc_from_srm,
    lovibond_from_ebc,
    lovibond_from_srm,
    srm_from_ebc,
    srm_from_lovibond,
)
from designer.wort.density import gravity_from_plato, plato_from_gravity
from designer.wort.numeric import Numeric

PLATO = ("°p", "p", "plato", "° p", "deg p", "degrees plato", "ºp", "brix", "°bx", "bx",
         "grad plato", "degrés plato", "degré plato")  # fmt: skip
POINTS = ("points", "point", "pts", "pt", "gu", "punkte", "punkt")
LOVIBOND = (
    "°l", "l", "lovibond", "° l", "deg l", "ºl", "degrees lovibond", "grad lovibond",
    "degrés lovibond",
)  # fmt: skip
SCALE_WORDS: dict[Kind, tuple[str, ...]] = {
    Kind.TEMPERATURE: tuple(TEMPERATURES),
    Kind.TEMPERATURE_DIFFERENCE: tuple(TEMPERATURES),
    Kind.GRAVITY: (*PLATO, *POINTS, "sg"),
    Kind.MALT_COLOUR: (*LOVIBOND, "ebc", "srm"),
    Kind.BEER_COLOUR: ("ebc", "srm"),
}
"""The words of scales; those of units are in `quick_words`."""

_Scale = Callable[[float], Numeric]
_COLOURS: dict[Kind, dict[str, tuple[_Scale, _Scale]]] = {
    Kind.MALT_COLOUR: {
        "ebc": (lovibond_from_ebc, ebc_from_lovibond),
        "srm": (lovibond_from_srm, srm_from_lovibond),
    },
    Kind.BEER_COLOUR: {"ebc": (srm_from_ebc, ebc_from_srm)},
}
"""Of each colour the scales besides its own: from them, and to them."""


class NotReadError(Exception):
    """A text is not a quantity of the kind; `str` says what is wrong with it."""


def from_scale(kind: Kind, number: float, word: str) -> float:
    """Return what a figure of a scale is in the base unit of its kind.

    No word stands for the base unit, or for a gravity. Raises NotReadError.
    """
    if kind is Kind.GRAVITY:
        return _gravity(number, word)
    if word and word not in SCALE_WORDS.get(kind, ()):
        raise NotReadError(wrong_unit(kind, word))
    if kind is Kind.TEMPERATURE:
        zero, degrees = TEMPERATURES[word or "c"]
        return (number - zero) / degrees
    if kind is Kind.TEMPERATURE_DIFFERENCE:
        return number / TEMPERATURES[word or "c"][1]
    scale = _COLOURS.get(kind, {}).get(word)
    return number if scale is None else float(scale[0](number))


def to_scale(kind: Kind, value: float, word: str) -> float:
    """Return the figure of a scale for a value in the base unit of its kind."""
    if kind is Kind.TEMPERATURE:
        zero, degrees = TEMPERATURES[word]
        return degrees * value + zero
    if kind is Kind.TEMPERATURE_DIFFERENCE:
        return TEMPERATURES[word][1] * value
    if kind is Kind.GRAVITY:
        if word in PLATO:
            return float(plato_from_gravity(value))
        return 1000.0 * (value - 1.0) if word in POINTS else value
    scale = _COLOURS[kind].get(word)
    return value if scale is None else float(scale[1](value))


def _gravity(number: float, word: str) -> float:
    if word in PLATO:
        if not -2.0 <= number <= 60.0:
            raise NotReadError(tr("°P go from -2 to 60"))
        return float(gravity_from_plato(number))
    if word in POINTS:
        return 1.0 + number / 1000.0
    if word in ("", "sg"):
        gravity = number / 1000.0 if number > 100.0 else number
        if not 0.5 < gravity < 2.0:
            raise NotReadError(tr("write points or °P behind it, or the gravity in full"))
        return gravity
    raise NotReadError(wrong_unit(Kind.GRAVITY, word))


def gravity_spread(value: float, number: float, word: str) -> float:
    """Return a difference of gravity in points or SG, or one of °P at that gravity.

    Raises NotReadError.
    """
    if word in PLATO and number < 20.0:
        plato = float(plato_from_gravity(value))
        return float(gravity_from_plato(plato + number) - gravity_from_plato(plato - number)) / 2.0
    if word in POINTS:
        return number / 1000.0
    if word in ("", "sg"):
        return number if number < 0.5 else number / 1000.0
    raise NotReadError(wrong_unit(Kind.GRAVITY, word))


def wrong_unit(kind: Kind, word: str) -> str:
    """Say what is wrong with a word that is no unit of the kind."""
    for other, spellings in FACTORS.items():
        if word in spellings and other is not kind:
            if kind is Kind.VOLUME and word in ("oz", "ounce", "ounces"):
                return tr("oz is a mass; write fl oz for a volume")
            if other is Kind.FRACTION:
                return tr("{word} tells a share", word=word)
            return tr("{word} is a unit of {kind}", word=word, kind=tr(other.value))
    if word in TEMPERATURES and word != "k":  # it may be on its way to kg
        return tr("{word} is a unit of temperature", word=word)
    return tr("unit “{word}” is not known here", word=word)
