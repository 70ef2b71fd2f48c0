"""What figures of a beer mean in words.

Strength by the tags of the BJCP Style Guidelines 2021: session to 4 %, standard to 6 %, high to
9 %; colours by the table of the same guidelines (from memory): straw 2-3, yellow 3-4, gold 5-6,
amber 6-9, deep amber 10-14, copper 14-17, brown 17-22, dark brown 22-30, black from 30, opaque from
40 SRM. Bitterness by IBU for each gravity point (Daniels, Designing Great Beers, from memory);
where one word ends is common practice, no source.
"""

import pytest

from designer.brewday.in_words import (
    alcohol_in_words,
    bitterness_in_words,
    colour_in_words,
    said_of,
)


@pytest.mark.parametrize(
    ("abv", "words"),
    [
        (3.9, "a light beer"),
        (4.0, "everyday strength"),
        (5.9, "everyday strength"),
        (6.0, "strong"),
        (8.9, "strong"),
        (9.0, "very strong"),
    ],
)
def test_a_beer_is_as_strong_as_the_tags_of_styles_have_it(abv, words):
    assert alcohol_in_words(abv) == words


@pytest.mark.parametrize(
    ("srm", "words"),
    [
        (2.9, "straw"),
        (3.0, "yellow"),
        (5.5, "gold"),
        (8.0, "amber"),
        (12.0, "deep amber"),
        (16.0, "copper"),
        (20.0, "brown"),
        (29.0, "dark brown"),
        (35.0, "nearly black"),
        (40.0, "black"),
    ],
)
def test_a_colour_has_the_name_of_its_range(srm, words):
    assert colour_in_words(srm) == words


@pytest.mark.parametrize(
    ("ibu", "words"),
    [
        (17.0, "gentle, leaning malty"),
        (17.6, "balanced"),
        (29.0, "balanced"),
        (31.0, "balanced, leaning bitter"),
        (41.0, "firmly bitter"),
        (49.0, "firmly bitter"),
        (51.0, "very bitter"),
    ],
)
def test_a_beer_of_1050_is_as_bitter_as_it_has_bitterness_for_each_point(ibu, words):
    assert bitterness_in_words(ibu, 1.050) == words


def test_the_same_bitterness_is_less_in_a_stronger_beer():
    assert bitterness_in_words(36.0, 1.040) == "firmly bitter"
    assert bitterness_in_words(36.0, 1.100) == "balanced"
    assert bitterness_in_words(3.0, 1.002) == "very bitter"


def test_what_has_next_to_no_malt_is_not_weighed_against_it():
    assert bitterness_in_words(1.0, 1.0009) == "no malt behind it"
    assert bitterness_in_words(0.9, 1.000) == "not bitter"
    assert bitterness_in_words(0.9, 1.0012) == "balanced, leaning bitter"


def test_each_forecast_that_there_are_words_for_is_told_in_them():
    values = {
        "original_gravity": 1.050,
        "final_gravity": 1.012,
        "abv_percent": 5.0,
        "bitterness_ibu": 20.0,
        "colour_srm": 8.0,
    }
    assert said_of(values) == {
        "abv_percent": "everyday strength",
        "bitterness_ibu": "balanced",
        "colour_srm": "amber",
    }
    assert "colour_srm" not in said_of({**values, "colour_srm": 0.0})
    assert said_of({**values, "colour_srm": 0.4})["colour_srm"] == "straw"
