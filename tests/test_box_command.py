"""The Recipe box as a whole from the command line, and all recipes that are found."""

import csv
import json
from dataclasses import replace

import pytest
from pypdf import PdfReader

from designer.command_line import run
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.library.store.collections_kept import (
    keep_chosen,
    keep_collection,
    remove_collection,
)
from designer.library.store.kitchen import CupboardRecord
from designer.resource_files import resource_path
from designer.workbench.recipe_summary import summary_of


@pytest.fixture
def box(tmp_path, monkeypatch):
    """The porter twice, with malt in the cupboard."""
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    with Store.open(tmp_path / "box") as store:
        for recipe in (porter, replace(porter, notes="a second one")):
            store.recipes.add(document_text(recipe), summary_of(recipe))
        store.cupboard.insert(CupboardRecord("=Roasted barley", amount="300 g", open_bag=True))
    return tmp_path


def _names(capsys):
    assert run(["box", "list", "--json"]) == 0
    return sorted(each["name"] for each in json.loads(capsys.readouterr().out)["recipes"])


def test_recipes_go_out_as_files_and_come_in_again(box, capsys):
    assert run(["box", "export", "porter", "-o", str(box / "out" / "files")]) == 0
    files = sorted((box / "out" / "files").iterdir())
    assert len(files) == 2
    assert "a second one" in {load(each).notes for each in files}
    capsys.readouterr()
    assert run(["box", "import", str(box / "out" / "files"), str(box / "gone.hobwort")]) == 1
    told = capsys.readouterr()
    assert "gone.hobwort is not there" in told.err
    assert _names(capsys) == 4 * ["Harbour Lamp Porter"]


def test_a_sheet_of_each_recipe_that_is_found(box, capsys):
    folder = box / "sheets"
    assert run(["box", "sheets", "porter", "-o", str(folder), "--language", "de"]) == 0
    sheets = sorted(folder.iterdir())
    assert len(sheets) == 2
    for each in sheets:
        assert "Stammwürze" in "".join(page.extract_text() for page in PdfReader(each).pages)


def test_ingredients_and_cupboard_are_tables_that_no_spreadsheet_reckons(box, capsys):
    assert run(["box", "bill", "-o", str(box / "bill.csv")]) == 0
    rows = list(csv.DictReader((box / "bill.csv").read_text(encoding="utf-8").splitlines()))
    assert {row["recipe"] for row in rows} == {"Harbour Lamp Porter"}
    assert [row["amount"] for row in rows if row["name"] == "Challenger"] == ["18 g", "18 g"]
    assert run(["box", "bill", "-o", str(box / "bill.csv")]) == 1  # it is there already
    capsys.readouterr()
    assert run(["box", "stock"]) == 0
    (row,) = csv.DictReader(capsys.readouterr().out.splitlines())
    assert (row["name"], row["amount"], row["open_bag"]) == ("'=Roasted barley", "300 g", "yes")


def test_a_backup_brings_all_of_it_back_and_what_was_there_is_kept(box, capsys):
    copy = box / "all.db"
    assert run(["box", "backup", "-o", str(copy)]) == 0
    assert run(["box", "import", str(resource_path("examples/foghorn_wheat.hobwort"))]) == 0
    capsys.readouterr()
    assert len(_names(capsys)) == 3
    assert run(["box", "restore", str(copy)]) == 0
    told = capsys.readouterr().out
    assert _names(capsys) == 2 * ["Harbour Lamp Porter"]
    before = told.rsplit("What it held before is in ", 1)[1].strip().removesuffix(".")
    assert run(["box", "restore", before]) == 0
    capsys.readouterr()
    assert len(_names(capsys)) == 3


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["export", "no such beer", "-o", "{box}/x"], "No recipe of the Recipe box is found so."),
        (["export", "abv <", "-o", "{box}/x"], "abv"),
        (["backup", "-o", "{box}/all.txt"], "this is written as .db"),
        (["restore", "{box}/nothing.db"], "nothing.db"),
        (["sheets", "-o", "{box}/box/recipe-box.db"], "no folder can be made there"),
    ],
)
def test_what_cannot_be_done_is_said_in_a_line(box, capsys, words, said):
    assert run(["box", *(each.format(box=box) for each in words)]) == 1
    told = capsys.readouterr().err
    assert said in told
    assert len(told.splitlines()) == 1
    assert len(_names(capsys)) == 2


def test_where_there_is_no_box_nothing_is_made(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "none"))
    assert run(["box", "export", "-o", str(tmp_path / "out")]) == 1
    assert "There is no Recipe box" in capsys.readouterr().err
    assert not (tmp_path / "none").exists()


def test_a_folder_is_no_backup_and_called_a_folder(box, capsys):
    assert run(["box", "restore", str(box)]) == 1
    told = capsys.readouterr().err
    assert "is a folder, not a file. Choose another backup." in told
    assert "disk" not in told.replace(str(box), "")


def test_a_box_without_collections_says_so_in_one_line(box, capsys):
    assert run(["box", "collections"]) == 0
    assert capsys.readouterr().out.splitlines() == ["There are no collections yet."]
    assert run(["box", "collections", "--quiet"]) == 0
    assert capsys.readouterr().out == ""


def test_a_collection_is_found_by_its_name_and_goes_with_a_backup(box, capsys):
    with Store.open(box / "box") as store:
        keep_collection(store, "Winter  window", "ibu <90 without wheat")
        keep_chosen(store, "Beginners", [store.finder.find("").rows[0].id])
    assert run(["box", "backup", "-o", str(box / "all.db")]) == 0
    with Store.open(box / "box") as store:
        remove_collection(store, "winter window")
    assert run(["box", "restore", str(box / "all.db")]) == 0
    capsys.readouterr()
    assert run(["box", "collections"]) == 0
    told = ['Beginners: tagged "Beginners"', "Winter window: ibu <90 without wheat"]
    assert capsys.readouterr().out.splitlines() == told
    for name, count in (("beginners", 1), ("Winter Window", 2)):
        assert run(["box", "find", "--collection", name, "--json"]) == 0
        assert len(json.loads(capsys.readouterr().out)["recipes"]) == count
    assert run(["box", "find", "stout", "--collection", "beginners", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["recipes"] == []
    assert run(["box", "export", "--collection", "Summer", "-o", str(box / "out")]) == 1
    assert "there are: Beginners, Winter window" in capsys.readouterr().err
    assert not (box / "out").exists()
