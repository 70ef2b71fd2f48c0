"""Nothing is lost: drafts within a second, versions when saved, going on after a crash."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import load, read_document
from designer.library.store import Draft, Store
from designer.window.main_window import MainWindow
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.store_thread import StoreThread

from .acts import rename


@pytest.fixture
def make_window(qtbot, settings, answers, folder, porter):
    """Make windows on one store; each is closed at the end."""
    made = []

    def make(recipe=porter, path=None):
        opened = OpenRecipe(recipe, path)
        autosave = Autosave(opened, StoreThread(folder), folder)
        window = MainWindow(opened, settings, answers, lambda: autosave)
        made.append(window)
        window.show()
        qtbot.waitUntil(lambda: window.autosave is autosave, timeout=10_000)
        qtbot.waitUntil(lambda: not autosave.store.busy and opened.with_ranges, timeout=10_000)
        return window

    yield make
    for window in made:
        window.opened.undo_stack.setClean()
        window.autosave.close()
        window.autosave = None
        window.close()
        window.deleteLater()


def settled(qtbot, window):
    qtbot.waitUntil(
        lambda: (
            not window.autosave.store.busy
            and not window.maintenance.busy
            and not window.autosave._after_key.isActive()
        ),
        timeout=10_000,
    )


def crash(window):
    """As if the process had been killed: the lock falls, nothing is closed."""
    window.autosave._mark.close()
    window.autosave._mark = None
    window.autosave._after_key.stop()
    window.autosave._latest.stop()


def test_a_change_is_a_draft_within_a_second(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Half typed")
    qtbot.waitUntil(lambda: "draft kept" in window.header.state.text(), timeout=1500)
    with Store.open(folder) as store:
        draft = store.drafts.all()[-1]
    assert read_document(draft.document, "draft").name == "Half typed"


def test_after_a_crash_the_next_start_goes_on_with_its_undo_history(qtbot, make_window, porter):
    window = make_window()
    rename(window, "First")
    rename(window, "Second")
    settled(qtbot, window)
    crash(window)
    later = make_window()
    assert later.opened.recipe.name == "Second"
    assert later.opened.unsaved
    assert later.header.undo.toolTip() == "Undo rename the recipe"
    later.opened.undo_stack.undo()
    later.opened.undo_stack.undo()
    assert later.opened.recipe == porter


def test_a_draft_of_a_window_that_is_still_open_is_left_alone(qtbot, make_window):
    first = make_window()
    rename(first, "In the first window")
    settled(qtbot, first)
    second = make_window()
    assert second.opened.recipe.name == "Harbour Lamp Porter"


def test_saving_keeps_a_version_and_the_next_start_shows_it(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Evening Tide")
    qtbot.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    settled(qtbot, window)
    assert not window.opened.unsaved
    assert window.header.state.text() == "kept, version 1"
    rename(window, "Evening Tide, drier")
    window.files.save()
    settled(qtbot, window)
    assert window.header.state.text() == "kept, version 2"
    with Store.open(folder) as store:
        assert [each.number for each in store.recipes.versions(window.autosave.recipe_id)] == [2, 1]
        assert store.drafts.all() == []
    crash(window)
    later = make_window()
    assert later.opened.recipe.name == "Evening Tide, drier"
    assert not later.opened.unsaved


def test_leaving_an_unsaved_recipe_keeps_it(qtbot, make_window, folder, answers):
    window = make_window()
    rename(window, "Left in a hurry")
    window.files.new_recipe()
    settled(qtbot, window)
    assert "was kept in the Recipe box" in window.messages.text.text()
    assert answers.asked == []
    with Store.open(folder) as store:
        assert [row.name for row in store.finder.find("hurry").rows] == ["Left in a hurry"]


def test_closing_with_unsaved_changes_asks_nothing_and_loses_nothing(qtbot, make_window, answers):
    window = make_window()
    rename(window, "Closed on")
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible(), timeout=10_000)
    assert answers.asked == []
    later = make_window()
    assert later.opened.recipe.name == "Closed on"
    assert later.opened.unsaved


def test_a_recipe_with_a_file_is_written_and_kept(qtbot, make_window, tmp_path, porter):
    path = tmp_path / "porter.hobwort"
    window = make_window(path=path)
    rename(window, "On file")
    window.files.save()
    qtbot.waitUntil(path.exists, timeout=5000)
    settled(qtbot, window)
    assert load(path).name == "On file"
    assert window.autosave.recipe_id


def test_two_windows_that_save_one_recipe_keep_both(qtbot, make_window, folder):
    first = make_window()
    rename(first, "Shared")
    first.files.save()
    settled(qtbot, first)
    second = make_window()
    with Store.open(folder) as store:
        second.files.open_version(store.recipes.newest(first.autosave.recipe_id))
    rename(first, "Shared, mine")
    first.files.save()
    settled(qtbot, first)
    rename(second, "Shared, theirs")
    second.files.save()
    settled(qtbot, second)
    assert "are both kept" in second.messages.text.text()
    with Store.open(folder) as store:
        assert len(store.recipes.versions(first.autosave.recipe_id)) == 3


def test_a_store_that_cannot_be_is_told_and_a_file_is_offered(
    qtbot, settings, answers, tmp_path, porter
):
    blocked = tmp_path / "a file"
    blocked.write_text("not a folder", encoding="utf-8")
    opened = OpenRecipe(porter)
    autosave = Autosave(opened, StoreThread(blocked), Path(blocked))
    window = MainWindow(opened, settings, answers, lambda: autosave)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: bool(autosave.broken), timeout=5000)
    assert "Save as" in window.messages.text.text()
    answers.file = tmp_path / "rescued.hobwort"
    rename(window, "Rescued")
    window.files.save()  # the box is tried again, and says again what is wrong
    settled(qtbot, window)
    elsewhere = window.messages._buttons[-1]
    assert elsewhere.text() == "Save to a file…"
    qtbot.mouseClick(elsewhere, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(answers.file.exists, timeout=5000)
    assert load(answers.file).name == "Rescued"
    autosave.close()
    window.autosave = None


def test_work_for_the_store_keeps_its_order_and_skips_what_is_stale(qtbot, tmp_path):
    thread = StoreThread(tmp_path / "box")
    seen = []
    for number in range(20):
        thread.ask(lambda store, number=number: number, seen.append, key="search")
    thread.ask(lambda store: "last", seen.append)
    qtbot.waitUntil(lambda: not thread.busy, timeout=10_000)
    assert seen[-1] == "last"
    assert seen[-2] == 19
    assert seen[:-1] == sorted(seen[:-1])
    thread.stop()


def test_a_damaged_store_is_set_aside_and_the_backup_goes_on(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Kept before the damage")
    window.files.save()
    settled(qtbot, window)
    window.maintenance.look_after()
    settled(qtbot, window)
    assert list(window.autosave.backup_folder.glob("*.db"))
    window.close()
    box = folder / "hobwort.db" if (folder / "hobwort.db").exists() else next(folder.glob("*.db"))
    box.write_bytes(b"\0" * 5000)
    for log in folder.glob(f"{box.name}-*"):
        log.unlink()
    later = make_window()
    qtbot.waitUntil(lambda: "set aside" in later.messages.text.text(), timeout=10_000)
    backup = next(
        b for b in later.messages._buttons if b.text().startswith("Go on with the backup")
    )
    qtbot.mouseClick(backup, Qt.MouseButton.LeftButton)
    settled(qtbot, later)
    with Store.open(folder) as store:
        assert [row.name for row in store.finder.find("").rows] == ["Kept before the damage"]
    rename(later, "Kept again")
    qtbot.waitUntil(lambda: "draft kept" in later.header.state.text(), timeout=3000)


def test_everything_is_copied_to_a_file_and_brought_back(
    qtbot, make_window, folder, answers, tmp_path
):
    window = make_window()
    window.opened.undo_stack.resetClean()
    window.files.save()
    settled(qtbot, window)
    answers.copy_where = lambda parent: tmp_path / "everything.db"
    window.keeping.copy_everything()
    settled(qtbot, window)
    assert "read back" in window.messages.text.text()
    with Store.open(folder) as store:
        store.trash.put([row.id for row in store.finder.find("").rows])
    answers.which_copy = lambda parent, folder: tmp_path / "everything.db"
    window.keeping.bring_everything_back()
    settled(qtbot, window)
    with Store.open(folder) as store:
        assert len(store.finder.find("").rows) == 1


def test_a_version_is_kept_with_a_name(qtbot, make_window, folder, answers):
    window = make_window()
    answers.version_name = lambda parent: "before the hops were changed"
    window.keeping.save_version()
    settled(qtbot, window)
    with Store.open(folder) as store:
        names = [each.name for each in store.recipes.versions(window.autosave.recipe_id)]
    assert names == ["before the hops were changed"]


# what the words say, and what is there


def test_the_words_follow_the_newest_text_and_go_with_what_was_undone(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Kept")
    window.files.save()
    settled(qtbot, window)
    rename(window, "Not meant")
    assert window.header.state.text() == "unsaved, keeping…"
    window.opened.undo_stack.undo()
    assert window.header.state.text() == "kept, version 1"
    rename(window, "Not meant either")
    qtbot.waitUntil(lambda: window.header.state.text() == "unsaved, draft kept")
    window.opened.undo_stack.undo()
    assert window.header.state.text() == "kept, version 1"
    settled(qtbot, window)
    with Store.open(folder) as store:
        assert store.drafts.all() == []


def test_an_older_answer_does_not_call_the_newest_text_kept(qtbot, make_window):
    window = make_window()
    told = []
    rename(window, "Older")
    window.autosave.write_draft()
    rename(window, "Newer")
    window.autosave.state_changed.connect(lambda state: told.append((state, stored(window))))
    settled(qtbot, window)
    assert ("draft kept", "Newer") in told
    assert ("draft kept", "Older") not in told


def stored(window):
    """The name in the draft written last."""
    with Store.open(window.autosave.folder) as store:
        drafts = store.drafts.all()
    return read_document(drafts[-1].document, "draft").name if drafts else ""


def test_a_change_undone_while_its_draft_is_written_leaves_no_draft(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Kept")
    window.files.save()
    settled(qtbot, window)
    rename(window, "On its way")
    window.autosave.write_draft()
    window.opened.undo_stack.undo()
    settled(qtbot, window)
    settled(qtbot, window)
    assert window.header.state.text() == "kept, version 1"
    with Store.open(folder) as store:
        assert store.drafts.all() == []


def test_a_text_gone_back_to_is_written_again_over_the_one_in_between(qtbot, make_window):
    window = make_window()
    rename(window, "First")
    qtbot.waitUntil(lambda: window.header.state.text() == "unsaved, draft kept")
    rename(window, "Second")
    window.autosave.write_draft()
    window.opened.undo_stack.undo()
    settled(qtbot, window)
    settled(qtbot, window)
    assert stored(window) == "First"


def test_saving_twice_before_the_box_has_answered_keeps_one_recipe(qtbot, make_window, folder):
    window = make_window()
    rename(window, "Once")
    window.files.save()
    rename(window, "Once, drier")
    window.files.save()
    window.files.new_recipe()
    settled(qtbot, window)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Untitled brew")
    with Store.open(folder) as store:
        (row,) = store.finder.find("").rows
        assert (row.name, row.versions) == ("Once, drier", 2)


# what the next start shows


def kept_twice(qtbot, window):
    for name in ("Old", "New"):
        rename(window, name)
        window.files.save()
        settled(qtbot, window)


def test_the_version_last_open_is_what_the_next_start_shows(qtbot, make_window, folder):
    window = make_window()
    kept_twice(qtbot, window)
    with Store.open(folder) as store:
        old = store.recipes.versions(window.autosave.recipe_id)[-1]
        window.files.open_version(store.recipes.version(old.id))
    settled(qtbot, window)
    crash(window)
    later = make_window()
    assert later.opened.recipe.name == "Old"
    assert later.header.state.text() == "kept, version 1"


def test_a_recipe_thrown_away_is_not_shown_at_the_next_start(qtbot, make_window, folder, porter):
    window = make_window()
    kept_twice(qtbot, window)
    with Store.open(folder) as store:
        store.trash.put([window.autosave.recipe_id])
    crash(window)
    later = make_window()
    assert later.opened.recipe.name == porter.name
    assert not later.autosave.recipe_id


def test_changing_an_older_version_blames_no_other_window(qtbot, make_window, folder):
    window = make_window()
    kept_twice(qtbot, window)
    with Store.open(folder) as store:
        old = store.recipes.versions(window.autosave.recipe_id)[-1]
        window.files.open_version(store.recipes.version(old.id))
    settled(qtbot, window)
    rename(window, "Old, another way")
    window.files.save()
    settled(qtbot, window)
    assert not window.messages.isVisible()
    assert window.header.state.text() == "kept, version 3"


@pytest.mark.parametrize("is_changed", [False, True])
def test_a_version_brought_back_is_what_is_open_and_blames_no_other_window(
    qtbot, make_window, is_changed
):
    window = make_window()
    kept_twice(qtbot, window)
    window.show_page(window.page_names.index("Recipe box"))
    box = window.box
    qtbot.waitUntil(lambda: bool(box.model.rows_read))
    box.table.selectRow(0)
    qtbot.waitUntil(lambda: box.details.versions_model.rowCount() == 2)
    if is_changed:
        rename(window, "New, half changed")
    box.details.versions.setCurrentIndex(box.details.versions_model.index(1, 0))
    qtbot.mouseClick(box.details.back_button, Qt.MouseButton.LeftButton)
    settled(qtbot, window)
    assert window.opened.recipe.name == ("New, half changed" if is_changed else "Old")
    rename(window, "Changed after that")
    window.files.save()
    settled(qtbot, window)
    assert not window.messages.isVisible()
    assert window.header.state.text() == "kept, version 4"


def test_one_step_that_cannot_be_read_hides_no_draft(qtbot, make_window, folder):
    window = make_window()
    for name in ("One", "Two", "Three", "Four"):
        rename(window, name)
    settled(qtbot, window)
    crash(window)
    with Store.open(folder) as store:
        (draft,) = store.drafts.all()
        undo = list(draft.undo)
        undo[2] = "{"
        store.drafts.put(replace(draft, undo=tuple(undo)))
    later = make_window()
    assert later.opened.recipe.name == "Four"
    assert later.header.state.text() == "unsaved, draft kept"
    later.opened.undo_stack.undo()
    assert later.opened.recipe.name == "Three"
    assert not later.opened.undo_stack.canUndo()


def test_a_draft_that_is_no_recipe_is_put_into_a_file_as_it_is(qtbot, make_window, folder, porter):
    with Store.open(folder) as store:
        store.drafts.put(Draft("gone", '{"hobwort": 1, "hops": "three of them"}'))
    window = make_window()
    assert window.opened.recipe.name == porter.name
    (path,) = (folder / "left-behind").iterdir()
    assert path.read_text(encoding="utf-8") == '{"hobwort": 1, "hops": "three of them"}'
    assert str(path) in window.messages.text.text()
    with Store.open(folder) as store:
        assert store.drafts.all() == []


def test_what_could_not_be_opened_again_is_not_called_kept(qtbot, make_window, folder, porter):
    window = make_window()
    # such as a limit that reading knows and a field does not
    window.opened.show(replace(porter, hops=600 * porter.hops[:1]))
    window.opened.undo_stack.resetClean()
    settled(qtbot, window)
    assert window.header.state.text() == "unsaved, not kept"
    assert "could not be opened again" in window.messages.text.text()
    window.files.save()
    settled(qtbot, window)
    assert window.opened.unsaved
    with Store.open(folder) as store:
        assert store.recipes.count() == 0
        assert len(store.drafts.all()) == 1
    window.opened.show(porter)
    window.files.save()
    settled(qtbot, window)
    assert window.header.state.text() == "kept, version 1"
