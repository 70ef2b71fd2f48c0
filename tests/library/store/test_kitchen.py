"""Vessels, the cupboard, preferences and brew logs."""

import json
from dataclasses import replace
from datetime import date

import pytest

from designer.library.store import Store
from designer.library.store.faults import NotInStoreError
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord

BAG = CupboardRecord(
    name="Challenger",
    kind="hop",
    amount="85 g",
    price="4,20 €",
    alpha="7.2 %",
    lot="B-17",
    bought=date(2026, 1, 31),
    best_before=date(2028, 6, 1),
    open_bag=True,
)


def test_vessels_and_the_cupboard_are_there_after_the_box_was_closed(folder):
    with Store.open(folder) as store:
        pot = store.pots.insert(PotRecord("Kitchen pot", volume="9 L", evaporation="0.9 L/h"))
        bucket = store.fermenters.insert(FermenterRecord("Small bucket", "12 L", "1 L", "bucket"))
        bag = store.cupboard.insert(BAG)
    with Store.open(folder) as store:
        assert store.pots.all() == [pot]
        assert store.fermenters.all() == [bucket]
        assert store.cupboard.all() == [bag]
        assert replace(store.cupboard.get(bag.id), id=0) == BAG


def test_two_windows_that_change_different_fields_both_keep_their_change(box):
    bag = box.cupboard.insert(BAG)
    box.cupboard.update(bag, replace(bag, amount="65 g"))
    now = box.cupboard.update(bag, replace(bag, alpha="6.8 %"))
    assert (now.amount, now.alpha) == ("65 g", "6.8 %")
    assert box.cupboard.all() == [now]


def test_new_things_are_numbered_from_one(box):
    assert [box.pots.insert(PotRecord("Kitchen pot")).id for _ in range(2)] == [1, 2]


def test_what_was_deleted_comes_back_under_its_number(box):
    pot = box.pots.insert(PotRecord("Kitchen pot"))
    box.pots.delete(pot.id)
    assert box.pots.get(pot.id) is None
    assert box.pots.insert(pot) == pot
    other = box.pots.insert(pot)
    assert other.id != pot.id


def test_a_record_that_another_window_deleted_comes_back_with_its_change(box):
    pot = box.pots.insert(PotRecord("Kitchen pot"))
    box.pots.delete(pot.id)
    assert box.pots.update(pot, replace(pot, volume="10 L")) == replace(pot, volume="10 L")


def test_a_date_that_cannot_be_read_counts_as_not_known(box, sql):
    bag = box.cupboard.insert(BAG)
    sql(box.path, "update cupboard set bought = 'last spring'")
    assert box.cupboard.get(bag.id).bought is None


@pytest.mark.parametrize("value", ["us", 1.5, True, ["a", "b"], {"x": 1}, "ビール"])
def test_a_preference_is_what_was_put(box, value):
    box.preferences.put("shown units", value)
    assert box.preferences.get("shown units") == value


def test_a_preference_not_put_is_the_usual_one(box):
    box.preferences.put("paper", "a4")
    box.preferences.put("paper", None)
    assert box.preferences.get("paper", "letter") == "letter"


def test_a_brew_day_is_logged_line_by_line_and_dates_its_recipe(box, kept):
    brew = box.brews.start(kept, started="2026-03-01T09:00:00+00:00")
    box.brews.append(brew.id, {"what": "reading", "gravity": "1.048", "temperature": "24 °C"})
    box.brews.append(brew.id, {"what": "note", "text": "Foam at 98 °C"})
    done = {"id": "last", "what": "finished", "at": {"wall": 1773597600.0}}
    box.brews.append(brew.id, done)
    lines = [json.loads(line) for line in box.brews.as_text(brew.id).splitlines()]
    assert [line["what"] for line in lines] == ["reading", "note", "finished"]
    assert all(line["at"] for line in lines)
    assert box.brews.get(brew.id).finished == "2026-03-15T18:00:00+00:00"
    assert box.recipes.row(kept.recipe).last_brewed == "2026-03-01"


def test_the_last_brew_is_the_latest_day_even_if_an_older_one_is_typed_in_later(box, kept):
    box.brews.start(kept, started="2026-03-01T09:00:00+00:00")
    box.brews.start(kept, started="2025-11-01T09:00:00+00:00")
    assert box.recipes.row(kept.recipe).last_brewed == "2026-03-01"
    assert [row.id for row in box.finder.find(order="brewed").rows] == [kept.recipe]


def test_a_log_outlives_its_recipe(box, kept):
    brew = box.brews.start(kept)
    box.trash.put([kept.recipe])
    box.trash.empty()
    assert box.brews.get(brew.id).document == kept.document
    assert box.brews.all(kept.recipe) == box.brews.all() == [brew]


def test_a_deleted_log_is_gone_with_its_lines(box, kept, sql):
    brew = box.brews.start(kept)
    box.brews.append(brew.id, {"what": "note"})
    box.brews.delete(brew.id)
    assert sql(box.path, "select count(*) from brew_lines") == [[(0,)]]
    with pytest.raises(NotInStoreError, match="brew log"):
        box.brews.append(brew.id, {"what": "note"})
