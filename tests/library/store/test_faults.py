"""What a kitchen laptop does to a store, and what is said about it."""

import os
import shutil
import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.store import Draft, Store, store_folder
from designer.library.store.faults import StoreFullError, StoreGoneError, StoreReadOnlyError
from designer.library.store.health import SOUND, check

posix = pytest.mark.skipif(sys.platform == "win32", reason="rights are told by POSIX modes here")


def test_a_full_disk_keeps_nothing_of_the_change_and_everything_before_it(box, kept, named, porter):
    pages = box.connection.row("pragma page_count")["page_count"]
    box.connection.db.conn.execute(f"pragma max_page_count = {pages + 2}")
    with pytest.raises(StoreFullError, match=r"is full.*Make room"):
        box.recipes.save(kept.recipe, named("Long", "x" * 99_999), porter, base=kept.id)
    with pytest.raises(StoreFullError):
        box.recipes.add_many((named(f"Ale {n}"), porter, ()) for n in range(400))
    assert box.recipes.newest(kept.recipe) == kept
    assert box.recipes.count() == 1
    box.connection.db.conn.execute("pragma max_page_count = 1000000")
    assert box.recipes.save(kept.recipe, named("Long"), porter, base=kept.id).number == 2
    assert check(box.path, deep=True).state == SOUND


@posix
def test_a_file_that_may_grow_no_further_keeps_what_was_confirmed(folder, run_python):
    code = (
        "import resource, signal, sys; from pathlib import Path\n"
        "from designer.errors import DesignerError\n"
        "from designer.library.store import Store, Summary\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "store = Store.open(Path(sys.argv[1]))\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (3_000_000, 3_000_000))\n"
        "done = 0\n"
        "try:\n"
        "    while True:\n"
        "        notes = 'n' * 3000\n"
        '        text = \'{"hobwort": 1, "name": "Ale %d", "notes": "%s"}\' % (done, notes)\n'
        "        store.recipes.add(text, Summary())\n"
        "        done += 1\n"
        "except DesignerError as fault:\n"
        "    print(done, fault)\n"
    )
    ran = run_python(code, folder)
    done, _, words = ran.stdout.partition(" ")
    assert int(done) > 10
    assert "was not kept" in words, ran.stderr
    with Store.open(folder) as store:
        assert store.recipes.count() == int(done)
    assert check(folder / "recipe-box.db", deep=True).state == SOUND


READING = (
    "import os, sys; from pathlib import Path\n"
    "import sqlite_utils, sqlite_utils.migrations, tempfile, shutil\n"
    "from designer.errors import DesignerError\n"
    "from designer.library.store import Store, Summary\n"
    "if os.geteuid() == 0: os.setuid(65534)\n"
    "with Store.open(Path(sys.argv[1]), patience_s=1.0) as store:\n"
    "    print(store.recipes.count(), len(store.finder.find('porter').rows), store.read_only)\n"
    "    try:\n"
    "        store.pots.delete(1)\n"
    "        print('written')\n"
    "    except DesignerError as fault:\n"
    "        print(type(fault).__name__, fault)\n"
)


@pytest.fixture
def open_folder():
    """A folder that anyone can reach: only its own rights count.

    It is not below `tmp_path`, whose root any other run of the tests shuts as it begins.
    """
    with tempfile.TemporaryDirectory(prefix="hobwort-faults-") as top:
        Path(top).chmod(0o755)
        yield Path(top) / "kitchen"
        (Path(top) / "kitchen").chmod(0o755)


def read_by_someone(run_python, folder):
    ran = run_python(READING, folder)
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


@posix
@pytest.mark.parametrize("mode", [0o555, 0o755, 0o777])
def test_a_store_in_a_read_only_folder_or_file_is_read_and_says_why_it_is_not_written(
    open_folder, porter_text, porter, run_python, mode
):
    with Store.open(open_folder) as store:
        store.recipes.add(porter_text, porter)
    store.path.chmod(0o444)
    open_folder.chmod(mode)
    told = read_by_someone(run_python, open_folder)
    assert told.startswith("1 1 The Recipe box")
    assert "reading only" in told
    assert "StoreReadOnlyError" in told
    assert "written" not in told.splitlines()[-1].split()[0]


@posix
def test_what_is_only_in_the_log_is_read_from_a_read_only_folder_too(
    open_folder, tmp_path, porter_text, porter, run_python
):
    """After a crash the last saves are in the log; a stick taken elsewhere shows them."""
    with Store.open(tmp_path / "first") as store:
        store.recipes.add(porter_text, porter)
        shutil.copytree(tmp_path / "first", open_folder)
    (open_folder / "recipe-box.db-shm").unlink()
    assert (open_folder / "recipe-box.db-wal").stat().st_size > 0
    for path in open_folder.iterdir():
        path.chmod(0o444)
    open_folder.chmod(0o555)
    assert read_by_someone(run_python, open_folder).startswith("1 1 The Recipe box")


def test_a_folder_taken_away_is_told_and_the_save_is_not_confirmed(
    box, folder, kept, named, porter, tmp_path
):
    folder.rename(tmp_path / "elsewhere")
    with pytest.raises(StoreGoneError, match=r"no longer there.*[Pp]ut it back"):
        box.recipes.save(kept.recipe, named("Lost?"), porter, base=kept.id)
    (tmp_path / "elsewhere").rename(folder)
    saved = box.recipes.save(kept.recipe, named("Kept"), porter, base=kept.id)
    assert saved.number == 2


def test_a_store_replaced_under_an_open_window_is_not_written_into_the_void(
    box, folder, kept, tmp_path
):
    with Store.open(tmp_path / "another") as other:
        other.preferences.put("n", 1)
    box.path.unlink()
    shutil.copy(other.path, box.path)
    with pytest.raises(StoreGoneError, match="moved or replaced"):
        box.pots.delete(1)


def test_a_folder_that_cannot_be_is_told_in_words(tmp_path):
    (tmp_path / "file").write_text("x")
    for place in (tmp_path / "file", tmp_path / "file" / "below", tmp_path / "nul\0sign"):
        with pytest.raises(DesignerError, match=r"folder|drive"):
            Store.open(place)


def test_a_folder_where_a_store_should_be_is_told_in_words(folder):
    (folder / "recipe-box.db").mkdir(parents=True)
    with pytest.raises(DesignerError, match="Recipe box"):
        Store.open(folder)


def test_a_clock_set_back_does_not_disorder_versions_or_lists(
    box, kept, named, porter, monkeypatch
):
    monkeypatch.setattr(
        "designer.library.store.recipe_rows.now_text", lambda: "1970-01-01T00:00:00+00:00"
    )
    second = box.recipes.save(kept.recipe, named("Second"), porter, base=kept.id)
    other = box.recipes.add(named("Other"), porter)
    assert [row.id for row in box.recipes.versions(kept.recipe)] == [second.id, kept.id]
    assert [row.id for row in box.finder.find("").rows] == [other.recipe, kept.recipe]
    assert second.saved < kept.saved


def test_a_drive_that_cannot_keep_a_log_beside_the_file_works_without(folder, porter_text, porter):
    with Store.open(folder) as store:
        store.connection.db.conn.execute("pragma journal_mode=delete")
        made = store.recipes.add(porter_text, porter)
        assert store.recipes.newest(made.recipe) == made


def test_a_fault_while_writing_leaves_no_transaction_open(box, kept, named):
    def half(db):
        db.conn.execute("delete from recipes")
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        box.connection.write(half)
    assert box.recipes.newest(kept.recipe) == kept
    box.drafts.put(Draft("w", named("Edited")))
    with closing(sqlite3.connect(box.path)) as conn:
        assert conn.execute("select count(*) from drafts").fetchone() == (1,)


def test_every_setting_of_the_connection_is_what_is_promised(box):
    told = {
        name: next(iter(box.connection.row(f"pragma {name}").values()))
        for name in ("journal_mode", "foreign_keys", "busy_timeout", "synchronous")
    }
    assert told == {"journal_mode": "wal", "foreign_keys": 1, "busy_timeout": 200, "synchronous": 2}


def test_the_store_loads_nothing_dear_until_one_is_opened(run_python):
    code = (
        "import pkgutil, sys\n"
        "import designer.library.store as store\n"
        "for each in pkgutil.walk_packages(store.__path__, store.__name__ + '.'):\n"
        "    __import__(each.name)\n"
        "dear = {'sqlite_utils', 'pint', 'numpy', 'PySide6'}\n"
        "print(sorted(dear & set(sys.modules)))\n"
    )
    ran = run_python(code)
    assert ran.stdout.strip() == "[]", ran.stderr


def test_read_only_errors_are_of_their_own_kind(box, kept):
    box.connection.read_only = "It is a museum piece."
    with pytest.raises(StoreReadOnlyError, match="museum"):
        box.pots.delete(1)
    assert os.access(box.path, os.R_OK)


@pytest.mark.parametrize("name", ["a?b#c %41 &d=e", "Küche 厨房", "it's; drop", "raw \udce9 byte"])
def test_a_folder_of_any_name_holds_a_store(tmp_path, porter_text, porter, name):
    try:
        (tmp_path / name).mkdir()
    except (OSError, UnicodeError):
        pytest.skip("this system has no such names")
    with Store.open(tmp_path / name) as store:
        store.recipes.add(porter_text, porter)
        made = store.make_backup()
        store.bring_back(made.path)
        assert store.recipes.count() == 1
    assert check(tmp_path / name / "recipe-box.db").state == SOUND
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_half_a_sign_in_a_name_is_refused_in_words(box, kept):
    with pytest.raises(DesignerError, match="half a character"):
        box.recipes.name_version(kept.id, "half \ud83c")
    with pytest.raises(DesignerError, match="half a character"):
        box.tags.put([kept.recipe], add=["\ud83c"])


def test_a_named_folder_on_a_drive_that_is_gone_is_not_made_anew(tmp_path):
    with pytest.raises(StoreGoneError, match=r"drive may not be connected"):
        Store.open(tmp_path / "stick" / "kitchen")
    assert list(tmp_path.iterdir()) == []


def test_the_usual_folder_is_made_with_all_above_it(tmp_path, monkeypatch):
    monkeypatch.delenv("HOBWORT_STORE", raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "home" / "share"))
    with Store.open(store_folder()) as store:
        assert store.folder == tmp_path / "home" / "share" / "hobwort"
