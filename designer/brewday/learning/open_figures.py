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
from designer.brewday.vessel_doubts import LEFT_IN_POT, off_by_marks, share_off
from designer.recipe.choices import CoolingWay, is_grain
from designer.recipe.document import Recipe
from designer.recipe.fields import number, number_or_none
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


@dataclass(frozen=True, slots=True)
class OpenFigure:
    """A figure that was opened: its input, where it lies at score 0, and how wide it is.

    It is told together with the inputs `along`, which a kitchen cannot tell from it: an attenuation
    is that of the yeast with the extracts that are brewed with. `believed` is the half width that
    it has for other figures, in the unit of `half_width`; a `ratio` is moved by the exponential of
    its scores. `usual` is the half width that it has in any kitchen.
    """

    figure: Figure
    key: str
    value: float
    half_width: float
    believed: float
    usual: float
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
    mark = told[Figure.VOLUME_BIAS]
    open_share = OPEN[Figure.VOLUME_BIAS] * mark.value  # the eye's part comes in by the mark itself
    fermenter = replace(fermenter, marks_hold=replace(mark, spread=open_share))
    yeast = replace(yeast, attenuation=told[Figure.ATTENUATION])
    return replace(recipe, process=process, fermenter=fermenter, yeast=yeast), figures


def _figures(recipe: Recipe) -> Iterator[OpenFigure]:
    process = recipe.process
    evaporation = PRIORS[Figure.EVAPORATION].value
    yield _open(Figure.EVAPORATION, "evaporation", process.evaporation, evaporation)
    left = PRIORS[Figure.LEFT_IN_POT].value
    yield _open(Figure.LEFT_IN_POT, LEFT_IN_POT.words, process.left_in_pot, left)
    if process.cooling in BATHS:
        constant = usual_cooling(recipe)
        yield _open(Figure.COOLING, COOLING.words, process.cooling_constant, constant)
    if any(is_grain(each.kind) for each in recipe.fermentables):
        yield _open(Figure.STEEP_YIELD, STEEP_YIELD.words, process.steep_yield, 1.0)
    yield _open(Figure.EXTRACT_BIAS, EXTRACT_GOT, process.extract_got, 1.0)
    yield _mark(recipe)
    attenuation = PRIORS[Figure.ATTENUATION].value
    yield _open(Figure.ATTENUATION, "attenuation", recipe.yeast.attenuation, attenuation)


def _open(figure: Figure, key: str, typed: Quantity | None, usual: float) -> OpenFigure:
    """Return a figure as the recipe has it, or as is usual; of nothing no share is left open."""
    prior, is_told = PRIORS[figure], typed is not None and typed.value > 0.0
    value = typed.value if typed is not None and is_told else usual
    unit = value if prior.ratio else 1.0
    of_any = prior.half_width * unit
    sure = typed.spread if typed is not None and is_told else None
    return OpenFigure(
        figure,
        key,
        value,
        half_width=OPEN[figure] * unit,
        believed=of_any if sure is None else sure,
        usual=of_any,
        along=TOLD_ALONG.get(figure, ()),
    )


def _mark(recipe: Recipe) -> OpenFigure:
    """The mark: what the fermenter is filled to is off by as much as its marks are open."""
    fermenter, mark = recipe.fermenter, recipe.process.top_up_to
    value = number(fermenter, "marks_hold")
    usual, eye_l = off_by_marks(fermenter.marks)
    eye = 0.0 if mark is None else eye_l / max(mark.value, 1e-9)
    wide, sure, of_any = (
        hypot(each, eye) for each in (OPEN[Figure.VOLUME_BIAS], share_off(fermenter)[0], usual)
    )
    return OpenFigure(Figure.VOLUME_BIAS, FERMENTER_MARK, value, wide, sure, of_any, ratio=True)


def usual_cooling(recipe: Recipe) -> float:
    """Return the constant per minute that a pot in a bath has at its usual fill."""
    volume = recipe.process.start_water
    litres = 8.0 if volume is None else volume.value
    at_8_l = BATHS_AT_8_L[CoolingWay.COLD_WATER_BATH]
    return float(bath_constant(at_8_l, litres, number_or_none(recipe.pot, "diameter")))
