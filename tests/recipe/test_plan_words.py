"""How a recipe is brewed, in a sentence."""

from dataclasses import replace

import pytest

from designer.recipe.choices import Turn
from designer.recipe.document import Fermenter, PlannedBoil, PlannedFermenter, Pot, Recipe
from designer.recipe.kinds import typed
from designer.recipe.plan import wort_share
from designer.recipe.plan_words import brewed, plan_words
from designer.recipe.quantity import Kind, Quantity


def litres(value):
    return typed(Kind.VOLUME, value)


KITCHEN_POT = Pot("Kitchen pot", litres(9.0))
SMALL_BUCKET = Fermenter("Small bucket", litres(12.0))
KIT = Recipe(pot=KITCHEN_POT, fermenter=Fermenter("Bucket", litres(25.0)))
HALF = PlannedBoil(KITCHEN_POT, typed(Kind.FRACTION, 0.5))
TWO_BUCKETS = tuple(PlannedFermenter(SMALL_BUCKET, (wort_share(n, 1.0),)) for n in (1, 2))


def in_pots(*pots, turn=Turn.AFTER):
    return tuple(replace(HALF, pot=pot, turn=turn.value) for pot in pots)


def test_a_recipe_without_a_plan_is_brewed_as_written_and_says_nothing_of_it():
    assert plan_words(KIT) is None
    assert brewed(KIT).text == "as written"


@pytest.mark.parametrize(
    ("boils", "fermenters", "said"),
    [
        (
            (HALF, HALF),
            TWO_BUCKETS,
            "Brewed in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L.",
        ),
        ((HALF, HALF), (), "Brewed in 2 boils in the Kitchen pot of 9 L, into Bucket of 25 L."),
        (
            (),
            TWO_BUCKETS,
            "Brewed in one boil in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L.",
        ),
        (
            in_pots(KITCHEN_POT, Pot("Old pot", litres(7.0)), turn=Turn.AT_ONCE),
            (),
            "Brewed in 2 pots at once (Kitchen pot of 9 L and Old pot of 7 L), into Bucket of "
            "25 L.",
        ),
        (
            in_pots(KITCHEN_POT, Pot("7 L pot", litres(7.0))),
            (),
            "Brewed in 2 boils (Kitchen pot of 9 L and 7 L pot), into Bucket of 25 L.",
        ),
        (
            in_pots(KITCHEN_POT, KITCHEN_POT, turn=Turn.ANOTHER_DAY),
            (),
            "Brewed in 2 boils in the Kitchen pot of 9 L on 2 days, into Bucket of 25 L.",
        ),
        (
            (replace(HALF, share=typed(Kind.FRACTION, 0.51)),),
            (PlannedFermenter(SMALL_BUCKET),),
            "Brewed 51 % of the recipe in one boil in the Kitchen pot of 9 L, into Small bucket "
            "of 12 L.",
        ),
    ],
)
def test_a_plan_is_said_in_one_sentence(boils, fermenters, said):
    assert plan_words(replace(KIT, boils=boils, fermenters=fermenters)).text == said


def test_three_thirds_typed_to_a_tenth_of_a_percent_are_the_whole_recipe():
    third = replace(HALF, share=typed(Kind.FRACTION, 0.333))
    assert brewed(replace(KIT, boils=(third,) * 3)).text.startswith("in 3 boils in the Kitchen pot")


def test_sizes_are_said_as_they_were_typed():
    bucket = Fermenter("Bucket", Quantity(18.9270589, "5 gal"))
    said = plan_words(replace(KIT, fermenters=(PlannedFermenter(bucket),))).text
    assert said.endswith("into Bucket of 5 gal.")
