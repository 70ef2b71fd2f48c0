"""How warm a beer was: notes as stretches, from pitching on; the mean of a time is arithmetic."""

import pytest

from designer.brewday.fermenting.course import Warmth
from designer.brewday.fermenting.warmths import (
    Stretch,
    drawn_together,
    stretches,
    warmest_since,
)


def noted(*pairs):
    return [Warmth(float(day), temp_c) for day, temp_c in pairs]


def test_until_the_first_note_it_is_as_warm_as_usual():
    assert stretches([], 19.0) == (Stretch(0.0, 19.0),)
    assert stretches(noted((2, 21.0)), 19.0) == (Stretch(0.0, 19.0), Stretch(2.0, 21.0))


def test_what_was_noted_at_pitching_or_last_before_it_holds_from_there():
    assert stretches(noted((0, 18.0), (2, 21.0)), 19.0) == (Stretch(0.0, 18.0), Stretch(2.0, 21.0))
    before = noted((2, 21.0), (-1, 24.0), (-0.2, 20.5))
    assert stretches(before, 19.0) == (Stretch(0.0, 20.5), Stretch(2.0, 21.0))


def test_many_stretches_are_drawn_together_to_the_means_of_their_times():
    many = tuple(Stretch(float(day), temp_c) for day, temp_c in enumerate((10, 20, 30, 40, 50)))
    assert drawn_together(many, most=5) == many
    two = drawn_together(many, most=3)
    assert two == (Stretch(0.0, 15.0), Stretch(2.0, 35.0), Stretch(4.0, 50.0))
    uneven = (Stretch(0.0, 10.0), Stretch(0.5, 20.0), Stretch(2.0, 30.0), Stretch(4.0, 50.0))
    assert drawn_together(uneven, most=3)[0].temp_c == pytest.approx((0.5 * 10 + 1.5 * 20) / 2.0)


def test_the_warmest_is_that_of_notes_since_a_day_and_of_the_one_that_holds_until_then():
    notes = noted((1, 25.0), (5, 18.0), (8, 21.0), (12, 19.0), (15, 30.0))
    assert warmest_since(notes, 6.0, 13.0) == 21.0
    assert warmest_since(notes, 2.0, 13.0) == 25.0
    assert warmest_since(notes, 5.0, 8.0) == 21.0
    assert warmest_since(notes, 5.0, 7.9) == 18.0
    assert warmest_since(notes, 15.0, 16.0) == 30.0


def test_a_note_holds_for_two_days_where_none_follows():
    notes = noted((5, 18.0))
    assert warmest_since(notes, 7.0, 20.0) == 18.0
    assert warmest_since(notes, 7.1, 20.0) is None
    assert warmest_since([], 7.0, 20.0) is None
    assert warmest_since(noted((9, 20.0)), 7.0, 8.0) is None
