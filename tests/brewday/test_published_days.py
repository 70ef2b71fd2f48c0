"""The day against handbook examples, with the handbook's own assumptions typed into a recipe."""

from math import exp

import pytest
from scipy.integrate import quad

from designer.brewday.day import brew
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process
from designer.recipe.quantity import Stage, When
from designer.wort.bitterness import tinseth_bigness, tinseth_utilisation
from designer.wort.extract import extract_for, gravity, water_for_volume

GALLON_L = 3.785412
OUNCE_KG = 0.0283495


def all_extract(kitchen, mass_kg, when=None):
    """Sugar that is all extract, so that a gravity can be set exactly."""
    return Fermentable(
        "Extract", "sugar", kitchen.q(mass_kg, "kg"), when or kitchen.boil(60),
        extract=kitchen.q(1.0), colour=kitchen.q(0.0),
    )  # fmt: skip


def pot_of(kitchen, gravity_sg, volume_l, final_l, hops):
    extract_kg = float(extract_for(gravity_sg, volume_l))
    water_l = float(water_for_volume(extract_kg, volume_l)) / 0.998203
    return kitchen.recipe(
        pot=Pot(volume=kitchen.q(60, "L"), power=kitchen.q(1e5, "W")),
        fermenter=Fermenter(volume=kitchen.q(60, "L")),
        process=kitchen.quiet_process(
            start_water=kitchen.q(water_l, "L"), top_up_to=kitchen.q(final_l, "L")
        ),
        fermentables=(all_extract(kitchen, extract_kg),),
        hops=hops,
    )


def test_palmers_partial_boil(kitchen):
    """Source: Palmer, How to Brew, 1st ed., online, ch. 5: 1.5 oz at 6.4 % for 60 min in
    3 gal at 1.080, 5 gal of beer: 25 IBU; 1 oz at 4.6 % for 15 min: 6 more. With the equation
    25.33 + 6.02.
    """
    hops = (
        Hop("A", "whole", kitchen.q(0.064), kitchen.q(1.5 * OUNCE_KG, "kg"), kitchen.boil(60)),
        Hop("B", "whole", kitchen.q(0.046), kitchen.q(1.0 * OUNCE_KG, "kg"), kitchen.boil(15)),
    )
    day = brew(pot_of(kitchen, 1.080, 3 * GALLON_L, 5 * GALLON_L, hops))
    first, second = (day.gives[line_id].bitterness_ibu for line_id in (2, 3))
    assert day.pot.boil_gravity_start == pytest.approx(1.080, abs=1e-4)
    assert first == pytest.approx(25.33, abs=0.15)
    # the day goes on counting for the seconds of cooling, which a late addition shows
    assert second == pytest.approx(6.02, abs=0.15)


@pytest.mark.parametrize("late_share", [0.0, 1 / 3, 2 / 3])
def test_late_extract_in_a_concentrated_boil(kitchen, late_share):
    """Tinseth piece by piece at the gravities the pot really has: 30 g at 8 % for 60 min, 10 L at
    1.110 in the end, 19 L of beer. All extract from the start gives 17.0 IBU by his equation."""
    total = float(extract_for(1.110, 10.0))
    late = total * late_share
    water_l = float(water_for_volume(total, 10.0)) / 0.998203
    recipe = kitchen.recipe(
        pot=Pot(volume=kitchen.q(60, "L"), power=kitchen.q(1e6, "W")),
        process=kitchen.quiet_process(
            start_water=kitchen.q(water_l, "L"), top_up_to=kitchen.q(19, "L")
        ),
        fermentables=(
            all_extract(kitchen, total - late),
            all_extract(kitchen, late, kitchen.boil(15)),
        ),
        hops=(Hop("A", "whole", kitchen.q(0.08), kitchen.q(0.030, "kg"), kitchen.boil(60)),),
    )
    day = brew(recipe)
    utilisation = tinseth_utilisation(day.pot.boil_gravity_start, 45.0)
    utilisation += tinseth_utilisation(1.110, 60.0) - tinseth_utilisation(1.110, 45.0)
    expected = 1e6 * 0.030 * 0.08 * utilisation / 19.0
    assert day.beer.bitterness_ibu == pytest.approx(expected, rel=5e-3)
    if late_share == 0.0:
        assert expected == pytest.approx(17.0, abs=0.05)


@pytest.mark.parametrize(
    ("kind", "mass_kg", "solids", "water_l", "gravity_sg", "volume_l"),
    [
        ("liquid extract", 1.5, 0.80, 5.0, 1.0763, 6.042),
        ("sugar", 1.0, 0.909, 10.0, 1.0329, 10.651),
        ("dry extract", 2.0, 0.965, 8.0, 1.0800, 9.263),
        ("sugar", 0.45359237, 1.0, 3.785412, 1.0430, 4.065),
    ],
)
def test_extract_dissolved_in_water(kitchen, kind, mass_kg, solids, water_l, gravity_sg, volume_l):
    """Source: density of sucrose solutions, ICUMSA SPS-4 (1998); mass balance."""
    line = Fermentable(
        "Extract", kind, kitchen.q(mass_kg, "kg"), kitchen.boil(0), extract=kitchen.q(solids)
    )
    recipe = kitchen.recipe(
        process=kitchen.quiet_process(
            start_water=kitchen.q(water_l, "L"), boil_time=kitchen.q(0, "min")
        ),
        fermentables=(line,),
    )
    day = brew(recipe)
    assert day.beer.original_gravity == pytest.approx(gravity_sg, abs=1.01e-4)
    assert day.fermenter.batch_l == pytest.approx(volume_l, abs=0.005)


def test_strike_and_steep_of_a_kitchen_steep(kitchen):
    """Source: infusion equation with malt at 0.40 of water's specific heat (Pauls & Whites Brewing
    Room Book 1984/85): 0.5 kg at 20 °C in 5 kg at 70 °C gives 68.08 °C."""
    recipe = kitchen.recipe(
        process=kitchen.quiet_process(
            start_water=kitchen.q(5 / 0.998203, "L"), steep_temperature=kitchen.q(68.08, "°C")
        ),
        fermentables=(
            Fermentable(
                "Crystal malt", "steeping grain", kitchen.q(0.5, "kg"), When(Stage.STEEP, "steep")
            ),
        ),
    )
    day = brew(recipe)
    assert day.steep.strike_c == pytest.approx(70.0, abs=0.01)
    assert day.steep.steeped_c == pytest.approx(68.08, abs=0.01)


def test_time_to_heat_ten_litres(kitchen):
    """Source: heat over power; 10 L from 20 to 100 °C with 2 kW at 0.74 takes 37.7 min (specific
    heat by Bubník et al., Sugar Technologists Manual 1995)."""
    recipe = kitchen.recipe(
        pot=Pot(power=kitchen.q(2000, "W"), heat_loss=kitchen.q(0, "W/K")),
        process=kitchen.quiet_process(start_water=kitchen.q(10, "L")),
    )
    heat = next(span for span in brew(recipe).spans if span.key == "heat to boil")
    assert heat.end_min - heat.start_min == pytest.approx(37.7, abs=0.06)


def test_hopped_kit_on_its_label(kitchen):
    """A label of 25 IBU for 23 L, made to 19 L, is 30.3 IBU (common practice, no source)."""
    kit = Fermentable(
        "Hopped kit extract", "hopped kit extract", kitchen.q(1.7, "kg"), kitchen.boil(10),
        label_bitterness=kitchen.q(25, "IBU"), label_volume=kitchen.q(23, "L"),
    )  # fmt: skip
    recipe = kitchen.recipe(
        process=kitchen.quiet_process(start_water=kitchen.q(8, "L"), top_up_to=kitchen.q(19, "L")),
        fermentables=(kit,),
    )
    assert brew(recipe).beer.bitterness_ibu == pytest.approx(30.3, abs=0.05)


def test_ice_in_hot_wort_melts_at_the_cost_of_its_heat(harbour_porter):
    """Source: heat of melting 333.55 kJ/kg (CRC Handbook, from memory)."""
    day = brew(harbour_porter)
    wort_kg = float(day.fermenter.from_pot_l) * 1.1005 * 0.9982
    poured_kg = float(day.fermenter.liquid_top_up_l) * 0.9982
    gained = 1.5 * (2.1 * 18 + 333.55 + 4.186 * day.fermenter.mixed_c) + poured_kg * 4.186 * (
        day.fermenter.mixed_c - 12.0
    )
    lost = wort_kg * 3.61 * (day.fermenter.cool_to_c - day.fermenter.mixed_c)
    assert lost == pytest.approx(gained, rel=0.01)


def test_gauss_points_in_the_boil_leave_no_step(kitchen):
    """Source: adaptive quadrature (scipy) of dU/dt = B(g(t)) 0.04 exp(-0.04 t) / 4.15."""
    start_l, total, per_min = 10.0, float(extract_for(1.060, 10.0)), 4.0 * 0.998203 / 60.0
    water = float(water_for_volume(total, start_l))
    recipe = kitchen.recipe(
        pot=Pot(power=kitchen.q(1e5, "W")),
        process=Process(
            start_water=kitchen.q(water / 0.998203, "L"),
            evaporation=kitchen.q(4, "L/h"),
            left_in_pot=kitchen.q(0, "L"),
            hop_absorption=kitchen.q(0, "L/kg"),
            tap_temperature=kitchen.q(20, "°C"),
            cooling_constant=kitchen.q(5, "/min"),
        ),
        fermentables=(all_extract(kitchen, total),),
        hops=(Hop("A", "whole", kitchen.q(0.10), kitchen.q(0.020, "kg"), kitchen.boil(60)),),
    )
    day = brew(recipe)
    integral, _ = quad(
        lambda t: tinseth_bigness(gravity(total, water - per_min * t)) * 0.04 * exp(-0.04 * t),
        0.0,
        60.0,
    )
    # Antoine puts the boil at sea level at 99.997 °C, which slows the clock by 3 in 10,000.
    in_pot = next(moment for moment in day.moments if moment.stage == "flame-out")
    expected = 1e6 * 0.020 * 0.10 * integral / 4.15 / in_pot.wort_l
    assert in_pot.bitterness_ibu == pytest.approx(expected, rel=2e-4)
