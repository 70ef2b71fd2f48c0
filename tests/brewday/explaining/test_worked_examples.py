"""Readings with published or worked figures: layers, warmth, what a caller told."""

import numpy as np
import pytest

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
from designer.brewday.explaining.corrected import corrected_samples
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.kit import KitStated, beliefs_of_kit
from designer.brewday.explaining.layers import layer_points, same_layers, ways_layered
from designer.brewday.explaining.weighed import weighed

# 1.063 to 1.067 on the box, some 10.7 L boiled for 19 L: 1.115 in the pot.
LAYERED = KitStated(19.0, 1.063, 1.067, 10.7)


def not_mixed(asked):
    return weighed(asked, beliefs_of_kit(LAYERED)).of(CauseCode.NOT_MIXED)


def test_a_worked_case_of_1104_for_1065_is_layers_before_and_still_the_likeliest_after_stirring():
    # Worked by hand from the same frequencies: 1.104 read for 1.065, pot 1.115, stirred for a
    # minute: not mixed 95 %; stirred hard and unchanged, 65 %. Ours has densities instead of
    # rounded multipliers, so within ten points.
    first = Asked((GravitySample(1.104, sample_c=20.0, stirred=Stirred.LITTLE),))
    assert not_mixed(first) == pytest.approx(0.95, abs=0.10)
    unchanged = Asked(first.samples, answers=(Answer(TestCode.STIR, changed=False),))
    assert not_mixed(unchanged) == pytest.approx(0.65, abs=0.10)


@pytest.mark.parametrize(
    ("pot_l", "pot_gravity", "top_up_l", "mixed"),
    [  # computed by volumes; the layers lie between water and the pot's wort
        (10.0, 1.090, 9.0, 1.0474),
        (8.0, 1.080, 11.0, 1.0337),
        (6.0, 1.100, 13.0, 1.0316),
        (12.0, 1.070, 7.0, 1.0442),
        (9.5, 1.084, 9.5, 1.0420),
    ],
)
def test_layers_lie_between_water_and_what_was_in_the_pot(pot_l, pot_gravity, top_up_l, mixed):
    beliefs = beliefs_of_kit(KitStated(pot_l + top_up_l, mixed, mixed, pot_l))
    in_pot = float(np.median(beliefs.pot_points))
    assert in_pot == pytest.approx(1000.0 * (pot_gravity - 1.0), abs=0.3)
    points = beliefs.planned_points
    assert points + layer_points(1.0, True, points, in_pot) == pytest.approx(0.0)
    assert points + layer_points(1.0, False, points, in_pot) == pytest.approx(in_pot)


@pytest.mark.parametrize(
    ("sample_c", "added"),
    [  # computed by density and glass (ISO 1768:1975), 20 °C instrument showing 1.040
        (5.0, -2.2),
        (10.0, -1.8),
        (15.0, -1.0),
        (25.0, 1.3),
        (30.0, 2.7),
        (40.0, 6.3),
    ],
)
def test_warmth_is_added_by_the_density_of_wort(sample_c, added):
    (found,) = corrected(GravitySample(1.040, sample_c=sample_c))
    assert found.by_warmth == pytest.approx(added, abs=0.06)


@pytest.mark.parametrize(
    ("sample_c", "added"),
    [  # Palmer, How to Brew, appendix A: for an instrument of 15 °C, by pure water
        (10.0, -0.6),
        (20.0, 0.9),
        (25.0, 2.1),
        (30.0, 3.5),
        (40.0, 6.9),
    ],
)
def test_the_table_of_a_handbook_agrees_within_what_glass_and_extract_add(sample_c, added):
    (found,) = corrected(GravitySample(1.040, sample_c=sample_c, made_for_c=15.0))
    assert found.by_warmth == pytest.approx(added, abs=0.55)


def corrected(sample):
    return corrected_samples(Asked((sample,)), beliefs_of_kit(LAYERED))


def test_what_it_shows_in_water_is_taken_off():
    (found,) = corrected(GravitySample(1.048, sample_c=20.0, in_water=1.002))
    assert found.points == pytest.approx(46.0, abs=0.01)
    assert found.checked


def test_a_refractometer_tells_wort_by_its_correction_and_beer_by_the_published_fit():
    # 12.5 °Bx by a correction of 1.04 is 1.0485; 6.2 °Bx of it then 1.0105: computed by the linear
    # form of Terrill, Refractometer FG results (2011).
    (wort,) = corrected(GravitySample(12.5, Scale.BRIX))
    assert wort.points == pytest.approx(48.5, abs=0.1)
    beliefs = beliefs_of_kit(KitStated(20.0, 1.0485, 1.0485, 9.0))
    beer = GravitySample(6.2, Scale.BRIX, taken=Taken.FERMENTING, hours=200.0)
    (found,) = corrected_samples(Asked((beer,)), beliefs)
    assert found.points == pytest.approx(10.5, abs=0.1)
    # The three published fits differ by some 3 points there; half of that is in the error.
    assert found.own > 1.2


def test_wort_is_mixed_by_a_hard_stir_nine_times_in_ten():
    first, hard = GravitySample(1.030), GravitySample(1.030, stirred=Stirred.HARD)
    ways = list(ways_layered((first, hard)))
    assert [each.samples for each in ways] == [1, 2]
    assert [each.chance for each in ways] == pytest.approx([0.9, 0.1])


def test_another_place_has_another_layer_and_a_vain_stir_has_the_same():
    top = GravitySample(1.030, drawn=Drawn.TOP)
    hard = GravitySample(1.030, drawn=Drawn.TOP, stirred=Stirred.HARD)
    tap = GravitySample(1.060, drawn=Drawn.TAP)
    assert [each.samples for each in same_layers((top, hard, tap))] == [(0, 1), (2,)]


def test_a_hot_sample_says_little():
    (warm,), (hot,) = (corrected(GravitySample(1.036, sample_c=each)) for each in (39.0, 41.0))
    assert warm.own < 1.0
    assert hot.own > 1.5  # a third of the correction is in doubt
    assert hot.is_hot
    assert not warm.is_hot
