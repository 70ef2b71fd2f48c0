"""One plain day as it is known after readings: run until the scores of its inputs fit them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import replace
from functools import cached_property, partial
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.day import fill_from, run_from
from designer.brewday.inputs import Inputs, gather
from designer.brewday.measured.as_read import as_read
from designer.brewday.measured.conditioning import STEPS, Scores, told, untold
from designer.brewday.measured.looks import LookingRun, Looks, read_of
from designer.brewday.measured.observed import Observed, Told, is_at_its_mark, observed
from designer.brewday.measured.other_boils import Alike, OtherBoil
from designer.brewday.measured.reading_errors import error_of, instrument_of
from designer.brewday.measured.readings import Measured, Readable, Reading
from designer.brewday.measured.sampled_wort import SampledWort
from designer.brewday.measured.scores import MovedPlain, MovedSamples
from designer.brewday.percentiles import middle_half, weights
from designer.brewday.results import Day, Range
from designer.brewday.sampling import samples_for
from designer.brewday.tolerances import LatinHypercube, Nominal, Sampler, Tolerance
from designer.brewday.vessel_doubts import marked_litres
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_IN_BOIL = (Measured.BOIL_VOLUME, Measured.BOIL_GRAVITY)


class Lived(NamedTuple):
    """A day, and what was seen on the way."""

    day: Day
    seen: Looks


class KnownDay:
    """A plain recipe's day, conditioned by readings; runs are made when they are asked for.

    It is told what was read of it, and what was read of other boils in its pot.
    """

    def __init__(self, recipe: Recipe, told: Sequence[Told | OtherBoil] = ()) -> None:
        own = [each for each in told if isinstance(each, Told)]
        self._others = tuple(each for each in told if isinstance(each, OtherBoil))
        self._readings = tuple(each.of_the_day for each in own)
        self.recipe = as_read(recipe, self._readings)
        self.samples = samples_for(self.recipe)
        self._observed = observed(self.recipe, own)
        self._lefts = frozenset(
            each.left_min or 0.0 for each in self._observed if each.what in _IN_BOIL
        )

    def with_ahead(self, recipe: Recipe, readings: Sequence[Reading]) -> KnownDay:
        """Return the day of a recipe that differs in what lies ahead of all that was read.

        What the readings told of the inputs holds for it: they are not conditioned by anew. Of
        `readings` what the brewer decided is taken.
        """
        other = copy(self)
        other.__dict__["_scores"] = self._scores
        for found in ("plain", "sampled"):
            other.__dict__.pop(found, None)
        other._readings = tuple(readings)
        other.recipe = as_read(recipe, other._readings)
        return other

    @property
    def quick(self) -> Day:
        """The day without its time line."""
        return self._lived(self._moved_plain(self._scores), noting=False).day

    @cached_property
    def plain(self) -> Lived:
        """The day with its time line."""
        return self._lived(self._moved_plain(self._scores), noting=True)

    @cached_property
    def sampled(self) -> tuple[Lived, dict[str, Tolerance]]:
        """The day of many samples, and what is left of the tolerances of its inputs.

        What the instruments are off by is among these.
        """
        scores = self._scores
        sampler = self._moved_samples(scores)
        lived, known = self._lived(sampler, noting=False), sampler.tolerances
        if scores is None:
            return lived, known
        own = {each.instrument: each.half_width for each in self._observed}
        spreads = dict(zip(scores.keys, scores.spreads.tolist(), strict=True))
        return lived, {
            key: known.get(key) or Tolerance(0.0, own[key] * spreads[key], relative=False)
            for key in self.tolerances
        }

    def expects(self, readable: Readable) -> Range:
        """Return what is there to be read, litres in a fermenter as its marks tell them."""
        return self.as_marked(readable, self.expected(readable.what, readable.left_min))

    def as_marked(self, readable: Readable, found: Range) -> Range:
        """Return litres as the marks of the fermenter tell them, where they are read there."""
        if not is_at_its_mark(readable) or self.recipe.fermenter.marks_hold is None:
            return found
        return found.on_scale(marked_litres(self.recipe.fermenter, 1.0))

    def expected(self, what: Measured, left_min: float | None = None) -> Range:
        """Return what is there to read, the value of the plain day and the range of the samples."""
        import numpy as np

        plain, sampled = self._seen_at(what, left_min or 0.0)
        value = float(read_of(plain, what, left_min or 0.0))
        drawn = np.broadcast_to(read_of(sampled, what, left_min or 0.0), (1, self.samples))
        ((low, high),) = (np.sort(drawn, axis=-1) @ weights(self.samples)).tolist()
        ((first, middle, third),) = middle_half(drawn).tolist()
        return Range(value, min(low, value), max(high, value), (), first, middle, third)

    def wort_in(self, fermenter: int = 1) -> SampledWort:
        """Return the wort of the fermenter in each sample; a plain recipe has one fermenter."""
        day = self.sampled[0].day
        return SampledWort.of(day, self.sampled[0].seen["cooled", 0.0].gravity_sg, self.samples)

    def _seen_at(self, what: Measured, left_min: float) -> tuple[Looks, Looks]:
        """Return what is seen on the way, plain and in each sample."""
        if what not in _IN_BOIL or left_min in self._lefts:
            return self.plain.seen, self.sampled[0].seen
        lefts, scores = frozenset({left_min}), self._scores
        plain = self._filled(self._moved_plain(scores), lefts)
        return plain, self._filled(self._moved_samples(scores), lefts)

    @cached_property
    def _scores(self) -> Scores | None:
        """The scores of all inputs after the readings of nature; None where there is none."""
        import numpy as np

        days = [_Asked(self), *(_Asked(KnownDay(e.recipe, e.told), e) for e in self._others)]
        seen = [each for asked in days for each in asked.day.observed]
        if not seen:
            return None
        scores = untold(tuple(dict.fromkeys(key for each in days for key in each.needed)))
        read = np.array([each.value for each in seen])
        variances = np.array([each.deviation**2 for each in seen])
        for step, weight in enumerate(STEPS, 1):
            columns = scores.columns(self.samples)
            scores = told(
                scores,
                read,
                np.concatenate([each.shown(scores, columns) for each in days]),
                np.concatenate([each.shown_plain(scores) for each in days]),
                weight * variances,
                last=step == len(STEPS),
            )
        return scores

    @property
    def observed(self) -> tuple[Observed, ...]:
        """What the readings showed of nature."""
        return self._observed

    @cached_property
    def tolerances(self) -> dict[str, Tolerance | None]:
        """How far off each input may be before anything was read of it, None of an instrument."""
        sampler = LatinHypercube(2)
        self._given(sampler)
        found = sampler.tolerances
        instruments = (each.instrument for each in self._observed)
        return {**found, **dict.fromkeys(e for e in instruments if e not in found)}

    def shown(self, sampler: Sampler, scores: Mapping[str, Numeric], count: int) -> Array:
        """Return what each reading would have been on the days of a sampler, so many of them.

        Each instrument is off by its score.
        """
        import numpy as np

        seen = self._filled(sampler, self._lefts)
        found = np.empty((len(self._observed), count))
        for row, each in enumerate(self._observed):
            there = read_of(seen, each.what, each.left_min or 0.0)
            found[row] = each.shown(there, scores[each.instrument])
        return found

    def _moved_samples(self, scores: Scores | None) -> LatinHypercube:
        if scores is None:
            return LatinHypercube(self.samples)
        spreads, columns = scores.spreads.tolist(), scores.columns(self.samples)
        is_changed = scores.changed.tolist()
        changed = {key: place for place, key in enumerate(scores.keys) if is_changed[place]}
        return MovedSamples(
            self.samples,
            moved={key: columns[place] for key, place in changed.items()},
            narrower={key: spreads[place] for key, place in changed.items()},
        )

    def _moved_plain(self, scores: Scores | None) -> Sampler:
        if scores is None or not scores.plain.any():
            return Nominal()
        return MovedPlain(dict(zip(scores.keys, scores.plain.tolist(), strict=True)))

    def _lived(self, sampler: Sampler, *, noting: bool) -> Lived:
        seen: Looks = {}
        kind = partial(LookingRun, lefts=self._lefts, seen=seen)
        return Lived(run_from(self.recipe, self._given(sampler), kind, noting=noting), seen)

    def _filled(self, sampler: Sampler, lefts: frozenset[float]) -> Looks:
        """Return what is seen of a day whose hops and beer nobody asks for."""
        seen: Looks = {}
        kind = partial(LookingRun, lefts=lefts, seen=seen, with_hops=False)
        fill_from(self._given(sampler), kind)
        return seen

    def _given(self, sampler: Sampler) -> Inputs:
        """Return what the day begins with; what a thermometer told is off as that is."""
        given = gather(self.recipe, sampler)
        read = {each.what: each for each in self._readings}
        cooled, steeped = read.get(Measured.COOLED), read.get(Measured.STEEP)
        steeped = steeped or read.get(Measured.STRIKE)
        if cooled is not None:
            given = replace(given, cool_to_c=self._by_thermometer(sampler, cooled))
        if steeped is not None:
            as_warm = replace(steeped, value=number(self.recipe.process, "steep_temperature"))
            given = replace(given, steep_c=self._by_thermometer(sampler, as_warm))
        return given

    def _by_thermometer(self, sampler: Sampler, reading: Reading) -> Numeric:
        key = instrument_of(self.recipe, reading, self._readings)
        return sampler.absolute(key, reading.value, error_of(self.recipe, reading).whole)


class _Asked:
    """A day that is asked what its readings would have been: the own one, or another boil's."""

    def __init__(self, day: KnownDay, other: OtherBoil | None = None) -> None:
        self.day = day
        self._alike = None if other is None else Alike.of(other, day.tolerances)

    @property
    def needed(self) -> Sequence[str]:
        """The keys of the scores that it follows from."""
        return tuple(self.day.tolerances) if self._alike is None else self._alike.needed

    def shown(self, scores: Scores, columns: Array) -> Array:
        """Return what each reading would have been in each sample of the scores."""
        own = self._followed(dict(zip(scores.keys, columns, strict=True)))
        is_moved = dict(zip(scores.keys, scores.changed.tolist(), strict=True))
        moved = {key: each for key, each in own.items() if is_moved.get(key, True)}
        samples = columns.shape[1]
        return self.day.shown(MovedSamples(samples, moved=moved), own, samples)

    def shown_plain(self, scores: Scores) -> Array:
        """Return what each reading would have been on the plain day."""
        moved = dict(zip(scores.keys, scores.plain, strict=True))
        own = {key: float(each) for key, each in self._followed(moved).items()}
        sampler = MovedPlain(own) if any(own.values()) else Nominal()
        found: Array = self.day.shown(sampler, own, 1)[:, 0]
        return found

    def _followed(self, scores: Mapping[str, Array]) -> Mapping[str, Array]:
        return scores if self._alike is None else self._alike.followed(scores)
