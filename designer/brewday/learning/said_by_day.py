"""What one brew says of figures of the kitchen: by its day, as far as its readings tell them.

The same simulation is asked what each reading would have been, and what every doubtful input does
to it, about the inputs that fit the readings best. A figure is then told by the readings alone:
what is believed of it is left out, so that belief does not count again with each brew, while all
other inputs are as doubtful as ever. What each of them puts the figure off by is told by its name:
instruments, makes of malt and the kitchen's other figures are the same in other brews too, and so
is their error. What a figure stands for in a kitchen (`open_figures`) is not held against it.

Source: generalised least squares, Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14.7; the
steps to the inputs that fit, Gauss-Newton (both from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.day import run_from
from designer.brewday.learning.figures import Figure
from designer.brewday.learning.open_figures import OpenFigure
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.looks import LookingRun, Looks, read_of
from designer.brewday.measured.observed import Told
from designer.brewday.measured.scores import MovedSamples
from designer.brewday.results import Day
from designer.brewday.tolerances import LatinHypercube
from designer.recipe.document import Recipe
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

NEW_EACH_TIME = frozenset(("tap water temperature", "freezer temperature"))
"""Inputs that are others on each day; what else is doubtful is off alike in every brew."""
STEPS = 4
NUDGE = 0.25
"""Standard deviations by which each input is moved to see what it does."""
FURTHEST = 4.0
TELLS_FROM = 3.0
"""Readings that leave a figure so many times as wide as it usually is tell nothing of it."""


class SeenOfDay(NamedTuple):
    """What was seen of a day beside readings: what of the day, the value, its standard deviation.

    `instrument` and `rate` are the key of what puts it off in other readings too, and how far, for
    one standard deviation of that.
    """

    of: Callable[[Day], Numeric]
    value: float
    deviation: float
    instrument: str = ""
    rate: float = 0.0


@dataclass(frozen=True, slots=True)
class Said:
    """What a brew says of a figure: value, spread of its own, and what it shares; see `Seen`."""

    figure: Figure
    value: float
    spread: float
    shared: tuple[tuple[str, float], ...] = ()


def said_by_day(
    recipe: Recipe, told: Sequence[Told], seen: Sequence[SeenOfDay], figures: Sequence[OpenFigure]
) -> tuple[Said, ...]:
    """Return what a plain day says of figures that were opened in its recipe."""
    day = _DayAsked(recipe, told, seen)
    return day.said(figures) if day.is_told else ()


class _DayAsked(KnownDay):
    """A day of which is asked what its inputs do to what was seen."""

    def __init__(
        self, recipe: Recipe, told: Sequence[Told], seen_of_day: Sequence[SeenOfDay]
    ) -> None:
        super().__init__(recipe, told)
        self._of_day = tuple(seen_of_day)

    @property
    def is_told(self) -> bool:
        """Whether anything was seen."""
        return bool(self._observed or self._of_day)

    def said(self, figures: Sequence[OpenFigure]) -> tuple[Said, ...]:
        """Return what is said of each figure that anything is said of."""
        import numpy as np

        keys, read, errors = self._keys(), self._read(), self._errors()
        scores = np.zeros(len(keys))
        widths = np.ones(len(keys))
        for each in figures:
            if each.key in keys:
                widths[keys.index(each.key)] = each.believed / each.half_width
        shown, slopes = self._lines(keys, scores)
        for _ in range(STEPS):
            covariance = slopes @ slopes.T + np.diag(errors)
            left = read - shown + slopes @ scores
            found = slopes.T @ np.linalg.solve(covariance, left)
            scores = np.clip(found, -FURTHEST, FURTHEST)
            shown, slopes = self._lines(keys, scores)
        left = read - shown + slopes @ scores
        asked = [each for each in figures if each.key in keys]
        said = (_said(each, keys, slopes, widths, errors, left) for each in asked)
        return tuple(each for each in said if each is not None)

    def _keys(self) -> tuple[str, ...]:
        sampler = LatinHypercube(2)
        self._run(sampler)
        own = [each.instrument for each in self._observed]
        own += [each.instrument for each in self._of_day if each.instrument]
        return tuple(dict.fromkeys((*sampler.tolerances, *own)))

    def _read(self) -> Array:
        import numpy as np

        return np.array([e.value for e in self._observed] + [e.value for e in self._of_day])

    def _errors(self) -> Array:
        import numpy as np

        of_readings = [each.deviation for each in self._observed]
        return np.array(of_readings + [each.deviation for each in self._of_day]) ** 2

    def _run(self, sampler: LatinHypercube) -> tuple[Day, Looks]:
        seen: Looks = {}
        kind = partial(LookingRun, lefts=self._lefts, seen=seen, with_hops=False)
        return run_from(self.recipe, self._given(sampler), kind, noting=False), seen

    def _lines(self, keys: tuple[str, ...], scores: Array) -> tuple[Array, Array]:
        """Return what these scores would have shown, and what each score does to it."""
        import numpy as np

        moved = np.eye(len(keys)) * NUDGE
        columns = scores[:, None] + np.concatenate((np.zeros((len(keys), 1)), moved, -moved), 1)
        sampler = MovedSamples(columns.shape[1], moved=dict(zip(keys, columns, strict=True)))
        day, seen = self._run(sampler)
        shown = np.empty((len(self._observed) + len(self._of_day), columns.shape[1]))
        for row, each in enumerate(self._observed):
            there = read_of(seen, each.what, each.left_min or 0.0)
            shown[row] = each.shown(there, columns[keys.index(each.instrument)])
        for row, of_day in enumerate(self._of_day, len(self._observed)):
            shown[row] = of_day.of(day)
            if of_day.instrument:
                shown[row] -= of_day.rate * columns[keys.index(of_day.instrument)]
        count = len(keys)
        slopes = (shown[:, 1 : count + 1] - shown[:, count + 1 :]) / (2.0 * NUDGE)
        return shown[:, 0], slopes


def _said(
    figure: OpenFigure,
    keys: tuple[str, ...],
    slopes: Array,
    widths: Array,
    errors: Array,
    left: Array,
) -> Said | None:
    """Return what is said of one figure; None where that is next to nothing."""
    import numpy as np

    place = keys.index(figure.key)
    own = slopes[:, place]
    stands_for = [place, *(at for at, key in enumerate(keys) if figure.stands_for(key))]
    others = slopes * widths
    others[:, stands_for] = 0.0
    covariance = others @ others.T + np.diag(errors)
    worth = np.linalg.solve(covariance, own)
    told = float(own @ worth)
    usual = figure.usual / figure.half_width
    if told * (TELLS_FROM * usual) ** 2 < 1.0:
        return None
    score = float(worth @ left) / told
    shares = worth @ others / told
    shares[[key in NEW_EACH_TIME for key in keys]] = 0.0
    alone = max(1.0 / told - float((shares**2).sum()), 0.0)
    at = figure.at(float(np.clip(score, -FURTHEST, FURTHEST)))
    unit = (figure.at(score + NUDGE) - figure.at(score - NUDGE)) / (2.0 * NUDGE)
    shared = [(key, unit * by) for key, by in zip(keys, shares.tolist(), strict=True) if by]
    return Said(figure.figure, at, unit * alone**0.5, tuple(shared))
