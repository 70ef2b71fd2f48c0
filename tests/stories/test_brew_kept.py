"""The program as its own process: a brew's log outlives store, disk and process."""

import pytest

from designer.library.store import Store
from designer.library.store.brew_journal import journals, take_in

from .real_program import HELD_UP, READ_ONLY, Program

LOG = """
def log(window, number, what="note"):
    from designer.library.recipe_file import document_text
    from designer.library.store.brews import new_brew
    from designer.workbench.brew.entries import Entry, What
    from designer.workbench.brew.instants import Instant
    global brew
    if number == 1:
        brew = new_brew(document_text(window.opened.recipe))
        window.keeping.brews.begin(brew)
    entry = Entry(f"{number:06d}-ab", Instant(time.time()), What(what), {"text": "Foam at 98 °C"})
    window.keeping.brews.append(brew.uid, entry)
"""
JOURNAL_FULL = """
import errno
fsync = os.fsync

def without_room(handle):
    if CLOSED.exists() and "/brews/" in os.readlink(f"/proc/self/fd/{handle}"):
        raise OSError(errno.ENOSPC, "No space left on device")
    fsync(handle)

os.fsync = without_room
"""
JOURNAL_READ_ONLY = """
import errno
mkdir = Path.mkdir

def read_only(folder, *words, **more):
    if folder.name == "brews":
        raise OSError(errno.EROFS, "Read-only file system")
    mkdir(folder, *words, **more)

Path.mkdir = read_only
"""
NOTHING_TAKES_IT = HELD_UP + JOURNAL_FULL + LOG


@pytest.fixture
def program(tmp_path):
    started = []

    def start(hook=LOG):
        started.append(Program(tmp_path, hook=hook))
        if len(started) == 1:
            started[-1].do("window.files.open_example()")
        return started[-1].seen()

    yield start
    for each in started:
        with each:
            pass


def log(program, number, what="note"):
    program.do(f"import __main__; __main__.log(window, {number}, {what!r})")


def in_store(folder):
    with Store.open(folder / "box") as store:
        take_in(store)
        return [
            line.entry["id"] for brew in store.brews.all() for line in store.brews.lines(brew.id)
        ]


def test_a_killed_window_loses_nothing_though_the_box_never_answered(program, tmp_path):
    first = program(HELD_UP + LOG)
    (tmp_path / "gate").touch()
    log(first, 1, "began")
    log(first, 2)
    first.until("window.keeping.brews.state.startswith('kept ')")
    first.kill()
    assert [len(each.entries) for each in journals(tmp_path / "box")] == [2]
    (tmp_path / "gate").unlink()
    assert in_store(tmp_path) == ["000001-ab", "000002-ab"]


def test_a_log_that_nothing_takes_is_said_and_closing_waits_for_it(program, tmp_path):
    one = program(NOTHING_TAKES_IT)
    (tmp_path / "gate").touch()
    log(one, 1, "began")
    one.until("'in this window only' in said()")
    assert "the disk is full" in one.ask("said()")
    one.do("window.close()")
    one.until("'brew log of Harbour Lamp Porter' in asked()")
    assert one.ask("window.isVisible()")
    (tmp_path / "gate").unlink()
    assert one.ended() == ""
    assert in_store(tmp_path) == ["000001-ab"]


def test_a_log_that_nothing_takes_is_saved_to_a_file_and_the_window_closes(program, tmp_path):
    one = program(NOTHING_TAKES_IT)
    (tmp_path / "gate").touch()
    log(one, 1, "began")
    one.until("'in this window only' in said()")
    elsewhere = tmp_path / "log.jsonl"
    one.do(f"window.questions.brew_log_where = lambda *_: Path({str(elsewhere)!r})")
    one.do("window.close()")
    one.until("asked() != ''")
    one.tell("choose('Save to a file…')")
    assert one.ended() == ""
    assert '"000001-ab"' in elsewhere.read_text()


def test_a_box_on_a_read_only_drive_says_so_and_another_folder_takes_the_whole_log(
    program, tmp_path
):
    first = program()
    log(first, 1, "began")
    first.until("window.keeping.brews.settled and not window.autosave.store.busy")
    first.kill()
    one = program(READ_ONLY + JOURNAL_READ_ONLY + LOG)
    one.do("window.files.open_example()")
    log(one, 1, "began")
    log(one, 2)
    one.until("'in this window only' in said()")
    assert "the disk is read-only" in one.ask("said()")
    stick = tmp_path / "stick"
    one.do("import os, __main__; os.access = __main__.access; Path.mkdir = __main__.mkdir")
    one.do(f"window.maintenance.move_to(Path({str(stick)!r}))")
    one.until("window.keeping.brews.settled and not window.autosave.store.busy")
    one.kill()
    with Store.open(stick) as store:
        take_in(store)
        logs = [
            [line.entry["id"] for line in store.brews.lines(each.id)] for each in store.brews.all()
        ]
    assert sorted(map(len, logs)) == [1, 2], "the brew of before, and the one that nothing took"


def test_a_sample_that_was_taken_outlives_a_kill_and_is_explained_again(program, tmp_path):
    first = program()
    first.do("window.show_page(window.page_names.index('Brew day'))")
    first.do("window._start_brew()")
    first.until("window.brew_page.brew.brewing is not None")
    shows = "window.brew_page.show_part(window.brew_page.parts.keys[1])"
    first.do(shows)
    first.do("QTest.keyClicks(focus(), '1.037')")
    press = "QTest.keyClick(focus(), Qt.Key.Key_{})"
    first.do(press.format("Tab"))
    first.do("QTest.keyClicks(focus(), '24')")
    first.do(press.format("Return"))
    first.until("window.keeping.brews.state.startswith('kept ')")
    first.kill()
    with Store.open(tmp_path / "box") as store:
        take_in(store)
        (brew,) = store.brews.all()
        lines = [line.entry for line in store.brews.lines(brew.id)]
    assert lines[-1]["values"]["values"]["sample"]["sample_c"] == 24.0
    second = program()
    second.do("window.show_page(window.page_names.index('Brew day'))")
    second.until("window.brew_page.brew.brewing is not None")
    second.do(shows)
    part = "window.brew_page.parts.current"
    assert second.ask(f"{part}.form.sample_at.text()") == "24 °C"
    second.until(f"{part}.panel.explained is not None and {part}.panel.explained.whole")
    assert "1.038" in second.ask(f"{part}.panel.verdict.scale.accessibleName()")
