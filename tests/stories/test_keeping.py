"""Nothing is lost: drafts within a second, versions when saved, going on after a crash."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import load, read_document
from designer.library.store import Store
from designer.recipe.edits import ChangeRecipe
from designer.window.keeper import Keeper
from designer.window.main_window import MainWindow
from designer.window.open_recipe import OpenRecipe
from designer.window.store_thread import StoreThread


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "box"


@pytest.fixture
def make_window(qtbot, settings, answers, folder, porter):
    """Make windows on one store; each is closed at the end."""
    made = []

    def make(recipe=porter, path=None):
        opened = OpenRecipe(recipe, path)
        keeper = Keeper(opened, StoreThread(folder), folder)
        window = MainWindow(opened, settings, answers, lambda: keeper)
        made.append(window)
        window.show()
        qtbot.waitUntil(lambda: window.keeper is keeper, timeout=10_000)
        qtbot.waitUntil(lambda: not keeper.store.busy and opened.with_ranges, timeout=10_000)
        return window

    yield make
    for window in made:
        window.opened.undo_stack.setClean()
        window.keeper.close()
        window.keeper = None
        window.close()
        window.deleteLater()


def settled(qtbot, window):
    qtbot.waitUntil(
        lambda: (
            not window.keeper.store.busy
            and not window.keeper.care.busy
            and not window.keeper._after_key.isActive()
        ),
        timeout=10_000,
    )


def rename(window, name):
    window.opened.make(ChangeRecipe("name", name, "rename the recipe"))


def crash(window):
    """As if the process had been killed: the lock falls, nothing is closed."""
    window.keeper._mark.close()
    window.keeper._mark = None
    window.keeper._after_key.stop()
    window.keeper._latest.stop()


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
    window.save()
    settled(qtbot, window)
    assert window.header.state.text() == "kept, version 2"
    with Store.open(folder) as store:
        assert [each.number for each in store.recipes.versions(window.keeper.recipe_id)] == [2, 1]
        assert store.drafts.all() == []
    crash(window)
    later = make_window()
    assert later.opened.recipe.name == "Evening Tide, drier"
    assert not later.opened.unsaved


def test_leaving_an_unsaved_recipe_keeps_it(qtbot, make_window, folder, answers):
    window = make_window()
    rename(window, "Left in a hurry")
    window.new_recipe()
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
    window.save()
    qtbot.waitUntil(path.exists, timeout=5000)
    settled(qtbot, window)
    assert load(path).name == "On file"
    assert window.keeper.recipe_id


def test_two_windows_that_save_one_recipe_keep_both(qtbot, make_window, folder):
    first = make_window()
    rename(first, "Shared")
    first.save()
    settled(qtbot, first)
    second = make_window()
    with Store.open(folder) as store:
        second.open_version(store.recipes.newest(first.keeper.recipe_id))
    rename(first, "Shared, mine")
    first.save()
    settled(qtbot, first)
    rename(second, "Shared, theirs")
    second.save()
    settled(qtbot, second)
    assert "are both kept" in second.messages.text.text()
    with Store.open(folder) as store:
        assert len(store.recipes.versions(first.keeper.recipe_id)) == 3


def test_a_store_that_cannot_be_is_told_and_a_file_is_offered(
    qtbot, settings, answers, tmp_path, porter
):
    blocked = tmp_path / "a file"
    blocked.write_text("not a folder", encoding="utf-8")
    opened = OpenRecipe(porter)
    keeper = Keeper(opened, StoreThread(blocked), Path(blocked))
    window = MainWindow(opened, settings, answers, lambda: keeper)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: bool(keeper.broken), timeout=5000)
    assert "Save as" in window.messages.text.text()
    answers.file = tmp_path / "rescued.hobwort"
    rename(window, "Rescued")
    window.save()  # the box is tried again, and says again what is wrong
    settled(qtbot, window)
    elsewhere = window.messages._buttons[-1]
    assert elsewhere.text() == "Save to a file…"
    qtbot.mouseClick(elsewhere, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(answers.file.exists, timeout=5000)
    assert load(answers.file).name == "Rescued"
    keeper.close()
    window.keeper = None


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
    window.save()
    settled(qtbot, window)
    window.keeper.care.look_after()
    settled(qtbot, window)
    assert list(window.keeper.backup_folder.glob("*.db"))
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
    window.save()
    settled(qtbot, window)
    answers.copy_where = lambda parent: tmp_path / "everything.db"
    window.copy_everything()
    settled(qtbot, window)
    assert "read back" in window.messages.text.text()
    with Store.open(folder) as store:
        store.trash.put([row.id for row in store.finder.find("").rows])
    answers.which_copy = lambda parent, folder: tmp_path / "everything.db"
    window.bring_everything_back()
    settled(qtbot, window)
    with Store.open(folder) as store:
        assert len(store.finder.find("").rows) == 1


def test_a_version_is_kept_with_a_name(qtbot, make_window, folder, answers):
    window = make_window()
    answers.version_name = lambda parent: "before the hops were changed"
    window.save_version()
    settled(qtbot, window)
    with Store.open(folder) as store:
        names = [each.name for each in store.recipes.versions(window.keeper.recipe_id)]
    assert names == ["before the hops were changed"]
