"""A beer is remembered when it wants something: at the start, in time, by one window of several."""

from datetime import UTC, datetime

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QPushButton

from designer.brewday.explaining.asked import GravitySample, Taken
from designer.brewday.fermenting.beer_steps import READ_AGAIN, READ_FIRST
from designer.brewday.packaging.packaged import Packing
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.brews import new_brew
from designer.window.parts import tray
from designer.window.session import reminding
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.beer_reminders import expected_of
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.kept_logs import kept_logs
from designer.workbench.brew.packing_values import values_of_packing
from designer.workbench.brew.reminders import may_expect
from designer.workbench.brew.sample_values import values_of_sample
from tests.driven_clock import DrivenClock

EIGHT = datetime(2026, 4, 2, 8, 0).timestamp()
"""On the morning of the second of April, where the machine stands."""
HOUR, DAY = 3600.0, 86_400.0
READ = "Read the gravity again"


def line(number, what, at, **values):
    return {"id": f"{number:06d}-ab", "at": {"wall": at}, "what": what, "values": values}


def reminder(number, wall, text=READ):
    return line(number, "reminder", EIGHT - 2 * DAY, wall=wall, text=text, does="set")


@pytest.fixture
def kept(folder, porter):
    """The porter in the fermenter for five days, its log to be added to."""

    def put(*lines):
        started = datetime.fromtimestamp(EIGHT - 5 * DAY, UTC).isoformat()
        brew = new_brew(document_text(porter), started=started)
        began = line(1, "began", EIGHT - 5 * DAY)
        done = line(2, "finished", EIGHT - 5 * DAY + 5 * HOUR)
        with Store.open(folder) as store:
            store.brews.put(brew, [began, done, *lines])
        return brew.uid

    return put


@pytest.fixture
def seen(qtbot, on_a_box, porter, monkeypatch):
    """Open windows at eight o'clock in the morning; each has its clock."""
    monkeypatch.setattr(reminding, "LONGEST_MS", 20)
    monkeypatch.setattr("designer.window.reminders.now", lambda: DrivenClock(EIGHT).now())

    def open_one():
        window = on_a_box(OpenRecipe(porter))
        window.brew_clock = DrivenClock(EIGHT)
        return window

    return open_one


def said(window):
    return window.messages.text.text() if window.messages.isVisible() else ""


def press(qtbot, window, text):
    [button] = [
        each for each in window.messages.findChildren(QPushButton)
        if each.text() == text and each.isVisible()
    ]  # fmt: skip
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def entries(folder, uid):
    with Store.open(folder) as store:
        lines = store.brews.lines(store.brews.by_uid(uid).id)
        return [(e.entry["values"]["wall"], e.entry["values"]["does"])
                for e in lines if e.entry["what"] == "reminder"]  # fmt: skip


def test_the_start_tells_what_today_brings_and_one_press_leads_to_the_beer(qtbot, kept, seen):
    uid = kept(reminder(3, EIGHT + 10 * HOUR), reminder(4, EIGHT + 3 * DAY, "Bottle it"))
    window = seen()
    qtbot.waitUntil(lambda: said(window) == f"Today, Harbour Lamp Porter: {READ}.", timeout=10_000)
    press(qtbot, window, "Show the beer")
    qtbot.waitUntil(lambda: window.brew_is_shown, timeout=10_000)
    assert window.pages.currentWidget() is window.brew_page
    assert window.brew_page.brew.brew.uid == uid


def test_what_is_seen_to_is_told_no_more_after_a_restart_either(qtbot, kept, seen, folder):
    uid = kept(reminder(3, EIGHT - DAY))
    window = seen()
    qtbot.waitUntil(lambda: said(window).startswith("Since 1 Apr 2026, Harbour Lamp"), timeout=9000)
    press(qtbot, window, "Seen to")
    assert said(window) == ""
    qtbot.waitUntil(lambda: len(entries(folder, uid)) == 2, timeout=10_000)
    assert entries(folder, uid)[-1] == (EIGHT - DAY, "done")
    window.opened.undo_stack.setClean()
    window.close()
    again = seen()
    qtbot.waitUntil(lambda: not again.autosave.store.busy, timeout=10_000)
    assert said(again) == ""
    assert again.reminders.reminding.due == ()


def test_tomorrow_comes_back_tomorrow_at_the_same_time_of_day(qtbot, kept, seen, folder):
    uid = kept(reminder(3, EIGHT - 2 * DAY + HOUR))
    window = seen()
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)
    press(qtbot, window, "Tomorrow")
    assert said(window) == ""
    qtbot.waitUntil(lambda: len(entries(folder, uid)) == 2, timeout=10_000)
    assert entries(folder, uid)[-1] == (EIGHT + DAY + HOUR, "set")
    reminding = window.reminders.reminding
    reminding.look()
    qtbot.waitUntil(lambda: reminding._waiting != (), timeout=10_000)
    assert said(window) == "", "tomorrow is not today"
    window.brew_clock.go_on(DAY + HOUR)
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)
    assert said(window).startswith("Today, "), "by now it is"


def test_it_is_told_at_its_time_without_a_look_at_the_disk(qtbot, kept, seen, monkeypatch):
    kept(reminder(3, EIGHT + 2 * HOUR))
    window = seen()
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)
    reminding = window.reminders.reminding
    qtbot.waitUntil(lambda: reminding._expected != {}, timeout=30_000)
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
    window.messages.put_away()
    window.brew_clock.go_on(HOUR)
    asked = []
    ask = window.autosave.store.ask
    monkeypatch.setattr(
        window.autosave.store, "ask", lambda work, *rest, **more: asked.append(work)
        or ask(work, *rest, **more),
    )  # fmt: skip
    ticks = []
    window.reminders.reminding._clock.timeout.connect(lambda: ticks.append(1))
    qtbot.waitUntil(lambda: len(ticks) > 3, timeout=10_000)
    assert (said(window), asked) == ("", []), "it is known here, and not time yet"
    window.brew_clock.go_on(HOUR)
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)


def test_of_two_windows_one_tells_and_the_other_takes_over_when_it_is_closed(qtbot, kept, seen):
    kept(reminder(3, EIGHT - HOUR))
    first = seen()
    qtbot.waitUntil(lambda: READ in said(first), timeout=10_000)
    second = seen()
    qtbot.waitUntil(lambda: second.reminders.reminding._waiting != (), timeout=10_000)
    qtbot.waitUntil(lambda: not second.autosave.store.busy, timeout=10_000)
    assert READ not in said(second)
    first.opened.undo_stack.setClean()
    first.close()
    qtbot.waitUntil(lambda: not first.isVisible(), timeout=10_000)
    third = seen()
    qtbot.waitUntil(lambda: READ in said(third), timeout=10_000)


def test_a_store_that_does_not_answer_leaves_no_reminder_untold(qtbot, kept, seen, monkeypatch):
    monkeypatch.setattr(reminding, "PATIENCE_MS", 200)
    kept(reminder(3, EIGHT + 2 * HOUR))
    window = seen()
    window.messages.put_away()
    qtbot.waitUntil(lambda: window.reminders.reminding._waiting != (), timeout=10_000)
    monkeypatch.setattr(window.autosave.store, "ask", lambda *_, **__: None)
    window.brew_clock.go_on(3 * HOUR)
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)


def test_what_was_set_before_the_beer_was_packaged_is_not_told_of(qtbot, kept, seen):
    packing = values_of_packing(Packing(10.0, 2.2, 20.0, 0.0))
    kept(
        reminder(3, EIGHT - HOUR),
        line(4, "packaged", EIGHT - DAY, packing=packing, said="bottled"),
        line(5, "reminder", EIGHT - DAY, wall=EIGHT - HOUR, text="Try a bottle", does="set"),
    )
    window = seen()
    qtbot.waitUntil(lambda: "Try a bottle" in said(window), timeout=10_000)
    assert READ not in said(window)


def test_what_a_beer_wants_next_is_remembered_without_anybody_setting_it(qtbot, kept, seen, folder):
    uid = kept()
    window = seen()
    reminding = window.reminders.reminding
    qtbot.waitUntil(lambda: reminding._waiting != (), timeout=30_000)
    [first] = reminding._waiting
    assert first.text == READ_FIRST.text
    assert first.wall > EIGHT, "not on the fifth day yet"
    assert said(window) == ""
    window.brew_clock.go_on(first.wall - EIGHT + HOUR)
    told = f"Today, Harbour Lamp Porter: {READ_FIRST.text}."
    qtbot.waitUntil(lambda: said(window) == told, timeout=10_000)
    window.brew_clock.go_on(2 * DAY)
    qtbot.waitUntil(lambda: said(window).startswith("Since "), timeout=10_000)
    press(qtbot, window, "Seen to")
    qtbot.waitUntil(lambda: entries(folder, uid) == [(first.wall, "done")], timeout=10_000)
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
    reminding.look()
    qtbot.waitUntil(lambda: not (window.autosave.store.busy or reminding._beers.busy), timeout=9000)
    assert (said(window), reminding.due) == ("", ())


def test_a_reading_says_what_comes_next_from_the_next_morning_on(qtbot, kept, seen):
    sample = values_of_sample(GravitySample(1.014, sample_c=20.0, taken=Taken.FERMENTING))
    kept(line(3, "sample", EIGHT - HOUR, sample=sample, typed="1.014"))
    window = seen()
    reminding = window.reminders.reminding
    qtbot.waitUntil(lambda: reminding._waiting != (), timeout=30_000)
    [again] = reminding._waiting
    assert again.text == READ_AGAIN.text
    assert again.wall >= EIGHT + 25 * HOUR
    assert said(window) == ""


def test_beer_of_long_ago_is_left_alone(qtbot, kept, seen, folder):
    kept()
    log = store_logs(folder)[0]
    assert may_expect(log[1], Instant(EIGHT))
    assert expected_of(*log, Instant(EIGHT)) != ()
    assert expected_of(*log, Instant(EIGHT + 60 * DAY)) == ()
    assert not may_expect(log[1], Instant(EIGHT + 200 * DAY))


def store_logs(folder):
    with Store.open(folder) as store:
        return kept_logs(store)


def test_where_there_is_a_tray_it_is_said_there_while_the_window_is_not_looked_at(
    qtbot, kept, seen, monkeypatch
):
    shown = []

    class Icon(QObject):
        messageClicked = Signal()  # noqa: N815 - Qt's own name

        def __init__(self, icon, parent):
            super().__init__(parent)
            assert not icon.isNull()

        def show(self):
            """It is seen."""

        def hide(self):
            """It is seen no more."""

    Icon.MessageIcon = tray.QSystemTrayIcon.MessageIcon
    Icon.isSystemTrayAvailable = Icon.supportsMessages = staticmethod(lambda: True)
    Icon.showMessage = lambda self, title, text, *_: shown.append(text)
    monkeypatch.setattr(tray, "QSystemTrayIcon", Icon)
    uid = kept(reminder(3, EIGHT + HOUR))
    window = seen()
    qtbot.waitUntil(lambda: READ in said(window), timeout=10_000)
    assert shown == [], "the window is looked at"
    monkeypatch.setattr(window, "isActiveWindow", lambda: False)
    window.brew_clock.go_on(HOUR)
    qtbot.waitUntil(lambda: len(shown) == 1, timeout=10_000)
    assert shown[0].startswith("Today, Harbour Lamp Porter")
    window.reminders.tray._icon.messageClicked.emit()
    qtbot.waitUntil(lambda: window.brew_is_shown, timeout=10_000)
    assert window.brew_page.brew.brew.uid == uid
