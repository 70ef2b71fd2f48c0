"""Brews with hidden truths, and what is read of them: the declared priors played out by dice.

Nothing here is taken from the comparison itself but its declared figures (`cause_priors`) and what
a day says of its wort (`Beliefs`): which causes are at work is drawn, then how large they are, then
what the hydrometer shows. So many brews of the same situation are also the exact posterior of any
reading in it, by counting each brew as often as it would have shown that reading.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import combinations

import numpy as np

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, Drawn, GravitySample, Stirred
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.spreads import Even, Normal, Tail
from designer.wort.density import plato_from_gravity
from designer.wort.hydrometer import reading_for

Z95 = 1.6448536269514722
CODES = (
    CauseCode.NOT_MIXED,
    CauseCode.VOLUME,
    CauseCode.SAMPLE_TEMPERATURE,
    CauseCode.MISSING_EXTRACT,
    CauseCode.MISWEIGHED,
    CauseCode.HYDROMETER,
    CauseCode.BUBBLES,
    CauseCode.MISREAD,
    CauseCode.FERMENTING,
)
M, V, W, F, G, H, B, R, S = CODES
SETS = ((), (CauseCode.OTHER,), *((each,) for each in CODES), *combinations(CODES, 2))
"""Nothing wrong, something else, each cause, each pair."""


@dataclass(frozen=True)
class Situation:
    """A brew of which one or two samples are drawn, each as it is told to the program.

    `times` widens all errors and sizes against those that are declared, `layer_power` is that of
    the layers' shares.
    """

    beliefs: Beliefs
    samples: tuple[tuple[Drawn, Stirred, float | None], ...]
    times: float = 1.0
    layer_power: float = priors.LAYER_POWER

    def asked(self, shown) -> Asked:
        """Return the question with what the hydrometer showed for gravities at 20 °C."""
        return Asked(
            tuple(
                GravitySample(
                    float(each if at_c is None else reading_for(float(each), at_c)),
                    sample_c=at_c,
                    drawn=drawn,
                    stirred=stirred,
                )
                for each, (drawn, stirred, at_c) in zip(shown, self.samples, strict=True)
            )
        )


@dataclass
class Brews:
    """Brews that were drawn: of which set of causes, how much each counts, and what they show.

    `there` is what the samples show but for what the eye adds, in points at 20 °C.
    """

    which: np.ndarray
    counts: np.ndarray
    there: np.ndarray
    points: np.ndarray
    own: np.ndarray
    other: np.ndarray = field(default=None)


def prior_of_sets(situation: Situation) -> np.ndarray:
    """Return how likely each of SETS is beforehand, by independent causes."""
    chance = {code: priors.OF_100_BREWS[code] / 100.0 for code in (*CODES, CauseCode.OTHER)}
    chance[M] *= priors.STIRRED_TIMES[situation.samples[0][1]]
    if situation.beliefs.top_up_share < priors.LITTLE_TOP_UP:
        chance[M] *= priors.LITTLE_TOP_UP_TIMES
    typed = [at_c for _, _, at_c in situation.samples if at_c is not None]
    if len(typed) == len(situation.samples):
        hot = max(typed) > priors.WARM_TYPED_C
        chance[W] *= priors.WARM_TYPED_TIMES if hot else priors.TYPED_TIMES
    odds = {code: each / (1.0 - each) for code, each in chance.items()}
    found = []
    for causes in SETS:
        each = np.prod([odds[code] for code in causes])
        if len(causes) == 2:
            each *= priors.MIXED_AND_WARM if causes == (M, W) else priors.TOGETHER
        found.append(each)
    return np.array(found) / np.sum(found)


def from_parts(parts, many, dice):
    """Return sizes by the declared parts of their spread."""
    shares = np.array([each.share for each in parts])
    which = dice.choice(len(parts), size=many, p=shares / shares.sum())
    found = np.empty(many)
    for place, (_, spread) in enumerate(parts):
        own = which == place
        count = int(own.sum())
        if isinstance(spread, Even):
            found[own] = dice.uniform(spread.low, spread.high, count)
        elif isinstance(spread, Tail):
            further = dice.exponential(abs(spread.mean), count)
            found[own] = spread.start + np.sign(spread.mean) * further
        else:
            assert isinstance(spread, Normal)
            found[own] = dice.normal(spread.middle, spread.deviation, count)
    return found


def brew(situation: Situation, which: np.ndarray, counts: np.ndarray, dice) -> Brews:
    """Return brews of these sets of causes with all that chance decides."""
    beliefs, many = situation.beliefs, which.size
    has = {
        code: np.isin(which, [n for n, causes in enumerate(SETS) if code in causes])
        for code in (*CODES, CauseCode.OTHER)
    }
    times = situation.times
    day = dice.integers(0, beliefs.points.size, many)
    middle = beliefs.points.mean()
    wort = middle + times * (beliefs.points[day] - middle)
    in_pot = beliefs.pot_points[day] * wort / beliefs.points[day]
    extract = np.ones(many)
    counts = counts.copy()
    for code, parts in ((F, priors.FORGOTTEN), (G, priors.MISWEIGHED_BY)):
        extract_of, counted = _of_lines(parts, beliefs, many, dice)
        extract[has[code]] *= extract_of[has[code]]
        counts[has[code]] *= counted[has[code]]
    volume = np.where(has[V], np.exp(times * from_parts(priors.VOLUME_LOG, many, dice)), 1.0)
    pitched = wort * extract / volume
    in_pot = in_pot * extract
    eye = 1000.0 * np.hypot(0.001, 0.0005) / Z95
    trust = 1000.0 * np.sqrt(beliefs.trusted_sg**2 - 0.001**2) / Z95
    off = times * trust * dice.standard_normal(many)
    off += has[H] * times * from_parts(priors.HYDROMETER_OFF, many, dice)
    fallen = has[S] * times * from_parts(priors.FALLEN_UNPITCHED, many, dice)
    warmer = _warmer(situation, many, dice)
    samples = len(situation.samples)
    slipped = _slipped(samples, many, dice)
    slips = _slips(times, many, dice)
    lifted = has[B] * times * from_parts(priors.BUBBLES_ON_BULB, many, dice)
    there = np.empty((samples, many))
    layers = _layers(situation, has[M], pitched, in_pot, dice)
    all_typed = all(at_c is not None for _, _, at_c in situation.samples)
    for place, (_, _, at_c) in enumerate(situation.samples):
        shown = pitched + off - fallen
        if at_c is None or all_typed:
            shown = shown - has[W] * times * _too_low(shown, 20.0 if at_c is None else at_c, warmer)
        shown = shown + np.where(slipped[place], lifted, 0.0)
        shown = np.where(has[R] & slipped[place], _misread(shown, slips), shown)
        there[place] = shown + layers[place]
    return Brews(which, counts, there, pitched, np.full(samples, times * eye), has[CauseCode.OTHER])


def _of_lines(parts, beliefs, many, dice):
    of_all = np.array([each.points for each in beliefs.lines]) / beliefs.planned_points
    line = dice.integers(0, of_all.size, many)
    share = np.maximum(from_parts(parts, many, dice), -1.0)
    seldom = (np.abs(share) > 0.9) & (of_all[line] >= priors.NOTICED_SHARE)
    factor = np.maximum(1.0 + share * of_all[line], 0.0)
    return factor, np.where(seldom, priors.NOTICED_TIMES, 1.0)


def _warmer(situation, many, dice):
    typed = all(at_c is not None for _, _, at_c in situation.samples)
    return from_parts(priors.WARMER_THAN_TYPED_C if typed else priors.WARM_ABOVE_C, many, dice)


def _too_low(points, at_c, warmer):
    """Return how much less a hydrometer shows, by floating it in wort of that density."""
    warm = np.linspace(-20.0, 45.0, 27)
    gravity = 1.0 + points.mean() / 1000.0
    there = np.clip(at_c + warm, 2.0, priors.HOTTEST_C)
    less = 1000.0 * (reading_for(gravity, at_c) - reading_for(gravity, there))
    return np.interp(warmer, warm, less)


def _slipped(samples, many, dice):
    """Return in which samples there are bubbles, or slips: in every one, or in any single one."""
    every = dice.random(many) < priors.EVERY_TIME
    one = dice.integers(0, samples, many)
    return np.array([every | (one == place) | (samples == 1) for place in range(samples)])


def _slips(times, many, dice):
    """Return the points of a slip of reading; infinite where another scale was read."""
    found = times * from_parts(priors.READ_WRONG, many, dice)
    return np.where(dice.random(many) < priors.WRONG_SCALE, np.inf, found)


def _misread(shown, slips):
    in_plato = np.asarray(plato_from_gravity(1.0 + np.maximum(shown, 0.0) / 1000.0))
    return np.where(np.isinf(slips), in_plato, shown + slips)


def _layers(situation, not_mixed, pitched, in_pot, dice):
    many = pitched.size
    found = np.zeros((len(situation.samples), many))
    layered, before = not_mixed.copy(), None
    for place, (drawn, stirred, _) in enumerate(situation.samples):
        if place > 0:
            layered &= dice.random(many) < priors.STAYS_LAYERED[stirred]
        if (
            before is None
            or drawn is not situation.samples[place - 1][0]
            or (stirred is Stirred.LITTLE)
        ):
            share = dice.random(many) ** situation.layer_power
            low = dice.random(many) < priors.LOW_BY_PLACE[drawn]
            before = np.where(low, -share * pitched, share * (in_pot - pitched))
        found[place] = np.where(layered, before, 0.0)
    return found


def hidden(situation: Situation, many: int, dice) -> tuple[Brews, np.ndarray]:
    """Return brews as they happen, and what is shown in each sample, in gravity at 20 °C."""
    which = dice.choice(len(SETS), size=4 * many, p=prior_of_sets(situation))
    drawn = brew(situation, which, np.ones(which.size), dice)
    kept = np.flatnonzero(dice.random(which.size) < drawn.counts)[:many]  # what is noticed is rare
    drawn = Brews(
        drawn.which[kept],
        np.ones(kept.size),
        drawn.there[:, kept],
        drawn.points[kept],
        drawn.own,
        drawn.other[kept],
    )
    points = drawn.there + drawn.own[:, np.newaxis] * dice.standard_normal(drawn.there.shape)
    anything = situation.beliefs.planned_points + dice.uniform(
        priors.OTHER_FROM, priors.OTHER_TO, kept.size
    )
    points = np.where(drawn.other, anything, points)
    return drawn, 1.0 + points / 1000.0
