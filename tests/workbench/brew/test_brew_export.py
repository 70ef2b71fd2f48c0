"""A brew's log as text, CSV and JSON: all of it is there, in words and in figures."""

from __future__ import annotations

import csv
import io
import json

import pytest

from designer.brewday.explaining.asked import Answer, Drawn, GravitySample, TestCode
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.packaging.packaged import BottleSize, Packing
from designer.library.formula_guard import unguarded
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.recipe.choices import Bottle
from designer.units import ShownUnits
from designer.workbench.brew import timer_moves
from designer.workbench.brew.brew_export import COLUMNS, FORM, exported
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.log_lines import log_lines
from designer.workbench.brew.packing_values import values_of_packing
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.sample_values import values_of_answer, values_of_sample
from tests.workbench.planned_red import two_buckets

START = 1_800_000_000.0
VOLUME = Reading(Measured.BOIL_START_VOLUME, 6.8, By.MARK)


class Day:
    """A day of the porter, written a minute at a time."""

    def __init__(self, porter) -> None:
        self.porter, self.entries = porter, []
        self.write(What.BEGAN, start_min=480)

    def write(self, what: What, /, **values) -> str:
        at = Instant(START + 60.0 * len(self.entries), "boot", 60.0 * len(self.entries))
        self.entries.append(Entry(next_id(self.entries), at, what, values))
        return self.entries[-1].id

    @property
    def brewing(self):
        first = brewing_of(self.porter, (), self.entries)
        steps = reckoned(first, ShownUnits.METRIC, ranges=False).steps
        return brewing_of(self.porter, steps, self.entries)

    def words(self):
        return [each.words.text for each in log_lines(self.brewing)]


@pytest.fixture
def day(porter):
    made = Day(porter)
    made.write(What.DONE, step="boil 1/fill")
    wrong = made.write(What.READING, reading=values_of(VOLUME), typed="8.6 L")
    made.write(What.CORRECTS, entry=wrong, values={"typed": "6.8 L", "reading": values_of(VOLUME)})
    made.write(What.NOTE, text="=2+3 was on the tin", step="boil 1/fill")
    done = made.write(What.DONE, step="boil 1/boils")
    made.write(What.TIMER, **timer_moves.start("boil", 60.0))
    made.write(What.TAKES_BACK, entry=done, by="undo")
    return made


def brew_of(day):
    return new_brew(document_text(day.porter), started="2027-01-15T08:00:00+00:00")


def test_the_text_reads_as_the_day_went(day):
    text = exported(brew_of(day), day.brewing, ".txt")
    assert "Done: Fill 6 L of water" in text
    assert (
        "Volume at the start of the boil: 6.8 L  [before: Volume at the start of the boil: 8.6 L]"
        in text
    )
    assert "Note: =2+3 was on the tin" in text
    assert "Done: It boils: start the timer  [taken back]" in text
    assert "Undone: “Done: It boils: start the timer”" in text
    assert text.splitlines()[0] == "Harbour Lamp Porter"


def test_the_table_has_every_entry_and_no_cell_is_a_formula(day):
    rows = list(csv.reader(io.StringIO(exported(brew_of(day), day.brewing, ".csv"))))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == 1 + len(day.entries)
    table = [dict(zip(COLUMNS, map(unguarded, row), strict=True)) for row in rows[1:]]
    reading = next(row for row in table if row["what"] == "reading")
    assert (reading["typed"], reading["value"], reading["unit"]) == ("6.8 L", "6.8", "L")
    assert [row["counts"] for row in table] == ["yes"] * 5 + ["no", "yes", "yes"]
    formula = Day(day.porter)
    formula.write(What.READING, reading=values_of(VOLUME), typed="=6.8")
    formula.write(What.DONE, step="@step")
    for row in list(csv.reader(io.StringIO(exported(brew_of(day), formula.brewing, ".csv"))))[1:]:
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row)


def test_the_json_is_read_back_as_the_same_log(day):
    document = json.loads(exported(brew_of(day), day.brewing, ".json"))
    assert document["form"] == FORM
    assert entries_of(document["log"]) == day.brewing.entries
    again = brewing_of(day.porter, day.brewing.steps, entries_of(document["log"]))
    assert again == day.brewing
    assert document["recipe"]["name"] == "Harbour Lamp Porter"
    assert document["steps"][0] == {
        "key": "boil 1/fill",
        "title": "Fill 6 L of water",
        "status": "done",
        "at": START + 60.0,
        "reason": "",
    }


def _write_what_comes_after_the_stove(day):
    sample = GravitySample(1.037, sample_c=24.0, drawn=Drawn.TOP)
    day.write(What.SAMPLE, sample=values_of_sample(sample), typed="1.037 at 24 °C")
    answer = Answer(TestCode.WEIGH, value=12.0)
    day.write(What.ANSWERED, **values_of_answer(answer), typed="12 L")
    day.write(What.CURED, cure="leave", changes=[], said="Leave it as it is")
    day.write(What.WARMTH, temperatures=[[START, 19.0]], typed="19 °C")
    packing = Packing(9.6, 2.3, 21.0, 0.0, bottles=(BottleSize(0.5, 12, Bottle.HEAVY),))
    day.write(What.PACKING, packing=values_of_packing(packing), said="12 bottles of 500 mL")
    day.write(What.PACKAGED, packing=values_of_packing(packing), said="12 bottles of 500 mL")
    day.write(What.REMINDER, wall=START + 86400.0, text="Read the gravity", does="set")
    day.write(What.COUNTS, figure="evaporation", counts=False)
    after = brewing_of(day.porter, (), day.entries).after
    assert after.samples[0].sample == sample
    assert after.answers[0].answer == answer
    assert after.packing == packing
    assert after.packaged[0] == packing
    assert (after.temperatures[0].temp_c, after.reminders[0].done) == (19.0, False)
    assert after.counts == (("evaporation", False),)


def test_every_kind_of_entry_is_said_in_words(day):
    day.write(What.BACK, step="boil 1/fill")
    day.write(What.BACK, step="")
    day.write(What.LATER, step="boil 1/sanitise")
    day.write(What.LEFT_OUT, step="boil 1/extras 7", reason="none in the house")
    day.write(What.TIMER, **timer_moves.start("free", 10.0, name="Sanitiser", timer="free 1"))
    for moved in (timer_moves.pause, timer_moves.resume, timer_moves.confirm, timer_moves.stop):
        day.write(What.TIMER, **moved("free 1"))
    day.write(What.TIMER, **timer_moves.add("free 1", 1.0))
    day.write(What.TIMER, **timer_moves.move("boil 1", 42.0))
    day.write(What.TIMER, **timer_moves.confirm("boil 1", "boil 1/hops 5"))
    day.write(What.ACCEPTED, proposal="top-up", changes=[], said="Top up to 10.2 L, not 10 L")
    day.write(What.KEPT, proposal="top-up", changes=[], said="Top up to 10.2 L, not 10 L")
    day.write(What.CLOCK)
    day.write(What.CORRECTS, entry=day.entries[1].id, values={"wall": START + 5400.0})
    day.write(What.TAKES_BACK, entry=day.entries[-1].id)
    day.write(What.TAKES_BACK, entry=day.entries[7].id, by="redo")
    day.write(What.FINISHED)
    day.write(What.TASTED, mark=4, text="roast, dry")
    _write_what_comes_after_the_stove(day)
    assert {each.what for each in day.entries} == set(What)
    words = day.words()[8:]
    assert words[:7] == [
        "Back to: Fill 6 L of water",
        "On to the first step that is not done",
        "Put off: Sanitise fermenter and tools",
        "Left out: ½ tablet Carrageenan finings (none in the house)",
        "Sanitiser: 10 min started",
        "Sanitiser: paused",
        "Sanitiser: goes on",
    ]
    assert words[7:14] == [
        "Sanitiser: its end was heard",
        "Sanitiser: stopped",
        "Sanitiser: 1 min more",
        "Boil: 42 min left",
        "It is in: 18 g Challenger, pellets",
        "Changed: Top up to 10.2 L, not 10 L",
        "Left as planned: Top up to 10.2 L, not 10 L",
    ]
    assert words[15].endswith(": “Done: Fill 6 L of water”")
    assert words[16:20] == [
        "Taken back: “what was set right or taken back”",
        "Redone: “Done: It boils: start the timer”",
        "The brew day is over",
        "Tasted, 4 of 5: roast, dry",
    ]
    assert words[20:25] == [
        "Gravity after topping up: 1.037 at 24 °C",
        "Looked at the volume: 12 L",
        "Done about it: Leave it as it is",
        "Temperature of the beer: 19 °C",
        "Packaging planned: 12 bottles of 500 mL",
    ]
    assert words[-1] == "Not counted for what is learned: evaporation"


def test_of_several_fermenters_the_log_says_which():
    day = Day(two_buckets(10.0, 10.0))
    (_, second) = [each for each in day.brewing.steps if each.kind == "top-up"]
    day.write(What.DONE, step=second.key)
    (blank,) = second.blanks
    reading = Reading(blank.what, 10.0, blank.by, boil=blank.boil, fermenter=blank.fermenter)
    day.write(What.READING, reading=values_of(reading), typed="10 L")
    assert day.words()[1:] == [
        "Done: Top up to 10 L (Fermenter 2)",
        "Top up to (Fermenter 2): 10 L",
    ]


def test_that_clocks_were_noted_is_in_the_table_but_not_in_what_one_reads(day):
    day.write(What.CLOCK)
    day.write(What.CLOCK, **timer_moves.it_is(START + 3600.0))
    text, table = (exported(brew_of(day), day.brewing, each) for each in (".txt", ".csv"))
    assert "clocks" not in text
    assert "Both clocks were noted" in table
    assert text.splitlines()[-1].split("  ")[-1].startswith("It is ")
