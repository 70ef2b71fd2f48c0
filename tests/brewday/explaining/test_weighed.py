"""How likely each cause lies behind a reading, and what the wort then is."""

from pathlib import Path

import pytest

from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    Drawn,
    GravitySample,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.beliefs import beliefs_of, outlook_to_explain
from designer.brewday.explaining.explained import CauseCode, Verdict
from designer.brewday.explaining.judged import verdict_of
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.weighed import weighed
from designer.brewday.measured.readings import By, Measured, Reading
from designer.library.recipe_file import load

PORTER = Path("resources/examples/harbour_lamp_porter.hobwort")
M, V = CauseCode.NOT_MIXED, CauseCode.VOLUME


@pytest.fixture(scope="module")
def porter():
    return beliefs_of(outlook_to_explain(load(PORTER), ()))


def read(gravity, *later, **known):
    return Asked((GravitySample(gravity, sample_c=20.0, drawn=Drawn.TOP), *later), **known)


def verdict(posterior, beliefs, asked):
    return verdict_of(posterior, beliefs, asked.samples[-1].taken)


def test_a_reading_as_forecast_is_fine(porter):
    asked = read(1.046)
    found = weighed(asked, porter)
    assert found.leading.code is CauseCode.NOTHING_WRONG
    assert verdict(found, porter, asked) == Verdict.FINE


def test_probabilities_make_one_in_a_whole_answer_and_in_a_quick_one(porter):
    for whole in (True, False):
        found = weighed(read(1.038), porter, whole=whole)
        assert sum(each.probability for each in found.parts) == pytest.approx(1.0)


def test_a_weak_reading_at_the_surface_is_most_likely_not_mixed(porter):
    found = weighed(read(1.037), porter)
    assert found.leading.code is M
    assert found.leading.layer < -5.0
    # The wort itself is then as forecast.
    assert found.leading.points == pytest.approx(porter.points.mean(), abs=1.0)


def test_stirred_hard_and_the_same_again_leaves_layers_unlikely(porter):
    once = weighed(read(1.037), porter)
    again = GravitySample(1.037, sample_c=20.0, drawn=Drawn.TOP, stirred=Stirred.HARD)
    twice = weighed(read(1.037, again), porter)
    assert twice.of(M) < once.of(M) / 3.0
    assert twice.layered_now < 0.15


def test_stirred_hard_and_as_forecast_then_is_fine(porter):
    again = GravitySample(1.045, sample_c=20.0, drawn=Drawn.TOP, stirred=Stirred.HARD)
    asked = read(1.037, again)
    found = weighed(asked, porter)
    assert found.leading.code is M
    assert found.layered_now < 0.05
    assert verdict(found, porter, asked) == Verdict.FINE


def test_a_level_far_above_the_mark_is_the_volume(porter):
    found = weighed(read(1.038, mark_l=12.0), porter)
    assert found.leading.code is V
    assert found.leading.volume_factor == pytest.approx(1.2, abs=0.03)
    assert porter.bitterness_of(found.leading.volume_factor) < porter.bitterness_ibu


def test_a_level_at_the_mark_speaks_against_the_volume(porter):
    without = weighed(read(1.038), porter)
    assert weighed(read(1.038, mark_l=10.0), porter).of(V) < without.of(V) / 2.0


def test_an_answer_that_a_later_sample_tells_counts_once(porter):
    again = GravitySample(1.037, sample_c=20.0, drawn=Drawn.TOP, stirred=Stirred.HARD)
    by_sample = weighed(read(1.037, again), porter)
    with_answer = weighed(read(1.037, again, answers=(Answer(TestCode.STIR, False),)), porter)
    assert with_answer.of(M) == pytest.approx(by_sample.of(M))


def test_what_nothing_explains_is_beyond_all_causes(porter):
    asked = read(1.2)
    assert verdict(weighed(asked, porter), porter, asked) == Verdict.BEYOND


def test_a_reading_bears_no_witness_to_itself():
    recipe = load(PORTER)
    read_low = Reading(Measured.ORIGINAL_GRAVITY, 1.030, By.HYDROMETER)
    plain, with_reading = outlook_to_explain(recipe, ()), outlook_to_explain(recipe, (read_low,))
    assert beliefs_of(with_reading).expected == beliefs_of(plain).expected


def test_a_kit_without_a_band_is_reckoned_from_its_extract():
    # 1 kg of syrup at 80 % and 400 g of powder at 96.5 % solids in 10 L: 385.6 points L/kg.
    stated = KitStated(10.0, extract=(ExtractStated(1.0), ExtractStated(0.4, "dry extract")))
    by_hand = 385.6 * (0.8 + 0.4 * 0.965) / 10.0
    assert beliefs_of_kit(stated).planned_points == pytest.approx(by_hand, abs=0.3)


def test_a_kit_of_which_nothing_is_told_is_refused():
    with pytest.raises(ValueError, match="band"):
        beliefs_of_kit(KitStated(20.0))


def test_what_cannot_be_is_answered_too(porter):
    # A slip of typing must not end the page: nothing explains it, and that is said.
    asked = Asked(
        (GravitySample(1.25, sample_c=100.0), GravitySample(0.96)),
        pot_l=100.0,
        mark_l=0.4,
        answers=(Answer(TestCode.WATER_CHECK, value=0.0), Answer(TestCode.WEIGH, value=300.0)),
    )
    for whole in (True, False):
        found = weighed(asked, porter, whole=whole)
        assert sum(each.probability for each in found.parts) == pytest.approx(1.0)
        assert found.leading.code is CauseCode.OTHER


def test_no_sample_is_no_question(porter):
    with pytest.raises(ValueError, match="no reading"):
        weighed(Asked(()), porter)


def test_what_the_hydrometer_shows_in_water_settles_what_it_is_off(porter):
    off = weighed(read(1.040, answers=(Answer(TestCode.WATER_CHECK, value=0.996),)), porter)
    assert off.leading.code is CauseCode.HYDROMETER
    assert off.leading.points == pytest.approx(44.0, abs=0.8)
    right = weighed(read(1.040, answers=(Answer(TestCode.WATER_CHECK, value=1.0),)), porter)
    assert right.of(CauseCode.HYDROMETER) < weighed(read(1.040), porter).of(CauseCode.HYDROMETER)


def test_weighed_litres_settle_the_volume(porter):
    found = weighed(read(1.040, answers=(Answer(TestCode.WEIGH, value=11.3),)), porter)
    assert found.leading.code is V
    assert porter.planned_l * found.leading.volume_factor == pytest.approx(11.3, abs=0.3)


def test_a_packet_that_was_found_is_the_extract(porter):
    low = GravitySample(1.033, sample_c=20.0, stirred=Stirred.HARD)
    found = weighed(Asked((low,), answers=(Answer(TestCode.COUNT_PACKETS, True),)), porter)
    assert found.leading.code is CauseCode.MISSING_EXTRACT
    # 400 g of dry extract bring 13 points: the line that fits.
    assert porter.lines[found.leading.line].name == "Light dry malt extract"


def test_degrees_plato_read_as_points_are_known(porter):
    low = GravitySample(1.0115, sample_c=20.0, stirred=Stirred.HARD)
    assert weighed(Asked((low,)), porter).leading.code is CauseCode.MISREAD


def test_beer_that_ferments_has_fallen_and_is_as_strong_as_it_was(porter):
    low = GravitySample(1.030, sample_c=20.0, taken=Taken.FERMENTING, hours=72.0)
    found = weighed(Asked((low,)), porter)
    assert found.leading.code is CauseCode.FERMENTING
    assert found.leading.points == pytest.approx(porter.points.mean(), abs=1.0)
    fresh = GravitySample(1.030, sample_c=20.0, taken=Taken.FERMENTING, hours=2.0)
    assert weighed(Asked((fresh,)), porter).of(CauseCode.FERMENTING) < 0.05


def test_two_samples_of_one_instrument_are_off_alike(porter):
    # Read three times in mixed wort, each as low: no eye and no bubble explains it.
    stirred = GravitySample(1.041, sample_c=20.0, stirred=Stirred.POURED)
    once, thrice = (weighed(Asked((stirred,) * many), porter) for many in (1, 3))
    assert thrice.of(CauseCode.BUBBLES) <= once.of(CauseCode.BUBBLES) + 0.01
    assert thrice.leading.points == pytest.approx(once.leading.points, abs=0.5)


def test_what_is_said_of_a_line_is_what_that_line_would_have_to_be(porter):
    low = GravitySample(1.037, sample_c=20.0, stirred=Stirred.POURED)
    found = weighed(Asked((low,), answers=(Answer(TestCode.COUNT_PACKETS, True),)), porter)
    part = next(each for each in found.parts if each.causes == (CauseCode.MISSING_EXTRACT,))
    by_line = part.line_share * porter.lines[part.line].points
    assert porter.points.mean() + by_line == pytest.approx(37.5, abs=1.5)


def fermenting(gravity, hours):
    sample = GravitySample(gravity, sample_c=20.0, taken=Taken.FERMENTING, hours=hours)
    return Asked((sample,))


def test_yeast_of_half_a_day_has_not_eaten_a_third_of_the_wort(porter):
    assert weighed(fermenting(1.030, 10.0), porter).alone(CauseCode.FERMENTING) < 0.05
    assert weighed(fermenting(1.044, 10.0), porter).of(CauseCode.FERMENTING) > 0.1


def test_fermentation_mixes_what_lay_in_layers(porter):
    early, later = (weighed(fermenting(1.060, hours), porter).of(M) for hours in (6.0, 24.0))
    assert early > 0.5
    assert later < 0.8 * early


def test_wort_that_was_weak_in_the_pot_already_is_not_for_layers_alone(porter):
    low = GravitySample(1.037, sample_c=20.0, drawn=Drawn.TOP)
    in_pot = porter.expected_in_pot.value

    def of_pot(gravity):
        return GravitySample(gravity, sample_c=20.0, taken=Taken.POT)

    as_meant, weak = (
        weighed(Asked((of_pot(each), low)), porter) for each in (in_pot, in_pot - 0.017)
    )
    assert weak.alone(M) < as_meant.alone(M) / 2.0
    assert weak.points < as_meant.points - 2.0


def test_top_and_bottom_that_differ_are_layers_and_alike_are_none(porter):
    def told(points):
        answer = Answer(TestCode.TOP_AND_BOTTOM, value=points)
        return weighed(read(1.038, answers=(answer,)), porter).of(M)

    without = weighed(read(1.038), porter).of(M)
    assert told(-6.0) > without > told(0.5)
    assert told(6.0) == pytest.approx(told(-6.0))
    assert told(2.5) == pytest.approx(told(6.0))


def test_a_layer_of_the_wrong_sign_for_its_place_is_unlikely(porter):
    top, tap = (
        weighed(Asked((GravitySample(1.037, sample_c=20.0, drawn=each),)), porter).of(M)
        for each in (Drawn.TOP, Drawn.TAP)
    )
    assert tap < top / 3.0


def test_without_a_top_up_there_are_no_layers():
    kit = beliefs_of_kit(KitStated(10.0, 1.044, 1.048, 10.0))
    assert weighed(read(1.037), kit).of(M) == 0.0
    little = beliefs_of_kit(KitStated(10.0, 1.044, 1.048, 8.6))
    much = beliefs_of_kit(KitStated(10.0, 1.044, 1.048, 5.0))
    assert weighed(read(1.037), little).of(M) < 0.5 * weighed(read(1.037), much).of(M)
