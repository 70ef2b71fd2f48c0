"""Journals of brews: on the disk with each entry, taken in by the store, gone once it has them."""

import errno
import os

import pytest

from designer.errors import DesignerError
from designer.library.store import Store
from designer.library.store.brew_journal import (
    JOURNAL_FOLDER,
    Journal,
    journals,
    remove_journals,
    take_in,
)
from designer.library.store.brews import new_brew
from designer.library.store.moving import move_box


def entry(number, what="note"):
    return {"id": f"{number:06d}-ab", "at": {"wall": 1.0}, "what": what, "values": {"text": "Foam"}}


@pytest.fixture
def brew(kept):
    return new_brew(kept.document, recipe=kept.recipe, version=kept.id)


@pytest.fixture
def journal(folder, brew):
    made = Journal(folder, brew)
    yield made
    made.close()


def files(folder):
    return sorted((folder / JOURNAL_FOLDER).glob("*"))


def test_what_was_written_is_read_with_the_brew_it_belongs_to(folder, brew, journal):
    journal.append([entry(1, "began")])
    journal.append([entry(2), entry(3)])
    [found] = journals(folder)
    assert found.brew == brew
    assert [each["id"] for each in found.entries] == ["000001-ab", "000002-ab", "000003-ab"]


def test_a_journal_of_a_closed_window_is_taken_in_and_gone(box, folder, brew, journal):
    journal.append([entry(1, "began"), entry(2)])
    journal.close()
    [taken] = take_in(box)
    assert (taken.uid, taken.is_under_way) == (brew.uid, True)
    assert [each.entry for each in box.brews.lines(taken.id)] == [entry(1, "began"), entry(2)]
    assert files(folder) == []


def test_a_journal_that_another_window_writes_is_taken_in_and_stays(box, folder, journal):
    journal.append([entry(1, "began")])
    [taken] = take_in(box)
    assert len(files(folder)) == 1
    journal.append([entry(2)])
    take_in(box)
    assert len(box.brews.lines(taken.id)) == 2


def test_a_journal_goes_once_the_store_has_all_of_it(folder, journal):
    journal.append([entry(1), entry(2)])
    journal.forget(["000001-ab"])
    assert len(files(folder)) == 1
    journal.forget(["000002-ab"])
    assert files(folder) == []
    journal.append([entry(3)])
    assert [each["id"] for each in journals(folder)[0].entries] == ["000003-ab"]


def test_a_line_torn_by_a_power_cut_is_passed_over_and_the_others_are_read(folder, journal):
    journal.append([entry(1), entry(2)])
    journal.close()
    [path] = files(folder)
    whole = path.read_bytes()
    for cut in range(len(whole)):
        path.write_bytes(whole[:cut])
        ended = whole[:cut].count(b"\n") - 1  # the first line is the head
        read = sum(len(each.entries) for each in journals(folder))
        assert max(ended, 0) <= read <= max(ended + 1, 0)
    path.write_bytes(whole.replace(b'"id": "000001', b'"id": \x00\xff0001'))
    assert [each["id"] for each in journals(folder)[0].entries] == ["000002-ab"]


def test_a_full_disk_leaves_nothing_half_written_and_the_next_try_writes_it_all(
    folder, journal, monkeypatch
):
    journal.append([entry(1)])
    really = os.write

    def half(handle, raw):
        if len(raw) < 20:
            raise OSError(errno.ENOSPC, "No space left on device")
        return really(handle, raw[: len(raw) // 2])

    monkeypatch.setattr(os, "write", half)
    with pytest.raises(DesignerError, match="disk is full"):
        journal.append([entry(2)])
    monkeypatch.setattr(os, "write", really)
    journal.append([entry(2)])
    [found] = journals(folder)
    assert [each["id"] for each in found.entries] == ["000001-ab", "000002-ab"]
    assert files(folder)[0].read_text().count("\n") == 3


def test_a_journal_whose_file_was_taken_away_is_written_anew_with_all_of_it(folder, journal):
    journal.append([entry(1)])
    files(folder)[0].unlink()
    journal.append([entry(2)])
    [found] = journals(folder)
    assert [each["id"] for each in found.entries] == ["000001-ab", "000002-ab"]


def test_a_store_that_is_only_read_leaves_the_journals_where_they_are(box, folder, journal):
    journal.append([entry(1)])
    journal.close()
    box.connection.read_only = "The disk is read-only."
    assert take_in(box) == []
    assert len(files(folder)) == 1


@pytest.mark.parametrize("left", [b"", b'{"brew": {"uid": "5'])
def test_a_journal_killed_with_its_first_line_is_cleared_away(box, folder, journal, left):
    (folder / JOURNAL_FOLDER).mkdir(parents=True)
    (folder / JOURNAL_FOLDER / "torn.jsonl").write_bytes(left)
    assert take_in(box) == []
    assert files(folder) == []


def test_a_brew_killed_before_its_first_entry_was_never_begun(box, folder, journal):
    journal.append([])
    journal.close()
    assert take_in(box) == box.brews.all() == files(folder) == []


def test_what_is_no_journal_stays_and_harms_nothing(box, folder, journal):
    journal.append([entry(1)])
    journal.close()
    (folder / JOURNAL_FOLDER / "mine.jsonl").write_text('[1]\n{"brew": {"uid": 3}}\nfoam\n')
    assert len(take_in(box)) == 1
    assert [path.name for path in files(folder)] == ["mine.jsonl"]


def test_a_box_that_moves_takes_what_was_not_in_it_yet_along(
    box, folder, journal, tmp_path, monkeypatch
):
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path / "settings"))
    journal.append([entry(1, "began")])
    journal.close()
    moved = move_box(folder, tmp_path / "stick")
    with Store.open(moved.folder) as there:
        [brew] = there.brews.under_way()
        assert [each.entry for each in there.brews.lines(brew.id)] == [entry(1, "began")]
    assert len(files(folder)) == 1, "what lies in the folder before stays as it is"


def test_a_deleted_brew_does_not_come_back_from_its_journal(box, folder, brew, journal):
    journal.append([entry(1)])
    journal.close()
    remove_journals(folder, brew.uid)
    assert take_in(box) == []


def test_a_brew_begun_before_its_version_was_kept_is_put_to_its_recipe(folder, kept):
    with Store.open(folder) as box:
        loose = box.brews.put(new_brew(kept.document), [entry(1, "began")])
        assert box.recipes.row(kept.recipe).last_brewed == ""
        found = box.brews.put(
            new_brew(kept.document).__class__(
                0, kept.recipe, kept.id, loose.name, loose.started, "", loose.document, loose.uid
            )
        )
        assert (found.id, found.recipe, found.version) == (loose.id, kept.recipe, kept.id)
        assert box.recipes.row(kept.recipe).last_brewed == loose.started[:10]
