"""Why a Recipe box cannot be where it should: one sentence, and it names the reason."""

import errno
import os
import stat
import sys
from contextlib import suppress

import pytest

from designer.errors import DesignerError
from designer.library.store import Store, rescue, store_folder
from designer.library.store import folder as folders
from designer.library.store.backup_files import backups
from designer.library.store.faults import (
    StoreForbiddenError,
    StoreGoneError,
    StoreReadOnlyError,
)
from designer.library.store.folder_check import folder_fault
from designer.library.store.shop import shop_packs_on_disk

posix = pytest.mark.skipif(sys.platform == "win32", reason="rights are told by POSIX modes here")

AS_SOMEONE = (
    "import os, sys; from pathlib import Path\n"
    "import sqlite_utils, sqlite_utils.migrations, tempfile, shutil\n"
    "from designer.errors import DesignerError\n"
    "from designer.library.store import Store, rescue, backups\n"
    "from designer.library.store.folder_check import folder_fault\n"
    "if os.geteuid() == 0: os.setuid(65534)\n"
    "folder = Path(sys.argv[1])\n"
    "for what in (lambda: Store.open(folder).close(), lambda: rescue.offer(folder),\n"
    "             lambda: rescue.begin_empty(folder), lambda: rescue.go_on_with_salvage(folder),\n"
    "             lambda: rescue.go_on_with_copy(folder, folder / 'x.db'),\n"
    "             lambda: backups.newest_sound(folder)):\n"
    "    try:\n"
    "        found = what()\n"
    "        print('done', getattr(getattr(found, 'fault', None), '__class__', ''))\n"
    "    except DesignerError as fault:\n"
    "        print(type(fault).__name__, fault)\n"
)


@pytest.fixture
def reachable(tmp_path):
    """A folder that anyone can reach."""
    changed = []
    for parent in (tmp_path, *tmp_path.parents):
        mode = parent.stat().st_mode
        if parent.owner() == "root" and not mode & stat.S_IXOTH:
            parent.chmod(mode | stat.S_IRWXG | stat.S_IRWXO)
            changed.append((parent, mode))
    yield tmp_path
    for path in tmp_path.rglob("*"):
        with suppress(OSError):
            path.chmod(0o755)


@posix
@pytest.mark.parametrize("with_box", [True, False])
def test_a_folder_without_permission_is_told_so_by_all_that_would_use_it(
    reachable, run_python, with_box, porter_text, porter
):
    folder = reachable / "closed"
    folder.mkdir()
    if with_box:
        with Store.open(folder) as store:
            store.recipes.add(porter_text, porter)
    folder.chmod(0)
    ran = run_python(AS_SOMEONE, folder)
    assert ran.returncode == 0, ran.stderr
    lines = ran.stdout.splitlines()
    assert len(lines) == 6
    assert lines[0].startswith("StoreForbiddenError")
    assert lines[1] == "done <class 'designer.library.store.faults.StoreForbiddenError'>"
    for line in (lines[0], *lines[2:]):
        assert "no permission for" in line, line
        assert "is not there" not in line
        assert str(folder) in line


@posix
def test_a_folder_that_may_not_be_written_and_has_no_box_names_the_permission(
    reachable, run_python
):
    folder = reachable / "shown only"
    folder.mkdir()
    folder.chmod(0o555)
    ran = run_python(AS_SOMEONE, folder)
    assert "no permission for" in ran.stdout.splitlines()[0], ran.stdout + ran.stderr


@posix
def test_a_file_that_may_not_be_read_names_the_permission(reachable, run_python, porter_text):
    folder = reachable / "box"
    Store.open(folder).close()
    folder.chmod(0o755)
    (folder / "recipe-box.db").chmod(0)
    ran = run_python(AS_SOMEONE, folder)
    first = ran.stdout.splitlines()[0]
    assert first.startswith("StoreForbiddenError"), ran.stdout + ran.stderr
    assert "recipe-box.db" in first


def test_a_drive_that_is_not_connected_is_told_so(tmp_path):
    fault = folder_fault(tmp_path / "drive" / "box")
    assert isinstance(fault, StoreGoneError)
    assert "its drive may not be connected" in str(fault)
    (tmp_path / "drive").mkdir()
    assert folder_fault(tmp_path / "drive" / "box") is None


def test_a_file_where_the_folder_should_be_is_named(tmp_path):
    (tmp_path / "file").write_text("x")
    for folder in (tmp_path / "file", tmp_path / "file" / "below" / "it"):
        told = str(folder_fault(folder))
        assert f"{tmp_path / 'file'} is a file" in told
        assert "choose another folder" in told


def test_a_box_that_was_there_and_is_gone_is_not_begun_anew(folder):
    Store.open(folder).close()
    (folder / "recipe-box.db").unlink()
    with pytest.raises(StoreGoneError, match="is not there: its drive"):
        Store.open(folder, expected=True)
    assert not (folder / "recipe-box.db").exists()
    folder.rename(folder.with_name("vanished"))
    with pytest.raises(StoreGoneError):
        Store.open(folder, expected=True)
    assert not folder.exists()
    folder.with_name("vanished").rename(folder)
    Store.open(folder, expected=True, fresh=True).close()


def test_a_read_only_disk_is_named_where_a_box_would_be_made(folder, monkeypatch):
    def read_only(*_words, **_more):
        raise OSError(errno.EROFS, "Read-only file system")

    folder.mkdir()
    monkeypatch.setattr("tempfile.mkstemp", read_only)
    with pytest.raises(StoreReadOnlyError, match="the disk is read-only"):
        Store.open(folder)


@pytest.mark.parametrize("code", [errno.EACCES, errno.EPERM, errno.EIO, errno.ENOSPC, errno.ENOENT])
@pytest.mark.parametrize(
    "where", ["os.rename", "os.link", "tempfile.mkstemp", "pathlib.Path.iterdir"]
)
def test_no_fault_of_the_system_comes_out_of_a_rescue_as_such(
    folder, kept, box, monkeypatch, code, where
):
    box.make_backup()
    box.close()
    content = (folder / "recipe-box.db").read_bytes()
    (folder / "recipe-box.db").write_bytes(content[: len(content) // 2])

    def failing(*_words, **_more):
        raise OSError(code, os.strerror(code), str(folder / "x"))

    backup = backups(folder)[0]
    monkeypatch.setattr(where, failing)
    for work in (
        lambda: rescue.offer(folder),
        lambda: rescue.begin_empty(folder),
        lambda: rescue.go_on_with_salvage(folder, backup),
        lambda: rescue.go_on_with_backup(folder, backup),
    ):
        with suppress(DesignerError):
            work()


# another folder, chosen


@pytest.fixture
def no_variable(monkeypatch, tmp_path):
    monkeypatch.delenv("HOBWORT_STORE", raising=False)
    monkeypatch.setenv("HOBWORT_SETTINGS", str(tmp_path / "settings"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


@pytest.mark.parametrize("name", ["stick", "Küche 厨房", "two  blanks "])
def test_a_chosen_folder_holds_from_the_next_start_on_until_the_usual_one_is_chosen(
    no_variable, tmp_path, name, monkeypatch
):
    usual = store_folder()
    folders.choose_folder(tmp_path / name)
    assert store_folder() == tmp_path / name
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "named"))
    assert store_folder() == tmp_path / "named"
    monkeypatch.delenv("HOBWORT_STORE")
    folders.choose_folder(None)
    assert store_folder() == usual


def test_nonsense_in_the_place_of_the_choice_is_passed_over(no_variable, tmp_path):
    (tmp_path / "settings").mkdir()
    for raw in (b"", b"relative/path", b"/nul\0sign", b"\n\n"):
        (tmp_path / "settings" / "recipe-box-folder.txt").write_bytes(raw)
        assert store_folder() == folders.usual_folder()


def test_a_chosen_folder_whose_drive_is_away_gets_no_empty_box(no_variable, tmp_path):
    """The folder that a drive is mounted on is there without the drive, and empty."""
    (tmp_path / "mounted on").mkdir()
    folders.choose_folder(tmp_path / "mounted on")
    with pytest.raises(StoreGoneError, match="is not there: its drive"):
        Store.open(store_folder())
    with pytest.raises(StoreGoneError, match="is not there: its drive"):
        shop_packs_on_disk("metric")
    assert list((tmp_path / "mounted on").iterdir()) == []


def test_forbidden_is_a_kind_of_read_only():
    assert issubclass(StoreForbiddenError, StoreReadOnlyError)
