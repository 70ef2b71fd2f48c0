"""Reports of the program's own faults: for their user alone, and never over anything else."""

import os
import stat

import pytest

from designer.workbench.fault_folder import DIVIDE, KEPT, keep_fault, newest_fault


def kept(store, ending):
    return sorted((store / "faults").glob(f"*.{ending}"))


def test_the_last_ten_are_kept_and_nothing_of_others_is_touched(tmp_path):
    others = tmp_path / "faults" / "notes.txt"
    others.parent.mkdir()
    others.write_text("mine", encoding="utf-8")
    made = [keep_fault(tmp_path, f"{number}", "", "{}") for number in range(KEPT + 3)]
    assert len(kept(tmp_path, "hobwort")) == KEPT
    assert len(kept(tmp_path, "txt")) == KEPT + 1
    assert all(each.exists() for each in made[-1])
    assert others.read_text(encoding="utf-8") == "mine"


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="links of Unix systems")
def test_no_link_is_followed_to_write_a_fault(tmp_path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (tmp_path / "box").mkdir()
    (tmp_path / "box" / "faults").symlink_to(elsewhere)
    report, recipe = keep_fault(tmp_path / "box", "", "", "{}")
    assert list(elsewhere.iterdir()) == []
    assert report.parent == recipe.parent != elsewhere
    assert stat.S_IMODE(report.parent.stat().st_mode) == 0o700


def test_only_what_may_be_shown_of_the_newest_report_is_given_out(tmp_path):
    assert newest_fault(tmp_path) is None
    keep_fault(tmp_path, "KeyError in a place", "the secret stout", "{}")
    (path,) = kept(tmp_path, "txt")
    assert newest_fault(tmp_path) == (path, "KeyError in a place")
    assert DIVIDE in path.read_text("utf-8")
    (tmp_path / "faults" / "fault-9999-01-01-000000-00000000.txt").symlink_to(path)
    assert newest_fault(tmp_path)[0] == path


def test_reports_and_recipes_are_for_their_user_alone(tmp_path):
    for path in keep_fault(tmp_path, "", "", "{}"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
        assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
