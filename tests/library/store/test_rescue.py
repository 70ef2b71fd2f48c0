"""A damaged, cut-off, empty or missing store: set aside whole, and gone on with."""

import random

import pytest

from designer.errors import DesignerError
from designer.library.store import Draft, Store, rescue
from designer.library.store.backup_files import backups
from designer.library.store.faults import StoreDamagedError, StoreGoneError
from designer.library.store.health import DAMAGED, EMPTY, FOREIGN, MISSING, SOUND, check
from designer.library.store.kitchen import PotRecord

RECIPES = 120


@pytest.fixture
def closed(folder, named, porter):
    """A store with many recipes, a draft and a pot, closed; and its backup of all but the last."""
    with Store.open(folder) as store:
        many = ((named(f"Ale {n}", notes=f"note {n} " * 40), porter, ["t"]) for n in range(RECIPES))
        store.recipes.add_many(many)
        store.pots.insert(PotRecord("Kitchen pot", volume="9 L"))
        store.drafts.put(Draft("w1", named("Edited")))
        store.make_backup()
        store.recipes.add(named("The last one"), porter)
        return store.path


def test_a_sound_store_is_told_sound_and_is_not_changed_by_the_check(closed):
    before = closed.read_bytes()
    health = check(closed, deep=True)
    assert (health.state, health.recipes) == (SOUND, RECIPES + 1)
    assert closed.read_bytes() == before


def test_an_empty_file_is_not_taken_for_a_new_store(closed, folder):
    closed.write_bytes(b"")
    assert check(closed).state == EMPTY
    with pytest.raises(StoreDamagedError, match=r"is empty.*newest backup"):
        Store.open(folder)
    assert closed.read_bytes() == b""
    done = rescue.go_on_with_backup(folder, rescue.offer(folder).backup)
    assert done.holds.recipes == RECIPES
    assert done.aside.read_bytes() == b""
    assert "set aside" in done.words
    with Store.open(folder) as store:
        assert store.recipes.count() == RECIPES


def test_a_missing_store_with_backups_is_not_begun_anew_unless_asked(closed, folder):
    closed.unlink()
    assert check(closed).state == MISSING
    with pytest.raises(StoreGoneError, match="backups of it are"):
        Store.open(folder)
    assert not closed.exists()
    done = rescue.go_on_with_backup(folder, rescue.offer(folder).backup)
    assert (done.holds.recipes, done.aside) == (RECIPES, None)


def test_a_store_beyond_use_gives_way_to_any_backup_and_is_kept_aside(closed, folder, tmp_path):
    (backup,) = backups(folder)
    closed.write_bytes(b"\0" * 5000)
    done = rescue.go_on_with_copy(folder, backup.path)
    assert (done.holds.recipes, done.aside.read_bytes()) == (RECIPES, b"\0" * 5000)
    assert f"{backup.made:%Y-%m-%d %H:%M}" in done.words
    closed.unlink()
    copy = tmp_path / "everything.db"
    copy.write_bytes(backup.path.read_bytes())
    assert rescue.go_on_with_copy(folder, copy).holds.recipes == RECIPES


def test_a_store_that_may_be_in_use_does_not_give_way(closed, folder, tmp_path):
    (backup,) = backups(folder)
    before = closed.read_bytes()
    with pytest.raises(DesignerError, match=r"not restored.*other windows"):
        rescue.go_on_with_copy(folder, backup.path)
    assert closed.read_bytes() == before
    closed.unlink()
    with pytest.raises(DesignerError):
        rescue.go_on_with_copy(folder, tmp_path / "gone.db")
    assert not closed.exists()


def test_an_empty_box_is_begun_when_asked(closed, folder):
    closed.unlink()
    with Store.open(folder, fresh=True) as store:
        assert store.recipes.count() == 0
        assert len(store.backups()) == 1


def test_a_cut_off_store_is_set_aside_and_salvaged_with_the_backup(closed, folder):
    whole = closed.read_bytes()
    closed.write_bytes(whole[: len(whole) // 2])
    assert check(closed).state == DAMAGED
    offered = rescue.offer(folder)
    assert offered.health.state == DAMAGED
    assert 0 < offered.salvaged.alone.versions < RECIPES
    done = rescue.go_on_with_salvage(folder, offered.backup)
    assert done.aside.read_bytes() == whole[: len(whole) // 2]
    with Store.open(folder) as store:
        assert store.recipes.count() >= RECIPES
        assert [pot.name for pot in store.pots.all()] == ["Kitchen pot"]
        assert len(store.drafts.all()) == 1
        assert store.finder.find('"ale 77"').rows[0].tags == ("t",)
    assert check(closed, deep=True).state == SOUND


def test_a_store_cut_off_without_a_backup_gives_what_can_be_read(closed, folder):
    whole = closed.read_bytes()
    closed.write_bytes(whole[: len(whole) * 3 // 4])
    done = rescue.go_on_with_salvage(folder)
    assert 0 < done.holds.recipes < RECIPES
    assert done.holds.versions == done.holds.recipes
    with Store.open(folder) as store:
        assert store.recipes.newest(store.finder.find("").rows[0].id).document


@pytest.mark.parametrize("where", [0, 16, 28, 100, 5000])
def test_a_store_whose_first_page_is_hurt_is_never_overwritten(closed, folder, where):
    hurt = bytearray(closed.read_bytes())
    hurt[where : where + 12] = b"\xff" * 12
    closed.write_bytes(hurt)
    offered = rescue.offer(folder)
    assert closed.read_bytes() == hurt
    done = rescue.go_on_with_salvage(folder, offered.backup)
    assert done.aside.read_bytes() == hurt
    assert done.holds.recipes >= RECIPES


def test_the_name_of_the_format_is_mended_so_that_all_is_read(closed, folder):
    hurt = bytearray(closed.read_bytes())
    hurt[:16] = bytes(16)
    closed.write_bytes(hurt)
    with pytest.raises(StoreDamagedError, match=r"damaged.*[Ss]et it aside"):
        Store.open(folder)
    assert rescue.go_on_with_salvage(folder).holds.recipes == RECIPES + 1


def test_whatever_bits_turn_nothing_wrong_is_shown_and_a_rescue_works(closed, folder):
    """Random damage: opening and reading either works right or raises what can be shown."""
    whole, backup = closed.read_bytes(), backups(folder)[0]
    with Store.open(folder) as store:
        written = {row.id: store.recipes.newest(row.id).document for row in all_rows(store)}
    chance = random.Random(5)
    refused = 0
    for _ in range(25):
        hurt = bytearray(whole)
        for _ in range(chance.choice((1, 1, 3, 40))):
            hurt[chance.randrange(len(hurt))] ^= 1 << chance.randrange(8)
        closed.write_bytes(hurt)
        for leftover in folder.glob("recipe-box.db-*"):
            leftover.unlink()
        try:
            with Store.open(folder, patience_s=0.0) as store:
                for number, text in written.items():
                    assert store.recipes.newest(number).document == text
        except DesignerError:
            refused += 1
        closed.write_bytes(hurt)
        done = rescue.go_on_with_salvage(folder, backup)
        assert done.holds.recipes >= RECIPES
        assert done.aside.read_bytes() == hurt
        with Store.open(folder) as store:
            kept = {row.id: store.recipes.newest(row.id).document for row in all_rows(store)}
        assert all(kept[number] == written[number] for number in kept)
    assert refused > 0


def all_rows(store):
    return store.finder.find("", limit=500).rows


def test_damage_in_the_middle_loses_only_what_it_covers(closed, folder):
    whole = bytearray(closed.read_bytes())
    at = whole.index(b'"notes": "note 60 ') // 4096 * 4096
    whole[at : at + 4096] = b"\xee" * 4096
    closed.write_bytes(whole)
    done = rescue.go_on_with_salvage(folder)
    assert RECIPES - 8 < done.holds.recipes < RECIPES + 1
    assert done.lost > 0
    assert "could not be read" in done.words


def test_a_turned_bit_in_a_text_is_found_by_the_deep_check_and_mended_from_the_backup(
    closed, folder
):
    whole = closed.read_bytes()
    at = whole.index(b'"notes": "note 60 ') + 10
    closed.write_bytes(whole[:at] + b"vote" + whole[at + 4 :])
    assert check(closed).state == SOUND
    health = check(closed, deep=True)
    assert health.state == DAMAGED
    assert len(health.problems) == 1
    done = rescue.go_on_with_salvage(folder, rescue.offer(folder).backup)
    assert done.holds.recipes == RECIPES + 1
    assert check(closed, deep=True).state == SOUND


def test_another_database_in_its_place_is_left_alone(folder, sql):
    folder.mkdir()
    path = folder / "recipe-box.db"
    sql(path, "create table songs (name)", "insert into songs values ('a')")
    assert check(path).state == FOREIGN
    with pytest.raises(StoreDamagedError, match="not a Recipe box"):
        Store.open(folder)
    assert sql(path, "select * from songs") == [[("a",)]]


def test_a_log_left_without_its_file_does_not_reach_the_new_store(folder, kept, porter, named):
    with Store.open(folder) as store:
        store.recipes.add(named("In the log"), porter)
        log = (folder / "recipe-box.db-wal").read_bytes()
        assert log
    (folder / "recipe-box.db").unlink()
    (folder / "recipe-box.db-wal").write_bytes(log)
    with Store.open(folder) as store:
        assert store.recipes.count() == 0
    assert [path.read_bytes() for path in folder.glob("set-aside/*/*-wal")] == [log]


def test_an_empty_store_can_be_begun_and_the_damaged_one_stays(closed, folder):
    closed.write_bytes(b"garbage" * 1000)
    done = rescue.begin_empty(folder)
    assert done.aside.read_bytes() == b"garbage" * 1000
    with Store.open(folder) as store:
        assert store.recipes.count() == 0


def test_stores_set_aside_at_the_same_second_do_not_overwrite_each_other(closed, folder):
    aside = {rescue.begin_empty(folder).aside for _ in range(4)}
    assert len(aside) == 4
    assert all(each.exists() for each in aside)


def test_a_damaged_backup_is_passed_over_for_an_older_sound_one(closed, folder, named, porter):
    with Store.open(folder) as store:
        newest = store.make_backup(forced=True)
    newest.path.write_bytes(newest.path.read_bytes()[:9000])
    closed.write_bytes(b"")
    assert rescue.offer(folder).backup.number == newest.number - 1
    with pytest.raises(DesignerError):
        rescue.go_on_with_backup(folder, newest)
    assert closed.read_bytes() == b""


def test_nothing_is_left_lying_about_after_a_rescue(closed, folder):
    closed.write_bytes(b"")
    rescue.go_on_with_salvage(folder, rescue.offer(folder).backup)
    assert not list(folder.glob(".new-*"))


def test_a_store_whose_tables_were_made_otherwise_is_refused_and_rescued(closed, folder, sql):
    sql(closed, "alter table recipes rename column batch_l to betch_l")
    assert check(closed).state == DAMAGED
    with pytest.raises(StoreDamagedError, match="tables are not as they were made"):
        Store.open(folder)
    assert rescue.go_on_with_salvage(folder).holds.recipes == RECIPES + 1


def test_a_version_that_damage_gave_to_another_recipe_is_taken_from_the_backup(closed, folder, sql):
    sql(
        closed,
        "update versions set recipe = 40, number = 2 where recipe = 41",
        "update versions set id = 9999 where recipe = 50",
    )
    done = rescue.go_on_with_salvage(folder, rescue.offer(folder).backup)
    assert done.holds.recipes == RECIPES + 1
    with Store.open(folder) as store:
        for number in (40, 41, 50):
            found = store.recipes.newest(number)
            assert f'"name": "Ale {number - 1}"' in found.document
            assert found.number == 1


def test_a_log_cut_off_by_a_crash_leaves_a_sound_store_without_its_last_save(
    folder, tmp_path, named, porter
):
    """What was not yet whole in the log was not confirmed; all before it is there."""
    with Store.open(folder) as store:
        store.recipes.add(named("First"), porter)
        before = (folder / "recipe-box.db-wal").stat().st_size
        store.recipes.add(named("Second"), porter)
        broken = tmp_path / "broken"
        broken.mkdir()
        whole = (folder / "recipe-box.db-wal").read_bytes()
        (broken / "recipe-box.db").write_bytes((folder / "recipe-box.db").read_bytes())
        (broken / "recipe-box.db-wal").write_bytes(whole[: before + 3000])
    with Store.open(broken) as store:
        assert [row.name for row in all_rows(store)] == ["First"]
    assert check(broken / "recipe-box.db", deep=True).state == SOUND
