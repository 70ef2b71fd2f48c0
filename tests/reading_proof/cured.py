"""Hidden brews gone wrong are read, tested as advised, and cured as offered: what the beer then is.

    python -m tests.reading_proof.cured [BREWS]

Each brew has a truth that nobody sees: its day is one of the samples of the forecast, and one cause
is at work in a size drawn from the declared spreads. The brewer does what is advised, sees what the
truth shows (now and then not, as the odds of the tests say), and takes the first cure that can be
done. What is added is added to the true wort, by the mass balance of `wort.extract`.
"""

from __future__ import annotations

import sys
from collections import Counter, defaultdict
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    Drawn,
    GravitySample,
    Stirred,
    TestCode,
)
from designer.brewday.explaining.beliefs import beliefs_of
from designer.brewday.explaining.explain import explained
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.test_likelihoods import likelihood
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.wort.extract import extract_for, gravity, water_for_volume
from tests.reading_proof.hidden import from_parts

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"
NAMES = ("harbour_lamp_porter", "slipway_bitter", "foghorn_wheat", "breakwater_red")
CAUSES = (CauseCode.VOLUME, CauseCode.MISSING_EXTRACT, CauseCode.MISWEIGHED, CauseCode.NOT_MIXED)
EYE_POINTS = 0.7
ROUNDS = 7
ADDING = ("add_", "put_in")
WIDE_L = 60.0
SOLIDS = 0.965


@dataclass
class Truth:
    """A brew as it is: litres and points of its wort, mixed; what the top layer lacks."""

    causes: tuple[CauseCode, ...]
    points: float
    litres: float
    layer: float


@dataclass
class Counted:
    """Of odd brews of each cause what was done.

    Where something was added: how far off the plan they were before and after, and whether they
    lie in the plan's band then.
    """

    done: dict = field(default_factory=lambda: defaultdict(Counter))
    off_by: dict = field(default_factory=lambda: defaultdict(list))
    in_band: dict = field(default_factory=lambda: defaultdict(list))


def kitchens():
    """Return recipes with a fermenter that has room, and what they are believed to give."""
    found = []
    for name in NAMES:
        recipe = load(EXAMPLES / f"{name}.hobwort")
        vessel = replace(recipe.fermenter, volume=typed(Kind.VOLUME, WIDE_L))
        recipe = replace(recipe, fermenter=vessel)
        found.append((recipe, beliefs_of(look_ahead(recipe))))
    return found


def hidden(beliefs, cause, dice) -> Truth:
    """Return a brew with that cause at work."""
    day = dice.integers(0, beliefs.points.size)
    points, litres = float(beliefs.points[day]), float(beliefs.batch_l[day])
    layer = 0.0
    if cause is CauseCode.VOLUME:
        factor = float(np.exp(from_parts(priors.VOLUME_LOG, 1, dice)[0]))
        points, litres = points / factor, litres * factor
    elif cause is CauseCode.NOT_MIXED:
        layer = -points * 0.8 * dice.random() ** priors.LAYER_POWER
    else:
        parts = priors.FORGOTTEN if cause is CauseCode.MISSING_EXTRACT else priors.MISWEIGHED_BY
        line = beliefs.lines[dice.integers(0, len(beliefs.lines))]
        share = max(float(from_parts(parts, 1, dice)[0]), -1.0)
        points = max(points + share * line.points, 2.0)
    return Truth((cause,), points, litres, layer)


def odd(beliefs, cause, dice) -> Truth:
    """Return a hidden brew whose wort, or its layer, is far enough off to be odd."""
    while True:
        found = hidden(beliefs, cause, dice)
        off = found.points + found.layer - beliefs.planned_points
        if abs(off) >= priors.ODD_FROM_POINTS:
            return found


def shown(points, dice) -> float:
    """Return what a hydrometer shows, to its thousandths."""
    return round(1.0 + (points + EYE_POINTS * dice.standard_normal()) / 1000.0, 3)


def answered(asked: Asked, code: TestCode, truth: Truth, dice) -> Asked:
    """Return what is asked after the brewer has done a test."""
    if code is TestCode.STIR:
        again = replace(asked.samples[-1], shown=shown(truth.points, dice), stirred=Stirred.HARD)
        return replace(asked, samples=(*asked.samples, replace(again, drawn=Drawn.UNKNOWN)))
    if code is TestCode.WEIGH:
        answer = Answer(code, value=truth.litres + 0.1 * dice.standard_normal())
    elif code is TestCode.WATER_CHECK:
        answer = Answer(code, value=1.0 + 0.0004 * dice.standard_normal())
    else:
        layered = truth.layer != 0.0 and asked.samples[-1].stirred is not Stirred.HARD
        causes = tuple(each for each in truth.causes if each is not CauseCode.NOT_MIXED or layered)
        answer = Answer(code, changed=bool(dice.random() < likelihood(code, True, causes)))
    return replace(asked, answers=(*asked.answers, answer))


def cured(recipe, beliefs, truth: Truth, dice):
    """Return the true points once the brewer has done all that was advised, and what he did."""
    sample = GravitySample(
        shown(truth.points + truth.layer, dice),
        sample_c=20.0,
        drawn=Drawn.TOP,
        stirred=Stirred.LITTLE,
    )
    asked = Asked((sample,))
    for _ in range(ROUNDS):
        told = explained(asked, beliefs, recipe)
        if told.test is None:
            break
        asked = answered(asked, told.test.code, truth, dice)
    told = explained(asked, beliefs, recipe)
    for each in told.cures:
        if each.off is None:
            return after(each, truth), each.code
    return truth.points, str(told.verdict)


def after(cure, truth: Truth) -> float:
    """Return the points of the true wort with what the cure puts in."""
    if not cure.code.startswith(ADDING):
        return truth.points
    ((kind, amount),) = cure.offer.figures
    extract = extract_for(1.0 + truth.points / 1000.0, truth.litres)
    water = water_for_volume(extract, truth.litres)
    if kind is Kind.VOLUME:
        return 1000.0 * (gravity(extract, water + 0.9982 * amount.value) - 1.0)
    added = next(each["add"] for each in cure.changes if "add" in each)
    solids = {"dry extract": SOLIDS, "sugar": 1.0}.get(added["kind"], 0.79)
    made = gravity(extract + solids * amount.value, water + (1.0 - solids) * amount.value)
    return 1000.0 * (made - 1.0)


def played(brews: int, seed: int, causes=CAUSES) -> Counted:
    """Return what became of so many odd brews of each cause."""
    dice, counted = np.random.default_rng(seed), Counted()
    known = kitchens()
    for cause in causes:
        for number in range(brews):
            recipe, beliefs = known[number % len(known)]
            truth = odd(beliefs, cause, dice)
            points, did = cured(recipe, beliefs, truth, dice)
            counted.done[cause][did] += 1
            if not did.startswith(ADDING):
                continue
            meant, expected = beliefs.planned_points, beliefs.expected
            counted.off_by[cause].append((abs(truth.points - meant), abs(points - meant)))
            counted.in_band[cause].append(expected.low <= 1.0 + points / 1e3 <= expected.high)
    return counted


def main() -> int:
    """Play brews and print what became of them."""
    counted = played(int(sys.argv[1]) if len(sys.argv) > 1 else 200, seed=17)
    write = sys.stdout.write
    for cause in CAUSES:
        done = ", ".join(f"{what} {times}" for what, times in counted.done[cause].most_common())
        write(f"{cause}: {done}\n")
        if counted.off_by[cause]:
            before, then = np.array(counted.off_by[cause]).T
            write(
                f"  where something was added: off by {before.mean():.1f} points before, "
                f"{then.mean():.1f} after, in the plan's band {np.mean(counted.in_band[cause]):.0%}"
                f", worse than before by a point {np.mean(then > before + 1.0):.1%}\n"
            )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
