"""A Recipe box that cannot be used where it lies: one sentence that stays, and ways on."""

import errno
import os
from pathlib import Path

import pytest

from designer.library.recipe_file import document_text
from designer.library.store import Store, steps, store_folder
from designer.workbench.recipe_summary import summary_of

from .acts import buttons_of, press, rename, wait_for_words


@pytest.fixture(autouse=True)
def _no_variable(monkeypatch, tmp_path):
    monkeypatch.delenv("HOBWORT_STORE", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


@pytest.fixture
def filled(folder, opened):
    """A box with one recipe, Evening Tide, that was open last."""
    with Store.open(folder) as store:
        text = document_text(opened.recipe).replace("Harbour Lamp Porter", "Evening Tide")
        version = store.recipes.add(text, summary_of(opened.recipe, opened.outlook))
        store.preferences.put("last open", {"recipe": version.recipe, "version": version.id})
    return folder


def said(qtbot, window, words):
    wait_for_words(qtbot, window, words)
    return buttons_of(window)


def at_rest(qtbot, window):
    autosave = window.autosave
    qtbot.waitUntil(
        lambda: (
            not autosave.store.busy
            and not window.maintenance.busy
            and not window.maintenance._looking.busy
        ),
        timeout=10_000,
    )


def drafts(folder):
    with Store.open(folder) as store:
        return [draft.document for draft in store.drafts.all()]


def test_a_drive_that_comes_back_is_gone_on_with_and_what_was_typed_since_is_kept(
    qtbot, on_a_box, opened, filled, tmp_path
):
    (tmp_path / "drive").mkdir()
    filled.rename(tmp_path / "drive" / "box")
    window = on_a_box(opened, folder=tmp_path / "away" / "box")
    buttons = said(qtbot, window, "its drive may not be connected")
    assert {"Try again", "Choose another folder…", "Save to a file…"} <= set(buttons)
    assert not window.header.unkept.isHidden()
    rename(window, "Typed while the drive was away")
    at_rest(qtbot, window)
    said(qtbot, window, "its drive may not be connected")
    (tmp_path / "drive").rename(tmp_path / "away")
    press(qtbot, said(qtbot, window, "its drive may")["Try again"])
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    assert window.header.unkept.isHidden()
    assert not window.messages.isVisible()
    assert '"name": "Typed while the drive was away"' in drafts(tmp_path / "away" / "box")[-1]


def test_once_the_drive_is_back_what_was_open_last_is_shown_if_nothing_was_typed(
    qtbot, on_a_box, opened, filled, tmp_path
):
    (tmp_path / "drive").mkdir()
    filled.rename(tmp_path / "drive" / "box")
    window = on_a_box(opened, folder=tmp_path / "away" / "box")
    buttons = said(qtbot, window, "its drive may not be connected")
    at_rest(qtbot, window)
    (tmp_path / "drive").rename(tmp_path / "away")
    press(qtbot, said(qtbot, window, "its drive may")["Try again"])
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Evening Tide", timeout=10_000)
    assert buttons


def test_a_drive_taken_away_while_the_box_is_open_is_told_and_gets_no_empty_box(
    qtbot, on_a_box, opened, filled, tmp_path
):
    window = on_a_box(opened, folder=filled)
    at_rest(qtbot, window)
    filled.rename(tmp_path / "taken away")
    rename(window, "Typed without a drive")
    said(qtbot, window, "is not there: its drive may not be connected")
    at_rest(qtbot, window)
    rename(window, "Typed on without a drive")
    at_rest(qtbot, window)
    assert not filled.exists()
    (tmp_path / "taken away").rename(filled)
    press(qtbot, said(qtbot, window, "is not there")["Try again"])
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    assert '"name": "Typed on without a drive"' in drafts(filled)[-1]


def test_looking_after_a_box_that_was_taken_away_makes_no_empty_one(
    qtbot, on_a_box, opened, filled, tmp_path
):
    window = on_a_box(opened, folder=filled)
    at_rest(qtbot, window)
    filled.rename(tmp_path / "taken away")
    window.maintenance.look_after()
    at_rest(qtbot, window)
    said(qtbot, window, "is not there: its drive may not be connected")
    assert not filled.exists()


def test_a_folder_without_permission_is_named_and_another_can_be_chosen(
    qtbot, on_a_box, opened, filled, tmp_path, answers, monkeypatch
):
    real = Path.stat

    def forbidden(path, **more):
        if path == filled or filled in path.parents:
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return real(path, **more)

    monkeypatch.setattr(Path, "stat", forbidden)
    answers.which_box_folder = lambda parent, folder: tmp_path / "elsewhere"
    window = on_a_box(opened, folder=filled)
    buttons = said(qtbot, window, f"no permission for {filled}")
    assert "Begin an empty box" not in buttons
    rename(window, "Typed without permission")
    at_rest(qtbot, window)
    buttons = said(qtbot, window, f"no permission for {filled}")
    press(qtbot, buttons["Choose another folder…"])
    said(qtbot, window, f"is now kept in {tmp_path / 'elsewhere'}")
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    assert window.header.unkept.isHidden()
    assert '"name": "Typed without permission"' in drafts(tmp_path / "elsewhere")[-1]
    assert store_folder() == tmp_path / "elsewhere"


def test_a_file_in_the_way_is_named_and_stays_named_after_the_message_was_put_away(
    qtbot, on_a_box, opened, tmp_path
):
    (tmp_path / "box").write_text("a file")
    window = on_a_box(opened, folder=tmp_path / "box")
    said(qtbot, window, "is a file, but the Recipe box needs a folder")
    at_rest(qtbot, window)
    press(qtbot, window.messages.close_button)
    assert not window.messages.isVisible()
    assert window.header.unkept.isVisible()
    assert "is a file" in window.header.unkept.toolTip()
    press(qtbot, window.header.unkept)
    said(qtbot, window, "is a file, but the Recipe box needs a folder")


def test_a_box_that_can_only_be_read_says_so_at_once_shows_its_recipe_and_moves_elsewhere(
    qtbot, on_a_box, opened, filled, tmp_path, answers, monkeypatch
):
    real = os.access
    monkeypatch.setattr(
        os, "access", lambda path, mode, **more: mode != os.W_OK and real(path, mode, **more)
    )
    (tmp_path / "stick").mkdir()
    answers.which_box_folder = lambda parent, folder: tmp_path / "stick"
    window = on_a_box(opened, folder=filled)
    buttons = said(qtbot, window, "opened for reading only")
    assert window.opened.recipe.name == "Evening Tide"
    assert window.header.unkept.isVisible()
    assert "nothing is kept there" in window.messages.text.text()
    at_rest(qtbot, window)
    monkeypatch.setattr(os, "access", real)
    press(qtbot, buttons["Choose another folder…"])
    said(qtbot, window, "with 1 recipe with 1 version, copied from where it was before")
    qtbot.waitUntil(window.header.unkept.isHidden, timeout=10_000)
    rename(window, "Evening Tide, drier")
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    window.files.save()
    at_rest(qtbot, window)
    with Store.open(tmp_path / "stick") as store:
        assert [row.versions for row in store.finder.find("").rows] == [2]


def test_a_key_does_not_say_again_that_the_box_can_only_be_read(
    qtbot, on_a_box, opened, filled, monkeypatch
):
    real = os.access
    monkeypatch.setattr(
        os, "access", lambda path, mode, **more: mode != os.W_OK and real(path, mode, **more)
    )
    window = on_a_box(opened, folder=filled)
    said(qtbot, window, "opened for reading only")
    at_rest(qtbot, window)
    press(qtbot, window.messages.close_button)
    rename(window, "Typed all the same")
    window.autosave.write_draft()
    at_rest(qtbot, window)
    assert not window.messages.isVisible()
    assert "not kept" in window.header.state.text()
    monkeypatch.setattr(os, "access", real)
    window.autosave._try_again()
    at_rest(qtbot, window)
    window.autosave._try_again()
    qtbot.waitUntil(lambda: window.autosave.state == "draft kept", timeout=10_000)
    assert window.header.unkept.isHidden()


def test_a_newer_box_says_so_and_shows_the_recipe_that_was_open_last(
    qtbot, on_a_box, opened, filled, monkeypatch
):
    def yeast_shelf(db):
        """A step of a later release."""
        db.execute("create table shelf (id integer primary key)")

    known = steps.STEPS
    monkeypatch.setattr(steps, "STEPS", (*known, yeast_shelf))
    steps.migrations.cache_clear()
    Store.open(filled).close()
    monkeypatch.setattr(steps, "STEPS", known)
    steps.migrations.cache_clear()
    window = on_a_box(opened, folder=filled)
    said(qtbot, window, "newer Hobwort")
    assert window.opened.recipe.name == "Evening Tide"
    at_rest(qtbot, window)
    assert "You can look at everything" in window.messages.text.text()
    assert window.header.unkept.isVisible()


def test_the_menu_says_where_the_box_lies_and_leads_back_to_the_usual_folder(
    qtbot, on_a_box, opened, filled, tmp_path, answers
):
    answers.which_box_folder = lambda parent, folder: tmp_path / "Bücher & more"
    window = on_a_box(opened, folder=filled)
    at_rest(qtbot, window)
    place = window.menus.file.place
    place.aboutToShow.emit()
    assert place.actions()[0].text() == str(filled).replace("&", "&&")
    next(each for each in place.actions() if "another" in each.text()).trigger()
    said(qtbot, window, "copied from where it was before")
    at_rest(qtbot, window)
    place.aboutToShow.emit()
    assert "Bücher && more" in place.actions()[0].text()
    next(each for each in place.actions() if "usual" in each.text()).trigger()
    said(qtbot, window, f"is now kept in {tmp_path / 'data' / 'hobwort'}")
    at_rest(qtbot, window)
    assert store_folder() == tmp_path / "data" / "hobwort"
    assert window.autosave.folder == store_folder()


def test_a_folder_with_other_things_gets_a_folder_of_its_own_for_the_box(
    qtbot, on_a_box, opened, filled, tmp_path, answers
):
    (tmp_path / "papers").mkdir()
    (tmp_path / "papers" / "letter.txt").write_text("dear friend")
    answers.which_box_folder = lambda parent, folder: tmp_path / "papers"
    window = on_a_box(opened, folder=filled)
    at_rest(qtbot, window)
    window.keeping.trouble.choose_folder()
    said(qtbot, window, f"is now kept in {tmp_path / 'papers' / 'Recipe box'}")
    at_rest(qtbot, window)
    assert sorted(each.name for each in (tmp_path / "papers").iterdir()) == [
        "Recipe box",
        "letter.txt",
    ]


def test_a_folder_that_cannot_hold_the_box_is_refused_and_it_stays_where_it_was(
    qtbot, on_a_box, opened, filled, tmp_path, answers
):
    (tmp_path / "file").write_text("x")
    answers.which_box_folder = lambda parent, folder: tmp_path / "file"
    window = on_a_box(opened, folder=filled)
    at_rest(qtbot, window)
    window.keeping.trouble.choose_folder()
    said(qtbot, window, "is a file, but the Recipe box needs a folder")
    assert window.autosave.folder == filled
    assert not window.autosave.broken
