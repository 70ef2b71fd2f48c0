"""A brewer looks at the backups and brings one back, by keyboard, without being asked anything."""

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.backup_files import backups
from designer.library.store.health import DAMAGED
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.window.box.backups_model import BackupRow, BackupsModel
from designer.workbench.recipe_summary import summary_of


@pytest.fixture
def window(on_a_box, opened, folder):
    """The window over a box of the porter, with one backup of it; then the porter is kept twice."""
    with Store.open(folder) as store:
        text, summary = document_text(opened.recipe), summary_of(opened.recipe, opened.outlook)
        store.recipes.add(text, summary)
        store.make_backup()
        store.recipes.add(text, summary)
    return on_a_box(opened)


def settle(qtbot, window):
    autosave = window.autosave
    qtbot.waitUntil(lambda: not autosave.store.busy and not window.maintenance.busy, timeout=10_000)


@pytest.fixture
def panel(qtbot, window):
    """The backups in place of the recipes, each read through."""
    window.show_page(window.page_names.index("Recipe box"))
    qtbot.mouseClick(window.box.backups_button, Qt.MouseButton.LeftButton)
    read_through(qtbot, window.box.backups)
    return window.box.backups


def read_through(qtbot, panel):
    qtbot.waitUntil(
        lambda: (
            not panel._maintenance.busy
            and not panel.latest.busy
            and bool(panel.model.rows)
            and panel.model.next_unread() is None
        ),
        timeout=10_000,
    )


def shown(panel, row):
    return [panel.model.index(row, column).data() for column in range(panel.model.columnCount())]


def count(folder):
    with Store.open(folder) as store:
        return store.recipes.count()


def choose(panel, number):
    """Choose the backup of a number."""
    numbers = [row.backup.number for row in panel.model.rows]
    panel.table.selectRow(numbers.index(number))


def test_the_list_says_when_how_many_how_large_and_whether_it_reads(panel, qtmodeltester, folder):
    qtmodeltester.check(panel.model)
    assert [row.backup for row in panel.model.rows] == backups(folder)
    made, recipes, versions, size, state = shown(panel, len(panel.model.rows) - 1)
    assert (recipes, versions, state) == ("1", "1", "sound")
    assert made
    assert "kB" in size
    assert str(folder) in panel.told.text()


def test_a_backup_is_brought_back_by_keyboard_and_taken_back_again(qtbot, window, panel, folder):
    assert count(folder) == 2
    choose(panel, 1)
    assert panel.table.hasFocus()
    qtbot.keyClick(panel.table, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "is restored, with 1 recipe." in window.messages.text.text())
    settle(qtbot, window)
    assert count(folder) == 1
    read_through(qtbot, panel)
    newest = panel.model.rows[0]
    assert newest.health.recipes == 2
    assert newest.backup.number > 1
    (take_back,) = window.messages._buttons
    assert take_back.text() == "Undo that"
    qtbot.keyClick(take_back, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: "is restored, with 2 recipes." in window.messages.text.text())
    assert count(folder) == 2


def test_what_is_open_and_not_in_the_backup_stays_open_and_can_be_kept(
    qtbot, window, panel, folder
):
    window.opened.make(ChangeRecipe("name", "Newer than the backup", word("rename the recipe")))
    window.files.save()
    settle(qtbot, window)
    choose(panel, 1)
    panel.bring_back()
    qtbot.waitUntil(lambda: "is restored" in window.messages.text.text())
    assert window.opened.recipe.name == "Newer than the backup"
    assert window.opened.unsaved
    window.files.save()
    settle(qtbot, window)
    with Store.open(folder) as store:
        names = {row.name for row in store.finder.find("").rows}
    assert names == {"Newer than the backup", "Harbour Lamp Porter"}


def test_what_was_being_edited_is_kept_over_bringing_a_backup_back(qtbot, window, panel, folder):
    window.opened.make(ChangeRecipe("name", "Half typed", word("rename the recipe")))
    window.autosave.write_draft()
    settle(qtbot, window)
    qtbot.mouseClick(panel.make_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    read_through(qtbot, panel)
    window.opened.make(ChangeRecipe("name", "Typed on", word("rename the recipe")))
    choose(panel, panel.model.rows[0].backup.number)
    panel.bring_back()
    qtbot.waitUntil(lambda: "is restored" in window.messages.text.text())
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=5000)
    with Store.open(folder) as store:
        texts = [draft.document for draft in store.drafts.all()]
    assert '"name": "Half typed"' in texts[0]
    assert '"name": "Typed on"' in texts[-1]


def test_a_damaged_backup_is_told_and_not_brought_back(qtbot, window, panel, folder):
    path = panel.model.rows[-1].backup.path
    path.write_bytes(path.read_bytes()[:9000])
    panel.model.show_rows(())
    panel.look()
    read_through(qtbot, panel)
    choose(panel, 1)
    assert panel.chosen().health.state == DAMAGED
    assert not panel.bring_button.isEnabled()
    qtbot.keyClick(panel.table, Qt.Key.Key_Return)
    assert "Choose another backup" in window.messages.text.text()
    assert count(folder) == 2


def test_a_store_beyond_use_gives_way_and_is_kept_aside(qtbot, window, panel, folder):
    settle(qtbot, window)
    window.autosave.store.let_go()  # closes it
    settle(qtbot, window)
    for path in folder.glob("recipe-box.db*"):
        path.unlink()
    (folder / "recipe-box.db").write_bytes(b"\0" * 5000)
    choose(panel, 1)
    panel.bring_back()
    qtbot.waitUntil(lambda: "was set aside as" in window.messages.text.text(), timeout=10_000)
    assert [path.read_bytes() for path in folder.glob("set-aside/*/*.db")] == [b"\0" * 5000]
    assert count(folder) == 1
    assert not window.autosave.broken


def test_everything_is_copied_and_brought_back_from_here(
    qtbot, window, panel, answers, folder, tmp_path
):
    answers.copy_where = lambda parent: tmp_path / "everything.db"
    answers.which_copy = lambda parent, folder: tmp_path / "everything.db"
    qtbot.mouseClick(panel.copy_button, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert "read back" in window.messages.text.text()
    choose(panel, 1)
    panel.bring_back()
    qtbot.waitUntil(lambda: "with 1 recipe." in window.messages.text.text())
    qtbot.mouseClick(panel.copy_back_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "with 2 recipes." in window.messages.text.text())
    assert "everything.db is restored" in window.messages.text.text()


def test_escape_goes_back_to_the_recipes(qtbot, window, panel):
    qtbot.keyClick(panel.table, Qt.Key.Key_Escape)
    assert not panel.isVisible()
    assert window.box.table.isVisible()
    assert window.box.backups_button.hasFocus()


def test_a_box_without_backups_says_so(qtbot, window, panel, folder):
    for each in backups(folder):
        each.path.unlink()
    panel.look()
    qtbot.waitUntil(lambda: not panel.model.rows)
    assert not panel.bring_button.isEnabled()
    assert "no backup yet" in panel.none.text()


def test_a_row_without_a_reading_is_being_read(display, folder, window):
    model = BackupsModel(display)
    (backup, *_) = backups(folder)
    model.show_rows((BackupRow(backup, 1_500_000),))
    assert [model.index(0, column).data() for column in (1, 4)] == ["", "being read …"]
    assert model.index(0, 3).data().startswith("1")
