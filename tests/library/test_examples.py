"""The example recipes, and what a file keeps of what was typed into it."""

import json
from dataclasses import fields

import pytest

from designer.brewday.day import brew
from designer.library.catalogue import (
    find_aid,
    find_fermentable,
    find_hop,
    find_style,
    find_yeast,
)
from designer.library.recipe_file import document_of, document_text, load, read_document, save
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.resource_files import resources_folder

EXAMPLES = sorted((resources_folder() / "examples").glob("*.hobwort"))


@pytest.mark.parametrize(
    "typed",
    ["1 1/2 oz", "2 lb 4 oz", "1½ lb", "1,5 kg", "3.3 lb", "1 kg – 1.2 kg", "500g", "1 kg ± 5 %"],
)
def test_an_amount_typed_any_way_is_saved_as_it_was_typed(typed, written, tmp_path):
    document = {"hobwort": 1, "fermentables": [{"name": "x", "amount": typed}]}
    recipe = load(written(document))
    save(recipe, tmp_path / "again.hobwort")
    found = json.loads((tmp_path / "again.hobwort").read_text(encoding="utf-8"))
    assert found["fermentables"][0]["amount"] == typed


def defaults_of(part):
    """Words that a file need not repeat."""
    return {each.name: each.default for each in fields(part) if isinstance(each.default, str)}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_opens_and_keeps_all_that_its_file_says(path):
    recipe = load(path)
    said, kept = json.loads(path.read_text(encoding="utf-8")), document_of(recipe)
    for key, value in said.items():
        if key in LINE_TYPES:
            assert len(kept[key]) == len(value)
            for row, line in zip(value, kept[key], strict=True):
                assert row.items() <= {**defaults_of(LINE_TYPES[key]), **line}.items()
        elif key in PART_TYPES:
            assert value.items() <= {**defaults_of(PART_TYPES[key]), **kept[key]}.items()
        else:
            assert kept[key] == value
    assert read_document(document_text(recipe), "again") == recipe


def test_there_are_the_four_recipes_of_the_harbour_kitchen():
    assert [load(path).name for path in EXAMPLES] == [
        "Breakwater Red",
        "Foghorn Wheat",
        "Harbour Lamp Porter",
        "Slipway Bitter",
    ]


def test_a_recipe_of_nothing_is_a_short_file():
    assert document_text(Recipe()) == (
        '{\n  "hobwort": 2,\n  "name": "Untitled brew",\n'
        '  "fermentables": [],\n  "hops": [],\n  "yeast": {"name": "", "form": "dry"},\n'
        '  "extras": []\n}\n'
    )


def test_lines_are_numbered_apart_after_opening(written, porter):
    recipe = load(written(porter))
    ids = [line.line_id for name in LINE_TYPES for line in getattr(recipe, name)]
    assert ids == [1, 2, 3, 4, 5, 6, 7]


def test_a_bare_number_in_a_file_is_metric_whatever_is_shown(written):
    """A file means the same to everyone who opens it."""
    recipe = load(written({"hobwort": 1, "process": {"start_water": "6.5", "boil_time": "60"}}))
    assert recipe.process.start_water.value == 6.5
    assert recipe.process.boil_time.value == 60.0


IN_PLAIN_WORDS = "Pale dry malt extract"
"""What the bitter's brewer typed without the catalogue: figures of its kind, its own colour."""


def test_the_porter_lies_inside_all_five_brackets_of_its_style():
    """Source: BJCP Beer Style Guidelines 2021, 13C; about 1.046, 1.013, 4.4 %, 29 IBU, 23 SRM."""
    porter = load(resources_folder() / "examples" / "harbour_lamp_porter.hobwort")
    style = find_style(porter.style)
    beer = brew(porter).beer
    for key in ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm"):
        low, high = getattr(style, key)
        assert low <= getattr(beer, key) <= high, key


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_name_in_the_examples_is_one_of_the_catalogue(path):
    recipe = load(path)
    assert find_style(recipe.style).name == recipe.style
    assert find_yeast(recipe.yeast.name, recipe.yeast.form).name == recipe.yeast.name
    assert find_yeast(recipe.yeast.name, recipe.yeast.form).form == recipe.yeast.form
    finders = ((recipe.fermentables, find_fermentable), (recipe.hops, find_hop),
               (recipe.extras, find_aid))  # fmt: skip
    for lines, find in finders:
        named = [each.name for each in lines if each.name != IN_PLAIN_WORDS]
        assert [find(name).name for name in named] == named
