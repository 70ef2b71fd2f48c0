"""Hidden brews, what is said of them, and how it compares with the exact posterior."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import pairwise
from pathlib import Path

import numpy as np

from designer.brewday.explaining.asked import Answer, Drawn, Stirred
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.brewday.explaining.explained import Verdict
from designer.brewday.explaining.judged import verdict_of
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.test_likelihoods import likelihood
from designer.brewday.explaining.weighed import weighed
from designer.library.recipe_file import load
from tests.reading_proof.exact import DRAWS, Exact
from tests.reading_proof.hidden import SETS, Situation, hidden

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
SURE = 0.8
"""From which exact probability of the true cause on it has to be ranked first."""
BINS = tuple(n / 10.0 for n in range(11))
LEAST_STATED = 200
WITHIN = 0.05
ALMOST_NOTHING = 0.0005
"""Statements of less are not said anywhere and would fill the lowest bin alone."""

_TOP, _TAP, _ANY, _BOTTOM = Drawn.TOP, Drawn.TAP, Drawn.UNKNOWN, Drawn.BOTTOM
_NO, _LITTLE, _HARD, _ASK = Stirred.NO, Stirred.LITTLE, Stirred.HARD, Stirred.UNKNOWN


def situations() -> list[Situation]:
    """Return brews of recipes and of kits, with what callers know of the sample."""
    porter, bitter, wheat = (
        beliefs_of(outlook_to_explain(load(EXAMPLES / f"{name}.hobwort"), ()))
        for name in ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat")
    )
    band = beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0))
    lines = (ExtractStated(1.7, "hopped kit extract"), ExtractStated(1.0, "sugar"))
    box = beliefs_of_kit(KitStated(20.0, pot_l=8.0, extract=lines))
    told = (
        (porter, ((_TOP, _ASK, 24.0),)),
        (porter, ((_ANY, _NO, None),)),
        (porter, ((_TOP, _NO, 20.0), (_TOP, _HARD, 20.0))),
        (bitter, ((_TAP, _LITTLE, 22.0),)),
        (bitter, ((_ANY, _HARD, None),)),
        (wheat, ((_TOP, _ASK, None), (_BOTTOM, _NO, None))),
        (wheat, ((_ANY, _ASK, 33.0),)),
        (band, ((_ANY, _ASK, None),)),
        (band, ((_TAP, _NO, 20.0),)),
        (box, ((_ANY, _LITTLE, 20.0),)),
    )
    return [Situation(beliefs, samples) for beliefs, samples in told]


@dataclass
class Tally:
    """What came of hidden brews.

    `stated` holds what was said of each set of causes and whether it was true; `sure` how often the
    true one was ranked first where the exact posterior is sure of it; `apart` the largest
    difference from that of any statement; `cannot_tell` of those within noise and of the others.
    """

    brews: int = 0
    stated: list[tuple[float, bool]] = field(default_factory=list)
    sure: list[bool] = field(default_factory=list)
    apart: list[float] = field(default_factory=list)
    quick_apart: list[float] = field(default_factory=list)
    close: list[tuple[float, bool]] = field(default_factory=list)
    right: list[bool] = field(default_factory=list)
    exact_right: list[bool] = field(default_factory=list)
    right_after: list[bool] = field(default_factory=list)
    right_before: list[bool] = field(default_factory=list)
    verdicts: dict[str, int] = field(default_factory=dict)

    def bins(self) -> list[tuple[float, float, int, float, float]]:
        """Return from, to, how many were stated, their mean, and how many of them were true."""
        said = np.array([each for each, _ in self.stated])
        true = np.array([each for _, each in self.stated])
        found = []
        for low, high in pairwise(BINS):
            own = (said >= low) & ((said < high) | (high == 1.0))
            if own.any():
                mean, were = float(said[own].mean()), float(true[own].mean())
                found.append((low, high, int(own.sum()), mean, were))
        return found

    def faults(self, *, as_declared: bool = True) -> list[str]:
        """Return what does not hold.

        Where errors are of other sizes than the program believes, it may be less sure than it
        could be, but not surer than it should.
        """
        found = [
            f"stated {mean:.3f} of {many}, true {were:.3f}"
            for _, _, many, mean, were in self.bins()
            if many >= LEAST_STATED
            and (mean - were > WITHIN or (as_declared and were - mean > WITHIN))
        ]
        if np.mean(self.sure) < 0.9:
            found.append(f"ranked first {np.mean(self.sure):.3f} of {len(self.sure)}")
        return found


def played(many: int, seed: int, draws: int = DRAWS, advise=None, **wider) -> Tally:
    """Return what came of so many hidden brews, spread over the situations.

    `wider` makes the errors of these other than the program believes.
    """
    tally = Tally()
    all_known = situations()
    each = -(-many // len(all_known))
    for number, known in enumerate(all_known):
        dice = np.random.default_rng((seed, number))
        real = replace(known, **wider)
        _play(tally, known, real, min(each, many - tally.brews), dice, draws, advise)
    return tally


def _play(tally, known, real, many, dice, draws, advise):
    exact = Exact(real, dice, draws)
    brews, gravities = hidden(real, many, dice)
    for place in range(many):
        read, truth = gravities[:, place], int(brews.which[place])
        asked = known.asked(read)
        found, quick = (weighed(asked, known.beliefs, whole=whole) for whole in (True, False))
        by_set = {part.causes: part.probability for part in found.parts}
        quickly = {part.causes: part.probability for part in quick.parts}
        said = np.array([by_set.get(causes, 0.0) for causes in SETS])
        is_so = exact.posterior(read)
        tally.brews += 1
        tally.stated += [(float(p), n == truth) for n, p in enumerate(said) if p >= ALMOST_NOTHING]
        if is_so[truth] >= SURE:
            tally.sure.append(int(said.argmax()) == truth)
        tally.apart.append(float(np.abs(said - is_so).max()))
        fast = np.array([quickly.get(causes, 0.0) for causes in SETS])
        tally.quick_apart.append(float(np.abs(fast - said).max()))
        taken = asked.samples[-1].taken
        verdict = verdict_of(found, known.beliefs, taken)
        tally.verdicts[verdict] = tally.verdicts.get(verdict, 0) + 1
        tally.close.append((_ratio(is_so), verdict == Verdict.CANNOT_TELL))
        tally.right.append(int(said.argmax()) == truth)
        tally.exact_right.append(int(is_so.argmax()) == truth)
        if advise is not None and verdict != Verdict.FINE:
            _tested(tally, found, asked, known, SETS[truth], dice, advise)


def _ratio(posterior) -> float:
    """Return how many times as likely the leading set is as the next without its first cause.

    That nothing is wrong stands against everything else.
    """
    leading = int(posterior.argmax())
    causes = SETS[leading][:1]
    if not causes:
        return float(posterior[leading] / max(1.0 - posterior[leading], 1e-12))
    rest = [
        p for n, p in enumerate(posterior) if n != leading and not (causes and causes[0] in SETS[n])
    ]
    return float(posterior[leading] / max(*rest, 1e-12))


def _tested(tally, found, asked, known, truth, dice, advise):
    """Carry out the advised test on the hidden brew, as tests are declared to come out."""
    test = advise(found, asked, known.beliefs)
    if test is None:
        return
    finds = dice.random() < likelihood(test, True, truth)
    again = replace(asked, answers=(*asked.answers, Answer(test, bool(finds))))
    after = weighed(again, known.beliefs)
    tally.right_before.append(found.leading.causes == truth)
    tally.right_after.append(after.leading.causes == truth)
