"""A recipe's file on a disk that others write to, that is slow, full or taken away."""

import os
import shutil
import threading

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import load, save
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.window.main_window import MainWindow
from designer.window.session import recipe_on_disk
from designer.window.session.open_recipe import OpenRecipe
from tests.active_window import made_active

from .acts import buttons_of, press, rename, wait_for_words

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def path(tmp_path, porter):
    there = tmp_path / "files" / "porter.hobwort"
    there.parent.mkdir()
    save(porter, there)
    return there


@pytest.fixture(autouse=True)
def looks_often(monkeypatch):
    monkeypatch.setattr(recipe_on_disk, "LOOK_MS", 20)


@pytest.fixture
def on_file(qtbot, settings, answers, path):
    """A window over the file, without a Recipe box."""
    window = MainWindow(OpenRecipe(load(path), path), settings, answers)
    qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
    made_active(qtbot, window)
    on_disk = window.keeping.saving.on_disk
    qtbot.waitUntil(lambda: on_disk._known is not None, timeout=5000)
    return window


class SlowDisk:
    """Writes only when it is let."""

    def __init__(self):
        self.let = threading.Event()

    def save(self, recipe, path, *, instead_of=None):
        assert self.let.wait(30)
        return save(recipe, path, instead_of=instead_of)


@pytest.fixture
def slow(monkeypatch):
    disk = SlowDisk()
    monkeypatch.setattr(recipe_on_disk, "save", disk.save)
    yield disk
    disk.let.set()


def change_outside(path, porter, name="Theirs"):
    """As editors do it: a new file takes the place of the old."""
    beside = path.with_name("beside")
    save(ChangeRecipe("name", name, word("")).apply(porter), beside)
    beside.replace(path)


def said(window):
    return window.messages.text.text()


def press_save(qtbot, window):
    qtbot.keyClick(window, Qt.Key.Key_S, CTRL)


def test_a_file_changed_by_another_program_is_not_overwritten_by_saving(
    qtbot, on_file, path, porter, monkeypatch
):
    on_file.keeping.saving.on_disk._ticks.stop()
    rename(on_file, "Mine")
    change_outside(path, porter)
    press_save(qtbot, on_file)
    wait_for_words(qtbot, on_file, "was changed outside this window, and was not written over")
    assert load(path).name == "Theirs"
    assert on_file.opened.unsaved
    texts = [each.text() for each in on_file.messages._buttons]
    assert texts == ["Keep both", "Use theirs", "Overwrite"]


def test_a_change_with_the_same_length_and_time_is_noticed_by_saving(qtbot, on_file, path, porter):
    on_file.keeping.saving.on_disk._ticks.stop()
    rename(on_file, "Mine")
    before = path.stat()
    path.write_bytes(path.read_bytes().replace(b"Harbour", b"harbour"))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    press_save(qtbot, on_file)
    wait_for_words(qtbot, on_file, "was changed outside this window")
    assert load(path).name == "harbour Lamp Porter"


def test_a_change_is_told_while_the_file_is_open_and_theirs_are_taken_as_one_step(
    qtbot, on_file, path, porter
):
    rename(on_file, "Mine")
    change_outside(path, porter)
    wait_for_words(
        qtbot, on_file, "was changed outside this window. What you changed is not in it."
    )
    assert on_file.opened.recipe.name == "Mine"
    press(qtbot, buttons_of(on_file)["Use theirs"])
    assert on_file.opened.recipe == load(path)
    on_file.opened.undo_stack.undo()
    assert on_file.opened.recipe.name == "Mine"
    press_save(qtbot, on_file)  # theirs was seen: mine may take its place now
    wait_for_words(qtbot, on_file, f"Saved to {path}.")
    assert load(path).name == "Mine"


def test_with_nothing_unsaved_theirs_are_offered_and_not_taken_unasked(
    qtbot, on_file, path, porter
):
    change_outside(path, porter)
    wait_for_words(qtbot, on_file, "was changed outside this window. Yours is what is shown here.")
    assert on_file.opened.recipe == porter
    assert on_file.header.state.text() == "its file was changed"
    press(qtbot, buttons_of(on_file)["Use theirs"])
    assert on_file.opened.recipe.name == "Theirs"


def test_what_was_told_of_a_file_goes_with_it(qtbot, on_file, path, porter):
    change_outside(path, porter)
    wait_for_words(qtbot, on_file, "was changed outside this window")
    on_file.files.new_recipe()
    assert not on_file.messages.isVisible()
    assert on_file.opened.path is None


def test_keeping_both_puts_mine_beside_theirs_under_a_free_name(qtbot, on_file, path, porter):
    (path.parent / "porter-2.hobwort").write_bytes(b"another's")
    rename(on_file, "Mine")
    change_outside(path, porter)
    wait_for_words(qtbot, on_file, "was changed outside this window")
    press(qtbot, buttons_of(on_file)["Keep both"])
    mine = path.parent / "porter-3.hobwort"
    wait_for_words(qtbot, on_file, f"yours, open here, in {mine}, theirs in {path}")
    assert (load(mine).name, load(path).name) == ("Mine", "Theirs")
    assert (path.parent / "porter-2.hobwort").read_bytes() == b"another's"
    assert on_file.opened.path == mine
    assert not on_file.opened.unsaved


def test_overwriting_replaces_what_was_told_of_and_nothing_newer(qtbot, on_file, path, porter):
    rename(on_file, "Mine")
    change_outside(path, porter)
    wait_for_words(qtbot, on_file, "was changed outside this window")
    on_file.keeping.saving.on_disk._ticks.stop()
    change_outside(path, porter, "Newer")
    press(qtbot, buttons_of(on_file)["Overwrite"])
    wait_for_words(qtbot, on_file, "was not written over")
    assert load(path).name == "Newer"
    press(qtbot, buttons_of(on_file)["Overwrite"])
    wait_for_words(qtbot, on_file, f"Saved to {path}.")
    assert load(path).name == "Mine"


def test_a_file_taken_away_and_brought_back_is_no_change(qtbot, on_file, path):
    away = path.with_name("away")
    path.rename(away)
    wait_for_words(qtbot, on_file, "is not there any more")
    assert on_file.header.state.text() == "its file is gone"
    away.rename(path)
    qtbot.waitUntil(lambda: not on_file.messages.isVisible(), timeout=5000)
    assert on_file.header.state.text() == "saved"


def test_a_file_gone_for_good_is_written_anew(qtbot, on_file, path, porter):
    path.unlink()
    wait_for_words(qtbot, on_file, "is not there any more")
    press(qtbot, buttons_of(on_file)["Save"])
    wait_for_words(qtbot, on_file, f"Saved to {path}.")
    assert load(path) == porter


def test_a_file_that_is_no_recipe_any_more_is_told_and_cannot_be_taken(qtbot, on_file, path):
    path.write_bytes(b"nonsense")
    wait_for_words(qtbot, on_file, "cannot be opened as it is now")
    assert [each.text() for each in on_file.messages._buttons] == ["Keep both", "Overwrite"]


def test_saving_to_a_folder_that_is_gone_keeps_a_version_and_says_both(
    qtbot, on_a_box, path, answers
):
    window = on_a_box(OpenRecipe(load(path), path))
    rename(window, "Mine")
    shutil.rmtree(path.parent)
    press_save(qtbot, window)
    wait_for_words(qtbot, window, "The Recipe box kept version 1.")
    assert f"the folder {path.parent} is not there" in said(window)
    assert window.header.state.text() == "kept, version 1, not in its file"
    answers.file = path.parent.parent / "elsewhere.hobwort"
    press(qtbot, buttons_of(window)["Save as…"])
    wait_for_words(qtbot, window, f"Saved to {answers.file}.")
    assert load(answers.file).name == "Mine"
    assert window.header.state.text() == "saved"


def test_the_next_start_does_not_show_what_an_unwritten_file_held_before(
    qtbot, on_a_box, path, porter, monkeypatch
):
    from designer.errors import DesignerError

    def refuse(*_, **__):
        raise DesignerError("The stick is full.")

    window = on_a_box(OpenRecipe(load(path), path))
    rename(window, "Mine")
    monkeypatch.setattr(recipe_on_disk, "save", refuse)
    press_save(qtbot, window)
    wait_for_words(qtbot, window, "The stick is full. The Recipe box kept version 1.")
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=5000)
    assert window.close()
    later = on_a_box(OpenRecipe(porter))
    qtbot.waitUntil(lambda: later.opened.recipe.name == "Mine", timeout=5000)


def test_a_file_whose_folder_is_gone_is_to_be_saved_elsewhere(qtbot, on_file, path):
    shutil.rmtree(path.parent)
    wait_for_words(qtbot, on_file, f"the folder {path.parent} is not there any more")
    assert [each.text() for each in on_file.messages._buttons] == ["Save as…"]


def test_a_file_that_was_changed_before_it_was_looked_at_is_told_too(
    qtbot, settings, answers, path, porter
):
    """As after a crash: the draft is gone on with, and the file has changed since."""
    opened = OpenRecipe(porter)
    window = MainWindow(opened, settings, answers)
    qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
    window.show()
    change_outside(path, porter)
    opened.go_on((porter, ChangeRecipe("name", "Mine", word("")).apply(porter)), 1, path)
    wait_for_words(qtbot, window, "was changed outside this window. What you changed is not in it.")


def test_a_box_that_keeps_nothing_does_not_keep_the_file_from_being_written(
    qtbot, on_a_box, path, monkeypatch
):
    from designer.errors import DesignerError
    from designer.library.store.recipes import Recipes

    def refuse(*_, **__):
        raise DesignerError("The disk is full.")

    window = on_a_box(OpenRecipe(load(path), path))
    monkeypatch.setattr(Recipes, "add", refuse)
    rename(window, "Mine")
    press_save(qtbot, window)
    wait_for_words(qtbot, window, "The Recipe box did not keep it: The disk is full.")
    wait_for_words(qtbot, window, f"Saved to {path}.")
    assert load(path).name == "Mine"


def test_while_a_slow_disk_writes_the_window_takes_keys_and_what_is_typed_stays_unsaved(
    qtbot, on_file, path, slow
):
    rename(on_file, "Saved")
    press_save(qtbot, on_file)
    wait_for_words(qtbot, on_file, "the disk is slow")
    field = on_file.header.name
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Typed on")
    assert on_file.opened.recipe.name == "Typed on"
    assert "Saved to" not in said(on_file)
    slow.let.set()
    wait_for_words(qtbot, on_file, f"Saved to {path}.")
    assert load(path).name == "Saved"
    assert on_file.opened.unsaved
    press_save(qtbot, on_file)
    qtbot.waitUntil(lambda: not on_file.opened.unsaved, timeout=5000)
    assert load(path).name == "Typed on"


def test_typing_goes_on_where_it_was_after_a_save(qtbot, on_file, path):
    field = on_file.header.name
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Mine for now")
    field.setCursorPosition(4)
    press_save(qtbot, on_file)
    wait_for_words(qtbot, on_file, f"Saved to {path}.")
    assert load(path).name == "Mine for now"
    assert on_file.focusWidget() is field
    qtbot.keyClicks(on_file.focusWidget(), ", typed on")
    assert on_file.opened.recipe.name == "Mine, typed on for now"
    assert on_file.opened.unsaved


def test_saving_twice_while_a_slow_disk_writes_is_no_change_by_another(qtbot, on_file, path, slow):
    rename(on_file, "First")
    press_save(qtbot, on_file)
    rename(on_file, "Second")
    press_save(qtbot, on_file)
    slow.let.set()
    qtbot.waitUntil(lambda: not on_file.opened.unsaved, timeout=5000)
    assert load(path).name == "Second"
    assert "outside this window" not in said(on_file)


def test_closing_waits_for_what_is_being_written(qtbot, on_file, path, slow):
    rename(on_file, "Last words")
    press_save(qtbot, on_file)
    assert not on_file.close()
    assert on_file.isVisible()
    wait_for_words(qtbot, on_file, "The window closes when your recipe is on it.")
    slow.let.set()
    qtbot.waitUntil(lambda: not on_file.isVisible(), timeout=5000)
    assert load(path).name == "Last words"


def test_opening_from_a_slow_disk_lets_the_window_work_and_the_last_one_asked_for_counts(
    qtbot, on_file, path, porter, monkeypatch
):
    other = path.with_name("other.hobwort")
    change_outside(other, porter, "Other")
    let, real = threading.Event(), recipe_on_disk.read_on_disk

    def read(path):
        assert let.wait(30)
        return real(path)

    monkeypatch.setattr(recipe_on_disk, "read_on_disk", read)
    on_file.files.open_path(path)
    on_file.files.open_path(other)
    wait_for_words(qtbot, on_file, "the disk is slow")
    assert on_file.opened.recipe == porter
    let.set()
    qtbot.waitUntil(lambda: on_file.opened.recipe.name == "Other", timeout=5000)
    assert on_file.opened.path == other


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="a pipe of Unix systems")
def test_a_pipe_is_refused_at_once_and_the_window_goes_on(qtbot, on_file, tmp_path, settings):
    from designer.window.start import opened_window

    pipe = tmp_path / "pipe.hobwort"
    os.mkfifo(pipe)
    on_file.files.open_path(pipe)
    wait_for_words(qtbot, on_file, "is a pipe, not a file")
    started = opened_window(pipe, settings)
    qtbot.addWidget(started)
    assert "is a pipe, not a file" in said(started)


def test_what_is_in_the_box_is_not_called_saved_before_the_file_holds_it(
    qtbot, on_a_box, path, slow
):
    window = on_a_box(OpenRecipe(load(path), path))
    rename(window, "Mine")
    press_save(qtbot, window)
    state = window.header.state
    qtbot.waitUntil(lambda: state.text().startswith("kept, version"), timeout=10_000)
    assert state.text().endswith("its file is being written")
    assert load(path).name == "Harbour Lamp Porter"
    slow.let.set()
    qtbot.waitUntil(lambda: state.text() == "saved", timeout=10_000)
    assert load(path).name == "Mine"
