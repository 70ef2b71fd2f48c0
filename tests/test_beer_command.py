"""The beer in the fermenter from the command line: read, kept warm, told; beside an open window."""

import json
from datetime import datetime

import pytest

from designer.command_line import brews_logs, run
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.brew_journal import Journal
from designer.library.store.brews import new_brew
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import plain
from tests.schema_keys import told_keys
from tests.workbench.brew.brew_days import STARTS
from tests.workbench.brew.test_beer import Cellar

DAY_S = 86_400.0


@pytest.fixture
def cellar(tmp_path, monkeypatch, porter):
    """A box with a porter whose yeast is in; `on` says what is run on a day after that."""
    monkeypatch.setenv("HOBWORT_STORE", str(tmp_path / "box"))
    made = Cellar(porter)
    pitched = STARTS + 60.0 * made.pitched_min
    made.brew = new_brew(document_text(porter), started="2026-03-28T09:00:00+00:00")
    with Store.open(tmp_path / "box") as store:
        store.brews.put(made.brew, [plain(each) for each in made.entries])

    def on(day, *words, fails=False):
        monkeypatch.setattr(brews_logs.time, "time", lambda: pitched + day * DAY_S)
        assert run(["brews", *words]) == (1 if fails else 0)

    def stamp(day):
        return f"{datetime.fromtimestamp(pitched + day * DAY_S):%Y-%m-%d %H:%M}"

    made.on, made.stamp, made.folder, made.pitched = on, stamp, tmp_path / "box", pitched
    return made


def test_from_pitched_to_done(cellar, capsys):
    cellar.on(1.0, "beer", "1")
    assert "Not read yet" in capsys.readouterr().out
    cellar.on(3.0, "warmth", "1", "19 °C")
    cellar.on(3.0, "read", "1", "--sg", "1.027", "--at", "20 °C")
    assert "Still fermenting" in capsys.readouterr().out
    cellar.on(11.0, "read", "1", "--sg", "1.013", "--at", "20 °C")
    text = capsys.readouterr().out
    assert "Not yet sure" in text
    assert "Never bottle on one reading" in text
    cellar.on(14.0, "read", "1", "--sg", "1.013", "--at", "20 °C")
    text = capsys.readouterr().out
    assert "Done. 1.013 on day 11, 1.013 on day 14: both readings agree within 0.001" in text
    assert "Alcohol now 4.3 %" in text
    assert "was expected" in text
    assert text.rstrip().endswith("chill one bottle and taste")
    cellar.on(14.0, "show", "1")
    assert "Gravity of the fermenting beer: 1.013 at 20 °C" in capsys.readouterr().out


def test_every_key_of_the_json_is_explained(cellar, capsys):
    cellar.on(9.0, "read", "1", "--sg", "1.014", "--at", "68 °F", "--json")
    found = json.loads(capsys.readouterr().out)
    keys = told_keys("beer")
    assert set(found) == {key.split("[")[0].split(".")[0] for key in keys}
    (reading,) = found["readings"]
    assert {key.split(".")[1] for key in keys if key.startswith("readings[].")} == set(reading)
    assert reading["gravity"] == pytest.approx(1.014, abs=5e-5)
    assert reading["expected"]["low"] < reading["expected"]["high"]
    assert found["standing"] == "not yet sure"
    assert found["may_fall"][0] <= found["may_fall"][1]
    assert {"day", "value", "low", "high"} == set(found["course"][0])


def test_a_reading_of_another_day_is_put_there(cellar, capsys):
    when = cellar.stamp(8.5)
    cellar.on(9.0, "read", "1", "--sg", "1.014", "--on", *when.split(), "--json")
    (reading,) = json.loads(capsys.readouterr().out)["readings"]
    assert reading["day"] == pytest.approx(8.5, abs=0.001)
    for wrong, why in (
        (["soon"], "is no time"),
        (cellar.stamp(20.0).split(), "still to come"),
        (cellar.stamp(-9.0).split(), "yeast was not in yet"),
    ):
        cellar.on(9.0, "read", "1", "--sg", "1.014", "--on", *wrong, fails=True)
        assert why in capsys.readouterr().err


def test_a_table_of_temperatures_goes_into_the_log(cellar, capsys, tmp_path):
    path = tmp_path / "cellar.csv"
    rows = [f"{cellar.stamp(at / 24)};{18 + at / 100:.2f}".replace(".", ",") for at in range(300)]
    path.write_text("time;beer °C\n" + "\n".join(rows), encoding="utf-8")
    cellar.on(13.0, "warmth", "1", "--csv", str(path))
    assert "18 °C to 21 °C" in capsys.readouterr().out
    cellar.on(13.0, "read", "1", "--sg", "1.013", "--at", "20 °C", "--json")
    warmest = json.loads(capsys.readouterr().out)["warmest_since_done_c"]
    assert 20.5 < warmest <= 21.0
    cellar.on(13.0, "warmth", "1", "--csv", str(path), "--on", "12:00", fails=True)
    assert "a table has times of its own" in capsys.readouterr().err
    early = [f"{cellar.stamp(at - 9)};19" for at in range(3)]
    path.write_text("time;beer °C\n" + "\n".join(early), encoding="utf-8")
    cellar.on(13.0, "warmth", "1", "--csv", str(path), fails=True)
    assert "all of it is from before the yeast went in" in capsys.readouterr().err
    path.write_text("nothing\n", encoding="utf-8")
    cellar.on(13.0, "warmth", "1", "--csv", str(path), fails=True)
    assert "no table" in capsys.readouterr().err


def test_a_refractometer_says_its_error_and_never_done(cellar, capsys):
    for day in (12.0, 15.0):
        cellar.on(day, "read", "1", "--brix", "6.0", "--correction", "1.04")
    text = capsys.readouterr().out
    assert "Read with a hydrometer" in text
    assert "either way at best. Other formulas make" in text
    cellar.on(3.0, "read", "1", "--brix", "9.5")
    assert "Too early for a refractometer" in capsys.readouterr().out


def test_nothing_is_written_of_what_is_no_reading_or_before_there_is_beer(cellar, capsys, porter):
    cellar.on(9.0, "read", "1", "--sg", "1.9", fails=True)
    assert "--sg" in capsys.readouterr().err
    cellar.on(9.0, "warmth", "1", "hot", fails=True)
    capsys.readouterr()
    with Store.open(cellar.folder) as store:
        kept = store.brews.by_uid(cellar.brew.uid)
        assert len(list(store.brews.lines(kept.id))) == len(cellar.entries)
        young = new_brew(document_text(porter), started="2026-04-28T09:00:00+00:00")
        store.brews.put(young, [plain(cellar.entries[0])])
    cellar.on(9.0, "read", "1", "--sg", "1.013", fails=True)
    assert "no yeast is in yet" in capsys.readouterr().err


def test_what_a_window_wrote_at_the_same_time_stays(cellar, capsys):
    journal = Journal(cellar.folder, cellar.brew)  # of a window that is open
    note = cellar.write(What.NOTE, text="foam")
    journal.append([plain(each) for each in cellar.entries if each.id == note])
    cellar.on(9.0, "read", "1", "--sg", "1.014", "--at", "20 °C")
    late = cellar.write(What.NOTE, text="quiet")
    journal.append([plain(each) for each in cellar.entries if each.id == late])
    journal.close()
    capsys.readouterr()
    cellar.on(10.0, "show", "1")
    text = capsys.readouterr().out
    assert all(each in text for each in ("foam", "quiet", "1.014 at 20 °C"))
