"""A brewer saves, opens, is refused, and loses nothing."""

from pathlib import Path

from PySide6.QtCore import Qt

from designer.library.recipe_file import load

from .acts import rename, wait_for_words


def test_saving_and_opening_gives_the_same_recipe(qtbot, window, answers, tmp_path):
    rename(window, "Evening Tide")
    answers.file = tmp_path / "evening.hobwort"
    qtbot.keyClick(window, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert answers.asked == ["save"]
    wait_for_words(qtbot, window, f"Saved to {answers.file}.")
    assert load(answers.file) == window.opened.recipe
    assert window.header.state.text() == "saved"
    assert not window.isWindowModified()
    rename(window, "Another")
    assert window.header.state.text() == "unsaved changes"
    answers.unsaved = "leave"
    qtbot.keyClick(window, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Evening Tide", timeout=5000)
    assert window.settings.recent[0] == str(answers.file)


def test_a_broken_file_is_refused_and_nothing_changes(qtbot, window, answers, tmp_path, porter):
    answers.file = tmp_path / "broken.hobwort"
    answers.file.write_text('{"hobwort": 1, "name": ', encoding="utf-8")
    window.files.open_file()
    wait_for_words(qtbot, window, "broken.hobwort")
    assert window.opened.recipe == porter


def test_a_failed_save_keeps_the_recipe_unsaved_and_says_why(qtbot, window, answers, tmp_path):
    rename(window, "Evening Tide")
    answers.file = tmp_path / "no such folder" / "evening.hobwort"
    window.files.save()
    wait_for_words(qtbot, window, "could not be written")
    assert window.opened.unsaved
    assert window.messages.isVisible()


def test_closing_with_unsaved_changes_asks_first(window, answers):
    rename(window, "Evening Tide")
    answers.unsaved = "stay"
    assert not window.close()
    assert window.isVisible()
    answers.unsaved = "leave"
    assert window.close()


def test_what_is_being_typed_is_saved_too(qtbot, window, answers, tmp_path):
    answers.file = tmp_path / "typed.hobwort"
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9 L")
    qtbot.keyClick(field, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    wait_for_words(qtbot, window, "Saved to")
    assert load(answers.file).process.top_up_to.text == "9 L"


def test_a_new_recipe_keeps_the_vessels_and_says_what_is_missing(window, porter):
    window.files.new_recipe()
    assert window.opened.recipe.pot == porter.pot
    assert window.opened.recipe.fermentables == ()
    window.opened.refresh_outlook()
    assert window.compose.watch_out.cards[0].accessibleName().startswith("Stop: There is nothing")


def test_a_file_named_at_the_start_that_is_not_there_is_told(qtbot, settings, tmp_path):
    from designer.window.start import opened_window

    window = opened_window(tmp_path / "gone.hobwort", settings)
    qtbot.addWidget(window)
    assert "gone.hobwort is not there" in window.messages.text.text()
    assert window.opened.path is None


def test_the_bill_goes_out_as_a_table_and_comes_in_again(qtbot, window, answers, tmp_path, porter):
    path = tmp_path / "bill.csv"
    answers.bill_where = lambda parent, suggested: path
    window.files.bill.write()
    wait_for_words(qtbot, window, "Exported the ingredient list")
    assert "Challenger" in path.read_text(encoding="utf-8")
    answers.which_bill = lambda parent, folder: path
    window.files.bill.bring_in()
    qtbot.waitUntil(lambda: window.opened.undo_stack.count() == 1, timeout=5000)
    assert len(window.opened.recipe.hops) == 2 * len(porter.hops)
    path.write_text("nonsense", encoding="utf-8")
    window.files.bill.bring_in()
    wait_for_words(qtbot, window, "headings")
    answers.bill_where = lambda parent, suggested: tmp_path / "bill.txt"
    window.files.bill.write()
    wait_for_words(qtbot, window, "bill.txt")
    assert "18 g  Challenger" in (tmp_path / "bill.txt").read_text(encoding="utf-8")


def test_a_file_named_from_a_folder_is_found_again_from_another(settings, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    settings.remember(Path("bitter.hobwort"))
    assert settings.recent == [str(tmp_path / "bitter.hobwort")]
