"""A kit as its leaflet reads becomes a recipe, and is looked at."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.outlook import look_ahead
from designer.errors import RefusedInputError
from designer.library.recipe_file import document_text, read_document
from designer.recipe.choices import FermentableKind, HopForm
from designer.recipe.quantity import Kind, Stage, When
from designer.sheet.content import brew_sheet
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits, read
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines
from designer.workbench.kit import Kit, KitHop, KitItem, recipe_of_kit
from designer.workbench.kit_check import looked_at

TIN, SUGAR = FermentableKind.HOPPED_KIT, FermentableKind.SUGAR


def mass(text):
    return read(Kind.MASS, text)


def volume(text):
    return read(Kind.VOLUME, text)


@pytest.fixture
def kit():
    """Two hopped tins, sugar, grain and a packet of hops, in 20 L."""
    return Kit(
        "Quay Bitter",
        makes=volume("20 L"),
        items=(
            KitItem(TIN, mass("1.5 kg")),
            KitItem(TIN, mass("500 g"), "Second tin"),
            KitItem(FermentableKind.DRY_EXTRACT, mass("1 kg")),
            KitItem(SUGAR, mass("500 g")),
            KitItem(FermentableKind.STEEPING_GRAIN, mass("200 g"), "Crystal malt 120 °L"),
        ),
        hops=(
            KitHop(mass("18 g"), "Challenger", alpha=read(Kind.FRACTION, "7.2 %"),
                   when=When(Stage.BOIL, "boil 20 min", 20.0)),
            KitHop(mass("10 g"), "Fuggle", HopForm.WHOLE, when=When(Stage.FLAME_OUT, "flame-out")),
        ),
        yeast_amount=read(Kind.DOSE, "7 g"),
        pot=volume("9 L"),
        fermenter=volume("25 L"),
        original_gravity=read(Kind.GRAVITY, "1.052 to 1.060"),
        final_gravity=read(Kind.GRAVITY, "1.010-1.014"),
        bitterness=read(Kind.BITTERNESS, "24 IBU"),
    )  # fmt: skip


def test_all_that_is_in_the_box_is_locked_and_told_apart(kit):
    recipe = recipe_of_kit(kit)
    assert recipe.name == "Quay Bitter"
    assert all(line.locked for line in (*recipe.fermentables, *recipe.hops))
    assert len({line.line_id for line in (*recipe.fermentables, *recipe.hops)}) == 7
    assert [line.kind for line in recipe.fermentables] == [each.kind for each in kit.items]
    assert [line.amount.text for line in recipe.fermentables] == [
        "1.5 kg", "500 g", "1 kg", "500 g", "200 g",
    ]  # fmt: skip
    assert (recipe.hops[0].alpha.text, recipe.hops[1].form) == ("7.2 %", "whole")
    assert recipe.yeast.amount.text == "7 g"


def test_what_is_unhopped_boils_with_the_hops_and_the_rest_goes_in_late(kit):
    recipe = recipe_of_kit(kit)
    assert [line.when.text for line in recipe.fermentables] == [
        "boil 5 min", "boil 5 min", "boil 20 min", "boil 5 min", "steep",
    ]  # fmt: skip
    assert recipe.process.boil_time.value == 20.0
    unhopped = recipe_of_kit(replace(kit, hops=()))
    assert unhopped.fermentables[2].when.text == "boil 5 min"
    assert unhopped.process.boil_time.value == 10.0


def test_boil_water_and_minutes_of_the_leaflet_are_kept(kit):
    told = replace(kit, boil_water=volume("3 L"), boil_time=read(Kind.TIME, "1 h"))
    recipe = recipe_of_kit(told)
    assert recipe.process.start_water.text == "3 L"
    assert recipe.process.boil_time.text == "1 h"
    assert recipe.hops[0].when.minutes == 20.0


@pytest.mark.parametrize("pot", ["5 L", "9 L", "15 L", "50 L"])
def test_water_that_the_leaflet_does_not_tell_leaves_room_for_foam(kit, pot):
    recipe = recipe_of_kit(replace(kit, pot=volume(pot)))
    codes = {each.code for each in look_ahead(recipe, ranges=False).findings}
    assert not codes & {"pot-overflows", "foam-room", "no-top-up"}
    assert brew(recipe).fermenter.batch_l == pytest.approx(20.0, abs=0.01)


def test_the_bitterness_of_the_label_is_that_of_all_hopped_tins(kit):
    tins = replace(kit, items=kit.items[:2], hops=())
    recipe = recipe_of_kit(tins)
    assert [line.label_bitterness.value for line in recipe.fermentables] == [18.0, 6.0]
    assert brew(recipe).beer.bitterness_ibu == pytest.approx(24.0, rel=0.06)  # yeast takes some


def test_what_the_leaflet_states_comes_back_from_the_file(kit):
    recipe = recipe_of_kit(kit)
    text = document_text(recipe)
    assert '"original_gravity": "1.052 to 1.060"' in text
    assert read_document(text, "kit").leaflet == recipe.leaflet


def test_a_kit_without_contents_or_volume_is_refused(kit):
    with pytest.raises(RefusedInputError, match="at least one tin or bag"):
        recipe_of_kit(replace(kit, items=()))
    with pytest.raises(RefusedInputError, match="how much beer"):
        recipe_of_kit(replace(kit, makes=volume("0 L")))
    assert recipe_of_kit(replace(kit, name="  ")).name == "My kit"


def test_a_name_of_another_kind_brings_no_figures(kit):
    odd = KitItem(SUGAR, mass("1 kg"), "Light dry malt extract")
    (line,) = recipe_of_kit(replace(kit, items=(odd,))).fermentables
    assert (line.kind, line.extract) == ("sugar", None)


def test_it_says_whether_pot_and_fermenter_hold_it_foam_and_krausen_included(kit):
    looked = looked_at(kit)
    assert looked.does_not_fit is None
    assert [each.id for each in looked.vessels] == ["kit-below-foam-line", "kit-below-krausen-line"]
    small = looked_at(replace(kit, fermenter=volume("12 L"), boil_water=volume("6 L")))
    said = "Does not fit a 12 L fermenter: see ways to brew it"
    assert small.does_not_fit.text == said
    pot, fermenter = (each.text for each in small.vessels)
    assert pot.startswith("Does not fit a 9 L pot")
    assert "foam line at 7.2 L" in pot
    assert fermenter.startswith("Does not fit a 12 L fermenter: 20 L stand above its krausen line")
    assert looked_at(replace(kit, pot=None, fermenter=None)).vessels == ()


def test_terminal_json_and_paper_tell_what_the_leaflet_says(kit):
    recipe = recipe_of_kit(kit)
    outlook = look_ahead(recipe)
    lines = forecast_lines(recipe, outlook)
    said = lines[lines.index("The leaflet:") + 1 :][:3]
    assert [each.split(":")[0].strip() for each in said] == ["OG", "FG", "Bitterness"]
    assert "stated 1.052 to 1.060; here 1.05" in said[0]
    assert said[0].endswith("They agree.")
    document = forecast_document(recipe, outlook)["leaflet"]
    assert document["makes_l"] == 20.0
    assert document["stated"][0] == {
        "forecast": "original_gravity",
        "low": pytest.approx(1.052),
        "high": pytest.approx(1.060),
        "verdict": "agrees",
    }
    assert (
        forecast_document(replace(recipe, leaflet=type(recipe.leaflet)()), outlook)["leaflet"]
        is None
    )
    paper = sheet_text(
        brew_sheet(recipe, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None)
    )
    assert "The leaflet says 1.052 to 1.060, in 20 L." in paper
    assert "The leaflet says 1.010 to 1.014, in 20 L." in paper
