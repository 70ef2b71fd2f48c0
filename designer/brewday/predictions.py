"""The forecasts: what each is called, of what kind, where its number comes from.

Live panel, sheet and command line walk this list.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from designer.brewday.results import Day
from designer.recipe.quantity import Kind
from designer.wort.numeric import Numeric


@dataclass(frozen=True, slots=True)
class Prediction:
    """A number read off a day. Alcohol is in per cent by volume, all else in base units."""

    key: str
    label: str
    kind: Kind
    source: str
    compute: Callable[[Day], Numeric]


PREDICTIONS = (
    Prediction(
        "original_gravity",
        "Original gravity",
        Kind.GRAVITY,
        "mass balance of extract and water; density of sucrose solutions, ICUMSA SPS-4 (1998)",
        lambda day: day.original_gravity,
    ),
    Prediction(
        "final_gravity",
        "Final gravity",
        Kind.GRAVITY,
        "fermentability of each extract scaled by the yeast's attenuation; factor 0.81, Balling",
        lambda day: day.final_gravity,
    ),
    Prediction(
        "abv_percent",
        "Alcohol by volume",
        Kind.NUMBER,
        "Balling, by way of ASBC Beer-6",
        lambda day: day.abv_percent,
    ),
    Prediction(
        "bitterness_ibu",
        "Bitterness",
        Kind.BITTERNESS,
        "Tinseth, piece by piece through the day, on its own clock below the boil",
        lambda day: day.bitterness_ibu,
    ),
    Prediction(
        "colour_srm",
        "Colour",
        Kind.BEER_COLOUR,
        "malt colour units by Morey's fit",
        lambda day: day.colour_srm,
    ),
    Prediction(
        "colour_ebc",
        "Colour, EBC",
        Kind.BEER_COLOUR,
        "1.97 times SRM",
        lambda day: day.colour_ebc,
    ),
)
