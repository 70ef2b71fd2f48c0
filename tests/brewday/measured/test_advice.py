"""Advice on a brew day, against what brewers reckon by hand, and what it must never do.

Hand reckoning: points times litres stay the same when water comes to wort or boils away (the
dilution formula of the handbooks: Palmer, How to Brew, 1st ed., online, ch. 18, as recalled); dry
extract brings 44 points a pound in a gallon, 367 litre degrees a kilogram (handbooks, from memory);
bitterness goes with grams times alpha acid (alpha acid units, the same).
"""

from __future__ import annotations

import random
from dataclasses import astuple, replace

import pytest

from designer.brewday.measured.advice import is_off, proposals
from designer.brewday.measured.ahead import KEYS, aims_of, day_ahead, readings_moved
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.standing import At, Standing
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import document_of, load
from designer.recipe.choices import FermenterKind
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.recipe.severity import Severity
from designer.resource_files import resource_path
from designer.workbench.brew.accepted_changes import with_changes
from tests.workbench.planned_red import two_boils

CHALLENGER, GOLDING, LIQUID, DRY, FININGS = 5, 6, 1, 2, 7
ALL_IN = frozenset(
    [
        *(("fermentables", each, 1) for each in (1, 2, 3, 4)),
        *(("hops", each, 1) for each in (CHALLENGER, GOLDING)),
        ("extras", FININGS, 1),
    ]
)
AFTER_THE_BOIL = Standing({1: At.BOILED}, {}, ALL_IN)
POINTS_L_PER_KG = 367.0


def example(name):
    return load(resource_path(f"examples/{name}.hobwort"))


@pytest.fixture(scope="module")
def porter():
    """The porter, with room in its fermenter."""
    recipe = example("harbour_lamp_porter")
    return replace(recipe, fermenter=replace(recipe.fermenter, volume=typed(Kind.VOLUME, 16.0)))


@pytest.fixture(scope="module")
def planned(porter):
    return look_ahead(porter)


def advised(recipe, readings=(), standing=AFTER_THE_BOIL, plan=None, brewed=None, **more):
    brewed = brewed or recipe
    before = plan or look_ahead(recipe)
    now = day_measured(brewed, readings)
    return now, proposals(brewed, readings, before, now, standing, **more)


def at_the_end(litres, gravity):
    return (
        Reading(Measured.BOIL_END_VOLUME, litres, By.SCALE),
        Reading(Measured.BOIL_END_GRAVITY, gravity, By.HYDROMETER),
    )


def test_a_day_as_planned_needs_no_advice(porter, planned):
    _, found = advised(porter, plan=planned)
    assert found == ()


def test_half_a_point_is_not_worth_a_word(porter, planned):
    readings = at_the_end(6.04, 1.0875)
    now, found = advised(porter, readings, plan=planned)
    off = now.forecasts["original_gravity"].value - planned.forecasts["original_gravity"].value
    assert 0.0002 < off < 0.001
    assert found == ()


def test_more_extract_than_planned_is_topped_up_further(porter, planned):
    now, (advice, *_) = advised(porter, at_the_end(6.2, 1.097), plan=planned)
    points = 1000.0 * (now.forecasts["original_gravity"].value - 1.0)
    by_hand = 10.0 * points / (1000.0 * (planned.forecasts["original_gravity"].value - 1.0))
    mark = advice.edit.apply(porter).process.top_up_to
    assert by_hand > 10.5
    assert mark.value == pytest.approx(by_hand, abs=0.2)
    assert advice.title.text == f"Top up to {mark.text}, not 10 L"
    assert advice.use.text == f"Use {mark.text}"
    assert advice.keep.text == "Keep 10 L"
    assert "more extract than planned" in advice.reason.text
    after = advice.after["original_gravity"].value
    assert after == pytest.approx(planned.forecasts["original_gravity"].value, abs=0.001)


def test_no_more_water_goes_in_than_the_fermenter_has_room_for(planned):
    """12 L less 15 % for krausen are 10.2 L."""
    small = example("harbour_lamp_porter")
    _, (advice, *_) = advised(small, at_the_end(6.2, 1.099), plan=planned)
    assert advice.edit.apply(small).process.top_up_to.text == "10.2 L"


def test_too_little_extract_is_made_up_with_dry_extract_in_boiled_water(porter, planned):
    now, (advice, *_) = advised(porter, at_the_end(5.8, 1.077), plan=planned)
    made = advice.edit.apply(porter)
    added = [each for each in made.fermentables if each.line_id >= 1001]
    assert [each.when.stage for each in added] == [Stage.FERMENTER]
    assert "dissolved in boiled water" in advice.title.text
    mark = made.process.top_up_to.value
    plan_points = 1000.0 * (planned.forecasts["original_gravity"].value - 1.0)
    have = 10.0 * 1000.0 * (now.forecasts["original_gravity"].value - 1.0)
    by_hand = (mark * plan_points - have) / POINTS_L_PER_KG
    assert 1000.0 * added[0].amount.value == pytest.approx(1000.0 * by_hand, abs=25.0)
    assert round(1000.0 * added[0].amount.value) % 10 == 0


def test_stronger_hops_in_hand_are_kept_back_by_their_alpha_acid(porter, planned):
    """18 g of 7.2 % are 129.6 units; of 9.6 % that takes 13.5 g."""
    strong = replace(
        porter,
        hops=(replace(porter.hops[0], alpha=Quantity(0.096, "9.6 %")), *porter.hops[1:]),
    )
    gone = frozenset(each for each in ALL_IN if each[0] == "fermentables" and each[1] != DRY)
    standing = Standing({1: At.STEEPED}, {}, gone)
    _, (advice, *_) = advised(porter, (), standing, planned, strong)
    made = advice.edit.apply(strong)
    assert made.hops[0].amount.value == pytest.approx(0.0135, abs=0.0016)
    assert advice.title.text.startswith("Keep back ")
    assert advice.title.text.endswith("g of the Challenger")


def test_once_the_bittering_hops_are_in_the_last_ones_are_kept_back(porter, planned):
    strong = replace(
        porter,
        hops=(
            replace(porter.hops[0], amount=typed(Kind.MASS, 0.026)),
            replace(porter.hops[1], when=When(Stage.BOIL, "boil 20 min", 20.0)),
        ),
    )
    plan = look_ahead(replace(strong, hops=(porter.hops[0], strong.hops[1])))
    gone = ALL_IN - {("hops", GOLDING, 1), ("fermentables", DRY, 1), ("extras", FININGS, 1)}
    standing = Standing({1: At.BOILING}, {}, gone, {1: 40.0})
    _, (advice, *_) = advised(porter, (), standing, plan, strong)
    made = advice.edit.apply(strong)
    assert "of the last hops" in advice.title.text
    assert made.hops[1].amount.value < 0.02
    assert made.hops[0] == strong.hops[0]


@pytest.fixture(scope="module")
def whole_boil():
    """A brew that is boiled whole, without water on top."""
    return with_line_ids(
        Recipe(
            pot=Pot(volume=typed(Kind.VOLUME, 15.0)),
            fermenter=Fermenter(volume=typed(Kind.VOLUME, 14.0)),
            process=Process(
                start_water=typed(Kind.VOLUME, 10.0),
                boil_time=typed(Kind.TIME, 60.0),
                evaporation=typed(Kind.EVAPORATION, 2.0),
            ),
            fermentables=(
                Fermentable("Light dry malt extract", "dry extract", typed(Kind.MASS, 1.2)),
            ),
            hops=(Hop("Challenger", alpha=typed(Kind.FRACTION, 0.07),
                      amount=typed(Kind.MASS, 0.015)),),
        )
    )  # fmt: skip


def test_a_thin_wort_is_boiled_longer(whole_boil):
    """So long as what is too much takes to boil away, at 2 L an hour."""
    plan = look_ahead(whole_boil)
    readings = (
        Reading(Measured.BOIL_VOLUME, 9.8, By.SCALE, left_min=15.0),
        Reading(Measured.BOIL_GRAVITY, 1.045, By.HYDROMETER, left_min=15.0),
    )
    gone = frozenset({("fermentables", 1, 1), ("hops", 2, 1)})
    standing = Standing({1: At.BOILING}, {}, gone, {1: 15.0})
    now, (advice, *_) = advised(whole_boil, readings, standing, plan)
    found = 1000.0 * (now.forecasts["original_gravity"].value - 1.0)
    wanted = 1000.0 * (plan.forecasts["original_gravity"].value - 1.0)
    end_l = float(now.day.pot.boil_end_l)
    by_hand = 60.0 * end_l * (1.0 - found / wanted) / 2.0
    made = advice.edit.apply(whole_boil)
    longer = made.process.boil_time.value - 60.0
    assert advice.title.text == f"Boil {longer:.0f} min longer"
    assert longer == pytest.approx(by_hand, abs=3.0)
    assert made.hops[0].when.minutes == 60.0 + longer


def test_with_wort_that_is_colder_than_planned_less_ice_goes_in(porter, planned):
    readings = (Reading(Measured.COOLED, 24.0, By.THERMOMETER),)
    standing = replace(AFTER_THE_BOIL, boils={1: At.COOLED})
    now, found = advised(porter, readings, standing, planned)
    ice = next(each for each in found if each.code == "ice:1")
    made = ice.edit.apply(porter)
    assert now.day.fermenter.mixed_c < 16.0
    assert made.process.frozen_top_up.value < porter.process.frozen_top_up.value
    mixed = day_measured(made, readings, ranges=False).day.fermenter.mixed_c
    assert mixed == pytest.approx(19.0, abs=1.0)


def test_nothing_is_offered_again_that_was_left_until_the_case_is_another(porter, planned):
    readings = at_the_end(6.2, 1.097)
    _, (advice, *_) = advised(porter, readings, plan=planned)
    assert advised(porter, readings, plan=planned, left=[advice.values])[1] == ()
    _, again = advised(porter, at_the_end(6.2, 1.105), plan=planned, left=[advice.values])
    assert again[0].code == advice.code
    assert again[0].steps != advice.steps


def test_extract_is_not_dissolved_hot_in_glass(porter):
    glass = replace(
        porter, fermenter=replace(porter.fermenter, kind=str(FermenterKind.GLASS_CARBOY))
    )
    _, found = advised(glass, at_the_end(5.8, 1.077))
    assert all("dissolved" not in each.title.text for each in found)


def test_where_the_recipe_is_in_pounds_and_gallons_so_is_the_advice(porter):
    us = replace(
        porter,
        process=replace(porter.process, top_up_to=Quantity(10.02, "2.65 gal")),
        fermentables=tuple(
            replace(each, amount=Quantity(each.amount.value, f"{each.amount.value * 2.20462:g} lb"))
            for each in porter.fermentables
        ),
    )
    _, (more, *_) = advised(us, at_the_end(6.2, 1.097))
    assert more.edit.apply(us).process.top_up_to.text.endswith(" gal")
    _, (less, *_) = advised(us, at_the_end(5.8, 1.077))
    added = less.edit.apply(us).fermentables[-1]
    assert added.amount.text.endswith(" oz")


def test_after_pitching_there_is_nothing_to_advise(porter, planned):
    standing = Standing({1: At.MOVED}, {1: At.PITCHED}, ALL_IN)
    _, found = advised(porter, at_the_end(6.2, 1.105), standing, planned)
    assert found == ()


def test_two_boils_are_brought_back_by_what_is_ahead_of_them():
    small = two_boils()
    recipe = replace(
        small,
        fermenters=tuple(
            replace(each, fermenter=replace(each.fermenter, volume=typed(Kind.VOLUME, 14.0)))
            for each in small.fermenters
        ),
    )
    stronger = replace(
        recipe,
        fermentables=tuple(
            replace(each, amount=typed(Kind.MASS, 1.08 * each.amount.value))
            for each in recipe.fermentables
        ),
    )
    gone = frozenset(
        ("fermentables", each.line_id, boil) for each in recipe.fermentables for boil in (1, 2)
    )
    standing = Standing({1: At.BOILED, 2: At.BOILED}, {}, gone)
    plan = look_ahead(recipe)
    _, (advice, *_) = advised(recipe, (), standing, plan, stronger)
    made = advice.edit.apply(stronger)
    assert made.fermentables == stronger.fermentables
    for each in made.fermenters:
        assert each.top_up_to.value == pytest.approx(10.8, abs=0.25)
    assert is_off("original_gravity", advice.before["original_gravity"].value, plan.forecasts)
    assert not is_off("original_gravity", advice.after["original_gravity"].value, plan.forecasts)


TOPPED_UP = (
    Reading(Measured.TOPPED_UP, 10.0, By.MARK),
    Reading(Measured.ORIGINAL_GRAVITY, 1.050, By.HYDROMETER),
)


def test_wort_that_is_read_too_strong_in_the_fermenter_is_thinned(porter, planned):
    """1.050 in 10 L are 500 points; by dilution they make 10.9 L of 1.0458."""
    standing = Standing({1: At.MOVED}, {1: At.TOPPED_UP}, ALL_IN)
    now, (advice, *_) = advised(porter, TOPPED_UP, standing, planned)
    points = 1000.0 * (now.forecasts["original_gravity"].value - 1.0)
    by_hand = 10.0 * points / 45.8 - 10.0
    more = advice.changes[0]["more_l"]
    assert advice.title.text == f"Pour in {more:g} L more water"
    assert more == pytest.approx(by_hand, abs=0.15)


@pytest.mark.parametrize("gravity", [1.050, 1.0405])
def test_a_gravity_read_before_advice_was_taken_stands_for_what_it_is_after(
    porter, planned, gravity
):
    standing = Standing({1: At.MOVED}, {1: At.TOPPED_UP}, ALL_IN)
    readings = (TOPPED_UP[0], replace(TOPPED_UP[1], value=gravity))
    _, (advice, *_) = advised(porter, readings, standing, planned)
    made = advice.edit.apply(porter)
    after = day_measured(made, readings_moved(readings, advice.changes), ranges=False)
    wanted = advice.after["original_gravity"].value
    assert after.forecasts["original_gravity"].value == pytest.approx(wanted, abs=0.0003)
    assert proposals(made, readings_moved(readings, advice.changes), planned, after, standing) == ()


@pytest.mark.parametrize("planned_too", [False, True])
def test_the_day_that_lies_ahead_is_that_of_the_readings_while_nothing_is_changed(
    porter, planned_too
):
    recipe = two_boils() if planned_too else porter
    readings = (
        Reading(Measured.BOIL_START_VOLUME, 7.0, By.MARK),
        Reading(Measured.BOIL_END_GRAVITY, 1.09, By.HYDROMETER),
        Reading(Measured.INTO_FERMENTER, 5.0, By.MARK),
        Reading(Measured.ORIGINAL_GRAVITY, 1.049, By.HYDROMETER),
    )
    known, ahead = day_measured(recipe, readings, ranges=False), day_ahead(recipe, readings)
    for key in KEYS:
        wanted = pytest.approx(known.forecasts[key].value, rel=1e-9)
        assert ahead.outlook(recipe, ()).forecasts[key].value == wanted
    aims, wanted = ahead.aims(recipe, ()), aims_of(ahead.outlook(recipe, ()))
    assert aims.keys() == wanted.keys()
    for key, aim in aims.items():
        assert astuple(aim)[:3] == pytest.approx(astuple(wanted[key])[:3], rel=1e-12)


@pytest.mark.parametrize("seed", range(24))
def test_advice_changes_nothing_that_is_done_fills_no_vessel_and_makes_nothing_grave(seed):
    draw = random.Random(seed)
    names = ("harbour_lamp_porter", "breakwater_red", "foghorn_wheat", "slipway_bitter")
    recipe = example(names[seed % 4])
    lines = [("fermentables", each) for each in recipe.fermentables]
    lines += [("hops", each) for each in recipe.hops]
    gone = frozenset((name, each.line_id, 1) for name, each in lines if draw.random() < 0.6)
    at = draw.choice([At.STEEPED, At.BOILING, At.BOILED, At.COOLED])
    brewed = replace(
        recipe,
        fermentables=tuple(
            replace(each, amount=typed(Kind.MASS, each.amount.value * draw.uniform(0.8, 1.25)))
            for each in recipe.fermentables
        ),
    )
    standing = Standing({1: at}, {}, gone, {1: draw.uniform(0.0, 60.0)})
    before = look_ahead(brewed)
    _, found = advised(recipe, (), standing, brewed=brewed)
    for advice in found:
        made = advice.edit.apply(brewed)
        taken = with_changes(brewed, advice.values["changes"])
        assert document_of(taken) == document_of(made)
        after = look_ahead(made)
        for name, line_id, _ in gone:
            was = next(e for e in getattr(brewed, name) if e.line_id == line_id)
            now = next(e for e in getattr(made, name) if e.line_id == line_id)
            assert now.amount == was.amount
        if at >= At.BOILED:
            assert made.process.boil_time == brewed.process.boil_time
        brim = brewed.fermenter.volume
        if brim is not None:
            room = max(brim.value * 0.85 + 0.05, before.day.fermenter.batch_l)
            assert after.day.fermenter.batch_l <= room + 1e-6
        graves = {each.code for each in before.findings if each.severity is not Severity.NOTE}
        assert graves >= {e.code for e in after.findings if e.severity is not Severity.NOTE}
        assert any(is_off(key, advice.before[key].value, look_ahead(recipe).forecasts)
                   for key in KEYS) or advice.code.startswith("ice")  # fmt: skip
