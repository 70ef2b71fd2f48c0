"""What a screen reader says without being asked: changes once they rest, what is grave at once."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication

from designer.recipe.message import say
from designer.window.parts.announcing import REST_MS
from designer.workbench.brew.announcements import Announcement, When

ASSERTIVE = QAccessible.AnnouncementPoliteness.Assertive


@pytest.fixture
def heard(qapp, monkeypatch):
    """What a screen reader was told, each text with whether it breaks in; one listens."""
    told = []

    def hear(event):
        if event.type() == QAccessible.Event.Announcement:
            told.append((event.message(), event.politeness() is ASSERTIVE))

    QAccessible.setActive(True)
    monkeypatch.setattr(QAccessible, "updateAccessibility", staticmethod(hear))
    yield told
    QAccessible.setActive(False)


def test_typing_is_told_once_when_it_rests_and_only_what_has_changed(qtbot, heard, window):
    process = window.compose.process
    field = process.by_place["process.boil_time"]
    field.setFocus()
    field.selectAll()
    for key in "45":
        qtbot.keyClicks(field, key)
        qtbot.waitUntil(lambda: window.opened.outlook is window.opened.newest_outlook())
        assert heard == []
    qtbot.waitUntil(lambda: bool(heard), timeout=5 * REST_MS)
    ((text, breaks_in),) = heard
    bitterness = window.compose.forecast.rows[3]
    assert "Bitterness" in bitterness.accessibleName()
    assert "IBU" in text
    assert "EBC" not in text
    assert not breaks_in


def test_what_stops_a_brewer_is_told_at_once_and_told_when_it_is_settled(qtbot, heard, window):
    field = window.compose.process.by_place["pot.volume"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "4 L")
    qtbot.waitUntil(lambda: bool(heard), timeout=REST_MS - 100)
    grave, breaks_in = heard[0]
    assert breaks_in
    assert "pot" in grave
    before = len(heard)
    window.opened.undo_stack.undo()
    qtbot.waitUntil(lambda: any("settled" in text for text, _ in heard[before:]), timeout=5000)
    assert any(grave in text for text, _ in heard[before:])


def test_another_recipe_is_no_change_of_the_one_before(qtbot, heard, window, porter):
    weaker = replace(porter, fermentables=porter.fermentables[1:])
    window.opened.replace_by(weaker, None)
    window.opened.newest_outlook()
    field = window.compose.process.by_place["process.boil_time"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "45")
    qtbot.waitUntil(lambda: bool(heard), timeout=5 * REST_MS)
    assert [("IBU" in text, "Alcohol" in text) for text, _ in heard] == [(True, False)]


def test_messages_are_told_and_trouble_breaks_in(heard, window):
    window.messages.say("Saved.")
    window.messages.say("The disk is full.", grave=True)
    assert heard == [("Saved.", False), ("Trouble: The disk is full.", True)]


def test_a_timer_is_told_with_what_is_to_be_done(heard, window, settings):
    from designer.window.brew.alarm import Alarm
    from tests.driven_clock import DrivenClock

    settings.brew_sound = False
    alarm = Alarm(window, settings)
    now = DrivenClock().now()
    due = Announcement("1", "", When.NOW, 0.0, say("x", "{hop} into the pot now", hop="Fuggle"))
    alarm.tell((due,), now)
    alarm.tell((due,), now)
    assert heard == [("Fuggle into the pot now", True)]


def test_nothing_is_put_into_words_while_nobody_listens(qtbot, window):
    field = window.compose.process.by_place["process.boil_time"]
    assert not QAccessible.isActive()
    field.setFocus()
    qtbot.keyClicks(QApplication.focusWidget(), "4")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    window.opened.newest_outlook()
    assert window.compose._told is None
