"""A box of more recipes than a page holds, and more files than one would wait for."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from designer.library.recipe_file import document_text, load, save
from designer.library.store import Store
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.resource_files import resource_path
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench import box_files
from designer.workbench.recipe_summary import summary_of

from .acts import store_at_rest

MANY = 450


@pytest.fixture
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def full(porter, tmp_path):
    """A box of 450 recipes, numbered."""
    summary = summary_of(porter)
    named = [replace(porter, name=f"Porter {number:03}") for number in range(MANY)]
    with Store.open(tmp_path / "box") as store:
        store.recipes.add_many((document_text(each), summary, ()) for each in named)


def box_of(qtbot, window):
    window.show_page(window.page_names.index("Recipe box"))
    store_at_rest(qtbot, window)
    return window.box


@pytest.fixture
def window(on_a_box, porter):
    return on_a_box(OpenRecipe(porter))


@pytest.fixture
def all_listed(qtbot, full, window):
    box = box_of(qtbot, window)
    qtbot.waitUntil(lambda: box.told.text() == "450 recipes.", timeout=10_000)
    return box


def test_all_recipes_are_listed_and_counted(qtbot, qtmodeltester, all_listed):
    assert all_listed.model.rowCount() == MANY
    qtmodeltester.check(all_listed.model)
    all_listed.table.scrollToBottom()
    last = all_listed.model.index(MANY - 1, 0)
    qtbot.waitUntil(lambda: last.data() == "Porter 000", timeout=10_000)


def test_a_word_that_many_have_is_counted_too(qtbot, window, all_listed):
    QTest.keyClicks(all_listed.search, "porter")
    qtbot.waitUntil(lambda: all_listed.told.text() == "450 recipes found.", timeout=10_000)
    QTest.keyClicks(all_listed.search, " 44")
    qtbot.waitUntil(lambda: all_listed.told.text() == "10 recipes found.", timeout=10_000)
    assert all_listed.model.rowCount() == 10


def test_the_list_stays_where_it_is_when_something_is_kept_meanwhile(
    qtbot, window, all_listed, porter, tmp_path
):
    all_listed.table.scrollTo(all_listed.model.index(400, 0))
    qtbot.waitUntil(lambda: all_listed.model.index(400, 0).data() == "Porter 049")
    all_listed.table.selectRow(400)
    store_at_rest(qtbot, window)
    with Store.open(tmp_path / "box") as other:
        other.recipes.add(document_text(porter), summary_of(porter))
    qtbot.waitUntil(lambda: all_listed.told.text() == "451 recipes.", timeout=10_000)
    assert [row.name for row in all_listed.chosen()] == ["Porter 049"]
    (chosen,) = {index.row() for index in all_listed.table.selectionModel().selectedIndexes()}
    assert all_listed.model.index(chosen, 0).data() == "Porter 049"
    assert (
        all_listed.table.viewport()
        .rect()
        .intersects(all_listed.table.visualRect(all_listed.model.index(chosen, 0)))
    )


def test_all_that_are_chosen_are_written_out_seen_or_not(
    qtbot, window, all_listed, answers, tmp_path
):
    out = tmp_path / "out"
    out.mkdir()
    answers.which_folder = lambda _page: out
    all_listed.table.setFocus()
    QTest.keyClick(all_listed.table, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    all_listed.export()
    qtbot.waitUntil(lambda: all_listed.job is None, timeout=30_000)
    names = {load(path).name for path in out.glob("*.hobwort")}
    assert names == {f"Porter {number:03}" for number in range(MANY)}
    assert window.messages.text.text() == f"Exported 450 files to {out}."


@pytest.fixture
def files(porter, tmp_path):
    """Files to bring in: 60 recipes, one of them spoiled."""
    folder = tmp_path / "files"
    folder.mkdir()
    paths = [folder / f"{number:02}.hobwort" for number in range(60)]
    for number, path in enumerate(paths):
        save(replace(porter, name=f"From a file {number:02}"), path)
    paths[7].write_text("no recipe", "utf-8")
    return paths


@pytest.fixture
def short_pieces(monkeypatch):
    """Each piece ends after its first file."""
    monkeypatch.setattr(box_files.for_a_piece, "__defaults__", (0.0,))


def kept(folder):
    with Store.open(folder / "box") as store:
        return {row.name for row in store.finder.rows(store.finder.every())}


def test_files_come_in_with_a_word_of_how_far_it_is(qtbot, window, files, short_pieces, tmp_path):
    box, seen = box_of(qtbot, window), set()
    box.bring_in(files)
    box.job.progressed.connect(lambda *_: seen.add(box.under_way.told.text()))
    assert box.under_way.isVisible()
    qtbot.waitUntil(lambda: box.job is None, timeout=30_000)
    assert "Importing: 59 of 60" in seen
    assert not box.under_way.isVisible()
    assert len(kept(tmp_path)) == 59
    assert window.messages.text.text().startswith("59 recipes imported.\n")
    assert "07.hobwort" in window.messages.text.text()


def test_what_is_typed_meanwhile_is_kept_before_all_files_are_in(
    qtbot, window, files, short_pieces, tmp_path
):
    box = box_of(qtbot, window)
    box.bring_in(files)
    window.opened.make(ChangeRecipe("name", "Typed meanwhile", word("rename the recipe")))
    window.autosave.write_draft()
    with qtbot.waitSignal(window.autosave.state_changed, timeout=10_000):
        pass
    assert window.autosave.state == "draft kept"
    assert box.job is not None
    assert box.job.done < len(files)
    with Store.open(tmp_path / "box") as store:
        assert any("Typed meanwhile" in each.document for each in store.drafts.all())


def test_stopped_it_keeps_what_is_in_and_says_what_was_left_alone(
    qtbot, window, files, short_pieces, tmp_path
):
    box = box_of(qtbot, window)
    box.bring_in(files)
    qtbot.waitUntil(lambda: box.job.done >= 3, timeout=10_000)
    QTest.mouseClick(box.under_way.stop_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: box.job is None, timeout=10_000)
    said = window.messages.text.text()
    left = int(said.split(" imported. ")[1].split()[0])
    assert 0 < left <= 57
    assert len(kept(tmp_path)) + left in (59, 60)  # the spoiled one may have had its turn


def test_a_second_such_work_waits_for_the_first(qtbot, window, files, short_pieces):
    box = box_of(qtbot, window)
    box.bring_in(files)
    box.bring_in(files)
    assert window.messages.text.text() == "Importing is still under way; stop it first."
    qtbot.waitUntil(lambda: box.job is None, timeout=30_000)


def test_closing_does_not_wait_for_all_files(qtbot, window, files, short_pieces, tmp_path):
    box = box_of(qtbot, window)
    box.bring_in(files)
    qtbot.waitUntil(lambda: box.job.done >= 3, timeout=10_000)
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible(), timeout=10_000)
    assert 3 <= len(kept(tmp_path)) < 59
