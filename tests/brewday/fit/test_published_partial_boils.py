"""Concentrated boils of the handbooks, found again by the ways.

Sources: Tinseth's equation (web page, 1995 to 1997) for boils of 10 L at 1.110 and of 19 L at
1.0579; Palmer, How to Brew, 1st ed., online, ch. 5 (3 gal boil topped up to 5 gal), as
reprinted in forum posts; the mass balance of extract for dilution.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import wish_for
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When
from tests.brewday.quantities import q

US_GALLON_L = 3.785412


def boil(minutes):
    return When(Stage.BOIL, f"boil {minutes} min", float(minutes))


def still(start_l, mark_l):
    """No steam, no losses, cooled at once: what the examples of handbooks leave out."""
    return Process(
        start_water=q(start_l, "L"),
        boil_time=q(60, "min"),
        evaporation=q(0, "L/h"),
        left_in_pot=q(0, "L"),
        hop_absorption=q(0, "L/kg"),
        cooling_constant=q(5, "/min"),
        tap_temperature=q(20, "°C"),
        top_up_to=q(mark_l, "L"),
        cooling="ice bath",
    )


def full_boil(extract_kg, hops, batch_l, start_l):
    return with_line_ids(
        Recipe(
            pot=Pot(volume=q(60, "L"), power=q(20_000, "W")),
            fermenter=Fermenter(volume=q(60, "L")),
            process=still(start_l, batch_l),
            fermentables=(
                Fermentable("Sugar of malt", "dry extract", q(extract_kg, "kg"), boil(60),
                            extract=q(1.0)),
            ),
            hops=hops,
            yeast=Yeast("Ale yeast", "dry", Quantity(11.0, "11 g", unit="g")),
        )
    )  # fmt: skip


@pytest.fixture(scope="module")
def nineteen_litres():
    """19 L at 1.0579, 30 g of whole hops at 8 %, 60 min: 27.1 IBU boiled whole."""
    hops = (Hop("Whole hops", "whole", q(0.08), q(0.03, "kg"), boil(60)),)
    recipe = full_boil(2.8585, hops, 19.0, 17.2)
    assert float(brew(recipe).beer.original_gravity) == pytest.approx(1.0579, abs=2e-4)
    return recipe


def by_key(recipe, pot_l, **changes):
    return {
        way.key: way
        for way in ways(recipe, replace(wish_for(recipe, pot_l, (60.0,)), **changes)).every_way
    }


def test_ten_litres_boiled_at_1_110_give_17_0_of_27_1_ibu(nineteen_litres):
    """Tinseth: 17.0 against 27.1 IBU. A pot whose foam line is 10 L of wort, hot, takes that boil.

    Both days heat for minutes on either side of the hour, so the ratio is compared.
    """
    way = by_key(nineteen_litres, 10.0 * 1.0416 / 0.8)["one boil"]
    assert float(way.boils[0].day.pot.boil_gravity_end) == pytest.approx(1.110, abs=2e-3)
    bitterness = way.forecasts["bitterness_ibu"]
    assert bitterness.value / bitterness.original == pytest.approx(17.0 / 27.1, rel=0.02)
    assert bitterness.original == pytest.approx(27.1, rel=0.03)


def test_more_hops_make_up_for_it_in_the_inverse_ratio(nineteen_litres):
    """30 g x 27.1 / 17.0 = 47.8 g."""
    way = by_key(nineteen_litres, 10.0 * 1.0416 / 0.8)["more hops"]
    assert way.boils[0].recipe.hops[0].amount.value == pytest.approx(0.0478, rel=0.02)
    assert abs(way.forecasts["bitterness_ibu"].change) < 0.3
    [bought] = way.must_buy
    assert bought.amount.value == pytest.approx(0.0178, rel=0.05)


def test_topping_up_dilutes_by_the_mass_of_extract(nineteen_litres):
    """10 L of 1.110 hold 2.8724 kg of extract (mass balance): in 19 L that is 1.0579."""
    way = by_key(nineteen_litres, 10.0 * 1.0416 / 0.8)["one boil"]
    assert way.forecasts["original_gravity"].change == pytest.approx(0.0, abs=1e-5)
    assert way.boils[0].top_up_l == pytest.approx(9.0, abs=0.15)


def test_three_gallons_topped_up_to_five_give_palmers_31_ibu():
    """Palmer, ch. 5: 1.5 oz at 6.4 % for 60 min and 1 oz at 4.6 % for 15 min in 3 gal at 1.080,
    made up to 5 gal: 25 + 6 IBU."""
    hops = (
        Hop("Perle", "whole", q(0.064), q(0.042524, "kg"), boil(60)),
        Hop("Liberty", "whole", q(0.046), q(0.028350, "kg"), boil(15)),
    )
    recipe = full_boil(2.383, hops, 5 * US_GALLON_L, 17.4)
    way = by_key(recipe, 3 * US_GALLON_L * 1.0416 / 0.8)["one boil"]
    assert float(way.boils[0].day.pot.boil_gravity_end) == pytest.approx(1.080, abs=2e-3)
    assert way.forecasts["bitterness_ibu"].value == pytest.approx(31.4, rel=0.03)


def test_a_pot_above_its_practical_ceiling_is_said_and_counts_against_the_way(nineteen_litres):
    """100 IBU is the ceiling; common practice, no source. 10 L topped up to 19 L: 52.6 IBU."""
    bitter = replace(
        nineteen_litres,
        hops=(replace(nineteen_litres.hops[0], amount=q(0.09, "kg")),),
    )
    plain = by_key(bitter, 10.0 * 1.0416 / 0.8)
    way = plain["more hops"]
    assert way.pot_bitterness_ibu > way.ceiling_ibu == 100.0
    assert any("more than the 100 IBU" in each.text for each in way.cautions)
    assert way.closeness > 0.0
    calm = by_key(nineteen_litres, 10.0 * 1.0416 / 0.8)["more hops"]
    assert not any("carries in practice" in each.text for each in calm.cautions)


def test_late_extract_gives_back_bitterness(nineteen_litres):
    found = by_key(nineteen_litres, 10.0 * 1.0416 / 0.8)
    early, late = found["one boil"], found["late extract"]
    gained = late.forecasts["bitterness_ibu"].value - early.forecasts["bitterness_ibu"].value
    assert gained > 5.0
    assert late.forecasts["bitterness_ibu"].change <= 1.0
    assert late.rank < early.rank


def test_hops_in_hand_are_used_before_more_are_bought(nineteen_litres):
    from designer.brewday.fit.wish import HopInHand

    hand = HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.02)
    way = by_key(nineteen_litres, 13.0, hops_in_hand=(hand,))["other hops"]
    added = way.recipes[0].hops[-1]
    assert added.name == "Magnum"
    assert 0.0 < added.amount.value <= 0.02
    assert abs(way.forecasts["bitterness_ibu"].change) < 1.0
    assert not [each for each in way.must_buy if each.what == "Magnum"]
    short = ways(
        nineteen_litres,
        replace(wish_for(nineteen_litres, 13.0, (60.0,)),
                hops_in_hand=(replace(hand, mass_kg=0.002),)),
    )  # fmt: skip
    assert "other hops" in {each.key for each in short.no_ways}


def test_where_one_hop_in_hand_is_not_enough_the_next_stands_in(nineteen_litres):
    from designer.brewday.fit.wish import HopInHand

    hands = (
        HopInHand("Fuggle", typed(Kind.FRACTION, 0.045), 0.1),
        HopInHand("Magnum", typed(Kind.FRACTION, 0.12), 0.002),
    )
    way = by_key(nineteen_litres, 13.0, hops_in_hand=hands)["other hops"]
    strong, weak = way.recipes[0].hops[-2:]
    assert (strong.name, weak.name) == ("Magnum", "Fuggle")
    assert strong.amount.value == pytest.approx(0.002)  # all of it, before any of the weaker
    assert 0.0 < weak.amount.value < 0.1
    assert abs(way.forecasts["bitterness_ibu"].change) < 1.0
    assert "Magnum" in way.steps[0].text
    assert "Fuggle" in way.steps[0].text


def test_a_lid_is_offered_where_it_rescues_a_weak_stove_and_never_closed(nineteen_litres):
    weak = replace(
        nineteen_litres,
        pot=replace(nineteen_litres.pot, power=q(1500, "W")),
        process=replace(nineteen_litres.process, evaporation=q(2.5, "L/h")),
    )
    way = by_key(weak, 13.0, counted_for=weak.pot)["lid"]  # its steam is what is typed
    # half of what 1500 W x 0.74 less 4 W/K x 80 K drive off, not of the 2.5 L that were typed
    assert way.recipes[0].process.evaporation.value == pytest.approx(1.26 / 2, abs=0.01)
    said = " ".join(each.text for each in way.cautions)
    assert "Never close the lid" in said
    assert "dimethyl sulfide" in said
    assert way.recipes[0].pot.foam_room.value >= 0.25
    assert "lid" not in by_key(nineteen_litres, 13.0)
    assert "lid" not in by_key(weak, 13.0, lid_may_be_used=False)
