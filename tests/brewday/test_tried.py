"""A changed recipe tried tells what a day of its own would, from wherever it goes on."""

from dataclasses import fields, replace

import pytest

from designer.brewday import day as days
from designer.brewday.day import brew, tried
from designer.brewday.findings import findings
from designer.brewday.inputs import Inputs, gather
from designer.brewday.results import Day
from designer.brewday.tolerances import Nominal
from designer.brewday.tried import FROM_COOLING_ON, alike_until_cooled
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind

TIME_LINE = {"additions": (), "moments": ()}


def process(recipe, **changes):
    return replace(recipe, process=replace(recipe.process, **changes))


FROM_THE_COOLING = {
    "frozen": lambda recipe: process(recipe, frozen_top_up=typed(Kind.MASS, 1.3)),
    "filled up to": lambda recipe: process(recipe, top_up_to=typed(Kind.VOLUME, 11.0)),
    "left in the pot": lambda recipe: process(recipe, left_in_pot=typed(Kind.VOLUME, 0.7)),
    "pitched at": lambda recipe: process(recipe, pitch_temperature=typed(Kind.TEMPERATURE, 14.0)),
    "cooled to": lambda recipe: process(recipe, cool_to=typed(Kind.TEMPERATURE, 31.0)),
    "carbonation": lambda recipe: process(recipe, carbonation=typed(Kind.CARBONATION, 2.0)),
    "glass": lambda recipe: replace(
        recipe, fermenter=replace(recipe.fermenter, kind="glass carboy")
    ),
    "yeast": lambda recipe: replace(
        recipe,
        yeast=replace(recipe.yeast, attenuation=typed(Kind.FRACTION, 0.6)),
    ),
}
FROM_THE_START = {
    "water": lambda recipe: process(recipe, start_water=typed(Kind.VOLUME, 5.5)),
    "a standing pot": lambda recipe: process(recipe, cooling="standing in air"),
    "a longer boil": lambda recipe: process(recipe, boil_time=typed(Kind.TIME, 75.0)),
    "less extract": lambda recipe: replace(
        recipe,
        fermentables=(
            replace(recipe.fermentables[0], amount=typed(Kind.MASS, 0.3)),
            *recipe.fermentables[1:],
        ),
    ),
    "fewer hops": lambda recipe: replace(recipe, hops=recipe.hops[1:]),
}


@pytest.mark.parametrize("change", [*FROM_THE_COOLING.values(), *FROM_THE_START.values()],
                         ids=[*FROM_THE_COOLING, *FROM_THE_START])  # fmt: skip
def test_a_change_that_is_tried_tells_what_a_day_of_its_own_tells(harbour_porter, change):
    began = brew(harbour_porter).began
    changed = change(harbour_porter)
    wanted = replace(brew(changed), **TIME_LINE)
    assert wanted != replace(brew(harbour_porter), **TIME_LINE)
    assert tried(changed, began) == wanted
    again = replace(changed, name="The same, called otherwise")
    assert tried(again, began) == wanted, "the day that is kept has been changed"
    assert tried(changed) == wanted


@pytest.mark.parametrize("name", [*FROM_THE_COOLING, *FROM_THE_START])
def test_what_changes_only_later_goes_on_from_the_hot_pot(harbour_porter, name, monkeypatch):
    began = brew(harbour_porter).began
    boiled = []
    monkeypatch.setattr(days, "boil", lambda run, *lines: boiled.append(run))
    monkeypatch.setattr(days, "ferment", lambda *of: "no beer")
    monkeypatch.setattr(days, "_with_time_line", lambda day, *of: day)
    tried({**FROM_THE_COOLING, **FROM_THE_START}[name](harbour_porter), began)
    assert bool(boiled) is (name in FROM_THE_START)


def test_every_other_input_is_looked_at_before_that(harbour_porter):
    """Whatever differs but for what is named to count later, the day is run from its start."""
    given = gather(harbour_porter, Nominal())
    names = {each.name for each in fields(Inputs)}
    assert names > FROM_COOLING_ON
    for name in names:
        other = replace(given, **{name: "another"})
        if name in ("extracts", "hops"):
            other = replace(given, **{name: getattr(given, name)[1:]})
        assert alike_until_cooled(given, other) is (name in FROM_COOLING_ON), name


def test_a_finding_that_is_only_looked_for_has_no_cure_sought(harbour_porter, monkeypatch):
    """Of a day that is tried nobody asks for cures: no day is run for one."""
    day = brew(harbour_porter)
    codes = {each.code for each in findings(harbour_porter, day) if each.fix is not None}
    assert {"foam-room", "extract-early"} <= codes
    runs = []
    run_through = days._until_cooled
    monkeypatch.setattr(days, "_until_cooled", lambda run: runs.append(run) or run_through(run))
    day = brew(harbour_porter)
    runs.clear()
    found = findings(harbour_porter, day)
    cures = [each for each in found if each.fix is not None]
    assert 0 < len(runs) <= len(cures)  # one for each, be it sought, looked at or told with
    assert isinstance(day, Day)


def test_a_changed_recipe_is_run_once_and_told_from_one_whose_lines_are_others(harbour_porter):
    began = brew(harbour_porter).began
    changed = FROM_THE_START["water"](harbour_porter)
    first = tried(changed, began)
    assert tried(FROM_THE_START["water"](harbour_porter), began) is first
    ids = {each.line_id for each in (*changed.fermentables, *changed.hops)}
    assert set(first.gives) == ids
    numbered = replace(
        changed, hops=tuple(replace(each, line_id=each.line_id + 100) for each in changed.hops)
    )
    assert numbered == changed
    assert set(tried(numbered, began).gives) != ids
