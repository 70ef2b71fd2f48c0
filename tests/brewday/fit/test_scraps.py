"""Nothing is left over of which nobody would keep the rest: a twentieth of a pack or of a line."""

from dataclasses import dataclass, replace

import pytest

from designer.brewday.fit.scraps import leaves_scraps_of_extract, scrap_of, used_up
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, wish_for
from designer.library.packs import packs
from designer.recipe.kinds import typed
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind
from tests.brewday.fit.kitchens import pairs
from tests.brewday.quantities import q

MANY = pairs((5.0, 9.0, 15.0), (0.5, 0.92, 0.97, 1.05), 3)


def test_a_twentieth_of_a_pack_is_a_scrap_and_more_is_not():
    """A judgement, no source."""
    assert scrap_of(1.0, 0.96) == pytest.approx(0.04)
    assert scrap_of(1.0, 0.95) == pytest.approx(0.05)
    assert scrap_of(1.0, 0.94) == 0.0
    assert scrap_of(1.0, 1.0) == 0.0
    assert scrap_of(1.0, 1.2) == 0.0


def test_of_grain_hops_and_finings_the_last_bit_goes_in_and_of_extract_it_is_told(porter):
    syrup, dry, grain = porter.fermentables
    made = replace(
        porter,
        fermentables=(
            replace(syrup, amount=q(0.97 * syrup.amount.value, "kg")),
            dry,
            replace(grain, amount=q(0.97 * grain.amount.value, "kg")),
        ),
        hops=tuple(
            replace(each, amount=q(share * each.amount.value, "kg"))
            for each, share in zip(porter.hops, (0.96, 0.9), strict=True)
        ),
    )
    assert leaves_scraps_of_extract(porter, made)
    assert not leaves_scraps_of_extract(porter, porter)
    found = used_up(porter, made)
    assert found.fermentables[0] == made.fermentables[0]
    assert found.fermentables[2].amount.value == grain.amount.value
    assert found.hops[0].amount.value == porter.hops[0].amount.value
    assert found.hops[1] == made.hops[1]
    assert used_up(porter, found) == found


@pytest.mark.parametrize("name", MANY)
def test_no_way_leaves_a_scrap_of_a_line(name):
    recipe, wish = MANY[name]
    wish = replace(wish, packs=packs("metric"))
    for whole_packs in (False, True):
        for way in ways(recipe, replace(wish, whole_packs=whole_packs)).ways:
            for left in way.left_over:
                if left.lines == "yeast":  # a packet is left over whole or not at all
                    continue
                [line] = [
                    each for each in lines_of(recipe, left.lines) if each.line_id == left.line_id
                ]
                assert left.amount.value > 0.05 * line.amount.value, (way.key, left.name)
            for bought in way.must_buy:
                sizes = [each.mass_kg for each in wish.packs for _, pack in bought.packs
                         if each.said == pack and each.kind == bought.kind]  # fmt: skip
                assert bought.over_kg == 0.0 or bought.over_kg > 0.05 * min(sizes), way.key


@pytest.mark.parametrize("pot_l", [6.0, 7.0, 8.0, 9.0])
def test_of_hops_in_hand_no_scrap_goes_back_into_the_freezer(quay_pale, pot_l):
    """The bag holds a little more than would do: all of it goes in."""

    def used(hand_kg):
        hand = HopInHand("Magnum", typed(Kind.FRACTION, 0.12), hand_kg)
        wish = replace(wish_for(quay_pale, pot_l, (25.0,)), hops_in_hand=(hand,))
        found = {way.key: way for way in ways(quay_pale, wish).every_way}
        if "other hops" not in found:
            return None
        [hop] = [each for each in found["other hops"].recipes[0].hops if each.name == "Magnum"]
        return hop.amount.value

    plenty = used(0.2)
    if plenty is None:
        pytest.skip("this pot boils nothing at once, or lacks no bitterness")
    assert used(plenty + 0.0005) == pytest.approx(plenty + 0.0005)
    assert used(1.2 * plenty) == pytest.approx(plenty)


def test_of_a_bag_that_is_bought_no_scrap_is_left(slipway_bitter):
    """A shop that sells bags but a gram larger than is wanted: the whole bag goes in."""
    plain = wish_for(slipway_bitter, 6.0)

    def buys(*packs):
        found = {
            way.key: way for way in ways(slipway_bitter, replace(plain, packs=packs)).every_way
        }
        [hops] = [each for each in found["more hops"].must_buy if each.kind == "hops"]
        return hops

    wanted = buys().mass_kg
    all_of_it = buys(Bag("large bag", 1.04 * wanted))
    assert all_of_it.over_kg == 0.0
    assert all_of_it.mass_kg == pytest.approx(1.04 * wanted, abs=1e-4)
    assert buys(Bag("large bag", 1.2 * wanted)).mass_kg == pytest.approx(wanted)


@dataclass(frozen=True)
class Bag:
    said: str
    mass_kg: float
    kind: str = "hops"
