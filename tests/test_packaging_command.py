"""Packaging from the command line: with a brew of the Recipe box, and for a caller without one."""

import io
import json
import re
from datetime import UTC, date, datetime

import pytest
from pypdf import PdfReader

from designer.command_line import brews_logs, run
from designer.command_line.packing_options import SUGARS
from designer.command_line.words.packing import PRIMED_WITH
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.brews import new_brew
from designer.library.store.folder import store_path
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import entries_of, plain
from tests.workbench.brew.brew_days import STARTS
from tests.workbench.brew.calendar_reader import read_calendar
from tests.workbench.brew.test_beer import Cellar

DAY_S = 86_400.0


def test_a_word_of_the_command_line_stands_for_each_priming_sugar():
    assert tuple(SUGARS) == PRIMED_WITH


@pytest.fixture
def cellar(porter):
    """A porter whose yeast is in, read on day 11."""
    made = Cellar(porter)
    made.warmth(0.0, 19.0)
    made.sample(11.0, 1.013)
    return made


@pytest.fixture
def box(tmp_path, monkeypatch, porter, cellar):
    """A box with that brew in it, on day 14 after pitching; calls tell what was added since."""
    folder = tmp_path / "box"
    monkeypatch.setenv("HOBWORT_STORE", str(folder))
    monkeypatch.setenv("LANGUAGE", "en")
    wall = STARTS + 60.0 * cellar.pitched_min + 14.1 * DAY_S
    monkeypatch.setattr(brews_logs.time, "time", lambda: wall)
    brew = new_brew(document_text(porter), started="2026-03-28T09:00:00+00:00")

    def put():
        with Store.open(folder) as store:
            kept = store.brews.put(brew, [plain(each) for each in cellar.entries])
            return entries_of(line.entry for line in store.brews.lines(kept.id))

    put()
    put.day = datetime.fromtimestamp(wall, UTC).astimezone().date()
    put.folder = folder
    return put


def told(capsys, *words):
    assert run(list(words)) == 0
    return capsys.readouterr().out


def test_a_pressure_that_just_exceeds_a_limit_is_told_alike_in_every_line(capsys, monkeypatch):
    """Refused at 3.75 bar, the bottle of 3.7 bar must not come to 3.7 bar a line below."""
    monkeypatch.setenv("LANGUAGE", "en")
    caller = ["--beer", "9.6 L", "--warmest", "21 °C", "--fizz", "lively", "--finished", "yes"]
    text = told(capsys, "packaging", *caller, "--units", "metric")
    warm_bar = json.loads(told(capsys, "packaging", *caller, "--json"))["pressure"]["warm_bar"]
    assert 3.7 < warm_bar < 3.75
    assert "may come to 3.8 bar at 30 °C, and above 3.7 bar they burst" in text
    assert "3.8 bar at 30 °C; at ease to 2.9 bar, never above 3.7 bar" in text


def test_unfinished_beer_has_no_sugar_and_cannot_be_written_as_packaged(box, capsys):
    text = told(capsys, "brews", "package", "1", "--bottles", "12 x 500 mL + 4 x 750 mL heavy")
    assert "Not today" in text
    assert "Sugar:" not in text
    found = json.loads(told(capsys, "brews", "package", "1", "--json"))
    assert (found["sugars"], found["may_go_ahead"]) == ([], False)
    assert found["refusal"]["code"] == "unfinished"
    before = store_path(box.folder).read_bytes()
    assert run(["brews", "package", "1", "--done", "--tick", "bottle-strain"]) == 1
    assert "glass flies" in capsys.readouterr().err
    assert store_path(box.folder).read_bytes() == before


def test_from_done_to_bottled(box, cellar, capsys):
    cellar.sample(13.0, 1.013)
    cellar.sample(14.0, 1.013)
    box()
    words = ["brews", "package", "1", "--bottles", "16 x 500 mL heavy", "--fizz", "2.7"]
    text = told(capsys, *words)
    assert "g of table sugar" in text
    assert "heavy refillable beer bottles" in text
    (code,) = re.findall(r"tick it: (bottle-strain-[\d.]+)", text)
    assert run([*words, "--done"]) == 1
    assert f"--tick {code}" in capsys.readouterr().err
    done = told(capsys, *words, "--sugar", "honey", "--tick", code, "--done")
    assert done.rstrip().endswith("Written in its log: it is packaged.")
    (last,) = [each for each in box() if each.what is What.PACKAGED]
    assert last.values["packing"]["bottles"] == [[0.5, 16, "heavy refillable beer bottles"]]
    assert (last.values["packing"]["sugar"], last.values["packing"]["volumes"]) == ("honey", 2.7)
    assert 50.0 < last.values["grams"] < 110.0
    assert "8 L in 16 bottles, with" in last.values["said"]
    assert "It was packaged on" in told(capsys, "brews", "package", "1")


def test_labels_of_a_brew_are_written(box, tmp_path, capsys, qapp):
    path = tmp_path / "labels.pdf"
    words = ["brews", "labels", "1", "--bottles", "12 x 500 mL + 4 x 750 mL heavy"]
    text = told(capsys, *words, "--allergens", "contains barley", "-o", str(path))
    assert "16 labels on 2 pages" in text
    page = " ".join(PdfReader(path).pages[0].extract_text().split())
    assert "Harbour Lamp Porter" in page
    assert "contains barley" in page
    assert "% vol" in page
    told(capsys, *words, "-o", str(path))  # What is printed takes the place of what was before.
    assert "contains barley" not in PdfReader(path).pages[0].extract_text()
    plain_text = tmp_path / "labels.txt"
    told(capsys, *words, "--language", "de", "--name", "Hafenlicht", "-o", str(plain_text))
    assert plain_text.read_text(encoding="utf-8").startswith("12 ×\n  Hafenlicht\n")
    assert run([*words, "-o", str(tmp_path / "labels.doc")]) == 1
    assert ".pdf, .txt" in capsys.readouterr().err


def test_the_days_of_a_brew_go_into_a_calendar(box, cellar, tmp_path, capsys):
    path = tmp_path / "beer.ics"
    text = told(capsys, "brews", "calendar", "1", "-o", str(path))
    events = read_calendar(path.read_bytes())["parts"]
    assert [each["DTSTART"] for each in events] == [
        each.strip()[:10].replace("-", "") for each in text.splitlines()[1:]
    ]
    assert any("read again" in each["SUMMARY"] for each in events)
    assert " g of " not in path.read_text(encoding="utf-8")


def test_labels_and_calendar_go_to_standard_output(box, cellar, capsysbinary, qapp):
    def told(*words):
        assert run(["brews", *words, "-o", "-"]) == 0
        return capsysbinary.readouterr().out

    labels = ["labels", "1", "--bottles", "12 x 500 mL"]
    assert len(PdfReader(io.BytesIO(told(*labels))).pages) == 1
    assert told(*labels, "--format", "txt").decode("utf-8").startswith("12 ×\n  Harbour Lamp")
    assert read_calendar(told("calendar", "1"))["parts"]


def test_before_the_yeast_is_in_there_is_nothing_to_package(tmp_path, monkeypatch, porter, capsys):
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    with Store.open(tmp_path / "box") as store:
        store.brews.put(new_brew(document_text(porter), started="2026-03-28T09:00:00+00:00"), [])
    assert run(["brews", "package", "1"]) == 1
    assert "no yeast is in yet" in capsys.readouterr().err


def test_a_caller_is_told_sugar_for_finished_beer_alone(capsys):
    words = ["packaging", "--beer", "9.6 L", "--fizz", "2.3", "--warmest", "21 °C"]
    assert "Not yet" in told(capsys, *words)
    assert json.loads(told(capsys, *words, "--json"))["sugars"] == []
    finished = [*words, "--finished", "yes", "--bottles", "19 x 500 mL heavy"]
    found = json.loads(told(capsys, *finished, "--json"))
    # Computed: (2.3 - 0.837) vol x 9.6 L x 3.82 g.
    assert found["sugars"][0]["g"] == pytest.approx(53.6, abs=0.1)
    assert found["dates"][0]["date"] > date.today().isoformat()
    keg = json.loads(told(capsys, *finished[:-2], "--keg", "--keg-temperature", "4 °C", "--json"))
    assert keg["keg"][0]["temp_c"] == 4.0
    # Computed, Henry form: 2.3 volumes at 4 °C.
    assert keg["keg"][0]["bar"] == pytest.approx(0.67, abs=0.01)
    assert keg["keg"][0]["psi"] == pytest.approx(9.7, abs=0.1)
    assert keg["sugars"] == []


def test_all_that_cannot_be_read_is_told_at_once(capsys):
    assert run(["packaging", "--beer", "x", "--fizz", "9", "--warmest", "99 °C",
                "--bottles", "a lot"]) == 1  # fmt: skip
    problems = capsys.readouterr().err.splitlines()
    assert [each.partition(":")[0] for each in problems] == [
        "--beer", "--warmest", "--fizz", "--bottles"
    ]  # fmt: skip
    assert not any(each.endswith("..") for each in problems)
