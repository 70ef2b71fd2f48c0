"""What a caller says of a kit without a recipe, as it is typed: its extract, and its band.

`1 kg + 400 g dry`, `2 x 1.5 kg tin`, `3.3 lb syrup and 1 lb sugar`: an amount, and a word for what
it is. Without a word it is syrup: that is what is in a tin.
"""

from __future__ import annotations

import re

from designer.brewday.explaining.kit import ExtractStated, KitStated
from designer.errors import DesignerError
from designer.recipe.choices import FermentableKind
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.units import read
from designer.units.quoting import quoted

Extract = tuple[float, FermentableKind]
"""Kilograms of something, and what it is."""

MOST_KG, LEAST_KG = 100.0, 0.01
MOST_TIMES = 20
LEAST_SG, MOST_SG = 1.005, 1.200
"""What of a kit can be believed; judged."""

_FORMS = {
    FermentableKind.DRY_EXTRACT: (
        "dry", "dried", "powder", "spray", "dme", "trocken", "trockenextrakt", "trockenmalzextrakt",
        "sec",
    ),
    FermentableKind.SUGAR: (
        "sugar", "dextrose", "glucose", "sucrose", "honey", "zucker", "traubenzucker", "honig",
        "sucre",
    ),
    FermentableKind.HOPPED_KIT: ("hopped", "kit", "gehopft", "gehopfter", "bierkit"),
    FermentableKind.LIQUID_EXTRACT: (
        "", "syrup", "liquid", "tin", "tins", "can", "cans", "tub", "extract", "malt", "lme",
        "unhopped", "sirup", "dose", "dosen", "büchse", "flüssig", "ungehopft", "extrakt",
        "malzextrakt", "flüssigextrakt", "flüssigmalzextrakt", "malz", "sirop",
    ),
}  # fmt: skip
"""Words for what is in a kit; the first kind that has one of the words typed is meant."""
_PASSED_OVER = frozenset(
    (
        "of", "light", "pale", "amber", "dark", "wheat", "bag", "bags", "pack", "hell", "heller",
        "dunkel", "dunkler", "beutel", "packung",
    )
)  # fmt: skip
_BETWEEN = re.compile(r"\s*(?:\+|&|;|\n|,(?!\d)|\band\b|\bund\b|\bet\b)\s*", re.IGNORECASE)
_TIMES = re.compile(r"(\d{1,2})\s*(?:[x×*]|(?:tins?|cans?|bags?|packs?)\s+of)\s*(?=\d)", re.I)
_AMOUNT = re.compile(r"([\d.,/\s]*\d[\d.,/]*\s*[^\W\d_]+\.?)\s*(.*)", re.DOTALL)


def extract_stated(text: str) -> tuple[Extract, ...]:
    """Return what is in a kit, each tin and bag by itself. Raises RefusedInputError."""
    found: list[Extract] = []
    for part in _BETWEEN.split(text.strip()):
        if part:
            found += _part(part)
    if not found:
        raise _not_read(text)
    return tuple(found)


def _part(part: str) -> list[Extract]:
    times, many = 1, _TIMES.match(part)
    if many is not None:
        times, part = int(many[1]), part[many.end() :]
    apart = _AMOUNT.fullmatch(part.strip())
    if apart is None or not 1 <= times <= MOST_TIMES:
        raise _not_read(part)
    form = _form(apart[2], part)
    try:
        kg = read(Kind.MASS, apart[1]).value
    except DesignerError as fault:
        raise refused(
            "kit-extract-amount", "{typed}: {fault}", typed=quoted(part), fault=str(fault)
        ) from None
    if not LEAST_KG <= kg <= MOST_KG:
        raise refused(
            "kit-extract-bounds",
            "{typed} is outside {0} to {1}; say what is in the box",
            (Kind.MASS, LEAST_KG),
            (Kind.MASS, MOST_KG),
            typed=quoted(part),
        )
    return [(kg, form)] * times


def _form(words: str, part: str) -> FermentableKind:
    told = {each for each in re.split(r"[\s\-]+", words.lower()) if each not in _PASSED_OVER}
    known = {each for forms in _FORMS.values() for each in forms}
    if told - known:
        raise refused(
            "kit-extract-form",
            "{typed}: say tin, dry or sugar behind the amount, as in 1.5 kg tin + 400 g dry",
            typed=quoted(part),
        )
    for kind, forms in _FORMS.items():
        if told & set(forms):
            return kind
    return FermentableKind.LIQUID_EXTRACT


def _not_read(text: str) -> DesignerError:
    return refused(
        "kit-extract-not-read",
        "{typed} is not read; write it as 1.5 kg tin + 400 g dry, or 2 x 1.5 kg",
        typed=quoted(text),
    )


def band_stated(text: str) -> tuple[float, float]:
    """Return the gravities between which a kit says that it lies, alike where it says one.

    Raises RefusedInputError.
    """
    found = read(Kind.GRAVITY, text.replace("..", " to "))
    half = found.spread or 0.0
    low, high = found.value - half, found.value + half
    if not LEAST_SG <= low <= high <= MOST_SG:
        raise refused(
            "kit-band-bounds",
            "{typed} is outside {0} to {1}; take the original gravity that the kit prints",
            (Kind.GRAVITY, LEAST_SG),
            (Kind.GRAVITY, MOST_SG),
            typed=quoted(text),
        )
    return low, high


def kit_stated(
    batch_l: float,
    band: str | None = None,
    pot_l: float | None = None,
    extract: str | None = None,
    bitterness_ibu: float | None = None,
) -> KitStated:
    """Return what a caller says of a kit, its band and extract as typed.

    Raises RefusedInputError where a text is not read, or neither of both is given.
    """
    if not band and not extract:
        raise refused(
            "kit-says-nothing",
            "say the band that the kit prints, such as 1.044 to 1.048, or what is in it, such as "
            "1.5 kg tin + 400 g dry",
        )
    low, high = band_stated(band) if band else (None, None)
    parts = extract_stated(extract) if extract else ()
    lines = tuple(ExtractStated(kg, form) for kg, form in parts)
    return KitStated(batch_l, low, high, pot_l, lines, bitterness_ibu)
