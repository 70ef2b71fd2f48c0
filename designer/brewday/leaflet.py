"""What the leaflet of a kit promises, beside what the day comes to.

Nothing of the day is reckoned from it. A figure agrees where ours lies within the band that is
stated, or a single stated figure within our range; in part where the two ranges meet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import NamedTuple

from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Range
from designer.recipe.document import Leaflet, Recipe
from designer.recipe.message import Figure, Message, say, word
from designer.recipe.plan import is_planned
from designer.recipe.quantity import Kind, Quantity
from designer.translation import message

FIELDS = {
    "original_gravity": "original_gravity",
    "final_gravity": "final_gravity",
    "abv_percent": "alcohol",
    "bitterness_ibu": "bitterness",
}
"""The forecast that each stated figure is one of, and the field that holds it."""
SAME_VOLUME = 0.03
"""A batch that differs by more than this share is not the one of the leaflet; judgement."""
ROUNDING = 1e-9


class Verdict(StrEnum):
    """How a stated figure and ours go together."""

    AGREES = "agrees"
    PARTLY = "agrees in part"
    DIFFERS = "differs"
    OTHER_VOLUME = "other volume"


class Checked(NamedTuple):
    """A stated figure, its ends in the units of the forecast `key`, and that forecast.

    `makes` is the volume it is stated for, `batch_l` the one that is brewed; None where the leaflet
    says no volume.
    """

    key: str
    stated: Quantity
    low: float
    high: float
    ours: Range
    verdict: Verdict
    makes: Quantity | None
    batch_l: float

    @property
    def said(self) -> Message:
        """Both figures in a sentence, and how they go together."""
        found, figures = self.ours, [_figure(self.key, self.stated)]
        figures += [_figure(self.key, each) for each in (found.value, found.low, found.high)]
        if self.verdict is Verdict.OTHER_VOLUME and self.makes is not None:
            figures += [(Kind.VOLUME, self.makes), (Kind.VOLUME, self.batch_l)]
        what = word(BY_KEY[self.key].heading)
        return say("leaflet-" + self.verdict, _SAID[self.verdict], *figures, what=what)


_SAID = {
    Verdict.AGREES: message("{what}: stated {0}; here {1}, {2} to {3}. They agree."),
    Verdict.PARTLY: message("{what}: stated {0}; here {1}, {2} to {3}. They agree in part."),
    Verdict.DIFFERS: message("{what}: stated {0}; here {1}, {2} to {3}. They do not agree."),
    Verdict.OTHER_VOLUME: message("{what}: stated {0} in {4}; here {1}, {2} to {3}, in {5}."),
}


def _figure(key: str, value: float | Quantity) -> Figure:
    """Return a figure of a forecast; alcohol is told as the share that it is."""
    kind = Kind.FRACTION if key == "abv_percent" else BY_KEY[key].kind
    if isinstance(value, Quantity):
        return kind, value
    return kind, value / 100.0 if key == "abv_percent" else value


def stated_band(leaflet: Leaflet, key: str) -> tuple[float, float] | None:
    """Return the ends of what is stated, in the units of the forecast; None where nothing is."""
    typed: Quantity | None = getattr(leaflet, FIELDS[key])
    if typed is None:
        return None
    half = typed.spread or 0.0
    low, high = typed.ends or (typed.value - half, typed.value + half)
    of_one = 100.0 if key == "abv_percent" else 1.0
    return of_one * low, of_one * high


def is_other_volume(recipe: Recipe, batch_l: float) -> bool:
    """Whether what is to be brewed is not the volume that the leaflet speaks of.

    That is the mark to top up to, or what the day gives where there is none or a plan has its own.
    """
    makes, mark = recipe.leaflet.makes, recipe.process.top_up_to
    if makes is None:
        return False
    litres = batch_l if mark is None or is_planned(recipe) else mark.value
    return abs(litres - makes.value) > SAME_VOLUME * makes.value


def checked(recipe: Recipe, forecasts: Mapping[str, Range], batch_l: float) -> tuple[Checked, ...]:
    """Return each stated figure beside our forecast of it, for a batch of that volume."""
    return tuple(_checked(recipe, forecasts, batch_l))


def _checked(recipe: Recipe, forecasts: Mapping[str, Range], batch_l: float) -> Iterator[Checked]:
    leaflet, is_other = recipe.leaflet, is_other_volume(recipe, batch_l)
    for key, field in FIELDS.items():
        band = stated_band(leaflet, key)
        if band is not None:
            verdict = Verdict.OTHER_VOLUME if is_other else _verdict(key, band, forecasts[key])
            stated: Quantity = getattr(leaflet, field)
            yield Checked(key, stated, *band, forecasts[key], verdict, leaflet.makes, batch_l)


def _verdict(key: str, band: tuple[float, float], ours: Range) -> Verdict:
    places = BY_KEY[key].decimals
    low, high = band[0] - ROUNDING, band[1] + ROUNDING
    if low <= round(ours.value, places) <= high:
        return Verdict.AGREES
    meet = low <= ours.high and ours.low <= high
    if not meet:
        return Verdict.DIFFERS
    is_single = band[1] - band[0] <= ROUNDING
    return Verdict.AGREES if is_single else Verdict.PARTLY
