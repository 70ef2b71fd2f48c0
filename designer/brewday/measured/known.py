"""One plain day as it is known after readings: run until the scores of its inputs fit them."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import replace
from functools import cached_property, partial
from typing import TYPE_CHECKING

from designer.brewday.day import run_from
from designer.brewday.inputs import Inputs, gather
from designer.brewday.measured.as_read import as_read
from designer.brewday.measured.conditioning import STEPS, Scores, told, untold
from designer.brewday.measured.looks import Looked, LookingRun, Place, Seen
from designer.brewday.measured.observed import Told, observed
from designer.brewday.measured.reading_errors import error_of, instrument_of
from designer.brewday.measured.readings import Measured, Readable, Reading
from designer.brewday.measured.scores import MovedPlain, MovedSamples
from designer.brewday.percentiles import middle_half, weights
from designer.brewday.results import Day, Range
from designer.brewday.sampling import samples_for
from designer.brewday.tolerances import Sampler, Tolerance
from designer.recipe.document import Recipe
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


class KnownDay:
    """A plain recipe's day, conditioned by readings; runs are made when they are asked for."""

    def __init__(self, recipe: Recipe, told: Sequence[Told] = ()) -> None:
        self._readings = tuple(each.of_the_day for each in told)
        self.recipe = as_read(recipe, self._readings)
        self.samples = samples_for(self.recipe)
        self._observed = observed(self.recipe, told)
        self._lefts = frozenset(
            each.left_min or 0.0
            for each in self._observed
            if each.what in (Measured.BOIL_VOLUME, Measured.BOIL_GRAVITY)
        )

    def with_ahead(self, recipe: Recipe) -> KnownDay:
        """Return the day of a recipe that differs in what lies ahead of all that was read.

        What the readings told of the inputs holds for it: they are not conditioned by anew.
        """
        other = copy(self)
        other.__dict__["_scores"] = self._scores
        for found in ("plain", "sampled", "tolerances"):
            other.__dict__.pop(found, None)
        other.recipe = as_read(recipe, self._readings)
        return other

    @property
    def quick(self) -> Day:
        """The day without its time line."""
        return self._plain(self._scores, noting=False).day

    @cached_property
    def plain(self) -> Looked:
        """The day with its time line."""
        return self._plain(self._scores, noting=True)

    @cached_property
    def sampled(self) -> Looked:
        """The day of many samples."""
        return self._run(self._sampler(self._scores), self._lefts)

    @cached_property
    def tolerances(self) -> dict[str, Tolerance]:
        """What is left of the tolerance of each input, instruments among them."""
        sampler = self._sampler(self._scores)
        self.__dict__["sampled"] = self._run(sampler, self._lefts)
        scores = self._scores
        if scores is None:
            return sampler.tolerances
        own = {each.instrument: Tolerance(0.0, 1.0, relative=False) for each in self._observed}
        return {key: sampler.tolerances.get(key) or own[key] for key in scores.keys}

    def expects(self, readable: Readable) -> Range:
        """Return what is there to be read."""
        return self.expected(readable.what, readable.left_min)

    def expected(self, what: Measured, left_min: float | None = None) -> Range:
        """Return what there is to read, the value of the plain day and the range of the samples."""
        import numpy as np

        value, sampled = self._at(what, left_min)
        drawn = np.broadcast_to(sampled, (1, self.samples))
        ((low, high),) = (np.sort(drawn, axis=-1) @ weights(self.samples)).tolist()
        ((first, middle, third),) = middle_half(drawn).tolist()
        return Range(value, min(low, value), max(high, value), (), first, middle, third)

    def _at(self, what: Measured, left_min: float | None) -> tuple[float, Numeric]:
        """Return what there is to read at any place of the day: plain, and in each sample."""
        lefts = frozenset({left_min or 0.0})
        if what not in (Measured.BOIL_VOLUME, Measured.BOIL_GRAVITY) or lefts <= self._lefts:
            return float(self.plain.at(what, left_min)), self.sampled.at(what, left_min)
        plain = self._plain(self._scores, noting=False, lefts=lefts)
        sampled = self._run(self._sampler(self._scores), lefts)
        return float(plain.at(what, left_min)), sampled.at(what, left_min)

    @cached_property
    def _scores(self) -> Scores | None:
        """The scores of all inputs after the readings of nature; None where there is none."""
        import numpy as np

        if not self._observed:
            return None
        sampler = self._sampler(None)
        sampled = self._run(sampler, self._lefts)
        keys = tuple(dict.fromkeys((*sampler.tolerances, *(e.instrument for e in self._observed))))
        scores = untold(keys)
        read = np.array([each.value for each in self._observed])
        variances = np.array([each.deviation**2 for each in self._observed])
        for step, weight in enumerate(STEPS, 1):
            if step > 1:
                sampled = self._run(self._sampler(scores), self._lefts)
            columns = scores.columns(self.samples)
            plain = self._plain(scores, noting=False)
            scores = told(
                scores,
                read,
                self._shown(sampled, keys, columns, self.samples),
                self._shown(plain, keys, scores.plain[:, None], 1)[:, 0],
                weight * variances,
                last=step == len(STEPS),
            )
        return scores

    def _shown(self, looked: Looked, keys: tuple[str, ...], scores: Array, samples: int) -> Array:
        import numpy as np

        found = np.empty((len(self._observed), samples))
        for row, each in enumerate(self._observed):
            found[row] = each.shown(looked, scores[keys.index(each.instrument)])
        return found

    def _sampler(self, scores: Scores | None) -> MovedSamples:
        if scores is None:
            return MovedSamples(self.samples)
        columns, spreads = scores.columns(self.samples), scores.spreads.tolist()
        changed = {key: place for place, key in enumerate(scores.keys) if scores.changed[place]}
        return MovedSamples(
            self.samples,
            moved={key: columns[place] for key, place in changed.items()},
            narrower={key: spreads[place] for key, place in changed.items()},
        )

    def _plain(
        self, scores: Scores | None, *, noting: bool, lefts: frozenset[float] | None = None
    ) -> Looked:
        moved = {} if scores is None else dict(zip(scores.keys, scores.plain.tolist(), strict=True))
        lefts = self._lefts if lefts is None else lefts
        return self._run(MovedPlain(moved), lefts, noting=noting)

    def _run(self, sampler: Sampler, lefts: frozenset[float], *, noting: bool = False) -> Looked:
        seen: dict[Place, Seen] = {}
        kind = partial(LookingRun, lefts=lefts, seen=seen)
        return Looked(run_from(self.recipe, self._given(sampler), kind, noting=noting), seen)

    def _given(self, sampler: Sampler) -> Inputs:
        """Return what the day begins with; what a thermometer told is off as that is."""
        given = gather(self.recipe, sampler)
        for reading in self._readings:
            if reading.what is Measured.COOLED:
                given = replace(given, cool_to_c=self._by_thermometer(sampler, reading))
            elif reading.what is Measured.STEEP:
                given = replace(given, steep_c=self._by_thermometer(sampler, reading))
        return given

    def _by_thermometer(self, sampler: Sampler, reading: Reading) -> Numeric:
        key = instrument_of(self.recipe, reading, self._readings)
        return sampler.absolute(key, reading.value, error_of(self.recipe, reading).whole)
