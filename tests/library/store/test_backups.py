"""Backups: made in use, checked, kept in a sensible number, and brought back."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.store import Draft, Store
from designer.library.store.backup_files import Backup, affordable, backups, kept_of, room_for
from designer.library.store.backups import make_backup
from designer.library.store.faults import StoreDamagedError, StoreFullError
from designer.library.store.health import SOUND, check


def test_a_backup_holds_everything_and_passes_its_check(box, kept, named):
    box.drafts.put(Draft("w1", named("Edited")))
    made = box.make_backup()
    health = check(made.path, deep=True)
    assert (health.state, health.recipes, health.versions) == (SOUND, 1, 1)
    assert [path.name for path in made.path.parent.iterdir()] == [made.path.name]
    assert box.backups() == [made] == backups(box.folder) or made.number == 1


def test_nothing_changed_makes_no_backup_unless_it_is_forced(box, kept):
    assert box.make_backup().number == 1
    assert box.make_backup() is None
    assert box.make_backup(forced=True).number == 2
    box.pots.delete(9)
    assert box.make_backup().number == 3
    assert [each.number for each in box.backups()] == [3, 2, 1]


def test_the_newest_ten_and_one_a_day_and_one_a_week_are_kept():
    noon = datetime(2026, 6, 28, 12, tzinfo=UTC)
    hours = [noon - timedelta(hours=n) for n in range(24 * 100)]
    every = [Backup(Path(f"{n}.db"), len(hours) - n, made) for n, made in enumerate(hours)]
    kept = set(kept_of(every))
    assert set(every[:10]) <= kept
    days = {noon.date() - timedelta(days=n) for n in range(7)}
    assert days <= {each.made.date() for each in kept}
    weeks = {each.made.isocalendar()[:2] for each in kept}
    assert len(weeks) == 8
    assert len(kept) <= 10 + 7 + 8


def test_only_so_many_backups_are_kept_as_there_is_room_for_and_they_reach_far_back(tmp_path):
    noon = datetime(2026, 6, 28, 12, tzinfo=UTC)
    hours = [noon - timedelta(hours=4 * n) for n in range(120)]
    every = []
    for number, made in enumerate(hours):
        path = tmp_path / f"{number}.db"
        path.write_bytes(b"x" * 100)
        every.append(Backup(path, len(hours) - number, made))
    kept = affordable(kept_of(every), 1250)
    assert len(kept) == 12
    assert set(every[:3]) <= kept
    assert len({each.made.date() for each in kept}) >= 7
    assert affordable(kept_of(every), 10) == {every[0]}
    assert room_for(250_000_000) == 1_000_000_000
    assert room_for(900_000_000) == 1_800_000_000


def test_a_backup_past_the_room_there_is_makes_older_ones_go(box, monkeypatch):
    monkeypatch.setattr("designer.library.store.backup_files.ROOM_BYTES", 1)
    for number in range(5):
        box.preferences.put("n", number)
        box.make_backup()
    assert [each.number for each in box.backups()] == [5, 4]  # twice the size of the store


def test_a_backup_stays_what_the_store_was_when_it_began_whatever_is_kept_meanwhile(
    box, folder, kept, monkeypatch
):
    monkeypatch.setattr("designer.library.store.backups.PAGES_AT_ONCE", 1)
    heard = []

    def told(done, of):
        with Store.open(folder) as other:
            other.preferences.put("meanwhile", done)
        heard.append((done, of))
        return True

    with Store.open(folder) as store:
        made = make_backup(store.connection, told=told)
    assert heard[-1][0] == heard[-1][1] == len(heard)
    assert box.preferences.get("meanwhile") == heard[-1][0]
    box.bring_back(made.path)
    assert box.preferences.get("meanwhile") is None


def test_a_backup_that_is_stopped_leaves_nothing_behind(box, folder, kept, monkeypatch):
    monkeypatch.setattr("designer.library.store.backups.PAGES_AT_ONCE", 1)
    with Store.open(folder) as store, pytest.raises(DesignerError, match="stopped"):
        make_backup(store.connection, told=lambda done, of: done < 3)
    assert box.backups() == []
    assert list((folder / "backups").iterdir()) == []


def test_backups_no_longer_needed_are_dropped_and_numbers_go_on(box, monkeypatch):
    for number in range(14):
        box.preferences.put("n", number)
        box.make_backup()
    assert [each.number for each in box.backups()] == list(range(14, 4, -1))


def test_a_clock_set_back_hides_no_backup_and_drops_no_new_one(box, monkeypatch):
    class Clock(datetime):
        hours = 0

        @classmethod
        def now(cls, tz=None):
            return datetime(2026, 6, 28, 12, tzinfo=tz) - timedelta(days=cls.hours)

    monkeypatch.setattr("designer.library.store.backups.datetime", Clock)
    for number in range(13):
        Clock.hours = number * 400
        box.preferences.put("n", number)
        box.make_backup()
    found = box.backups()
    assert [each.number for each in found][:10] == list(range(13, 3, -1))
    with Store.open(box.folder) as store:
        store.bring_back(found[0].path)
        assert store.preferences.get("n") == 12


def test_a_backup_brought_back_replaces_everything_and_what_was_there_is_a_backup(
    box, folder, kept, named, porter
):
    old = box.make_backup()
    box.recipes.save(kept.recipe, named("Changed"), porter, base=kept.id)
    box.pots.delete(3)
    with Store.open(folder) as other:
        token = other.changes_since().token
        before = box.bring_back(old.path)
        assert other.changes_since(token).everything
        assert other.recipes.newest(kept.recipe).document == kept.document
    assert len(box.recipes.versions(kept.recipe)) == 1
    assert box.connection.row("pragma journal_mode") == {"journal_mode": "wal"}
    box.bring_back(before.path)
    assert box.recipes.row(kept.recipe).name == "Changed"
    assert check(box.path, deep=True).state == SOUND


def test_the_oldest_backup_outlives_the_one_that_is_made_before_it_is_brought_back(box):
    for number in range(10):
        box.preferences.put("n", number)
        box.make_backup()
    oldest = box.backups()[-1]
    before = box.bring_back(oldest.path)
    assert box.preferences.get("n") == 0
    assert oldest.path.exists()
    box.bring_back(before.path)
    assert box.preferences.get("n") == 9


def test_a_recipe_open_since_before_a_backup_came_back_is_kept_anew(box, named, porter):
    early = box.make_backup(forced=True)
    mine = box.recipes.add(named("Mine"), porter)
    assert box.recipes.has(mine.recipe, mine.id)
    box.bring_back(early.path)
    assert not box.recipes.has(mine.recipe, mine.id)
    box.recipes.add(named("Nobody's"), porter)
    theirs = box.recipes.add(named("Theirs"), porter)
    saved = box.recipes.save(theirs.recipe, named("Mine, later"), porter, base=mine.id)
    assert saved.recipe not in (theirs.recipe, 0)
    assert box.recipes.newest(theirs.recipe).document == theirs.document


def test_everything_copied_to_one_file_comes_back_elsewhere(box, kept, tmp_path):
    copy = tmp_path / "everything é.hobwort-box"
    copy.write_text("an older copy")
    box.copy_everything(copy)
    with Store.open(tmp_path / "other kitchen") as other:
        assert other.recipes.count() == 0
        other.bring_back(copy)
        assert other.recipes.newest(kept.recipe) == kept
        assert other.finder.find("porter").rows[0].id == kept.recipe
        other.recipes.duplicate(kept.recipe)
        assert other.recipes.count() == 2


@pytest.mark.parametrize("content", [b"", b"no store", b"SQLite format 3\0" + b"\1" * 5000])
def test_what_is_no_sound_store_is_not_brought_back(box, kept, tmp_path, content):
    bad = tmp_path / "bad.db"
    bad.write_bytes(content)
    with pytest.raises(StoreDamagedError, match="cannot be restored"):
        box.bring_back(bad)
    assert box.recipes.newest(kept.recipe) == kept


def test_a_database_of_something_else_is_not_brought_back(box, kept, tmp_path, sql):
    sql(tmp_path / "other.db", "create table songs (name)")
    with pytest.raises(StoreDamagedError, match="not a Recipe box"):
        box.bring_back(tmp_path / "other.db")
    assert box.recipes.newest(kept.recipe) == kept


def test_a_copy_that_cannot_be_written_leaves_the_older_copy(box, kept, tmp_path):
    target = tmp_path / "copy.db"
    target.mkdir()
    with pytest.raises(Exception, match=r"copy\.db"):
        box.copy_everything(target)
    assert target.is_dir()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == []


def test_a_disk_that_is_full_leaves_no_half_backup_and_the_older_ones(box, kept, monkeypatch):
    import errno

    box.make_backup()
    box.preferences.put("n", 1)

    def no_room(path):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("designer.library.store.backups._flush", no_room)
    with pytest.raises(StoreFullError, match=r"disk is full.*Make room"):
        box.make_backup()
    assert [each.number for each in box.backups()] == [1]
    assert len(list((box.folder / "backups").iterdir())) == 1


def test_strange_files_among_the_backups_are_left_alone(box, kept):
    box.make_backup()
    for name in ("notes.txt", "000009-2026-99-99-999999.db", "x.db"):
        (box.folder / "backups" / name).write_text("mine")
    assert [each.number for each in box.backups()] == [1]
    box.make_backup(forced=True)
    assert (box.folder / "backups" / "notes.txt").exists()


def test_what_a_killed_process_left_half_written_is_cleared_away_after_a_day(box, kept):
    import os
    import time

    box.make_backup()
    old, new = (box.folder / "backups" / f".new-{n}.db" for n in "ab")
    for path in (old, new):
        path.write_bytes(b"half")
    os.utime(old, (time.time() - 90_000, time.time() - 90_000))
    box.make_backup(forced=True)
    assert not old.exists()
    assert new.exists()
