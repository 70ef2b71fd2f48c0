"""Places of a recipe: written as text, read back, asked for their parts."""

import pytest

from designer.recipe.place import Place, read_place


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("recipe", Place("recipe")),
        ("hops", Place("hops")),
        ("hops.3", Place("hops", line=3)),
        ("hops.3.alpha", Place("hops", "alpha", 3)),
        ("process.top_up_to", Place("process", "top_up_to")),
        ("notes", Place("notes")),
    ],
)
def test_a_place_is_written_as_it_is_read(text, place):
    assert read_place(text) == place
    assert str(place) == text


@pytest.mark.parametrize("text", ["hops.x.alpha", "hops.-1.alpha", "hops.².alpha", "hops..alpha"])
def test_words_for_the_number_of_a_line_name_a_line_that_no_list_has(text):
    assert read_place(text) == Place("hops", "alpha", 0)


def test_spaces_around_a_place_are_no_part_of_it_and_too_many_dots_name_nothing():
    assert read_place(" process.boil_time ") == Place("process", "boil_time")
    assert read_place("hops.1.alpha.value") == Place("hops.1.alpha.value")
    assert read_place("hops." + 5000 * "9").line == 999_999_999
