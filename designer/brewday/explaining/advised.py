"""The cheapest test that tells the leading causes apart, and what each result of it would say.

Chosen is the test that brings most information for its minutes, in bits, between those
explanations that lead: what only tells of an unlikely one is not advised before it matters. Wort
that was not stirred well is stirred, which cures too; two samples are for wort that was.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import log2

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    Drawn,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.cause_words import short_of
from designer.brewday.explaining.corrected import is_refractometer
from designer.brewday.explaining.explained import Advised, CauseCode, Outcome, Verdict
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.brewday.explaining.test_likelihoods import TESTS, likelihood
from designer.brewday.explaining.test_words import MESSAGES, TITLES, WATER, shows
from designer.recipe.choices import is_grain
from designer.recipe.message import Message, in_a_row, say
from designer.recipe.quantity import Kind
from designer.wort.density import plato_from_gravity

Weigh = Callable[[Asked, Beliefs], Posterior]
LEAD_BY = 0.75
"""The leading explanations are those that have so much of all likelihood together; two at least."""
MOST_LEADING = 4
LEAST_BITS = 0.02
"""What tells less is not worth a hand."""
SURE_ENOUGH = 0.9
"""From here on no test is advised, but one that is the way to a good reading anyway."""
_SEEN_BY = frozenset((CauseCode.NOT_MIXED, CauseCode.SAMPLE_TEMPERATURE))
SURE = 0.75
"""From here on a test's outcome is said to prove its cause."""
TOLD = 0.1
"""What is less likely after a test is not told of."""
STIR_ANYWAY = 0.5
"""From here on it is stirred before all else: that cures layers too, so it costs no minutes."""
WARM_WORTH_COOLING = 0.15
"""How likely an untaken sample was warm or cold for it to be cooled before all else."""
STIRRED_WELL = (Stirred.HARD, Stirred.POURED)
NEEDED_FOR_SUM = (TestCode.COOL, TestCode.WATER_CHECK, TestCode.WEIGH)
HARMLESS = frozenset(
    (
        CauseCode.NOT_MIXED,
        CauseCode.SAMPLE_TEMPERATURE,
        CauseCode.HYDROMETER,
        CauseCode.BUBBLES,
        CauseCode.MISREAD,
        CauseCode.NOTHING_WRONG,
    )
)
"""Causes that leave the beer as it was meant: nothing to cure but the reading."""


def advised_test(
    posterior: Posterior,
    asked: Asked,
    beliefs: Beliefs,
    verdict: str = "",
    weigh: Weigh | None = None,
) -> Advised | None:
    """Return the test to do first; None where none would tell anything, or all is fine.

    With `weigh`, which explains a reading, it tells what its results would say.
    """
    if verdict == Verdict.FINE and not posterior.too_hot:
        return None
    code = test_to_do(posterior, asked, beliefs)
    if code is None:
        return None
    sample = asked.samples[-1]
    figures = (Kind.TEMPERATURE, sample.made_for_c), WATER
    outcomes = (
        ()
        if weigh is None or posterior.too_hot
        else _outcomes(code, posterior, asked, beliefs, weigh)
    )
    return Advised(
        code,
        TESTS[code].minutes,
        TITLES[code]._replace(figures=figures),
        MESSAGES[code]._replace(figures=figures),
        outcomes,
    )


def test_to_do(posterior: Posterior, asked: Asked, beliefs: Beliefs) -> TestCode | None:
    """Return the code of that test."""
    open_to = [each for each in TestCode if applies(each, asked, beliefs)]
    if TestCode.COOL in open_to and _cool_first(posterior, asked):
        return TestCode.COOL
    if TestCode.STIR in open_to and posterior.of(CauseCode.NOT_MIXED) >= STIR_ANYWAY:
        return TestCode.STIR
    if posterior.leading.probability >= SURE_ENOUGH and not _SEEN_BY & set(
        posterior.leading.causes
    ):
        return None
    leading = _leading(posterior.parts)
    told = {each: bits(each, leading) for each in open_to}
    worth = {each: found for each, found in told.items() if found >= LEAST_BITS}
    if not worth:
        told = {each: bits(each, posterior.parts) for each in open_to}
        worth = {each: found for each, found in told.items() if found >= LEAST_BITS}
    return max(worth, key=lambda each: worth[each] / TESTS[each].minutes, default=None)


test_to_do.__test__ = False  # type: ignore[attr-defined]  # its name is no test's


def _cool_first(posterior: Posterior, asked: Asked) -> bool:
    sample = asked.samples[-1]
    if posterior.too_hot:
        return True
    if sample.sample_c is not None:
        return False
    return sample.taken is Taken.POT or posterior.warm_now >= WARM_WORTH_COOLING


def _leading(parts: Sequence[Weighed]) -> tuple[Weighed, ...]:
    """Return the likeliest explanations by one cause, of which pairs are made up."""
    alone = [each for each in parts if each.also is None]
    whole = sum(each.probability for each in alone)
    found: list[Weighed] = []
    for each in alone[:MOST_LEADING]:
        if len(found) >= 2 and sum(part.probability for part in found) >= LEAD_BY * whole:
            break
        found.append(each)
    return tuple(found)


def bits(test: TestCode, parts: Sequence[Weighed]) -> float:
    """Return the information that a test is expected to bring between explanations, in bits."""
    whole = sum(each.probability for each in parts)
    if whole <= 0.0:
        return 0.0
    shares = [each.probability / whole for each in parts]
    left = 0.0
    for finds in (True, False):
        chances = [
            share * likelihood(test, finds, each.causes)
            for share, each in zip(shares, parts, strict=True)
        ]
        chance = sum(chances)
        if chance > 0.0:
            left += chance * _entropy([each / chance for each in chances])
    return _entropy(shares) - left


def _entropy(shares: Sequence[float]) -> float:
    return -sum(each * log2(each) for each in shares if each > 0.0)


def applies(test: TestCode, asked: Asked, beliefs: Beliefs) -> bool:
    """Whether a test can be done, was not done yet, and could tell anything."""
    if any(each.test is test for each in asked.answers):
        return False
    return _APPLIES[test](asked.samples[-1], asked, beliefs)


def _topped_up(sample: GravitySample, beliefs: Beliefs) -> bool:
    return sample.taken is Taken.TOPPED_UP and beliefs.is_topped_up


def _not_stirred(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    return _topped_up(sample, beliefs) and sample.stirred not in STIRRED_WELL


def _stirred(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    return _topped_up(sample, beliefs) and not _not_stirred(sample, asked, beliefs)


def _floats(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    return not is_refractometer(sample)


def _not_tried_in_water(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    """Whether it floats and nobody knows what it shows in water; a drop tells of other kinds."""
    known = beliefs.in_water is not None or any(each.in_water is not None for each in asked.samples)
    return not known and not is_refractometer(sample)


def _level_open(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    if sample.taken is Taken.POT:
        return asked.pot_l is None
    return True


def _has_lines(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    return any(not is_grain(each.kind) for each in beliefs.lines)


def _sums_up(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    """Whether mixing, warmth, instrument and volume are known, which a sum needs."""
    mixed = _stirred(sample, asked, beliefs) or _is_answered(asked, TestCode.STIR)
    others = all(
        _is_answered(asked, each) or not _APPLIES[each](sample, asked, beliefs)
        for each in NEEDED_FOR_SUM
    )
    return mixed and others and _has_lines(sample, asked, beliefs)


def _may_ferment(sample: GravitySample, asked: Asked, beliefs: Beliefs) -> bool:
    return sample.taken is not Taken.POT


def _is_answered(asked: Asked, test: TestCode) -> bool:
    return any(each.test is test for each in asked.answers)


_APPLIES: dict[TestCode, Callable[[GravitySample, Asked, Beliefs], bool]] = {
    TestCode.STIR: _not_stirred,
    TestCode.TOP_AND_BOTTOM: _stirred,
    TestCode.COOL: _floats,
    TestCode.WATER_CHECK: _not_tried_in_water,
    TestCode.SETTLE: _floats,
    TestCode.WEIGH: _level_open,
    TestCode.COUNT_PACKETS: _has_lines,
    TestCode.SUM: _sums_up,
    TestCode.WAIT: _may_ferment,
}


def _outcomes(
    code: TestCode, posterior: Posterior, asked: Asked, beliefs: Beliefs, weigh: Weigh
) -> tuple[Outcome, ...]:
    """Return what finding something, and finding nothing, would say."""
    found = []
    for finds in (True, False):
        then = weigh(_answered(code, finds, posterior, asked, beliefs), beliefs)
        says = _says(code, then, asked.samples[-1].taken, finds=finds)
        found.append(Outcome(shows(code, finds, posterior, asked, beliefs), says))
    return tuple(found)


def _answered(
    code: TestCode, finds: bool, posterior: Posterior, asked: Asked, beliefs: Beliefs
) -> Asked:
    """Return what is then asked: with a new sample where it is read again, else with an answer."""
    if code not in (TestCode.STIR, TestCode.COOL):
        return replace(asked, answers=(*asked.answers, Answer(code, changed=finds)))
    sample = asked.samples[-1]
    again = replace(
        sample, shown=_forecast_on_scale(posterior, asked, beliefs) if finds else sample.shown
    )
    if code is TestCode.STIR:
        again = replace(again, stirred=Stirred.HARD, drawn=Drawn.UNKNOWN)
    else:
        again = replace(again, sample_c=sample.made_for_c)
    return replace(asked, samples=(*asked.samples, again))


def _forecast_on_scale(posterior: Posterior, asked: Asked, beliefs: Beliefs) -> float:
    """Return what the instrument would show if it read what is expected."""
    sample, wanted = asked.samples[-1], 1.0 + posterior.expected_points / 1000.0
    now = 1.0 + posterior.reading_points / 1000.0
    if sample.scale is Scale.SG:
        return sample.shown + wanted - now
    more = float(plato_from_gravity(wanted)) - float(plato_from_gravity(now))
    return sample.shown + more * (sample.correction or 1.0)


def _says(code: TestCode, then: Posterior, taken: Taken, *, finds: bool) -> Message:
    leading = then.leading
    if finds and leading.probability >= SURE and TESTS[code].proves.intersection(leading.causes):
        cause = short_of(leading)
        if set(leading.causes) <= HARMLESS and taken is Taken.TOPPED_UP:
            return say("it-was-pitch", "it was {cause}; pitch, nothing to cure.", cause=cause)
        if set(leading.causes) <= HARMLESS:
            return say("it-was-harmless", "it was {cause}; nothing to cure.", cause=cause)
        return say("it-was", "it was {cause}.", cause=cause)
    told = [each for each in then.parts[:3] if each.probability >= TOLD] or [leading]
    return say("then-these", "then {causes}.", causes=in_a_row([_with_share(e) for e in told]))


def _with_share(part: Weighed) -> Message:
    share = round(100.0 * part.probability)
    return say("cause-share", "{cause} {share} %", cause=short_of(part), share=share)
