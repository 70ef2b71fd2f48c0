"""What a day says there is to be read of its wort, before the odd reading is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import hypot
from typing import TYPE_CHECKING

from designer.brewday.instrument import reading_range, reads_high_by, trusted_within
from designer.brewday.measured.expecting import wort_in
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.reading_errors import REFRACTOMETER_SHARE, off_by_wort
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.percentiles import middle_half, weights
from designer.brewday.results import Day, Outlook, Range
from designer.brewday.vessel_doubts import off_by_marks, share_off
from designer.recipe.choices import FermentableKind, VolumeMarks, is_grain
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.kind_defaults import FERMENTABLE_DEFAULTS, real_fermentability
from designer.recipe.plan import is_planned, recipe_of_fermenter
from designer.wort.fermentation import ALCOHOL_METHODS
from designer.wort.refractometer import WORT_CORRECTION

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

LEAST_TOP_UP = 0.01
"""Share of the batch below which a top-up is none."""
UNTRIED_SG = 0.002
"""Half the range of the doubt of a hydrometer that nobody tried (common practice, no source)."""
MALT_FERMENTS = FERMENTABLE_DEFAULTS[FermentableKind.LIQUID_EXTRACT].fermentability
_IN_POT = (Measured.BOIL_END_GRAVITY, Measured.BOIL_GRAVITY, Measured.BOIL_START_GRAVITY)


@dataclass(frozen=True, slots=True)
class Brings:
    """What a line of the fermentables brings to the wort of a fermenter.

    Gravity points, and the share of the bitterness that is on its label; kilograms and kind as they
    are written; `ferments` is the share of its extract that does, by a usual yeast. A line that
    nobody named has the `line_id` 0.
    """

    line_id: int
    name: str
    kind: str
    kg: float
    points: float
    bitterness_share: float = 0.0
    ferments: float = MALT_FERMENTS

    @property
    def is_grain(self) -> bool:
        """Whether it is steeped."""
        return is_grain(self.kind)

    @property
    def from_a_tin(self) -> bool:
        """Whether some of it may be left in what it came in."""
        return self.kind in (FermentableKind.LIQUID_EXTRACT, FermentableKind.HOPPED_KIT)


@dataclass(frozen=True, slots=True, eq=False)
class Beliefs:
    """What is known of a wort beside its gravity readings.

    The columns are equally likely samples: `points` of gravity (thousandths above water) and litres
    of the wort as it is pitched, points and litres of what stood in the pot before it was topped
    up, all at 20 °C. `planned_l` is the volume that the day says, `expected` and `expected_in_pot`
    the gravities that are there to be read, and a reading of these lies from `reads_from` to
    `reads_to`, with the doubt of the instrument. `trusted_sg` is half the 5 to 95 % range of that
    doubt, `in_water` what the hydrometer was found to show there, None where it was not tried.
    `mark_share` and `mark_anyway_l` are what the fermenter's marks are off by, `marks_hold` what
    a litre of them holds. `wort_correction` is the refractometer's over extract, and
    `correction_share` half the range of its doubt, a share. Bitterness is None where nobody told
    it. `outlook` is the day that all this is told by, None for a kit.
    """

    points: Array
    batch_l: Array
    pot_points: Array
    pot_l: Array
    planned_l: float
    top_up_share: float
    expected: Range
    expected_in_pot: Range
    reads_from: float
    reads_to: float
    lines: tuple[Brings, ...]
    final_gravity: float
    abv_percent: float
    bitterness_ibu: float | None
    alcohol_method: str = "Balling"
    trusted_sg: float = UNTRIED_SG
    made_for_c: float = 20.0
    in_water: float | None = None
    mark_share: float = 0.04
    mark_anyway_l: float = 0.15
    marks_hold: float = 1.0
    wort_correction: float = WORT_CORRECTION
    correction_share: float = REFRACTOMETER_SHARE
    outlook: Outlook | None = field(default=None, repr=False)

    @property
    def planned_points(self) -> float:
        """Points of the wort as the day says it."""
        return 1000.0 * (self.expected.value - 1.0)

    @property
    def is_topped_up(self) -> bool:
        """Whether there is so much top-up that layers can form."""
        return self.top_up_share > LEAST_TOP_UP

    def abv_of(self, points: float, line: int | None = None, line_share: float = 0.0) -> float:
        """Return the alcohol of the beer, % by volume, if its wort has so many points.

        The yeast ferments the same share of it, but for what a line brings of which a share is
        missing (below nothing) or too much: `line` is its place in the lines. Without the sugar
        the rest is malt, of which less ferments.
        """
        planned = max(self.planned_points, 1e-6)
        if planned < 1.0:
            return self.abv_percent
        alcohol = ALCOHOL_METHODS[self.alcohol_method].function
        plan = float(alcohol(1.0 + planned / 1000.0, self.final_gravity))
        falls = 1.0 - 1000.0 * (self.final_gravity - 1.0) / planned
        falls = min(falls * self._ferments_times(line, line_share), 1.2)
        final = 1.0 + points * (1.0 - falls) / 1000.0
        found = float(alcohol(1.0 + points / 1000.0, final))
        return max(self.abv_percent * found / plan if plan > 0.0 else found, 0.0)

    def _ferments_times(self, line: int | None, line_share: float) -> float:
        """Return how many times as large a share ferments with so much more or less of a line."""
        if line is None or line_share == 0.0:
            return 1.0
        points = [each.points for each in self.lines]
        before = _mean_of(points, [each.ferments for each in self.lines])
        points[line] *= max(1.0 + line_share, 0.0)
        after = _mean_of(points, [each.ferments for each in self.lines])
        return after / before if before > 0.0 and after > 0.0 else 1.0

    def bitterness_of(self, volume_factor: float, label_missing: float = 0.0) -> float | None:
        """Return the bitterness in another volume, without a share of it that is on a label."""
        if self.bitterness_ibu is None:
            return None
        return self.bitterness_ibu * max(1.0 - label_missing, 0.0) / max(volume_factor, 1e-6)


def outlook_to_explain(
    recipe: Recipe, readings: Sequence[Reading], *, fermenter: int = 1, in_pot: bool = False
) -> Outlook:
    """Return the day that a gravity reading of a fermenter is held against.

    It is the day as measured, but for the gravities that are to be explained: a reading cannot bear
    witness to itself. Those are the original gravities of that fermenter, and where the sample was
    drawn in the pot, those of the pot.
    """
    left_out = _IN_POT if in_pot else ()

    def counts(each: Reading) -> bool:
        if each.what is Measured.ORIGINAL_GRAVITY:
            return each.fermenter != fermenter
        return each.what not in left_out

    return day_measured(recipe, tuple(filter(counts, readings)))


def beliefs_of(outlook: Outlook, *, fermenter: int = 1) -> Beliefs:
    """Return what an outlook says is to be read of a fermenter, counted from 1.

    The outlook must not rest on the gravity readings that are to be explained: take the one that
    `outlook_to_explain` returns.
    """
    assert outlook.recipe is not None, "an outlook of a recipe"
    recipe, day, forecasts = outlook.recipe, outlook.day, outlook.forecasts
    if outlook.plan is not None:
        own = next(
            (each for each in outlook.plan.fermenters if each.number == fermenter),
            outlook.plan.fermenters[0],
        )
        day, forecasts = own.day, own.forecasts
    if is_planned(recipe):
        recipe = recipe_of_fermenter(recipe, fermenter)
    wort = wort_in(outlook, fermenter)
    original = forecasts["original_gravity"]
    share, anyway_l = share_off(recipe.fermenter)
    process = recipe.process
    told_in_water = process.hydrometer_in_water is not None
    reads_from, reads_to = reading_range(original, process)
    filled = day.fermenter
    return Beliefs(
        wort.points,
        wort.batch_l,
        wort.pot_points,
        wort.pot_l,
        planned_l=float(filled.batch_l),
        top_up_share=float(filled.top_up_l) / max(float(filled.batch_l), 1e-9),
        expected=original,
        expected_in_pot=range_of(1.0 + wort.pot_points / 1000.0),
        reads_from=reads_from,
        reads_to=reads_to,
        lines=_lines(recipe, day),
        final_gravity=forecasts["final_gravity"].value,
        abv_percent=forecasts["abv_percent"].value,
        bitterness_ibu=forecasts["bitterness_ibu"].value,
        alcohol_method=recipe.methods.alcohol,
        trusted_sg=trusted_within(process),
        made_for_c=number(process, "hydrometer_made_for"),
        in_water=1.0 + reads_high_by(process) if told_in_water else None,
        mark_share=share,
        mark_anyway_l=anyway_l,
        marks_hold=number(recipe.fermenter, "marks_hold"),
        wort_correction=number(process, "wort_correction"),
        correction_share=off_by_wort(recipe),
        outlook=outlook,
    )


def range_of(drawn: Array, value: float | None = None) -> Range:
    """Return the range of samples about a value, or else about their middle."""
    import numpy as np

    columns = np.asarray(drawn, dtype=float)[np.newaxis, :]
    ((low, high),) = (np.sort(columns, axis=-1) @ weights(columns.shape[1])).tolist()
    ((first, middle, third),) = middle_half(columns).tolist()
    at = middle if value is None else value
    return Range(at, min(low, at), max(high, at), (), first, middle, third)


def reads_within(expected: Range, trusted_sg: float) -> tuple[float, float]:
    """Return from what to what a reading of a gravity lies by an instrument that is so trusted."""
    middle = expected.value if expected.middle is None else expected.middle
    return (
        middle - hypot(middle - expected.low, trusted_sg),
        middle + hypot(expected.high - middle, trusted_sg),
    )


USUAL_MARKS = off_by_marks(VolumeMarks.PRINTED)
"""What the marks of a fermenter are off by of which nothing is told."""


def _mean_of(weights: Sequence[float], values: Sequence[float]) -> float:
    whole = sum(weights)
    return sum(w * v for w, v in zip(weights, values, strict=True)) / whole if whole > 0.0 else 0.0


def _lines(recipe: Recipe, day: Day) -> tuple[Brings, ...]:
    """Return what the lines bring; of a planned recipe as they share the wort of the fermenter."""
    bitterness = max(float(day.beer.bitterness_ibu), 1e-9)
    return tuple(
        Brings(
            line.line_id,
            line.name,
            line.kind,
            line.amount.value if line.amount is not None else 0.0,
            gives.points,
            min(gives.bitterness_ibu / bitterness, 1.0),
            real_fermentability(line),
        )
        for line in recipe.fermentables
        if (gives := day.gives.get(line.line_id)) is not None and gives.points > 0.0
    )
