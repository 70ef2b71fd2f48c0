"""Two windows, or two processes, on one store: each sees what the other saved."""

import sqlite3
import threading
from contextlib import closing

import pytest

from designer.library.store import Conflict, Store, Version
from designer.library.store.faults import StoreBusyError


@pytest.fixture
def other(box, folder):
    with Store.open(folder, patience_s=2.0) as store:
        yield store


def test_a_window_sees_what_another_saved(box, other, kept, named, porter):
    token = other.changes_since().token
    assert not other.changes_since(token)
    box.recipes.save(kept.recipe, named("Changed"), porter, base=kept.id)
    changes = other.changes_since(token)
    assert changes.keys("recipe") == {kept.recipe}
    assert not changes.everything
    assert other.finder.find("changed").rows[0].id == kept.recipe
    assert not other.changes_since(changes.token)


def test_a_first_look_and_a_look_after_too_many_changes_read_everything(box, other, kept, sql):
    assert other.changes_since("").everything
    assert other.changes_since("what:ever").everything
    token = other.changes_since().token
    sql(box.path, "delete from changes where id <= 2")
    box.tags.put([kept.recipe], add=["a"])
    assert other.changes_since(token).keys("recipe") == {kept.recipe}
    sql(
        box.path,
        "insert into changes values (900, 'pots', 1)",
        "delete from changes where id < 900",
    )
    assert other.changes_since(token).everything


def test_what_was_noted_long_ago_is_forgotten(box, monkeypatch):
    monkeypatch.setattr("designer.library.store.changes.KEPT", 3)
    for number in range(9):
        box.preferences.put("n", number)
    assert box.connection.row("select count(*) as n from changes") == {"n": 3}


def test_two_windows_saving_at_once_lose_no_version(box, folder, kept, named, porter):
    outcomes = []

    def save_often(window):
        with Store.open(folder) as store:
            for number in range(20):
                base = store.recipes.newest(kept.recipe).id
                text = named(f"Window {window}, save {number}")
                outcomes.append(store.recipes.save(kept.recipe, text, porter, base=base))

    threads = [threading.Thread(target=save_often, args=(n,)) for n in range(3)]
    for each in threads:
        each.start()
    for each in threads:
        each.join(timeout=60)
    mine = {each.mine.id if isinstance(each, Conflict) else each.id for each in outcomes}
    assert len(mine) == 60
    found = box.recipes.versions(kept.recipe)
    assert mine == {row.id for row in found} - {kept.id}
    assert [row.number for row in found] == list(range(61, 0, -1))


def test_a_store_of_one_thread_refuses_another_instead_of_mixing_them_up(box):
    faults = []

    def use():
        try:
            box.recipes.count()
        except sqlite3.ProgrammingError as fault:
            faults.append(fault)

    thread = threading.Thread(target=use)
    thread.start()
    thread.join(timeout=60)
    assert len(faults) == 1


def test_reading_goes_on_while_another_program_writes(box, kept):
    with closing(sqlite3.connect(box.path, isolation_level=None)) as conn:
        conn.execute("begin immediate")
        assert box.recipes.newest(kept.recipe) == kept
        assert len(box.finder.find("porter").rows) == 1


def test_a_store_held_too_long_is_told_in_words_and_the_save_can_be_done_again(
    folder, kept, named, porter
):
    waits = []
    with Store.open(folder, patience_s=0.5, waiting=lambda s: waits.append(s) or True) as store:
        with closing(sqlite3.connect(store.path, isolation_level=None)) as conn:
            conn.execute("begin immediate")
            with pytest.raises(StoreBusyError, match=r"held by another program.*try again"):
                store.recipes.save(kept.recipe, named("Late"), porter, base=kept.id)
        assert waits == sorted(waits)
        assert waits
        saved = store.recipes.save(kept.recipe, named("Late"), porter, base=kept.id)
        assert isinstance(saved, Version)
        assert saved.number == 2


def test_waiting_can_be_given_up(folder, kept):
    asked = []
    with (
        Store.open(folder, waiting=asked.append) as store,
        closing(sqlite3.connect(store.path, isolation_level=None)) as conn,
    ):
        conn.execute("begin immediate")
        with pytest.raises(StoreBusyError):
            store.pots.delete(1)
    assert len(asked) == 1


def test_a_save_waits_until_the_other_program_lets_go(folder, kept, named, porter):
    held = threading.Event()
    let_go = threading.Event()

    def hold(path):
        with closing(sqlite3.connect(path, isolation_level=None)) as conn:
            conn.execute("begin immediate")
            held.set()
            let_go.wait(timeout=60)
            conn.execute("rollback")

    def look(waited):
        if waited > 0.6:
            let_go.set()
        return True

    with Store.open(folder, waiting=look) as store:
        thread = threading.Thread(target=hold, args=(store.path,))
        thread.start()
        assert held.wait(timeout=60)
        saved = store.recipes.save(kept.recipe, named("Patient"), porter, base=kept.id)
        thread.join(timeout=60)
    assert saved.number == 2


def test_opening_works_while_another_program_writes(box, folder, kept):
    with closing(sqlite3.connect(box.path, isolation_level=None)) as conn:
        conn.execute("begin immediate")
        with Store.open(folder, patience_s=0.1) as store:
            assert store.recipes.newest(kept.recipe) == kept


def test_two_processes_that_begin_a_store_at_once_share_one(folder, run_python):
    code = (
        "import sys; from pathlib import Path\n"
        "from designer.library.store import Store\n"
        "with Store.open(Path(sys.argv[1])) as store:\n"
        "    store.preferences.put(sys.argv[2], 1)\n"
    )
    threads = [
        threading.Thread(target=run_python, args=(code, folder, f"from {n}")) for n in range(4)
    ]
    for each in threads:
        each.start()
    for each in threads:
        each.join(timeout=120)
    with Store.open(folder) as store:
        assert [store.preferences.get(f"from {n}") for n in range(4)] == [1] * 4
    assert not list(folder.glob(".new-*"))
