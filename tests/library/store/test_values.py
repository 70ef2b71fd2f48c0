"""How a row of the box becomes a record."""

from datetime import date

import pytest

from designer.library.store.brews import Brew
from designer.library.store.kitchen import CupboardRecord
from designer.library.store.values import Draft, from_row

BREW = {"id": 3, "recipe": 2, "version": 5, "name": "Porter", "started": "2026-03-01",
        "finished": "2026-03-15", "document": "{}",
        "uid": "f00d", "file": "", "mark": 0, "packaged": None,
        "ready": None, "is_under_way": 0}  # fmt: skip


def test_each_field_comes_from_the_column_of_its_name():
    assert from_row(Brew, {**BREW, "other": 1}) == Brew(
        3, 2, 5, "Porter", "2026-03-01", "2026-03-15", "{}", "f00d"
    )


def test_what_is_null_counts_as_none_of_its_kind():
    found = from_row(Brew, {**BREW, "recipe": None, "version": None, "finished": None})
    assert (found.recipe, found.version, found.finished) == (0, 0, "")


def test_dates_and_marks_are_read_and_an_unreadable_date_is_not_known():
    row = dict.fromkeys(("kind", "amount", "price", "alpha", "lot", "notes"), "")
    row |= {"id": 1, "name": "Challenger", "bought": "2026-01-31", "best_before": "soon"}
    found = from_row(CupboardRecord, {**row, "open_bag": 1})
    assert (found.bought, found.best_before, found.open_bag) == (date(2026, 1, 31), None, True)
    assert from_row(CupboardRecord, {**row, "bought": None, "open_bag": 0}).open_bag is False


def test_what_is_given_is_not_looked_for_in_the_row():
    row = {"window": "w", "document": "{}", "recipe": 1, "base": None, "saved": "", "id": 9}
    found = from_row(Draft, row, undo=("{}",), position=0, phrases=("",), number=row["id"])
    assert (found.number, found.base, found.undo) == (9, 0, ("{}",))
    with pytest.raises(KeyError):
        from_row(Draft, row)
