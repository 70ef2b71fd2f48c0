"""Counts how often what is learned of hidden kitchens is right, and how fast it narrows."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from statistics import median

from designer.brewday.learning.figures import Figure
from tests.learning_proof.hidden_kitchens import (
    FIGURES,
    brewed,
    drifted,
    generator,
    kitchen,
    known_after,
    of_next,
    porter,
)


def lived(seed, brews, faster=1.0):
    """Return what a kitchen's brews say, and what it really is in the brew after each."""
    rng, recipe = generator(seed), porter()
    hidden = kitchen(rng, recipe)
    seens, truths = [], []
    for number in range(brews):
        seens += brewed(rng, recipe, hidden, of_next(rng, hidden), number)
        hidden = drifted(rng, hidden, faster)
        truths.append(of_next(rng, hidden))
    return seens, truths, hidden


def counted(seeds, after=(1, 3, 5, 8), faster=1.0):
    """Return, by brews and figure: how often the next brew lies in the band, and its width.

    The width is told as a share of that at the start.
    """
    inside, widths = defaultdict(list), defaultdict(list)
    for seed in seeds:
        seens, truths, _ = lived(seed, max(after), faster)
        for brews in after:
            known = known_after(seens, porter(), brews)
            for figure in FIGURES:
                found, truth = known[figure], truths[brews - 1][figure]
                low, high = found.known.low, found.known.high
                inside[brews, figure].append(low <= truth <= high)
                start = found.start.high - found.start.low
                widths[brews, figure].append((high - low) / start)
    shares = {key: sum(each) / len(each) for key, each in inside.items()}
    return shares, {key: median(each) for key, each in widths.items()}


def moved_by_a_bad_log(seeds, brews=8, by=0.5):
    """Return by how much of half its band evaporation is moved where one log says half of it."""
    moved, odd = [], []
    for seed in seeds:
        seens, _, _ = lived(seed, brews)
        own = [each for each in seens if each.figure is Figure.EVAPORATION]
        if len(own) < brews:
            continue
        bad = replace(own[brews // 2], value=by * own[brews // 2].value)
        worse = [bad if each is own[brews // 2] else each for each in seens]
        good, then = (
            known_after(each, porter(), brews)[Figure.EVAPORATION] for each in (seens, worse)
        )
        half = 0.5 * (good.known.high - good.known.low)
        moved.append(abs(then.known.value - good.known.value) / half)
        odd.append(then.steps[brews // 2].odd)
    return median(moved), max(moved), sum(odd) / len(odd)
