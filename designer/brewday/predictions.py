"""The forecasts: what each is called, of what kind, where its number comes from.

Each is one entry here. Compose, Fit, the head of the sheet, the Recipe box, the command line and
`--json` walk this list, and so does whatever brings a forecast to a wanted value.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from designer.brewday.results import Day
from designer.recipe.quantity import Kind
from designer.translation import message
from designer.wort.colour import EBC_PER_SRM
from designer.wort.fermentation import KJ_PER_KCAL
from designer.wort.numeric import Numeric


@dataclass(frozen=True, slots=True)
class Weight:
    """How much a difference counts where ways to brew are put in order; a judgement, no source.

    `noticed` beyond what nobody can tell counts 1, or `noticed_share` of the original if that is
    more. `more` and `less` say of a way what it does to the beer: its value and the original's.
    """

    noticed: float
    more: str
    less: str
    noticed_share: float = 0.0


@dataclass(frozen=True, slots=True)
class Prediction:
    """A number read off a day. Alcohol is in per cent by volume, all else in base units.

    `label` is what handbooks call it, `name` what a newcomer reads, with `abbreviation` where there
    is a usual one; `on_sheet` heads it on paper, where it differs from those. It is written with so
    many `decimals`, before its `unit`. `strip` are the ends of its scale where it is drawn.
    `question` is what of a brewer's questions it answers; gravities stand on one ruler with what
    else answers the same.

    It can be brought to a wanted value by `means`, "fermentables", "hops" or "water"; the search
    stops `close` to it. A difference up to `deadband` is none; None where it follows from others.
    `weight` orders the ways to fit. `listed` tells whether the Recipe box has a column for it.
    `scale_of` is the key of another forecast that this is the same as, on the scale of metric
    countries, so many `of_one`: it is shown with that one.
    `behind` is the key of the main forecast behind which this further one stands: it is told where
    a brewer asks for more about that, and takes no row of its own.
    """

    key: str
    label: str
    kind: Kind
    source: str
    compute: Callable[[Day], Numeric]
    strip: tuple[float, float]
    name: str = ""
    abbreviation: str = ""
    on_sheet: str = ""
    decimals: int = 0
    unit: str = ""
    question: str = ""
    means: tuple[str, ...] = ()
    close: float = 0.0
    deadband: float | None = None
    weight: Weight | None = None
    listed: bool = True
    scale_of: str = ""
    of_one: float = 1.0
    behind: str = ""

    @property
    def plain(self) -> str:
        """What a newcomer reads: "Alcohol"."""
        return self.name or self.label

    @property
    def title(self) -> str:
        """The same with its abbreviation: "Original gravity (OG)"."""
        return f"{self.plain} ({self.abbreviation})" if self.abbreviation else self.plain

    @property
    def heading(self) -> str:
        """What heads a narrow column: "OG"."""
        return self.abbreviation or self.plain


HOW_STRONG = message("How strong")

PREDICTIONS = (
    Prediction(
        "original_gravity",
        message("Original gravity"),
        Kind.GRAVITY,
        "mass balance of extract and water; density of sucrose solutions, ICUMSA SPS-4 (1998)",
        lambda day: day.beer.original_gravity,
        strip=(1.000, 1.080),
        abbreviation=message("OG"),
        question=HOW_STRONG,
        on_sheet=message("Original gravity (OG)"),
        decimals=3,
        means=("fermentables", "water"),
        close=5e-6,
        deadband=0.001,
        weight=Weight(
            0.002, message("stronger, {0} instead of {1}"), message("weaker, {0} instead of {1}")
        ),
    ),
    Prediction(
        "final_gravity",
        message("Final gravity"),
        Kind.GRAVITY,
        "fermentability of each extract scaled by the yeast's attenuation; factor 0.81, Balling",
        lambda day: day.beer.final_gravity,
        strip=(1.000, 1.030),
        abbreviation=message("FG"),
        question=HOW_STRONG,
        on_sheet=message("Final gravity (FG)"),
        decimals=3,
        means=("fermentables",),
        close=2e-5,
        deadband=0.001,
        listed=False,
    ),
    Prediction(
        "abv_percent",
        message("Alcohol by volume"),
        Kind.NUMBER,
        "Balling, by way of ASBC Beer-6",
        lambda day: day.beer.abv_percent,
        strip=(0.0, 12.0),
        name=message("Alcohol"),
        question=HOW_STRONG,
        decimals=1,
        unit="%",
        means=("fermentables", "water"),
        close=2e-3,
    ),
    Prediction(
        "bitterness_ibu",
        message("Bitterness"),
        Kind.BITTERNESS,
        "Tinseth, piece by piece through the day, on its own clock below the boil",
        lambda day: day.beer.bitterness_ibu,
        strip=(0.0, 80.0),
        unit="IBU",
        question=message("How bitter"),
        means=("hops",),
        close=0.02,
        deadband=1.0,
        weight=Weight(
            2.0,
            message("more bitter, {0} instead of {1}"),
            message("less bitter, {0} instead of {1}"),
            noticed_share=0.1,
        ),
    ),
    Prediction(
        "colour_srm",
        message("Colour"),
        Kind.BEER_COLOUR,
        "malt colour units by Morey's fit",
        lambda day: day.beer.colour_srm,
        strip=(0.0, 45.0),
        unit="SRM",
        question=message("How dark"),
        means=("fermentables",),
        close=0.01,
        deadband=0.5,
        weight=Weight(
            2.0, message("darker, {0} instead of {1}"), message("paler, {0} instead of {1}")
        ),
    ),
    Prediction(
        "colour_ebc",
        message("Colour, EBC"),
        Kind.BEER_COLOUR,
        "1.97 times SRM",
        lambda day: day.beer.colour_ebc,
        strip=(0.0, 89.0),
        unit="EBC",
        scale_of="colour_srm",
        of_one=EBC_PER_SRM,
    ),
    Prediction(
        "kcal_per_100ml",
        message("Energy in 100 mL"),
        Kind.NUMBER,
        "6.9 kcal a gram of alcohol, 4 of what is left of the extract: ASBC, in the Oxford "
        "Companion to Beer",
        lambda day: day.beer.kcal_per_100ml,
        strip=(0.0, 100.0),
        unit="kcal",
        listed=False,
        behind="abv_percent",
    ),
    Prediction(
        "kj_per_100ml",
        message("Energy, kJ/100 mL"),
        Kind.NUMBER,
        "4.184 times kcal",
        lambda day: day.beer.kj_per_100ml,
        strip=(0.0, 418.4),
        unit="kJ",
        listed=False,
        scale_of="kcal_per_100ml",
        of_one=KJ_PER_KCAL,
    ),
)
"""Differences within a deadband are those that no kitchen hydrometer, tongue or eye can tell;
common practice, no source."""

BY_KEY = {each.key: each for each in PREDICTIONS}
ON_OTHER_SCALES = {each.scale_of: each for each in PREDICTIONS if each.scale_of}
"""What is a forecast on another scale, by the key of that forecast."""
MAIN = tuple(each for each in PREDICTIONS if not each.scale_of and not each.behind)
"""All but those that are others on another scale, and those that stand behind others."""


def further(key: str) -> tuple[Prediction, ...]:
    """Return the forecasts that stand behind a main one."""
    return tuple(each for each in PREDICTIONS if each.behind == key)
