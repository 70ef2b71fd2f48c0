"""What is said of a reading as a whole, and the test that is done first, by explanations as given.

How much likelier a cause has to be, and what each test shows, are judgement told in the modules;
the information of a test in bits is Shannon's (scipy.stats.entropy for it).
"""

from dataclasses import replace

import pytest
from scipy import stats

from designer.brewday.explaining.advised import (
    _forecast_on_scale,
    _says,
    advised_test,
    applies,
    bits,
    test_to_do,
)
from designer.brewday.explaining.asked import (
    Answer,
    Asked,
    GravitySample,
    Scale,
    Stirred,
    Taken,
    TestCode,
)
from designer.brewday.explaining.explained import CauseCode, Verdict
from designer.brewday.explaining.judged import is_one_wort, is_over, leads, verdict_of
from designer.brewday.explaining.kit import ExtractStated, KitStated, beliefs_of_kit
from designer.brewday.explaining.posterior import Posterior, Weighed
from designer.brewday.explaining.test_likelihoods import TESTS, likelihood
from designer.brewday.explaining.verdicts import (
    gravity_read,
    off_words,
    something_else,
    title_of,
    words_of,
)
from designer.brewday.measured.readings import By
from designer.wort.density import gravity_from_plato, plato_from_gravity

C, T = CauseCode, TestCode
BATCH_L = 20.0


@pytest.fixture(scope="module")
def kit():
    return beliefs_of_kit(KitStated(BATCH_L, 1.044, 1.048, 9.0, bitterness_ibu=30.0))


@pytest.fixture(scope="module")
def told_kit():
    return beliefs_of_kit(KitStated(BATCH_L, 1.044, 1.048, 9.0, (ExtractStated(3.0),)))


def part(probability, *causes, points=46.0, **more):
    return Weighed(causes, probability, points, **more)


def posterior(*parts, read=40.0, expected=46.0, **more):
    return Posterior(tuple(parts), read, 0.0, expected, **more)


def asked(**sample):
    return Asked((GravitySample(1.040, **{"sample_c": 20.0, **sample}),))


@pytest.mark.parametrize(
    ("parts", "does"),
    [
        ([part(0.5, C.VOLUME), part(0.3, C.NOT_MIXED), part(0.2)], True),
        ([part(0.5, C.VOLUME), part(0.4, C.NOT_MIXED), part(0.1)], False),
        ([part(0.45, C.VOLUME), part(0.4, C.VOLUME, C.BUBBLES), part(0.15)], True),
        ([part(0.45, C.VOLUME), part(0.4, C.BUBBLES, C.VOLUME), part(0.15)], True),
        ([part(0.24, C.VOLUME), part(0.1, C.BUBBLES)], False),
        ([part(0.31, C.VOLUME), part(0.2, C.BUBBLES)], True),
        ([part(0.61), part(0.39, C.VOLUME)], True),
        ([part(0.59), part(0.41, C.VOLUME)], False),
        ([part(1.0, C.OTHER)], True),
    ],
)
def test_a_cause_leads_that_is_half_as_likely_again_as_any_without_it(parts, does):
    assert leads(posterior(*parts)) is does


def test_wort_is_the_same_whichever_way_its_extract_went_astray():
    missing = part(0.45, C.MISSING_EXTRACT, points=40.0)
    alike = part(0.4, C.MISWEIGHED, points=41.0)
    assert is_one_wort(posterior(missing, alike, part(0.15, C.VOLUME)))
    assert not is_one_wort(posterior(missing, replace(alike, points=42.0), part(0.15, C.VOLUME)))
    assert not is_one_wort(posterior(part(0.45, C.VOLUME, points=40.0), alike, missing))
    assert not is_one_wort(posterior(missing, replace(alike, probability=0.3), part(0.25)))


@pytest.mark.parametrize(
    ("one", "over"),
    [
        (part(1.0), True),
        (part(1.0, C.VOLUME), False),
        (part(1.0, C.NOT_MIXED, layered_now=0.1), True),
        (part(1.0, C.NOT_MIXED, layered_now=0.3), False),
        (part(1.0, C.MISREAD, slipped_now=0.1), True),
        (part(1.0, C.BUBBLES, slipped_now=0.3), False),
        (part(1.0, C.SAMPLE_TEMPERATURE, warmth=0.0), True),
        (part(1.0, C.SAMPLE_TEMPERATURE, warmth=-2.0), False),
        (part(1.0, C.NOT_MIXED, C.VOLUME, layered_now=0.1), False),
        (part(1.0, C.VOLUME, slipped_now=0.0, layered_now=0.0), False),
    ],
)
def test_what_was_wrong_with_an_earlier_sample_is_over(one, over):
    assert is_over(one) is over


def test_a_verdict_is_fine_a_cause_none_or_beyond_all(kit):
    def of(*parts, read=40.0, taken=Taken.TOPPED_UP):
        return verdict_of(posterior(*parts, read=read), kit, taken)

    high, low = 1000.0 * (kit.reads_to - 1.0), 1000.0 * (kit.reads_from - 1.0)
    nothing = part(0.9), part(0.1, C.VOLUME)
    for read in (46.0, high + 0.4, low - 0.4):
        assert of(*nothing, read=read) == Verdict.FINE
    assert of(*nothing, read=high + 0.6) == C.NOTHING_WRONG
    assert of(*nothing, read=low - 0.6) == C.NOTHING_WRONG
    assert of(part(0.9, C.OTHER)) == Verdict.BEYOND
    assert of(part(0.3, C.OTHER), part(0.29, C.VOLUME)) == Verdict.CANNOT_TELL
    assert of(part(0.5, C.VOLUME), part(0.45, C.BUBBLES)) == Verdict.CANNOT_TELL
    assert of(part(0.7, C.VOLUME), part(0.2, C.BUBBLES)) == C.VOLUME
    in_pot = 1000.0 * (kit.expected_in_pot.value - 1.0)
    assert of(*nothing, read=in_pot, taken=Taken.POT) == Verdict.FINE
    assert of(*nothing, read=46.0, taken=Taken.POT) == C.NOTHING_WRONG


@pytest.mark.parametrize(
    ("read", "words"),
    [
        (46.4, "As forecast"),
        (45.6, "As forecast"),
        (45.4, "1 point low"),
        (46.6, "1 point high"),
        (38.2, "8 points low"),
        (58.0, "12 points high"),
    ],
)
def test_how_far_off_is_told_in_whole_points(read, words):
    assert off_words(posterior(part(1.0), read=read)).text == words


def test_titles_tell_how_sure_it_is_and_what_to_do_where_nothing_is(kit):
    def title(verdict, probability=0.6, **more):
        return title_of(verdict, posterior(part(probability, C.BUBBLES), **more)).text

    assert title(C.BUBBLES) == "6 points low, most likely bubbles on the hydrometer"
    assert title(C.BUBBLES, 0.8).split(", ")[1].startswith("very likely")
    assert title(C.BUBBLES, 0.95).split(", ")[1].startswith("almost certainly")
    assert title(C.BUBBLES, too_hot=True) == "Cool the sample first, then read again"
    assert title(Verdict.FINE) == "Fine: as forecast"
    assert title(Verdict.CANNOT_TELL).startswith("Cannot tell yet")
    assert title(Verdict.BEYOND).startswith("No cause explains this")


def test_words_tell_what_it_reads_and_what_to_do(kit):
    def words(verdict, *parts, taken=Taken.TOPPED_UP, **more):
        found = posterior(*(parts or (part(0.9, C.VOLUME),)), **more)
        return words_of(verdict, found, asked(taken=taken), kit).text

    assert "Above 40 °C no table" in words(C.VOLUME, too_hot=True)
    for taken, fine in (
        (Taken.POT, "Go on: there is nothing to cure."),
        (Taken.FERMENTING, "Leave it to the yeast."),
        (Taken.TOPPED_UP, "Pitch the yeast: there is nothing to cure."),
    ):
        assert words(Verdict.FINE, taken=taken) == fine
    assert words(Verdict.CANNOT_TELL).startswith("Add nothing yet.")
    either = part(0.5, C.MISSING_EXTRACT), part(0.4, C.MISWEIGHED)
    assert words(Verdict.CANNOT_TELL, *either).startswith("Forgotten or weighed wrong")
    assert words(Verdict.BEYOND, read=-20.0).startswith("It reads 0.98")
    assert words(Verdict.BEYOND).startswith("It reads 1.040 at 20 °C, far from")
    told = words(C.VOLUME)
    assert told.startswith("It reads 1.040 at 20 °C; the forecast is 1.04")
    assert gravity_read(posterior(part(1.0))) == pytest.approx(1.040)


def test_all_others_are_told_as_one_by_their_mean(kit):
    others = part(0.1, C.VOLUME, points=40.0, volume_factor=1.2), part(0.3, C.BUBBLES, points=48.0)
    found = something_else(others, 0.4, kit)
    assert found.original_gravity == pytest.approx(1.046)
    assert found.probability == 0.4
    assert found.bitterness_ibu == pytest.approx((0.1 * 30.0 / 1.2 + 0.3 * 30.0) / 0.4)
    assert found.title.text == "Something else, or several of these"
    assert something_else(others, 0.4, kit, named=False).title.text == "Something else"
    untold = replace(kit, bitterness_ibu=None)
    assert something_else(others, 0.4, untold).bitterness_ibu is None


# The information of tests.
def test_bits_are_what_a_result_takes_from_the_doubt():
    parts = [part(0.3, C.NOT_MIXED), part(0.2, C.VOLUME), part(0.1)]
    shares = [0.5, 1 / 3, 1 / 6]
    chance = 0.5 * 0.90 + 0.5 * 0.05
    if_found = [0.5 * 0.90, 0.05 / 3, 0.05 / 6]
    if_not = [0.5 * 0.10, 0.95 / 3, 0.95 / 6]
    left = chance * stats.entropy(if_found, base=2) + (1 - chance) * stats.entropy(if_not, base=2)
    assert bits(T.STIR, parts) == pytest.approx(stats.entropy(shares, base=2) - left)
    assert bits(T.STIR, [part(0.0, C.NOT_MIXED)]) == 0.0
    assert bits(T.STIR, [part(0.5, C.NOT_MIXED)]) == pytest.approx(0.0)


def test_a_test_finds_mostly_what_it_proves():
    for code, odds in TESTS.items():
        (proved, *_) = odds.proves
        found, anyway = (likelihood(code, True, each) for each in ([proved], [C.OTHER]))
        assert found > 3.0 * anyway
        assert likelihood(code, False, [proved]) == pytest.approx(1.0 - found)
        assert likelihood(code, True, [C.OTHER, proved]) == found


def can(code, kit, question):
    return applies(code, question, kit)


def test_wort_that_was_not_stirred_well_is_stirred_and_other_wort_read_at_both_ends(kit):
    for stirred in Stirred:
        well = stirred in (Stirred.HARD, Stirred.POURED)
        question = asked(stirred=stirred)
        assert can(T.STIR, kit, question) is not well
        assert can(T.TOP_AND_BOTTOM, kit, question) is well
    for taken in (Taken.POT, Taken.FERMENTING):
        assert not can(T.STIR, kit, asked(taken=taken))
        assert not can(T.TOP_AND_BOTTOM, kit, asked(taken=taken, stirred=Stirred.HARD))
    full = replace(kit, top_up_share=0.0)
    assert not can(T.STIR, full, asked())


def test_a_drop_needs_no_cooling_and_no_plain_water_in_a_jar(kit):
    by_drop = asked(scale=Scale.BRIX, by=By.REFRACTOMETER)
    for code in (T.COOL, T.SETTLE, T.WATER_CHECK):
        assert can(code, kit, asked())
        assert not can(code, kit, by_drop)
    assert not can(T.WATER_CHECK, replace(kit, in_water=1.001), asked())
    assert not can(T.WATER_CHECK, kit, asked(in_water=1.0))


def test_a_level_is_read_once_in_the_pot_and_beer_alone_ferments(kit):
    assert can(T.WEIGH, kit, asked(taken=Taken.POT))
    assert not can(T.WEIGH, kit, replace(asked(taken=Taken.POT), pot_l=9.0))
    assert can(T.WEIGH, kit, replace(asked(), pot_l=9.0))
    assert can(T.WAIT, kit, asked())
    assert not can(T.WAIT, kit, asked(taken=Taken.POT))


def test_no_test_is_done_twice(kit):
    for code in T:
        again = replace(asked(), answers=(Answer(code, False),))
        assert not can(code, kit, again)


def test_a_sum_needs_all_else_known(told_kit):
    answers = tuple(Answer(each, False) for each in (T.STIR, T.COOL, T.WATER_CHECK, T.WEIGH))
    assert can(T.SUM, told_kit, replace(asked(), answers=answers))
    for gone in range(len(answers)):
        some = answers[:gone] + answers[gone + 1 :]
        assert not can(T.SUM, told_kit, replace(asked(), answers=some))
    stirred = replace(asked(stirred=Stirred.HARD), answers=answers[1:])
    assert can(T.SUM, told_kit, stirred)
    grain = replace(told_kit, lines=(replace(told_kit.lines[0], kind="steeping grain"),))
    assert not can(T.SUM, grain, replace(asked(), answers=answers))
    assert not can(T.COUNT_PACKETS, grain, asked())


def test_the_test_to_do_first(kit):
    def first(*parts, question=None, **more):
        return test_to_do(posterior(*parts, **more), question or asked(), kit)

    even = part(0.5, C.VOLUME), part(0.5, C.HYDROMETER)
    assert first(*even, too_hot=True) is T.COOL
    assert first(part(0.5, C.NOT_MIXED), part(0.5, C.VOLUME)) is T.STIR
    assert first(part(0.95, C.VOLUME), part(0.05)) is None
    hot = part(0.95, C.SAMPLE_TEMPERATURE, warmth=-9.0)
    assert first(hot, part(0.05)) is T.COOL
    untaken = asked(sample_c=None)
    warm = part(0.2, C.SAMPLE_TEMPERATURE, warmth=3.0), part(0.8, C.VOLUME)
    assert first(*warm, question=untaken) is T.COOL
    hardly = part(0.1, C.SAMPLE_TEMPERATURE, warmth=3.0), part(0.5, C.VOLUME), part(0.4, C.BUBBLES)
    assert first(*hardly, question=untaken) is not T.COOL
    in_pot = asked(sample_c=None, taken=Taken.POT)
    assert first(*even, question=in_pot) is T.COOL
    # Most bits a minute: weighing takes five minutes, water two.
    weigh, water = (bits(each, even) for each in (T.WEIGH, T.WATER_CHECK))
    wanted = T.WEIGH if weigh / 5.0 > water / 2.0 else T.WATER_CHECK
    stirred = asked(stirred=Stirred.POURED)
    assert first(*even, question=stirred) is wanted
    answered = tuple(Answer(each, False) for each in T if each is not T.WAIT)
    assert first(*even, question=replace(stirred, answers=answered)) is None


def test_nothing_is_advised_where_all_is_fine_but_to_cool_what_is_too_hot(kit):
    fine = posterior(part(0.9), part(0.1, C.VOLUME))
    assert advised_test(fine, asked(), kit, Verdict.FINE) is None
    hot = posterior(part(0.9), part(0.1, C.VOLUME), too_hot=True)
    found = advised_test(hot, asked(), kit, Verdict.FINE, lambda *_: hot)
    assert (found.code, found.minutes, found.outcomes) == (T.COOL, 4.0, ())


def test_what_it_would_show_is_told_on_the_scale_that_was_read(kit):
    off = posterior(part(1.0), read=40.0, expected=46.0)
    assert _forecast_on_scale(off, asked(), kit) == pytest.approx(1.046)
    more = plato_from_gravity(1.046) - plato_from_gravity(1.040)
    by_plato = Asked((GravitySample(10.0, scale=Scale.PLATO, sample_c=20.0),))
    assert _forecast_on_scale(off, by_plato, kit) == pytest.approx(10.0 + more)
    shown = GravitySample(10.4, scale=Scale.BRIX, by=By.REFRACTOMETER, correction=1.04)
    assert _forecast_on_scale(off, Asked((shown,)), kit) == pytest.approx(10.4 + 1.04 * more)
    assert gravity_from_plato(10.0) == pytest.approx(1.040, abs=0.0002)


def test_what_a_result_says_is_its_cause_where_that_is_proved_else_what_is_left():
    def says(code, *parts, finds=True, taken=Taken.TOPPED_UP):
        return _says(code, posterior(*parts), taken, finds=finds).text

    mixed = part(0.8, C.NOT_MIXED), part(0.2, C.VOLUME, volume_factor=1.1)
    assert says(T.STIR, *mixed) == "it was not mixed; pitch, nothing to cure."
    harmless = part(0.8, C.BUBBLES), part(0.2, C.VOLUME)
    assert says(T.SETTLE, *harmless, taken=Taken.POT).endswith("; nothing to cure.")
    level = part(0.8, C.VOLUME, volume_factor=1.1), part(0.2, C.BUBBLES)
    assert says(T.WEIGH, *level) == "it was too much water."
    less_sure = part(0.7, C.NOT_MIXED), part(0.2, C.VOLUME, volume_factor=1.1), part(0.05)
    assert says(T.STIR, *less_sure) == "then not mixed 70 %, too much water 20 %."
    assert says(T.STIR, *mixed, finds=False).startswith("then not mixed 80 %")
    assert says(T.WEIGH, *mixed).startswith("then not mixed 80 %")
    many = [part(0.09, C.VOLUME), part(0.08, C.BUBBLES)]
    assert says(T.STIR, *many, finds=False) == "then too little water 9 %."
    tenth = part(0.7, C.VOLUME), part(0.1, C.BUBBLES)
    assert "10 %" in says(T.STIR, *tenth, finds=False)
