"""How a finished file takes its place: never over another, with or without hard links."""

import os

import pytest

from designer.library.store.files import SET_ASIDE_FOLDER, move_into_place, set_aside


@pytest.fixture(params=["hard links", "no hard links"])
def disk(request, monkeypatch, tmp_path):
    """A folder on a disk that knows hard links, or knows none."""

    def no_links(*_):
        raise OSError("no hard links here")

    if request.param == "no hard links":
        monkeypatch.setattr(os, "link", no_links)
    return tmp_path


def test_a_finished_file_takes_its_name_and_never_that_of_another(disk):
    first, second, path = disk / "first", disk / "second", disk / "box.db"
    first.write_text("first")
    second.write_text("second")
    assert move_into_place(first, path) is True
    assert move_into_place(second, path) is False
    assert path.read_text() == "first"
    assert second.read_text() == "second"


def test_what_is_set_aside_again_within_a_second_gets_a_folder_of_its_own(tmp_path):
    path = tmp_path / "box.db"
    found = []
    for text in ("first", "second", "third"):
        path.write_text(text)
        found.append(set_aside(path))
    assert [each.read_text() for each in found] == ["first", "second", "third"]
    assert {each.parent.parent for each in found} == {tmp_path / SET_ASIDE_FOLDER}
    assert set_aside(path) is None
