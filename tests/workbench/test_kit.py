"""A kit as its box has it becomes a recipe."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.recipe.quantity import Kind
from designer.units import read
from designer.workbench.kit import Kit, recipe_of_kit


@pytest.fixture
def kit():
    return Kit(
        "Quay Bitter",
        amount=read(Kind.MASS, "1.7 kg"),
        more=read(Kind.MASS, "1 kg"),
        volume=read(Kind.VOLUME, "20 L"),
        pot=read(Kind.VOLUME, "9 L"),
        fermenter=read(Kind.VOLUME, "25 L"),
        bitterness=read(Kind.BITTERNESS, "25 IBU"),
    )


def test_all_that_is_in_the_box_is_locked_and_told_apart(kit):
    recipe = recipe_of_kit(kit)
    assert recipe.name == "Quay Bitter"
    assert [line.locked for line in recipe.fermentables] == [True, True]
    assert len({line.line_id for line in recipe.fermentables}) == 2


def test_the_beer_is_as_much_and_as_bitter_as_the_label_says(kit):
    day = brew(recipe_of_kit(kit))
    assert day.fermenter.batch_l == pytest.approx(20.0, abs=0.01)
    assert day.beer.bitterness_ibu == pytest.approx(25.0, rel=0.05)  # less what yeast takes


def test_without_dry_extract_there_is_one_line_and_without_a_name_one_of_ours(kit):
    bare = recipe_of_kit(replace(kit, name="  ", more=read(Kind.MASS, "0 kg")))
    assert len(bare.fermentables) == 1
    assert bare.name == "My kit"


@pytest.mark.parametrize(("pot", "start"), [("9 L", "5.4 L"), ("50 L", "20 L")])
def test_the_boil_takes_little_of_the_pot_and_never_more_water_than_the_beer(kit, pot, start):
    recipe = recipe_of_kit(replace(kit, pot=read(Kind.VOLUME, pot)))
    assert recipe.process.start_water.text == start
