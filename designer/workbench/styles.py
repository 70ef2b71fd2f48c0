"""The styles that a beer falls in or nearly, and what keeps it out of the others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor, inf

from designer.brewday.asked_ranges import Asked, Miss, as_shown, how_far_off, misses, share_inside
from designer.brewday.results import Range
from designer.library.catalogue import StyleEntry, styles
from designer.translation import message

FIVE = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
"""The figures that a style asks for, by their forecasts."""
NEAREST = 6
NO_BEER_SG = 1.005
"""Below it there is nothing yet to compare with a style."""
MOSTLY, ALL_BUT = 0.75, 0.95
"""Which share of the brews has to land inside for "mostly inside", and for "inside"."""

STANDINGS = {
    "inside": message("inside"),
    "mostly inside": message("mostly inside"),
    "just inside": message("just inside"),
    "nearly": message("just outside"),
    "outside": message("outside"),
}


@dataclass(frozen=True, slots=True)
class StyleFit:
    """How a beer stands to a style: what keeps it out, and how likely it lands inside.

    `share` is that of the figure which lands inside least often; `off` how far out it is, 0 inside.
    """

    style: StyleEntry
    missing: tuple[Miss, ...]
    share: float
    off: float
    off_centre: float

    @property
    def standing(self) -> str:
        """How it stands in a word, a key of `STANDINGS`."""
        if self.missing:
            return "nearly" if self.off < 0.25 else "outside"
        if self.share >= ALL_BUT:
            return "inside"
        return "mostly inside" if self.share >= MOSTLY else "just inside"


@lru_cache(maxsize=512)
def asked_by(style: StyleEntry) -> Asked:
    """Return the ranges of a style by the keys of the forecasts; colours as they are shown."""
    asked = {key: getattr(style, key) for key in FIVE}
    low, high = style.colour_srm
    return {**asked, "colour_srm": (float(floor(low)), float(ceil(high)))}


def missing_of(forecasts: Mapping[str, Range], style: StyleEntry) -> tuple[Miss, ...]:
    """Return what keeps a beer out of a style; nothing where it is in."""
    return misses({key: forecasts[key].value for key in FIVE}, asked_by(style))


def nearest_missed(forecasts: Mapping[str, Range]) -> StyleEntry | None:
    """Return the nearest style of a beer that falls in none; None where it falls in one."""
    nearest, least = None, inf
    shown = {key: as_shown(key, forecasts[key].value) for key in FIVE}
    for style in styles():
        off = how_far_off(shown, asked_by(style), enough=least)
        if off == 0.0:
            return None
        if off < least:
            nearest, least = style, off
    return nearest


def style_fit(forecasts: Mapping[str, Range], style: StyleEntry) -> StyleFit:
    """Return how forecasts stand to a style."""
    asked, missing = asked_by(style), missing_of(forecasts, style)
    share = min(share_inside(forecasts[key], *_to_the_eye(key, asked[key])) for key in FIVE)
    off_centre = sum(
        abs(forecasts[key].value - 0.5 * (low + high)) / (high - low)
        for key, (low, high) in asked.items()
    )
    return StyleFit(style, missing, share, sum(each.weight for each in missing), off_centre)


def _to_the_eye(key: str, limits: tuple[float, float]) -> tuple[float, float]:
    """Return the limits with what is rounded to them: a figure counts as it is shown."""
    half = {"original_gravity": 0.0005, "final_gravity": 0.0005, "abv_percent": 0.05}.get(key, 0.5)
    return limits[0] - half, limits[1] + half


def ranked(forecasts: Mapping[str, Range]) -> tuple[StyleFit, ...]:
    """Return all styles, first those it falls in, the surest of them first; then the nearest.

    How near is judged by what is missed, in usual widths of a style's ranges: a judgement.
    """
    found = [style_fit(forecasts, each) for each in styles()]
    return tuple(sorted(found, key=_rank))


def _rank(fit: StyleFit) -> tuple[float, float, float, str]:
    return fit.off, -round(fit.share, 1), fit.off_centre, fit.style.code


def is_beer(forecasts: Mapping[str, Range]) -> bool:
    """Whether there is anything yet to compare with a style."""
    return forecasts["original_gravity"].value >= NO_BEER_SG
