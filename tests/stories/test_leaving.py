"""The program as its own process: whatever the disk of the Recipe box does, nothing is lost."""

import sqlite3
import time
from contextlib import closing, contextmanager

import pytest

from designer.library.recipe_file import load, read_document
from designer.library.store import Store

from .real_program import FULL, HELD_UP, READ_ONLY, Program

LONG_NOTES = "window.opened.make(ChangeRecipe('notes', 15_000 * 'x', 'write notes'))"


def in_the_box(folder):
    """The names of all versions in the box but its examples, and of drafts, the last one last."""
    with Store.open(folder / "box") as store:
        rows = store.finder.find("", hurry_s=None).rows
        versions = [
            read_document(store.recipes.version(each.id).document, "box").name
            for row in rows
            if not row.example
            for each in store.recipes.versions(row.id)
        ]
        drafts = [read_document(each.document, "draft").name for each in store.drafts.all()]
    return sorted(versions), drafts


@pytest.fixture
def program(tmp_path):
    """Start the program, the first time with the example open; what still runs at the end ends."""
    started = []

    def start(*words, hook="", another=False, anew=False):
        is_first = another or not (words or (tmp_path / "box").exists())
        started.append(Program(tmp_path, *words, hook=hook, anew=anew))
        if is_first:
            started[-1].do("window.files.open_example()")
        return started[-1]

    yield start
    for each in started:
        with each:
            pass


@contextmanager
def locked(folder):
    """Hold the store as another program would."""
    with closing(sqlite3.connect(folder / "box" / "recipe-box.db", isolation_level=None)) as conn:
        conn.execute("begin exclusive")
        yield


# what the last session left


def test_keys_typed_before_the_box_has_answered_never_replace_what_was_left(program, tmp_path):
    first = program().seen()
    first.do("type_name('Left by a crash')")
    first.until("state() == 'unsaved, draft kept'")
    first.kill()
    (tmp_path / "gate").touch()
    second = program(hook=HELD_UP)
    second.until("window.autosave is not None")
    second.do("window.files.open_example(); type_name('Typed at once')")
    (tmp_path / "gate").unlink()
    second.until("'Left by a crash' in said()")
    assert second.ask("said()") == (
        "“Left by a crash” was left unsaved before; it is in the Recipe box as version 1."
    )
    assert second.ask("name()") == "Typed at once"
    second.until("state() == 'unsaved, draft kept'")
    assert in_the_box(tmp_path) == (["Left by a crash"], ["Typed at once"])
    second.do("choose('Open it')")
    second.until("name() == 'Left by a crash'")
    assert second.close() == ""
    assert in_the_box(tmp_path) == (["Left by a crash", "Typed at once"], [])


def test_a_cell_that_is_being_typed_in_is_not_taken_away_by_what_was_left(
    program, tmp_path, porter
):
    from designer.library.recipe_file import save

    path = tmp_path / "evening.hobwort"
    save(porter, path)
    first = program(path).seen()
    first.do("type_name('Left by a crash')")
    first.until("state() == 'unsaved, draft kept'")
    first.kill()
    (tmp_path / "gate").touch()
    second = program(path, hook=HELD_UP)
    second.until("window.autosave is not None")
    second.do("view = window.compose.fermentables.view; view.setFocus()")
    second.do("view.setCurrentIndex(view.model().index(0, 0)); QTest.keyClicks(view, 'x')")
    second.until("type(focus()).__name__ == 'QLineEdit'")
    (tmp_path / "gate").unlink()
    second.until("'Left by a crash' in said()")
    assert second.ask("focus().text()") == "x"
    assert second.ask("name()") == "Harbour Lamp Porter"
    second.do("press('Esc')")
    assert second.close() == ""
    assert "Left by a crash" in in_the_box(tmp_path)[0]


def test_of_two_windows_that_crashed_both_are_kept(program, tmp_path):
    windows = [program(another=True).seen() for _ in range(2)]
    for number, each in enumerate(windows):
        each.do(f"type_name('Of window {number}')")
        each.until("state() == 'unsaved, draft kept'")
    for each in windows:
        each.kill()
    with Store.open(tmp_path / "box") as store:  # a clock that was set back tells nothing
        store.connection.write(
            lambda db: db.conn.execute("update drafts set saved = '1999' where id > 1")
        )
    later = program().seen()
    assert later.ask("name()") == "Of window 1"
    assert later.ask("said()") == (
        "Going on with “Of window 1” where it was left. "
        "Left unsaved before, now in the Recipe box: “Of window 0” (version 1)."
    )
    assert in_the_box(tmp_path) == (["Of window 0"], ["Of window 1"])
    assert later.close() == ""


def test_a_file_named_at_the_start_goes_on_with_its_own_draft(program, tmp_path, porter):
    from designer.library.recipe_file import save

    mine, other = tmp_path / "mine.hobwort", tmp_path / "other.hobwort"
    save(porter, mine)
    save(porter, other)
    first = program(mine).seen()
    first.do("type_name('In the draft only')")
    first.until("state() == 'unsaved, draft kept'")
    first.kill()
    second = program(other).seen()
    assert second.ask("name()") == porter.name
    second.close()
    third = program(mine).seen()
    assert third.ask("(name(), str(window.opened.path))") == ("In the draft only", str(mine))
    assert third.close() == ""


def test_a_file_saved_before_what_was_undone_is_no_change_by_another_at_the_next_start(
    program, tmp_path, porter
):
    from designer.library.recipe_file import save

    path = tmp_path / "mine.hobwort"
    save(porter, path)
    first = program(path).seen()
    first.do("type_name('Saved')")
    first.do("press('Ctrl+S')")
    first.until("state() == 'saved'")
    first.do("window.opened.undo_stack.undo()")
    first.do("type_name('Another way')")
    first.until("state() == 'unsaved, draft kept'")
    first.kill()
    second = program().seen()
    second.until("name() == 'Another way'")
    second.until("window.keeping.saving.on_disk._known is not None")
    assert "changed" not in second.ask("said()")
    second.do("press('Ctrl+S')")
    second.until("state() == 'saved'")
    assert load(path).name == "Another way"
    assert second.close() == ""


def test_a_file_changed_while_the_program_was_closed_is_noticed_though_it_was_so_before(
    program, tmp_path, porter
):
    from designer.library.recipe_file import save

    path = tmp_path / "mine.hobwort"
    save(porter, path)
    first = program(path).seen()
    first.do("type_name('Saved')")
    first.do("press('Ctrl+S')")
    first.until("state() == 'saved'")
    first.do("type_name('Mine')")
    first.until("state() == 'unsaved, draft kept'")
    first.kill()
    save(porter, path)  # another program brings back what it held before
    second = program().seen()
    second.until("name() == 'Mine'")
    second.until("'was changed outside this window' in said()")
    assert load(path) == porter
    assert second.close() == ""


def test_the_file_last_open_is_what_the_next_start_shows(program, tmp_path, porter):
    from designer.library.recipe_file import save

    path = tmp_path / "evening.hobwort"
    save(porter, path)
    first = program(path).seen()
    assert first.close() == ""
    second = program(anew=True).seen()
    assert second.ask("str(window.opened.path)") == str(path)
    assert second.ask("state()") == "saved"
    second.close()
    path.unlink()
    third = program().seen()
    assert "evening.hobwort is not there" in third.ask("said()")
    third.close()


def test_a_box_that_comes_back_shows_what_was_left_and_what_was_said_of_it_goes(program, tmp_path):
    first = program().seen()
    first.do("type_name('On another drive')")
    first.until("state() == 'unsaved, draft kept'")
    assert first.close() == ""
    away = (tmp_path / "box").rename(tmp_path / "away")
    (tmp_path / "box").write_text("the drive is not connected", encoding="utf-8")
    second = program().seen()
    second.until("said()")
    (tmp_path / "box").unlink()
    away.rename(tmp_path / "box")
    second.until("name() == 'On another drive'")
    assert second.ask("said()") == "Going on with “On another drive” where it was left."
    assert second.close() == ""


# leaving while the box does not answer


def test_keys_pressed_while_leaving_go_to_what_comes_next(program, tmp_path):
    one = program(hook=HELD_UP).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('Left in a hurry')")
    one.do("press('Ctrl+N'); press('Ctrl+N'); QTest.keyClicks(focus(), 'Oats'); press('Return')")
    assert one.ask("(name(), asked())") == ("Left in a hurry", "")
    (tmp_path / "gate").unlink()
    one.until("name() == 'Untitled brew'")
    assert one.ask("[each.name for each in window.opened.recipe.fermentables]") == ["Oats"]
    assert in_the_box(tmp_path)[0] == ["Left in a hurry"]
    assert one.close() == ""


def test_after_a_second_the_brewer_may_stay_leave_or_save_to_a_file(program, tmp_path):
    one = program(hook=HELD_UP).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('Not kept so far')")
    one.do("press('Ctrl+N')")
    one.until("asked()")
    assert "has not answered yet" in one.ask("asked()")
    assert "“Not kept so far”" in one.ask("asked()")
    one.do("press('Esc')")
    assert one.ask("(name(), asked())") == ("Not kept so far", "")
    path = tmp_path / "elsewhere.hobwort"
    one.do(f"window.questions.save_where = lambda parent, suggested: Path({str(path)!r})")
    one.do("press('Ctrl+N')")
    one.until("asked()")
    one.do("choose('Save to a file…')")
    one.until("name() == 'Untitled brew'")
    assert load(path).name == "Not kept so far"
    one.do("type_name('Given up')")
    one.do("press('Ctrl+N')")
    one.until("asked()")
    one.do("choose('Leave it')")
    assert one.ask("name()") == "Untitled brew"
    one.do("type_name('Kept in the end')")
    (tmp_path / "gate").unlink()
    one.until("state() == 'unsaved, draft kept'")
    assert one.close() == ""


def test_the_question_goes_by_itself_once_the_box_has_answered(program, tmp_path):
    one = program(hook=HELD_UP).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('Slowly kept')")
    one.do("press('Ctrl+N')")
    one.until("asked()")
    (tmp_path / "gate").unlink()
    one.until("name() == 'Untitled brew' and not asked()")
    assert in_the_box(tmp_path)[0] == ["Slowly kept"]
    assert one.close() == ""


def test_a_locked_box_freezes_nothing_and_closing_waits_for_it(program, tmp_path):
    one = program().seen()
    with locked(tmp_path):
        one.do("type_name('Behind the lock')")
        one.do("window.close()")
        one.until("asked()")
        for _ in range(20):
            begun = time.monotonic()
            assert one.ask("window.isVisible()")
            assert time.monotonic() - begun < 2.0
            time.sleep(0.05)
    assert one.ended() == ""
    assert in_the_box(tmp_path) == ([], ["Behind the lock"])


def test_a_box_that_stays_locked_is_left_in_seconds(program, tmp_path):
    one = program().seen()
    with locked(tmp_path):
        one.do("type_name('Left behind the lock')")
        one.do("window.close()")
        one.until("asked()")
        one.tell("choose('Leave it')")
        assert one.ended(within_s=15) == ""
    assert in_the_box(tmp_path) == ([], [])


def test_a_disk_that_never_answers_is_left_in_seconds(program, tmp_path):
    one = program(hook=HELD_UP).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('Never kept')")
    one.do("window.close()")
    one.until("asked()")
    one.tell("choose('Leave it')")
    assert one.ended(within_s=15) == ""


def test_a_full_disk_is_told_and_leaving_goes_on_once_there_is_room(program, tmp_path):
    one = program(hook=FULL).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('Full to the brim')")
    one.do(LONG_NOTES)
    one.do("press('Ctrl+N')")
    one.until("'is full' in asked()")
    assert one.ask("name()") == "Full to the brim"
    (tmp_path / "gate").unlink()
    one.until("name() == 'Untitled brew'")
    assert in_the_box(tmp_path)[0] == ["Full to the brim"]
    assert one.close() == ""


def test_after_a_failure_save_tries_the_box_again_and_what_was_said_goes(program, tmp_path):
    one = program(hook=FULL).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('No room yet')")
    one.do(LONG_NOTES)
    one.until("'is full' in said()")
    assert one.ask("state()") == "unsaved, not kept"
    (tmp_path / "gate").unlink()
    one.do("press('Ctrl+S')")
    one.until("state() == 'kept, version 1'")
    assert "full" not in one.ask("said()")
    assert in_the_box(tmp_path) == (["No room yet"], [])
    assert one.close() == ""


def test_a_box_that_is_well_again_takes_the_draft_without_another_key(program, tmp_path):
    one = program(hook=FULL).seen()
    (tmp_path / "gate").touch()
    one.do("type_name('No room yet')")
    one.do(LONG_NOTES)
    one.until("'is full' in said()")
    (tmp_path / "gate").unlink()
    one.until("state() == 'unsaved, draft kept' and 'full' not in said()")
    assert in_the_box(tmp_path) == ([], ["No room yet"])
    assert one.close() == ""


# closing in every state: nothing on stderr, and what was promised is on the disk

DRAFT = (
    "do type_name('Pending')",
    "do type_name('Pending'); QTest.qWait(100)",
    "do type_name('Pending'); QTest.qWait(700)",
)


@pytest.mark.parametrize("steps", DRAFT)
def test_closing_with_a_draft_pending_or_kept(program, tmp_path, steps):
    one = program().seen()
    one.ask(steps)
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], ["Pending"])


def test_closing_before_the_box_was_opened(program, tmp_path, porter):
    from designer.library.recipe_file import save

    path = tmp_path / "evening.hobwort"
    save(porter, path)
    one = program(path)
    one.do("type_name('Quicker than the box')")
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], ["Quicker than the box"])


def test_closing_with_nothing_touched(program, tmp_path):
    one = program()
    assert one.close() == ""
    one = program().seen()
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], [])


def test_closing_with_a_file_whose_changes_are_not_saved(program, tmp_path, porter):
    from designer.library.recipe_file import save

    path = tmp_path / "porter.hobwort"
    save(porter, path)
    one = program(path).seen()
    one.do("type_name('Not in the file')")
    assert one.close() == ""
    assert load(path) == porter
    again = program().seen()
    assert again.ask("(name(), str(window.opened.path))") == ("Not in the file", str(path))
    again.do("press('Ctrl+S')")
    assert again.close() == ""
    assert load(path).name == "Not in the file"
    assert in_the_box(tmp_path) == (["Not in the file"], [])


def test_closing_over_a_box_that_can_only_be_read(program, tmp_path):
    one = program().seen()
    one.do("type_name('Written before')")
    one.do("press('Ctrl+S')")
    one.until("state() == 'kept, version 1'")
    one.close()
    one = program(hook=READ_ONLY).seen()
    assert one.ask("name()") == "Written before"
    one.do("type_name('Cannot be kept')")
    one.do("window.close()")
    one.until("asked()")
    assert "reading only" in one.ask("asked()")
    one.tell("choose('Leave it')")
    assert one.ended() == ""


@pytest.mark.parametrize("question", ["window.files.open_file()", "window.files.save_as()"])
def test_closing_while_a_question_is_open(program, tmp_path, question):
    one = program().seen()
    one.do("from PySide6.QtCore import QTimer")
    one.do("type_name('Over a question')")
    one.do(f"QTimer.singleShot(0, lambda: {question})")
    one.until("QApplication.activeModalWidget() is not None")
    one.do("QTimer.singleShot(0, QApplication.quit)")
    assert one.ended() == ""
    assert in_the_box(tmp_path) == ([], ["Over a question"])


def test_closing_with_messages_pages_and_work_under_way(program, tmp_path):
    one = program().seen()
    one.do("window.messages.say('Something grave', grave=True, actions=[('Do', print)])")
    for number in range(6):
        one.do(f"window.show_page({number})")
    one.do("window.maintenance.make_backup(); type_name('Under way')")
    assert one.close() == ""
    assert in_the_box(tmp_path) == ([], ["Under way"])


def test_quitting_by_the_menu_keeps_what_was_typed(program, tmp_path):
    one = program().seen()
    one.do("type_name('Quit by keys')")
    one.tell("press('Ctrl+Q')")
    assert one.ended() == ""
    assert in_the_box(tmp_path) == ([], ["Quit by keys"])


# a file saved because the box could keep nothing

BRIM = """
import sqlite3
from designer.library.store.connection import Connection
transaction = Connection._transaction

def with_room(connection, work):
    if CLOSED.exists():
        raise sqlite3.OperationalError("database or disk is full")
    return transaction(connection, work)

Connection._transaction = with_room
"""
"""A disk so full that not even a draft can be dropped while the gate is closed."""


def save_while_closing(one, path):
    """Close over a full disk, and choose a file in the question that comes up."""
    one.do(f"window.questions.save_where = lambda parent, suggested: Path({str(path)!r})")
    one.do("window.close()")
    one.until("'is full' in asked()")
    one.tell("choose('Save to a file…')")
    assert one.ended() == ""


@pytest.mark.parametrize("is_still_full", [False, True])
def test_a_file_saved_while_closing_over_a_full_disk_is_gone_on_with_not_the_older_draft(
    program, tmp_path, is_still_full
):
    path = tmp_path / "elsewhere.hobwort"
    one = program(hook=BRIM).seen()
    one.do("type_name('Older draft')")
    one.until("state() == 'unsaved, draft kept'")
    (tmp_path / "gate").touch()
    one.do("type_name('Newest of all')")
    save_while_closing(one, path)
    assert load(path).name == "Newest of all"
    assert in_the_box(tmp_path) == ([], ["Older draft"])
    if not is_still_full:
        (tmp_path / "gate").unlink()
    two = program(hook=BRIM).seen()
    two.until("name() == 'Newest of all'")
    assert two.ask("str(window.opened.path)") == str(path)
    assert not two.ask("window.opened.unsaved")
    two.until("'Newest of all' in said() and 'older draft' in said()")
    two.do("window.opened.undo_stack.undo()")
    assert two.ask("name()") == "Older draft"
    two.do("window.opened.undo_stack.redo()")
    assert two.ask("(name(), window.opened.unsaved)") == ("Newest of all", False)
    assert two.close() == ""
    (tmp_path / "gate").unlink(missing_ok=True)
    three = program().seen()
    three.until("name() == 'Newest of all'")
    assert three.ask("str(window.opened.path)") == str(path)
    three.close()
    versions, drafts = in_the_box(tmp_path)
    assert versions + drafts == (["Older draft"] if is_still_full else [])


def test_a_file_saved_while_closing_is_gone_on_with_not_the_version_open_before(program, tmp_path):
    path = tmp_path / "elsewhere.hobwort"
    one = program(hook=BRIM).seen()
    one.do("type_name('A version')")
    one.do("press('Ctrl+S')")
    one.until("state() == 'kept, version 1'")
    (tmp_path / "gate").touch()
    one.do("type_name('Newest of all')")
    save_while_closing(one, path)
    (tmp_path / "gate").unlink()
    two = program().seen()
    two.until("name() == 'Newest of all'")
    assert two.ask("str(window.opened.path)") == str(path)
    assert two.close() == ""
    assert in_the_box(tmp_path) == (["A version"], [])


FORGETFUL = """
from designer.window.parts.settings import Settings
Settings.forget_written = lambda settings: None
"""
"""Ends before it can note that the draft is newer than the file."""


def test_a_draft_kept_the_moment_before_the_end_is_newer_than_the_file(program, tmp_path):
    path = tmp_path / "elsewhere.hobwort"
    one = program(hook=FORGETFUL).seen()
    one.do("type_name('Older draft')")
    one.until("state() == 'unsaved, draft kept'")
    one.do(f"window.questions.save_where = lambda parent, suggested: Path({str(path)!r})")
    one.do("type_name('In the file'); window.files.save_as()")
    one.until("not window.opened.unsaved")
    one.do("type_name('Typed after it')")
    one.until("state() == 'unsaved, draft kept'")
    one.kill()
    two = program().seen()
    two.until("name() == 'Typed after it'")
    assert two.ask("str(window.opened.path)") == str(path)
    assert two.close() == ""


def test_what_is_typed_after_a_file_was_saved_is_what_the_next_start_shows(program, tmp_path):
    path = tmp_path / "elsewhere.hobwort"
    one = program(hook=BRIM).seen()
    one.do("type_name('Older draft')")
    one.until("state() == 'unsaved, draft kept'")
    (tmp_path / "gate").touch()
    one.do(f"window.questions.save_where = lambda parent, suggested: Path({str(path)!r})")
    one.do("type_name('In the file'); window.files.save_as()")
    one.until("not window.opened.unsaved")
    (tmp_path / "gate").unlink()
    one.do("type_name('Typed after it')")
    one.until("state() == 'unsaved, draft kept'")
    one.kill()
    two = program().seen()
    two.until("name() == 'Typed after it'")
    assert two.ask("str(window.opened.path)") == str(path)
    assert two.close() == ""
