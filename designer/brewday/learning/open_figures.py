"""A recipe with the figures of the kitchen wide open, so that its readings can tell them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import exp, hypot

from designer.brewday.cooling import BATHS_AT_8_L
from designer.brewday.extract_inputs import EXTRACT_GOT
from designer.brewday.heat_doubts import COOLING
from designer.brewday.inputs import FERMENTER_MARK
from designer.brewday.learning.figures import Figure
from designer.brewday.learning.priors import PRIORS
from designer.brewday.malt_doubts import (
    FERMENTABILITY,
    FERMENTABILITY_OF_GRAIN,
    HELD_IN_BAG,
    LEFT_IN_TIN,
    STEEP_YIELD,
    YIELD,
)
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.tolerances import SOLIDS, LineInput
from designer.brewday.vessel_doubts import off_by_marks
from designer.recipe.choices import CoolingWay, is_grain
from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.quantity import Quantity
from designer.wort.chilling import bath_constant

BATHS = (CoolingWay.ICE_BATH, CoolingWay.COLD_WATER_BATH)
"""Ways to cool whose constant is learned: a pot in a bath."""
OPEN = {
    Figure.EVAPORATION: 0.8,
    Figure.LEFT_IN_POT: 1.0,
    Figure.COOLING: 0.8,
    Figure.STEEP_YIELD: 0.5,
    Figure.EXTRACT_BIAS: 0.12,
    Figure.VOLUME_BIAS: 0.12,
    Figure.ATTENUATION: 0.15,
}
"""Half widths that leave a figure open: shares of it, litres of what is left, of attenuation."""
TOLD_ALONG: dict[Figure, tuple[str, ...]] = {
    Figure.STEEP_YIELD: (YIELD, HELD_IN_BAG.words, "water held by grain"),
    Figure.EXTRACT_BIAS: (SOLIDS, LEFT_IN_TIN.words, "kitchen scale"),
    Figure.ATTENUATION: (FERMENTABILITY, FERMENTABILITY_OF_GRAIN),
}
"""What no kitchen can tell from a figure: it stands for them too."""
_UNKNOWN_ATTENUATION = 0.08


@dataclass(frozen=True, slots=True)
class OpenFigure:
    """A figure that was opened: its input, where it lies at score 0, and how wide it is.

    It is told together with the inputs `along`, which a kitchen cannot tell from it: an attenuation
    is that of the yeast with the extracts that are brewed with. `believed` is the half width that
    it has for other figures, in the unit of `half_width`; a `ratio` is moved by the exponential of
    its scores.
    """

    figure: Figure
    key: str
    value: float
    half_width: float
    believed: float
    ratio: bool = False
    along: tuple[str, ...] = ()

    def stands_for(self, key: str) -> bool:
        """Whether the figure is told together with an input."""
        return (key.template if isinstance(key, LineInput) else key) in self.along

    def at(self, score: float) -> float:
        """Return the figure at a standard score."""
        by = self.half_width / HALF_WIDTH_SIGMAS * score
        return self.value * exp(by) if self.ratio else self.value + by


def opened(recipe: Recipe) -> tuple[Recipe, tuple[OpenFigure, ...]]:
    """Return a plain recipe with what can be learned of it left open, and these figures."""
    figures = tuple(_figures(recipe))
    process, fermenter, yeast = recipe.process, recipe.fermenter, recipe.yeast
    told = {each.figure: Quantity(each.value, "", each.half_width) for each in figures}
    process = replace(
        process,
        evaporation=told[Figure.EVAPORATION],
        left_in_pot=told[Figure.LEFT_IN_POT],
        cooling_constant=told.get(Figure.COOLING, process.cooling_constant),
        steep_yield=told.get(Figure.STEEP_YIELD, process.steep_yield),
        extract_got=told[Figure.EXTRACT_BIAS],
    )
    if process.top_up_to is not None:  # how far a mark is off is told of the vessel alone
        process = replace(process, top_up_to=replace(process.top_up_to, spread=None))
    fermenter = replace(fermenter, marks_hold=told[Figure.VOLUME_BIAS])
    yeast = replace(yeast, attenuation=told[Figure.ATTENUATION])
    return replace(recipe, process=process, fermenter=fermenter, yeast=yeast), figures


def _figures(recipe: Recipe) -> Iterator[OpenFigure]:
    process = recipe.process
    prior = PRIORS[Figure.EVAPORATION]
    value, sure = _believed(process.evaporation, prior.value, prior.half_width * prior.value)
    yield _open(Figure.EVAPORATION, "evaporation", value, OPEN[Figure.EVAPORATION] * value, sure)
    prior = PRIORS[Figure.LEFT_IN_POT]
    value, sure = _believed(process.left_in_pot, prior.value, prior.half_width)
    yield _open(Figure.LEFT_IN_POT, "wort left in the pot", value, OPEN[Figure.LEFT_IN_POT], sure)
    if process.cooling in BATHS:
        usual = usual_cooling(recipe)
        own = PRIORS[Figure.COOLING].half_width
        value, sure = _believed(process.cooling_constant, usual, own * usual)
        yield _open(Figure.COOLING, COOLING.words, value, OPEN[Figure.COOLING] * value, sure)
    if any(is_grain(each.kind) for each in recipe.fermentables):
        own = PRIORS[Figure.STEEP_YIELD].half_width
        value, sure = _believed(process.steep_yield, 1.0, own)
        yield _open(Figure.STEEP_YIELD, STEEP_YIELD.words, value, OPEN[Figure.STEEP_YIELD], sure)
    value, sure = _believed(process.extract_got, 1.0, PRIORS[Figure.EXTRACT_BIAS].half_width)
    yield _open(Figure.EXTRACT_BIAS, EXTRACT_GOT, value, OPEN[Figure.EXTRACT_BIAS], sure)
    yield _mark(recipe)
    value, sure = _believed(recipe.yeast.attenuation, 0.75, _UNKNOWN_ATTENUATION)
    yield _open(Figure.ATTENUATION, "attenuation", value, OPEN[Figure.ATTENUATION], sure)


def _mark(recipe: Recipe) -> OpenFigure:
    """The mark: what the fermenter is filled to is off by as much as its marks are open."""
    value, sure = _believed(
        recipe.fermenter.marks_hold, 1.0, off_by_marks(recipe.fermenter.marks)[0]
    )
    wide = OPEN[Figure.VOLUME_BIAS] * value
    mark, eye = recipe.process.top_up_to, off_by_marks(recipe.fermenter.marks)[1]
    if mark is not None:
        wide, sure = (hypot(each, value * eye / max(mark.value, 1e-9)) for each in (wide, sure))
    return OpenFigure(
        Figure.VOLUME_BIAS, FERMENTER_MARK, value, wide / value, sure / value, ratio=True
    )


def _open(figure: Figure, key: str, value: float, wide: float, believed: float) -> OpenFigure:
    along = TOLD_ALONG.get(figure, ())
    return OpenFigure(figure, key, value, wide, believed, along=along)


def _believed(typed: Quantity | None, usual: float, half_width: float) -> tuple[float, float]:
    """Return what a recipe has typed of a figure, with its ±, or what is usual."""
    if typed is None:
        return usual, half_width
    return typed.value, half_width if typed.spread is None else typed.spread


def usual_cooling(recipe: Recipe) -> float:
    """Return the constant per minute that a pot in a bath has at its usual fill."""
    volume = recipe.process.start_water
    litres = 8.0 if volume is None else volume.value
    at_8_l = BATHS_AT_8_L[CoolingWay.COLD_WATER_BATH]
    return float(bath_constant(at_8_l, litres, number_or_none(recipe.pot, "diameter")))
