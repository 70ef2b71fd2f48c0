"""The cupboard against the recipe."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.stock import (
    ALPHA_DIFFERS,
    OtherAlpha,
    Stock,
    needs,
    other_alphas,
    take_bag,
    take_bags,
)
from designer.library.recipe_file import load
from designer.recipe.document import Extra, Fermentable, Hop, Recipe, Yeast
from designer.recipe.quantity import Quantity, Stage, When
from tests.brewday.quantities import ONE_GRAIN_PORTER, assert_no_half_gram_comes_nearer


@pytest.fixture(scope="module")
def porter():
    return load(ONE_GRAIN_PORTER)


def test_an_empty_cupboard_lacks_everything(porter):
    found = needs(porter, ())
    assert [each.name for each in found][:2] == [
        "Light liquid malt extract",
        "Light dry malt extract",
    ]
    assert all(each.missing == each.needed for each in found)
    assert all(each.cost is None for each in found)


def test_what_is_there_is_taken_off_and_priced(porter):
    stock = (
        Stock("light  Dry malt extract", 0.3, price_each=9.0),
        Stock("Dry English ale yeast", 0.011, price_each=300.0),
    )
    found = {each.name: each for each in needs(porter, stock)}
    assert found["Light dry malt extract"].missing == pytest.approx(0.2)
    assert found["Light dry malt extract"].cost == pytest.approx(4.5)
    assert found["Dry English ale yeast"].missing == pytest.approx(0.0)
    assert found["Dry English ale yeast"].cost == pytest.approx(3.3)


def test_a_weaker_bag_takes_more_weight_and_holds_the_bitterness(porter):
    stock = (Stock("Challenger", 0.1, alpha=0.06),)
    (other,) = other_alphas(porter, stock)
    after = take_bag(porter, other).apply(porter)
    assert after.hops[0].alpha.value == 0.06
    assert after.hops[0].amount.value > porter.hops[0].amount.value
    assert_no_half_gram_comes_nearer(after, brew(porter).beer.bitterness_ibu)


def test_a_bag_as_the_recipe_says_needs_nothing(porter):
    assert other_alphas(porter, (Stock("Challenger", 0.1, alpha=0.072),)) == ()
    assert other_alphas(porter, (Stock("Fuggle", 0.1, alpha=0.05),)) == ()


def test_all_bags_are_taken_in_one_step_and_the_bitterness_is_held(porter):
    stock = (Stock("Challenger", 0.1, alpha=0.06), Stock("East Kent Golding", 0.1, alpha=0.04))
    edit = take_bags(porter, stock)
    after = edit.apply(porter)
    assert [hop.alpha.value for hop in after.hops] == [0.06, 0.04]
    assert brew(after).beer.bitterness_ibu == pytest.approx(
        brew(porter).beer.bitterness_ibu, abs=0.2
    )
    assert take_bags(after, stock) is None


def need_of(recipe, name, *stock):
    return next(each for each in needs(recipe, stock) if each.name == name)


def test_all_that_has_a_name_and_an_amount_is_asked_for_in_its_own_unit(harbour_porter, kitchen):
    nutrient = Extra("Yeast nutrient", amount=Quantity(0.5, "0.5 g", unit="g"))
    tablet = Extra("Finings", amount=Quantity(1.0, "1"))
    recipe = replace(harbour_porter, extras=(nutrient, tablet))
    assert [(each.name, each.needed, each.unit) for each in needs(recipe, ())] == [
        ("Light liquid malt extract", 1.5, "kg"),
        ("Light dry malt extract", 0.5, "kg"),
        ("Medium crystal malt", 0.25, "kg"),
        ("Challenger", 0.02, "kg"),
        ("East Kent Golding", 0.02, "kg"),
        ("Dry English ale yeast", 11.0, "g"),
        ("Yeast nutrient", 0.5, "g"),
        ("Finings", 1.0, "piece"),
    ]


def test_what_has_no_amount_is_not_asked_for(kitchen):
    nothing, some = kitchen.q(0, "kg"), kitchen.q(0.001, "kg")
    recipe = Recipe(
        fermentables=(
            Fermentable("Unweighed"), Fermentable("None", amount=nothing),
            Fermentable("Pinch", amount=some),
        ),
        hops=(Hop("Unweighed hop"), Hop("No hop", amount=nothing), Hop("A gram", amount=some)),
        yeast=Yeast("", amount=Quantity(11.0, "11 g", unit="g")),
        extras=(
            Extra("Unweighed salt"),
            Extra("No salt", amount=Quantity(0.0, "0 g", unit="g")),
            Extra("Salt", amount=Quantity(0.2, "0.2 g", unit="g")),
            Extra("", amount=Quantity(3.0, "3 g", unit="g")),
        ),
    )  # fmt: skip
    assert [each.name for each in needs(recipe, ())] == ["Pinch", "A gram", "Salt"]


def test_one_ingredient_of_several_lines_is_asked_for_once(kitchen):
    """However it is spelled; but grams and pieces of one thing cannot be added."""
    hops = (
        Hop("Fuggle", amount=kitchen.q(0.02, "kg"), when=kitchen.boil(60)),
        Hop("Challenger", amount=kitchen.q(0.01, "kg")),
        Hop(" fuggle ", amount=kitchen.q(0.015, "kg"), when=kitchen.boil(10)),
    )
    extras = (
        Extra("Finings", amount=Quantity(1.0, "1 tablet", unit="tablet")),
        Extra("Finings", amount=Quantity(2.0, "2 g", unit="g")),
        Extra("Finings", amount=Quantity(0.5, "0.5 tablet", unit="tablet")),
    )
    found = needs(Recipe(hops=hops, extras=extras), ())
    assert [(each.name, each.needed, each.unit) for each in found] == [
        ("Fuggle", pytest.approx(0.035), "kg"),
        ("Challenger", 0.01, "kg"),
        ("Finings", 1.5, "tablet"),
        ("Finings", 2.0, "g"),
    ]


@pytest.mark.parametrize(
    ("stocks", "there"),
    [
        ((), 0.0),
        ((Stock("Dry English ale yeast", 5.0, "g"),), 5.0),
        ((Stock("Dry English ale yeast", 0.004),), 4.0),
        ((Stock("Dry English ale yeast", 5.0, "g"), Stock("dry english ale yeast", 0.004)), 9.0),
        ((Stock("Dry English ale yeast", 2.0, "packet"),), 0.0),
        ((Stock("Dry lager yeast", 11.0, "g"),), 0.0),
    ],
)
def test_bags_are_added_up_where_their_units_can_be_compared(stocks, there, harbour_porter):
    found = need_of(harbour_porter, "Dry English ale yeast", *stocks)
    assert found.on_hand == pytest.approx(there)
    assert found.missing == pytest.approx(11.0 - there)
    assert found.unit == "g"


def test_grams_on_the_shelf_count_against_kilograms(harbour_porter):
    found = need_of(harbour_porter, "Challenger", Stock("Challenger", 15.0, "g", price_each=0.05))
    assert found.on_hand == pytest.approx(0.015)
    assert found.missing == pytest.approx(0.005)
    assert found.cost == pytest.approx(20 * 0.05)


def test_more_than_enough_leaves_nothing_missing(harbour_porter):
    assert need_of(harbour_porter, "Challenger", Stock("Challenger", 0.1)).missing == 0.0


@pytest.mark.parametrize(
    ("stocks", "cost"),
    [
        # 11 g of yeast, at 300 a kilogram, at 0.3 a gram, at what no one can compare
        ((Stock("Dry English ale yeast", 0.0, "kg", 300.0),), 3.3),
        ((Stock("Dry English ale yeast", 0.0, "g", 0.3),), 3.3),
        ((Stock("Dry English ale yeast", 0.0, "packet", 4.0),), None),
        ((Stock("Dry English ale yeast", 9.0, "g"),), None),
        # the first bag that has a price says it
        ((Stock("Dry English ale yeast", 9.0, "g"), Stock("Dry English ale yeast", 1.0, "g", 0.5),
          Stock("Dry English ale yeast", 1.0, "g", 0.9)), 5.5),
        ((Stock("Dry English ale yeast", 9.0, "g", 0.0),), 0.0),
    ],
)  # fmt: skip
def test_the_cost_is_of_all_that_is_needed_bought_or_not(stocks, cost, harbour_porter):
    found = need_of(harbour_porter, "Dry English ale yeast", *stocks)
    assert found.cost == (None if cost is None else pytest.approx(cost))


def test_a_bag_differs_from_the_last_figure_that_labels_print(harbour_porter):
    """Alpha acid is printed to a tenth of a per cent; half of that is the same bag."""
    assert pytest.approx(0.001 / 2) == ALPHA_DIFFERS
    for alpha, differs in ((0.0724, False), (0.0716, False), (0.073, True), (0.071, True)):
        found = other_alphas(harbour_porter, (Stock("challenger", 0.1, alpha=alpha),))
        assert bool(found) is differs, alpha
    (told,) = other_alphas(harbour_porter, (Stock("challenger", 0.1, alpha=0.06),))
    line_id = harbour_porter.hops[0].line_id
    assert told == OtherAlpha(line_id, "Challenger", in_recipe=0.072, on_bag=0.06)


def test_a_locked_hop_or_a_bag_without_a_figure_asks_for_nothing(harbour_porter):
    assert other_alphas(harbour_porter, (Stock("Challenger", 0.1),)) == ()
    locked = tuple(replace(hop, locked=True) for hop in harbour_porter.hops)
    kit = replace(harbour_porter, hops=locked)
    assert other_alphas(kit, (Stock("Challenger", 0.1, alpha=0.06),)) == ()


def test_every_line_of_the_hop_is_told(harbour_porter):
    twice = (harbour_porter.hops[0], replace(harbour_porter.hops[0], line_id=9))
    recipe = replace(harbour_porter, hops=(*twice, harbour_porter.hops[1]))
    stock = (Stock("Challenger", 0.1, alpha=0.08), Stock("East Kent Golding", 0.1, alpha=0.04))
    found = other_alphas(recipe, stock)
    assert [each.line_id for each in found] == [
        recipe.hops[0].line_id,
        9,
        harbour_porter.hops[1].line_id,
    ]


def other(recipe, place, alpha):
    hop = recipe.hops[place]
    return OtherAlpha(hop.line_id, hop.name, hop.alpha.value, alpha)


def test_the_bag_s_alpha_times_its_weight_stays(harbour_porter):
    """A hop's bitterness goes with weight x alpha: 20 g of 7.2 % are 24 g of 6 %."""
    edit = take_bag(harbour_porter, other(harbour_porter, 0, 0.06))
    assert edit.text.text == "take the Challenger that is in the cupboard"
    changed = edit.apply(harbour_porter)
    assert changed.hops[0].alpha == Quantity(0.06, "6 %")
    assert changed.hops[0].amount.value == pytest.approx(0.024, abs=0.0001)
    assert changed.hops[1] == harbour_porter.hops[1]
    tenths = changed.hops[0].amount.value / 0.0001
    assert tenths == pytest.approx(round(tenths), abs=1e-6)
    text = take_bag(harbour_porter, other(harbour_porter, 0, 0.0725)).changes[0][1].text
    assert text == "7.25 %"


def test_a_dry_hop_keeps_its_weight(harbour_porter):
    dry = replace(harbour_porter.hops[1], when=When(Stage.DRY_HOP, "dry hop 3 days", days=3.0))
    recipe = replace(harbour_porter, hops=(harbour_porter.hops[0], dry))
    edit = take_bag(recipe, other(recipe, 1, 0.04))
    assert edit.changes == (("alpha", Quantity(0.04, "4 %")),)


def test_where_no_weight_would_do_only_the_alpha_is_taken(harbour_porter):
    """Twenty times as much of a bag with a hundredth of the alpha is not enough."""
    edit = take_bag(harbour_porter, other(harbour_porter, 0, 0.0007))
    assert edit.changes == (("alpha", Quantity(0.0007, "0.07 %")),)
    assert float(brew(edit.apply(harbour_porter)).beer.bitterness_ibu) < float(
        brew(harbour_porter).beer.bitterness_ibu
    )
