"""A hop in hand goes into a way, or it is said in a sentence why not."""

from dataclasses import replace

import pytest

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import HopInHand, wish_for
from designer.recipe.quantity import Quantity
from designer.workbench.fit_text import fit_document, fit_lines

STRONG = HopInHand("Magnum", Quantity(0.12, "12 %"), 0.05)
WEAK = HopInHand("Fuggle of last year", Quantity(0.04, "4 %"), 0.05)


def asked(recipe, pot_l, *hands):
    return ways(recipe, replace(wish_for(recipe, pot_l), hops_in_hand=hands))


def test_a_weaker_hop_that_is_not_reached_is_told(slipway_bitter):
    answer = asked(slipway_bitter, 6.0, WEAK, STRONG)
    assert any(way.key == "other hops" for way in answer.every_way)
    [said] = answer.idle_hops
    assert said.text == (
        "Fuggle of last year stays in the freezer: a stronger hop in hand is enough."
    )
    assert said.text in " ".join(" ".join(fit_lines(slipway_bitter, answer)).split())
    assert fit_document(answer)["idle_hops"] == [said.text]


def test_where_no_bitterness_is_lost_none_is_needed(slipway_bitter):
    answer = asked(slipway_bitter, 30.0, STRONG, WEAK)
    assert [each.id for each in answer.idle_hops] == ["hop-not-needed"] * 2


@pytest.mark.parametrize("hands", [(), (STRONG,)])
def test_a_hop_that_goes_in_needs_no_excuse(slipway_bitter, hands):
    assert asked(slipway_bitter, 6.0, *hands).idle_hops == ()


def test_hops_that_are_not_enough_are_told_of_with_the_way_that_fails(slipway_bitter):
    little = replace(STRONG, mass_kg=0.0005)
    answer = asked(slipway_bitter, 6.0, little)
    assert [each.key for each in answer.no_ways if each.key == "other hops"] == ["other hops"]
    assert answer.idle_hops == ()
