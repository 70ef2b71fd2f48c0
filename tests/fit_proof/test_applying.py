"""What a way promises is what its file gives, from the window's edit and from the command line."""

import json
import subprocess
import sys

import pytest

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.workbench.fit_text import fit_document
from tests.fit_proof import applying
from tests.fit_proof.kitchens import HOMES, Home, Pair, pairs
from tests.fit_proof.recipes import recipes
from tests.some_cases import some_of


@pytest.mark.parametrize("place", range(len(HOMES)), ids=lambda place: str(HOMES[place]))
def test_a_way_that_is_used_saved_and_opened_gives_the_promised_figures(place, tmp_path):
    """Two recipes in each kitchen, others in the next; `python -m tests.fit_proof` tries all."""
    for name in some_of(list(recipes()), 8, place):
        pair = Pair(name, HOMES[place])
        folder = tmp_path / name
        folder.mkdir()
        answer = pair.answer()
        assert list(applying.faults(pair.recipe, answer, folder)) == [], str(pair)
        assert len(list(folder.iterdir())) == len(answer.every_way)


def test_every_recipe_and_every_kitchen_is_among_them():
    tried = {
        Pair(name, home) for place, home in enumerate(HOMES)
        for name in some_of(list(recipes()), 8, place)
    }  # fmt: skip
    assert {pair.name for pair in tried} == set(recipes())
    assert {pair.home for pair in tried} == {pair.home for pair in pairs()}


def hobwort(*words):
    """Run the program as its own process and return what it prints."""
    command = [sys.executable, "-m", "designer", *map(str, words)]
    return subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout


@pytest.mark.parametrize(
    ("name", "kitchen"),
    [
        ("breakwater_red", ("--pot", "9 L", "--fermenter", "12 L", "--fermenter", "12 L")),
        ("foghorn_wheat", ("--pot", "7 L", "--second-pot", "6 L", "--fermenter", "4.5 gal")),
        ("slipway_bitter", ("--pot", "5 L", "--fermenter", "8 L")),
    ],
)
def test_the_command_line_writes_what_it_promised(name, kitchen, tmp_path):
    file = resource_path(f"examples/{name}.hobwort")
    before = file.read_bytes()
    promised = json.loads(hobwort("fit", file, *kitchen, "--json"))["ways"]
    assert promised
    for said in some_of(promised, 2):
        out = tmp_path / f"{said['rank']}.hobwort"
        hobwort("fit", file, *kitchen, "--use", said["rank"], "-o", out)
        assert list(applying.promised(said, load(out))) == [], said["name"]
    assert file.read_bytes() == before


def test_a_promise_that_is_not_kept_is_told(tmp_path):
    pair = Pair("Quay Pale", Home(9.0, (12.0, 12.0)))
    answer = pair.answer()
    said = fit_document(answer)["ways"][0]
    used = answer.ways[0].edit.apply(pair.recipe)
    assert list(applying.promised(said, used)) == []
    told = " ".join(applying.promised(said, pair.recipe))
    assert "were promised" in told
    for key in ("start_water_l", "from_pot_l", "top_up_l", "fullest_l"):
        said["boils"][0][key] += 0.06
    said["forecasts"]["bitterness_ibu"]["high"] += 2.0
    said["boils"][0]["fermenters"][0]["filled_l"] += 0.06
    assert len(list(applying.promised(said, used))) >= 6
