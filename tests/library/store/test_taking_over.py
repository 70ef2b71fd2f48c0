"""A copy from outside brings rows and nothing else: no code, no stranger, no other's file."""

import json
import os
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.store import Draft, Store, rescue
from designer.library.store.backup_files import Backup, backups
from designer.library.store.faults import StoreDamagedError
from designer.library.store.health import DAMAGED, SOUND, check

WIPE = (
    "create trigger wipe after insert on drafts begin delete from versions; delete from recipes;"
    " end"
)
STRANGERS = {
    WIPE: "a trigger “wipe”",
    "create view sums as select count(*) from versions": "a view “sums”",
    "create table songs (name)": "a table “songs”",
    "create table songs (n, twice generated always as (n * 2))": "a table “songs”",
    "create virtual table other using fts5 (words)": "a table “other”",
    "create index odd on versions (abs(number))": "an index “odd”",
}
OLD_STORES = sorted((Path(__file__).parents[2] / "old_stores").glob("*.db"))


@pytest.fixture
def copy(box, kept, named, porter, tmp_path):
    """A copy of everything: the porter in two versions, a draft that belongs to a file."""
    box.recipes.save(kept.recipe, named("Harbour Lamp Porter, browner"), porter, base=kept.id)
    box.drafts.put(Draft("w1", named("Edited")))
    box.preferences.put("path w1", "/home/someone/mash.hobwort")
    box.preferences.put("shown units", "both")
    path = tmp_path / "everything.db"
    box.copy_everything(path)
    return path


@pytest.fixture
def mine(tmp_path, named, porter):
    """Another kitchen's box, with a recipe of its own."""
    with Store.open(tmp_path / "mine") as store:
        store.recipes.add(named("My own"), porter)
        yield store


def names(store):
    return sorted(row.name for row in store.finder.find("").rows)


@pytest.mark.parametrize("stranger", STRANGERS)
def test_what_a_copy_holds_besides_recipes_is_refused_by_name(copy, mine, sql, stranger):
    sql(copy, stranger)
    assert check(copy).state == DAMAGED
    with pytest.raises(StoreDamagedError, match="cannot be restored") as told:
        mine.bring_back(copy)
    assert STRANGERS[stranger] in str(told.value)
    assert names(mine) == ["My own"]
    mine.drafts.put(Draft("w9", mine.recipes.newest(1).document))
    assert mine.recipes.count() == 1


@pytest.mark.parametrize(
    ("table", "old", "new"),
    [
        ("versions", "document text not null", "document text not null check (length(document))"),
        ("recipes", "count integer not null default 0", "count integer not null default (1 + 1)"),
        ("pots", "coil text not null", "coil text not null, more as (abs(id))"),
    ],
)
def test_a_known_table_with_an_expression_in_it_is_refused(copy, mine, sql, table, old, new):
    sql(
        copy,
        "pragma writable_schema=on",
        f"update sqlite_master set sql = replace(sql, '{old}', '{new}') where name = '{table}'",
    )
    with pytest.raises(StoreDamagedError, match=f"“{table}”, made otherwise"):
        mine.bring_back(copy)
    assert names(mine) == ["My own"]


def test_only_rows_are_taken_over_into_a_store_freshly_made(copy, mine, kept):
    mine.bring_back(copy)
    assert names(mine) == ["Harbour Lamp Porter, browner"]
    assert mine.recipes.newest(kept.recipe).number == 2
    assert mine.finder.find("browner").rows[0].id == kept.recipe
    assert [draft.window for draft in mine.drafts.all()] == ["w1"]
    assert mine.preferences.get("shown units") == "both"
    assert check(mine.path, deep=True).state == SOUND


def test_a_copy_from_elsewhere_does_not_say_which_file_a_draft_belongs_to(copy, mine, box):
    mine.bring_back(copy)
    assert mine.preferences.get("path w1") is None
    made = box.make_backup(forced=True)
    box.bring_back(made.path)
    assert box.preferences.get("path w1") == "/home/someone/mash.hobwort"


def test_a_text_that_is_no_recipe_and_a_number_without_a_next_one_are_left_out(
    copy, mine, sql, kept
):
    from designer.library.store.documents import digest

    sql(
        copy,
        f"update versions set document = '[1]', digest = '{digest(kept.recipe, 2, '[1]')}'"
        " where number = 2",
        "update drafts set document = 'no recipe'",
        f"update pots set id = {2**63 - 1}",
        "update sqlite_sequence set seq = 9223372036854775807",
    )
    mine.bring_back(copy)
    assert mine.recipes.newest(kept.recipe) == kept
    assert mine.drafts.all() == []
    assert mine.recipes.duplicate(kept.recipe).recipe > kept.recipe


def test_numbers_go_on_where_the_other_box_was(copy, mine, box, kept, named, porter, tmp_path):
    gone = box.recipes.add(named("Deleted for good"), porter).recipe
    box.trash.put([gone])
    box.trash.delete([gone])
    box.copy_everything(copy)
    mine.bring_back(copy)
    new = mine.recipes.add(named("The next"), porter).recipe
    assert new > gone
    assert mine.finder.find("").rows[0].id == new


def test_bringing_a_copy_back_can_be_taken_back(copy, mine):
    before = mine.bring_back(copy)
    mine.bring_back(before.path)
    assert names(mine) == ["My own"]


@pytest.mark.parametrize("old", OLD_STORES, ids=[path.stem for path in OLD_STORES])
def test_a_backup_of_an_earlier_release_comes_back_with_everything(old, mine, tmp_path):
    taken = tmp_path / "old.db"
    shutil.copy(old, taken)
    mine.bring_back(taken)
    assert len(mine.finder.find("").rows) == 2
    assert mine.pots.all()[0].evaporation == "0.9 L/h"
    assert mine.brews.lines(mine.brews.all()[0].id)[0].entry["gravity"] == "1.048"
    assert all(each.uid for each in mine.brews.all())
    assert mine.drafts.all()[0].position == 1
    assert mine.recipes.count(trashed=True) == 1
    assert taken.read_bytes() == old.read_bytes()
    assert check(mine.path, deep=True).state == SOUND


def test_after_damage_a_backup_with_a_trigger_is_not_put_in_place(box, kept, folder, sql):
    made = box.make_backup(forced=True)
    box.close()
    sql(made.path, WIPE)
    (folder / "recipe-box.db").write_bytes(b"\0" * 5000)
    assert rescue.offer(folder).backup is None
    for go_on in (
        lambda: rescue.go_on_with_backup(folder, backups(folder)[0]),
        lambda: rescue.go_on_with_copy(folder, made.path),
        lambda: rescue.go_on_with_backup(folder, Backup(made.path, 0, made.made)),
    ):
        with pytest.raises(StoreDamagedError, match="a trigger “wipe”"):
            go_on()
    assert (folder / "recipe-box.db").read_bytes() == b"\0" * 5000


def test_a_box_that_holds_a_trigger_is_not_opened_and_its_recipes_are_saved_without_it(
    box, kept, folder, sql
):
    box.close()
    sql(folder / "recipe-box.db", WIPE)
    with pytest.raises(StoreDamagedError, match=r"a trigger “wipe”.*what can still be read"):
        Store.open(folder)
    assert rescue.go_on_with_salvage(folder).holds.recipes == 1
    with Store.open(folder) as store:
        store.drafts.put(Draft("w1", kept.document))
        assert store.recipes.newest(kept.recipe).document == kept.document


@pytest.mark.parametrize("way", ["itself", "relative", "symlink", "hard link", "log", "index"])
def test_everything_is_not_copied_onto_the_box_itself(
    box, kept, folder, tmp_path, monkeypatch, way
):
    monkeypatch.chdir(folder)
    target = {
        "itself": box.path,
        "relative": Path("../kitchen/recipe-box.db"),
        "symlink": tmp_path / "link.db",
        "hard link": tmp_path / "hard.db",
        "log": Path(f"{box.path}-wal"),
        "index": Path(f"{box.path}-shm"),
    }[way]
    if way == "symlink":
        target.symlink_to(box.path)
    elif way == "hard link":
        os.link(box.path, target)
    with pytest.raises(DesignerError, match="is the Recipe box itself"):
        box.copy_everything(target)
    assert box.recipes.newest(kept.recipe) == kept
    with Store.open(folder) as other:
        assert json.loads(other.recipes.newest(kept.recipe).document)["name"]


def test_a_schema_whose_words_are_no_texts_is_refused_in_words(copy, mine):
    with closing(sqlite3.connect(copy)) as conn:
        conn.execute("create table songs (name)")
        conn.execute("pragma writable_schema = on")
        conn.execute("update sqlite_master set sql = cast(sql as blob) where name = 'songs'")
        conn.commit()
    with pytest.raises(DesignerError) as told:
        mine.bring_back(copy)
    assert "songs" in str(told.value)
    assert names(mine) == ["My own"]
