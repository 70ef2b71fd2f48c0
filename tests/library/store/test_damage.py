"""What is offered of a damaged box is what is given, and all that stands on the disk is read."""

import errno
import importlib.util
import os
import struct
import sys
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.store import Store, rescue
from designer.library.store.file_pages import page_size, page_states
from designer.library.store.health import DAMAGED, EMPTY, FOREIGN, SOUND
from designer.library.store.kitchen import PotRecord
from designer.library.store.records import rows_on

HARNESS = Path(__file__).parents[2] / "benchmarks" / "damage_harness.py"


@pytest.fixture(scope="module")
def harness():
    spec = importlib.util.spec_from_file_location("damage_harness", HARNESS)
    made = sys.modules[spec.name] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(made)
    return made


@pytest.fixture(scope="module")
def damaged(harness, tmp_path_factory):
    """A box of 40 recipes in 100 versions, damaged in two dozen ways."""
    return harness.outcomes(tmp_path_factory.mktemp("damaged"), (0, 1))


def test_an_offer_says_exactly_what_going_on_with_it_gives(damaged):
    assert len(damaged) > 20
    for one in damaged:
        assert one.promised == one.given, one


def test_no_version_differs_from_what_was_written(damaged):
    assert sum(one.wrong for one in damaged) == 0


def test_nearly_all_that_stands_on_the_disk_unhurt_is_saved(damaged):
    for one in damaged:
        assert one.versions >= 0.93 * one.unhurt - 1.01, one
    assert sum(one.versions for one in damaged) > 0.98 * sum(one.unhurt for one in damaged)


def test_what_is_told_lost_is_what_is_missing_where_the_recipes_are_known(damaged):
    for one in damaged:
        if "log_lost" not in one.way and one.versions > 60:
            assert one.versions + one.lost_told == 100, one


# single kinds of damage


@pytest.fixture
def closed(folder, named, porter):
    """A box of thirty recipes and a pot, closed."""
    with Store.open(folder) as store:
        for number in range(30):
            store.recipes.add(named(f"Ale {number}", notes=f"note {number} " * 500), porter)
        store.pots.insert(PotRecord("Kitchen pot", volume="9 L"))
        return store.path


def hurt(path, at, raw):
    content = bytearray(path.read_bytes())
    content[at : at + len(raw)] = raw
    path.write_bytes(content)


def test_a_schema_of_zeros_hides_no_recipe(closed, folder):
    hurt(closed, 0, bytes(4096))
    offered = rescue.offer(folder)
    assert (offered.health.state, offered.salvaged.alone.recipes) == (DAMAGED, 30)
    assert rescue.go_on_with_salvage(folder).holds == offered.salvaged.whole
    with Store.open(folder) as store:
        assert store.pots.all()[0].volume == "9 L"
        assert store.finder.find('"ale 17"').rows


def test_a_box_taken_for_another_database_is_read_all_the_same(closed, folder, sql):
    sql(closed, "drop table _sqlite_migrations")
    offered = rescue.offer(folder)
    assert offered.health.state == FOREIGN
    assert offered.is_beyond_use
    assert offered.salvaged.alone.recipes == 30
    assert offered.salvaged.lost == 0


def test_another_database_offers_nothing_and_is_not_beyond_use(folder, sql):
    folder.mkdir()
    sql(folder / "recipe-box.db", "create table songs (name)", "insert into songs values ('a')")
    assert not rescue.offer(folder).is_beyond_use


def test_damage_that_loses_nothing_is_told_to_lose_nothing(closed, folder, sql):
    ((root,),) = (sql(closed, "select rootpage from sqlite_master where name='recipes_by_ibu'")[0],)
    hurt(closed, 4096 * (root[0] - 1), bytes(4096))
    offered = rescue.offer(folder)
    assert offered.health.state == DAMAGED
    assert (offered.salvaged.lost, offered.salvaged.more_may_be_lost) == (0, False)
    assert offered.salvaged.alone.recipes == 30


def test_an_emptied_file_is_read_from_its_log(folder, kept, named, porter):
    with Store.open(folder) as store:
        store.recipes.add(named("In the log"), porter)
        log = (folder / "recipe-box.db-wal").read_bytes()
    elsewhere = folder.with_name("after the crash")
    elsewhere.mkdir()
    (elsewhere / "recipe-box.db").write_bytes(b"")
    (elsewhere / "recipe-box.db-wal").write_bytes(log)
    offered = rescue.offer(elsewhere)
    assert offered.health.state == EMPTY
    assert offered.salvaged.alone.versions > 0
    assert rescue.go_on_with_salvage(elsewhere).holds == offered.salvaged.alone


def test_what_was_kept_behind_a_break_in_the_log_is_read_too(folder, kept, named, porter, tmp_path):
    with Store.open(folder) as store:
        before = (folder / "recipe-box.db-wal").stat().st_size
        store.recipes.add(named("Behind the break"), porter)
        broken = tmp_path / "broken"
        broken.mkdir()
        log = bytearray((folder / "recipe-box.db-wal").read_bytes())
        log[before + 30] ^= 0xFF
        (broken / "recipe-box.db").write_bytes(bytes((folder / "recipe-box.db").read_bytes())[:50])
        (broken / "recipe-box.db-wal").write_bytes(log)
    done = rescue.go_on_with_salvage(broken)
    with Store.open(broken) as store:
        assert {row.name for row in store.finder.find("").rows} >= {"Behind the break"}
    assert done.holds.recipes == 2


def test_a_recipe_deleted_for_good_does_not_come_back(closed, folder):
    with Store.open(folder) as store:
        store.trash.put([3])
        store.trash.delete([3])
    hurt(closed, 4096 * 12, bytes(4096))
    rescue.go_on_with_salvage(folder)
    with Store.open(folder) as store:
        assert not store.recipes.has(3, 3)
        assert store.recipes.duplicate(5).recipe > 30


def test_things_deleted_since_the_backup_do_not_come_back_with_it(closed, folder):
    with Store.open(folder) as store:
        store.make_backup()
        store.pots.delete(store.pots.all()[0].id)
    content = closed.read_bytes()
    hurt(closed, content.index(b'"notes": "note 20 ') // 4096 * 4096, bytes(4096))
    offered = rescue.offer(folder)
    assert (offered.salvaged.from_backup, offered.salvaged.more_may_be_lost) == (1, False)
    assert rescue.go_on_with_salvage(folder, offered.backup).holds.recipes == 30
    with Store.open(folder) as store:
        assert store.pots.all() == []


def test_the_order_of_the_list_outlives_a_salvage(closed, folder, named, porter):
    with Store.open(folder) as store:
        base = store.recipes.newest(4)
        store.recipes.save(4, named("Ale 3, changed last"), porter, base=base.id)
        order = [row.id for row in store.finder.find("").rows]
    hurt(closed, 0, bytes(100))
    rescue.go_on_with_salvage(folder)
    with Store.open(folder) as store:
        assert [row.id for row in store.finder.find("").rows] == order


def test_blocks_that_the_disk_does_not_give_any_more_cost_only_themselves(
    closed, folder, monkeypatch
):
    real, bad = os.read, closed.stat().st_size // 2 // 4096 * 4096

    def failing(handle, length):
        at = os.lseek(handle, 0, os.SEEK_CUR)
        if at <= bad < at + length and os.fstat(handle).st_ino == closed.stat().st_ino:
            raise OSError(errno.EIO, "Input/output error")
        return real(handle, length)

    hurt(closed, 0, bytes(100))
    monkeypatch.setattr(os, "read", failing)
    assert rescue.offer(folder).salvaged.alone.recipes >= 28


def test_a_backup_made_later_than_the_damage_is_counted_beside_what_can_be_read(closed, folder):
    with Store.open(folder) as store:
        store.make_backup()
    content = closed.read_bytes()
    closed.write_bytes(content[: len(content) // 2])
    offered = rescue.offer(folder)
    assert offered.backup_holds.recipes == 30
    assert 0 < offered.salvaged.alone.recipes < 30
    assert offered.salvaged.whole.recipes == 30
    assert offered.salvaged.lost == 0


@pytest.mark.parametrize("size", [512, 1024, 4096, 8192, 65536])
def test_the_size_of_pages_is_found_where_the_file_does_not_say_it(box, tmp_path, kept, sql, size):
    other = tmp_path / "other.db"
    box.copy_everything(other)
    sql(other, f"pragma page_size={size}", "vacuum")
    content = other.read_bytes()
    assert page_size(content) == size
    assert page_size(bytes(100) + content[100:]) == size
    other.write_bytes(bytes(100) + content[100:])
    (pages,) = page_states(other)
    assert rows_on(pages).rows["versions"][0]["document"] == kept.document


def test_rows_that_fill_their_pages_do_not_make_pages_look_smaller(box, tmp_path, named, porter):
    box.recipes.add_many((named(f"Ale {n}", notes="n" * 1830), porter, ()) for n in range(300))
    other = tmp_path / "other.db"
    box.copy_everything(other)
    content = other.read_bytes()
    assert page_size(bytes(4096) + content[4096:]) == 4096


def test_a_log_of_nonsense_is_passed_over(closed):
    log = Path(f"{closed}-wal")
    for raw in (b"x", bytes(5000), struct.pack(">8I", 0x377F0682, 0, 4096, 1, 2, 3, 4, 5) * 400):
        log.write_bytes(raw)
        assert len(rows_on(next(page_states(closed))).rows["versions"]) == 30


def test_a_salvage_ends_when_the_program_does(closed, folder):
    hurt(closed, 0, bytes(4096))
    asked = []

    def goes_on():
        asked.append(True)
        return len(asked) < 3

    with pytest.raises(DesignerError):
        rescue.offer(folder, goes_on)
    assert len(asked) == 3
    assert rescue.offer(folder).salvaged.alone.recipes == 30


def test_a_sound_box_is_offered_nothing(closed, folder):
    offered = rescue.offer(folder)
    assert offered.health.state == SOUND
    assert not offered.is_beyond_use
