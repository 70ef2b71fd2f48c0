"""A recipe scaled to another batch: what it gives is read off its day."""

from dataclasses import dataclass, replace

import pytest

from designer.brewday.day import brew
from designer.brewday.fit.changed_recipe import with_process
from designer.brewday.fit.scaling import scale
from designer.errors import RefusedInputError
from designer.library.packs import packs
from designer.recipe.document import PlannedBoil, Recipe, Yeast
from designer.recipe.plan import is_planned
from tests.brewday.quantities import q


@pytest.fixture(params=["porter", "slipway_bitter", "quay_pale"])
def recipe(request):
    return request.getfixturevalue(request.param)


@pytest.mark.parametrize("batch", [5.0, 8.0, 14.0, 23.0])
def test_gravity_bitterness_and_colour_are_held_within_rounding(recipe, batch):
    scaled = scale(recipe, batch)
    before, after = brew(recipe), brew(scaled.recipe)
    assert after.fermenter.batch_l == pytest.approx(batch, abs=0.02)
    assert after.beer.original_gravity == pytest.approx(before.beer.original_gravity, abs=5e-4)
    assert after.beer.bitterness_ibu == pytest.approx(before.beer.bitterness_ibu, abs=1.0)
    assert after.beer.colour_srm == pytest.approx(before.beer.colour_srm, abs=0.2)


def test_forecasts_are_those_of_the_rounded_recipe(recipe):
    scaled = scale(recipe, 6.5)
    bitterness = scaled.forecasts["bitterness_ibu"]
    assert bitterness.value == pytest.approx(brew(scaled.recipe).beer.bitterness_ibu)


def test_hops_do_not_scale_like_the_volume(quay_pale):
    """What stays in the pot and the evaporation do not shrink with the batch."""
    scaled = scale(quay_pale, 5.0)
    ratio = 5.0 / float(brew(quay_pale).fermenter.batch_l)
    assert scaled.shares.extract > 1.01 * ratio
    assert abs(scaled.shares.bittering / scaled.shares.extract - 1.0) > 0.005


def test_the_bill_keeps_its_proportions(porter):
    made = scale(porter, 17.0).recipe
    before = [line.amount.value for line in porter.fermentables[:2]]
    after = [line.amount.value for line in made.fermentables[:2]]
    assert after[0] / after[1] == pytest.approx(before[0] / before[1], rel=0.01)


def test_the_edit_makes_the_scaled_recipe(recipe):
    scaled = scale(recipe, 7.0)
    assert scaled.edit.apply(recipe) == scaled.recipe


def test_to_its_own_batch_hardly_anything_changes(slipway_bitter):
    scaled = scale(slipway_bitter, float(brew(slipway_bitter).fermenter.batch_l))
    for old, new in zip(slipway_bitter.fermentables, scaled.recipe.fermentables, strict=True):
        assert new.amount.value == pytest.approx(old.amount.value, rel=0.01)


def test_yeast_goes_in_whole_packets(porter):
    """11 g are for some 10 L: 5 L take one packet all the same, 23 L three."""
    grams = {batch: scale(porter, batch).recipe.yeast.amount.value for batch in (5, 11, 23)}
    assert grams == {5: 11.0, 11: 11.0, 23: 33.0}


def test_whole_packs_are_whole_and_the_hops_follow(porter):
    scaled = scale(porter, 20.0, whole_packs=packs("metric"))
    sizes = {each.mass_kg for each in packs("metric")}
    assert set(scaled.packs) == {1, 2}
    for line in scaled.recipe.fermentables[:2]:
        chosen = scaled.packs[line.line_id]
        assert line.amount.value == pytest.approx(chosen.total_kg)
        assert set(chosen.sizes_kg) <= sizes
    assert scaled.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=1.0)


def test_a_locked_kit_is_made_smaller_but_never_larger(breakwater_red):
    half = scale(breakwater_red, 10.0).recipe
    assert all(
        new.amount.value < old.amount.value
        for old, new in zip(breakwater_red.fermentables, half.fermentables, strict=True)
    )
    with pytest.raises(RefusedInputError, match="locked kit"):
        scale(breakwater_red, 25.0)


def test_a_kits_label_is_for_the_part_of_it_that_goes_in(breakwater_red):
    """24 IBU in 20 L is 24 IBU in 10 L of half the kit."""
    half = scale(breakwater_red, 10.0)
    assert half.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize("batch", [0.0, -3.0, 5000.0, float("nan")])
def test_a_batch_of_no_sense_is_refused(porter, batch):
    with pytest.raises(RefusedInputError):
        scale(porter, batch)


def test_half_a_litre_to_a_thousand_litres_make_a_batch(porter):
    for litres in (0.5, 1000.0):
        made = scale(porter, litres).recipe
        assert float(brew(made).fermenter.batch_l) == pytest.approx(litres, rel=0.02)
    for litres in (0.49, 1000.1):
        with pytest.raises(RefusedInputError, match=r"not a batch; give 0\.5 to 1000 L"):
            scale(porter, litres)


def test_a_recipe_that_makes_no_beer_is_refused():
    with pytest.raises(RefusedInputError, match="makes no beer yet"):
        scale(Recipe(), 10.0)


def lock(recipe, lines):
    first, *rest = getattr(recipe, lines)
    return replace(recipe, **{lines: (replace(first, locked=True), *rest)})


@pytest.mark.parametrize("lines", ["fermentables", "hops"])
def test_one_locked_line_makes_a_kit_that_is_never_made_larger(porter, lines):
    kit = lock(porter, lines)
    whole = float(brew(kit).fermenter.batch_l)
    with pytest.raises(RefusedInputError, match=f"no more than its {whole:.1f} L"):
        scale(kit, whole + 0.1)
    made = scale(kit, whole).recipe
    for new, old in zip(made.fermentables, kit.fermentables, strict=True):
        assert new.amount.value <= old.amount.value
    smaller = scale(kit, 5.0).recipe
    share = [
        new.amount.value / old.amount.value
        for new, old in zip(smaller.fermentables, kit.fermentables, strict=True)
    ]
    assert share[0] == pytest.approx(share[2], abs=0.01)  # grain goes with the kit's extract


def grams(recipe, batch):
    return scale(recipe, batch).recipe.yeast.amount.value


def test_a_packet_takes_fifteen_hundredths_more_before_another_is_pitched(porter):
    """Common practice, no source; 11 g are for the porter's 10 L."""
    whole = float(brew(porter).fermenter.batch_l)
    assert grams(porter, 1.14 * whole) == 11.0
    assert grams(porter, 1.16 * whole) == 22.0
    assert grams(porter, 2.14 * whole) == 22.0
    assert grams(porter, 2.16 * whole) == 33.0
    assert grams(porter, 0.1 * whole) == 11.0
    assert scale(porter, 2.0 * whole).recipe.yeast.amount.text == "22 g"
    assert scale(porter, 2.0 * whole).recipe.yeast.amount.unit == "g"


def test_yeast_without_an_amount_is_left_so(porter):
    bare = replace(porter, yeast=Yeast("Some ale yeast"))
    assert scale(bare, 30.0).recipe.yeast == bare.yeast


def test_finings_and_frozen_water_go_with_the_batch(porter):
    """Half a tablet for 10 L is a whole one for 20 L and a quarter for 5 L; 1.5 kg of ice 3 kg."""
    double, half = scale(porter, 20.0).recipe, scale(porter, 5.0).recipe
    assert double.extras[0].amount.value == 1.0
    assert half.extras[0].amount.value == 0.25
    assert double.process.frozen_top_up == q(3, "kg")
    assert half.process.frozen_top_up == q(0.8, "kg")
    none = with_process(porter, frozen_top_up=None)
    assert scale(none, 20.0).recipe.process.frozen_top_up is None
    untyped = replace(porter, extras=(replace(porter.extras[0], amount=None),))
    assert scale(untyped, 20.0).recipe.extras[0].amount is None


def test_a_concentrated_boil_stays_as_concentrated_as_the_pot_allows(porter):
    large = replace(porter, pot=replace(porter.pot, volume=q(60, "L")))
    made = scale(large, 30.0).recipe
    water = made.process.start_water.value
    assert water == pytest.approx(3 * 6.5, abs=0.11)
    assert made.process.top_up_to.value == 30.0
    assert made.pot == large.pot
    small = replace(porter, pot=replace(porter.pot, volume=q(14, "L")))
    tight = scale(small, 16.0).recipe
    assert tight.process.start_water.value < 1.6 * 6.5 - 0.2
    assert float(brew(tight).pot.fullest_boiling_l) <= 0.8 * 14.0


def test_a_batch_no_pot_here_holds_is_worked_out_all_the_same(porter):
    """The findings say then that the pot is too small; the recipe is right for a larger one."""
    made = scale(porter, 100.0)
    day = brew(made.recipe)
    assert made.recipe.pot == porter.pot
    assert float(day.pot.fullest_l) > 9.0
    assert float(day.fermenter.batch_l) == pytest.approx(100.0, abs=0.1)
    assert made.forecasts["original_gravity"].change == pytest.approx(0.0, abs=1e-3)
    assert made.recipe.process.start_water.value == pytest.approx(65.0, abs=0.2)


def test_a_full_boil_stays_a_full_boil(quay_pale):
    full = with_process(quay_pale, start_water=q(21, "L"), top_up_to=None, frozen_top_up=None)
    assert float(brew(full).fermenter.top_up_l) < 0.1
    for batch in (8.0, 15.0):
        day = brew(scale(full, batch).recipe)
        assert float(day.fermenter.batch_l) == pytest.approx(batch, abs=0.02)
        assert float(day.fermenter.top_up_l) < 0.25


def test_amounts_are_weighed_in_fives_of_grams_and_hops_in_halves(porter):
    made = scale(porter, 17.3).recipe
    for line in made.fermentables:
        assert line.amount.value / 0.005 == pytest.approx(round(line.amount.value / 0.005))
    for hop in made.hops:
        assert hop.amount.value / 0.0005 == pytest.approx(round(hop.amount.value / 0.0005))


def test_the_step_is_named_and_the_forecasts_stand_beside_the_original_s(porter):
    scaled = scale(porter, 6.5)
    assert scaled.edit.text.text == "scale to 6.5 L"
    before = brew(porter)
    assert scaled.forecasts["bitterness_ibu"].original == pytest.approx(
        float(before.beer.bitterness_ibu), abs=1e-9
    )
    for shown in scaled.forecasts.values():
        assert shown.low <= shown.value <= shown.high
    assert scaled.packs == {}


def test_packs_are_chosen_for_extract_and_sugar_but_not_for_grain_or_what_is_locked(porter):
    sold = packs("metric")
    free = scale(porter, 20.0, whole_packs=sold)
    assert set(free.packs) == {porter.fermentables[0].line_id, porter.fermentables[1].line_id}
    kit = lock(porter, "fermentables")
    locked = scale(kit, 8.0, whole_packs=sold)
    assert set(locked.packs) == {porter.fermentables[1].line_id}
    only_dry = [each for each in sold if each.kind == "dry extract"]
    part = scale(porter, 20.0, whole_packs=only_dry)
    assert set(part.packs) == {porter.fermentables[1].line_id}
    grain = part.recipe.fermentables[2].amount.value
    assert grain / 0.005 == pytest.approx(round(grain / 0.005))


@pytest.mark.parametrize("batch", [3.0, 6.0])
def test_a_line_that_gets_no_pack_is_taken_out_and_the_hops_follow_the_gravity(porter, batch):
    """For so little beer one pack of one extract comes nearer than one of each."""
    scaled = scale(porter, batch, whole_packs=packs("metric"))
    bought = {key: each.total_kg for key, each in scaled.packs.items()}
    assert min(bought.values()) == 0.0
    left = {line.line_id for line in scaled.recipe.fermentables}
    assert left == {key for key, kg in bought.items() if kg > 0.0} | {3}
    assert scaled.edit.apply(porter) == scaled.recipe
    assert scaled.forecasts["bitterness_ibu"].change == pytest.approx(0.0, abs=1.0)


@dataclass(frozen=True)
class Sack:
    kind: str
    mass_kg: float


def test_where_a_pack_is_too_much_a_recipe_without_extract_is_refused(porter):
    sacks = [Sack("liquid extract", 25.0), Sack("dry extract", 25.0)]
    with pytest.raises(RefusedInputError, match="A whole pack is too much for 5 L"):
        scale(porter, 5.0, whole_packs=sacks)
    with_syrup = scale(porter, 5.0, whole_packs=sacks[1:])
    assert [each.kind for each in with_syrup.recipe.fermentables] == [
        "liquid extract", "steeping grain",
    ]  # fmt: skip


def test_a_locked_kit_s_hops_stay_in_their_share_whatever_the_packs(porter):
    """More of a locked hop than its share is not there to be had."""
    kit = lock(porter, "hops")
    plain, packed = scale(kit, 6.0), scale(kit, 6.0, whole_packs=packs("metric"))
    assert packed.recipe.hops == plain.recipe.hops


def test_a_recipe_that_was_brewed_by_a_plan_is_scaled_as_it_is_written(porter):
    half = PlannedBoil(porter.pot, q(0.5, "50 %"), start_water=q(3.0, "3 L"))
    scaled = scale(replace(porter, boils=(half, half)), 6.5)
    assert scaled.recipe == scale(porter, 6.5).recipe
    assert scaled.edit.apply(replace(porter, boils=(half, half))) == scaled.recipe
    assert not is_planned(scaled.recipe)
