"""What is left over, bought and paid, line by line, at the edges of a kitchen scale."""

from dataclasses import replace

import pytest

from designer.brewday.fit.answer import ToBuy
from designer.brewday.fit.buying import must_buy
from designer.brewday.fit.costs import cost, costs
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.keeping import KEEPING, PRACTICE
from designer.brewday.fit.leftovers import kind_of, left_over
from designer.brewday.fit.original import original_of
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import (
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    PlannedBoil,
    PlannedFermenter,
    Recipe,
    Yeast,
)
from designer.recipe.edits import next_line_id, with_line_ids
from designer.recipe.message import word
from designer.recipe.quantity import Quantity, Stage, When
from designer.wort.hop_age import BARRIER, ageing_per_day, alpha_kept


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
    ("line", "briefly", "days"),
    [
        (Fermentable(kind="liquid extract"), "cold, covered: 3 weeks", 21),
        (Fermentable(kind="hopped kit extract"), "cold, covered: 3 weeks", 21),
        (Fermentable(kind="dry extract"), "airtight, dry: a year", 365),
        (Fermentable(kind="sugar"), "closed, dry: for long", None),
        (Fermentable(kind="steeping grain"), "airtight, cool: 4 weeks", 28),
        (Fermentable(kind="mash grain"), "airtight, cool: 4 weeks", 28),
        (Hop(), "freezer, airtight: a year", 365),
        (Extra(), "closed, dry: as its label says", None),
    ],
)
def test_each_sort_is_kept_in_its_own_way(line, briefly, days):
    """Common practice, no source; hops by Garetz, BrewingTechniques 2(1) (1994)."""
    kept = KEEPING[kind_of(line)]
    assert (kept.briefly.text, kept.days) == (briefly, days)
    assert kept.source == PRACTICE or "Garetz" in kept.source


def test_only_dry_extract_is_said_to_set_like_stone():
    stone = [kind for kind, kept in KEEPING.items() if "stone" in kept.how.text]
    assert stone == ["dry extract"]
    assert "a syrup in its own closed tin or jar, not in the cold" in KEEPING["sugar"].how.text


def test_a_year_in_the_freezer_takes_some_six_hundredths_of_the_alpha_acid():
    """The figure beside the hops, by the formula of the same source for a bag without air."""
    kept = alpha_kept(365 * ageing_per_day(-18.0, BARRIER))
    assert 1.0 - kept == pytest.approx(0.06, abs=0.01)


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
    assert [each.keeping for each in found] == [
        KEEPING[kind] for kind in ("liquid extract", "steeping grain", "hops", "extras")
    ]
    assert all(each.keep == each.keeping.how for each in found)


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
    assert used(bill, [made]) == pytest.approx(8 + 1 + 4 + 0.5 + 3)


def test_another_hop_of_the_same_name_is_not_of_the_line(bill):
    """More hops are bought: they are no part of what there was."""
    bought = replace(bill.hops[0], line_id=next_line_id(bill), amount=q(0.01, "kg"))
    made = replace(bill, hops=(replace(bill.hops[0], amount=q(0.03, "kg")), bought))
    [rest] = left_over(bill, [made])
    assert rest.amount.value == pytest.approx(0.01)


def used(original, recipes, fermenters=1, bought=()):
    return costs(original, recipes, fermenters, bought).used


def test_the_cost_is_that_of_what_goes_in(bill):
    half = replace(
        with_first(bill, "fermentables", amount=q(0.5, "kg")),
        extras=(replace(bill.extras[0], amount=q(1, "tablet")),),
    )
    assert cost(bill) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    assert used(bill, [half]) == pytest.approx(4 + 1 + 4 + 0.25 + 3)
    packet = ToBuy("another packet", q(11, "g"), "yeast", price=3.0)
    halves = replace(
        half,
        hops=(replace(bill.hops[0], amount=q(0.02, "kg")),),
        fermentables=(half.fermentables[0], replace(bill.fermentables[1], amount=q(0.1, "kg"))),
    )
    found = costs(bill, [halves, halves], 2, [packet])
    assert found.used == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    assert found.to_buy == pytest.approx(3.0)
    assert found.in_all == pytest.approx(8 + 1 + 4 + 0.5 + 2 * 3)


def test_the_cost_of_a_planned_recipe_is_that_of_what_its_plan_takes(bill):
    half = PlannedBoil(share=q(0.5))
    assert cost(replace(bill, boils=(half,))) == pytest.approx(4 + 0.5 + 2 + 0.25 + 3)
    assert cost(replace(bill, boils=(half, half))) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    buckets = (PlannedFermenter(Fermenter("Bucket")),) * 2
    assert cost(replace(bill, fermenters=buckets)) == pytest.approx(8 + 1 + 4 + 0.5 + 6)
    more = replace(half, share=q(1), hops=(replace(bill.hops[0], amount=q(0.05, "kg")),))
    assert cost(replace(bill, boils=(more,))) == pytest.approx(8 + 1 + 5 + 0.5 + 3)


def test_of_a_line_no_more_is_paid_than_there_is_and_the_rest_as_it_is_bought(bill):
    more = with_first(bill, "hops", amount=q(0.05, "kg"))
    assert used(bill, [more]) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    bag = ToBuy("Fuggle", q(0.01, "kg"), "hops", ((1, "25 g bag"),), 0.015, price=2.5)
    assert costs(bill, [more], 1, [bag]).in_all == pytest.approx(8 + 1 + 4 + 0.5 + 3 + 2.5)


def test_yeast_that_is_there_for_two_fermenters_is_paid_once(bill):
    two = replace(bill, yeast=replace(bill.yeast, amount=q(23, "g")))
    assert used(two, [two], 2) == pytest.approx(8 + 1 + 4 + 0.5 + 3)
    packet = ToBuy("another packet", q(11.5, "g"), "yeast", price=1.5)
    assert costs(two, [two], 3, [packet]).in_all == pytest.approx(8 + 1 + 4 + 0.5 + 4.5)


def test_a_packet_that_stays_closed_is_not_paid(bill):
    two = replace(bill, yeast=replace(bill.yeast, amount=q(22, "g")))
    one = replace(two, yeast=bill.yeast)
    assert used(two, [one]) == pytest.approx(8 + 1 + 4 + 0.5 + 1.5)


@pytest.mark.parametrize("lines", ["fermentables", "hops", "extras"])
@pytest.mark.parametrize("changes", [{"price": None}, {"amount": None}, {"amount": q(0)}])
def test_the_cost_is_unknown_where_a_price_or_an_amount_is(bill, lines, changes):
    unknown = with_first(bill, lines, **changes)
    assert cost(unknown) is None


def test_the_cost_is_unknown_where_yeast_has_no_price_or_a_hop_is_new(bill):
    free = replace(bill, yeast=replace(bill.yeast, price=None))
    assert cost(free) is None
    none = replace(bill, yeast=Yeast())
    assert cost(none) == pytest.approx(8 + 1 + 4 + 0.5)
    new = replace(bill, hops=(*bill.hops, Hop("Magnum", amount=q(0.01, "kg"), line_id=99)))
    assert used(bill, [new]) is None


def test_a_new_hop_that_is_bought_costs_what_is_bought(bill):
    new = replace(bill, hops=(*bill.hops, Hop("Fuggle", amount=q(0.01, "kg"), line_id=99)))
    bag = ToBuy("Fuggle", q(0.01, "kg"), "hops", price=1.0)
    assert used(bill, [new], 1, [bag]) == pytest.approx(8 + 1 + 4 + 0.5 + 3)


def test_a_vessel_without_a_price_leaves_what_is_to_buy_unknown_and_not_the_beer(bill):
    bucket, packet = ToBuy("another bucket"), ToBuy("a packet", q(11, "g"), "yeast", price=3.0)
    found = costs(bill, [bill], 2, [bucket, packet])
    assert found.to_buy is None
    assert found.in_all == pytest.approx(8 + 1 + 4 + 0.5 + 3 + 3)
    assert costs(bill, [bill], 1, []).to_buy == 0.0
    unpriced = replace(packet, price=None)
    assert costs(bill, [bill], 2, [unpriced]).in_all is None


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
