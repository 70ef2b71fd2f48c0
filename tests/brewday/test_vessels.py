"""A vessel's contents, and what leaves it, against sums done by hand: mass, heat, room."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.pot import Contents, Flow
from designer.recipe.document import Fermentable, Hop
from designer.recipe.quantity import Stage, When


def test_an_empty_vessel_holds_nothing_at_the_warmth_of_a_kitchen():
    empty = Contents()
    assert (empty.extract_kg, empty.water_kg, empty.grain_kg, empty.colour_units) == (0, 0, 0, 0)
    assert empty.temp_c == 20.0
    assert empty.heat_kj == 0.0
    assert empty.filled_l == empty.volume_l == 0.0
    assert empty.flows == []
    assert Flow("fill", "water") == ("fill", "water", 0.0, 0.0, 0.0, 0.0)


def test_water_that_is_warmed_takes_4_19_kilojoules_a_kilogram_and_kelvin():
    """Specific heat of water, 4.19 kJ/(kg K) between 20 and 70 °C (steam tables)."""
    pot = Contents(keeps_book=True)
    pot.pour_in("fill", "water", 0.0, 5.0, 20.0)
    pot.warm_to("heat", "stove", 70.0)
    poured, warmed = pot.flows
    assert (poured.stage, poured.cause, poured.water_kg) == ("fill", "water", 5.0)
    assert poured.heat_kj == pytest.approx(5 * 4.19 * 20, rel=0.005)
    assert warmed[:5] == ("heat", "stove", 0.0, 0.0, 0.0)
    assert warmed.heat_kj == pytest.approx(5 * 4.19 * 50, rel=0.005)
    assert pot.heat_kj == pytest.approx(poured.heat_kj + warmed.heat_kj)
    assert pot.temp_c == pytest.approx(70.0)
    assert pot.heat_capacity_at(45.0) == pytest.approx(5 * 4.19, rel=0.005)


def test_two_waters_meet_in_the_middle():
    pot = Contents()
    pot.pour_in("fill", "cold", 0.0, 3.0, 10.0)
    pot.pour_in("fill", "hot", 0.0, 3.0, 70.0)
    assert pot.temp_c == pytest.approx(40.0, abs=0.1)
    assert pot.water_kg == 6.0
    assert pot.flows == []  # no book was asked for


def test_what_is_booked_in_and_out_leaves_nothing():
    pot = Contents(keeps_book=True)
    pot.book("a", "in", extract_kg=1.0, water_kg=4.0, grain_kg=0.5, heat_kj=300.0)
    assert pot.flows == [Flow("a", "in", 1.0, 4.0, 0.5, 300.0)]
    pot.book("b", "nothing")
    assert pot.flows[1] == Flow("b", "nothing")
    assert pot.heat_kj == pytest.approx(300.0)
    pot.book("c", "out", extract_kg=-1.0, water_kg=-4.0, grain_kg=-0.5, heat_kj=-300.0)
    assert (pot.extract_kg, pot.water_kg, pot.grain_kg, pot.heat_kj) == (0.0, 0.0, 0.0, 0.0)


def test_a_kilogram_of_sugar_in_four_of_water_is_twenty_plato():
    """Per cent by mass; 20 °P are 1.0830 (ICUMSA SPS-4), and so fill 5 / 1.0830 / 0.9982 litres."""
    pot = Contents()
    pot.pour_in("a", "syrup", 1.0, 4.0, 20.0)
    assert pot.plato == pytest.approx(20.0)
    assert pot.gravity_sg == pytest.approx(1.0830, abs=1e-4)
    assert pot.volume_l == pytest.approx(5 / 1.0830 / 0.9982, rel=1e-4)
    assert pot.filled_l == pytest.approx(pot.volume_l, rel=1e-4)
    pot.warm_to("b", "stove", 100.0)
    assert pot.filled_l == pytest.approx(pot.volume_l * 1.04, rel=0.01)


def test_grain_takes_room_in_the_pot_while_it_steeps():
    """0.8 L a kilogram (from memory), and no more wort for it."""
    pot = Contents()
    pot.pour_in("a", "water", 0.0, 5.0, 20.0)
    before = pot.volume_l
    pot.book("b", "grain", grain_kg=1.0)
    pot.temp_c = 20.0
    assert pot.volume_l == before
    assert pot.filled_l == pytest.approx(before + 0.8)
    # malt counts as 0.40 of its mass of water (Palmer, How to Brew, 1st ed., online, ch. 16)
    assert pot.heat_capacity_at(20.0) == pytest.approx(4.18 * 5.4, rel=0.005)


def kit(kitchen, when, left_l):
    """A hopped tin of 25 IBU in 10 L, in water that neither boils off nor is topped up."""
    return kitchen.recipe(
        process=kitchen.quiet_process(
            start_water=kitchen.q(8), left_in_pot=kitchen.q(left_l), top_up_to=kitchen.q(10)
        ),
        fermentables=(
            Fermentable("Kit", "hopped kit extract", kitchen.q(1.7), when,
                        label_bitterness=kitchen.q(25), label_volume=kitchen.q(10)),
        ),
    )  # fmt: skip


def test_what_stays_in_the_pot_keeps_its_part_of_a_kit_s_bitterness(kitchen):
    """Mass balance of iso-alpha acids: leave a share of the wort, and that share is gone."""
    whole, part = (brew(kit(kitchen, kitchen.boil(60), left)) for left in (0.0, 2.0))
    moved = part.fermenter.from_pot_l / (part.fermenter.from_pot_l + 2.0)
    assert moved < 0.85
    assert whole.beer.bitterness_ibu == pytest.approx(25.0, rel=1e-6)
    assert part.beer.bitterness_ibu == pytest.approx(25.0 * moved, rel=1e-6)
    assert part.gives[1].bitterness_ibu == pytest.approx(25.0 * moved, rel=1e-6)
    assert part.gives[1].colour_mcu == pytest.approx(whole.gives[1].colour_mcu * moved, rel=1e-6)
    late = brew(kit(kitchen, When(Stage.FERMENTER, "fermenter"), 2.0))
    assert late.beer.bitterness_ibu == pytest.approx(25.0, rel=1e-6)
    assert late.gives[1].bitterness_ibu == pytest.approx(25.0, rel=1e-6)


def test_dry_hops_may_drink_the_batch_but_no_more(harbour_porter, kitchen):
    dry = Hop("A", "whole", kitchen.q(0.05), kitchen.q(5.0, "kg"),
              When(Stage.DRY_HOP, "dry hop 3 days", days=3.0))  # fmt: skip
    day = brew(replace(harbour_porter, hops=(*harbour_porter.hops, replace(dry, line_id=9))))
    assert day.beer.packaged_l == 0.0
    assert (
        0.9 * day.fermenter.batch_l < brew(harbour_porter).beer.packaged_l < day.fermenter.batch_l
    )


def test_the_time_line_shows_a_kit_s_bitterness_from_the_moment_it_is_in(kitchen):
    """25 IBU of 10 L are 250 mg, in however many litres the pot holds."""
    day = brew(kit(kitchen, kitchen.boil(60), 0.0))
    before = [each for each in day.moments if each.stage in ("fill", "heat water")]
    boiling = [each for each in day.moments if each.stage == "boil"]
    assert all(each.bitterness_ibu == 0.0 for each in before)
    for each in boiling:
        assert each.bitterness_ibu == pytest.approx(250.0 / each.wort_l, rel=1e-6)
    assert day.fermenter.pot_ibu == pytest.approx(250.0 / day.fermenter.from_pot_l, rel=1e-6)
