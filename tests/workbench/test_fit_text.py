"""The ways to fit as text: what fills the pot, when things go in, what does not work."""

from dataclasses import replace
from math import inf

import pytest

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.workbench.fit_text import fit_document, fit_lines


@pytest.fixture
def answer(porter):
    """The porter in its own pot, whatever ways there are."""
    return ways(porter, wish_for(porter))


def told(porter, answer, **of_boil):
    """The text of the first way alone, its boil with other figures."""
    way = answer.ways[0]
    boil = replace(way.boils[0], **of_boil)
    alone = replace(answer, ways=(replace(way, boils=(boil,)),))
    return " ".join(" ".join(fit_lines(porter, alone)).split())


def test_the_room_below_the_foam_line_is_told_and_none_is_said_to_be_none(porter, answer):
    text = told(porter, answer, foam_limit_l=5.6, foam_room_l=0.4)
    assert "; foam line at 5.6 L, 0.4 L below it at the fullest of the boil;" in text
    text = told(porter, answer, foam_limit_l=5.6, foam_room_l=0.0)
    assert "; foam line at 5.6 L, just up to it at the fullest of the boil;" in text


def test_a_pot_of_unknown_size_has_no_foam_line(porter, answer):
    assert "foam line" not in told(porter, answer, foam_limit_l=inf)


def test_what_goes_into_the_boil_is_told_by_the_minutes_left_all_else_by_its_stage(porter, answer):
    goes_in = answer.ways[0].boils[0].goes_in
    boiled = next(each for each in goes_in if each.boil_left_min is not None)
    steeped = next(each for each in goes_in if each.stage == "steep")
    text = told(porter, answer)
    assert f"{boiled.name}, {boiled.boil_left_min:.0f} min before the end of the boil" in text
    assert f"{steeped.name}, steep" in text


def test_only_where_a_way_does_not_work_is_that_said(porter, answer):
    assert "Does not work here:" not in fit_lines(porter, replace(answer, no_ways=()))


def test_a_way_says_where_its_beer_more_likely_lies_than_its_value(porter, answer):
    way = answer.ways[0]
    colour = replace(way.forecasts["colour_srm"], leans="higher")
    leaning = replace(way, forecasts={**way.forecasts, "colour_srm": colour})
    alone = replace(answer, ways=(leaning,))
    line = next(each for each in fit_lines(porter, alone) if each.strip().startswith("Colour  "))
    assert f"{colour.low:.0f} to {colour.high:.0f}, more likely higher  " in line
    (document,) = fit_document(alone)["ways"]
    assert document["forecasts"]["colour_srm"]["leans"] == "higher"
