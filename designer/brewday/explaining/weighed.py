"""The comparison of a reading with the day: how likely each cause is, and what the wort then is.

Brews are drawn with their day, their instrument, and each cause in every size that it may have. For
no cause, each cause and each pair it is worked out what the samples would have shown, and how
likely the readings are then; the mean over the brews, times how often such a thing happens, says
how likely it lies behind the readings (Bayes). Draws lie evenly (`even_column`), and layers, of
which every sample may have one of its own, are gone through for each brew in steps.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, pi, sqrt
from typing import TYPE_CHECKING

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.at_work import AtWork, at_work
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.corrected import Corrected, corrected_samples
from designer.brewday.explaining.drawn import OfALine, drawn
from designer.brewday.explaining.evidence import of_answers, of_volumes, of_water
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.hypotheses import Hypothesis, hypotheses
from designer.brewday.explaining.posterior import Posterior, Weighed, by_likelihood
from designer.brewday.explaining.shown import Shown

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BREWS, BREWS_OF_PAIRS, FEW_BREWS = 4096, 2048, 512
"""How many brews a cause is tried in, and two together; all of them for a first answer."""
LAYER_STEPS, FEW_LAYER_STEPS = 8, 4
ALIKE_POINTS = 3.0
"""Standard deviation of readings from one another that nothing here explains, points."""


def weighed(asked: Asked, beliefs: Beliefs, *, whole: bool = True) -> Posterior:
    """Return how likely each cause, and each pair of them, lies behind the readings.

    A `whole` answer takes some tens of milliseconds; else fewer brews are drawn, for a first one.
    Raises ValueError where there is no sample.
    """
    if not asked.samples:
        message = "there is no reading to explain"
        raise ValueError(message)
    corrected = corrected_samples(asked, beliefs)
    alone = _Comparing(asked, beliefs, corrected, whole, BREWS)
    pairs = _Comparing(asked, beliefs, corrected, whole, BREWS_OF_PAIRS) if whole else alone
    found = [
        (pairs if len(each.causes) > 1 else alone).weigh(each)
        for each in hypotheses(asked, beliefs, corrected)
    ]
    total = sum(each.probability for each in found)
    newest = corrected[-1]
    in_pot = newest.sample.taken is Taken.POT
    expected = beliefs.expected_in_pot if in_pot else beliefs.expected
    middle = expected.value if expected.middle is None else expected.middle
    return Posterior(
        by_likelihood(replace(each, probability=each.probability / total) for each in found),
        newest.points,
        newest.by_warmth,
        1000.0 * (middle - 1.0),
        newest.is_hot,
    )


class _Comparing:
    """Readings against so many brews."""

    def __init__(
        self,
        asked: Asked,
        beliefs: Beliefs,
        corrected: tuple[Corrected, ...],
        whole: bool,
        many: int,
    ) -> None:
        self._asked, self._beliefs, self._corrected = asked, beliefs, corrected
        self._brews = drawn(asked, beliefs, corrected, many if whole else FEW_BREWS)
        steps = LAYER_STEPS if whole else FEW_LAYER_STEPS
        self._shown = Shown(asked, beliefs, corrected, self._brews, steps)

    def weigh(self, hypothesis: Hypothesis) -> Weighed:
        """Return a hypothesis with its prior times the likelihood of all that was found."""
        import numpy as np

        if CauseCode.OTHER in hypothesis.causes:
            return self._other(hypothesis)
        work = at_work(hypothesis.causes, self._brews)
        likely = self._shown.likelihood(work)
        beside = work.weight * self._beside_gravity(work)
        weight = likely.of_all * beside
        total = float(weight.sum())
        even = np.full(weight.size, 1.0 / weight.size)
        share = weight / total if total > 0.0 else even
        points = self._pitched(work)
        answers = of_answers(self._asked, hypothesis.causes)
        found = Weighed(
            hypothesis.causes,
            hypothesis.prior * answers * total / self._brews.many,
            float(np.dot(share, points)),
            layered_now=float(np.dot(likely.layered, beside)) / total if total > 0.0 else 0.0,
            slipped_now=float(np.dot(likely.slipped, beside)) / total if total > 0.0 else 1.0,
        )
        return self._sized(found, work, share)

    def _sized(self, part: Weighed, work: AtWork, share: Array) -> Weighed:
        """Return an explanation with the mean size of each of its causes."""
        import numpy as np

        def mean(column: Array | float) -> float:
            return float(np.dot(share, np.broadcast_to(column, share.shape)))

        brews, shown, last = self._brews, self._shown, len(self._corrected) - 1
        found: dict[str, float] = {}
        if work.has(CauseCode.NOT_MIXED):
            found["layer"] = self._corrected[-1].points - mean(shown.of_mixed(last, work))
        if work.has(CauseCode.SAMPLE_TEMPERATURE):
            found["warmer_c"] = mean(brews.warmer_c.of)
            if shown.is_warm(last, work):
                found["warmth"] = -mean(shown.too_low_for_warmth(last))
        if work.has(CauseCode.HYDROMETER):
            found["hydrometer"] = mean(work.off)
        if work.has(CauseCode.BUBBLES):
            found["bubbles"] = mean(brews.bubbles.of)
        if work.has(CauseCode.MISREAD):
            found["misread"] = mean(shown.misread(shown.of_mixed(last, work, slips=False)))
        if work.has(CauseCode.FERMENTING):
            found["fallen"] = mean(shown.fallen(work))
        if work.line is not None:
            found["line_share"] = _share_of_likeliest(work.line, share)
        return replace(
            part,
            volume_factor=mean(work.volume),
            extract_factor=mean(work.extract),
            line=_likeliest(work.line, share),
            **found,  # type: ignore[arg-type]  # each is a float
        )

    def _pitched(self, work: AtWork) -> Array:
        """Return the points of the wort as pitched: what boils off is topped up to the mark."""
        if self._brews.read_before_topping_up:
            return self._brews.points * work.extract
        return work.fermenter

    def _beside_gravity(self, work: AtWork) -> Array | float:
        """Return how likely all is that was found beside gravities."""
        volumes = of_volumes(self._asked, self._beliefs, self._brews, work)
        floats = [each.shared for each in self._corrected if not each.by_refractometer]
        return volumes * of_water(self._asked, floats[-1], self._brews, work) if floats else volumes

    def _other(self, hypothesis: Hypothesis) -> Weighed:
        """Return what is said of readings that nothing here explains: all are as likely.

        What lies outside even that is still less unlikely by an unknown cause than by a known one.
        """
        import numpy as np

        first = self._corrected[0]
        off = first.points - self._beliefs.planned_points
        inside = priors.OTHER_FROM <= off <= priors.OTHER_TO
        density = (1.0 if inside else 0.1) / (priors.OTHER_TO - priors.OTHER_FROM)
        for each in self._corrected[1:]:
            score = (each.points - first.points) / ALIKE_POINTS
            density *= exp(-0.5 * score * score) / (ALIKE_POINTS * sqrt(2.0 * pi)) + 1e-6
        beside = float(np.mean(self._beside_gravity(at_work((), self._brews))))
        return Weighed(
            hypothesis.causes,
            hypothesis.prior * density * beside * of_answers(self._asked, hypothesis.causes),
            float(self._brews.points.mean()),
        )


def _likeliest(line: OfALine | None, share: Array) -> int | None:
    import numpy as np

    if line is None:
        return None
    return int(np.argmax(np.bincount(line.line, weights=share)))


def _share_of_likeliest(line: OfALine | None, share: Array) -> float:
    """Return what of the likeliest line is missing or too much, without what others may be."""
    import numpy as np

    likeliest = _likeliest(line, share)
    if line is None or likeliest is None:
        return 0.0
    own = np.where(line.line == likeliest, share, 0.0)
    return float((own * line.share).sum() / max(own.sum(), 1e-300))
