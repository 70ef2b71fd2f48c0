"""The comparison of a reading with the day: how likely each cause is, and what the wort then is.

Brews are drawn with their day, their instrument, and each cause in every size that it may have. For
no cause, each cause and each pair it is worked out what the samples would have shown, and how
likely the readings are then; the mean over the brews, times how often such a thing happens, says
how likely it lies behind the readings (Bayes). Draws lie evenly (`even_column`), and layers, of
which every sample may have one of its own, are gone through for each brew in steps.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log, pi, sqrt
from typing import TYPE_CHECKING

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Answer, Asked, Stirred, Taken, TestCode
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.corrected import Corrected, corrected_samples
from designer.brewday.explaining.drawn import Brews, OfALine, drawn
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.hypotheses import Hypothesis, hypotheses
from designer.brewday.explaining.layers import layer_points, same_layers, ways_layered
from designer.brewday.explaining.posterior import Posterior, Weighed, by_likelihood
from designer.brewday.explaining.test_likelihoods import (
    DIFFERS_FROM_POINTS,
    WATER_EYE_POINTS,
    likelihood,
)
from designer.brewday.measured.reading_errors import MARK_SHARE, WEIGHED_L
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.wort.density import plato_from_gravity

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BREWS, FEW_BREWS = 4096, 512
"""How many brews a whole answer is drawn from, and a quick one."""
LAYER_STEPS, FEW_LAYER_STEPS = 8, 4
LEVEL_EYE = 0.01
"""Standard deviation of a level by eye, a share of the litres, beside what marks are off by."""
SLIP, SLIP_SPAN = 0.01, 1.4
"""How often a level is misread altogether, and over what span of its logarithm (judgement)."""
ALIKE_POINTS = 3.0
"""Standard deviation of readings from one another that nothing here explains, points."""

_BY_FIGURE = (TestCode.WEIGH, TestCode.WATER_CHECK)


def weighed(asked: Asked, beliefs: Beliefs, *, whole: bool = True) -> Posterior:
    """Return how likely each cause, and each pair of them, lies behind the readings.

    A `whole` answer takes some tens of milliseconds; else fewer brews are drawn, for a first one.
    Raises ValueError where there is no sample.
    """
    if not asked.samples:
        message = "there is no reading to explain"
        raise ValueError(message)
    corrected = corrected_samples(asked, beliefs)
    brews = drawn(asked, beliefs, corrected, BREWS if whole else FEW_BREWS)
    steps = LAYER_STEPS if whole else FEW_LAYER_STEPS
    comparing = _Comparing(asked, beliefs, corrected, brews, steps)
    found = [comparing.weigh(each) for each in hypotheses(asked, beliefs, corrected)]
    total = sum(each.probability for each in found)
    newest = corrected[-1]
    expected = beliefs.expected
    if newest.sample.taken is Taken.POT:
        expected = beliefs.expected_in_pot
    middle = expected.value if expected.middle is None else expected.middle
    return Posterior(
        by_likelihood(_share(each, total) for each in found),
        newest.points,
        newest.by_warmth,
        1000.0 * (middle - 1.0),
        any(each.is_hot for each in corrected[-1:]),
    )


def _share(part: Weighed, total: float) -> Weighed:
    from dataclasses import replace

    return replace(part, probability=part.probability / total)


@dataclass(frozen=True, slots=True, eq=False)
class _AtWork:
    """What the causes of a hypothesis make of each brew.

    `there` is what is to be read in a sample with nothing wrong in the reading, `weight` what the
    brew counts; `off` is the hydrometer's offset beyond its trust.
    """

    volume: Array | float
    extract: Array | float
    fermenter: Array
    weight: Array
    line: OfALine | None


class _Comparing:
    """Readings against brews."""

    def __init__(
        self,
        asked: Asked,
        beliefs: Beliefs,
        corrected: tuple[Corrected, ...],
        brews: Brews,
        steps: int,
    ) -> None:
        self._asked, self._beliefs = asked, beliefs
        self._corrected, self._brews, self._steps = corrected, brews, steps
        self._samples = asked.samples
        self._tops_up = beliefs.top_up_share >= priors.LITTLE_TOP_UP
        self._warmth = [each.too_low_if_warmer(brews.warmer_c.of) for each in corrected]
        self._fallen_all = all(each.taken is Taken.FERMENTING for each in asked.samples)

    def weigh(self, hypothesis: Hypothesis) -> Weighed:
        """Return a hypothesis with its prior times the likelihood of all that was found."""
        import numpy as np

        causes = hypothesis.causes
        if CauseCode.OTHER in causes:
            return self._other(hypothesis)
        work = self._at_work(causes)
        weight = work.weight * self._levels(causes, work)
        off = self._off(causes)
        weight = weight * self._in_water(off)
        answers = self._answers(causes)
        by_layers, layered = self._likelihood(causes, work, off)
        weight = weight * by_layers
        total = float(weight.sum())
        share = weight / total if total > 0.0 else np.full(weight.size, 1.0 / weight.size)

        def mean(column: Array | float) -> float:
            return float(np.dot(share, np.broadcast_to(column, share.shape)))

        points = self._pitched(work)
        middle = mean(points)
        spread = sqrt(max(mean((points - middle) ** 2), 0.0))
        has = causes.__contains__
        brews = self._brews
        newest = self._corrected[-1]
        without_layer = self._shown(len(self._samples) - 1, causes, work, off)
        return Weighed(
            causes,
            hypothesis.prior * answers * total / brews.many,
            middle,
            spread,
            mean(work.volume),
            mean(work.extract),
            layer=newest.points - mean(without_layer) if has(CauseCode.NOT_MIXED) else 0.0,
            warmth=-mean(self._warmth[-1]) if self._is_warm(-1, causes) else 0.0,
            warmer_c=mean(brews.warmer_c.of) if has(CauseCode.SAMPLE_TEMPERATURE) else 0.0,
            hydrometer=mean(off) if has(CauseCode.HYDROMETER) else 0.0,
            bubbles=mean(brews.bubbles.of) if has(CauseCode.BUBBLES) else 0.0,
            misread=mean(self._misread(self._there(-1, work))) if has(CauseCode.MISREAD) else 0.0,
            fallen=mean(self._fallen(work)) if has(CauseCode.FERMENTING) else 0.0,
            line=_likeliest(work.line, share),
            line_share=mean(work.line.share) if work.line is not None else 0.0,
            layered_now=mean(layered) if has(CauseCode.NOT_MIXED) else 0.0,
        )

    def _at_work(self, causes: tuple[CauseCode, ...]) -> _AtWork:
        import numpy as np

        brews = self._brews
        weight = np.ones(brews.many)
        volume: Array | float = 1.0
        extract: Array | float = 1.0
        line = None
        for code, of_line in (
            (CauseCode.MISSING_EXTRACT, brews.forgotten),
            (CauseCode.MISWEIGHED, brews.misweighed),
        ):
            if code in causes and of_line is not None:
                line = line or of_line
                extract = extract * of_line.extract_factor
                weight = weight * of_line.weight
        if CauseCode.VOLUME in causes:
            volume = np.exp(brews.volume.of)
        for code, size in (
            (CauseCode.VOLUME, brews.volume),
            (CauseCode.SAMPLE_TEMPERATURE, brews.warmer_c),
            (CauseCode.HYDROMETER, brews.hydrometer),
            (CauseCode.BUBBLES, brews.bubbles),
            (CauseCode.MISREAD, brews.misread),
            (CauseCode.FERMENTING, brews.fallen),
        ):
            if code in causes:
                weight = weight * size.weight
        fermenter = brews.points * extract / volume
        return _AtWork(volume, extract, fermenter, weight, line)

    def _pitched(self, work: _AtWork) -> Array:
        """Return the points of the wort as pitched: what boils off is topped up to the mark."""
        if self._tops_up and all(each.taken is Taken.POT for each in self._samples):
            return self._brews.points * work.extract
        return work.fermenter

    def _there(self, place: int, work: _AtWork) -> Array:
        """Return the points that are there to be read in mixed wort."""
        if self._samples[place].taken is Taken.POT:
            return self._brews.pot_points * work.extract / work.volume
        return work.fermenter

    def _off(self, causes: tuple[CauseCode, ...]) -> Array:
        """Return what the instrument is off beyond its trust."""
        import numpy as np

        if CauseCode.HYDROMETER in causes:
            return self._brews.hydrometer.of
        return np.zeros(self._brews.many)

    def _misread(self, there: Array) -> Array:
        import numpy as np

        brews = self._brews
        in_plato = np.asarray(plato_from_gravity(1.0 + np.maximum(there, 0.0) / 1000.0))
        return np.where(brews.wrong_scale, in_plato - there, brews.misread.of)

    def _fallen(self, work: _AtWork) -> Array:
        """Return the points that the wort has fallen."""
        import numpy as np

        of = self._brews.fallen.of
        left = (self._beliefs.final_gravity - 1.0) / max(self._beliefs.expected.value - 1.0, 1e-6)
        can_fall = work.fermenter * (1.0 - left)
        return np.where(of < 0.0, -of * can_fall, of)

    def _is_warm(self, place: int, causes: tuple[CauseCode, ...]) -> bool:
        """Whether a sample is one of those of which the warmth was not taken, if there are any."""
        if CauseCode.SAMPLE_TEMPERATURE not in causes:
            return False
        untyped = [each.sample_c is None for each in self._samples]
        return untyped[place] if any(untyped) else True

    def _shown(
        self,
        place: int,
        causes: tuple[CauseCode, ...],
        work: _AtWork,
        off: Array,
        slips: bool = True,
    ) -> Array:
        """Return what a sample of mixed wort would have shown, but for what the eye adds."""
        each = self._corrected[place]
        found = self._there(place, work) + each.shared * self._brews.off + off
        if CauseCode.FERMENTING in causes and self._samples[place].taken is not Taken.POT:
            found = found - self._fallen(work)
        if self._is_warm(place, causes):
            found = found - self._warmth[place]
        if slips and CauseCode.BUBBLES in causes and not each.by_refractometer:
            found = found + self._brews.bubbles.of
        if slips and CauseCode.MISREAD in causes:
            found = found + self._misread(found)
        return found

    def _likelihood(
        self, causes: tuple[CauseCode, ...], work: _AtWork, off: Array
    ) -> tuple[Array, Array]:
        """Return how likely the readings are, and the part of it with layers at the newest."""
        import numpy as np

        many = len(self._samples)
        slips = CauseCode.BUBBLES in causes or CauseCode.MISREAD in causes
        every = [True] * many
        if not slips or many == 1:
            return self._with_slips(causes, work, off, every)
        found = np.zeros(self._brews.many)
        layered = np.zeros(self._brews.many)
        for chance, slipped in (
            (priors.EVERY_TIME, every),
            *(
                ((1.0 - priors.EVERY_TIME) / many, [place == one for place in range(many)])
                for one in range(many)
            ),
        ):
            both, with_layers = self._with_slips(causes, work, off, slipped)
            found += chance * both
            layered += chance * both * with_layers
        return found, layered / np.maximum(found, 1e-300)

    def _with_slips(
        self, causes: tuple[CauseCode, ...], work: _AtWork, off: Array, slipped: list[bool]
    ) -> tuple[Array, Array]:
        import numpy as np

        shown = [
            self._shown(place, causes, work, off, slips=slips)
            for place, slips in enumerate(slipped)
        ]
        mixed = [self._of_sample(place, each) for place, each in enumerate(shown)]
        if CauseCode.NOT_MIXED not in causes:
            return np.prod(mixed, axis=0), np.zeros(self._brews.many)
        return self._with_layers(shown, mixed, work)

    def _with_layers(
        self, shown: list[Array], mixed: list[Array], work: _AtWork
    ) -> tuple[Array, Array]:
        """Return the likelihood over all that layers may be, and its share with layers last."""
        import numpy as np

        topped = [place for place, each in enumerate(self._samples) if each.taken is not Taken.POT]
        found = np.zeros(self._brews.many)
        last = np.zeros(self._brews.many)
        own = [self._samples[place] for place in topped]
        pot = self._brews.pot_points * work.extract
        outside = [each for place, each in enumerate(mixed) if place not in topped]
        for layered in ways_layered(own):
            chance = np.full(self._brews.many, layered.chance)
            for each in outside:
                chance = chance * each
            for group in same_layers(own[: layered.samples]):
                places = [topped[each] for each in group.samples]
                chance = chance * self._of_layer(places, shown, work.fermenter, pot)
            for place in topped[layered.samples :]:
                chance = chance * mixed[place]
            found += chance
            if layered.samples == len(own):
                last += chance
        return found, last / np.maximum(found, 1e-300)

    def _of_layer(self, places: list[int], shown: list[Array], wort: Array, pot: Array) -> Array:
        """Return how likely samples of one layer are, over all that it may be."""
        import numpy as np

        even = (np.arange(self._steps)[:, np.newaxis] + self._brews.jitter) / self._steps
        share = even**priors.LAYER_POWER
        found = np.zeros(self._brews.many)
        is_low = priors.LOW_BY_PLACE[self._samples[places[0]].drawn]
        for low, chance in ((True, is_low), (False, 1.0 - is_low)):
            layer = np.asarray(layer_points(share, low, wort, pot))
            both = np.ones_like(layer)
            for place in places:
                both *= self._of_sample(place, shown[place] + layer)
            found += chance * both.mean(axis=0)
        return found

    def _of_sample(self, place: int, shown: Array) -> Array:
        """Return the density of a reading where a sample shows so many points."""
        import numpy as np

        each = self._corrected[place]
        scores = (each.points - shown) / each.own
        density: Array = np.exp(-0.5 * scores * scores) / (each.own * sqrt(2.0 * pi))
        return density

    def _levels(self, causes: tuple[CauseCode, ...], work: _AtWork) -> Array | float:
        """Return how likely the volumes are that were read and weighed."""
        import numpy as np

        asked, beliefs, brews = self._asked, self._beliefs, self._brews
        moved = brews.volume.of if CauseCode.VOLUME in causes else 0.0
        found: Array | float = 1.0
        if asked.mark_l is not None and asked.mark_l > 0.0:
            eye = beliefs.mark_anyway_l / HALF_WIDTH_SIGMAS / asked.mark_l
            if self._tops_up:
                planned: Array | float = log(max(beliefs.planned_l, 1e-6))
            else:
                planned = np.log(np.maximum(brews.batch_l, 1e-6))
                eye = sqrt(eye**2 + (beliefs.mark_share / HALF_WIDTH_SIGMAS) ** 2)
            eye = sqrt(eye**2 + LEVEL_EYE**2)
            read = log(asked.mark_l)
            there = _level(read, planned + moved, eye)
            if CauseCode.VOLUME in causes:
                lies = _level(read, planned, eye)
                there = priors.MARK_LIES * lies + (1.0 - priors.MARK_LIES) * there
            found = found * there
        from_pot = not self._tops_up or all(each.taken is Taken.POT for each in self._samples)
        if asked.pot_l is not None and asked.pot_l > 0.0 and from_pot:
            eye = sqrt((MARK_SHARE / HALF_WIDTH_SIGMAS) ** 2 + LEVEL_EYE**2)
            there = np.log(np.maximum(brews.pot_l, 1e-6)) + moved
            found = found * _level(log(asked.pot_l), there, eye)
        for answer in asked.answers:
            if answer.test is TestCode.WEIGH and answer.value is not None and answer.value > 0.0:
                eye = sqrt((WEIGHED_L / HALF_WIDTH_SIGMAS / answer.value) ** 2 + 1e-6)
                there = np.log(np.maximum(brews.batch_l, 1e-6)) + moved
                found = found * _level(log(answer.value), there, eye)
        return found

    def _in_water(self, off: Array) -> Array | float:
        """Return how likely what the instrument shows in water is, where that is a figure."""
        import numpy as np

        found: Array | float = 1.0
        floats = [each for each in self._corrected if not each.by_refractometer]
        for answer in self._asked.answers:
            if answer.test is TestCode.WATER_CHECK and answer.value is not None and floats:
                shows = floats[-1].shared * self._brews.off + off
                scores = (1000.0 * (answer.value - 1.0) - shows) / WATER_EYE_POINTS
                found = found * (
                    np.exp(-0.5 * scores * scores) / (WATER_EYE_POINTS * sqrt(2.0 * pi))
                )
        return found

    def _answers(self, causes: tuple[CauseCode, ...]) -> float:
        """Return how likely the tests came out as they did."""
        found = 1.0
        for answer in self._asked.answers:
            finds = finding(answer)
            if finds is not None and not self._is_told_by_sample(answer):
                found *= likelihood(answer.test, finds, causes)
        return found

    def _is_told_by_sample(self, answer: Answer) -> bool:
        """Whether a later sample shows what came of it, so that it must not count twice."""
        later = self._samples[1:]
        if answer.test is TestCode.STIR:
            return any(each.stirred in (Stirred.HARD, Stirred.POURED) for each in later)
        if answer.test is TestCode.COOL:
            return any(each.sample_c is not None for each in later)
        return False

    def _other(self, hypothesis: Hypothesis) -> Weighed:
        """Return what is said of readings that nothing here explains: all are as likely."""
        from math import exp

        first = self._corrected[0]
        middle = self._beliefs.planned_points
        inside = priors.OTHER_FROM <= first.points - middle <= priors.OTHER_TO
        # What lies outside is still less unlikely by an unknown cause than by any that is known.
        density = (1.0 if inside else 0.1) / (priors.OTHER_TO - priors.OTHER_FROM)
        for each in self._corrected[1:]:
            score = (each.points - first.points) / ALIKE_POINTS
            density *= exp(-0.5 * score * score) / (ALIKE_POINTS * sqrt(2.0 * pi)) + 1e-6
        levels = self._mean_levels()
        points = self._brews.points
        return Weighed(
            hypothesis.causes,
            hypothesis.prior * density * levels * self._answers(hypothesis.causes),
            float(points.mean()),
            float(points.std()),
        )

    def _mean_levels(self) -> float:
        import numpy as np

        without = self._at_work(())
        off = np.zeros(self._brews.many)
        return float(np.mean(self._levels((), without) * self._in_water(off)))


def finding(answer: Answer) -> bool | None:
    """Return whether a test found something; None where it told a figure that counts by itself."""
    if answer.test in _BY_FIGURE and answer.value is not None:
        return None
    if answer.changed is not None or answer.value is None:
        return answer.changed
    if answer.test is TestCode.TOP_AND_BOTTOM:
        return abs(answer.value) > DIFFERS_FROM_POINTS
    return None


def _level(read: float, there: Array | float, eye: float) -> Array | float:
    """Return the density of a level's logarithm; now and then one is misread altogether."""
    import numpy as np

    scores = (read - there) / eye
    by_eye = np.exp(-0.5 * scores * scores) / (eye * sqrt(2.0 * pi))
    found: Array | float = (1.0 - SLIP) * by_eye + SLIP / SLIP_SPAN
    return found


def _likeliest(line: OfALine | None, share: Array) -> int | None:
    import numpy as np

    if line is None:
        return None
    return int(np.argmax(np.bincount(line.line, weights=share)))
