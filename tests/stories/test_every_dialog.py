"""No dialog, tray or calendar is left out where the program speaks another language."""

from datetime import date

import pytest
from PySide6.QtWidgets import QDialog

from designer.brewday.packaging.packaged import BottleSize, Packing
from designer.brewday.packaging.packed import packaged
from designer.library.glossary import terms
from designer.workbench.brew.calendar_file import events_of
from tests.pseudo_language import own_texts
from tests.shown_texts import shown_texts
from tests.stories.test_every_page import assert_said

OTHERS = {"N", "T", "Scroll Left", "Scroll Right"}
"""Keys of one letter; and what Qt's own catalogue says."""


def texts_of(widget):
    return {text for _, text in shown_texts(widget)}


@pytest.fixture
def own(porter):
    return own_texts(porter)


def open_dialogs(window):
    return [each for each in window.findChildren(QDialog) if each.isVisible()]


def test_preferences_glossary_and_keys_are_said_in_the_language(qtbot, pseudo, window, own):
    said = set()
    for show in (window.show_preferences, window.explaining.all_terms):
        show()
        qtbot.waitUntil(lambda: bool(open_dialogs(window)))
        for dialog in open_dialogs(window):
            said |= texts_of(dialog)
            dialog.close()
    window.show_help()
    said |= texts_of(window.help)
    sources = {each.source for each in terms() if each.source}
    assert_said(said, own | sources | OTHERS, least=40)


def test_days_in_a_calendar_are_said_in_the_language(pseudo):
    packing = Packing(9.6, 2.3, 21.0, 0.002, bottles=(BottleSize(0.5, 19),))
    events = events_of("brew-1", "Harbour Lamp Porter", packaged(packing, date(2026, 4, 8)).dates)
    assert len(events) == 5
    told = {each.title for each in events} | {each.notes for each in events if each.notes}
    assert_said(told, {"Harbour Lamp Porter"}, least=5)
