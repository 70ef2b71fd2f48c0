"""The brews of the Recipe box from the command line: listed, shown and written to files."""

import json

import pytest

from designer.command_line import run
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.brew_journal import Journal
from designer.library.store.brews import new_brew
from designer.library.store.folder import store_path
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import plain
from designer.workbench.brew.instants import Instant
from tests.workbench.brew.pocket_texts import ROWS, pasted


def lines(*many):
    entries = [
        Entry(f"{number:06d}-aa", Instant(1.7e9 + 60.0 * number), what, values)
        for number, (what, values) in enumerate(many, 1)
    ]
    return [plain(each) for each in entries]


@pytest.fixture
def box(tmp_path, monkeypatch, porter):
    """A box with a brew that is finished, and one whose window was killed before the box had it."""
    folder = tmp_path / "box"
    monkeypatch.setenv("HOBWORT_STORE", str(folder))
    first = new_brew(document_text(porter), started="2027-01-01T09:00:00+00:00")
    second = new_brew(document_text(porter), started="2027-02-01T09:00:00+00:00")
    began = (What.BEGAN, {"start_min": 540})
    with Store.open(folder) as store:
        store.brews.put(first, lines(began, (What.NOTE, {"text": "foam"}), (What.FINISHED, {})))
    journal = Journal(folder, second)
    journal.append(lines(began, (What.DONE, {"step": "boil 1/fill"})))
    journal.close()
    return folder


def test_brews_are_listed_the_last_begun_first(box, capsys):
    assert run(["brews"]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "1 · 2027-02-01 · Harbour Lamp Porter · under way",
        "2 · 2027-01-01 · Harbour Lamp Porter · finished",
    ]
    assert run(["brews", "list", "--json"]) == 0
    (last, first) = json.loads(capsys.readouterr().out)["brews"]
    assert (last["number"], last["entries"], first["entries"]) == (1, 2, 3)


def test_a_log_is_shown_and_the_box_is_not_written_to(box, capsys):
    before = store_path(box).read_bytes()
    assert run(["brews", "show", "2"]) == 0
    assert "Note: foam" in capsys.readouterr().out
    assert run(["brews", "show", "1"]) == 0
    assert "Done: Fill 6 L of water" in capsys.readouterr().out
    assert run(["brews", "show", "1", "--units", "us"]) == 0
    # 6 L are 6.34 qt (NIST SP 811: 1 qt = 0.9463529 L).
    assert "Done: Fill 6.3 qt of water" in capsys.readouterr().out
    assert store_path(box).read_bytes() == before
    assert list((box / "brews").iterdir())


@pytest.mark.parametrize("suffix", ["txt", "csv", "json"])
def test_a_log_is_written_by_the_suffix_of_its_file(box, tmp_path, capsys, suffix):
    path = tmp_path / f"log.{suffix}"
    assert run(["brews", "export", "2", "-o", str(path)]) == 0
    assert "foam" in path.read_text(encoding="utf-8")
    assert run(["brews", "export", "1", "-o", str(path)]) == 1
    assert "is there already" in capsys.readouterr().err
    assert "foam" in path.read_text(encoding="utf-8")


def test_a_log_goes_to_standard_output_as_any_kind(box, capsysbinary):
    def told(*words):
        assert run(["brews", *words]) == 0
        return capsysbinary.readouterr().out.decode("utf-8")

    assert told("export", "1", "-o", "-") == told("show", "1")
    assert "Done: Fill 6.3 qt" in told("export", "1", "-o", "-", "--units", "us")
    assert told("export", "2", "-o", "-", "--format", "csv").startswith("time,what,said")
    assert json.loads(told("export", "2", "-o", "-", "--format", "json"))["form"] == 1


def test_the_kind_of_a_file_is_told_by_its_name_alone(box, tmp_path, capsys):
    assert run(["brews", "export", "2", "-o", str(tmp_path / "a.txt"), "--format", "csv"]) == 2
    assert "--format goes with -o -" in capsys.readouterr().err
    assert not (tmp_path / "a.txt").exists()


def test_what_cannot_be_written_or_is_not_there_is_refused(box, tmp_path, capsys):
    assert run(["brews", "export", "2", "-o", str(tmp_path / "log.pdf")]) == 1
    assert ".txt, .csv, .json" in capsys.readouterr().err
    assert run(["brews", "show", "3"]) == 1
    assert "There is no brew 3" in capsys.readouterr().err


def test_without_a_box_nothing_is_made(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "none"))
    assert run(["brews"]) == 0
    assert "Nothing was brewed yet." in capsys.readouterr().out
    assert not (tmp_path / "none").exists()


@pytest.fixture
def pasted_file(tmp_path, porter):
    """A mail with the log of a phone in it."""
    file = tmp_path / "mail.txt"
    file.write_text(f"Hello me,\n\n{pasted(porter, ROWS)}\n-- \nme", "utf-8")
    return file


def taken_in(capsys, *words):
    code = run(["brews", "take-in", *map(str, words)])
    output = capsys.readouterr()
    return code, output.out.strip(), output.err.strip()


def test_a_log_of_a_phone_is_taken_in_beside_its_version_and_only_once(
    box, porter, pasted_file, capsys
):
    first = taken_in(capsys, pasted_file)
    assert first == (0, "Harbour Lamp Porter: 7 entries of the phone are new in its log, of 7.", "")
    again = taken_in(capsys, pasted_file)
    assert again == (0, "Harbour Lamp Porter: all of this text was in the log already.", "")
    with Store.open(box) as store:
        [brew] = [each for each in store.brews.all() if each.version]
        assert store.recipes.version(brew.version).document == document_text(porter)
        assert len(store.brews.lines(brew.id)) == 7
    run(["brews", "show", "3"])
    assert "6.2 L" in capsys.readouterr().out


def test_a_log_of_a_phone_goes_on_with_a_brew_that_has_begun(box, pasted_file, capsys):
    """Its own beginning is left out: that brew has one."""
    code, said, _ = taken_in(capsys, pasted_file, "--into", 2)
    assert (code, said) == (
        0, "Harbour Lamp Porter: 6 entries of the phone are new in its log, of 6.",
    )  # fmt: skip
    with Store.open(box) as store:
        assert len(store.brews.all()) == 1
        [brew] = store.brews.all()
        assert len(store.brews.lines(brew.id)) == 9


def test_what_is_no_log_of_a_phone_is_refused(box, tmp_path, capsys):
    file = tmp_path / "mail.txt"
    file.write_text("Hello", "utf-8")
    code, _, complaint = taken_in(capsys, file)
    assert code == 1
    assert complaint.startswith("There is no log of a phone in this text.")
    assert taken_in(capsys, tmp_path / "nowhere")[0] == 1
    assert taken_in(capsys, file, "--into", 9)[0] == 1
