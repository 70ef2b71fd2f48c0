"""Recipes of the box as files: how they are named, that they read back equal, that none is left."""

import os
import unicodedata
from dataclasses import replace

import pytest

from designer.brewday.outlook import look_ahead
from designer.library.bill import bill_text
from designer.library.recipe_file import document_text, load
from designer.library.store import Store
from designer.window.box import box_files
from designer.window.box.box_files import BroughtIn, HandedOut, brought_in, local_files, written
from designer.window.box.recipes_model import RecipesModel
from designer.window.parts.questions import file_name
from designer.window.session.autosave import Keeper, summary_of
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.store_thread import StoreThread

NAMES = (
    "Harbour Lamp Porter",
    "../../etc/passwd",
    "C:\\con",
    "CON",
    "com1",
    "nul",
    "-rf *",
    "नमस्ते पोर्टर",
    "เบียร์ดำ",
    "بيرة سوداء",
    "黒ビール",
    "'; drop table recipes; --",
    "<b>Bold & bright</b>",
    "\N{RIGHT-TO-LEFT OVERRIDE}live.exe",
    "one\ntwo\0three\ud800",
    "\N{BEER MUG}",
    "...",
    "",
)
LONG = ("Ale " * 2500, "黒" * 10_000, "\N{GOTHIC LETTER AHSA}" * 10_000, "e\u0301" * 5000)


@pytest.mark.parametrize("name", [*NAMES, *LONG], ids=range(len(NAMES) + len(LONG)))
def test_every_name_makes_a_file_that_every_system_takes(name, tmp_path):
    made = file_name(name)
    assert made
    assert len(made.encode("utf-8")) <= 200
    assert not set(made) & set('/\\:*?"<>|.\0\n\r\t ')
    assert made[0] != "-"
    assert made not in ("con", "com1", "nul")
    assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs") for sign in made)
    (tmp_path / f"{made}-200.hobwort").write_text("x", "utf-8")


def test_signs_of_other_scripts_stay_whole():
    assert file_name("नमस्ते पोर्टर") == "नमस्ते_पोर्टर"
    assert file_name("เบียร์ดำ") == "เบียร์ดำ"
    assert file_name("Bière Brune, No. 3") == "bière_brune_no_3"
    assert file_name("CON") == "recipe_con"


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "box"


@pytest.fixture
def recipes(porter, folder):
    """The porter under difficult names, two of them the same, kept in a box."""
    named = [replace(porter, name=name) for name in ("Porter", "Porter", "..", "黒" * 10_000)]
    with Store.open(folder) as store:
        for recipe in named:
            store.recipes.add(document_text(recipe), summary_of(recipe, look_ahead(recipe)))
    return named


@pytest.fixture
def keeper(qtbot, opened, folder):
    made = Keeper(opened, StoreThread(folder), folder)
    yield made
    opened.undo_stack.setClean()
    made.close()


@pytest.fixture
def out(keeper, tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    return HandedOut(keeper)


def rows_of(folder):
    with Store.open(folder) as store:
        return sorted(store.finder.find("").rows, key=lambda row: row.id)


def handed(qtbot, out, rows):
    told = []
    out.write(rows, lambda: told.append("there"), told.append)
    qtbot.waitUntil(lambda: bool(told), timeout=10_000)
    return told[0]


def test_files_read_back_equal_and_the_same_name_is_numbered(recipes, folder, tmp_path):
    rows = rows_of(folder)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "porter.hobwort").write_text("was here before", "utf-8")
    with Store.open(folder) as store:
        files = written(store, rows, tmp_path / "out")
    assert [load(each.path) for each in files] == recipes
    assert [each.path.name for each in files][:3] == [
        "porter-2.hobwort",
        "porter-3.hobwort",
        "recipe.hobwort",
    ]
    assert (tmp_path / "out" / "porter.hobwort").read_text("utf-8") == "was here before"


def test_what_is_dragged_out_is_files_and_text(
    qtbot, qtmodeltester, recipes, folder, out, shown, tmp_path
):
    rows = rows_of(folder)
    model = RecipesModel(shown)
    model.handed_out = out.mime
    model.show_rows(tuple(rows))
    qtmodeltester.check(model)
    indexes = [model.index(row, column) for row in (0, 1, 3) for column in range(3)]
    assert not model.mimeData(indexes).hasUrls()
    assert handed(qtbot, out, [rows[0], rows[1], rows[3]]) == "there"
    mime = model.mimeData(indexes)
    files = local_files(mime)
    assert [load(path) for path in files] == [recipes[0], recipes[1], recipes[3]]
    assert all(tmp_path in path.parents for path in files)
    assert mime.text() == "\n".join(bill_text(recipes[number]) for number in (0, 1, 3))
    assert model.supportedDragActions() is model.supportedDragActions().CopyAction
    assert out.is_own(mime)
    out.clear()
    assert not list(tmp_path.glob(f"{box_files.OUT}*"))


def test_another_box_takes_what_is_dragged_out_of_this_one(
    qtbot, recipes, folder, out, porter, tmp_path
):
    rows = rows_of(folder)
    handed(qtbot, out, rows[:1])
    other = tmp_path / "other"
    theirs = Keeper(OpenRecipe(porter), StoreThread(other), other)
    assert not HandedOut(theirs).is_own(out.mime(rows[:1]))


def test_what_a_killed_program_left_is_cleared_away_after_a_day(
    qtbot, recipes, folder, out, tmp_path, monkeypatch
):
    old, new = tmp_path / f"{box_files.OUT}old", tmp_path / f"{box_files.OUT}new"
    for each in (old, new):
        each.mkdir()
        (each / "a.hobwort").write_text("{}", "utf-8")
    os.utime(old, (1.0, 1.0))
    handed(qtbot, out, rows_of(folder)[:1])
    assert not old.exists()
    assert new.exists()


def test_a_full_disk_is_told_and_nothing_is_handed_out(
    qtbot, recipes, folder, out, monkeypatch, tmp_path
):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "gone"))
    rows = rows_of(folder)
    assert "Nothing can be written" in handed(qtbot, out, rows[:1])
    assert not out.mime(rows[:1]).hasUrls()


def test_many_files_that_cannot_be_read_are_counted():
    assert brought_in([BroughtIn(1)]) == ("1 recipe brought in.", False)
    said, amiss = brought_in([BroughtIn(900), BroughtIn(1100, tuple("abcdefg"))], left=3)
    assert said.splitlines()[0] == "2,000 recipes brought in. 3 files left alone."
    assert said.splitlines()[-1] == "2 more could not be read."
    assert amiss
