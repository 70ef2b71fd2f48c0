"""What is known beside gravity, how often causes are at work, and what a sample says: by hand.

Densities are those of scipy's normal. How often what happens, and what marks and eyes are off by,
is judgement told in the modules; a pound is 454 of 500 g by its definition (NIST SP 811).
"""

from dataclasses import replace
from math import exp, hypot, log, sqrt

import numpy as np
import pytest
from scipy import stats

from designer.brewday.explaining import cause_priors as priors
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
from designer.brewday.explaining.at_work import at_work
from designer.brewday.explaining.corrected import corrected_samples
from designer.brewday.explaining.drawn import drawn
from designer.brewday.explaining.evidence import (
    finding,
    is_told_by_sample,
    of_answers,
    of_volumes,
    of_water,
)
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.hypotheses import chances, hypotheses
from designer.brewday.explaining.layers import layer_points, same_layers, ways_layered
from designer.brewday.measured.readings import By
from designer.wort.density import gravity_from_plato, plato_from_gravity

C, T = CauseCode, TestCode
TO_95 = stats.norm.ppf(0.95)
MANY = 64


def sample(shown=1.040, **more):
    return GravitySample(shown, **{"sample_c": 20.0, **more})


def brews(asked, beliefs, many=MANY):
    return drawn(asked, beliefs, corrected_samples(asked, beliefs), many)


def density(read, there, eye):
    """Return the density of a level's logarithm, one in a hundred misread over 1.4 of it."""
    return 0.99 * stats.norm.pdf(log(read), there, eye) + 0.01 / 1.4


# Levels and water.
def test_a_level_speaks_for_the_litres_that_it_was_filled_to(kit):
    asked = replace(Asked((sample(),)), mark_l=21.0)
    found = brews(asked, kit)
    eye = hypot(0.15 / TO_95 / 21.0, 0.01)
    as_planned = density(21.0, log(20.0), eye)
    assert of_volumes(asked, kit, found, at_work((), found)) == pytest.approx(as_planned)
    work = at_work((C.VOLUME,), found)
    wanted = 0.25 * as_planned + 0.75 * density(21.0, log(20.0) + found.volume.of, eye)
    assert of_volumes(asked, kit, found, work) == pytest.approx(wanted)
    holds = replace(kit, marks_hold=1.05)
    by_truth = density(21.0 * 1.05, log(20.0), hypot(0.15 / TO_95 / 22.05, 0.01))
    assert of_volumes(asked, holds, found, at_work((), found)) == pytest.approx(by_truth)


def test_without_a_top_up_the_mark_itself_may_be_off(kit):
    full = replace(kit, top_up_share=0.0)
    asked = replace(Asked((sample(),)), mark_l=21.0, pot_l=20.5)
    found = brews(asked, full)
    eye = sqrt((0.15 / TO_95 / 21.0) ** 2 + (0.04 / TO_95) ** 2 + 0.01**2)
    by_mark = density(21.0, np.log(found.batch_l), eye)
    in_pot = density(20.5, np.log(found.pot_l), hypot(0.04 / TO_95, 0.01))
    work = at_work((), found)
    assert of_volumes(asked, full, found, work) == pytest.approx(by_mark * in_pot)


def test_weighed_litres_are_as_good_as_the_scale(kit):
    asked = replace(Asked((sample(),)), answers=(Answer(T.WEIGH, value=21.0),))
    found = brews(asked, kit)
    wanted = density(21.0, np.log(found.batch_l), hypot(0.2 / TO_95 / 21.0, 0.001))
    assert of_volumes(asked, kit, found, at_work((), found)) == pytest.approx(wanted)
    none = replace(asked, answers=(Answer(T.WEIGH, changed=True), Answer(T.WEIGH, value=0.0)))
    assert of_volumes(none, kit, found, at_work((), found)) == 1.0


def test_what_it_shows_in_water_is_what_it_is_off(kit):
    asked = replace(Asked((sample(),)), answers=(Answer(T.WATER_CHECK, value=0.997),))
    found = brews(asked, kit)
    for causes, beyond in (((), 0.0), ((C.HYDROMETER,), found.hydrometer.of)):
        there = 0.7 * found.off + beyond
        wanted = 0.99 * stats.norm.pdf(-3.0, there, 0.5) + 0.01 / 40.0
        assert of_water(asked, 0.7, found, at_work(causes, found)) == pytest.approx(wanted)


def test_answers_count_once_by_what_such_a_test_finds(kit):
    def of(causes, *answers, later=()):
        return of_answers(Asked((sample(), *later), answers=answers), causes)

    assert of((C.NOT_MIXED,), Answer(T.STIR, True)) == pytest.approx(0.90)
    assert of((), Answer(T.STIR, True), Answer(T.COOL, False)) == pytest.approx(0.05 * 0.97)
    assert of((C.NOT_MIXED,), Answer(T.TOP_AND_BOTTOM, value=-2.1)) == pytest.approx(0.90)
    assert of((C.NOT_MIXED,), Answer(T.TOP_AND_BOTTOM, value=1.9)) == pytest.approx(0.10)
    assert of((C.VOLUME,), Answer(T.WEIGH, value=21.0)) == 1.0
    again = sample(stirred=Stirred.HARD)
    assert of((), Answer(T.STIR, True), later=(again,)) == 1.0


@pytest.mark.parametrize(
    ("answer", "found"),
    [
        (Answer(T.WEIGH, value=21.0), None),
        (Answer(T.WEIGH, changed=True), True),
        (Answer(T.WATER_CHECK, changed=True, value=1.0), None),
        (Answer(T.TOP_AND_BOTTOM, value=2.0), False),
        (Answer(T.TOP_AND_BOTTOM, value=2.1), True),
        (Answer(T.TOP_AND_BOTTOM, changed=False, value=9.0), False),
        (Answer(T.STIR), None),
        (Answer(T.STIR, value=3.0), None),
        (Answer(T.SETTLE, changed=False), False),
    ],
)
def test_what_an_answer_found(answer, found):
    assert finding(answer) is found


def test_a_later_sample_tells_what_stirring_and_cooling_did():
    def told(code, **later):
        both = Asked((sample(sample_c=None), sample(**later)))
        return is_told_by_sample(Answer(code, True), both)

    assert told(T.STIR, stirred=Stirred.HARD)
    assert told(T.STIR, stirred=Stirred.POURED)
    assert not told(T.STIR, stirred=Stirred.LITTLE)
    assert told(T.COOL)
    assert not told(T.COOL, sample_c=None)
    assert not told(T.WAIT, stirred=Stirred.HARD)
    assert not is_told_by_sample(Answer(T.COOL, True), Asked((sample(),)))


# How often a cause is at work.
def chance(code, kit, *samples):
    asked = Asked(samples or (sample(),))
    return chances(asked, kit, corrected_samples(asked, kit))[code]


@pytest.mark.parametrize(
    ("stirred", "of_100"),
    [
        (Stirred.NO, 24.0),
        (Stirred.LITTLE, 12.0),
        (Stirred.UNKNOWN, 18.0),
        (Stirred.HARD, 1.8),
        (Stirred.POURED, 0.6),
    ],
)
def test_layers_are_as_often_as_it_was_stirred(kit, stirred, of_100):
    assert 100.0 * chance(C.NOT_MIXED, kit, sample(stirred=stirred)) == pytest.approx(of_100)


def test_layers_need_a_top_up_and_no_fermentation(kit):
    stirred = {"stirred": Stirred.LITTLE}
    assert chance(C.NOT_MIXED, replace(kit, top_up_share=0.0), sample(**stirred)) == 0.0
    little = replace(kit, top_up_share=0.19)
    assert chance(C.NOT_MIXED, little, sample(**stirred)) == pytest.approx(0.012)
    enough = replace(kit, top_up_share=0.21)
    assert chance(C.NOT_MIXED, enough, sample(**stirred)) == pytest.approx(0.12)
    assert chance(C.NOT_MIXED, kit, sample(taken=Taken.POT)) == 0.0
    for hours, wanted in ((11.0, 0.12), (12.0, 0.012), (30.0, 0.012), (None, 0.12)):
        beer = sample(taken=Taken.FERMENTING, hours=hours, **stirred)
        assert chance(C.NOT_MIXED, kit, beer) == pytest.approx(wanted)
    first = sample(stirred=Stirred.NO), sample(stirred=Stirred.HARD)
    assert chance(C.NOT_MIXED, kit, *first) == pytest.approx(0.24)


def test_a_sample_whose_warmth_was_taken_is_seldom_of_another(kit):
    def warm(*taken_c):
        return 100.0 * chance(C.SAMPLE_TEMPERATURE, kit, *(sample(sample_c=c) for c in taken_c))

    assert warm(None) == pytest.approx(4.5)
    assert warm(20.0, None) == pytest.approx(4.5)
    assert warm(30.0) == pytest.approx(4.5 * 0.05)
    assert warm(31.0) == pytest.approx(4.5 * 0.4)
    assert warm(20.0, 35.0) == pytest.approx(4.5 * 0.4)


def test_what_cannot_be_at_work_is_not(kit):
    by_drop = sample(10.0, scale=Scale.BRIX, by=By.REFRACTOMETER)
    for code in (C.BUBBLES, C.SAMPLE_TEMPERATURE):
        assert chance(code, kit, by_drop) == 0.0
        assert chance(code, kit, by_drop, sample()) > 0.0
    bare = replace(kit, lines=())
    assert chance(C.MISSING_EXTRACT, bare) == chance(C.MISWEIGHED, bare) == 0.0
    assert chance(C.MISSING_EXTRACT, kit) == pytest.approx(0.023)
    assert chance(C.MISWEIGHED, kit) == pytest.approx(0.032)
    assert chance(C.HYDROMETER, kit) == pytest.approx(0.05)
    assert chance(C.HYDROMETER, kit, sample(in_water=1.0)) == pytest.approx(0.0025)
    assert chance(C.HYDROMETER, replace(kit, in_water=1.001)) == pytest.approx(0.0025)


@pytest.mark.parametrize(
    ("hours", "wanted"),
    [(None, 0.9), (3.0, 0.004), (6.0, 0.004), (15.0, 0.5), (23.0, 17.0 / 18.0), (99.0, 0.98)],
)
def test_beer_ferments_as_surely_as_hours_are_past(kit, hours, wanted):
    beer = sample(taken=Taken.FERMENTING, hours=hours)
    assert chance(C.FERMENTING, kit, beer) == pytest.approx(wanted)
    assert chance(C.FERMENTING, kit, sample()) == pytest.approx(0.004)


def test_pairs_are_as_often_as_by_chance_or_somewhat_less(kit):
    asked = Asked((sample(sample_c=None),))
    corrected = corrected_samples(asked, kit)
    found = {each.causes: each.prior for each in hypotheses(asked, kit, corrected)}
    assert sum(found.values()) == pytest.approx(1.0)
    odds = {c: p / (1.0 - p) for c, p in chances(asked, kit, corrected).items()}
    nothing = found[()]
    assert found[C.VOLUME,] / nothing == pytest.approx(odds[C.VOLUME])
    pair = odds[C.VOLUME] * odds[C.BUBBLES]
    assert found[C.VOLUME, C.BUBBLES] / nothing == pytest.approx(0.8 * pair)
    warm = odds[C.NOT_MIXED] * odds[C.SAMPLE_TEMPERATURE]
    assert found[C.NOT_MIXED, C.SAMPLE_TEMPERATURE] / nothing == pytest.approx(2.0 * warm)
    assert not [each for each in found if len(each) > 1 and C.OTHER in each]
    assert len(found) == 1 + 10 + 9 * 8 // 2


# Layers.
def test_wort_is_in_layers_until_it_is_stirred_well():
    def ways(*stirred):
        return [tuple(e) for e in ways_layered([sample(stirred=each) for each in stirred])]

    assert ways(Stirred.NO) == [(1, 1.0)]
    assert ways(Stirred.NO, Stirred.NO) == [(2, 1.0)]
    assert dict(ways(Stirred.NO, Stirred.HARD)) == pytest.approx({1: 0.9, 2: 0.1})
    thrice = ways(Stirred.NO, Stirred.LITTLE, Stirred.POURED)
    assert dict(thrice) == pytest.approx({1: 0.5, 2: 0.5 * 0.95, 3: 0.5 * 0.05})
    assert sum(each for _, each in thrice) == pytest.approx(1.0)


def test_samples_of_one_place_are_of_one_layer_unless_stirred_a_little():
    top, tap = sample(drawn=Drawn.TOP), sample(drawn=Drawn.TAP)
    stirred = replace(top, stirred=Stirred.LITTLE)
    hard = replace(top, stirred=Stirred.HARD)
    groups = [each.samples for each in same_layers([top, hard, tap, stirred, top])]
    assert groups == [(0, 1), (2,), (3, 4)]
    assert [each.samples for each in same_layers([top, stirred])] == [(0,), (1,)]


def test_a_layer_lies_on_the_way_to_water_or_to_the_wort_of_the_pot():
    assert layer_points(0.5, True, 46.0, 100.0) == -23.0
    assert layer_points(0.5, False, 46.0, 100.0) == 27.0


# What a sample says.
def test_a_hydrometer_is_off_by_its_trust_and_the_eye(kit):
    (plain,) = corrected_samples(Asked((sample(1.046),)), kit)
    assert plain.points == pytest.approx(46.0, abs=0.05)
    assert plain.by_warmth == pytest.approx(0.0, abs=1e-9)
    assert plain.own == pytest.approx(hypot(1.0, 0.5) / TO_95)
    assert plain.shared == pytest.approx(sqrt(4.0 - 1.0) / TO_95)
    assert not plain.checked
    (checked,) = corrected_samples(Asked((sample(1.046, in_water=0.998),)), kit)
    assert checked.points == pytest.approx(48.0, abs=0.05)
    assert checked.own == pytest.approx(hypot(sqrt(0.5), 0.5) / TO_95)
    assert checked.shared == pytest.approx(sqrt(0.5) / TO_95)
    both = Asked((sample(1.046, in_water=1.002), sample(1.045)))
    assert corrected_samples(both, kit)[1].points == pytest.approx(43.0, abs=0.05)
    known = replace(kit, in_water=1.001)
    assert corrected_samples(Asked((sample(1.046),)), known)[0].points == pytest.approx(
        45, abs=0.05
    )


def test_warmth_is_added_and_above_forty_degrees_less_sure(kit):
    # Tables printed with hydrometers (from memory): +0.002 at 30 °C, +0.007 at 45 °C.
    warm, hot = (
        corrected_samples(Asked((sample(1.046, sample_c=each),)), kit)[0] for each in (30.0, 45.0)
    )
    assert warm.by_warmth == pytest.approx(2.4, abs=0.6)
    assert warm.points == pytest.approx(46.0 + warm.by_warmth, abs=0.1)
    assert not warm.is_hot
    assert warm.own == pytest.approx(hypot(1.0, 0.5) / TO_95)
    assert hot.by_warmth == pytest.approx(7.5, abs=1.5)
    assert hot.is_hot
    assert hot.own == pytest.approx(hypot(hypot(1.0, 0.5) / TO_95, 0.3 * hot.by_warmth))
    by_c = np.array([0.0, 10.0, 25.0, -10.0])
    (plain,) = corrected_samples(Asked((sample(1.046),)), kit)
    short = plain.too_low_if_warmer(by_c)
    assert short[:3] == pytest.approx([0.0, warm.by_warmth, hot.by_warmth], abs=0.15)
    assert short[3] < -0.5
    assert plain.too_low_if_warmer(np.array([70.0])) == plain.too_low_if_warmer(np.array([40.0]))


def test_a_refractometer_is_off_by_its_factor_and_cares_for_no_warmth(kit):
    (drop,) = corrected_samples(
        Asked((sample(11.8, scale=Scale.BRIX, by=By.REFRACTOMETER, sample_c=35.0),)), kit
    )
    points = 1000.0 * (gravity_from_plato(11.8 / 1.04) - 1.0)
    assert drop.points == pytest.approx(points)
    assert drop.own == pytest.approx(hypot(0.8, 0.5) / TO_95)
    assert drop.shared == pytest.approx(0.03 * points / TO_95)
    assert (drop.too_low_if_warmer(np.array([10.0])) == 0.0).all()
    in_sg = sample(gravity_from_plato(11.8), by=By.REFRACTOMETER)
    assert corrected_samples(Asked((in_sg,)), kit)[0].points == pytest.approx(points, abs=1e-3)
    own = sample(11.8, scale=Scale.BRIX, by=By.REFRACTOMETER, correction=1.0)
    assert corrected_samples(Asked((own,)), kit)[0].points == pytest.approx(
        1000.0 * (gravity_from_plato(11.8) - 1.0)
    )


def test_a_refractometer_in_beer_goes_by_terrills_fit(kit):
    beer = sample(6.5, scale=Scale.BRIX, by=By.REFRACTOMETER, taken=Taken.FERMENTING)
    (found,) = corrected_samples(Asked((beer,)), kit)
    first = plato_from_gravity(kit.expected.value)
    gravity = 1.0 - 0.00085683 * first + 0.0034941 * 6.5 / 1.04
    assert found.points == pytest.approx(1000.0 * (gravity - 1.0), abs=1e-6)
    assert found.own > 2.0 / TO_95
    assert found.shared == 0.0


# What causes make of brews.
def test_more_water_thins_and_extract_left_out_weakens(kit):
    found = brews(Asked((sample(),)), kit)
    plain, more = at_work((), found), at_work((C.VOLUME,), found)
    assert plain.fermenter == pytest.approx(found.points)
    assert more.fermenter * np.exp(found.volume.of) == pytest.approx(found.points)
    assert more.weight == pytest.approx(found.volume.weight)
    gone = at_work((C.MISSING_EXTRACT, C.MISWEIGHED), found)
    factor = found.forgotten.extract_factor * found.misweighed.extract_factor
    assert gone.fermenter == pytest.approx(found.points * factor)
    assert gone.in_pot == pytest.approx(found.pot_points * factor)
    assert gone.weight == pytest.approx(found.forgotten.weight * found.misweighed.weight)
    assert gone.line is found.forgotten
    assert (plain.off == 0.0).all()
    assert at_work((C.HYDROMETER,), found).off == pytest.approx(found.hydrometer.of)


def test_half_a_wort_is_seldom_forgotten_unnoticed(kit):
    found = brews(Asked((sample(),)), kit, 4096).forgotten
    syrup = found.line == 0  # two thirds of the points
    of_all = np.where(syrup, kit.lines[0].points, kit.lines[1].points) / kit.planned_points
    assert found.extract_factor == pytest.approx(np.maximum(1.0 + found.share * of_all, 0.0))
    assert found.share.min() >= -1.0
    whole = np.abs(found.share) > 0.9
    weights = {e: found.weight[whole & (syrup == e)].mean() for e in (True, False)}
    assert weights[True] == pytest.approx(0.05 * weights[False], rel=0.2)


def test_less_wort_in_the_pot_holds_the_same_extract(kit):
    asked = replace(Asked((sample(),)), pot_l=8.0)
    plain, told = brews(Asked((sample(),)), kit, 2048), brews(asked, kit, 2048)
    assert told.pot_l * told.pot_points == pytest.approx(plain.pot_l * plain.pot_points)
    assert np.median(told.pot_l) == pytest.approx(8.0, rel=0.01)
    assert np.log(told.pot_l).std() == pytest.approx(0.04 / TO_95, rel=0.03)
    assert told.is_topped_up
    assert not told.read_before_topping_up
    in_pot = brews(Asked((sample(taken=Taken.POT),)), kit)
    assert in_pot.read_before_topping_up
    assert not in_pot.is_topped_up


def test_beer_has_fallen_by_its_hours(kit):
    def most(hours):
        beer = sample(taken=Taken.FERMENTING, hours=hours)
        return -brews(Asked((beer,)), kit, 4096).fallen.of.min()

    assert most(30.0) == pytest.approx(0.5, rel=1e-3)
    assert most(54.0) == pytest.approx(1.0, rel=1e-3)
    assert most(200.0) == pytest.approx(1.0, rel=1e-3)
    assert most(2.0) == pytest.approx(0.02, rel=1e-3)
    assert most(None) == pytest.approx(1.0, rel=1e-3)
    unpitched = brews(Asked((sample(),)), kit, 4096).fallen
    assert (unpitched.of * unpitched.weight).mean() == pytest.approx(1.0 + 3.0, rel=0.02)


# The sizes that are declared: what their comments say of them, reckoned.
def share_of(parts, counts):
    even = (np.arange(200_000) + 0.5) / 200_000
    total = 0.0
    for each in parts:
        total += each.share * float(np.mean(counts(each.spread.at(even))))
    return total


def test_sizes_are_as_often_as_they_are_said_to_be():
    off = share_of(priors.HYDROMETER_OFF, lambda points: np.abs(points) >= 2.6)
    assert off == pytest.approx(1.0 / 3.0, abs=0.01)
    assert share_of(priors.HYDROMETER_OFF, lambda points: points < 0.0) == pytest.approx(0.5)
    assert share_of(priors.HYDROMETER_OFF, lambda points: np.abs(points) < 1.5) == 0.0
    assert share_of(priors.VOLUME_LOG, lambda log_: np.abs(log_) < 0.04) == 0.0
    assert share_of(priors.VOLUME_LOG, lambda log_: log_ > 0.0) == pytest.approx(0.55)
    far = share_of(priors.VOLUME_LOG, lambda log_: np.abs(log_) > 0.08)
    assert far == pytest.approx(0.87 * exp(-0.04 / 0.030) + 0.13 * exp(-0.04 / 0.10), rel=1e-4)
    assert share_of(priors.BUBBLES_ON_BULB, lambda points: points < 1.0) == 0.0
    assert share_of(priors.BUBBLES_ON_BULB, lambda points: points < 4.0) == pytest.approx(
        0.95, abs=0.01
    )
    assert share_of(priors.WARM_ABOVE_C, lambda c: c > 4.0) == pytest.approx(0.85)
    assert share_of(priors.WARM_ABOVE_C, lambda c: c) == pytest.approx(
        0.85 * 13.0 - 0.15 * 10.0, rel=1e-3
    )
    assert share_of(priors.WARMER_THAN_TYPED_C, lambda c: c) == pytest.approx(
        0.8 * 12.0 - 0.2 * 8.0, rel=1e-3
    )
    for percentile, layer in ((0.05, 0.00), (0.50, 0.18), (0.95, 0.88)):
        assert percentile**priors.LAYER_POWER == pytest.approx(layer, abs=0.005)


def middles(parts):
    return [each.spread.middle for each in parts if hasattr(each.spread, "middle")]


def test_a_pound_for_half_a_kilogram_and_a_whole_pack_more_or_half_a_one_less():
    pound, half_kilogram, for_dry, for_liquid, twice, half = middles(priors.MISWEIGHED_BY)
    assert pound == pytest.approx(0.45359237 / 0.5 - 1.0, abs=0.001)
    assert half_kilogram == pytest.approx(0.5 / 0.45359237 - 1.0, abs=0.001)
    # Dry for liquid extract: 97 % of solids for 80 %, and back (makers' sheets, from memory).
    assert for_dry == pytest.approx(0.97 / 0.80 - 1.0, abs=0.015)
    assert for_liquid == pytest.approx(0.80 / 0.97 - 1.0, abs=0.015)
    assert (twice, half) == (1.0, -0.5)
    assert middles(priors.FORGOTTEN) == [-1.0, -0.5, 1.0]


def test_most_are_low_where_a_sample_of_the_top_was_layered_and_high_at_the_tap():
    low = priors.LOW_BY_PLACE
    assert low[Drawn.TOP] == pytest.approx(1.0 - low[Drawn.BOTTOM])
    assert low[Drawn.TAP] == low[Drawn.BOTTOM]
    assert {low[each] for each in (Drawn.MIDDLE, Drawn.JAR, Drawn.UNKNOWN)} == {0.5}
    # Of the wrong sign for its place: a fifth as likely as one of which nothing is known.
    assert (1.0 - low[Drawn.TOP]) / 0.5 == pytest.approx(0.2)


def test_of_a_hundred_odd_readings_each_has_a_cause():
    for column in zip(*priors.OF_100_ODD.values(), strict=True):
        assert sum(column) == pytest.approx(100.0, abs=1.0)
    for each in priors.OF_100_ODD.values():
        assert 0.59 * each.of_low + 0.41 * each.of_high == pytest.approx(each.of_all, abs=1.1)
