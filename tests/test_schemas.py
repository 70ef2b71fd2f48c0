"""The JSON of every command is as its schema says, and has no key that the schema does not tell."""

import copy
import io
import json
import sys
from contextlib import redirect_stdout

import jsonschema
import pytest

from designer.command_line import brews_logs, run
from designer.command_line.words.lookups import SCHEMAS
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.workbench.brew.entries_text import plain
from designer.workbench.recipe_summary import summary_of
from tests.taught_kitchen import brewed
from tests.workbench.brew.brew_days import STARTS
from tests.workbench.brew.test_beer import Cellar

PORTER = str(resource_path("examples/harbour_lamp_porter.hobwort"))
RED = str(resource_path("examples/breakwater_red.hobwort"))
BITTER = str(resource_path("examples/slipway_bitter.hobwort"))
ODD = ["--sg", "1.037", "--at", "24 °C", "--from", "top", "--stirred", "no"]
READY = ["packaging", "--beer", "9.6 L", "--warmest", "21 °C", "--finished"]
STOUT = ["design", "dry stout", "--pot", "9 L", "--fermenter", "12 L"]
OUTPUTS = {
    "forecast": [
        ["forecast", PORTER],
        ["forecast", BITTER, "--what-if", "process.top_up_to=11 L", "--what-if", "pot.volume=4 L"],
        ["forecast", RED, "--set", "process.package=keg"],
        ["forecast", PORTER, "--set", "process.disinfectant=chlorine", "--set",
         "process.chlorine=2 mg/L"],
        ["forecast", PORTER, "{nowhere}", RED],
        ["kit", "Red", "--tin", "1.7 kg", "--makes", "20 L", "--og", "1.044", "--pot", "9 L"],
    ],
    "styles": [
        ["styles", PORTER],
        ["styles", RED, "--all"],
        ["styles", PORTER, "--bring-in", "American Porter"],
    ],
    "check": [["check", PORTER, RED, "{nowhere}"]],
    "fit": [
        ["fit", RED, "--pot", "5 L", "--fermenter", "12 L"],
        ["fit", PORTER, "--pot", "7 L", "--hop", "Fuggle, 5 %, 50 g", "--whole-packs"],
        ["fit", RED, "--use", "1", "-o", "{new}.hobwort"],
    ],
    "reading": [
        ["reading", RED, *ODD],
        ["reading", "--sg", "1.037", "--band", "1.044 to 1.048", "--batch", "20 L"],
        ["reading", PORTER, "--sg", "1.046"],
    ],
    "design": [STOUT, [*STOUT, "--use", "1", "-o", "{new}.hobwort"]],
    "convert": [["convert", "1.5 stone", "kg"], ["convert", "1.044 to 1.048", "°P"]],
    "catalogue": [
        ["catalogue"],
        *(["catalogue", each] for each in ("crystal", "Fuggle", "English ale", "13C", "irish")),
    ],
    "glossary": [["glossary"], ["glossary", "krausen"]],
    "find": [["find"], ["find", "fits 9 L"], ["box", "list"], ["box", "find", "fits 9 L"]],
    "brews": [["brews", "list"]],
    "beer": [["brews", "beer", "1"], ["brews", "read", "1", "--sg", "1.013", "--at", "20 °C"],
             ["brews", "read", "1", "--brix", "6"]],
    "packaging": [
        [*READY, "yes"],
        [*READY, "no"],
        [*READY, "yes", "--keg", "--keg-temperature", "4 °C"],
        [*READY, "yes", "--bottles", "12 x 500 mL + 4 x 750 mL heavy"],
        ["brews", "package", "1"],
    ],
    "learned": [["learned"]],
    "log": [["brews", "export", "1", "-o", "{new}.json"]],
}  # fmt: skip
"""What is asked of each command; together they have every key of its document."""


@pytest.fixture(scope="module")
def documents(tmp_path_factory):
    """The documents of each command, printed with a box that has recipes and brews in it."""
    folder = tmp_path_factory.mktemp("box")
    cellar = Cellar(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    brew = new_brew(document_text(cellar.recipe), started="2026-03-28T09:00:00+00:00")
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("HOBWORT_STORE", str(folder))
        patched.setattr(
            brews_logs.time, "time", lambda: STARTS + 60.0 * cellar.pitched_min + 14.1 * 86_400.0
        )
        with Store.open(folder) as store:
            brewed(store)
            store.brews.put(brew, [plain(each) for each in cellar.entries])
            for each in (cellar.recipe, load(resource_path("examples/breakwater_red.hobwort"))):
                store.recipes.add(document_text(each), summary_of(each))
        yield {
            name: [_printed(words, folder) for words in asked] for name, asked in OUTPUTS.items()
        }


def _printed(words, folder):
    new = folder / f"new{len(list(folder.iterdir()))}"
    said = [each.format(new=new, nowhere=folder / "none.hobwort") for each in words]
    exports = "export" in said
    out = io.StringIO()
    with redirect_stdout(out):
        code = run(said if exports else [*said, "--json"])
    assert code == (1 if "{nowhere}" in words else 0), words
    return json.loads(new.with_suffix(".json").read_text("utf-8") if exports else out.getvalue())


def schema_of(name):
    return json.loads(resource_path(f"schemas/{name}.json").read_text("utf-8"))


def strict(schema):
    """A schema that knows all keys: of what has none for others, no others are taken."""
    if isinstance(schema, list):
        return [strict(each) for each in schema]
    if not isinstance(schema, dict):
        return schema
    found = {key: strict(each) for key, each in schema.items()}
    if "properties" in found and isinstance(found["properties"], dict):
        found.setdefault("additionalProperties", False)
    return found


@pytest.mark.parametrize("name", sorted(OUTPUTS))
def test_every_document_is_as_its_schema_says(documents, name):
    schema = schema_of(name)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(strict(copy.deepcopy(schema)))
    for document in documents[name]:
        faults = [
            f"{'.'.join(map(str, each.absolute_path))}: {each.message[:200]}"
            for each in validator.iter_errors(document)
        ]
        assert faults == []
        assert next(iter(document)) == "form"
        assert isinstance(document["form"], int)


def test_every_key_of_a_schema_says_what_it_holds():
    def undescribed(schema, path):
        for key, each in schema.get("properties", {}).items():
            if not (each.get("description") or "$ref" in each):
                yield f"{path}.{key}"
            yield from undescribed(each, f"{path}.{key}")
        for key in ("items", "additionalProperties"):
            if isinstance(schema.get(key), dict):
                yield from undescribed(schema[key], f"{path}[{key}]")

    for name in OUTPUTS:
        assert list(undescribed(schema_of(name), name)) == []


def test_every_schema_is_printed_by_its_name(capsys):
    kept = {path.stem for path in resource_path("schemas").iterdir()}
    assert {"recipe", *kept} == set(SCHEMAS) == {"recipe", *OUTPUTS}
    for name in sorted(kept):
        assert run(["schema", name]) == 0
        assert json.loads(capsys.readouterr().out) == schema_of(name)
    assert run(["schema", "recpie"]) == 2
    assert "did you mean recipe?" in capsys.readouterr().err
    sys.stdout.flush()
