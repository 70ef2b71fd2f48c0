"""What a kitchen taught, as the store keeps it: with its vessel, through backup and rescue."""

import sqlite3

import pytest

from designer.errors import DesignerError
from designer.library.store import Store, rescue, taught_figures
from designer.library.store.faults import StoreReadOnlyError
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.library.store.taught_figures import Does, OfVessel, TaughtRow

EVAPORATION = OfVessel("pots", "evaporation")
TOOK = TaughtRow("evaporation", "Kitchen pot", Does.TOOK, "1.04 L/h ± 9 %")
BREWS = ("5704e", "5704f")


@pytest.fixture
def kitchen(box):
    box.pots.insert(PotRecord("Kitchen pot", "9 L", evaporation="0.9 L/h", notes="dented"))
    box.pots.insert(PotRecord("Stock pot", "15 L"))
    box.fermenters.insert(FermenterRecord("Small bucket", "12 L", marks_hold="102 % ± 1 %"))
    return box


def evaporations(store):
    return {pot.name: pot.evaporation for pot in store.pots.all()}


def test_what_is_taken_stands_with_its_vessel_and_in_the_list_in_one_step(kitchen):
    token = kitchen.changes_since().token
    done = kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    assert done.before == "0.9 L/h"
    assert done.rests_on == BREWS
    assert evaporations(kitchen) == {"Kitchen pot": "1.04 L/h ± 9 %", "Stock pot": ""}
    assert kitchen.pots.all()[0].notes == "dented"
    assert kitchen.taught.all() == [done]
    changes = kitchen.changes_since(token)
    assert changes.keys("taught") == {done.id}
    assert changes.keys("pots") == {1}


def test_the_last_that_was_done_counts_and_nothing_that_was_done_is_lost(kitchen):
    kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    back = TaughtRow("evaporation", "Kitchen pot", Does.GAVE_BACK, "0.9 L/h")
    kitchen.taught.write(back, EVAPORATION)
    assert evaporations(kitchen)["Kitchen pot"] == "0.9 L/h"
    assert [each.does for each in kitchen.taught.all()] == [Does.TOOK, Does.GAVE_BACK]
    assert kitchen.taught.last()["evaporation", "Kitchen pot"].does == Does.GAVE_BACK


def test_a_vessel_that_was_thrown_away_is_no_fault(kitchen):
    kitchen.pots.delete(1)
    kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    assert evaporations(kitchen) == {"Stock pot": ""}


def test_where_the_list_cannot_be_written_the_vessel_stays_as_it_was(kitchen, monkeypatch):
    def full(db, table, values):
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(taught_figures, "inserted", full)
    with pytest.raises(DesignerError):
        kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    assert evaporations(kitchen)["Kitchen pot"] == "0.9 L/h"
    assert kitchen.taught.all() == []


def test_names_of_brews_that_were_damaged_are_none():
    for text in ("", "{", "5", '{"a": 1}'):
        assert TaughtRow("evaporation", "", Does.TOOK, brews=text).rests_on == ()


def test_it_is_in_every_backup_and_comes_back_with_one(kitchen):
    done = kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    backup = kitchen.make_backup(forced=True)
    kitchen.taught.write(TaughtRow("evaporation", "Kitchen pot", Does.GAVE_BACK), EVAPORATION)
    kitchen.bring_back(backup.path)
    assert kitchen.taught.all() == [done]
    assert evaporations(kitchen)["Kitchen pot"] == "1.04 L/h ± 9 %"
    assert kitchen.fermenters.all()[0].marks_hold == "102 % ± 1 %"


def test_it_is_saved_out_of_a_box_whose_schema_is_lost(kitchen, folder):
    done = kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    path = kitchen.path
    kitchen.connection.db.conn.execute("pragma wal_checkpoint(truncate)")
    kitchen.close()
    whole = bytearray(path.read_bytes())
    whole[100:4096] = bytes(3996)
    path.write_bytes(whole)
    rescue.go_on_with_salvage(folder)
    with Store.open(folder) as store:
        assert store.taught.all() == [done]
        assert store.fermenters.all()[0].marks_hold == "102 % ± 1 %"


def test_a_box_that_cannot_be_written_is_read(kitchen):
    done = kitchen.taught.write(TOOK, EVAPORATION, BREWS)
    kitchen.connection.read_only = "The drive is read-only."
    assert kitchen.taught.all() == [done]
    with pytest.raises(StoreReadOnlyError):
        kitchen.taught.write(TOOK, EVAPORATION)
