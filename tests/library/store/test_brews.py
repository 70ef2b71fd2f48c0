"""Brew logs that are written beside the stove: each entry once, whoever writes it, how often."""

import pytest

from designer.library.store.brews import new_brew
from designer.library.store.faults import NotInStoreError

NOON = 1_772_366_400.0  # 2026-03-01 12:00 UTC


def line(number, what, at=NOON, **values):
    return {"id": f"{number:06d}-ab", "at": {"wall": at}, "what": what, "values": values}


@pytest.fixture
def brew(kept):
    return new_brew(
        kept.document, recipe=kept.recipe, version=kept.id, started="2026-03-01T12:00:00+00:00"
    )


def test_an_entry_written_twice_is_there_once(box, brew):
    first, second = line(1, "began"), line(2, "note", text="Foam at 98 °C")
    box.brews.put(brew, [first])
    there = box.brews.put(brew, [first, second])
    assert [each.entry for each in box.brews.lines(there.id)] == [first, second]
    box.brews.append(there.id, second)
    assert len(box.brews.lines(there.id)) == 2
    assert box.brews.all() == [there]


def test_two_brews_may_have_entries_of_the_same_name(box, brew, kept):
    box.brews.put(brew, [line(1, "began")])
    other = box.brews.put(new_brew(kept.document, recipe=kept.recipe), [line(1, "began")])
    assert len(box.brews.lines(other.id)) == 1
    assert len(box.brews.under_way()) == 2


def test_a_brew_of_a_file_outside_the_box_says_where_that_lay(box, kept):
    brew = box.brews.put(new_brew(kept.document, file="/home/brewer/porter.hobwort"))
    assert (brew.recipe, brew.version) == (0, 0)
    assert box.brews.by_uid(brew.uid).file == "/home/brewer/porter.hobwort"


def test_a_brew_is_under_way_from_its_first_entry_to_pitched_yeast(box, brew):
    assert box.brews.put(brew).is_under_way is False
    assert box.brews.put(brew, [line(1, "began")]).is_under_way
    assert [each.uid for each in box.brews.under_way()] == [brew.uid]
    over = box.brews.put(brew, [line(2, "finished", NOON + 5 * 3600)])
    assert (over.finished, over.is_under_way) == ("2026-03-01T17:00:00+00:00", False)
    assert box.brews.put(brew, [line(3, "takes back", entry="000002-ab")]).is_under_way
    redone = box.brews.put(brew, [line(4, "takes back", entry="000003-ab")])
    assert redone.finished == over.finished


def test_the_mark_of_a_brew_is_that_of_its_last_tasting(box, brew):
    box.brews.put(brew, [line(1, "began"), line(2, "tasted", mark=3, text="Young")])
    tasted = box.brews.put(brew, [line(3, "tasted", mark=5, text="Round")])
    assert tasted.mark == 5
    corrected = line(4, "corrects", entry="000003-ab", values={"mark": 4})
    assert box.brews.put(brew, [corrected]).mark == 4
    assert box.brews.put(brew, [line(5, "takes back", entry="000003-ab")]).mark == 3


@pytest.mark.parametrize("values", [{"mark": 9}, {"mark": "four"}, {}, {"mark": None}])
def test_a_mark_that_is_none_counts_as_not_tasted(box, brew, values):
    assert box.brews.put(brew, [line(1, "tasted", **values)]).mark == 0


def test_once_a_brew_is_deleted_its_recipe_was_brewed_when_the_others_were(box, brew, kept):
    earlier = box.brews.start(kept, started="2025-11-01T09:00:00+00:00")
    later = box.brews.put(brew)
    box.brews.delete(later.id)
    assert box.recipes.row(kept.recipe).last_brewed == "2025-11-01"
    box.brews.delete(earlier.id)
    assert box.recipes.row(kept.recipe).last_brewed == ""
    with pytest.raises(NotInStoreError, match="brew log"):
        box.brews.by_uid(later.uid)


def test_brews_of_a_backup_keep_their_lasting_names(box, brew):
    uid = box.brews.put(brew, [line(1, "began")]).uid
    backup = box.make_backup(forced=True)
    box.brews.put(brew, [line(2, "finished")])
    box.bring_back(backup.path)
    [found] = box.brews.under_way()
    assert found.uid == uid
    assert box.brews.put(brew, [line(1, "began"), line(2, "finished")]).id == found.id
