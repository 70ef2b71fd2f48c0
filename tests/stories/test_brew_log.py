"""A brew is begun, left and gone on with, over a Recipe box and over a file; all of it is kept."""

from __future__ import annotations

import sqlite3
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import read_document, save
from designer.library.store import Store
from designer.library.store.folder import store_path
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from designer.window.session.open_brew import OpenBrew
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.entries_text import entries_of
from tests.driven_clock import DrivenClock


@pytest.fixture
def at_the_stove(qtbot, display, on_a_box):
    """Open a window over a recipe and put the brew together that its page would drive."""
    made = []

    def open_one(opened, clock=None):
        window = on_a_box(opened)
        brew = OpenBrew(window.keeping.brews, display, clock or DrivenClock())
        made.append(brew)
        return window, brew

    yield open_one
    for each in made:
        each.close()


def settle(qtbot, window, brew):
    def is_settled():
        busy = brew.reckoning or window.autosave.store.busy
        assert not busy
        assert window.keeping.brews.settled

    qtbot.waitUntil(is_settled, timeout=10_000)


def in_box(folder):
    with Store.open(folder) as store:
        return store.brews.all(), [store.recipes.versions(e.recipe) for e in store.brews.all()]


def test_a_brew_of_a_changed_recipe_keeps_its_version_first(qtbot, at_the_stove, opened, folder):
    window, brew = at_the_stove(opened)
    changed = replace(opened.recipe, notes="more finings")
    opened.show(changed)
    brew.start(opened, window.autosave)
    assert brew.brewing.now.key == "boil 1/fill"  # nobody waits for the store
    brew.done()
    window.autosave.start_afresh()  # and another is opened before the store has answered
    opened.replace_by(replace(changed, name="Another name"), None)
    settle(qtbot, window, brew)
    (kept,), (versions,) = in_box(folder)
    assert (kept.recipe, kept.version) == (versions[0].recipe, versions[0].id)
    assert read_document(kept.document, "it") == changed == brew.recipe
    assert kept.is_under_way


def test_a_file_outside_the_box_is_kept_there_once_and_brewed_again_as_a_version(
    qtbot, at_the_stove, porter, folder, tmp_path
):
    path = tmp_path / "porter.hobwort"
    save(porter, path)
    opened = OpenRecipe(porter, path)
    window, brew = at_the_stove(opened)
    brew.start(opened, window.autosave)
    settle(qtbot, window, brew)
    brew.finish()
    opened.show(replace(porter, notes="a second time"))
    brew.start(opened, window.autosave)
    settle(qtbot, window, brew)
    (second, first), (versions, _) = in_box(folder)
    assert {first.file, second.file} == {str(path)}
    assert first.recipe == second.recipe
    assert [each.number for each in versions] == [2, 1]
    assert (second.version, first.version) == (versions[0].id, versions[1].id)
    assert opened.path == path  # the file is what is open, as before
    assert (first.is_under_way, second.is_under_way) == (False, True)


def test_two_brews_run_at_once_and_each_is_gone_on_with_where_it_stood(
    qtbot, at_the_stove, opened, porter
):
    clock = DrivenClock()
    window, brew = at_the_stove(opened, clock)
    brew.start(opened, window.autosave)
    settle(qtbot, window, brew)
    brew.done()
    brew.start_timer("free", 10.0, "Sanitiser")
    porter_uid = brew.brew.uid
    clock.go_on(60.0)
    opened.show(replace(porter, name="Second Porter"))
    brew.start(opened, window.autosave)
    brew.note("the small pot")
    settle(qtbot, window, brew)
    with qtbot.waitSignal(brew.running_changed):
        brew.look_for_running()
    assert [each.name for each in brew.running()] == ["Second Porter", "Harbour Lamp Porter"]
    ((other, brewing),) = brew.elsewhere()
    (timer,) = brewing.timers
    assert (other.uid, timer.name, timer.left_s(clock.now())) == (porter_uid, "Sanitiser", 540.0)
    with qtbot.waitSignal(brew.changed):
        brew.go_on(porter_uid)
    assert (brew.recipe.name, brew.brewing.notes) == ("Harbour Lamp Porter", ())
    assert len(brew.brewing.done_keys) == 1
    ((other, brewing),) = brew.elsewhere()
    assert (other.name, brewing.notes[0].text) == ("Second Porter", "the small pot")
    assert brewing.now.key == "boil 1/fill"


def test_after_a_restart_all_is_as_it_was_and_undo_goes_on(qtbot, at_the_stove, opened, folder):
    window, brew = at_the_stove(opened)
    brew.start(opened, window.autosave)
    for _ in range(3):
        brew.done()
    brew.note("lid on")
    settle(qtbot, window, brew)
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible(), timeout=10_000)
    again_window, again = at_the_stove(OpenRecipe(opened.recipe))
    with qtbot.waitSignal(again.running_changed):
        again.look_for_running()
    (left,) = again.running()
    with qtbot.waitSignal(again.changed):
        again.go_on(left.uid)
    assert again.brewing.entries == brew.brewing.entries
    assert again.brewing.done_keys == brew.brewing.done_keys
    again.undo()
    again.undo()
    assert (again.brewing.notes, len(again.brewing.done_keys)) == ((), 2)
    settle(qtbot, again_window, again)
    with Store.open(folder) as store:
        lines = store.brews.lines(store.brews.by_uid(left.uid).id)
    assert entries_of(line.entry for line in lines) == again.brewing.entries


def test_at_the_stove_undo_is_that_of_the_brew_and_on_compose_that_of_the_recipe(
    qtbot, on_a_box, opened
):
    window = on_a_box(opened)
    window.brew_clock = DrivenClock()
    opened.make(ChangeRecipe("notes", "fresh hops", say("change-notes", "change notes")))
    changed = opened.recipe
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    for _ in range(3):  # begins the day, then two steps are done
        qtbot.keyClick(page, Qt.Key.Key_Space)
    brew = page.brew
    assert len(brew.brewing.done_keys) == 2
    settle(qtbot, window, brew)
    assert window.header.state.text().startswith("kept ")  # the log, whatever becomes of the recipe
    undo = window.header.undo
    assert undo.accessibleName() == "Undo “Done: 200 g Crystal malt 60 °L, 150 g Chocolate malt”"
    qtbot.mouseClick(undo, Qt.MouseButton.LeftButton)
    qtbot.keyClick(page, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert brew.brewing.done_keys == set()
    assert not undo.isEnabled()
    assert window.messages.text.text() == "Undone: “Done: Fill 6 L of water”"
    qtbot.mouseClick(window.header.redo, Qt.MouseButton.LeftButton)
    assert len(brew.brewing.done_keys) == 1
    assert opened.recipe == changed
    window.show_page(window.page_names.index("Compose"))
    assert undo.accessibleName() == "Undo change notes"
    assert window.header.state.text() == "kept, version 1"
    qtbot.mouseClick(undo, Qt.MouseButton.LeftButton)
    assert opened.recipe.notes != "fresh hops"
    assert len(brew.brewing.done_keys) == 1
    settle(qtbot, window, brew)


@pytest.fixture
def held_box(monkeypatch, folder):
    """Let another program hold the box until it is let go; nobody waits seconds for it."""
    monkeypatch.setattr("designer.window.session.store_thread.PATIENCE_S", 0.1)
    monkeypatch.setattr("designer.window.session.brew_keeping.AGAIN_MS", 50)
    monkeypatch.setattr("designer.window.session.box_link.AGAIN_MS", 50)
    held = []

    def hold():
        held.append(sqlite3.connect(store_path(folder), isolation_level=None))
        held[-1].execute("begin immediate")
        return held[-1]

    yield hold
    for each in held:
        each.close()


@pytest.mark.parametrize("is_file", [False, True])
def test_a_box_that_another_program_held_at_the_start_has_the_version_once_it_is_let_go(
    qtbot, at_the_stove, held_box, porter, folder, tmp_path, is_file
):
    path = tmp_path / "porter.hobwort"
    save(porter, path)
    opened = OpenRecipe(porter, path if is_file else None)
    window, brew = at_the_stove(opened)
    holds = held_box()
    brew.start(opened, window.autosave)
    brew.done()
    qtbot.waitUntil(lambda: window.autosave.broken != "", timeout=10_000)
    qtbot.waitUntil(lambda: window.keeping.brews.settled, timeout=10_000)  # the journal has it
    holds.execute("rollback")
    qtbot.waitUntil(lambda: not window.autosave.broken, timeout=10_000)

    def is_put():
        ((kept,), (versions,)) = in_box(folder)
        assert [each.id for each in versions] == [kept.version]

    qtbot.waitUntil(is_put, timeout=10_000)
    settle(qtbot, window, brew)
    assert len(in_box(folder)[0]) == 1
