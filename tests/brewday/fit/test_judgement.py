"""The sentence of judgement tells what differs, just beyond what can be told, and the order."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.answer import Compared, ToBuy
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.judgement import judgement, ranked
from designer.brewday.fit.original import Original
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.message import word
from tests.brewday.days import with_figures

SAME = {"original_gravity": 1.5, "bitterness_ibu": 30.0, "colour_srm": 10.0}


@pytest.fixture(scope="module")
def kitchen(porter):
    """The porter as if it were 100 L of 1.5: numbers whose differences are exact."""
    original = Original(porter, with_figures(brew(porter), batch_l=100.0), {})
    return Kitchen(wish_for(porter, 9.0, (12.0,)), original)


def judged(kitchen, batch_l=100.0, bought=0, **changes):
    values = {**SAME, **changes}
    forecasts = {key: Compared(value, value, value, SAME[key]) for key, value in values.items()}
    fermenter = kitchen.wish.fermenters[0]
    cellar = Cellar((fermenter,) * max(bought, 1), bought)
    draft = Draft("one boil", (kitchen.recipe,), (cellar,), 0, word("Boil it"))
    return judgement(kitchen, draft, forecasts, batch_l).text


def test_the_same_beer_is_said_to_be_that_of_the_recipe(kitchen):
    assert judged(kitchen) == "Boil it: the beer of the recipe."


@pytest.mark.parametrize(
    ("key", "told", "untold", "words"),
    [
        ("original_gravity", 1.5011, 1.5009, "stronger, 1.501 instead of 1.500"),
        ("original_gravity", 1.4989, 1.4991, "weaker, 1.499 instead of 1.500"),
        ("bitterness_ibu", 31.01, 31.0, "more bitter, 31 IBU instead of 30 IBU"),
        ("bitterness_ibu", 28.99, 29.0, "less bitter, 29 IBU instead of 30 IBU"),
        ("colour_srm", 10.51, 10.5, "darker, 11 SRM instead of 10 SRM"),
        ("colour_srm", 9.49, 9.5, "paler, 9 SRM instead of 10 SRM"),
    ],
)
def test_a_difference_is_told_just_beyond_what_a_kitchen_can_tell(
    kitchen, key, told, untold, words
):
    """A point, an IBU, half an SRM: common practice, no source."""
    assert judged(kitchen, **{key: untold}) == "Boil it: the beer of the recipe."
    assert judged(kitchen, **{key: told}) == f"Boil it: {words}."


def test_another_volume_is_told_beyond_three_hundredths_of_it(kitchen):
    assert "instead of" not in judged(kitchen, 97.0)
    assert judged(kitchen, 96.9) == "Boil it: 96.9 L instead of 100 L."
    assert judged(kitchen, 103.1) == "Boil it: 103.1 L instead of 100 L."


def test_all_that_differs_is_told_volume_first_with_each_its_own_figures(kitchen):
    said = judged(kitchen, 50.0, original_gravity=1.4, bitterness_ibu=20.0, colour_srm=15.0)
    assert said == (
        "Boil it: 50 L instead of 100 L and weaker, 1.400 instead of 1.500 and less bitter, "
        "20 IBU instead of 30 IBU and darker, 15 SRM instead of 10 SRM."
    )


def test_fermenters_that_are_to_be_bought_are_told(kitchen):
    assert judged(kitchen, bought=1).endswith(". It needs another fermenter.")
    assert judged(kitchen, bought=2).endswith(". It needs 2 more fermenters.")
    assert "asks" not in judged(kitchen)


def test_what_is_in_hand_ranks_first_then_nearness_then_effort(porter):
    some = ways(porter, wish_for(porter, 40.0, (40.0,))).ways[0]
    assert some.in_hand
    near_hard = replace(some, key="near, hard", closeness=0.0, effort=9)
    near_easy = replace(some, key="near, easy", closeness=0.0, effort=2)
    far_easy = replace(some, key="far, easy", closeness=0.1, effort=0)
    bought = replace(near_easy, key="near, easy, bought", must_buy=(ToBuy("a bucket"),))
    found = ranked([bought, far_easy, near_hard, near_easy])
    assert [(way.key, way.rank) for way in found] == [
        ("near, easy", 1), ("near, hard", 2), ("far, easy", 3), ("near, easy, bought", 4),
    ]  # fmt: skip
