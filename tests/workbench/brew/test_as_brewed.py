"""The recipe as it is brewed: real times, what is in hand, what was taken and left out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.measured import boil_lever, line_levers, water_levers
from designer.brewday.measured.boil_lever import BoilTime
from designer.brewday.measured.line_levers import Added, Weighed
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.standing import At
from designer.brewday.measured.water_levers import Ice, TopUp
from designer.library.recipe_file import load
from designer.recipe.document import Fermentable
from designer.recipe.kinds import typed
from designer.recipe.plan import recipe_at
from designer.recipe.quantity import Kind, Stage, When
from designer.resource_files import resource_path
from designer.workbench.brew import timer_moves
from designer.workbench.brew.as_brewed import as_brewed, readings_as_brewed, with_accepted
from designer.workbench.brew.entries import What
from designer.workbench.brew.keep_in_recipe import kept_in_recipe
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.where_it_stands import standing_of
from tests.workbench.brew.brew_days import BrewDay
from tests.workbench.planned_red import two_boils

CHALLENGER, GOLDING, DRY, FININGS = 5, 6, 2, 7


@pytest.fixture
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def day(porter):
    return BrewDay(porter)


def hop(recipe, line_id):
    return next(each for each in recipe.hops if each.line_id == line_id)


def levers(recipe):
    """One of each kind of change."""
    process = recipe.process
    new = Fermentable("Light dry malt extract", "dry extract", None,
                      When(Stage.FERMENTER, "fermenter"), line_id=1001)  # fmt: skip
    gone = tuple(("hops", each) for each in recipe.hops if each.when.stage is Stage.BOIL)
    return {
        "mark": TopUp((1,), 1, bool(recipe.fermenters), process.top_up_to,
                      process.top_up_to.value, -9, 9),
        "hops": Weighed("hops", recipe.hops[-1], 1, bool(recipe.boils), -9, 9),
        "extract": Added(new, 1, bool(recipe.boils), None, 20),
        "boil": BoilTime(1, bool(recipe.boils), process.boil_time, gone, -5, 30),
        "ice": Ice(1, 1, bool(recipe.fermenters), typed(Kind.MASS, 0.8), -8),
    }  # fmt: skip


def test_every_lever_there_is_is_tried_here(porter):
    modules = (boil_lever, line_levers, water_levers)
    there_are = {
        each
        for module in modules
        for each in vars(module).values()
        if isinstance(each, type) and each.__module__ == module.__name__ and hasattr(each, "effort")
    }
    assert {type(each) for each in levers(porter).values()} == there_are


def test_a_day_that_goes_as_planned_is_brewed_as_the_recipe_says(day, porter):
    day.do_until("fermenter 1/pitch")
    assert as_brewed(porter, day.now) == porter


@pytest.mark.parametrize("kind", ["mark", "hops", "extract", "boil", "ice"])
@pytest.mark.parametrize("planned", [False, True])
def test_an_accepted_change_is_the_recipe_that_its_forecast_was_made_of(porter, kind, planned):
    recipe = two_boils() if planned else porter
    plain = recipe_at(recipe, 1, 1) if planned else recipe
    made = levers(plain)[kind]
    lever = replace(made, is_planned=True) if planned else made
    day = BrewDay(recipe)
    day.write(What.ACCEPTED, proposal=lever.code, changes=[dict(each) for each in lever.changes(4)])
    wanted = lever.edit(4).apply(recipe)
    found = as_brewed(recipe, day.now)
    assert found != recipe
    assert found == wanted


def test_an_accepted_change_that_is_taken_back_is_gone(day, porter):
    lever = levers(porter)["mark"]
    taken = day.write(What.ACCEPTED, proposal=lever.code, changes=list(lever.changes(4)))
    assert as_brewed(porter, day.now).process.top_up_to.text == "10.4 L"
    day.write(What.TAKES_BACK, entry=taken)
    assert as_brewed(porter, day.now) == porter


def test_hops_put_in_three_minutes_late_boil_three_minutes_less(day, porter):
    day.do_until("boil 1/boils")
    day.minute += 3.0
    day.do(f"boil 1/hops {CHALLENGER}")
    assert hop(as_brewed(porter, day.now), CHALLENGER).when == When(Stage.BOIL, "boil 57 min", 57.0)


def test_a_pause_of_the_boil_is_no_boiling(day, porter):
    day.do_until("boil 1/boils")
    day.minute += 10.0
    day.write(What.TIMER, **timer_moves.pause("boil 1"))
    day.minute += 7.0
    day.write(What.TIMER, **timer_moves.resume("boil 1"))
    day.minute += 35.0
    day.do(f"boil 1/hops {CHALLENGER}")
    assert hop(as_brewed(porter, day.now), CHALLENGER).when.minutes == pytest.approx(15.0)


def test_a_boil_that_ran_on_is_longer_for_what_was_in_it(day, porter):
    day.do_until(f"boil 1/extras {FININGS}")
    day.minute += 11.0
    day.do("boil 1/flame-out")
    made = as_brewed(porter, day.now)
    assert made.process.boil_time.value == pytest.approx(66.0)
    assert hop(made, CHALLENGER).when.minutes == pytest.approx(66.0)
    assert hop(made, GOLDING) == hop(porter, GOLDING)


def test_what_is_left_out_is_not_in_the_beer_but_its_step_stays(day, porter):
    day.do_until(f"boil 1/fermentables {DRY}")
    day.write(What.LEFT_OUT, step=f"boil 1/extras {FININGS}", reason="none in the house")
    day.write(What.LEFT_OUT, step="fermenter 1/top-up after boil 1")
    made = as_brewed(porter, day.now)
    assert made.extras == ()
    assert made.process.top_up_to is None
    assert with_accepted(porter, day.now) == porter


def test_the_packet_in_hand_and_what_was_weighed_stand_in_the_recipe_as_brewed(day, porter):
    day.read(Reading(Measured.ALPHA, 0.058, By.PACKET, lines="hops", line_id=CHALLENGER))
    day.read(Reading(Measured.WEIGHT, 0.021, By.SCALE, lines="hops", line_id=CHALLENGER))
    day.read(Reading(Measured.BOIL_VOLUME, 6.5, By.MARK, left_min=20.0))
    made = hop(as_brewed(porter, day.now), CHALLENGER)
    assert (made.alpha.text, made.amount.text) == ("5.8 %", "21 g")
    assert [each.what for each in readings_as_brewed(day.now)] == [Measured.BOIL_VOLUME]


def test_the_packet_of_one_boil_is_that_of_the_other_but_each_is_weighed_by_itself():
    recipe = two_boils()
    line = recipe.hops[0]
    day = BrewDay(recipe)
    day.read(Reading(Measured.ALPHA, 0.058, By.PACKET, lines="hops", line_id=line.line_id))
    assert as_brewed(recipe, day.now).hops[0].alpha.text == "5.8 %"
    day.read(Reading(Measured.WEIGHT, 0.013, By.SCALE, boil=2, lines="hops", line_id=line.line_id))
    made = as_brewed(recipe, day.now)
    assert made.hops[0].amount == line.amount
    assert made.boils[0].hops is None
    assert (made.boils[1].hops[0].amount.text, made.boils[1].hops[0].alpha.text) == (
        "13 g",
        "5.8 %",
    )


def test_a_dose_that_was_weighed_keeps_its_unit(day, porter):
    day.read(Reading(Measured.WEIGHT, 1.0, By.SCALE, lines="extras", line_id=FININGS))
    assert as_brewed(porter, day.now).extras[0].amount.text == "1 tablet"


def test_a_weight_kept_back_on_advice_holds_against_an_earlier_weighing(day, porter):
    day.read(Reading(Measured.WEIGHT, 0.02, By.SCALE, lines="hops", line_id=GOLDING))
    lever = levers(porter)["hops"]
    day.write(What.ACCEPTED, proposal=lever.code, changes=list(lever.changes(-4)))
    assert hop(as_brewed(porter, day.now), GOLDING).amount.text == "16 g"


def test_a_reading_in_a_boil_that_was_made_longer_keeps_its_instant(day, porter):
    day.read(Reading(Measured.BOIL_VOLUME, 6.5, By.MARK, left_min=20.0))
    lever = levers(porter)["boil"]
    day.write(What.ACCEPTED, proposal=lever.code, changes=list(lever.changes(8)))
    day.read(Reading(Measured.BOIL_VOLUME, 6.3, By.MARK, left_min=20.0))
    assert [each.left_min for each in readings_as_brewed(day.now)] == [28.0, 20.0]


def test_a_damaged_change_of_a_log_changes_nothing(day, porter):
    for changes in (
        None,
        "much",
        [3],
        [{}],
        [{"lines": "hops", "line_id": 99, "field": "amount"}],
        [{"part": "process", "field": "no such", "to": "1 L"}],
        [{"part": "process", "field": "top_up_to", "to": "a lot"}],
        [{"lines": "fermentables", "line_id": 1001, "add": {"kind": "lead"}}],
    ):
        day.write(What.ACCEPTED, proposal="?", changes=changes)
    assert as_brewed(porter, day.now) == porter


def test_keep_this_in_the_recipe_is_one_edit_and_can_be_undone(day, porter):
    for kind, steps in (("mark", 4), ("hops", -4), ("extract", 9)):
        lever = levers(porter)[kind]
        day.write(What.ACCEPTED, proposal=lever.code, changes=list(lever.changes(steps)))
    edit = kept_in_recipe(porter, day.now)
    made = edit.apply(porter)
    assert made == as_brewed(porter, day.now)
    assert made.process.top_up_to.text == "10.4 L"
    assert [each.text for each in (hop(made, GOLDING).amount, made.fermentables[-1].amount)] == [
        "16 g",
        "90 g",
    ]


def test_a_plan_is_kept_in_the_recipe_too():
    recipe = two_boils()
    day = BrewDay(recipe)
    lever = replace(levers(recipe_at(recipe, 1, 1))["mark"], is_planned=True)
    day.write(What.ACCEPTED, proposal=lever.code, changes=list(lever.changes(2)))
    made = kept_in_recipe(recipe, day.now).apply(recipe)
    assert [each.top_up_to.text for each in made.fermenters] == ["10.2 L", "10 L"]


def test_where_it_stands_follows_the_steps_that_are_done(day):
    day.do_until(f"boil 1/hops {CHALLENGER}")
    standing = standing_of(day.now)
    assert standing.of_boil(1) is At.BOILING
    assert standing.left_min == {1: 60.0}
    day.minute += 48.0
    day.write(What.NOTE, text="it smells of bread")
    assert standing_of(day.now).left_min == {1: pytest.approx(12.0)}
    day.minute -= 48.0
    assert not standing.is_ahead("hops", CHALLENGER, 1)
    assert standing.is_ahead("hops", GOLDING, 1)
    day.do_until("fermenter 1/top-up after boil 1")
    standing = standing_of(day.now)
    assert (standing.of_boil(1), standing.of_fermenter(1)) == (At.MOVED, At.TOPPED_UP)


@pytest.mark.parametrize("planned", [False, True])
def test_a_cure_of_an_odd_reading_is_in_the_beer_until_it_is_taken_back(porter, planned):
    recipe = two_boils() if planned else porter
    plain = recipe_at(recipe, 1, 1) if planned else recipe
    made = levers(plain)
    new, mark = (
        replace(made["extract"], is_planned=planned),
        replace(made["mark"], is_planned=planned, is_after=True),
    )
    day = BrewDay(recipe)
    read = Reading(Measured.TOPPED_UP, 10.0, By.MARK)
    day.write(What.READING, reading=values_of(read), typed="10 L")
    changes = [*new.changes(18), *mark.changes(3)]
    cured = day.write(What.CURED, cure="add_extract", changes=changes, said="Add 180 g")
    found = as_brewed(recipe, day.now)
    assert found == mark.edit(3).apply(new.edit(18).apply(recipe))
    assert found == with_accepted(recipe, day.now)
    (moved,) = readings_as_brewed(day.now)
    assert moved.value == pytest.approx(10.3)
    day.write(What.TAKES_BACK, entry=cured)
    assert as_brewed(recipe, day.now) == recipe
    assert readings_as_brewed(day.now) == (read,)
