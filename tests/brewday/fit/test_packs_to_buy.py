"""What a way wants bought, in the packs of a shop."""

from dataclasses import replace

import pytest

from designer.brewday.fit.answer import ToBuy
from designer.brewday.fit.pack_choice import enough_packs
from designer.brewday.fit.packets import packets_of, packets_to_buy
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.library.packs import packs
from designer.recipe.document import Recipe
from designer.recipe.quantity import Quantity


def bought(recipe, wish):
    return {(way.key, each.kind): each for way in ways(recipe, wish).ways for each in way.must_buy}


def test_more_hops_are_bought_in_bags_with_what_is_left_over(slipway_bitter):
    wish = replace(wish_for(slipway_bitter, 6.0), packs=packs("metric"))
    hops = bought(slipway_bitter, wish)["more hops", "hops"]
    assert hops.packs == ((1, "25 g bag"),)
    assert hops.over_kg == pytest.approx(0.025 - hops.mass_kg)
    assert "1 × 25 g bag" in hops.words.text
    assert "of it left over (freezer, airtight: a year)" in hops.words.text
    assert hops.keeping.days == 365


def test_the_shop_s_own_sizes_are_taken(slipway_bitter):
    [us] = [each for each in packs("us") if each.kind == "hops" and each.amount.text == "1 oz"]
    wish = replace(wish_for(slipway_bitter, 6.0), packs=(us,))
    assert bought(slipway_bitter, wish)["more hops", "hops"].packs == ((1, "1 oz bag"),)


def test_a_second_fermenter_wants_a_packet_of_its_own(breakwater_red):
    wish = replace(wish_for(breakwater_red, 9.0, (12.0,)), packs=packs("metric"))
    yeast = bought(breakwater_red, wish)["one boil", "yeast"]
    assert yeast.packs == ((1, "11 g packet"),)
    assert yeast.over_kg == 0.0


@pytest.mark.parametrize("grams", [11.0, 11.5])
def test_eleven_grams_or_half_a_gram_more_are_one_packet(breakwater_red, grams):
    """Common practice, no source."""
    wish = replace(wish_for(breakwater_red, 9.0, (12.0,)), packs=packs("metric"))
    assert bought(with_yeast(breakwater_red, grams), wish)["one boil", "yeast"].packs == (
        (1, "11 g packet"),
    )


def with_yeast(recipe, value, unit="g"):
    amount = Quantity(float(value), f"{value:g} {unit}", unit=unit)
    return replace(recipe, yeast=replace(recipe.yeast, amount=amount))


@pytest.mark.parametrize(("value", "unit"), [(22, "g"), (23, "g"), (2, "packets"), (34.5, "g")])
def test_two_packets_for_two_fermenters_want_no_more(breakwater_red, value, unit):
    wish = wish_for(breakwater_red, 9.0, (12.0,))
    kit = with_yeast(breakwater_red, value, unit)
    assert ("one boil", "yeast") not in bought(kit, wish)


@pytest.mark.parametrize(
    ("value", "unit", "of"),
    [(11.5, "g", 1), (10, "g", 1), (14, "g", 2), (7, "g", 1), (23, "g", 2), (34.5, "g", 3),
     (3, "packets", 3), (1.5, "packets", 2), (15, "g", 3), (100, "mL", 1), (1, "sachet", 1),
     (2, "sachets", 2)],
)  # fmt: skip
def test_what_the_recipe_has_counts_as_whole_packets(value, unit, of):
    yeast = with_yeast(Recipe(), value, unit).yeast
    assert packets_of(yeast) == of
    assert packets_to_buy(yeast, 4) == 4 - of
    assert packets_to_buy(yeast, 1) == 0


def test_each_packet_that_is_missing_is_one_of_the_recipe_s(breakwater_red):
    wish = replace(wish_for(breakwater_red, 9.0, (7.0, 7.0, 12.0)), packs=packs("metric"))
    [way] = [each for each in ways(with_yeast(breakwater_red, 23), wish).ways
             if each.key == "one boil"]  # fmt: skip
    [packet] = [each for each in way.must_buy if each.kind == "yeast"]
    assert packet.amount == Quantity(11.5, "11.5 g", unit="g")
    assert packet.packs == ((1, "11 g packet"),)


@pytest.mark.parametrize(
    ("value", "unit", "more"),
    [(10, "g", 1), (5, "g", 1), (7, "g", 1), (11, "g", 1), (11.5, "g", 1), (1, "packet", 1),
     (14, "g", 0), (22, "g", 0), (23, "g", 0), (33, "g", 0), (2, "sachet", 0)],
)  # fmt: skip
def test_two_fermenters_want_two_packets_less_those_of_the_recipe(
    breakwater_red, value, unit, more
):
    """What is needed in all minus what the recipe has, whatever the packet holds."""
    wish = replace(wish_for(breakwater_red, 9.0, (12.0, 12.0)), packs=packs("metric"))
    [way] = [each for each in ways(with_yeast(breakwater_red, value, unit), wish).ways
             if each.key == "one boil"]  # fmt: skip
    packets = [each for each in way.must_buy if each.kind == "yeast"]
    assert len(packets) == more
    if unit == "g":
        assert all(each.packs == ((1, "11 g packet"),) for each in packets)
    assert all(each.over_kg == 0.0 for each in packets)


def priced(recipe):
    """Each line for 2, the yeast for 3."""
    two, three = Quantity(2.0, "2"), Quantity(3.0, "3")
    return replace(
        recipe,
        fermentables=tuple(replace(each, price=two) for each in recipe.fermentables),
        hops=tuple(replace(each, price=two) for each in recipe.hops),
        extras=tuple(replace(each, price=two) for each in recipe.extras),
        yeast=replace(recipe.yeast, price=three),
    )


def test_what_is_bought_is_priced_by_the_pack(slipway_bitter):
    """13 g of the bittering hop for 2: a bag of 25 g for 3.85."""
    wish = replace(wish_for(slipway_bitter, 6.0), packs=packs("metric"))
    [way] = [each for each in ways(priced(slipway_bitter), wish).ways if each.key == "more hops"]
    [hops] = way.must_buy
    assert hops.packs == ((1, "25 g bag"),)
    assert hops.price == pytest.approx(2.0 / 0.013 * 0.025)
    whole = 2.0 * 4 + 2.0 * 3 + 2.0 + 3.0
    assert way.cost_used == pytest.approx(whole)
    assert way.cost_to_buy == pytest.approx(hops.price)
    assert way.cost == pytest.approx(whole + hops.price)
    assert way.cost_per_litre == pytest.approx(way.cost / way.batch_l)
    assert way.original_cost == pytest.approx(whole)
    assert way.original_cost_per_litre == pytest.approx(whole / way.original_batch_l)


def test_part_of_a_kit_costs_its_part(breakwater_red):
    kit = priced(breakwater_red)
    wish = replace(wish_for(kit, 9.0, (12.0,)), packs=packs("metric"))
    found = {way.key: way for way in ways(kit, wish).ways}
    smaller = found["smaller batch"]
    assert smaller.cost_to_buy == 0.0
    assert smaller.cost_used == smaller.cost == pytest.approx(0.5 * 8.0 + 3.0, abs=0.15)
    once = found["one boil"]
    assert once.cost_to_buy is None  # nobody knows what a bucket costs
    assert [each.price for each in once.must_buy] == [None, 3.0]
    assert once.cost == pytest.approx(8.0 + 3.0 + 3.0)


def test_without_prices_no_cost_is_nothing(slipway_bitter):
    wish = replace(wish_for(slipway_bitter, 6.0), packs=packs("metric"))
    for way in ways(slipway_bitter, wish).ways:
        assert way.cost is way.cost_used is way.cost_per_litre is way.original_cost is None
        assert way.cost_to_buy == (0.0 if way.in_hand else None)


def test_without_a_shop_only_the_amount_is_said(slipway_bitter):
    hops = bought(slipway_bitter, wish_for(slipway_bitter, 6.0))["more hops", "hops"]
    assert hops.packs == ()
    assert "×" not in hops.words.text


@pytest.mark.parametrize("unit", ["", "packet"])
def test_yeast_that_is_counted_weighs_nothing(unit):
    packets = Quantity(2.0, f"2 {unit}".strip(), unit=unit)
    assert ToBuy("yeast", packets, "yeast").mass_kg is None
    assert ToBuy("yeast", packets, "yeast").words.text == f"yeast, {packets.text}"


def test_many_odd_sizes_are_chosen_from_without_delay():
    """A tree of counts would have some 10^20 leaves here."""
    sizes = [n / 1000 for n in (51, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101)]
    chosen = enough_packs(20.0, sizes)
    assert chosen.total_kg == pytest.approx(20.0)
    assert sum(chosen.counts) == 200  # 198 of the largest are too little, and odd sizes pair up


def test_the_third_of_three_fermenters_wants_one_packet_where_two_are_there(breakwater_red):
    wish = wish_for(breakwater_red, 9.0, (8.0,))
    yeast = bought(with_yeast(breakwater_red, 2, "packets"), wish)["one boil", "yeast"]
    assert yeast.amount == Quantity(1.0, "1 packet", unit="packet")
