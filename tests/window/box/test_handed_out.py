"""Recipes of the box as files: how they are named, that they read back equal, that none is left."""

import os

import pytest

from designer.library.bill import bill_text
from designer.library.recipe_file import load
from designer.library.store import Store
from designer.window.box import handed_out
from designer.window.box.handed_out import HandedOut, local_files
from designer.window.box.recipes_model import RecipesModel
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.store_thread import StoreThread


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "box"


@pytest.fixture
def autosave(qtbot, opened, folder):
    made = Autosave(opened, StoreThread(folder), folder)
    yield made
    opened.undo_stack.setClean()
    made.close()


@pytest.fixture
def out(autosave, tmp_path, monkeypatch):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    return HandedOut(autosave)


def rows_of(folder):
    with Store.open(folder) as store:
        return sorted(store.finder.find("").rows, key=lambda row: row.id)


def handed(qtbot, out, rows):
    told = []
    out.write(rows, lambda: told.append("there"), told.append)
    qtbot.waitUntil(lambda: bool(told), timeout=10_000)
    return told[0]


def test_what_is_dragged_out_is_files_and_text(
    qtbot, qtmodeltester, boxed, folder, out, display, tmp_path
):
    rows = rows_of(folder)
    model = RecipesModel(display)
    model.handed_out = out.mime
    model.show_rows(tuple(rows))
    qtmodeltester.check(model)
    indexes = [model.index(row, column) for row in (0, 1, 3) for column in range(3)]
    assert not model.mimeData(indexes).hasUrls()
    assert handed(qtbot, out, [rows[0], rows[1], rows[3]]) == "there"
    mime = model.mimeData(indexes)
    files = local_files(mime)
    assert [load(path) for path in files] == [
        boxed[0],
        boxed[1],
        boxed[3],
    ]
    assert all(tmp_path in path.parents for path in files)
    assert mime.text() == "\n".join(bill_text(boxed[number]) for number in (0, 1, 3))
    assert model.supportedDragActions() is model.supportedDragActions().CopyAction
    assert out.is_own(mime)
    out.clear()
    assert not list(tmp_path.glob(f"{handed_out.OUT}*"))


def test_another_box_takes_what_is_dragged_out_of_this_one(
    qtbot, boxed, folder, out, porter, tmp_path
):
    rows = rows_of(folder)
    handed(qtbot, out, rows[:1])
    other = tmp_path / "other"
    theirs = Autosave(OpenRecipe(porter), StoreThread(other), other)
    assert not HandedOut(theirs).is_own(out.mime(rows[:1]))


def test_what_a_killed_program_left_is_cleared_away_after_a_day(
    qtbot, boxed, folder, out, tmp_path, monkeypatch
):
    old, new = tmp_path / f"{handed_out.OUT}old", tmp_path / f"{handed_out.OUT}new"
    for each in (old, new):
        each.mkdir()
        (each / "a.hobwort").write_text("{}", "utf-8")
    os.utime(old, (1.0, 1.0))
    handed(qtbot, out, rows_of(folder)[:1])
    assert not old.exists()
    assert new.exists()


def test_a_full_disk_is_told_and_nothing_is_handed_out(
    qtbot, boxed, folder, out, monkeypatch, tmp_path
):
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "gone"))
    rows = rows_of(folder)
    assert "Nothing can be written" in handed(qtbot, out, rows[:1])
    assert not out.mime(rows[:1]).hasUrls()
