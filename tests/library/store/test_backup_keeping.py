"""How much room backups may take, and copies of them on another disk."""

from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.store import Store
from designer.library.store.backup_files import backups, backups_in, room_for
from designer.library.store.backup_keeping import (
    FILE,
    ROOMS_MB,
    BackupKeeping,
    copied_elsewhere,
    keep_so,
    keeping_of,
    place_of_copies,
)


def test_what_was_chosen_is_heeded_by_whoever_makes_the_next_backup(box, kept, named, monkeypatch):
    keep_so(box.folder, BackupKeeping(room_mb=200))
    assert keeping_of(box.folder) == BackupKeeping(200)
    assert room_for(10, keeping_of(box.folder).room_bytes) == 200_000_000
    assert room_for(10, BackupKeeping().room_bytes) == 1_000_000_000
    monkeypatch.setattr(BackupKeeping, "room_bytes", 1)  # no room but for one
    for _ in range(3):
        box.make_backup(forced=True)
    assert len(backups(box.folder)) == 1


def test_each_backup_is_copied_and_old_copies_go_but_nothing_else(box, kept, tmp_path):
    disk = tmp_path / "disk"
    disk.mkdir()
    keep_so(box.folder, BackupKeeping(elsewhere=str(disk)))
    place = place_of_copies(box.folder, disk)
    first = box.make_backup(forced=True)
    assert copied_elsewhere(box.folder, first) == ""
    assert (place / first.path.name).read_bytes() == first.path.read_bytes()
    (place / "letter.txt").write_text("mine")
    another = disk / "000001-2026-01-01-000000.db"  # of another box, beside ours
    another.write_text("another's")
    first.path.unlink()
    second = box.make_backup(forced=True)
    assert copied_elsewhere(box.folder, second) == ""
    assert [each.path.name for each in backups_in(place)] == [second.path.name]
    assert sorted(each.name for each in place.iterdir()) == [second.path.name, "letter.txt"]
    assert another.exists()
    with Store.open(tmp_path / "new") as store:
        store.bring_back(place / second.path.name)  # a copy is a backup like any other
        assert store.finder.find("").rows


def test_two_boxes_on_one_disk_have_folders_of_their_own(tmp_path):
    one, other = (place_of_copies(tmp_path / name, tmp_path / "disk") for name in ("a", "b"))
    assert one != other


@pytest.mark.parametrize("missing", [True, False])
def test_why_there_is_no_copy_is_said_and_the_backup_is_there(box, kept, tmp_path, missing):
    disk = tmp_path / "disk"
    if not missing:
        disk.mkdir()
        place_of_copies(box.folder, disk).write_text("a file where the folder should be")
    keep_so(box.folder, BackupKeeping(elsewhere=str(disk)))
    made = box.make_backup(forced=True)
    said = copied_elsewhere(box.folder, made)
    assert str(disk) in said
    assert "choose another" in said
    assert made.path.exists()


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", "7", '{"room_mb": 3, "elsewhere": ""}', '{"room_mb": 200}',
     '{"room_mb": "200", "elsewhere": ""}', '{"room_mb": 200, "elsewhere": "a\\u0000b"}',
     "[" * 50_000],
)  # fmt: skip
def test_what_cannot_be_read_is_as_usual(tmp_path, text):
    (tmp_path / "backups").mkdir()
    (tmp_path / "backups" / FILE).write_text(text)
    assert keeping_of(tmp_path) == BackupKeeping()
    assert 0 in ROOMS_MB


def test_a_choice_that_cannot_be_written_is_refused_in_words(tmp_path):
    (tmp_path / "backups").write_text("no folder")
    with pytest.raises(DesignerError) as told:
        keep_so(tmp_path, BackupKeeping(200))
    assert str(Path("backups")) in str(told.value)
