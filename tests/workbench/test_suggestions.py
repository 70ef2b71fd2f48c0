"""What is offered while a name is typed."""

import pytest

from designer.library.catalogue import find_fermentable
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
