"""The boils and fermenters of `forecast --json`, and what its other keys mean of a planned day."""

from dataclasses import replace

import pytest

from designer.brewday.fit.costs import cost
from designer.brewday.outlook import look_ahead
from designer.library.places import set_field
from designer.library.recipe_file import load
from designer.recipe.choices import Turn
from designer.recipe.document import LINE_TYPES, Fermenter, Pot
from designer.recipe.named import lines_of
from designer.recipe.plan import recipe_of_boil
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import read
from designer.workbench.forecast_document import forecast_document
from tests.workbench.planned_red import (
    WRITTEN,
    litres,
    two_boils,
    two_buckets,
    with_own_hops,
    with_own_yeast,
)


def document(recipe):
    outlook = look_ahead(recipe)
    return forecast_document(recipe, outlook), outlook


@pytest.mark.parametrize("name", ["harbour_lamp_porter", "foghorn_wheat"])
def test_a_recipe_without_a_plan_has_one_boil_and_one_fermenter_that_are_the_whole(name):
    recipe = load(resource_path(f"examples/{name}.hobwort"))
    found, _ = document(recipe)
    (boil,), (fermenter,) = found["boils"], found["fermenters"]
    assert (boil["number"], boil["share"], boil["starts_min"], boil["on_day"]) == (1, 1.0, 0.0, 0)
    assert boil["pot"] == recipe.pot.name
    assert boil["start_water_l"] == found["pot"]["start_l"]
    for key in ("fullest_l", "fullest_at", "end_l", "rim_l"):
        assert boil[key] == found["pot"][key], key
    for key in ("boil_gravity_start", "boil_gravity_end", "total_min"):
        assert boil[key] == found[key], key
    assert fermenter["from"] == [
        {
            "boil": 1,
            "share": 1.0,
            "from_pot_l": fermenter["from_pot_l"],
            "top_up_l": fermenter["top_up_l"],
            "frozen_kg": found["ice"]["top_up_kg"],
        }
    ]
    for key in ("from_pot_l", "top_up_l", "hot_l", "total_l", "brim_l"):
        assert fermenter[key] == found["fermenter"][key], key
    assert fermenter["frozen_kg"] == found["ice"]["top_up_kg"]
    assert fermenter["mixed_c"] == found["cooling"]["mixed_c"]
    assert fermenter["name"] == recipe.fermenter.name
    assert fermenter["yeast"] == {
        "name": recipe.yeast.name,
        "amount": recipe.yeast.amount.text,
        **found["yeast"],
    }
    assert fermenter["pitched_min"] == found["total_min"]
    for part in (boil, fermenter):
        assert all(part["forecasts"][key] == found[key] for key in part["forecasts"])
        assert "original_gravity" in part["forecasts"]


def test_each_boil_is_told_as_its_own_day_has_it():
    found, outlook = document(two_boils())
    assert [each["number"] for each in found["boils"]] == [1, 2]
    for told, boil in zip(found["boils"], outlook.plan.boils, strict=True):
        pot = boil.day.pot
        assert told["pot"] == "Kitchen pot"
        assert (told["rim_l"], told["share"]) == (9.0, 0.5)
        assert told["start_water_l"] == pot.start_water_l == pytest.approx(6.3, abs=0.02)
        assert told["fullest_l"] == pot.fullest_l
        assert told["fullest_at"] == pot.fullest_at
        assert told["end_l"] == pot.boil_end_l
        assert told["boil_gravity_start"] == pot.boil_gravity_start
        assert told["boil_gravity_end"] == pot.boil_gravity_end
        assert (told["starts_min"], told["on_day"]) == (boil.starts_min, 0)
        assert told["total_min"] == boil.day.total_min
        for key, forecast in told["forecasts"].items():
            assert forecast["value"] == boil.forecasts[key].value
        assert "reading" in told["forecasts"]["original_gravity"]
    first, second = found["boils"]
    assert (first["turn"], second["turn"]) == ("after the one before",) * 2
    assert second["starts_min"] == pytest.approx(first["total_min"])


def test_each_fermenter_is_told_with_its_wort_its_water_its_yeast_and_its_own_beer():
    found, outlook = document(two_buckets(9.0, 11.0))
    for told, filled in zip(found["fermenters"], outlook.plan.fermenters, strict=True):
        assert (told["number"], told["name"], told["brim_l"]) == (
            filled.number, "Small bucket", 12.0
        )  # fmt: skip
        (poured,) = told["from"]
        assert (poured["boil"], poured["share"]) == (1, 0.5)
        both = told["from_pot_l"] + told["top_up_l"]
        assert both == pytest.approx(told["total_l"], abs=0.01), "cold water takes a little more"
        assert poured["from_pot_l"] == told["from_pot_l"]
        assert told["pitched_min"] == filled.pitched_min
        for key, forecast in told["forecasts"].items():
            assert forecast["value"] == filled.forecasts[key].value
    small, large = found["fermenters"]
    assert (small["total_l"], large["total_l"]) == (
        pytest.approx(9.0, abs=0.01),
        pytest.approx(11.0, abs=0.01),
    )
    gravities = [each["forecasts"]["original_gravity"]["value"] for each in (small, large)]
    assert gravities[0] > found["original_gravity"]["value"] > gravities[1]


def test_what_is_not_told_of_one_is_the_whole():
    found, outlook = document(two_boils())
    boils, fermenters = found["boils"], found["fermenters"]
    assert found["pot"]["start_l"] == pytest.approx(sum(each["start_water_l"] for each in boils))
    assert found["pot"]["end_l"] == pytest.approx(sum(each["end_l"] for each in boils))
    for key in ("from_pot_l", "top_up_l", "total_l", "brim_l"):
        whole = pytest.approx(sum(each[key] for each in fermenters))
        assert found["fermenter"][key] == whole, key
    assert found["water"]["total_l"] == pytest.approx(
        found["pot"]["start_l"] + found["fermenter"]["top_up_l"]
    )
    assert found["total_min"] == pytest.approx(sum(each["total_min"] for each in boils))
    days = [each.day for each in outlook.plan.boils]
    ice = sum(each.fermenter.bath_ice_kg for each in days)
    assert found["ice"]["bath_kg"] == pytest.approx(ice) != 0.0
    held = sum(each.steep.held_in_grain_l for each in days)
    assert found["steep"]["held_in_grain_l"] == pytest.approx(held) != 0.0


def test_hot_water_on_extract_in_the_buckets_is_shared_with_the_wort():
    late = set_field(two_buckets(10.0, 10.0), "fermentables.2.when", "fermenter")
    found, _ = document(late)
    shared = [each["hot_l"] for each in found["fermenters"]]
    assert found["fermenter"]["hot_l"] == pytest.approx(sum(shared)) != 0.0
    assert shared[0] == pytest.approx(shared[1])


def test_the_rim_is_that_of_the_fullest_pot_and_a_brim_that_is_not_known_leaves_the_sum_unknown():
    small = Pot("Old pot", litres(7.5), stove=WRITTEN.pot.stove)
    found, _ = document(two_boils(pot=small, start_water=litres(5.0)))
    assert found["pot"]["rim_l"] == 9.0
    assert [each["rim_l"] for each in found["boils"]] == [9.0, 7.5]
    first, second = two_boils().fermenters
    unknown = replace(second, fermenter=Fermenter("Tub"))
    found, _ = document(replace(two_boils(), fermenters=(first, unknown)))
    assert found["fermenter"]["brim_l"] is None
    assert [each["brim_l"] for each in found["fermenters"]] == [12.0, None]


def test_stages_and_what_goes_in_say_in_which_boil_and_on_which_day():
    found, outlook = document(two_boils(Turn.ANOTHER_DAY))
    assert {each["boil"]: each["on_day"] for each in found["stages"]} == {1: 0, 2: 1}
    assert {each["boil"]: each["on_day"] for each in found["goes_in"]} == {1: 0, 2: 1}
    first = [each for each in found["stages"] if each["boil"] == 1]
    second = [each for each in found["stages"] if each["boil"] == 2]
    assert [each["start"] for each in first] == [each["start"] for each in second]
    assert second[0]["start"] == "09:00"
    assert [each["pitched_min"] for each in found["fermenters"]] == [
        pytest.approx(float(each.day.total_min)) for each in outlook.plan.boils
    ]
    days = [(each["on_day"], each["at_min"]) for each in found["goes_in"]]
    assert days == sorted(days)


def test_boils_of_one_day_follow_each_other_by_the_clock():
    found, outlook = document(two_boils())
    second = outlook.plan.boils[1]
    stages = [each for each in found["stages"] if each["boil"] == 2]
    assert stages[0]["start_min"] == pytest.approx(second.starts_min)
    assert stages[-1]["end_min"] == pytest.approx(found["total_min"])
    for each in found["goes_in"]:
        assert (each["at_min"] >= second.starts_min) is (each["boil"] == 2)


def test_each_boil_lists_what_goes_into_it_with_the_place_where_it_can_be_set():
    recipe = with_own_hops()
    found, _ = document(recipe)
    first, second = (
        {each["place"]: each["amount"] for each in boil["goes_in"]} for boil in found["boils"]
    )
    assert first["hops.1"] == "10 g"
    assert second["boils.2.hops.1"] == "7 g"
    assert second["boils.2.hops.2"] == "12 g"
    assert second["fermentables.1"] == "850 g"
    assert [
        {key: value for key, value in each.items() if key != "boil"}
        for each in found["goes_in"]
        if each["boil"] == 2
    ] == found["boils"][1]["goes_in"]
    for boil in (1, 2):
        for lines in LINE_TYPES:
            for line in lines_of(recipe_of_boil(recipe, boil), lines):
                assert line.name in {each["name"] for each in found["boils"][boil - 1]["goes_in"]}


def test_what_lines_bring_is_told_of_lines_that_only_a_boil_has_too():
    found, _ = document(with_own_hops())
    places = {each["place"]: each for each in found["lines"]}
    assert places["boils.2.hops.2"]["name"] == "Harbour hop"
    assert places["hops.1"]["name"] == "Fuggle"
    bitterness = sum(each["bitterness_ibu"] for each in found["lines"])
    assert bitterness == pytest.approx(found["bitterness_ibu"]["value"], abs=0.05)


def test_each_fermenter_tells_its_own_yeast():
    found, _ = document(with_own_yeast())
    assert [each["yeast"]["name"] for each in found["fermenters"]] == [
        "Kit ale yeast, unnamed",
        "Lager, unnamed",
    ]
    assert [each["yeast"]["amount"] for each in found["fermenters"]] == ["10 g", "11 g"]


def test_methods_of_bitterness_are_run_by_the_plan():
    """A method that is chosen gives as much as where it is one of the others."""
    plan = with_own_hops()
    for method in ("Rager", "Garetz"):
        chosen = replace(plan, methods=replace(plan.methods, bitterness=method))
        value = document(chosen)[0]["bitterness_ibu"]["value"]
        listed = document(plan)[0]["methods"]["bitterness_ibu"]
        (other,) = [each["value"] for each in listed if each["method"] == method]
        assert other == pytest.approx(value)


def priced():
    return replace(
        WRITTEN,
        **{
            lines: tuple(
                replace(line, price=read(Kind.MONEY, "2.50")) for line in lines_of(WRITTEN, lines)
            )
            for lines in LINE_TYPES
        },
        yeast=replace(WRITTEN.yeast, price=read(Kind.MONEY, "4")),
    )


def test_the_cost_is_that_of_what_the_plan_takes():
    """Prices are those of the amounts as written: half of four lines, and a sachet of yeast."""
    plan = two_boils()
    in_half = replace(priced(), boils=plan.boils[:1], fermenters=plan.fermenters[:1])
    found, _ = document(in_half)
    assert found["cost"] == pytest.approx(4 * 1.25 + 4.0)
    assert found["cost_per_litre"] == pytest.approx(found["cost"] / 10.0, rel=1e-3)
    whole, _ = document(replace(priced(), boils=plan.boils, fermenters=plan.fermenters))
    assert cost(priced()) == pytest.approx(14.0)
    assert whole["cost"] == pytest.approx(14.0 + 4.0)  # a sachet in each of two fermenters


def test_another_yeast_costs_what_is_typed_of_it_or_leaves_the_cost_unknown():
    first, second = with_own_yeast().fermenters
    plan = replace(priced(), boils=two_boils().boils, fermenters=(first, second))
    assert document(plan)[0]["cost"] is None
    own = replace(second, yeast=replace(second.yeast, price=read(Kind.MONEY, "3")))
    assert document(replace(plan, fermenters=(first, own)))[0]["cost"] == pytest.approx(17.0)
    alone = replace(plan, fermenters=(replace(own, wort_from=()),))
    assert document(alone)[0]["cost"] == pytest.approx(13.0)


def test_findings_are_about_the_boil_or_the_fermenter_by_its_place():
    first, second = two_boils().fermenters
    tight = (replace(first, top_up_to=litres(14.0)), replace(second, top_up_to=litres(15.0)))
    places = {
        each["place"] for each in document(replace(two_boils(), fermenters=tight))[0]["watch_out"]
    }
    assert {"fermenters.1", "fermenters.2"} <= places
