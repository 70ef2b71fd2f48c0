"""What brews teach of a kitchen's figures: how each is known after every brew.

Nobody knows how much a kitchen scatters, how fast it changes and which log has a slip in it, so all
of that is weighed by how likely it makes what was seen: the prediction is an average over declared
scatters and drifts (`priors`), and an observation that a slip explains better than the kitchen is
odd and left out, the worst first. The figure told is that of the next brew: its band holds what
brews differ by.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import exp, log, sqrt
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.learning.figures import Figure, Learned, LearnedStep, Seen, Start
from designer.brewday.learning.model import (
    Fit,
    Observations,
    Widths,
    fit,
    log_normal_density,
    prediction,
)
from designer.brewday.learning.priors import DRIFTS, ODD_SHARE, PRIORS, SCATTERS, FigurePrior
from designer.brewday.results import Range
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Counting = NDArray[np.bool_]

NARROWER = 0.9
"""So much narrower than before must a figure be for it to be taken."""
DISAGREE_FROM = 0.6
"""So likely must a scatter of twice the usual or more be for brews to be said to disagree."""
_LEAST_OF_SUBJECT = 0.5
"""No less of the width of a start is that of the subject itself."""
_LEAST_LIKELY = 600.0
_LEAST_RATIO = 0.05
"""A ratio that was read as less is taken for this: as odd as any."""


def learned(seens: Sequence[Seen], starts: Iterable[Start] = ()) -> tuple[Learned, ...]:
    """Return what is known of every figure and subject of which there is a start or a brew."""
    begun = {(each.figure, each.subject): each for each in starts}
    for each in seens:
        begun.setdefault((each.figure, each.subject), Start(each.figure, each.subject))
    found = []
    for figure in Figure:
        own = [each for each in begun.values() if each.figure is figure]
        of_it = sorted((e for e in seens if e.figure is figure), key=lambda e: (e.at, e.brew))
        if own:
            found += _Learning(PRIORS[figure], own, of_it).all()
    return tuple(found)


class _Model(NamedTuple):
    """One scatter and drift, how likely they are by all that counts, and the fit under them."""

    widths: Widths
    is_wide: bool
    weight: float
    fitted: Fit


class _Weighed(NamedTuple):
    """Which observations count, which are odd, and the models by how likely they are."""

    counting: Counting
    odd: Counting
    models: tuple[_Model, ...]


class _Learning:
    """Learns one figure of all its subjects."""

    def __init__(self, prior: FigurePrior, starts: list[Start], seens: list[Seen]) -> None:
        self._prior, self._starts, self._seens = prior, starts, seens
        self._place = {each.subject: place for place, each in enumerate(starts)}
        self._observed = self._observations()

    def all(self) -> list[Learned]:
        """Return what is known of each subject, the steps by all that was seen until then."""
        steps: dict[str, list[LearnedStep]] = {each.subject: [] for each in self._starts}
        weighed = self._weighed(len(self._seens))
        for number, each in enumerate(self._seens):
            until = weighed if number + 1 == len(self._seens) else self._weighed(number + 1)
            known = self._known(self._place[each.subject], number + 1, until)
            counts, odd = bool(weighed.counting[number]), bool(weighed.odd[number])
            steps[each.subject].append(LearnedStep(each.brew, each.value, known, counts, odd))
        return [self._learned(each, tuple(steps[each.subject]), weighed) for each in self._starts]

    def _learned(self, start: Start, steps: tuple[LearnedStep, ...], weighed: _Weighed) -> Learned:
        place, counted = self._place[start.subject], sum(each.counts for each in steps)
        wide = sum(each.weight for each in weighed.models if each.is_wide)
        before = self._known(place, 0, self._weighed(0))
        known = self._known(place, len(self._seens), weighed)
        is_narrower = known.high - known.low <= NARROWER * (before.high - before.low)
        return Learned(
            start.figure,
            start.subject,
            before,
            steps,
            known,
            enough=counted >= self._prior.enough and is_narrower,
            disagree=counted >= self._prior.enough and wide > DISAGREE_FROM,
        )

    def _observations(self) -> Observations:
        import numpy as np

        turns: dict[str, int] = {}
        rows = []
        for each in self._seens:
            turns[each.subject] = turns.get(each.subject, -1) + 1
            at = self._place[each.subject]
            unit = self._unit(at, each.subject)
            away = self._away(at, each.value)
            rows.append((away, each.spread / unit, unit, at, turns[each.subject]))
        table = np.array(rows, dtype=float).reshape(len(rows), 5)
        priors = [self._of_subject(each) for each in self._starts]
        value, spread, units, subject, turn = table.T
        shared = _shared(self._seens) / units[:, None]
        places, alike = subject.astype(np.intp), self._prior.alike
        return Observations(value, spread, shared, places, turn, np.array(priors), alike)

    def _of_subject(self, start: Start) -> float:
        """Return the deviation of a subject's figure, without what its brews differ by."""
        half = self._prior.half_width if start.half_width is None else start.half_width
        between = sum(share * (times * self._prior.scatter) ** 2 for times, share in SCATTERS)
        left = max(half**2 - between, (_LEAST_OF_SUBJECT * half) ** 2)
        return float(left**0.5 / HALF_WIDTH_SIGMAS)

    def _value(self, place: int) -> float:
        told = self._starts[place].value
        return self._prior.value if told is None else told

    def _away(self, place: int, seen: float) -> float:
        """Return how far a value is from its start."""
        start = self._value(place)
        if not self._prior.ratio:
            return seen - start
        return log(max(seen / start, _LEAST_RATIO))

    def _unit(self, place: int, subject: str) -> float:
        """Return what a reading's error is a share of: the middle of what brews of it said.

        Of its own value a reading that is far too low would seem the least sure of all.
        """
        if not self._prior.ratio:
            return 1.0
        start = self._value(place)
        said = (each.value for each in self._seens if each.subject == subject)
        return median((start, *(max(each, _LEAST_RATIO * start) for each in said)))

    def _range(self, place: int, mean: float, deviation: float) -> Range:
        start, half = self._value(place), HALF_WIDTH_SIGMAS * deviation
        if self._prior.ratio:
            return Range(start * exp(mean), start * exp(mean - half), start * exp(mean + half))
        low = max(start + mean - half, 0.0)
        return Range(max(start + mean, low), low, start + mean + half)

    def _known(self, place: int, until: int, weighed: _Weighed) -> Range:
        """Return the figure of the next brew of a subject, after so many observations."""
        turn = sum(self._place[each.subject] == place for each in self._seens[:until])
        seen = self._until(until)
        found = [
            (model.weight, *prediction(seen, weighed.counting, model.fitted, (place, turn), w))
            for model in weighed.models
            for w in (model.widths,)
        ]
        mean = sum(weight * value for weight, value, _ in found)
        variance = sum(weight * (own + (value - mean) ** 2) for weight, value, own in found)
        return self._range(place, mean, sqrt(variance))

    def _until(self, until: int) -> Observations:
        all_of = self._observed
        return replace(
            all_of,
            value=all_of.value[:until],
            spread=all_of.spread[:until],
            shared=all_of.shared[:until],
            subject=all_of.subject[:until],
            turn=all_of.turn[:until],
        )

    def _weighed(self, until: int) -> _Weighed:
        """Take the worst that a slip explains better out, one after the other."""
        import numpy as np

        seen = self._until(until)
        told = [each.counts for each in self._seens[:until]]
        counting = np.array([each is not False for each in told], dtype=bool)
        asked = np.array([each is None for each in told], dtype=bool)
        odd = np.zeros(until, dtype=bool)
        slip = np.hypot(seen.priors[seen.subject], np.hypot(seen.spread, self._prior.slip))
        by_slip = log(ODD_SHARE / (1.0 - ODD_SHARE)) + log_normal_density(seen.value, slip)
        while True:
            models = self._models(seen, counting)
            odds = np.full(until, -np.inf)
            odds[counting] = by_slip[counting] - _log_after_others(models)
            odd |= odds > 0.0  # one that was said to count is odd all the same
            odds[~asked] = -np.inf
            if not until or odds.max() <= 0.0:
                return _Weighed(counting, odd, models)
            counting = counting.copy()
            counting[int(odds.argmax())] = False
            odd = ~counting & asked

    def _models(self, seen: Observations, counting: Counting) -> tuple[_Model, ...]:
        """Return scatters and drifts by how likely they make what counts."""
        import numpy as np

        prior, found, likely = self._prior, [], []
        for times, share in SCATTERS:
            for faster, part in DRIFTS:
                scatter, drift = times * prior.scatter, faster * prior.drift
                sigmas = scatter / HALF_WIDTH_SIGMAS, drift / HALF_WIDTH_SIGMAS
                widths = Widths(*sigmas, leaves=faster > 1.0)
                fitted = fit(seen, counting, widths)
                likely.append(log(share * part) + fitted.log_likelihood)
                found.append((widths, times > 1.0, fitted))
        weights = np.exp(np.array(likely) - max(likely))
        weights /= weights.sum()
        return tuple(
            _Model(widths, is_wide, float(weight), fitted)
            for (widths, is_wide, fitted), weight in zip(found, weights, strict=True)
        )


def _shared(seens: Sequence[Seen]) -> Array:
    """Return how far each thing that several observations share puts each of them off."""
    import numpy as np

    names = list(dict.fromkeys(name for each in seens for name, _ in each.shared))
    found = np.zeros((len(seens), len(names)))
    for row, each in enumerate(seens):
        for name, off in each.shared:
            found[row, names.index(name)] += off
    return found


def _log_after_others(models: Sequence[_Model]) -> Array:
    """Return the logarithm of how likely each observation that counts is after all others.

    p(i | others) = p(all) / p(others), both of them sums over the models.
    """
    import numpy as np

    weights = np.array([each.weight for each in models])
    after = np.array([each.fitted.log_after_others for each in models])
    unlikely = np.minimum(-after, _LEAST_LIKELY)  # what is less likely still is as odd as that
    found: Array = -np.log((weights[:, None] * np.exp(unlikely)).sum(axis=0))
    return found
