"""Recipes of the box exported and imported: they read back equal, and each is told of."""

from types import SimpleNamespace

import pytest

from designer.library.recipe_file import document_text, load, write_whole
from designer.library.store import Store
from designer.workbench.box_files import (
    BroughtIn,
    WrittenRecipe,
    brought_in_words,
    for_a_piece,
    keep_a_piece,
    write_a_piece,
    write_recipes,
    written_words,
)
from designer.workbench.recipe_summary import summary_of


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "box"


def rows_of(folder):
    with Store.open(folder) as store:
        return sorted(store.finder.find("").rows, key=lambda row: row.id)


def test_files_read_back_equal_and_the_same_name_is_numbered(boxed, folder, tmp_path):
    rows = rows_of(folder)
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "porter.hobwort").write_text("was here before", "utf-8")
    with Store.open(folder) as store:
        files = write_recipes(store, rows, tmp_path / "out")
    assert [load(each.path) for each in files] == boxed
    assert [each.path.name for each in files][:3] == [
        "porter-2.hobwort",
        "porter-3.hobwort",
        "recipe.hobwort",
    ]
    assert (tmp_path / "out" / "porter.hobwort").read_text("utf-8") == "was here before"


def test_many_files_that_cannot_be_read_are_counted():
    assert brought_in_words([BroughtIn(1)]) == ("1 recipe imported.", False)
    said, amiss = brought_in_words([BroughtIn(900), BroughtIn(1100, tuple("abcdefg"))], left=3)
    assert said.splitlines()[0] == "2,000 recipes imported. 3 files left alone."
    assert said.splitlines()[-1] == "2 more could not be read."
    assert amiss


def test_what_is_written_out_is_counted_with_what_is_left(tmp_path):
    file = WrittenRecipe(tmp_path / "porter.hobwort", "")
    assert written_words([{1: file}], tmp_path) == f"Exported 1 file to {tmp_path}."
    many = dict.fromkeys(range(1200), file)
    said = written_words([many, {}], tmp_path, left=1)
    assert said == f"Exported 1,200 files to {tmp_path}. 1 recipe left out."


def test_files_are_kept_with_their_figures_and_those_that_cannot_be_read_are_told(
    porter, folder, tmp_path
):
    sound, spoiled = tmp_path / "sound.hobwort", tmp_path / "spoiled.hobwort"
    sound.write_text(document_text(porter), "utf-8")
    spoiled.write_text("no recipe", "utf-8")
    with Store.open(folder) as store:
        count, came = keep_a_piece(store, [spoiled, sound][:1])
        assert (count, came.kept) == (1, 0)
        assert "spoiled.hobwort" in came.faults[0]
        assert keep_a_piece(store, [sound]) == (1, BroughtIn(1))
    (row,) = rows_of(folder)
    assert row.name == porter.name
    assert row.summary == summary_of(porter)


@pytest.mark.parametrize(
    ("times", "taken"), [((0.0, 0.03, 0.05), ["a", "b"]), ((0.0, 99.0), ["a"])]
)
def test_a_piece_ends_when_its_time_is_up_but_never_before_its_first_item(
    times, taken, monkeypatch
):
    clock = iter(times)
    monkeypatch.setattr(
        "designer.workbench.box_files.time", SimpleNamespace(monotonic=clock.__next__)
    )
    assert list(for_a_piece("abcdef", 0.04)) == taken


def test_a_piece_tells_how_many_it_took_and_the_file_of_each(boxed, folder, tmp_path):
    (tmp_path / "out").mkdir()
    numbers = [row.id for row in rows_of(folder)]
    with Store.open(folder) as store:
        count, files = write_a_piece(store, [*numbers[:1], 10_000], tmp_path / "out", write_whole)
    assert 1 <= count <= 2
    assert list(files) == numbers[:1]
    assert load(files[numbers[0]].path) == boxed[0]
