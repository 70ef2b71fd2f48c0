"""The store of every release opens with all that was in it; that of a newer one is only read."""

import shutil
import sqlite3
import sys
from contextlib import closing
from pathlib import Path

import pytest

from designer.library.recipe_file import read_document
from designer.library.store import Store, steps
from designer.library.store.faults import StoreReadOnlyError
from designer.library.store.health import NEWER, SOUND, check

SAMPLES = sorted((Path(__file__).parents[2] / "old_stores").glob("release_*.db"))


@pytest.fixture(params=SAMPLES, ids=[path.stem for path in SAMPLES])
def release(request):
    """A store as a release left it."""
    return request.param


@pytest.fixture
def old(release, folder):
    folder.mkdir()
    shutil.copy(release, folder / "recipe-box.db")
    return folder


def test_an_old_store_opens_with_everything_in_it(old, release):
    with Store.open(old) as store:
        assert store.read_only == ""
        rows = store.finder.find("", order="name").rows
        assert [row.name for row in rows] == [
            "Harbour Lamp Porter, blacker",
            "黒ビール Kölsch-glass Porter",
        ]
        first = rows[0]
        assert (first.tags, first.versions, first.last_brewed) == (
            ("boat race", "winter"),
            3,
            "2026-03-01",
        )
        versions = [store.recipes.version(row.id) for row in store.recipes.versions(first.id)]
        names = [read_document(version.document, "store").name for version in versions]
        assert names[1:] == ["Harbour Lamp Porter, browner", "Harbour Lamp Porter"]
        assert versions[-1].summary.ibu == 34.4
        assert store.recipes.count(trashed=True) == 1
        draft = store.drafts.all()[0]
        assert (draft.position, len(draft.undo)) == (1, 2)
        # the first release did not keep what was done
        assert draft.phrases == (
            ("", "") if release.stem == "release_1" else ("", "rename the recipe")
        )
        [pot] = store.pots.all()
        assert pot.evaporation == "0.9 L/h"
        # before the fourth nobody kept what stays in a pot
        assert pot.left_in_pot == ("" if release.stem < "release_4" else "0.3 L")
        assert store.fermenters.all()[0].graduation == "1 L"
        assert store.cupboard.all()[0].best_before.year == 2028
        assert store.preferences.get("shown units") == "both"
        brew, *stove = store.brews.all()
        assert store.brews.lines(brew.id)[0].entry["gravity"] == "1.048"
        assert len(brew.uid) == 32
        # before the sixth no log was written beside the stove
        assert [(each.uid, each.mark, each.finished, each.file) for each in stove] == (
            []
            if release.stem < "release_6"
            else [("5704e", 4, "2026-02-01T14:00:00+00:00", "/home/brewer/porter.hobwort")]
        )
        # before the eighth no log was asked when its beer was packaged
        kept = [(each.packaged[:10], each.ready) for each in stove]
        days = ("2026-02-15", "2026-03-01")
        assert kept == ([] if release.stem < "release_6" else
                        [("", "")] if release.stem < "release_8" else [days])  # fmt: skip
        assert (first.packaged, first.ready) == (days if release.stem >= "release_8" else ("", ""))
        assert store.finder.find("glass").rows[0].branched_from == versions[-1].id
    assert check(old / "recipe-box.db", deep=True).state == SOUND


def test_an_old_store_has_taken_every_step_once_it_is_open(old):
    with Store.open(old) as store:
        applied = [each.name for each in steps.migrations().applied(store.connection.db)]
    assert applied == [step.__name__ for step in steps.STEPS]


def test_every_table_is_named_where_damage_is_looked_for_and_mended(folder):
    with Store.open(folder, fresh=True) as store, closing(sqlite3.connect(store.path)) as found:
        made = found.execute("select name from sqlite_master where type = 'table'").fetchall()
    own = {name for (name,) in made if not name.startswith(("sqlite_", "_sqlite", "words_"))}
    assert own == set(steps.TABLES)


def test_there_is_a_sample_with_every_step_there_is():
    """A step that is released keeps a store that has taken it, and nothing beyond it."""
    with closing(sqlite3.connect(f"file:{SAMPLES[-1]}?mode=ro", uri=True)) as newest:
        taken = {name for (name,) in newest.execute("select name from _sqlite_migrations")}
    assert taken == {step.__name__ for step in steps.STEPS}


@pytest.fixture
def with_steps(monkeypatch):
    """Let the program know more or fewer steps than it does."""

    def know(*known):
        monkeypatch.setattr(steps, "STEPS", known)
        steps.migrations.cache_clear()

    yield know
    steps.migrations.cache_clear()


def yeast_shelf(db):
    """A step of a later release."""
    db.execute("alter table pots add column colour text not null default ''")
    db.execute("create table shelf (id integer primary key)")


def test_an_older_store_is_backed_up_and_brought_up_to_date(old, with_steps):
    known = steps.STEPS
    with_steps(*known, yeast_shelf)
    with Store.open(old) as store:
        assert store.connection.row("select colour from pots") == {"colour": ""}
        assert store.pots.all()[0].name == "Kitchen pot"
        (backup,) = store.backups()
    with_steps(*known)
    assert check(backup.path).state == SOUND


def test_a_step_that_fails_leaves_the_old_store_as_it_was(old, with_steps):
    def broken(db):
        """A step that does half its work."""
        db.execute("create table half (id integer primary key)")
        raise ZeroDivisionError

    known = steps.STEPS
    with_steps(*known, yeast_shelf, broken)
    with pytest.raises(ZeroDivisionError):
        Store.open(old)
    with_steps(*known)
    with Store.open(old) as store:
        assert store.read_only == ""
        tables = store.connection.db.table_names()
        assert "half" not in tables
        assert "shelf" not in tables


def test_a_newer_store_is_read_and_never_written(old, with_steps, porter_text, porter):
    known = steps.STEPS
    with_steps(*known, yeast_shelf)
    Store.open(old).close()
    with_steps(*known)
    before = (old / "recipe-box.db").read_bytes()
    with Store.open(old) as store:
        assert "newer Hobwort" in store.read_only
        assert "Update the program" in store.read_only
        assert len(store.finder.find("porter").rows) == 2
        assert store.pots.all()[0].name == "Kitchen pot"
        with pytest.raises(StoreReadOnlyError, match="newer Hobwort"):
            store.recipes.add(porter_text, porter)
    assert (old / "recipe-box.db").read_bytes() == before
    assert check(old / "recipe-box.db").state == NEWER


@pytest.mark.skipif(sys.platform == "win32", reason="rights are told by POSIX modes here")
def test_an_older_store_on_a_read_only_drive_is_read_from_a_copy_brought_up_to_date(
    old, with_steps, monkeypatch
):
    before = (old / "recipe-box.db").read_bytes()
    with_steps(*steps.STEPS, yeast_shelf)
    monkeypatch.setattr("os.access", lambda path, mode: False)
    with Store.open(old) as store:
        assert "reading only" in store.read_only
        assert store.connection.row("select colour from pots") == {"colour": ""}
        assert len(store.finder.find("porter").rows) == 2
    assert (old / "recipe-box.db").read_bytes() == before
    assert [path.name for path in old.iterdir()] == ["recipe-box.db"]
