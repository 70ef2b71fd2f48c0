"""How much water a pot takes, against every tenth of a litre, and at its limits."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import with_process
from designer.brewday.fit.original import original_of
from designer.brewday.fit.pot_limits import (
    as_written,
    filled,
    foam_limit,
    fullest_at_the_boil_l,
    is_syrup,
    least_water_l,
    own_water_l,
    rim_of,
    smallest_pot_l,
)
from designer.recipe.document import Fermentable, Pot
from designer.recipe.quantity import Quantity, Stage, When
from designer.wort.vessel_fit import foam_limit_l
from tests.brewday.days import with_figures


def q(value, unit="L"):
    return Quantity(float(value), f"{value:g} {unit}".strip())


def in_pot(recipe, litres, **changes):
    return replace(recipe, pot=replace(recipe.pot, volume=q(litres), diameter=None, **changes))


def watered(recipe, litres):
    return with_process(recipe, start_water=q(litres))


def test_a_pot_keeps_a_fifth_for_foam_and_one_of_unknown_size_keeps_what_it_likes():
    """20 to 25 %: common practice, no source."""
    assert foam_limit(Pot(volume=q(10))) == pytest.approx(8.0)
    assert foam_limit(Pot(volume=q(10), foam_room=q(0.3, ""))) == pytest.approx(7.0)
    assert foam_limit(Pot()) == float("inf")
    assert rim_of(Pot(volume=q(10))) == 10.0
    assert rim_of(Pot()) == float("inf")


def grain(kg, kind="steeping grain"):
    return Fermentable("Crystal", kind, q(kg, "kg"), When(Stage.STEEP, "steep"))


def test_grain_wants_three_litres_a_kilogram_and_any_boil_a_litre(porter):
    """Less does not rinse: common practice, no source."""
    syrup = porter.fermentables[0]
    for lines, litres in (
        ((syrup,), 1.0),
        ((syrup, grain(0.25)), 1.0),
        ((grain(0.5),), 1.5),
        ((grain(0.5), grain(0.2, "mash grain"), syrup), 2.1),
        ((replace(grain(1.0), amount=None),), 1.0),
    ):
        assert least_water_l(replace(porter, fermentables=lines)) == pytest.approx(litres)


def test_a_recipe_without_water_is_not_written_to_fit(porter):
    large = in_pot(porter, 12.0)
    assert as_written(large)
    assert not as_written(with_process(large, start_water=None))
    assert not as_written(watered(large, 0.0))


def test_a_recipe_fits_as_written_up_to_its_foam_line_its_rim_and_its_mark(porter):
    day = brew(porter)
    boiling, fullest = fullest_at_the_boil_l(porter, day), float(day.pot.fullest_l)
    assert as_written(in_pot(porter, (boiling + 0.01) / 0.8))
    assert not as_written(in_pot(porter, (boiling - 0.01) / 0.8))
    no_foam = replace(porter.pot, foam_room=q(0, ""))
    open_pot = replace(porter, pot=no_foam)
    assert as_written(in_pot(open_pot, fullest + 0.01))
    assert not as_written(in_pot(open_pot, fullest - 0.01))

    porter = with_process(in_pot(porter, 20.0), frozen_top_up=None)
    from_pot = float(brew(porter).fermenter.from_pot_l)
    assert as_written(with_process(porter, top_up_to=q(from_pot)))
    assert as_written(with_process(porter, top_up_to=q(from_pot - 0.005)))
    assert not as_written(with_process(porter, top_up_to=q(from_pot - 0.02)))
    assert as_written(with_process(porter, top_up_to=None))


def test_water_that_is_not_typed_is_as_much_as_there_may_be(porter):
    assert own_water_l(porter) == 6.5
    assert own_water_l(with_process(porter, start_water=None)) == 1000.0
    assert own_water_l(watered(porter, 0.0)) == 1000.0
    assert own_water_l(watered(porter, 0.5)) == 0.5


def fits(recipe, original, litres, *, hold, foam=0.2):
    """Asked of a day brewed in full, limits worked out anew."""
    tried = watered(recipe, litres)
    day = brew(tried)
    rim, mark = recipe.pot.volume.value, recipe.process.top_up_to
    return (
        fullest_at_the_boil_l(tried, day) <= foam_limit_l(rim, foam)
        and day.pot.fullest_l <= rim
        and (mark is None or day.fermenter.batch_l <= mark.value + 0.01)
        and (not hold or day.beer.bitterness_ibu <= original.day.beer.bitterness_ibu + 0.5)
    )


CASES = {
    "porter, small": ("porter", 5.0, {}),
    "porter, tiny": ("porter", 3.5, {}),
    "porter, low mark": ("porter", 12.0, {"top_up_to": q(4.0)}),
    "porter, no mark": ("porter", 7.0, {"top_up_to": None}),
    "porter, coil": ("porter", 6.0, {"cooling": "coil"}),
    "porter, steams much": ("porter", 6.0, {"evaporation": q(4.0, "L/h")}),
    "own, small": ("quay_pale", 11.0, {}),
    "kit, small": ("breakwater_red", 6.0, {}),
}


@pytest.mark.parametrize("hold", [True, False])
@pytest.mark.parametrize("case", CASES)
def test_a_pot_is_filled_with_the_most_of_all_tenths_that_fit(request, case, hold):
    name, pot_l, changes = CASES[case]
    own = request.getfixturevalue(name)
    original = original_of(own)
    recipe = with_process(in_pot(own, pot_l, coil=q(0.5)), **changes)
    most = own_water_l(own)
    found = filled(recipe, original, most, hold_bitterness=hold)
    least = round(10 * least_water_l(recipe) + 0.4999)
    tenths = [
        n for n in range(least, round(10 * most) + 1)
        if fits(recipe, original, n / 10, hold=hold)
    ]  # fmt: skip
    if not tenths or is_syrup(brew(watered(recipe, max(tenths) / 10)), original):
        assert found is None
    else:
        assert found.process.start_water.value == pytest.approx(max(tenths) / 10)


@pytest.mark.parametrize("name", ["porter", "slipway_bitter", "breakwater_red"])
@pytest.mark.parametrize("pot_l", [4.7, 5.3, 5.6])
def test_where_foam_wants_no_room_the_rim_is_the_limit_to_the_tenth(request, name, pot_l):
    """Grain or a coil may fill the pot more than the boil does."""
    own = request.getfixturevalue(name)
    own = replace(
        own,
        fermentables=tuple(
            replace(each, amount=q(each.amount.value / 3, "kg")) for each in own.fermentables
        ),
    )
    original = original_of(own)
    recipe = in_pot(own, pot_l, foam_room=q(0, ""), coil=q(0.4))
    recipe = with_process(recipe, cooling="coil", frozen_top_up=None)
    found = filled(recipe, original, 6.0, hold_bitterness=False)
    tenths = [n for n in range(10, 61) if fits(recipe, original, n / 10, hold=False, foam=0.0)]
    assert found.process.start_water.value == pytest.approx(max(tenths) / 10)


def test_no_more_water_goes_in_than_is_asked_for(porter):
    big, original = in_pot(porter, 40.0), original_of(porter)
    bare = with_process(big, top_up_to=None)
    for most, tenths in ((6.5, 6.5), (6.48, 6.4), (5.0, 5.0)):
        made = filled(bare, original, most, hold_bitterness=False)
        assert made.process.start_water.value == pytest.approx(tenths)


def test_a_pot_of_unknown_size_takes_what_is_asked_for(porter):
    unknown = replace(porter, pot=replace(porter.pot, volume=None))
    assert filled(unknown, original_of(porter), 6.0).process.start_water.value == 6.0


def test_water_that_is_right_already_keeps_what_was_typed(porter):
    typed = with_process(in_pot(porter, 20.0), start_water=Quantity(6.5, "6500 mL"))
    assert filled(typed, original_of(typed), 6.5) == typed


def test_where_not_even_the_least_water_fits_there_is_no_filling(porter):
    original = original_of(porter)
    assert filled(in_pot(porter, 1.5), original, 6.5) is None
    assert filled(porter, original, 0.9) is None
    heavy = replace(porter, fermentables=(*porter.fermentables, grain(2.0)))
    assert filled(heavy, original, 6.5) is None  # 2.25 kg want 6.75 L


def test_where_even_the_least_water_is_too_bitter_the_least_is_taken(porter):
    """A weak boil draws more from the hops; less water than a litre is no boil."""
    original = original_of(porter)
    bitter = replace(
        with_process(
            in_pot(porter, 20.0),
            top_up_to=q(3.0),
            hop_absorption=q(0),
            left_in_pot=q(0),
            evaporation=q(0.1),
        ),
        fermentables=(replace(porter.fermentables[0], amount=q(0.2, "kg")),),
        hops=tuple(replace(each, amount=q(0.06, "kg")) for each in porter.hops),
    )
    assert float(brew(watered(bitter, 1.0)).beer.bitterness_ibu) > original.most_ibu
    assert filled(bitter, original, 6.5).process.start_water.value == 1.0
    assert filled(bitter, original, 6.5, hold_bitterness=False).process.start_water.value > 2.0


def test_a_syrup_is_beyond_1_150_unless_the_original_is_one(porter):
    """It scorches and isomerises little: common practice, no source."""
    original = original_of(porter)
    day = original.day

    def ends(gravity):
        return with_figures(day, boil_gravity_end=gravity)

    assert float(day.pot.boil_gravity_end) < 1.149
    assert not is_syrup(ends(1.1499), original)
    assert is_syrup(ends(1.1501), original)
    strong = replace(original, day=ends(1.2))
    assert not is_syrup(ends(1.2009), strong)
    assert is_syrup(ends(1.2011), strong)


def test_a_pot_foams_most_as_it_comes_to_the_boil(porter):
    """From five kelvins below the boil on, with what displaces wort: common practice, no source."""
    day = brew(porter)
    heating = next(each for each in day.moments if each.stage == "heat to boil")
    hot = float(day.pot.boiling_c)

    def fullest(recipe, volume, temperature, stage="heat to boil"):
        moment = replace(heating, pot_volume_l=volume, temperature_c=temperature, stage=stage)
        return fullest_at_the_boil_l(
            recipe, with_figures(day, moments=(moment,), fullest_boiling_l=5.0)
        )

    assert fullest(porter, 6.0, hot - 5.0) == 6.0
    assert fullest(porter, 6.0, hot - 5.1) == 5.0
    assert fullest(porter, 4.0, hot) == 5.0
    assert fullest(porter, 6.0, hot, "steep") == 5.0
    coil = with_process(in_pot(porter, 9.0, coil=q(0.5)), cooling="coil")
    assert fullest(coil, 6.0, hot) == 6.5
    assert fullest(with_process(coil, cooling="ice bath"), 6.0, hot) == 6.0


@pytest.mark.parametrize("name", ["porter", "breakwater_red", "quay_pale", "slipway_bitter"])
def test_the_smallest_pot_is_the_first_whole_litre_that_boils_it_as_written(request, name):
    recipe = request.getfixturevalue(name)
    unmarked = with_process(recipe, top_up_to=None)
    first = next(n for n in range(1, 60) if as_written(in_pot(unmarked, n)))
    assert smallest_pot_l(recipe) == first


def test_a_pot_without_foam_room_is_as_large_as_what_it_holds_at_its_fullest(porter):
    brim = replace(porter, pot=replace(porter.pot, foam_room=q(0, "")))
    fullest = float(brew(brim).pot.fullest_l)
    assert fullest <= smallest_pot_l(brim) < fullest + 1.0


def test_no_pot_of_a_kitchen_boils_a_thousand_litres(porter):
    assert smallest_pot_l(watered(porter, 2000.0)) is None
