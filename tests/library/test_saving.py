"""Saving replaces a file in one move, or leaves it as it was."""

import errno
import os
import stat
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from designer.errors import DesignerError
from designer.library.file_bytes import ChangedFileError, write_whole
from designer.library.recipe_file import load, save
from designer.recipe.document import Recipe
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path

OLD = b'{"hobwort": 1, "name": "The old one"}'


@pytest.fixture
def brew():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


@pytest.fixture
def old_file(tmp_path):
    path = tmp_path / "brew.hobwort"
    path.write_bytes(OLD)
    return path


def refusal(recipe, path):
    with pytest.raises(DesignerError) as refused:
        save(recipe, path)
    assert len(str(refused.value).splitlines()) == 1
    return str(refused.value)


def test_a_recipe_is_written_where_none_was_and_over_one_that_was(brew, old_file, tmp_path):
    save(brew, old_file)
    save(brew, tmp_path / "new.hobwort")
    assert load(old_file) == load(tmp_path / "new.hobwort") == brew
    assert sorted(each.name for each in tmp_path.iterdir()) == ["brew.hobwort", "new.hobwort"]


def test_a_new_file_is_readable_as_the_user_s_other_files_are(brew, tmp_path):
    before = os.umask(0o027)
    try:
        save(brew, tmp_path / "new.hobwort")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "new.hobwort").stat().st_mode) == 0o640


def test_the_rights_of_a_file_outlast_saving(brew, old_file):
    old_file.chmod(0o600)
    save(brew, old_file)
    assert stat.S_IMODE(old_file.stat().st_mode) == 0o600


def test_a_link_stays_a_link_and_the_file_behind_it_is_replaced(brew, old_file, tmp_path):
    link = tmp_path / "link.hobwort"
    link.symlink_to(old_file)
    save(brew, link)
    assert link.is_symlink()
    assert load(old_file) == brew


def test_a_folder_is_not_written_over(brew, tmp_path):
    (tmp_path / "brew.hobwort").mkdir()
    told = refusal(brew, tmp_path / "brew.hobwort")
    assert told.endswith("is a folder; give a file name inside it.")
    assert list(tmp_path.iterdir()) == [tmp_path / "brew.hobwort"]


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux systems")
def test_a_device_is_not_replaced_by_a_file(brew):
    assert "is a device, not a file" in refusal(brew, Path("/dev/full"))
    assert stat.S_ISCHR(Path("/dev/full").stat().st_mode)


def test_a_folder_that_is_not_there_is_refused(brew, tmp_path):
    told = refusal(brew, tmp_path / "nowhere" / "brew.hobwort")
    assert f"could not be written: the folder {tmp_path / 'nowhere'} is not there" in told


def test_a_file_in_the_place_of_the_folder_is_refused_and_kept(brew, old_file):
    assert "not a directory" in refusal(brew, old_file / "brew.hobwort")
    assert old_file.read_bytes() == OLD


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="a folder of Linux systems")
def test_a_folder_that_takes_no_files_even_from_root_is_refused(brew):
    told = refusal(brew, Path("/proc/self/brew.hobwort"))
    assert told.startswith("/proc/self/brew.hobwort could not be written: ")


def test_a_folder_without_leave_to_write_is_refused(brew, old_file):
    old_file.parent.chmod(0o500)
    if os.access(old_file.parent, os.W_OK):
        pytest.skip("this user may write in all folders")
    try:
        assert "permission denied" in refusal(brew, old_file)
        assert old_file.read_bytes() == OLD
    finally:
        old_file.parent.chmod(0o700)


def test_a_link_that_leads_to_itself_is_refused(brew, tmp_path):
    link = tmp_path / "round.hobwort"
    link.symlink_to(link)
    assert "could not be written" in refusal(brew, link)
    assert list(tmp_path.iterdir()) == [link]


@pytest.mark.parametrize("name", ["a\0b.hobwort", "x" * 300])
def test_a_name_that_no_file_can_have_is_refused(name, brew, tmp_path):
    told = refusal(brew, tmp_path / name)
    assert "could not be written" in told
    assert "\0" not in told
    assert list(tmp_path.iterdir()) == []


def failing(number):
    def fail(*_, **__):
        raise OSError(number, os.strerror(number))

    return fail


@pytest.mark.parametrize(
    ("what", "owner"), [("fsync", os), ("replace", Path), ("chmod", Path), ("open", os)]
)
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EACCES, errno.EROFS])
def test_whichever_step_fails_the_old_file_stays_and_nothing_is_left_beside_it(
    what, owner, number, brew, old_file, monkeypatch
):
    monkeypatch.setattr(owner, what, failing(number))
    told = refusal(brew, old_file)
    monkeypatch.undo()
    assert f"could not be written: {os.strerror(number).lower()}" in told
    assert "What was there before is untouched" in told
    assert old_file.read_bytes() == OLD
    assert list(old_file.parent.iterdir()) == [old_file]


def test_a_disk_that_takes_only_the_front_of_a_file_leaves_the_old_one(old_file):
    """The system itself cuts the file off, as a full disk does."""
    resource = pytest.importorskip("resource")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1000, before[1]))
    try:
        with pytest.raises(DesignerError) as refused:
            write_whole(old_file, b"x" * 100_000)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)
    assert "file too large" in str(refused.value)
    assert old_file.read_bytes() == OLD
    assert list(old_file.parent.iterdir()) == [old_file]


def test_an_interruption_while_writing_leaves_the_old_file_alone(brew, old_file, monkeypatch):
    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", interrupt)
    with pytest.raises(KeyboardInterrupt):
        save(brew, old_file)
    monkeypatch.undo()
    assert old_file.read_bytes() == OLD
    assert list(old_file.parent.iterdir()) == [old_file]


def test_the_content_is_on_the_disk_before_it_takes_the_place_of_the_old(
    brew, old_file, monkeypatch
):
    steps = []
    real_sync, real_replace = os.fsync, Path.replace

    def sync(handle):
        is_folder = stat.S_ISDIR(os.fstat(handle).st_mode)
        steps.append("folder flushed" if is_folder else "file flushed")
        real_sync(handle)

    def move(path, target):
        steps.append("moved")
        return real_replace(path, target)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(Path, "replace", move)
    save(brew, old_file)
    assert steps == ["file flushed", "moved", "folder flushed"]


def test_a_system_that_cannot_flush_folders_has_saved_all_the_same(brew, old_file, monkeypatch):
    real = os.fsync

    def sync(handle):
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, "not for folders")
        real(handle)

    monkeypatch.setattr(os, "fsync", sync)
    save(brew, old_file)
    assert load(old_file) == brew


def test_a_half_typed_start_time_does_not_make_a_file_that_cannot_be_opened(tmp_path):
    half = replace(Recipe(), process=replace(Recipe().process, start_time="9:"))
    save(half, tmp_path / "brew.hobwort")
    assert load(tmp_path / "brew.hobwort").process.start_time == "09:00"


def test_a_file_that_another_program_changed_is_not_replaced_unseen(brew, old_file):
    kept = save(brew, old_file, instead_of=OLD)
    assert old_file.read_bytes() == kept
    old_file.write_bytes(b"another's")
    with pytest.raises(ChangedFileError) as changed:
        save(brew, old_file, instead_of=kept)
    assert changed.value.theirs == old_file.read_bytes() == b"another's"
    assert list(old_file.parent.iterdir()) == [old_file]
    old_file.unlink()
    save(brew, old_file, instead_of=kept)
    assert load(old_file) == brew


def test_a_recipe_that_could_not_be_opened_again_does_not_replace_the_file(brew, old_file):
    long = replace(brew, name="x" * 30_000)
    assert "could not be opened again: name: " in refusal(long, old_file)
    assert old_file.read_bytes() == OLD


def test_a_number_that_its_text_does_not_say_does_not_replace_the_file(brew, old_file):
    alpha = Quantity(7.25e-2, "0.0725 %")
    wrong = replace(brew, hops=(replace(brew.hops[0], alpha=alpha), *brew.hops[1:]))
    assert "another recipe would be read from it" in refusal(wrong, old_file)
    assert old_file.read_bytes() == OLD


def test_a_disk_that_gives_back_something_else_is_told(brew, old_file, monkeypatch):
    monkeypatch.setattr("designer.library.recipe_file.bytes_of", lambda *_: b"spoiled")
    assert "the disk gives back something else" in refusal(brew, old_file)


KILLED = """
import os, sys
from pathlib import Path
from designer.library.file_bytes import write_whole

def wait(handle):
    print("writing", flush=True)
    sys.stdin.read()

os.fsync = wait
write_whole(Path(sys.argv[1]), b"half")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="ends processes as Unix does")
def test_what_a_killed_save_left_is_cleared_by_the_next_and_what_another_writes_is_not(
    brew, old_file
):
    at_work, killed = (
        subprocess.Popen(
            [sys.executable, "-c", KILLED, str(old_file)],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )
        for _ in range(2)
    )  # fmt: skip
    with at_work, killed:
        assert at_work.stdout.readline() == killed.stdout.readline() == "writing\n"
        killed.kill()
        killed.wait()
        left = {each for each in old_file.parent.iterdir() if each != old_file}
        assert len(left) == 2
        save(brew, old_file)
        assert left < set(old_file.parent.iterdir())  # they may be another machine's, at work
        for each in left:
            os.utime(each, (0, 0))
        save(brew, old_file)
        assert len(left & set(old_file.parent.iterdir())) == 1
        at_work.communicate("")
        assert old_file.read_bytes() == b"half"
    assert list(old_file.parent.iterdir()) == [old_file]


def test_only_files_of_ours_that_were_left_long_ago_are_cleared(brew, old_file):
    folder = old_file.parent
    kept = [".config-abcdefgh", ".brew.hobwort-part", "brew-0123abcd.hobwort-part", ".brew~"]
    gone = [".brew.hobwort-abcd_f12", ".bill.csv-0123abcd.hobwort-part"]
    for name in kept + gone:
        (folder / name).write_bytes(b"x")
        os.utime(folder / name, (0, 0))
    (folder / ".new-0123abcd.hobwort-part").write_bytes(b"x")
    (folder / ".link-0123abcd.hobwort-part").symlink_to(old_file)
    save(brew, old_file)
    assert {each.name for each in folder.iterdir()} == {
        *kept, ".new-0123abcd.hobwort-part", ".link-0123abcd.hobwort-part", old_file.name,
    }  # fmt: skip
    assert load(old_file) == brew
