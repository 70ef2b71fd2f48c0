"""Figures learned from brews: against the textbook, against numbers, and what must not move them.

The conjugate case is the normal model with known variance of Gelman, Carlin, Stern, Dunson, Vehtari
and Rubin, Bayesian Data Analysis, 3rd ed., ch. 2.5, the several pots that of ch. 5.4 (both from
memory).
"""

import math
from dataclasses import replace

import numpy as np
import pytest

from designer.brewday.learning.figures import Figure, Seen, Start
from designer.brewday.learning.learned import learned
from designer.brewday.learning.model import Observations, Widths, fit, prediction
from designer.brewday.learning.priors import PRIORS

POT = "Kitchen pot"
EXACT = Widths(0.0, 0.0)


def boils(values, spread=0.05, subject=POT, first=0):
    return [
        Seen(Figure.EVAPORATION, subject, value, spread, f"brew {first + at}", float(first + at))
        for at, value in enumerate(values)
    ]


def of(seens, subject=POT, start=1.0, half=0.35):
    starts = [Start(Figure.EVAPORATION, subject, start, half)]
    return next(each for each in learned(seens, starts) if each.subject == subject)


def width(found):
    return found.high - found.low


def observations(values, spreads, priors, subjects=None, alike=0.0, shared=None):
    count = len(values)
    subjects = [0] * count if subjects is None else subjects
    turns = [subjects[:at].count(each) for at, each in enumerate(subjects)]
    return Observations(
        np.array(values),
        np.array(spreads),
        np.zeros((count, 0)) if shared is None else np.array(shared),
        np.array(subjects, dtype=np.intp),
        np.array(turns, dtype=float),
        np.array(priors),
        alike,
    )


def predicted(seen, subject, widths):
    counting = np.ones(len(seen.value), dtype=bool)
    turn = float(sum(seen.subject == subject))
    return prediction(seen, counting, fit(seen, counting, widths), (subject, turn), widths)


def test_without_scatter_or_drift_it_is_the_textbook_s_normal_with_known_variance():
    """Posterior precision is the sum of precisions, the mean is weighted by them: ch. 2.5."""
    values, spread, prior = [0.30, 0.10, 0.25], 0.2, 0.5
    mean, variance = predicted(observations(values, [spread] * 3, [prior]), 0, EXACT)
    precision = 1.0 / prior**2 + 3.0 / spread**2
    assert variance == pytest.approx(1.0 / precision)
    assert mean == pytest.approx((sum(values) / spread**2) / precision)


def test_two_pots_share_what_the_kitchen_has_in_common_as_numbers_say():
    """The normal hierarchy of ch. 5.4, integrated over a grid of both pots' figures."""
    values, subjects, spread, prior, alike = [0.2, 0.35, 0.1], [0, 0, 1], 0.15, 0.4, 0.6
    seen = observations(values, [spread] * 3, [prior, prior], subjects, alike)
    grid = np.linspace(-2.0, 2.0, 801)
    first, second = np.meshgrid(grid, grid, indexing="ij")
    inverse = np.linalg.inv(prior**2 * np.array([[1.0, alike], [alike, 1.0]]))
    log_density = -0.5 * (
        inverse[0, 0] * first**2 + 2.0 * inverse[0, 1] * first * second + inverse[1, 1] * second**2
    )
    for value, subject in zip(values, subjects, strict=True):
        log_density -= 0.5 * ((value - (first, second)[subject]) / spread) ** 2
    density = np.exp(log_density - log_density.max())
    density /= density.sum()
    for subject, figure in enumerate((first, second)):
        mean, variance = predicted(seen, subject, EXACT)
        by_numbers = float((density * figure).sum())
        assert mean == pytest.approx(by_numbers, abs=1e-4)
        squares = float((density * (figure - by_numbers) ** 2).sum())
        assert variance == pytest.approx(squares, rel=1e-3)


def test_an_error_that_all_brews_share_is_never_averaged_away():
    """A reading is figure + shared + own: with many brews what is shared is left, as of one."""
    count, prior, shared = 400, 0.5, 0.1
    seen = observations([0.2] * count, [0.05] * count, [prior], shared=[[shared]] * count)
    _, variance = predicted(seen, 0, EXACT)
    left = 1.0 / (1.0 / prior**2 + 1.0 / shared**2)
    assert variance == pytest.approx(left, rel=0.01)


def test_how_likely_all_is_and_how_likely_each_is_after_the_others_agree():
    """p(all) = p(others) p(one | others)."""
    seen = observations([0.3, -0.2, 0.1], [0.1, 0.2, 0.3], [0.4], shared=[[0.1], [0.1], [0.0]])
    widths, every = Widths(0.05, 0.02), np.ones(3, dtype=bool)
    whole = fit(seen, every, widths)
    for place in range(3):
        others = every.copy()
        others[place] = False
        alone = fit(seen, others, widths).log_likelihood
        assert whole.log_after_others[place] == pytest.approx(whole.log_likelihood - alone)


def test_few_brews_narrow_little_and_more_narrow_more():
    found = of(boils([1.2] * 8))
    widths = [width(found.start), *(width(step.known) for step in found.steps)]
    assert widths[1] > 0.4 * widths[0]
    assert widths[8] < 0.35 * widths[0]
    assert widths[8] < widths[4] < widths[2] < widths[0]
    assert found.steps[0].known.value < found.steps[3].known.value < found.known.value < 1.2


def test_it_may_be_taken_from_three_brews_on_that_narrow_it():
    assert [of(boils([1.2] * count)).enough for count in (1, 2, 3)] == [False, False, True]
    assert not of(boils([1.2] * 3, spread=5.0)).enough


def test_a_single_bad_log_moves_little_and_is_odd():
    good = of(boils([1.10, 0.98, 1.06, 1.03, 1.05]))
    bad = of(boils([1.10, 0.98, 0.40, 1.06, 1.03, 1.05]))
    assert [step.odd for step in bad.steps] == [False, False, True, False, False, False]
    assert [step.counts for step in bad.steps] == [True, True, False, True, True, True]
    assert bad.known.value == pytest.approx(good.known.value, rel=0.01)


def test_a_boil_with_the_lid_on_is_odd_though_little_is_read_least_surely():
    readings = boils([1.10, 0.98, 0.27, 1.06, 1.03], spread=0.12)
    assert [step.odd for step in of(readings).steps] == [False, False, True, False, False]


def test_a_brew_far_from_the_usual_is_not_odd_once_others_agree_with_it():
    assert of(boils([0.35])).steps[0].odd
    assert not any(step.odd for step in of(boils([0.35, 0.36, 0.34])).steps)


def test_the_brewer_leaves_a_brew_out_or_lets_an_odd_one_count():
    usual, (odd,) = boils([1.10, 0.98, 1.06]), boils([0.40], first=3)
    without = of([*usual, replace(odd, counts=False)])
    forced = of([*usual, replace(odd, counts=True)])
    assert without.known.value == pytest.approx(of(usual).known.value, rel=0.01)
    assert (without.steps[3].counts, without.steps[3].odd) == (False, False)
    assert (forced.steps[3].counts, forced.steps[3].odd) == (True, True)
    assert forced.known.low < 0.7 * without.known.low


def test_brews_that_disagree_widen_the_band_and_say_so():
    agree = of(boils([1.0, 1.02, 0.98, 1.01, 0.99, 1.0]))
    disagree = of(boils([0.75, 1.25, 0.8, 1.3, 0.75, 1.2]))
    assert (agree.disagree, disagree.disagree) == (False, True)
    assert width(disagree.known) > 2.0 * width(agree.known)


def test_a_kitchen_that_drifts_is_followed():
    rising = [1.0 + 0.06 * at for at in range(12)]
    found = of(boils(rising))
    assert found.known.low < rising[-1] < found.known.high
    assert found.known.value > 0.93 * rising[-1]
    assert not any(step.odd for step in found.steps)


def test_a_new_pot_starts_from_what_other_pots_taught():
    starts = [Start(Figure.EVAPORATION, each, 1.0, 0.35) for each in (POT, "Stock pot")]
    mine, new = learned(boils([1.4] * 6), starts)
    assert new.steps == ()
    assert new.start.value < new.known.value < mine.known.value
    assert width(new.known) > width(mine.known)


def test_what_pots_have_in_common_is_how_they_differ_from_what_is_usual_of_their_size():
    seens = [
        Seen(Figure.COOLING, "small", 0.06 * 1.3, 0.003, f"{at}", float(at)) for at in range(6)
    ]
    starts = [Start(Figure.COOLING, "small", 0.06), Start(Figure.COOLING, "large", 0.03)]
    _, large = learned(seens, starts)
    assert 0.03 < large.known.value < 0.03 * 1.3


def test_what_is_known_does_not_hang_on_the_order_in_which_brews_are_given():
    seens = boils([1.1, 0.9, 1.2, 1.0])
    assert of(seens) == of(list(reversed(seens)))


def test_however_odd_a_log_is_it_is_left_out_and_nothing_overflows():
    for value in (-5.0, 0.0, 1e-9, 1e9):
        found = of(boils([1.0, 1.1, value, 1.05], spread=1e-4))
        assert math.isfinite(found.known.value)
        assert found.steps[2].odd, value
        assert 0.9 < found.known.value < 1.2, value


def test_every_figure_has_a_prior_with_a_source():
    assert set(PRIORS) == set(Figure)
    for figure, prior in PRIORS.items():
        assert prior.source, figure
        assert prior.slip > prior.half_width > prior.scatter > prior.drift > 0.0, figure


def test_a_start_without_brews_is_as_wide_as_was_believed():
    found = of([], half=None)
    assert found.start == found.known
    half = math.log(found.start.high / found.start.value)
    assert half == pytest.approx(PRIORS[Figure.EVAPORATION].half_width, rel=1e-6)


def test_what_is_no_ratio_moves_as_far_up_as_down_and_never_below_nothing():
    """A normal is symmetric; of litres there are never fewer than none."""

    def known(figure, seen, start, spread):
        starts = [Start(figure, "it", start)]
        seens = [Seen(figure, "it", start + seen, spread, "a brew", 0.0)]
        return next(each for each in learned(seens, starts) if each.subject == "it").known

    up, down = (known(Figure.ATTENUATION, each, 0.75, 0.01) for each in (0.03, -0.03))
    assert 0.75 < up.value < 0.78
    assert up.value - 0.75 == pytest.approx(0.75 - down.value)
    assert up.high - up.value == pytest.approx(up.value - up.low)
    empty = known(Figure.LEFT_IN_POT, -0.05, 0.05, 0.05)
    assert empty.low == 0.0
    assert 0.0 <= empty.value < 0.05
