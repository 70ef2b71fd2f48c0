"""The example recipes, and what a file keeps of what was typed into it."""

import json
from dataclasses import fields

import pytest

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
    assert ids == [1, 2, 3, 4, 5, 6]


def test_a_bare_number_in_a_file_is_metric_whatever_is_shown(written):
    """A file means the same to everyone who opens it."""
    recipe = load(written({"hobwort": 1, "process": {"start_water": "6.5", "boil_time": "60"}}))
    assert recipe.process.start_water.value == 6.5
    assert recipe.process.boil_time.value == 60.0
