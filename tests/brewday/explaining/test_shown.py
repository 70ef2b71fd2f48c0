"""What a sample would have shown of a brew, put together by hand from what is wrong with it.

Densities are those of scipy's normal; °P of a wort: 259 - 259 / SG, a rule of thumb of handbooks.
How likely is what, is judgement told in `cause_priors`, and held by the tables of figures.
"""

import numpy as np
import pytest
from scipy import stats

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, GravitySample, Scale, Stirred, Taken
from designer.brewday.explaining.at_work import at_work
from designer.brewday.explaining.corrected import corrected_samples
from designer.brewday.explaining.drawn import drawn
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.hypotheses import hypotheses
from designer.brewday.explaining.shown import Shown
from designer.brewday.explaining.weighed import FEW_BREWS, weighed

C = CauseCode
MANY, STEPS = 64, 4


def sample(shown=1.040, **more):
    return GravitySample(shown, **{"sample_c": 20.0, **more})


class Case:
    """A question and its brews, with causes at work."""

    def __init__(self, kit, *samples, many=MANY):
        self.asked = Asked(samples)
        self.corrected = corrected_samples(self.asked, kit)
        self.brews = drawn(self.asked, kit, self.corrected, many)
        self.shown = Shown(self.asked, kit, self.corrected, self.brews, STEPS)

    def work(self, *causes):
        return at_work(causes, self.brews)

    def mixed(self, *causes, place=0, **more):
        return self.shown.of_mixed(place, self.work(*causes), **more)

    def density(self, place, shown):
        each = self.corrected[place]
        return stats.norm.pdf(each.points, shown, each.own)

    def likely(self, *causes):
        return self.shown.likelihood(self.work(*causes))


def test_each_cause_moves_a_sample_its_own_way(kit):
    case = Case(kit, sample())
    brews = case.brews
    plain = case.mixed()
    assert plain == pytest.approx(brews.points + case.corrected[0].shared * brews.off)
    assert case.mixed(C.HYDROMETER) == pytest.approx(plain + brews.hydrometer.of)
    assert case.mixed(C.BUBBLES) == pytest.approx(plain + brews.bubbles.of)
    assert case.mixed(C.BUBBLES, slips=False) == pytest.approx(plain)
    assert case.mixed(C.FERMENTING) == pytest.approx(plain - brews.fallen.of)
    warm = case.corrected[0].too_low_if_warmer(brews.warmer_c.of)
    assert case.mixed(C.SAMPLE_TEMPERATURE) == pytest.approx(plain - warm)
    assert case.shown.too_low_for_warmth(0) == pytest.approx(warm)
    found = case.mixed(C.MISREAD)
    right = ~brews.wrong_scale
    assert found[right] == pytest.approx((plain + brews.misread.of)[right])
    degrees = 259.0 - 259.0 / (1.0 + plain[brews.wrong_scale] / 1000.0)
    assert found[brews.wrong_scale] == pytest.approx(degrees, abs=0.1)


def test_what_is_below_nothing_is_read_as_no_degrees_at_all(kit):
    case = Case(kit, sample())
    there = np.full(MANY, -3.0)
    by = case.shown.misread(there)[case.brews.wrong_scale]
    assert by == pytest.approx(3.0, abs=0.01)


def test_a_refractometer_has_no_bulb_for_bubbles(kit):
    case = Case(kit, GravitySample(10.2, Scale.BRIX))
    assert case.mixed(C.BUBBLES) == pytest.approx(case.mixed())


def test_wort_of_the_pot_neither_thins_nor_ferments(kit):
    case = Case(kit, sample(1.09, taken=Taken.POT))
    brews = case.brews
    plain = brews.pot_points + case.corrected[0].shared * brews.off
    assert case.mixed() == pytest.approx(plain)
    assert case.mixed(C.FERMENTING) == pytest.approx(plain)
    thinner = brews.pot_points / np.exp(brews.volume.of) + case.corrected[0].shared * brews.off
    assert case.mixed(C.VOLUME) == pytest.approx(thinner)


def test_beer_has_fallen_a_share_of_all_it_can(kit):
    case = Case(kit, sample(1.02, taken=Taken.FERMENTING, hours=54.0))
    work = case.work(C.FERMENTING)
    left = (kit.final_gravity - 1.0) / (kit.expected.value - 1.0)
    wanted = -case.brews.fallen.of * case.brews.points * (1.0 - left)
    assert case.shown.fallen(work) == pytest.approx(wanted)


def test_only_samples_whose_warmth_nobody_took_are_warm_if_there_are_any(kit):
    taken, untold = sample(), sample(sample_c=None)
    both = Case(kit, taken, untold)
    assert [both.shown.is_warm(place, both.work(C.SAMPLE_TEMPERATURE)) for place in (0, 1)] == [
        False,
        True,
    ]
    one = Case(kit, taken)
    assert one.shown.is_warm(0, one.work(C.SAMPLE_TEMPERATURE))
    assert not one.shown.is_warm(0, one.work(C.VOLUME))


def test_mixed_samples_are_likely_by_their_densities(kit):
    case = Case(kit, sample(), sample(1.043))
    found = case.likely(C.VOLUME)
    wanted = 1.0
    for place in (0, 1):
        wanted = wanted * case.density(place, case.mixed(C.VOLUME, place=place))
    assert found.of_all == pytest.approx(wanted)
    assert not found.layered.any()
    assert not found.slipped.any()


def test_bubbles_are_in_all_samples_or_in_any_single_one(kit):
    alone = Case(kit, sample())
    found = alone.likely(C.BUBBLES)
    assert found.of_all == pytest.approx(alone.density(0, alone.mixed(C.BUBBLES)))
    assert found.slipped == pytest.approx(found.of_all)
    case = Case(kit, sample(), sample(1.043))
    found = case.likely(C.BUBBLES)
    (first, also), (second, too) = (
        [case.density(p, case.mixed(C.BUBBLES, place=p, slips=s)) for s in (False, True)]
        for p in (0, 1)
    )
    every = priors.EVERY_TIME
    newest = every * also * too + (1.0 - every) / 2.0 * first * too
    assert found.slipped == pytest.approx(newest)
    assert found.of_all == pytest.approx(newest + (1.0 - every) / 2.0 * also * second)
    assert not found.layered.any()


def test_a_layer_is_any_part_of_the_way_to_water_or_to_the_pot(kit):
    case = Case(kit, sample())
    even = (np.arange(STEPS)[:, np.newaxis] + case.brews.jitter) / STEPS
    share = even**priors.LAYER_POWER
    plain, low = case.mixed(C.NOT_MIXED), priors.LOW_BY_PLACE[case.asked.samples[0].drawn]
    weak = case.density(0, plain - share * case.brews.points).mean(axis=0)
    strong = case.density(0, plain + share * (case.brews.pot_points - case.brews.points))
    wanted = low * weak + (1.0 - low) * strong.mean(axis=0)
    found = case.likely(C.NOT_MIXED)
    assert found.of_all == pytest.approx(wanted)
    assert found.layered == pytest.approx(wanted)


def test_wort_that_was_stirred_may_be_mixed_by_then_and_the_pot_is_before_all_layers(kit):
    hard = sample(1.043, stirred=Stirred.HARD)
    one, two = Case(kit, sample()), Case(kit, sample(), hard)
    stays = priors.STAYS_LAYERED[Stirred.HARD]
    found = two.likely(C.NOT_MIXED)
    then_mixed = (1.0 - stays) * one.likely(C.NOT_MIXED).of_all
    then_mixed = then_mixed * two.density(1, two.mixed(C.NOT_MIXED, place=1))
    assert found.of_all - found.layered == pytest.approx(then_mixed)
    pot = Case(kit, sample(1.09, taken=Taken.POT), sample())
    alone = pot.density(0, pot.mixed(C.NOT_MIXED)) * one.likely(C.NOT_MIXED).of_all
    assert pot.likely(C.NOT_MIXED).of_all == pytest.approx(alone)


@pytest.mark.parametrize("second", [None, 1.040, 1.046])
def test_what_nothing_explains_may_lie_anywhere_in_240_points(kit, second):
    """As likely there as anywhere; how near a second reading is to the first still counts."""
    samples = [sample(each) for each in (1.040, second) if each is not None]
    case = Case(kit, *samples, many=FEW_BREWS)
    prior = {e.causes: e.prior for e in hypotheses(case.asked, kit, case.corrected)}
    density = 1.0 / 240.0
    if second is not None:
        apart = case.corrected[1].points - case.corrected[0].points
        density *= stats.norm.pdf(apart, 0.0, 3.0) + 1e-6
    fine = prior[()] * case.likely().of_all.mean()
    found = {e.causes: e for e in weighed(case.asked, kit, whole=False).parts}
    other = found[(C.OTHER,)]
    assert other.probability / found[()].probability == pytest.approx(
        prior[(C.OTHER,)] * density / fine
    )
    assert other.points == pytest.approx(case.brews.points.mean())
    assert (other.volume_factor, other.extract_factor) == (1.0, 1.0)
