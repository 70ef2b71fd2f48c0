"""The Buy list: in the packs of a shop, with what is left over, and how that is kept."""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.library.packs import pack_size, packs
from designer.recipe.choices import PrimingSugar
from designer.recipe.document import PlannedBoil, PlannedFermenter
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.blocks import SideBySide
from designer.sheet.buying import shopping
from designer.sheet.figures import Figures
from designer.sheet.plan import Plan
from designer.units import ShownUnits, read


def lists(sheet):
    [section] = [each for each in sheet.sections if each.key == "prepare"]
    [both] = [each for each in section.blocks if isinstance(each, SideBySide)]
    return both.left[0].items, both.right[0].items


def notes(sheet):
    """What stands beside each thing to buy, by its name."""
    return {item.name: item.note for item in lists(sheet)[0]}


def test_each_thing_is_bought_in_packs_with_what_is_left_of_them(example, sheet_of):
    found = notes(sheet_of(example("harbour_lamp_porter")))
    assert found["Light liquid malt extract"] == "1.5 kg tin, 500 g left"
    assert found["Light dry malt extract"] == "500 g bag, 100 g left"
    assert found["Chocolate malt"] == "crushed, 250 g bag, 100 g left"
    assert found["Challenger, pellets"] == "7.2 % alpha, 25 g bag, 7 g left"
    assert found["Dry English ale yeast"] == "1 packet"


def test_several_packs_are_counted_and_a_full_one_leaves_nothing(example, sheet_of):
    porter = example("harbour_lamp_porter")
    first, second, *rest = porter.fermentables
    more = replace(
        porter,
        fermentables=(
            replace(first, amount=Quantity(4.5, "4.5 kg")),
            replace(second, amount=Quantity(1.5, "1.5 kg")),
            *rest,
        ),
    )
    found = notes(sheet_of(more))
    assert found["Light liquid malt extract"] == "3 kg tin + 1.5 kg tin"
    assert found["Light dry malt extract"] == "1 kg bag + 500 g bag"
    twice = replace(more, hops=(replace(more.hops[0], amount=Quantity(0.19, "190 g")),))
    assert "2 × 100 g bag, 10 g left" in notes(sheet_of(twice))["Challenger, pellets"]


def test_additions_of_one_hop_share_its_packs(example, sheet_of):
    """15 g in the boil and 10 g dry are one bag of 25 g, and nothing is left."""
    assert notes(sheet_of(example("slipway_bitter")))["East Kent Golding, whole"] == (
        "5.2 % alpha, 25 g bag"
    )


def test_what_a_kit_holds_is_in_no_pack_of_its_own(example, sheet_of):
    bought, weighed = lists(sheet_of(example("breakwater_red")))
    assert not any(" bag" in item.note or " tin" in item.note for item in bought)
    assert not any("what is left" in item.name for item in weighed)


def test_packs_are_those_of_the_units_shown_or_of_the_shop(example, sheet_of):
    wheat = example("foghorn_wheat")
    us = notes(sheet_of(wheat, "us"))
    assert us["Wheat dry malt extract"] == "3 lb bag, 12 oz left"
    both = notes(sheet_of(wheat, "both"))
    assert both["Wheat dry malt extract"] == "1 kg bag + 500 g bag, 479 g left"
    own = (pack_size("dry extract", read(Kind.MASS, "1.2 kg"), "paper sack"),)
    mine = notes(sheet_of(wheat, packs=own))
    assert mine["Wheat dry malt extract"] == "1.2 kg paper sack, 179 g left"
    assert mine["Wheat liquid malt extract"] == ""


def test_where_no_packs_are_known_only_amounts_are_told(example, sheet_of):
    bought, weighed = lists(sheet_of(example("harbour_lamp_porter"), packs=()))
    assert {item.name: item.note for item in bought}["Light dry malt extract"] == ""
    assert not any("what is left" in item.name for item in weighed)


def test_what_is_left_is_kept_in_its_own_way_and_said_once_for_each_kind(example, sheet_of):
    """Common practice, no source; at length in `brewday/fit/keeping.py`."""
    _, weighed = lists(sheet_of(example("harbour_lamp_porter")))
    assert weighed[-1].name == "what is left: airtight, dry"
    assert weighed[-1].note == "syrup cold, 3 weeks; grain 4 weeks; hops frozen"
    porter = example("harbour_lamp_porter")
    dry = replace(porter, fermentables=porter.fermentables[1:2], hops=())
    _, weighed = lists(sheet_of(dry))
    assert (weighed[-1].name, weighed[-1].note) == ("what is left: airtight, dry", "")


@pytest.mark.parametrize(
    ("sugar", "pack"),
    [
        (PrimingSugar.TABLE_SUGAR, ""),
        (PrimingSugar.DEXTROSE, "500 g pack"),
        (PrimingSugar.DRY_EXTRACT, "500 g bag"),
    ],
)
def test_priming_sugar_that_no_kitchen_has_is_bought_in_packs(kitchen_of, sheet_of, sugar, pack):
    found = notes(sheet_of(kitchen_of(process={"priming_sugar": sugar})))
    [note] = [note for name, note in found.items() if name.endswith("for the bottles")]
    assert note.startswith(pack)
    assert bool(note) == bool(pack)


def bought(recipe):
    """The Buy list of a recipe with a plan."""
    sizes = packs("metric")
    plan = Plan(recipe, look_ahead(recipe), Figures(ShownUnits.METRIC), 540, None, packs=sizes)
    return [(item.amount, item.name, item.note) for item in shopping(plan).items]


def in_boils(recipe, *shares):
    boils = tuple(
        PlannedBoil(pot=recipe.pot, share=typed(Kind.FRACTION, share)) for share in shares
    )
    return replace(recipe, boils=boils)


def test_for_two_boils_is_bought_what_both_take(example):
    porter = example("harbour_lamp_porter")
    assert bought(in_boils(porter, 0.5, 0.5))[:6] == bought(porter)[:6]
    half = {name: amount for amount, name, _ in bought(in_boils(porter, 0.5))}
    assert half["Light liquid malt extract"] == "500 g"


def test_of_a_kit_the_whole_is_bought_where_a_boil_takes_but_half(example):
    amounts = {name: amount for amount, name, _ in bought(in_boils(example("breakwater_red"), 0.5))}
    assert amounts["Hopped kit extract, amber or bitter"] == "1.7 kg"
    assert amounts["Fuggle, pellets"] == "20 g"


def test_two_fermenters_take_two_packets(example):
    red = example("breakwater_red")
    buckets = replace(red, fermenters=(PlannedFermenter(red.fermenter),) * 2)
    [(amount, note)] = [(a, n) for a, name, n in bought(buckets) if name == red.yeast.name]
    assert (amount, note) == ("20 g", "2 packets")


@pytest.mark.parametrize("pack_set", ["metric", "us"])
def test_every_label_that_comes_with_the_program_is_spoken_in_each_language(
    example, sheet_of, pack_set
):
    labels = {each.label for each in packs(pack_set) if each.kind != "yeast"}
    for language in ("de", "fr"):
        said = " ".join(
            notes(sheet_of(example("harbour_lamp_porter"), pack_set, language=language)).values()
        )
        assert not labels & set(said.replace(",", " ").split())
