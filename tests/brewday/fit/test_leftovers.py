"""What is left over, bought and paid, line by line, at the edges of a kitchen scale."""

from dataclasses import replace

import pytest

from designer.brewday.fit.answer import ToBuy
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.leftovers import (
    KEEP_DRY,
    KEEP_EXTRA,
    KEEP_GRAIN,
    KEEP_HOPS,
    KEEP_LIQUID,
    KEEP_SUGAR,
    cost,
    keep,
    left_over,
    must_buy,
)
from designer.brewday.fit.original import original_of
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Extra, Fermentable, Fermenter, Hop, Recipe, Yeast
from designer.recipe.edits import next_line_id, with_line_ids
from designer.recipe.message import word
from designer.recipe.quantity import Quantity, Stage, When


def q(value, unit=""):
    return Quantity(float(value), f"{value:g} {unit}".strip(), unit=unit if unit != "kg" else "")


@pytest.fixture
def bill():
    """A kilogram of syrup, a hop, half a tablet: all with a price."""
    return with_line_ids(
        Recipe(
            fermentables=(
                Fermentable("Syrup", "liquid extract", q(1, "kg"), price=q(8)),
                Fermentable("Crystal", "steeping grain", q(0.2, "kg"), price=q(1)),
            ),
            hops=(Hop("Fuggle", amount=q(0.04, "kg"), price=q(4)),),
            extras=(Extra("Finings", amount=q(2, "tablet"), price=q(0.5)),),
            yeast=Yeast("Ale yeast", amount=q(11, "g"), price=q(3)),
        )
    )


def with_first(recipe, lines, **changes):
    first, *rest = getattr(recipe, lines)
    return replace(recipe, **{lines: (replace(first, **changes), *rest)})


@pytest.mark.parametrize(
    ("line", "how"),
    [
        (Fermentable(kind="liquid extract"), KEEP_LIQUID),
        (Fermentable(kind="hopped kit extract"), KEEP_LIQUID),
        (Fermentable(kind="dry extract"), KEEP_DRY),
        (Fermentable(kind="sugar"), KEEP_SUGAR),
        (Fermentable(kind="steeping grain"), KEEP_GRAIN),
        (Fermentable(kind="mash grain"), KEEP_GRAIN),
        (Hop(), KEEP_HOPS),
        (Extra(), KEEP_EXTRA),
    ],
)
def test_each_sort_is_kept_in_its_own_way(line, how):
    assert keep(line) == how


def test_nothing_is_left_of_what_is_used_up(bill):
    assert left_over(bill, [bill]) == ()


def test_all_that_no_boil_uses_is_left_with_its_name_and_its_amount(bill):
    found = left_over(bill, [Recipe()])
    assert [(each.lines, each.name, each.line_id) for each in found] == [
        ("fermentables", "Syrup", 1),
        ("fermentables", "Crystal", 2),
        ("hops", "Fuggle", 3),
        ("extras", "Finings", 4),
    ]
    assert [each.amount.text for each in found] == ["1 kg", "200 g", "40 g", "2 tablet"]
    assert found[3].amount.unit == "tablet"
    assert [each.keep for each in found] == [KEEP_LIQUID, KEEP_GRAIN, KEEP_HOPS, KEEP_EXTRA]


def test_less_than_a_tenth_of_a_gram_is_not_left_over(bill):
    """No kitchen scale shows it: common practice, no source."""
    assert left_over(bill, [with_first(bill, "hops", amount=q(0.03996, "kg"))]) == ()
    [rest] = left_over(bill, [with_first(bill, "hops", amount=q(0.0399, "kg"))])
    assert rest.amount.value == pytest.approx(0.0001)
    assert left_over(bill, [with_first(bill, "extras", amount=q(1.9995, "tablet"))]) == ()
    [dose] = left_over(bill, [with_first(bill, "extras", amount=q(1.75, "tablet"))])
    assert (dose.amount.value, dose.amount.text) == (0.25, "0.25 tablet")


def test_what_two_boils_use_is_taken_together(bill):
    half = with_first(bill, "hops", amount=q(0.015, "kg"))
    [rest] = [each for each in left_over(bill, [half, half]) if each.lines == "hops"]
    assert rest.amount.value == pytest.approx(0.010)


def test_a_line_without_an_amount_leaves_nothing_and_stops_no_other(bill):
    unknown = with_first(bill, "fermentables", amount=None)
    assert [each.name for each in left_over(unknown, [Recipe()])] == [
        "Crystal", "Fuggle", "Finings",
    ]  # fmt: skip
    assert [each.name for each in left_over(bill, [unknown])] == ["Syrup"]


def split(bill):
    """Three quarters of the syrup at the start, the rest of it late under a new number."""
    late = replace(
        bill.fermentables[0],
        amount=q(0.25, "kg"),
        when=When(Stage.BOIL, "boil 15 min", 15.0),
        line_id=next_line_id(bill),
    )
    early = with_first(bill, "fermentables", amount=q(0.75, "kg"))
    return replace(early, fermentables=(*early.fermentables, late))


def test_what_was_split_off_a_line_is_used_of_it(bill):
    made = split(bill)
    assert left_over(bill, [made]) == ()
    assert cost(bill, [made], 1) == pytest.approx(8 + 1 + 4 + 0.5 + 3)


def test_another_hop_of_the_same_name_is_not_of_the_line(bill):
    """More hops are bought: they are no part of what there was."""
    bought = replace(bill.hops[0], line_id=next_line_id(bill), amount=q(0.01, "kg"))
    made = replace(bill, hops=(replace(bill.hops[0], amount=q(0.03, "kg")), bought))
    [rest] = left_over(bill, [made])
    assert rest.amount.value == pytest.approx(0.01)


def test_the_cost_is_that_of_what_goes_in(bill):
    half = replace(
        with_first(bill, "fermentables", amount=q(0.5, "kg")),
        extras=(replace(bill.extras[0], amount=q(1, "tablet")),),
    )
    assert cost(bill, [bill], 1) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    assert cost(bill, [half], 1) == pytest.approx(4 + 1 + 4 + 0.25 + 3)
    assert cost(bill, [half, half], 2) == pytest.approx(2 * (4 + 1 + 4 + 0.25 + 3))


def test_yeast_that_is_there_for_two_fermenters_is_paid_once(bill):
    two = replace(bill, yeast=replace(bill.yeast, amount=q(23, "g")))
    assert cost(two, [bill], 2) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    assert cost(two, [bill], 3) == pytest.approx(8 + 1 + 4 + 0.5 + 4.5)


@pytest.mark.parametrize("lines", ["fermentables", "hops", "extras"])
@pytest.mark.parametrize("changes", [{"price": None}, {"amount": None}, {"amount": q(0)}])
def test_the_cost_is_unknown_where_a_price_or_an_amount_is(bill, lines, changes):
    unknown = with_first(bill, lines, **changes)
    assert cost(unknown, [unknown], 1) is None


def test_the_cost_is_unknown_where_yeast_has_no_price_or_a_hop_is_new(bill):
    free = replace(bill, yeast=replace(bill.yeast, price=None))
    assert cost(free, [free], 1) is None
    none = replace(bill, yeast=Yeast())
    assert cost(none, [none], 1) == pytest.approx(8 + 1 + 4 + 0.5)
    new = replace(bill, hops=(*bill.hops, Hop("Magnum", amount=q(0.01, "kg"), line_id=99)))
    assert cost(bill, [new], 1) is None


@pytest.fixture
def kitchen(porter):
    return Kitchen(wish_for(porter, 9.0, (12.0,)), original_of(porter))


def draft(kitchen, *cellars, recipes=None, **changes):
    recipes = recipes or (kitchen.recipe,)
    return Draft("one boil", recipes, cellars, 0, word("Boil it"), **changes)


BUCKET = Fermenter("Bucket", Quantity(12.0, "12 L"))


def bought(found):
    return [(str(each.what), each.amount.text if each.amount else None) for each in found]


def test_one_fermenter_in_hand_wants_nothing(kitchen):
    assert must_buy(kitchen, draft(kitchen, Cellar((BUCKET,)))) == ()


def test_each_further_fermenter_wants_a_packet_of_its_own(kitchen):
    three = draft(kitchen, Cellar((BUCKET, BUCKET)), Cellar((BUCKET,), 1))
    packet = ("another packet of yeast: Dry English ale yeast", "11 g")
    assert bought(must_buy(kitchen, three)) == [
        ("another 12 L plastic bucket, or the loan of one", None), packet, packet,
    ]  # fmt: skip
    together = replace(three, one_fermenter=True)
    assert bought(must_buy(kitchen, together)) == [packet]


def test_a_fermenter_or_yeast_nobody_has_described_is_asked_for_all_the_same(porter):
    plain = replace(porter, yeast=Yeast())
    kitchen = Kitchen(wish_for(plain), original_of(plain))
    carboy = Fermenter(kind="glass carboy")
    assert bought(must_buy(kitchen, draft(kitchen, Cellar((carboy, carboy), 1)))) == [
        ("another glass carboy, or the loan of one", None),
        ("another packet of yeast: the same", None),
    ]


def test_what_a_way_takes_beyond_the_recipe_is_to_be_bought(kitchen):
    recipe = kitchen.recipe
    more = with_first(recipe, "hops", amount=q(0.0255, "kg"))
    cellar = Cellar((BUCKET,))
    assert bought(must_buy(kitchen, draft(kitchen, cellar, recipes=(more,)))) == [
        ("Challenger", "5.5 g")
    ]
    hair = with_first(recipe, "hops", amount=q(0.02004, "kg"))
    assert must_buy(kitchen, draft(kitchen, cellar, recipes=(hair,))) == ()
    grain = with_first(recipe, "fermentables", amount=q(1.6, "kg"))
    own = ToBuy("A spoon")
    found = must_buy(kitchen, draft(kitchen, cellar, recipes=(grain,), must_buy=(own,)))
    assert bought(found) == [("A spoon", None), ("Light liquid malt extract", "100 g")]
