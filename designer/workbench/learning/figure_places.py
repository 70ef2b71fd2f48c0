"""Where a learned figure stands in a recipe and in the kitchen, and how it is written there."""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.heat_doubts import COOLING
from designer.brewday.learning.figures import Figure
from designer.brewday.malt_doubts import STEEP_YIELD
from designer.brewday.results import Range
from designer.brewday.vessel_doubts import FERMENTER_MARK, LEFT_IN_POT
from designer.library.store.taught_figures import OfVessel
from designer.recipe.quantity import Kind
from designer.translation import message


@dataclass(frozen=True, slots=True)
class FigurePlace:
    """A figure: its words, the place in a recipe, the kind, and how a value is written.

    `key` is the input of the day that it tells of. `template` holds value and ±; what it is
    multiplied with before is `per_base`. `vessel` is where the kitchen keeps it, if with a vessel.
    """

    words: str
    part: str
    field: str
    kind: Kind
    key: str
    template: str
    per_base: float = 1.0
    in_shares: bool = False
    vessel: OfVessel | None = None


PLACES: dict[Figure, FigurePlace] = {
    Figure.EVAPORATION: FigurePlace(
        message("Evaporation"), "process", "evaporation", Kind.EVAPORATION, "evaporation",
        "{value:.3g} L/h ± {half:.2g} %", in_shares=True, vessel=OfVessel("pots", "evaporation"),
    ),
    Figure.LEFT_IN_POT: FigurePlace(
        message("Left in the pot"), "process", "left_in_pot", Kind.VOLUME, LEFT_IN_POT.words,
        "{value:.2f} L ± {half:.2f} L", vessel=OfVessel("pots", "left_in_pot"),
    ),
    Figure.COOLING: FigurePlace(
        message("Cooling in a bath"), "process", "cooling_constant", Kind.RATE, COOLING.words,
        "{value:.3g} /min ± {half:.2g} %", in_shares=True,
        vessel=OfVessel("pots", "cooling_constant"),
    ),
    Figure.STEEP_YIELD: FigurePlace(
        message("Steep yield"), "process", "steep_yield", Kind.FRACTION, STEEP_YIELD.words,
        "{value:.3g} % ± {half:.2g} %", per_base=100.0,
    ),
    Figure.EXTRACT_BIAS: FigurePlace(
        message("Extract got"), "process", "extract_got", Kind.FRACTION,
        "extract that really gets in", "{value:.3g} % ± {half:.2g} %", per_base=100.0,
    ),
    Figure.VOLUME_BIAS: FigurePlace(
        message("True volume at its marks"), "fermenter", "marks_hold", Kind.FRACTION,
        FERMENTER_MARK, "{value:.3g} % ± {half:.2g} %", per_base=100.0,
        vessel=OfVessel("fermenters", "marks_hold"),
    ),
    Figure.ATTENUATION: FigurePlace(
        message("Attenuation"), "yeast", "attenuation", Kind.FRACTION, "attenuation",
        "{value:.3g} % ± {half:.2g} %", per_base=100.0,
    ),
    Figure.HYDROMETER: FigurePlace(
        message("Hydrometer in water"), "process", "hydrometer_in_water", Kind.GRAVITY,
        "hydrometer", "{value:.4f} ± {half:.4f}",
    ),
    Figure.WORT_CORRECTION: FigurePlace(
        message("Refractometer over extract"), "process", "wort_correction", Kind.NUMBER,
        "refractometer", "{value:.3f} ± {half:.3f}",
    ),
}  # fmt: skip


def figure_text(figure: Figure, known: Range) -> str:
    """Return a figure with its ±, as a field of the recipe and the kitchen take it."""
    place = PLACES[figure]
    half = max(known.high - known.value, known.value - known.low)
    if place.in_shares:
        half = 100.0 * half / known.value if known.value > 0.0 else 0.0
    else:
        half *= place.per_base
    return place.template.format(value=place.per_base * known.value, half=half)
