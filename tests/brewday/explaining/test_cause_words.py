"""What a cause is called and what it would be here, by where the sample was taken and its size.

The words are those of the design; which of them is said is common practice, no source.
"""

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import Asked, By, GravitySample, Scale, Taken
from designer.brewday.explaining.beliefs import Brings
from designer.brewday.explaining.cause_words import (
    how_to_tell,
    points_words,
    short_of,
    titled,
    worded,
)
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.how_likely import how_likely
from designer.brewday.explaining.kit import KitStated, beliefs_of_kit
from designer.brewday.explaining.posterior import Weighed

C = CauseCode
SYRUP = Brings(1, "Pale syrup", "liquid extract", 1.5, 40.0)
POWDER = Brings(0, "", "dry extract", 0.4, 13.0)
SUGAR = Brings(2, "White sugar", "sugar", 0.5, 8.0)
UNKNOWN = Brings(3, "Cane juice", "sugar", 0.0, 8.0)


@pytest.fixture(scope="module")
def beliefs():
    kit = beliefs_of_kit(KitStated(20.0, 1.044, 1.048, 9.0))
    return replace(kit, lines=(SYRUP, POWDER, SUGAR, UNKNOWN))


def of(*causes, **sizes):
    return Weighed(causes, 0.5, 40.0, **sizes)


def asked(**of_sample):
    return Asked((GravitySample(1.040, **of_sample),))


def said(part, beliefs, question=None):
    question = question or asked(sample_c=20.0)
    code = part.code
    return (
        titled(code, part, beliefs, question).text,
        worded(code, part, beliefs, question).text,
    )


@pytest.mark.parametrize(
    ("factor", "taken", "title", "words"),
    [
        (
            1.1,
            Taken.TOPPED_UP,
            "More water than the mark",
            "22 L in the fermenter instead of 20 L.",
        ),
        (
            0.9,
            Taken.TOPPED_UP,
            "Less water than the mark",
            "18 L in the fermenter instead of 20 L.",
        ),
        (1.1, Taken.POT, "More wort in the pot", "9.9 L in the pot instead of 9 L."),
        (0.9, Taken.POT, "Less wort in the pot", "8.1 L in the pot instead of 9 L."),
    ],
)
def test_another_volume_is_that_of_the_vessel_the_sample_came_from(
    beliefs, factor, taken, title, words
):
    part = of(C.VOLUME, volume_factor=factor)
    nine = replace(beliefs, pot_l=0.0 * beliefs.pot_l + 9.0)
    assert said(part, nine, asked(taken=taken, sample_c=20.0)) == (title, words)
    assert short_of(part).text == ("too much water" if factor > 1.0 else "too little water")


@pytest.mark.parametrize(
    ("warmer", "typed_c", "title", "words"),
    [
        (15.0, None, "A warm sample", "It would have to be about 35 °C."),
        (-8.0, None, "A cold sample", "It would have to be about 12 °C."),
        (10.0, 24.0, "Sample warmer than 24 °C", "It would have to be about 34 °C."),
        (-6.0, 24.0, "Sample colder than 24 °C", "It would have to be about 18 °C."),
        (70.0, 24.0, "Sample warmer than 24 °C", "It would have to be about 60 °C."),
        (-30.0, 24.0, "Sample colder than 24 °C", "It would have to be about 0 °C."),
    ],
)
def test_warmth_is_told_from_what_was_typed_or_the_instrument_is_made_for(
    beliefs, warmer, typed_c, title, words
):
    part = of(C.SAMPLE_TEMPERATURE, warmer_c=warmer)
    assert said(part, beliefs, asked(sample_c=typed_c)) == (title, words)
    assert short_of(part).text == ("a warm sample" if warmer > 0.0 else "a cold sample")


@pytest.mark.parametrize(
    ("line", "share", "title", "words"),
    [
        (0, -0.1, "Extract left in the tin", "Some 150 g of the Pale syrup never went in."),
        (0, -0.9, "Something forgotten", "The 1.5 kg of Pale syrup never went in."),
        (1, -0.3, "Not all of it went in", "Some 120 g of the dry extract never went in."),
        (1, -1.2, "Something forgotten", "The 400 g of dry extract never went in."),
        (0, 1.1, "Extract in twice", "1.5 kg of Pale syrup went in twice."),
        (0, 0.4, "Extract in twice", "Some 600 g more Pale syrup went in."),
        (2, 1.0, "Sugar in twice", "500 g of White sugar went in twice."),
        (3, 0.3, "Sugar in twice", "More Cane juice went in than was meant."),
        (3, -0.3, "Not all of it went in", "Some of the Cane juice never went in."),
        (None, -0.3, "Not all of it went in", "Some of the extract never went in."),
        (4, -0.3, "Not all of it went in", "Some of the extract never went in."),
    ],
)
def test_extract_that_is_missing_or_too_much_is_named_with_its_mass(
    beliefs, line, share, title, words
):
    part = of(C.MISSING_EXTRACT, line=line, line_share=share)
    heading, sentence = said(part, beliefs)
    assert heading == title
    assert sentence == words
    assert short_of(part).text == ("extract in twice" if share > 0.0 else "extract left out")


def test_what_was_weighed_otherwise_is_told_beside_what_was_meant(beliefs):
    title, words = said(of(C.MISWEIGHED, line=0, line_share=0.2), beliefs)
    assert (title, words) == ("Weighed wrong", "1.8 kg of the Pale syrup instead of 1.5 kg.")
    for line, name, share in ((0, "Pale syrup", 0.001), (3, "Cane juice", 0.4)):
        _, words = said(of(C.MISWEIGHED, line=line, line_share=share), beliefs)
        assert words == f"Another amount of the {name} went in."


@pytest.mark.parametrize(
    ("part", "words"),
    [
        (of(C.NOT_MIXED, layer=-4.0), "Top-up water still floats on the heavier wort."),
        (of(C.NOT_MIXED, layer=4.0), "The heavy wort still lies below the water."),
        (of(C.HYDROMETER, hydrometer=-2.2), "It would show 2 points too little."),
        (of(C.HYDROMETER, hydrometer=2.7), "It would show 3 points too much."),
        (of(C.HYDROMETER, hydrometer=0.6), "It would show 1 point too much."),
        (of(C.BUBBLES, bubbles=1.2), "They lift it by 1 point."),
        (of(C.FERMENTING, fallen=6.0), "6 points are gone already."),
        (of(C.MISREAD, misread=-9.0), "Off by 9 points: the top of the curve, or another scale."),
        (of(), "It lies within what such a brew comes to."),
        (of(C.OTHER), "None of these, or several of them."),
    ],
)
def test_a_cause_is_told_with_its_sign_and_its_size(beliefs, part, words):
    assert said(part, beliefs)[1] == words


def test_points_are_whole_ones_and_at_least_one():
    told = [points_words(each).text for each in (0.0, 0.4, -1.4, 1.6, -12.2)]
    assert told == ["1 point", "1 point", "1 point", "2 points", "12 points"]


def test_a_pair_names_both_and_an_instrument_is_named_as_what_it_is(beliefs):
    pair = of(C.VOLUME, C.BUBBLES, volume_factor=1.1)
    assert short_of(pair).text == "too much water and bubbles on the hydrometer"
    by_drop = GravitySample(11.0, scale=Scale.BRIX, by=By.REFRACTOMETER)
    off = of(C.HYDROMETER, hydrometer=2.0)
    assert said(off, beliefs, Asked((by_drop,)))[0] == "The refractometer is off"
    assert said(off, beliefs)[0] == "The hydrometer is off"
    assert how_to_tell(C.HYDROMETER, by_drop).text.startswith("Put a drop of plain water")
    assert how_to_tell(C.HYDROMETER).text == "Float it in plain water"
    in_pot = GravitySample(1.040, taken=Taken.POT)
    assert how_to_tell(C.VOLUME, in_pot).text == "Read the level in the pot"
    for sample in (None, GravitySample(1.040)):
        assert how_to_tell(C.VOLUME, sample).text == "Read the level, or weigh it"


def test_a_probability_is_said_in_the_words_of_its_scale_from_each_limit_on():
    limits = {
        0.95: "almost certain",
        0.80: "very likely",
        0.55: "likely",
        0.30: "quite possible",
        0.10: "possible",
        0.03: "unlikely",
    }
    below = [*list(limits.values())[1:], "hardly likely"]
    for (limit, words), less in zip(limits.items(), below, strict=True):
        assert how_likely(limit).text == words
        assert how_likely(limit - 0.001).text == less
    assert how_likely(1.0).text == "almost certain"
    assert how_likely(0.0).text == "hardly likely"
