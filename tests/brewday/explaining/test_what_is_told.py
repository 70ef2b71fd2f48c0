"""What is told of a whole answer: what was expected of that wort, and the causes worth telling."""

import pytest

from designer.brewday.explaining.asked import Asked, GravitySample, Stirred, Taken
from designer.brewday.explaining.beliefs import reads_within
from designer.brewday.explaining.explain import LEAST_TOLD, MOST_TOLD, explained
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.kit import KitStated, beliefs_of_kit
from designer.brewday.measured.advice import _in_pot_kg


@pytest.fixture(scope="module")
def kit():
    return beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0))


def told(kit, gravity, **more):
    sample = GravitySample(gravity, **{"sample_c": 20.0, "stirred": Stirred.HARD, **more})
    return explained(Asked((sample,)), kit, whole=False)


def test_a_sample_of_the_pot_is_held_against_the_wort_of_the_pot(kit):
    of_pot, mixed = told(kit, 1.100, taken=Taken.POT), told(kit, 1.046)
    assert of_pot.expected == kit.expected_in_pot
    assert of_pot.reads == reads_within(kit.expected_in_pot, kit.trusted_sg)
    assert mixed.expected == kit.expected
    assert mixed.reads == (kit.reads_from, kit.reads_to)
    assert mixed.reading_sg_20c == pytest.approx(1.046, abs=1e-4)
    assert mixed.by_warmth == pytest.approx(0.0, abs=1e-6)
    warm = told(kit, 1.046, sample_c=30.0)
    assert warm.reading_sg_20c == pytest.approx(1.046 + warm.by_warmth, abs=2e-4)
    assert 0.0015 < warm.by_warmth < 0.0035  # tables printed with hydrometers (from memory)


def test_causes_that_are_told_are_the_likeliest_and_the_rest_is_one(kit):
    found = told(kit, 1.038)
    *named, rest = found.causes
    assert rest.code is CauseCode.OTHER
    assert len(named) <= MOST_TOLD
    assert all(each.probability >= LEAST_TOLD for each in named)
    assert sum(each.probability for each in found.causes) == pytest.approx(1.0)
    assert [each.probability for each in named] == sorted(
        (each.probability for each in named), reverse=True
    )
    first = next(each for each in found.every if each.code is not CauseCode.OTHER)
    assert named[0] == first


def test_what_nothing_explains_is_told_first(kit):
    assert told(kit, 1.190).causes[0].code is CauseCode.OTHER


def test_ten_litres_of_ten_plato_hold_a_kilogram_of_extract_and_a_little():
    """1.040 is 10 °P by the tables of handbooks: a tenth of about 10.4 kg."""
    assert _in_pot_kg(10.0, 1.040) == pytest.approx(1.04, abs=0.005)
