"""The published schema is that of the program, takes every example and refuses broken files."""

import json
from dataclasses import fields

import jsonschema
import pytest

from designer.errors import RefusedInputError
from designer.library.document_reading import FORMAT
from designer.library.recipe_file import document_of, load, read_document
from designer.library.schema import schema
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.limits import MOST_LINES
from designer.resource_files import resource_path, resources_folder

EXAMPLES = sorted((resources_folder() / "examples").glob("*.hobwort"))


@pytest.fixture
def validator():
    return jsonschema.Draft202012Validator(schema())


def test_the_schema_is_a_valid_schema_itself():
    jsonschema.Draft202012Validator.check_schema(schema())


def test_the_schema_in_resources_is_the_one_the_program_makes():
    """Rewrite it with: python -m designer schema > resources/recipe.schema.json"""
    published = resource_path("recipe.schema.json").read_text(encoding="utf-8")
    assert json.loads(published) == schema()
    assert published == json.dumps(schema(), ensure_ascii=False, indent=2) + "\n"


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_valid_as_it_stands_and_as_it_is_saved(path, validator):
    validator.validate(json.loads(path.read_text(encoding="utf-8")))
    validator.validate(document_of(load(path)))


def test_a_recipe_of_nothing_is_valid(validator):
    validator.validate(document_of(Recipe()))


def test_every_field_of_the_document_is_described():
    properties = schema()["properties"]
    assert properties.keys() - {"hobwort"} == {each.name for each in fields(Recipe)}
    for name, of in {**PART_TYPES, **LINE_TYPES}.items():
        part = properties[name].get("items", properties[name])
        wanted = {each.name for each in fields(of)} - {"line_id"}
        assert part["properties"].keys() == wanted
        assert all(len(each["description"]) >= 3 for each in part["properties"].values())


@pytest.mark.parametrize(
    "broken",
    [
        [],
        {},
        {"name": "no format"},
        {"hobwort": FORMAT + 1},
        {"hobwort": "1"},
        {"hobwort": FORMAT, "nmae": "x"},
        {"hobwort": FORMAT, "name": 3},
        {"hobwort": FORMAT, "name": "x" * 20_001},
        {"hobwort": FORMAT, "pot": []},
        {"hobwort": FORMAT, "pot": {"volume": 9}},
        {"hobwort": FORMAT, "pot": {"volume": "9" * 201}},
        {"hobwort": FORMAT, "pot": {"stove": "wood"}},
        {"hobwort": FORMAT, "process": {"boiltime": "60 min"}},
        {"hobwort": FORMAT, "process": {"start_time": "noon"}},
        {"hobwort": FORMAT, "process": {"start_time": "25:00"}},
        {"hobwort": FORMAT, "hops": {}},
        {"hobwort": FORMAT, "hops": [3]},
        {"hobwort": FORMAT, "hops": [{}] * (MOST_LINES + 1)},
        {"hobwort": FORMAT, "hops": [{"line_id": 3}]},
        {"hobwort": FORMAT, "hops": [{"form": "cones"}]},
        {"hobwort": FORMAT, "hops": [{"when": 15}]},
        {"hobwort": FORMAT, "fermentables": [{"locked": "yes"}]},
        {"hobwort": FORMAT, "fermentables": [{"kind": "syrup"}]},
    ],
)
def test_what_the_schema_refuses_the_program_refuses_too(broken, validator):
    assert not validator.is_valid(broken)
    with pytest.raises(RefusedInputError):
        read_document(json.dumps(broken), "brew")
