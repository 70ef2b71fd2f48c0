"""What was measured of a real brew, beside our forecast of that brew and its band.

A brew is a recipe document, brewed as any other. The band is the 5 to 95 % range of the draws of
that day, and holds the value. Where a source tells how two brews differ, both are brewed with the
same draws, so that what is doubtful about both alike cancels.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from designer.brewday.day import brew, brew_samples
from designer.brewday.results import Day
from designer.library.document_reading import FORMAT
from designer.library.recipe_file import read_document
from designer.recipe.document import Recipe
from designer.wort.extract import extract_for, water_for_volume
from designer.wort.numeric import Numeric
from designer.wort.water import WATER_KG_PER_L
from tests.proof.row import Kind

SAMPLES = 8192
"""So many that no draw decides on which side of the end of a band a measurement lies."""
DRY_EXTRACT_SOLIDS = 0.965

Read = Callable[[Day], Numeric]


class Band(NamedTuple):
    """Our value and the range in which nine brews of ten should land."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Measurement:
    """A figure that somebody measured, and our forecast of it.

    `measured` is written as precisely as it was told, or as two figures told, one over the other;
    each is as wide as its last digit. `supposed` says what the source leaves open and we had to
    suppose, `why` what keeps it outside the band.
    """

    source: str
    what: str
    measured: str
    band: Band
    supposed: str = ""
    why: str = ""

    kind = Kind.MEASURED

    @property
    def told(self) -> tuple[float, float]:
        """From where to where it may be that was told so precisely."""
        over, _, under = self.measured.partition("/")
        least, most = _told(over)
        if under:
            under_least, under_most = _told(under)
            return least / under_most, most / under_least
        return least, most

    @property
    def inside(self) -> bool:
        """Whether the band holds what was measured."""
        least, most = self.told
        return self.band.low <= most and least <= self.band.high

    @property
    def holds(self) -> bool:
        """Whether it lies inside, or says why not."""
        return self.inside or bool(self.why)


def _told(figure: str) -> tuple[float, float]:
    half = float(0.5 * 10.0 ** -len(figure.partition(".")[2]))
    return float(figure) - half, float(figure) + half


def recipe_of(**parts: Any) -> Recipe:
    """Return the recipe of a document with these parts, written as in a file."""
    return read_document(json.dumps({"hobwort": FORMAT, "name": "As measured", **parts}), "proof")


def wort(gravity_sg: float, litres: float) -> tuple[str, dict[str, str]]:
    """Return start water and a line of dry extract that make so much wort of that gravity."""
    solids_kg = float(extract_for(gravity_sg, litres))
    line_kg = solids_kg / DRY_EXTRACT_SOLIDS
    water_kg = float(water_for_volume(solids_kg, litres)) - (line_kg - solids_kg)
    line = {"name": "Dry extract", "kind": "dry extract", "amount": f"{1000 * line_kg:.1f} g"}
    return f"{water_kg / WATER_KG_PER_L:.4f} L", line


def hop(when: str, grams: float, alpha: str, form: str = "pellets") -> dict[str, str]:
    """Return a line of hops that the catalogue does not know."""
    amount = f"{grams:.3f} g"
    return {"name": "Hop", "form": form, "alpha": alpha, "amount": amount, "when": when}


def forecast(recipe: Recipe, read: Read) -> Band:
    """Return what `read` finds in the day of a recipe."""
    drawn = read(brew_samples(recipe, SAMPLES)[0])
    return _band(float(read(brew(recipe))), drawn)


def compared(recipe: Recipe, other: Recipe, read: Read) -> Band:
    """Return what is found in the day of a recipe over what is found in that of the other."""
    drawn, of_other = (read(brew_samples(each, SAMPLES)[0]) for each in (recipe, other))
    value = float(read(brew(recipe))) / float(read(brew(other)))
    return _band(value, drawn / of_other)


def _band(value: float, drawn: Numeric) -> Band:
    low, high = np.percentile(np.broadcast_to(drawn, SAMPLES), (5.0, 95.0))
    return Band(value, min(float(low), value), max(float(high), value))


def bitterness(day: Day) -> Numeric:
    """Bitterness in IBU."""
    return day.beer.bitterness_ibu
