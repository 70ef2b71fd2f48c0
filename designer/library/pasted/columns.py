"""What a column of a pasted table is, by its heading: "Amount (kg)", "Weight, oz", "alpha %".

Words of the trade in English and in the languages of the brew sheet.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import NamedTuple

from designer.recipe.quantity import Kind
from designer.translation import message
from designer.units.quick_words import FACTORS


class Means(StrEnum):
    """What a column holds."""

    NAME = message("name")
    AMOUNT = message("amount")
    UNIT = message("unit")
    WHEN = message("goes in")
    ALPHA = message("alpha acid")
    COLOUR = message("colour")
    YIELD = message("extract yield")
    FIGURE = message("figure")
    KIND = message("kind")
    LIST = message("list")
    OUT = message("left out")


class Use(NamedTuple):
    """What a column holds, and the unit of a bare number in it ("": it needs one of its own)."""

    means: Means
    unit: str = ""


OUT = Use(Means.OUT)
LONGEST_HEADING = 40

LISTS = {
    "fermentables": "fermentables fermentable malts malt grains grain grist extracts extract sugars"
    " sugar malze malz schüttung fermentescibles céréales",
    "hops": "hops hop hopping hopfen houblons houblon lúpulos lúpulo",
    "extras": "extras extra finings fining other others zusätze divers",
    "yeast": "yeast yeasts hefe levure levadura",
}
LIST_WORDS = {
    "fermentables": message("fermentables"),
    "hops": message("hops"),
    "extras": message("extras"),
    "yeast": message("yeast"),
}
"""What each of them is called in a sentence."""
LIST_OF = {word: name for name, words in LISTS.items() for word in words.split()}
"""The list that a word in a column, or above some rows, speaks of; the yeast is none."""

_WORDS = {
    Means.AMOUNT: "amount amounts weight mass quantity qty dose menge gewicht quantité poids"
    " cantidad peso hoeveelheid",
    Means.UNIT: "unit units einheit unité unidad",
    Means.ALPHA: "alpha aa \u03b1 alphasäure alphas",
    Means.COLOUR: "colour color farbe couleur",
    Means.YIELD: "yield yields potential ppg l°/kg ausbeute extraktausbeute rendement",
    Means.WHEN: "when time boil boiled addition added goes minutes zeit kochzeit kochdauer zugabe"
    " moment durée",
    Means.KIND: "kind form purpose art type",
    Means.FIGURE: "figure",
    Means.LIST: "list group category",
    Means.NAME: "name names ingredient ingredients fermentable malt grain extract hop hops variety"
    " item extra zutat zutaten sorte malz hopfen ingrédient nom houblon",
}
_MEANS_OF = {word: means for means, words in _WORDS.items() for word in words.split()}
_COLOUR_UNITS = {"ebc": "EBC", "srm": "SRM", "°l": "°L", "lovibond": "°L", "l": "°L"}
_PIECES = {"ml": "mL", "tsp": "tsp", "tablet": "tablet", "tablets": "tablet"}
_MASS, _TIME = FACTORS[Kind.MASS], FACTORS[Kind.TIME]
_UNITS: dict[Means, dict[str, str]] = {
    Means.AMOUNT: {word: word for word in _MASS if word not in ("#", "gr")} | _PIECES,
    Means.WHEN: {word: word for word in _TIME if len(word) > 2} | {"h": "h", "minuten": "min"},
    Means.COLOUR: _COLOUR_UNITS,
    Means.ALPHA: {"%": "%", "percent": "%"},
    Means.YIELD: {"ppg": "ppg", "l°/kg": "L°/kg", "%": "%", "percent": "%"},
}
_FILLERS = frozenset(
    ("of", "the", "in", "at", "to", "for", "acid", "acids", "used", "left", "long", "cooked", "per")
)
_TOKEN = re.compile(r"l°/kg|°?[^\W\d_]+|%")


class Heading(NamedTuple):
    """What a heading says, and whether every word of it was understood."""

    use: Use
    certain: bool


def heading_of(text: str) -> Heading | None:
    """Return what a cell says as a heading; None if it says nothing of the sort."""
    if len(text) > LONGEST_HEADING or any(sign.isdigit() for sign in text):
        return None
    tokens = _TOKEN.findall(text.lower().replace(".", ""))
    told = {_MEANS_OF[token] for token in tokens if token in _MEANS_OF}
    means = next((each for each in _WORDS if each in told), None)
    if means is None:
        means = next((each for each in _UNITS if _units(each, tokens)), None)
        if means in (None, Means.ALPHA):  # per cent alone may be a share of the grist
            return None
    units = _units(means, tokens)
    known = all(_is_known(token, means) for token in tokens)
    return Heading(Use(means, units[0] if len(units) == 1 else ""), known and len(units) < 2)


def _units(means: Means, tokens: list[str]) -> list[str]:
    return list(
        dict.fromkeys(_UNITS[means][each] for each in tokens if each in _UNITS.get(means, {}))
    )


def _is_known(token: str, means: Means) -> bool:
    return token in _MEANS_OF or token in _FILLERS or token in _UNITS.get(means, {})
