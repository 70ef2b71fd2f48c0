"""From an odd reading to what lies behind it, the test that tells, and what may be done."""

from dataclasses import replace

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
from designer.brewday.explaining.explain import explained
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit


@pytest.fixture(scope="module")
def kit():
    extract = ExtractStated(1.0), ExtractStated(0.4, "dry extract")
    return beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0, extract))


def sample(shown=1.037, **of):
    return GravitySample(shown, **{"sample_c": 24.0, "drawn": Drawn.TOP, **of})


def asked(shown=1.037, answers=(), **of):
    return Asked((sample(shown, **of),), answers=answers)


@pytest.mark.parametrize(
    ("first", "then", "verdict"), [(1.037, 1.046, "fine"), (1.046, 1.037, "misread")]
)
def test_a_slip_of_the_eye_is_over_once_the_next_reading_is_as_forecast(
    beliefs, porter, first, then, verdict
):
    both = tuple(sample(shown, sample_c=20.0, drawn=Drawn.JAR) for shown in (first, then))
    told = explained(Asked(both), beliefs, porter)
    assert (told.verdict, told.causes[0].code) == (verdict, "misread")


def test_a_low_sample_of_the_top_is_most_likely_not_mixed_and_is_stirred_first(beliefs, porter):
    told = explained(asked(), beliefs, porter)
    assert told.verdict == "not_mixed"
    assert told.title.text == "7 points low, most likely not mixed"
    assert told.test.code is TestCode.STIR
    found, still = told.test.outcomes
    assert found.says.text == "it was not mixed; pitch, nothing to cure."
    assert still.shows.text == "Still 1.038"
    assert still.says.text.startswith("then too much water ")
    assert told.cures[0].code == "stir_and_pitch"
    assert sum(each.probability for each in told.causes) == pytest.approx(1.0)


def test_a_caller_with_a_kit_is_told_the_same(kit):
    told = explained(asked(stirred=Stirred.NO), kit)
    assert told.verdict == "not_mixed"
    assert told.test.code is TestCode.STIR
    adding = [each for each in told.cures if each.code.startswith("add_extract")]
    assert adding
    assert all(each.off.text == "First stir hard and read again." for each in adding)
    assert all(each.edit is None and not each.settings for each in told.cures)


def test_layers_that_are_likelier_than_not_are_stirred_before_anything_is_counted():
    kit = beliefs_of_kit(KitStated(19.0, 1.063, 1.067, 10.7))
    told = explained(asked(1.104, drawn=Drawn.UNKNOWN, stirred=Stirred.LITTLE), kit)
    assert told.causes[0].code == "not_mixed"
    assert told.test.code is TestCode.STIR


def test_what_was_answered_is_not_advised_again_nor_what_cannot_be_done(beliefs, kit):
    seen, answers = [], ()
    now = asked(stirred=Stirred.HARD)
    for _ in range(8):
        test = explained(replace(now, answers=answers), beliefs).test
        if test is None:
            break
        assert test.code not in seen
        seen.append(test.code)
        answers = (*answers, Answer(test.code, changed=False))
    assert len(seen) >= 3
    assert TestCode.STIR not in seen
    pitched = explained(asked(taken=Taken.FERMENTING, hours=20.0, shown=1.030), beliefs)
    assert pitched.test is None or pitched.test.code is not TestCode.STIR
    in_water = explained(asked(stirred=Stirred.HARD, in_water=1.0), beliefs)
    assert in_water.test.code is not TestCode.WATER_CHECK


def test_a_hot_sample_is_cooled_before_all_else(beliefs, porter):
    told = explained(asked(1.030, sample_c=55.0, stirred=Stirred.HARD), beliefs, porter)
    assert told.verdict == "cannot_tell"
    assert told.title.text == "Cool the sample first, then read again"
    assert told.test.code is TestCode.COOL
    assert told.cures == ()


def test_as_forecast_nothing_is_tested_and_the_yeast_is_pitched(beliefs, porter):
    told = explained(asked(1.045, sample_c=20.0, stirred=Stirred.HARD), beliefs, porter)
    assert (told.verdict, told.test) == ("fine", None)
    assert [each.code for each in told.cures] == ["pitch"]


def test_where_nothing_tells_them_apart_nothing_is_cured(beliefs, porter):
    told = explained(asked(stirred=Stirred.HARD), beliefs, porter)
    assert told.verdict == "cannot_tell"
    assert told.cures == ()
    assert told.test is not None


def test_a_refractometer_is_tried_with_a_drop_and_not_floated(beliefs, porter):
    low = sample(9.6, scale=Scale.BRIX, stirred=Stirred.HARD)
    told = explained(Asked((low,)), beliefs, porter)
    off = next(each for each in told.causes if each.code == "hydrometer")
    assert off.title.text == "The refractometer is off"
    assert off.how_to_tell.text == "Put a drop of plain water on it: it should show 0"
    assert told.test.code is not TestCode.WATER_CHECK
    assert not any("hydrometer" in each.code for each in told.cures)
