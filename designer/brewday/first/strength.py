"""How strong a wort has to be for the alcohol that is wanted, or for the ranges of a style.

Many grists are asked for the same few answers, which are kept.
"""

from __future__ import annotations

from functools import lru_cache

from designer.brewday.first.larder import Aim, Band
from designer.wort.extract import extract_for
from designer.wort.fermentation import alcohol_by_volume, final_gravity

USUAL_FALL = 105.0
"""Per cent of alcohol from a wort that falls by all of its gravity, about: to begin from."""
_INSET, _WIDE = 0.15, 0.02
_THIN = 1e-6


@lru_cache(maxsize=4096)
def extract_kg_l(gravity: float) -> float:
    """Return the kilograms of extract in a litre of wort."""
    return float(extract_for(gravity, 1.0))


@lru_cache(maxsize=4096)
def alcohol(gravity: float, final: float) -> float:
    """Return the per cent of alcohol by volume of a beer."""
    return float(alcohol_by_volume(gravity, final))


def gravity_wanted(aim: Aim, ferments: float) -> float:
    """Return the original gravity that gives the strength that is wanted.

    `ferments` is the share of the extract that does.
    """
    if aim.original_gravity is not None:
        return aim.original_gravity
    if aim.abv_percent is not None:
        return _gravity_for(aim.abv_percent, round(ferments, 3))
    return _within_bands(aim, round(ferments, 3))


@lru_cache(maxsize=4096)
def _gravity_for(abv_percent: float, ferments: float) -> float:
    gravity = 1.0 + abv_percent / USUAL_FALL
    for _ in range(4):
        found = float(alcohol_by_volume(gravity, final_gravity(gravity, ferments)))
        gravity = 1.0 + (gravity - 1.0) * abv_percent / max(found, _THIN)
    return gravity


def _within_bands(aim: Aim, ferments: float) -> float:
    """Return the gravity nearest to that wanted at which strength and end are in their ranges."""
    low, high = aim.bands.get("original_gravity", (1.0, 2.0))
    if "final_gravity" in aim.bands:
        left = max(float(final_gravity(2.0, ferments)) - 1.0, _THIN)
        least, most = (1.0 + (each - 1.0) / left for each in aim.bands["final_gravity"])
        low, high = _both((low, high), (least, most))
    if "abv_percent" in aim.bands:
        least, most = (_gravity_for(each, ferments) for each in aim.bands["abv_percent"])
        low, high = _both((low, high), (least, most))
    inset = _INSET * min(high - low, _WIDE)
    return min(max(aim.near["original_gravity"], low + inset), high - inset)


def _both(first: Band, second: Band) -> Band:
    """What lies in both; where nothing does, the end of the first that is nearest to the second."""
    low, high = max(first[0], second[0]), min(first[1], second[1])
    if low <= high:
        return low, high
    end = first[1] if second[0] > first[1] else first[0]
    return end, end
