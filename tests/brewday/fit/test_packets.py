"""Yeast in whole packets: for a batch of another size, and into how many fermenters it goes."""

from dataclasses import replace

import pytest

from designer.brewday.fit.keeping import KEEPING
from designer.brewday.fit.leftovers import left_over
from designer.brewday.fit.packets import packets_of, pitching, so_many, yeast_in_share
from designer.brewday.fit.scaling import scale
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Yeast
from designer.recipe.quantity import Quantity


def yeast(value, unit="g", name="Ale yeast"):
    return Yeast(name, amount=Quantity(float(value), f"{value:g} {unit}", unit=unit))


@pytest.mark.parametrize(
    ("there", "ratio", "then"),
    [(11, 0.5, "11 g"), (11, 1.15, "11 g"), (11, 1.16, "22 g"), (23, 0.5, "11.5 g"),
     (22, 0.65, "11 g"), (22, 0.66, "22 g"), (33, 0.5, "22 g"), (33, 0.1, "11 g"),
     (22, 1.5, "33 g"), (14, 0.5, "7 g"), (14, 2.0, "28 g")],
)  # fmt: skip
def test_yeast_for_another_batch_goes_in_whole_packets(there, ratio, then):
    """A batch larger by 15 hundredths takes no other: common practice, no source."""
    assert yeast_in_share(yeast(there), ratio).amount.text == then


def test_packets_and_yeast_that_nobody_weighed_stay_whole():
    assert yeast_in_share(yeast(2, "packets"), 0.5).amount.text == "1 packet"
    assert yeast_in_share(yeast(1, "sachet"), 2.0).amount.text == "2 sachets"
    assert yeast_in_share(yeast(1.5, "packets"), 0.8).amount.text == "1.5 packets"
    assert so_many(yeast(1.5, "packets"), 1).text == "1 packet"
    assert yeast_in_share(Yeast("Ale yeast"), 3.0) == Yeast("Ale yeast")
    assert yeast_in_share(yeast(100, "mL"), 0.5).amount.text == "100 mL"
    assert yeast_in_share(yeast(100, "mL"), 2.0).amount.text == "200 mL"


def said(of, fermenters, keeps_rest=False):
    return [each.text for each in pitching(of, fermenters, keeps_rest=keeps_rest)]


@pytest.mark.parametrize(
    ("there", "fermenters", "words"),
    [
        (11, 1, []),
        (11, 2, ["Pitch a whole packet of yeast into each fermenter (Ale yeast)."]),
        (23, 2, ["Pitch a whole packet of yeast into each fermenter (Ale yeast)."]),
        (44, 2, ["Pitch 2 packets of yeast into each fermenter (Ale yeast)."]),
        (33, 2, ["There are 3 packets of yeast (Ale yeast): pitch 1 into each fermenter and share "
                 "out the rest between them."]),
        (55, 2, ["There are 5 packets of yeast (Ale yeast): pitch 2 into each fermenter and share "
                 "out the rest between them."]),
    ],
)  # fmt: skip
def test_what_is_pitched_into_each_agrees_with_the_packets_there_are(there, fermenters, words):
    assert said(yeast(there), fermenters) == words


def test_where_part_of_a_kit_is_kept_its_yeast_is_not():
    assert said(yeast(11), 1, keeps_rest=True) == [
        "Pitch the whole packet of yeast (Ale yeast): an opened one does not keep."
    ]
    assert said(yeast(22), 1, keeps_rest=True) == [
        "Pitch 2 whole packets of yeast (Ale yeast): an opened one does not keep."
    ]
    assert said(yeast(11, name=""), 2, keeps_rest=True) == []


def with_grams(recipe, grams):
    return replace(recipe, yeast=replace(recipe.yeast, amount=yeast(grams).amount))


def test_a_smaller_batch_keeps_a_packet_closed(breakwater_red):
    kit = with_grams(breakwater_red, 23)
    [way] = [each for each in ways(kit, wish_for(kit, 9.0, (12.0,))).ways
             if each.key == "smaller batch"]  # fmt: skip
    assert way.recipes[0].yeast.amount.text == "11.5 g"
    [left] = [each for each in way.left_over if each.lines == "yeast"]
    assert (left.name, left.amount.text) == (kit.yeast.name, "11.5 g")
    assert left.keeping == KEEPING["yeast"]
    assert any("Pitch the whole packet" in each.text for each in way.steps)


def test_no_packet_is_left_where_each_fermenter_takes_one(breakwater_red):
    kit = with_grams(breakwater_red, 23)
    half = replace(kit, yeast=yeast_in_share(kit.yeast, 0.5))
    assert [each.amount.text for each in left_over(kit, [half]) if each.lines == "yeast"] == [
        "11.5 g"
    ]
    assert not [each for each in left_over(kit, [half], 2) if each.lines == "yeast"]
    assert not [each for each in left_over(kit, [kit]) if each.lines == "yeast"]


def test_a_recipe_made_smaller_takes_fewer_packets(porter):
    strong = with_grams(porter, 33)
    assert packets_of(scale(strong, 5.0).recipe.yeast) == 2
