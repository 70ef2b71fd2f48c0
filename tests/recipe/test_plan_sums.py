"""Whether the boils of a plan hold what the recipe lists."""

from dataclasses import replace

from designer.recipe.document import Extra
from designer.recipe.kinds import typed
from designer.recipe.plan_sums import differing_words, sums_that_differ
from designer.recipe.quantity import Kind
from tests.recipe.test_plan import HALF, KIT, kilograms, share, with_plan


def own_hops(*grams):
    return tuple(replace(KIT.hops[0], amount=kilograms(each / 1000.0)) for each in grams)


def test_boils_that_take_their_share_always_add_up():
    assert sums_that_differ(KIT) == ()
    assert differing_words(with_plan([HALF, HALF])) is None


def test_boils_with_lists_of_their_own_add_up_until_the_recipe_is_changed():
    plan = with_plan([replace(HALF, hops=own_hops(8)), replace(HALF, hops=own_hops(12))])
    assert differing_words(plan) is None
    more = replace(plan, hops=own_hops(28))
    assert differing_words(more).text == (
        "The boils hold 20 g Fuggle (the recipe 28 g). "
        "Fit it again if the recipe was changed since."
    )


def test_a_plan_of_half_the_recipe_is_held_against_half_of_it():
    plan = with_plan([replace(HALF, hops=own_hops(10))])
    assert differing_words(plan) is None
    (each,) = sums_that_differ(with_plan([replace(HALF, share=share(0.6), hops=own_hops(10))]))
    assert (round(1000 * each.held), round(1000 * each.listed)) == (10, 12)


def test_what_stands_on_one_side_alone_is_said():
    plan = with_plan([replace(HALF, share=share(1.0), hops=own_hops(20))])
    other = replace(plan, hops=(replace(KIT.hops[0], name="Harbour hop"),))
    assert differing_words(other).text == (
        "The boils hold no Harbour hop (the recipe 20 g), 20 g Fuggle (not in the recipe). "
        "Fit it again if the recipe was changed since."
    )


def test_pieces_are_counted_as_pieces_and_no_more_than_three_lines_are_told():
    names = ("Finings", "Nutrient", "Antifoam", "Peel", "Spice")
    extras = tuple(Extra(name, amount=typed(Kind.DOSE, 2.0, unit="tablet")) for name in names)
    few = tuple(replace(each, amount=typed(Kind.DOSE, 1.0, unit="tablet")) for each in extras)
    plan = replace(with_plan([replace(HALF, share=share(1.0), extras=few)]), extras=extras)
    words = differing_words(plan).text
    assert words.startswith("The boils hold 1 tablet Finings (the recipe 2 tablet), ")
    assert ", 2 more. Fit" in words
