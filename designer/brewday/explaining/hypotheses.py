"""Which causes may be at work in a brew, how often, before its reading is looked at."""

from __future__ import annotations

from itertools import combinations
from typing import NamedTuple

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, GravitySample, Taken
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.corrected import Corrected
from designer.brewday.explaining.explained import CauseCode

_M, _V, _W = CauseCode.NOT_MIXED, CauseCode.VOLUME, CauseCode.SAMPLE_TEMPERATURE
_S, _H, _B = CauseCode.FERMENTING, CauseCode.HYDROMETER, CauseCode.BUBBLES
_ORDER = tuple(CauseCode)


class Hypothesis(NamedTuple):
    """Causes at work together, none for nothing wrong, and how likely that is beforehand."""

    causes: tuple[CauseCode, ...]
    prior: float


def hypotheses(
    asked: Asked, beliefs: Beliefs, corrected: tuple[Corrected, ...]
) -> tuple[Hypothesis, ...]:
    """Return no cause, each cause and each pair; their likelihoods make 1."""
    odds = {
        code: chance / (1.0 - chance)
        for code, chance in chances(asked, beliefs, corrected).items()
        if chance > 0.0
    }
    found = {(): 1.0, (CauseCode.OTHER,): odds.pop(CauseCode.OTHER)}
    found |= {(code,): each for code, each in odds.items()}
    for one, other in combinations(sorted(odds, key=_ORDER.index), 2):
        times = priors.MIXED_AND_WARM if (one, other) == (_M, _W) else priors.TOGETHER
        found[one, other] = times * odds[one] * odds[other]
    whole = sum(found.values())
    return tuple(Hypothesis(causes, each / whole) for causes, each in found.items())


def chances(
    asked: Asked, beliefs: Beliefs, corrected: tuple[Corrected, ...]
) -> dict[CauseCode, float]:
    """Return how often each cause is at work in such a brew, whatever was read."""
    found = {code: each / 100.0 for code, each in priors.OF_100_BREWS.items()}
    in_fermenter = [each for each in asked.samples if each.taken is not Taken.POT]
    found[_M] *= _times_not_mixed(in_fermenter[0], beliefs) if in_fermenter else 0.0
    found[_W] *= _times_warm(corrected)
    if not beliefs.lines:
        found[CauseCode.MISSING_EXTRACT] = found[CauseCode.MISWEIGHED] = 0.0
    if all(each.by_refractometer for each in corrected):
        found[_B] = found[_W] = 0.0
    if all(each.checked for each in corrected):
        found[_H] *= priors.CHECKED_TIMES
    found[_S] = max((_chance_ferments(each, found[_S]) for each in asked.samples), default=0.0)
    return {code: min(each, 0.98) for code, each in found.items()}


def _times_not_mixed(first: GravitySample, beliefs: Beliefs) -> float:
    if not beliefs.is_topped_up:
        return 0.0
    times = priors.STIRRED_TIMES[first.stirred]
    if beliefs.top_up_share < priors.LITTLE_TOP_UP:
        times *= priors.LITTLE_TOP_UP_TIMES
    if first.taken is Taken.FERMENTING and (first.hours or 0.0) >= priors.MIXED_BY_FERMENTING_H:
        times *= priors.MIXED_BY_FERMENTING_TIMES
    return times


def _times_warm(corrected: tuple[Corrected, ...]) -> float:
    """Return how many times as often a sample was of another warmth, by whether it was taken."""
    if any(each.sample.sample_c is None for each in corrected):
        return 1.0
    warmest = max(each.sample.sample_c or 0.0 for each in corrected)
    return priors.WARM_TYPED_TIMES if warmest > priors.WARM_TYPED_C else priors.TYPED_TIMES


def _chance_ferments(sample: GravitySample, unpitched: float) -> float:
    if sample.taken is not Taken.FERMENTING:
        return unpitched
    if sample.hours is None:
        return 0.9
    over = sample.hours - priors.FERMENTS_FROM_H
    return max(over / (priors.FERMENTS_ALL_BY_H - priors.FERMENTS_FROM_H), unpitched)
