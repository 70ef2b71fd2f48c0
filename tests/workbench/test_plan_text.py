"""The forecast of a planned recipe for a terminal: a paragraph for each boil and each fermenter."""

from dataclasses import replace

from designer.brewday.outlook import look_ahead
from designer.recipe.choices import Turn
from designer.recipe.document import PlannedFermenter, WortShare
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.workbench.forecast_text import forecast_lines
from tests.workbench.planned_red import BUCKET, WRITTEN, litres, two_boils, two_buckets


def told(recipe):
    return [line.strip() for line in forecast_lines(recipe, look_ahead(recipe))]


def count(lines, word):
    return sum(line.startswith(word) for line in lines)


def test_two_boils_and_two_buckets_have_a_paragraph_each():
    lines = told(two_boils())
    assert "Brewed in 2 boils in the Kitchen pot of 9 L, into 2 × Small bucket of 12 L." in lines
    for number in (1, 2):
        at = lines.index(f"Boil {number}, Kitchen pot of 9 L, 50 % of the recipe:")
        assert lines[at - 1] == ""
        paragraph = lines[at : lines.index("", at)]
        for word in ("Steep: ", "Pot: start with 6.3 L", "Boil: gravity", "Cool: ", "Day: "):
            assert count(paragraph, word) == 1, word
        assert f"Fermenter {number}, Small bucket of 12 L: 6.4 L from boil {number}, 3.6 L of " \
            "water: 10 L" in lines  # fmt: skip
    assert count(lines, "Its own beer") == 0, "they are alike"
    assert count(lines, "Fermenter:") == 0


def test_the_second_boil_begins_when_the_first_is_done():
    outlook = look_ahead(two_boils())
    days = [line for line in told(two_boils()) if line.startswith("Day: ")]
    (_, first_end), (second_start, _) = (
        each.removeprefix("Day: ").split(", ")[0].split(" to ") for each in days
    )
    assert first_end == second_start
    assert outlook.plan.boils[1].starts_min > 0.0


def test_a_boil_of_another_day_is_said_so():
    lines = told(two_boils(Turn.ANOTHER_DAY))
    assert "Day 2: Boil 2, Kitchen pot of 9 L, 50 % of the recipe:" in lines
    assert count(lines, "Day 2: Yeast: ") == 1


def test_a_bucket_that_is_filled_less_tells_its_own_beer():
    lines = told(two_buckets(9.0, 11.0))
    assert "Boil 1, Kitchen pot of 9 L:" in lines
    own = [line for line in lines if line.startswith("Its own beer: ")]
    assert len(own) == 2
    assert own[0].startswith("Its own beer: Original gravity 1.04")
    whole = look_ahead(two_buckets(9.0, 11.0)).forecasts["original_gravity"].value
    assert f"Original gravity {whole:.3f}" not in own[0]


def test_one_vessel_that_two_boils_fill_says_how_much_of_each_and_what_of_the_water_is_frozen():
    vessel = PlannedFermenter(
        replace(BUCKET, name="Brewing tub", volume=litres(25.0)),
        (WortShare(1), WortShare(2)),
        top_up_to=litres(20.0),
        frozen_top_up=typed(Kind.MASS, 2.0),
    )
    lines = told(replace(two_boils(), fermenters=(vessel,)))
    (line,) = [line for line in lines if line.startswith("Fermenter 1, Brewing tub of 25 L: ")]
    assert " from boil 1, " in line
    assert " from boil 2, " in line
    assert " of water, 2 kg of it frozen: 20 L" in line


def test_without_a_plan_the_lines_are_those_of_the_pot_and_the_fermenter():
    lines = told(WRITTEN)
    assert count(lines, "Brewed") == count(lines, "Boil 1") == 0
    for word in ("Pot: ", "Boil: ", "Cool: ", "Fermenter: ", "Day: "):
        assert count(lines, word) == 1
