"""The log is read in words with its times, set right without losing what it said, and handed on."""

import csv
import json

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.brewday.measured.readings import Measured
from designer.window.brew.part_names import Part
from designer.workbench.brew.entries import What

from .test_measuring import BOILS, cell_of, readings, type_into


@pytest.fixture
def log(qtbot, page, up_to):
    """The log of a day up to the boil, with a reading and a note."""
    up_to(BOILS)
    type_into(qtbot, cell_of(page, Measured.BOIL_START_VOLUME), "6.8")
    page.brew.note("lid was off for a while")
    page.show_part(Part.LOG)
    return page.log


def words(log):
    return [row.words for row in log.model.rows]


def choose(log, beginning):
    row = next(n for n, each in enumerate(words(log)) if each.startswith(beginning))
    log.view.setCurrentIndex(log.model.index(row))
    return log.model.rows[row]


def test_every_entry_is_told_in_words_with_its_time(log):
    said = words(log)
    assert said[0] == "The brew day began"
    assert "Done: Fill 6 L of water" in said
    assert said[-1] == "Note: lid was off for a while"
    assert all(len(row.clock) == 5 for row in log.model.rows)
    assert log.count.text() == f"{len(said)} entries"


def test_a_reading_is_corrected_and_what_it_said_stays_beside_it(qtbot, page, log):
    choose(log, "Volume at the start of the boil")
    assert log.correct_button.isEnabled()
    log.correct_button.click()
    assert log.correcting.field.text() == "6.8 L"
    log.correcting.field.setText("6.5 L")
    qtbot.keyClick(log.correcting.field, Qt.Key.Key_Return)
    assert readings(page)[Measured.BOIL_START_VOLUME].reading.value == pytest.approx(6.5)
    row = choose(log, "Volume at the start of the boil")
    assert "6.5 L" in row.words
    assert "before: Volume at the start of the boil: 6.8 L" in row.remarks


def test_a_correction_that_is_no_reading_is_refused_beside_its_field(qtbot, page, log):
    choose(log, "Volume at the start of the boil")
    log.correct_button.click()
    log.correcting.field.setText("six")
    qtbot.keyClick(log.correcting.field, Qt.Key.Key_Return)
    assert log.correcting.isVisible()
    assert log.correcting.field.text() == "six"
    assert log.refusal.isVisible()
    assert readings(page)[Measured.BOIL_START_VOLUME].reading.value == pytest.approx(6.8)


def test_the_time_of_an_entry_is_set_right(qtbot, log):
    before = choose(log, "Note").clock
    log.time_button.click()
    assert log.timing.field.text() == before
    log.timing.field.setText("07:15")
    qtbot.keyClick(log.timing.field, Qt.Key.Key_Return)
    assert choose(log, "Note").clock == "07:15"


def test_what_is_taken_back_counts_no_more_and_is_still_read(page, log):
    choose(log, "Note")
    log.back_button.click()
    assert page.brew.brewing.notes == ()
    row = choose(log, "Note")
    assert "taken back" in row.remarks
    assert not log.back_button.isEnabled()


def test_only_what_can_be_done_to_an_entry_is_offered(log):
    choose(log, "The brew day began")
    offered = [log.correct_button, log.time_button, log.back_button]
    assert [each.isEnabled() for each in offered] == [False, True, False]
    choose(log, "Done")
    assert [each.isEnabled() for each in offered] == [False, True, True]


@pytest.mark.parametrize("suffix", [".txt", ".csv", ".json"])
def test_the_log_is_handed_on_as_the_ending_of_the_file_says(
    qtbot, log, tmp_path, monkeypatch, suffix
):
    path = tmp_path / f"porter{suffix}"
    monkeypatch.setattr(type(log._questions), "log_where", lambda *_: path)
    with qtbot.waitSignal(log.file_made) as made:
        log.export_button.click()
    where, content, said = made.args
    text = content.decode()
    assert where == path
    assert str(path) in said
    if suffix == ".json":
        assert len(json.loads(text)["log"]) == len(words(log))
    elif suffix == ".csv":
        assert len(list(csv.reader(text.splitlines()))) == len(words(log)) + 1
    assert "lid was off for a while" in text


def test_a_note_is_written_by_key_from_the_log_too(qtbot, page, log, kept):
    qtbot.keyClick(log.view, Qt.Key.Key_N)
    assert page.parts.shown is Part.STOVE
    field = QApplication.focusWidget()
    assert field is page.note.field
    qtbot.keyClicks(field, "smells of toffee")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert kept.entries()[-1].what is What.NOTE
    assert kept.entries()[-1].values["text"] == "smells of toffee"
    assert page.card.hasFocus()


def test_a_log_that_is_exported_from_elsewhere_does_not_lie_over_the_stove(page):
    """The menu asks for it while another page is shown, and then the stove comes back."""
    page.hide()
    log = page.log
    page.show()
    assert not log.isVisible()
    page.show_part(Part.LOG)
    assert log.isVisible()
    page.show_part(Part.STOVE)
    assert not log.isVisible()
