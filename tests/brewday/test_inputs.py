"""What a recipe's lines become, and how doubtful each of them is taken to be."""

from dataclasses import replace

import pytest

from designer.brewday import hop_doubts, malt_doubts, vessel_doubts, yeast_doubts
from designer.brewday.day import brew, brew_samples, run_day
from designer.brewday.inputs import gather
from designer.brewday.pot import Contents
from designer.brewday.tolerances import LatinHypercube, Nominal, Tolerance
from designer.recipe.document import COOLING_WAYS, Fermentable, Hop, Pot, Process, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When

FERMENTER = When(Stage.FERMENTER, "fermenter")


def test_every_doubt_of_the_porter_has_its_name_and_its_width(harbour_porter):
    """The usual half widths: common practice, no source, but for those the fields name."""

    def of(doubt):
        return Tolerance(doubt.middle, (doubt.high - doubt.low) / 2.0, relative=False)

    liquid, dry, grain = harbour_porter.fermentables
    _, tolerances = brew_samples(harbour_porter, 8)
    assert tolerances == {
        "tap water temperature": Tolerance(12.0, 4.0, False),
        "water measured in": Tolerance(6.5, 0.04, True),
        "stove power": Tolerance(2000.0, 0.15, True),
        "efficiency of the stove": Tolerance(0.74, pytest.approx(0.10), False),
        "cooling constant": Tolerance(1.0, pytest.approx(0.521, abs=1e-3), False),
        "heat lost by the pot": Tolerance(4.0, 1.0, False),
        "evaporation": Tolerance(0.9, 0.35, True),
        "wort left in the pot": Tolerance(0.3, 0.6, True),
        "fermenter mark": of(vessel_doubts.fermenter_mark(10.0)),
        "freezer temperature": Tolerance(-18.0, 4.0, False),
        "water held by grain": Tolerance(1.0, 0.3, False),
        "too little yeast": of(yeast_doubts.LITTLE_YEAST),
        "attenuation": of(yeast_doubts.UNKNOWN_YEAST),
        "bitterness model": of(hop_doubts.BITTERNESS_MODEL),
        "age of the hops": of(hop_doubts.unknown_age("not known")),
        "effect of gravity on hops": of(hop_doubts.GRAVITY_EFFECT),
        "what hops give below the boil": of(hop_doubts.BELOW_THE_BOIL),
        "hops that do not dissolve": of(hop_doubts.UNDISSOLVED),
        "how much more pellets give than whole hops": of(hop_doubts.PELLETS),
        "colour model": of(malt_doubts.COLOUR_MODEL),
        "extract that has darkened": of(malt_doubts.DARKENING),
        "kitchen scale": Tolerance(0.25, 0.01, True),
        "syrup left in the tin": of(malt_doubts.LEFT_IN_TIN),
        "solids of Light liquid malt extract": of(malt_doubts.solids(liquid)),
        "fermentability of Light liquid malt extract": of(malt_doubts.fermentability(liquid)),
        "colour of Light liquid malt extract": of(malt_doubts.unnamed_colour(liquid)),
        "solids of Light dry malt extract": of(malt_doubts.solids(dry)),
        "fermentability of Light dry malt extract": of(malt_doubts.fermentability(dry)),
        "colour of Light dry malt extract": of(malt_doubts.unnamed_colour(dry)),
        "steep yield of Medium crystal malt": of(malt_doubts.unnamed_steep_yield(grain)),
        "steep yield": of(malt_doubts.STEEP_YIELD),
        "extract held in the bag": of(malt_doubts.HELD_IN_BAG),
        "colour of Medium crystal malt": Tolerance(60.0, 0.15, True),
        "fermentability of steeped grain": of(malt_doubts.fermentability(grain)),
        "weight of Challenger, boil 60 min": Tolerance(0.02, 0.0015, False),
        "alpha acid of Challenger": Tolerance(0.072, 0.10, True),
        "weight of East Kent Golding, flame-out": Tolerance(0.02, 0.0015, False),
        "alpha acid of East Kent Golding": Tolerance(0.052, 0.10, True),
        "wort held by hops": Tolerance(6.0, pytest.approx(2.79, abs=0.01), False),
    }


def test_a_typed_spread_takes_the_place_of_the_usual_one(harbour_porter):
    def give(value, spread):
        return Quantity(value, f"{value}", spread)

    liquid, dry, grain = harbour_porter.fermentables
    first, second = harbour_porter.hops
    recipe = replace(
        harbour_porter,
        fermentables=(
            replace(liquid, amount=give(1.5, 0.05), extract=give(0.79, 0.004)),
            replace(dry, colour=give(9.0, 0.5)),
            replace(grain, extract=give(0.40, 0.03), amount=give(0.25, 0.0)),
            Fermentable("Kit", "hopped kit extract", give(1.7, 0.02), label_bitterness=give(25, 2)),
        ),
        hops=(replace(first, alpha=give(0.07, 0.001), amount=give(0.02, 0.0001)), second),
    )
    _, tolerances = brew_samples(with_line_ids(recipe), 8)
    assert tolerances["kitchen scale"] == Tolerance(1.7, 0.02, False)
    assert tolerances["solids of Light liquid malt extract"] == Tolerance(0.79, 0.004, False)
    assert tolerances["colour of Light dry malt extract"] == Tolerance(9.0, 0.5, False)
    assert tolerances["steep yield"] == Tolerance(0.40, 0.03, False)
    assert tolerances["alpha acid of Challenger"] == Tolerance(0.07, 0.001, False)
    assert tolerances["weight of Challenger, boil 60 min"] == Tolerance(0.02, 0.0001, False)
    assert tolerances["label bitterness of Kit"] == Tolerance(25, 2, False)


def test_a_label_for_less_than_a_gram_says_nothing(kitchen):
    """However small the amount that was typed, the bitterness stays a number."""

    def ibu(label_kg):
        kit = Fermentable("Kit", "hopped kit extract", kitchen.q(1.7), FERMENTER,
                          label_bitterness=kitchen.q(25), label_volume=kitchen.q(23),
                          label_amount=kitchen.q(label_kg))  # fmt: skip
        return brew(kitchen.recipe(fermentables=(kit,))).gives[1].bitterness_ibu

    assert ibu(0.0) == ibu(0.0009) == ibu(1.7) == ibu(2e-313)
    assert ibu(0.001) == pytest.approx(1700 * ibu(1.7))


def test_the_bitterness_of_a_label_is_doubtful_by_itself(kitchen):
    kit = Fermentable("Kit", "hopped kit extract", kitchen.q(1.7), label_bitterness=kitchen.q(25))
    _, tolerances = brew_samples(kitchen.recipe(fermentables=(kit,)), 8)
    assert tolerances["label bitterness of Kit"] == Tolerance(25.0, 0.15, True)


def hop_in(kitchen, **parts):
    hop = Hop("A", alpha=kitchen.q(0.05), amount=kitchen.q(0.02), **parts)
    return gather(kitchen.recipe(hops=(hop,)), Nominal()).hops[0]


def test_pellets_give_a_tenth_more_than_whole_hops(kitchen):
    """Pellet factor 1.10 (common practice, no source); dry hops bring no bitterness anyway."""
    assert hop_in(kitchen, form="whole").counted_mg == pytest.approx(1000.0)
    assert hop_in(kitchen, form="pellets").alpha_mg == pytest.approx(1000.0)
    assert hop_in(kitchen, form="pellets").counted_mg == pytest.approx(1100.0)
    dry = When(Stage.DRY_HOP, "dry hop 3 days", days=3.0)
    assert hop_in(kitchen, form="pellets", when=dry).counted_mg == pytest.approx(1000.0)


def test_hops_hold_wort_by_their_form(kitchen):
    """Whole 4.9 L/kg weighed, pellets 4 to 6 and 10 with trub (home records, second-hand)."""
    assert hop_in(kitchen, form="pellets").held_l == pytest.approx(0.12)
    assert hop_in(kitchen, form="whole").held_l == pytest.approx(0.10)
    _, tolerances = brew_samples(
        kitchen.recipe(
            process=kitchen.quiet_process(start_water=kitchen.q(5)),
            hops=(Hop("A", amount=kitchen.q(0.02)),),
        ),
        8,
    )
    assert "wort held by hops" not in tolerances


def line_in(kitchen, **parts):
    return gather(kitchen.recipe(fermentables=(Fermentable(**parts),)), Nominal()).extracts[0]


def test_lines_without_an_amount_count_as_nothing(kitchen):
    line = line_in(kitchen, name="Malt")
    assert (line.extract_kg, line.water_kg, line.grain_kg, line.colour_units) == (0, 0, 0, 0)
    assert not line.has_label
    hop = gather(kitchen.recipe(hops=(Hop("A"),)), Nominal()).hops[0]
    assert (hop.mass_kg, hop.alpha_mg, hop.held_l) == (0, 0, 0)


@pytest.mark.parametrize(
    ("kind", "extract_kg", "water_kg", "grain_kg"),
    [
        ("liquid extract", 1.6, 0.4, 0.0),
        ("dry extract", 1.93, 0.07, 0.0),
        ("sugar", 2.0, 0.0, 0.0),
        ("steeping grain", 0.78, 0.0, 2.0),
        ("mash grain", 0.0, 0.0, 2.0),
    ],
)
def test_two_kilograms_of_each_kind(kind, extract_kg, water_kg, grain_kg, kitchen):
    """Solids: common practice; steep: Palmer, How to Brew, 1st ed., online, table 9."""
    line = line_in(kitchen, name="A", kind=kind, amount=kitchen.q(2))
    found = (line.extract_kg, line.water_kg, line.grain_kg)
    assert found == pytest.approx((extract_kg, water_kg, grain_kg))
    assert line.is_grain == (grain_kg > 0)


@pytest.mark.parametrize(
    ("kind", "fermentability", "simple"),
    [
        ("sugar", 1.0, True),
        ("sugar", 0.90, True),
        ("sugar", 0.5, False),
        ("sugar", 0.0, False),
        ("liquid extract", 0.95, False),
    ],
)
def test_only_sugar_that_ferments_wholly_ferments_alike_with_every_yeast(
    kind, fermentability, simple, kitchen
):
    parts = {"name": "A", "kind": kind, "amount": kitchen.q(2)}
    line = line_in(kitchen, **parts, fermentability=kitchen.q(fermentability))
    assert line.is_simple_sugar is simple
    recipe = kitchen.recipe(
        fermentables=(Fermentable(**parts, fermentability=kitchen.q(fermentability)),)
    )
    doubtful = "fermentability of A" in brew_samples(recipe, 8)[1]
    assert doubtful == (not simple and fermentability > 0.0)


def test_a_yeast_that_eats_everything_eats_no_more(kitchen):
    recipe = kitchen.recipe(yeast=Yeast(attenuation=Quantity(0.99, "99 %", 0.05)))
    day, _ = brew_samples(recipe, 64)
    assert float(gather(recipe, Nominal()).attenuation) == 0.99
    syrup = Fermentable("A", amount=kitchen.q(1), fermentability=Quantity(0.99, "99 %"))
    strong = replace(recipe, fermentables=(syrup,))
    assert run_day(strong, Nominal(), noting=False)[0].beer.final_gravity < 1.0
    assert day.beer.original_gravity == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("way", "coldest_c"),
    [("ice bath", 2.0), ("cold water bath", 14.0), ("coil", 14.0), ("standing in air", 21.0)],
)
def test_no_wort_gets_colder_than_a_degree_above_what_cools_it(way, coldest_c, kitchen):
    process = kitchen.quiet_process(
        start_water=kitchen.q(5, "L"),
        cooling=way,
        cooling_constant=None,
        tap_temperature=kitchen.q(14, "°C"),
        room_temperature=kitchen.q(21, "°C"),
        cool_to=kitchen.q(-5, "°C"),
    )
    recipe = kitchen.recipe(process=process, pot=Pot(coil=kitchen.q(0.5, "L")))
    given = gather(recipe, Nominal())
    assert given.cooling.legs(Contents(water_kg=5.0), -5.0)[-1].coolant_c == coldest_c
    assert given.coil_l == (0.5 if way == "coil" else 0.0)
    assert brew(recipe).fermenter.cool_to_c == pytest.approx(coldest_c + 1.0)


def test_evaporation_is_counted_in_cold_litres(kitchen):
    process = kitchen.quiet_process(start_water=kitchen.q(8, "L"))
    process = replace(process, evaporation=kitchen.q(1.5, "L/h"))
    recipe = kitchen.recipe(process=process, pot=Pot(power=kitchen.q(1e5, "W")))
    assert brew(recipe).pot.evaporated_l == pytest.approx(1.5, rel=1e-5)


def test_syrup_in_the_fermenter_makes_room_for_itself(kitchen):
    """Source: conservation of mass and energy."""
    syrup = Fermentable("Syrup", "liquid extract", kitchen.q(2, "kg"), FERMENTER)
    kit = Fermentable("Kit", "hopped kit extract", kitchen.q(1, "kg"), FERMENTER,
                      label_bitterness=kitchen.q(300), colour=kitchen.q(20))  # fmt: skip
    process = kitchen.quiet_process(
        start_water=kitchen.q(5, "L"),
        top_up_to=kitchen.q(12, "L"),
        frozen_top_up=kitchen.q(1, "kg"),
        pitch_temperature=kitchen.q(22, "°C"),
        room_temperature=kitchen.q(21, "°C"),
    )
    day, run = run_day(
        kitchen.recipe(process=process, fermentables=(syrup, kit)), Nominal(), noting=True
    )
    assert day.fermenter.batch_l == pytest.approx(12.0)
    assert day.fermenter.mixed_c == pytest.approx(22.0, abs=0.01)
    assert run.fermenter.extract_kg == pytest.approx(2 * 0.8 + 0.8)
    water = 5 * 0.9982 + 0.4 + 0.2 + day.fermenter.top_up_l * 0.998203
    assert run.fermenter.water_kg == pytest.approx(water, abs=1e-3)
    assert day.beer.bitterness_ibu == pytest.approx(300.0 / 12.0)
    assert day.gives[2].bitterness_ibu == pytest.approx(300.0 / 12.0)
    units = sum(line.colour_mcu for line in day.gives.values())
    assert units == pytest.approx(8.3454 * (2 * 5.0 + 20.0) / 12.0)
    by_curve = 1.4922 * units**0.6859
    assert day.beer.colour_srm == pytest.approx(by_curve)


def test_more_than_the_mark_gets_no_top_up(kitchen):
    process = kitchen.quiet_process(start_water=kitchen.q(5, "L"), top_up_to=kitchen.q(4, "L"))
    day = brew(kitchen.recipe(process=process))
    assert day.fermenter.top_up_l == 0.0
    assert day.fermenter.batch_l == pytest.approx(5.0, abs=0.01)


def test_what_trub_and_hops_keep_is_never_more_than_there_is(kitchen):
    process = replace(
        kitchen.quiet_process(start_water=kitchen.q(2, "L")),
        left_in_pot=kitchen.q(1.5, "L"),
        hop_absorption=kitchen.q(10, "L/kg"),
    )
    hops = (Hop("A", "whole", kitchen.q(0.05), kitchen.q(0.2, "kg")),)
    day = brew(kitchen.recipe(process=process, hops=hops))
    assert day.fermenter.lost_to_trub_l == pytest.approx(1.5)
    assert day.fermenter.lost_to_hops_l == pytest.approx(0.5, abs=0.01)
    assert day.fermenter.from_pot_l == pytest.approx(0.0, abs=1e-9)


def test_a_recipe_of_nothing_is_a_drop_of_water():
    day = brew(Recipe())
    assert day.beer.original_gravity == 1.0
    assert day.fermenter.batch_l < 1e-5


def cooled(recipe, way, kitchen):
    process = replace(recipe.process, cooling=way, cool_to=kitchen.q(22), cooling_constant=None)
    return brew(replace(recipe, process=process))


@pytest.mark.parametrize(
    ("way", "least", "most"),
    [
        ("ice bath", 20, 40),
        ("coil", 5, 15),
        ("cold water bath", 30, 60),
        ("standing in air", 6 * 60, 14 * 60),
    ],
)
def test_a_kitchen_pot_cools_as_long_as_brewers_wait(way, least, most, harbour_porter, kitchen):
    """Half an hour in ice, overnight on its own; common practice, no source.

    A coil is quick with so little wort: 0.3 per minute (computed, 150 W/K).
    """
    assert least <= cooled(harbour_porter, way, kitchen).fermenter.cooling_min <= most


def test_ice_is_faster_than_cold_water_and_both_than_air(harbour_porter, kitchen):
    minutes = {
        way: cooled(harbour_porter, way, kitchen).fermenter.cooling_min for way in COOLING_WAYS
    }
    assert minutes["ice bath"] < minutes["cold water bath"] < minutes["standing in air"]
    assert minutes["coil"] < minutes["cold water bath"]


def doubtful(value, give):
    return Quantity(value, str(value), give)


def test_no_share_is_drawn_above_the_whole(kitchen):
    """However doubtful: water does not run hotter than boiling, malt is not more than itself."""
    recipe = Recipe(
        process=Process(tap_temperature=doubtful(99.0, 5.0)),
        fermentables=(
            Fermentable("Dry", "dry extract", kitchen.q(1.0), extract=doubtful(0.98, 0.1)),
            Fermentable("Syrup", "sugar", kitchen.q(1.0), fermentability=doubtful(0.895, 0.1)),
        ),
        hops=(Hop("A", "whole", alpha=doubtful(0.95, 0.2), amount=doubtful(0.1, 0.0)),),
        yeast=Yeast("Hungry", attenuation=doubtful(0.97, 0.2)),
    )
    inputs = gather(recipe, LatinHypercube(64))
    assert inputs.tap_c.max() == 100.0
    assert inputs.attenuation.max() == 1.0
    dry, syrup = inputs.extracts
    assert dry.water_kg.min() == 0.0
    assert syrup.fermentability.max() <= 1.0
    assert inputs.hops[0].alpha_mg.max() == pytest.approx(100_000.0)


def test_only_a_coil_takes_room_in_the_pot(harbour_porter, kitchen):
    pot = replace(harbour_porter.pot, coil=kitchen.q(0.4, "L"))
    for way in COOLING_WAYS:
        recipe = replace(
            harbour_porter, pot=pot, process=replace(harbour_porter.process, cooling=way)
        )
        assert gather(recipe, Nominal()).coil_l == (0.4 if way == "coil" else 0.0)
