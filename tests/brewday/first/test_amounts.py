"""Amounts to begin with: what is put in before the day has been run, and when; judgement.

Bitterness: an IBU is a milligram of iso-alpha acids a litre, and of the alpha acid about a fifth
comes through at first sight.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.first.amounts import Amounts
from designer.brewday.first.larder import Role
from designer.recipe.document import Recipe
from designer.recipe.quantity import Quantity, Stage
from tests.brewday.first.larders import LARDER, aim, hop, kitchen, malt, task


def amounts(of=None, where=None, **others):
    return Amounts(task(of, where, **others))


def test_the_pot_begins_with_three_fifths_of_water_but_no_more_than_the_batch():
    assert amounts().water_l == pytest.approx(0.62 * 9.0)
    assert amounts(batch_l=4.0).water_l == 4.0
    assert amounts(where=kitchen(0.2, 0.2)).water_l == pytest.approx(0.2)


def test_a_batch_fills_the_fermenter_and_its_extract_is_that_of_the_gravity_and_a_little_more():
    """10 L at 1.045 hold 1.167 kg of extract (11.2 °P); 6 % more stay behind."""
    found = amounts()
    assert (found.batch_l, found.most_l) == (10.0, pytest.approx(10.2))
    shares = found.task.grist.shares
    extract = sum(share * part.line.extract.value for part, share in shares)
    assert found.grist_kg * extract == pytest.approx(1.06 * 1.167, rel=0.002)
    assert amounts(where=kitchen(9.0, 0.5)).most_l == 1.0


def test_every_line_has_its_share_of_the_grist():
    found = amounts()
    base, *others = found.task.grist.shares
    assert [each.kg for each in found.others] == pytest.approx(
        [share * found.grist_kg for _, share in others]
    )
    assert sum(each.kg for each in found.base) == pytest.approx(base[1] * found.grist_kg)
    assert sum(each.kg for each in found.fermentables) == pytest.approx(found.grist_kg)


def test_grain_is_steeped_and_sugar_goes_in_at_the_end_of_the_boil():
    found = amounts(aim(srm=25.0, fg=1.006))
    when = {each.role: each.when for each in found.others}
    assert set(when) == {Role.CRYSTAL, Role.ROAST, Role.SUGAR}
    assert when[Role.CRYSTAL].stage is when[Role.ROAST].stage is Stage.STEEP
    assert (when[Role.SUGAR].stage, when[Role.SUGAR].minutes) == (Stage.BOIL, 10.0)


def test_hops_boil_in_wort_of_about_1040_and_the_rest_goes_in_late():
    """A tenth of a kilogram of extract for each litre of water."""
    early, late = amounts().base
    assert early.kg * 0.95 == pytest.approx(0.105 * 0.62 * 9.0)
    assert (early.when.minutes, late.when.minutes) == (60.0, 10.0)
    (whole,) = amounts(batch_l=6.0).base
    assert whole.when.minutes == 60.0


def test_a_base_is_put_in_in_two_parts_from_so_many_times_the_first_on():
    """1.4 times; 2.2 where few lines are wanted."""
    found = amounts()
    early = 0.105 * found.water_l / 0.95
    for times, simple, parts in (
        (1.39, False, 1),
        (1.41, False, 2),
        (2.19, True, 1),
        (2.21, True, 2),
    ):
        found.task = replace(found.task, aim=replace(found.task.aim, is_simple=simple))
        found._split_base(found.base[0].line, times * early)
        assert len(found.base) == parts, times
        assert sum(each.kg for each in found.base) == pytest.approx(times * early)
    assert found.base[0].kg == pytest.approx(early)


def test_packs_of_the_base_go_in_whole_the_others_late():
    tin = malt("Light dry malt extract")
    other = malt("Wheat dry malt extract")
    found = amounts(packs=((tin, 0.5), (other, 0.25)))
    assert [(each.line.name, each.kg, each.when.minutes) for each in found.base] == [
        (tin.name, 0.5, 60.0),
        (other.name, 0.25, 10.0),
    ]
    assert {each.role for each in found.base} == {Role.BASE}


def test_hops_are_weighed_for_their_bitterness_and_late_ones_for_their_smell():
    """30 IBU in 10 L of a hop of 7.5 %: 30 × 10 / (0.2 × 75 mg) is 20 g; late 1 g a litre."""
    bittering, late = amounts().hops
    assert (bittering.role, bittering.when.minutes) == (Role.BITTERING, 60.0)
    assert bittering.kg == pytest.approx(0.020)
    assert (late.role, late.when.minutes, late.kg) == (Role.LATE, 10.0, pytest.approx(0.010))
    _, more = amounts(aim(late_times=1.5)).hops
    assert more.kg == pytest.approx(0.015)
    weak = replace(hop("Challenger"), alpha=Quantity(0.0, "0 %"))
    of = amounts()
    of.task = replace(of.task, bittering=weak)
    assert of._first_hops()[0].kg == pytest.approx(30.0 * 10.0 / (1e6 * 0.005 * 0.2))


def test_late_hops_are_shared_among_their_sorts():
    found = amounts()
    found.task = replace(found.task, late=(*LARDER.late, hop("Fuggle")))
    _, first, second = found._first_hops()
    assert (first.kg, second.kg) == (pytest.approx(0.005), pytest.approx(0.005))


def test_dry_hops_are_in_for_four_days_or_as_much_goes_in_at_flame_out():
    *_, dry = amounts(aim(dry_hopped=True)).hops
    assert (dry.role, dry.when.stage, dry.when.days) == (Role.DRY, Stage.DRY_HOP, 4.0)
    assert dry.kg == pytest.approx(0.015)
    assert len(amounts().hops) == 2
    found = amounts(aim(dry_hopped=True))
    found.task = replace(found.task, larder=replace(LARDER, dry_g_l=0.0))
    *_, late = found._first_hops()
    assert (late.role, late.when.stage, late.kg) == (
        Role.LATE, Stage.FLAME_OUT, pytest.approx(0.010),
    )  # fmt: skip


def test_the_amounts_are_a_recipe():
    found = amounts(aim(dry_hopped=True))
    recipe = found.recipe()
    assert isinstance(recipe, Recipe)
    assert recipe.process.start_water.value == pytest.approx(5.58, abs=0.05)
    assert recipe.process.top_up_to.value == pytest.approx(10.0)
    assert recipe.process.boil_time.value == 60.0
    assert recipe.process.pitch_temperature.value == 18.0
    assert recipe.process.carbonation.value == 2.0
    assert [each.amount.value for each in recipe.fermentables] == pytest.approx(
        [each.kg for each in found.fermentables], abs=1e-3
    )
    assert [each.amount.value for each in recipe.hops] == pytest.approx(
        [each.kg for each in found.hops], abs=1e-3
    )
    assert recipe.yeast == found.task.grist.yeast


def test_what_each_hop_brings_is_told_in_their_order():
    found = amounts(aim(dry_hopped=True))
    day = brew(found.recipe())
    first, late, dry = found.hop_ibu(day)
    assert first > 3.0 * late > 0.0 == dry
    assert first + late == pytest.approx(float(day.beer.bitterness_ibu), rel=1e-6)


@pytest.mark.parametrize(
    ("band", "wanted"),
    [
        ((20.0, 40.0), 30.0),
        ((30.0, 50.0), 30.5),
        ((10.0, 30.0), 29.5),
        ((29.9, 31.9), 30.3),
        ((29.0, 30.1), 29.88),
        ((40.0, 50.0), 30.0),
        ((10.0, 20.0), 30.0),
    ],
)
def test_bitterness_is_aimed_at_a_little_inside_its_range(band, wanted):
    """Half an IBU, or a fifth of a narrow range; where it is wanted outside, as it is wanted."""
    found = amounts()
    found.task = replace(found.task, aim=aim(ibu=30.0, bands={"bitterness_ibu": band}))
    assert found.wanted_ibu() == pytest.approx(wanted)
