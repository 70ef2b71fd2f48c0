"""What is offered while a name is typed."""

import pytest

from designer.library.catalogue import find_fermentable, yeasts
from designer.workbench.flocculation import WORDS, told_of_yeast
from designer.workbench.suggestions import suggest


@pytest.mark.parametrize(
    ("of", "typed", "first"),
    [
        ("hops", "chal", "Challenger"),
        ("hops", "golding east", "East Kent Golding"),
        ("fermentables", "dry light", "Light dry malt extract"),
        ("styles", "english port", "English Porter"),
    ],
)
def test_words_in_any_order_find_a_name(of, typed, first):
    assert suggest(of, typed)[0].text == first


def test_hops_are_found_by_what_they_smell_of():
    assert "Cascade" in [each.text for each in suggest("hops", "grapefruit", most=50)]


def test_letters_left_out_still_find_a_name():
    assert "Challenger" in [each.text for each in suggest("hops", "chlngr")]


def test_nothing_is_offered_for_nothing_but_times_are():
    assert suggest("hops", "") == []
    assert suggest("hop whens", "")[0].text == "first wort"
    assert suggest("hops", "zzzz") == []


def test_a_malt_known_by_its_degrees_is_found_with_and_without_their_sign():
    for typed in ("crystal 60", "crystal 60 l", "crystal 60 °l"):
        assert suggest("fermentables", typed)[0].text == "Crystal malt 60 °L"
    for name in ("Crystal malt 60 L", "crystal malt 60 °L"):
        assert find_fermentable(name).name == "Crystal malt 60 °L"


def test_a_yeast_is_offered_with_how_it_flocculates():
    beside = {each.text: each.beside for each in suggest("yeasts", "ale", most=50)}
    assert beside["English ale, flocculent"].endswith("flocculates well, clears early")
    assert beside["Belgian wit ale"].endswith("flocculates little to moderately")


def test_every_grade_of_flocculation_in_the_catalogue_has_words():
    assert {each.flocculation for each in yeasts()} == set(WORDS)


def test_a_yeast_that_is_read_about_tells_how_it_flocculates_and_another_only_its_source():
    assert told_of_yeast("German wheat beer ale", "dry").startswith(
        "Flocculates little, clears slowly. Figures of the catalogue"
    )
    assert told_of_yeast("my own", "dry").startswith("Not in the catalogue")
    assert told_of_yeast("", "dry") == ""
