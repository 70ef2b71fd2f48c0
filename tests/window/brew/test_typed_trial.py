"""What follows is shown while a reading is typed, and nothing of it is kept before it is taken."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.brewday.measured.readings import Measured
from designer.workbench.brew.entries import What


@pytest.fixture
def boiling(page, up_to, settle):
    """The page as the boil begins."""
    up_to("boil 1/boils")
    settle()
    return page


def cell_of(page, what):
    return next(each for each in page.strip.cells.values() if each.cell.blank.what is what)


def type_in(qtbot, page, text):
    field = cell_of(page, Measured.BOIL_START_GRAVITY).field
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    qtbot.keyClicks(field, text)
    return field


def of_pot_end(page):
    return cell_of(page, Measured.BOIL_END_GRAVITY).cell.now


def test_what_follows_is_shown_while_it_is_typed_and_nothing_is_kept_of_it(qtbot, boiling, kept):
    before, entries = of_pot_end(boiling), len(boiling.brew.brewing.entries)
    logged = boiling.brew.outlook
    field = type_in(qtbot, boiling, "1.059")
    qtbot.waitUntil(lambda: of_pot_end(boiling) != before)
    assert cell_of(boiling, Measured.BOIL_END_GRAVITY).cell.changed
    assert len(boiling.brew.brewing.entries) == entries
    assert boiling.brew.outlook is logged, "what advice and doubts go by is what is logged"
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert of_pot_end(boiling) == before
    assert all(each.what is not What.READING for each in boiling.brew.brewing.entries)


def test_once_it_is_taken_the_same_is_known_of_the_day(qtbot, boiling, settle):
    before = of_pot_end(boiling)
    field = type_in(qtbot, boiling, "1.059")
    qtbot.waitUntil(lambda: of_pot_end(boiling) != before)
    tried = of_pot_end(boiling)
    seen = []
    boiling.brew.changed.connect(lambda: seen.append(of_pot_end(boiling)))
    qtbot.keyClick(field, Qt.Key.Key_Return)
    settle()
    QApplication.processEvents()
    assert of_pot_end(boiling) == tried
    assert before not in seen, "the figures do not jump back in between"
    assert boiling.brew.trial.known is None


def test_what_cannot_be_changes_nothing_while_it_is_typed(qtbot, boiling):
    before = of_pot_end(boiling)
    for text in ("1.2", "46", "eleven"):
        field = type_in(qtbot, boiling, text)
        qtbot.waitUntil(lambda: not boiling.brew.trial.busy)
        assert of_pot_end(boiling) == before, text
        field.clear()
