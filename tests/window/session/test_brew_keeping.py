"""What is logged at the stove is on the disk at once, whatever the store and the disk do."""

import errno
import os
import threading

import pytest

from designer.library.recipe_file import document_text, load
from designer.library.store import Store, Summary
from designer.library.store.brew_journal import JOURNAL_FOLDER, journals
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.window.session import brew_keeping
from designer.window.session.box_link import BoxLink
from designer.window.session.brew_keeping import BrewKeeping
from designer.window.session.store_thread import StoreThread
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.instants import Instant
from tests.benchmarks.brew_soak import soak


def entry(number, what=What.NOTE, **values):
    return Entry(f"{number:06d}-ab", Instant(1_772_366_400.0 + number), what, values)


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "kitchen"


@pytest.fixture
def porter():
    return document_text(load(resource_path("examples/harbour_lamp_porter.hobwort")))


@pytest.fixture
def brew(porter):
    return new_brew(porter, started="2026-03-01T12:00:00+00:00")


@pytest.fixture
def window(folder, qtbot):
    """Open the kitchen's box in a window of its own, as often as wanted."""
    opened = []

    def open_one():
        link = BoxLink(StoreThread(folder), folder)
        keeping = BrewKeeping(link)
        opened.append((link, keeping))
        return keeping

    yield open_one
    for link, keeping in opened:
        keeping.close(5.0)
        assert link.store.stop(10.0)
        link.deleteLater()
        keeping.deleteLater()


@pytest.fixture
def keeping(window):
    return window()


@pytest.fixture
def stuck_store(keeping):
    """Let the store of the window do nothing until it is let go."""
    gate = threading.Event()
    keeping._link.store.ask_without(gate.wait)
    yield gate
    gate.set()


def on_disk(folder):
    return sorted(each["id"] for kept in journals(folder) for each in kept.entries)


def in_store(folder):
    with Store.open(folder) as store:
        return [
            line.entry["id"] for each in store.brews.all() for line in store.brews.lines(each.id)
        ]


def answer(qtbot, ask, *words):
    """Return what is answered to a question."""
    found = []
    ask(*words, found.append, found.append)
    qtbot.waitUntil(lambda: bool(found), timeout=10_000)
    return found[0]


def test_an_entry_is_in_the_box_and_its_journal_gone_soon_after(keeping, brew, folder, qtbot):
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.changed, timeout=10_000):
        keeping.append(brew.uid, entry(1, What.BEGAN), entry(2))
    qtbot.waitUntil(lambda: keeping.state.startswith("kept "))
    assert in_store(folder) == ["000001-ab", "000002-ab"]
    qtbot.waitUntil(lambda: on_disk(folder) == [])


def test_a_store_that_never_answers_loses_nothing_and_holds_nothing_up(
    keeping, brew, folder, stuck_store, window, qtbot
):
    keeping.begin(brew)
    with qtbot.waitSignals([keeping.confirmed] * 3, timeout=10_000):
        for number in (1, 2, 3):
            keeping.append(brew.uid, entry(number, What.BEGAN if number == 1 else What.NOTE))
    assert keeping.settled
    assert keeping.state.startswith("kept ")
    assert on_disk(folder) == ["000001-ab", "000002-ab", "000003-ab"]
    [log] = answer(qtbot, window().running)
    assert (log.brew.uid, [each.id for each in log.entries]) == (brew.uid, on_disk(folder))
    assert in_store(folder) == on_disk(folder)


def test_what_killed_windows_left_is_under_way_at_the_next_start(window, brew, qtbot, folder):
    gone = window()
    gone.begin(brew)
    gone.append(brew.uid, entry(1, What.BEGAN))
    qtbot.waitUntil(lambda: gone.settled)
    gone.close(5.0)
    again = window()
    log = answer(qtbot, again.log_of, brew.uid)
    assert [each.what for each in log.entries] == [What.BEGAN]
    again.append(brew.uid, entry(2, What.FINISHED))
    qtbot.waitUntil(lambda: len(in_store(folder)) == 2)
    assert answer(qtbot, again.running) == []
    assert list((folder / JOURNAL_FOLDER).iterdir()) == []


def test_a_box_that_cannot_be_opened_still_tells_of_the_brew_its_journals_hold(
    keeping, window, brew, folder, stuck_store, qtbot
):
    keeping.begin(brew)
    keeping.append(brew.uid, entry(1, What.BEGAN))
    qtbot.waitUntil(lambda: keeping.settled)
    (folder / "recipe-box.db").write_bytes(b"")
    again = window()
    [log] = answer(qtbot, again.running)
    assert log.brew == brew
    answer(qtbot, again.log_of, brew.uid)
    again.append(brew.uid, entry(2))
    qtbot.waitUntil(lambda: again.settled)
    assert on_disk(folder) == ["000001-ab", "000002-ab"]
    (folder / "recipe-box.db").unlink()
    with qtbot.waitSignal(again.changed, timeout=10_000):
        again._link.try_again()
    assert in_store(folder) == ["000001-ab", "000002-ab"]


@pytest.fixture
def quick(monkeypatch):
    """Let nobody wait seconds for the next try."""
    monkeypatch.setattr(brew_keeping, "AGAIN_MS", 50)
    monkeypatch.setattr(brew_keeping, "PATIENCE_MS", 200)


@pytest.fixture
def full_disk(monkeypatch):
    """Let the journal's disk be full until it is let go."""
    really, is_full = os.fsync, [True]

    def fsync(handle):
        if is_full[0]:
            raise OSError(errno.ENOSPC, "No space left on device")
        really(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    yield is_full
    is_full[0] = False


def test_where_neither_disk_nor_store_takes_it_it_is_said_tried_again_and_saved_elsewhere(
    quick, window, brew, folder, full_disk, qtbot, tmp_path
):
    keeping = window()
    gate = threading.Event()
    keeping._link.store.ask_without(gate.wait)
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.trouble, timeout=10_000) as told:
        keeping.append(brew.uid, entry(1, What.BEGAN))
    assert "Harbour Lamp Porter" in told.args[0]
    assert "the disk is full" in told.args[0]
    assert (keeping.state, keeping.settled) == ("not kept", False)
    assert keeping.unkept() == [brew]
    full_disk[0] = False
    saved = []
    keeping.save_elsewhere(brew.uid, tmp_path / "log.jsonl", lambda: saved.append(1), saved.append)
    qtbot.waitUntil(lambda: saved == [1])
    assert '"000001-ab"' in (tmp_path / "log.jsonl").read_text()
    qtbot.waitUntil(lambda: keeping.settled, timeout=10_000)
    assert on_disk(folder) == ["000001-ab"]
    gate.set()
    qtbot.waitUntil(lambda: in_store(folder) == ["000001-ab"], timeout=10_000)


def test_a_disk_that_never_answers_is_told_of_and_the_store_keeps_it(
    quick, keeping, brew, folder, qtbot
):
    gate = threading.Event()
    keeping._disk.ask(gate.wait, lambda _: None, lambda _: None)
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.confirmed, timeout=10_000):
        keeping.append(brew.uid, entry(1, What.BEGAN))
    assert in_store(folder) == ["000001-ab"]
    assert keeping.settled
    gate.set()


def test_two_windows_write_into_one_log_and_both_see_all_of_it(window, brew, folder, qtbot):
    first, second = window(), window()
    first.begin(brew)
    first.append(brew.uid, entry(1, What.BEGAN))
    qtbot.waitUntil(lambda: first.settled)
    answer(qtbot, second.log_of, brew.uid)
    for number in range(2, 40, 2):
        first.append(brew.uid, entry(number))
        second.append(brew.uid, entry(number + 1))
    qtbot.waitUntil(lambda: len(in_store(folder)) == 39, timeout=20_000)
    log = answer(qtbot, first.log_of, brew.uid)
    assert [each.id for each in log.entries] == [f"{number:06d}-ab" for number in range(1, 40)]
    qtbot.waitUntil(lambda: on_disk(folder) == [])


def test_a_deleted_brew_is_gone_and_can_be_put_back_whole(keeping, brew, folder, qtbot):
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.changed, timeout=10_000):
        keeping.append(brew.uid, entry(1, What.BEGAN), entry(2, What.TASTED, mark=4, text="Dry"))
    log = answer(qtbot, keeping.delete, brew.uid)
    assert in_store(folder) == []
    assert answer(qtbot, keeping.running) == []
    keeping.put_back(log)
    qtbot.waitUntil(lambda: len(in_store(folder)) == 2)
    [found] = answer(qtbot, keeping.running)
    assert (found.brew.uid, found.brew.mark, found.entries) == (brew.uid, 4, log.entries)


def test_a_brew_begun_before_its_version_was_kept_is_put_to_its_recipe(
    keeping, brew, folder, porter, qtbot
):
    keeping.begin(brew)
    keeping.append(brew.uid, entry(1, What.BEGAN))
    with Store.open(folder) as store:
        kept = store.recipes.add(porter, Summary())
    keeping.belongs_to(brew.uid, kept.recipe, kept.id)
    qtbot.waitUntil(lambda: answer(qtbot, keeping.running)[0].brew.version == kept.id)


def test_in_another_box_the_whole_log_is_kept_anew(keeping, brew, folder, qtbot, tmp_path):
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.changed, timeout=10_000):
        keeping.append(brew.uid, entry(1, What.BEGAN), entry(2))
    other = tmp_path / "stick"
    keeping._link.store.go_to(other)
    keeping._link._folder = other
    with qtbot.waitSignal(keeping.changed, timeout=10_000):
        keeping._link.box_replaced.emit()
    assert in_store(other) == ["000001-ab", "000002-ab"]


def test_a_brew_that_is_over_stays_out_of_a_box_that_was_brought_back_without_it(
    keeping, brew, folder, qtbot, tmp_path
):
    keeping.begin(brew)
    with qtbot.waitSignal(keeping.changed, timeout=10_000):
        keeping.append(brew.uid, entry(1, What.BEGAN), entry(2, What.FINISHED))
    other = tmp_path / "stick"
    keeping._link.store.go_to(other)
    keeping._link._folder = other
    keeping._link.box_replaced.emit()
    answer(qtbot, keeping.running)
    assert in_store(other) == []
    assert keeping.settled
    keeping.append(brew.uid, entry(3, What.TASTED, mark=4))
    qtbot.waitUntil(lambda: len(in_store(other)) == 3, timeout=10_000)


def test_a_process_killed_while_it_logs_loses_nothing_that_was_confirmed(folder):
    tally = soak(folder, kills=5)
    assert (tally.kills, tally.lost) == (5, [])
    assert len(tally.confirmed) > 20
