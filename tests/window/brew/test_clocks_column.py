"""Ring and timers beside the step, by finger and keyboard; what is due is said and confirmed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton

from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.window.brew.brew_page import BrewPage
from designer.window.brew.large_button import TARGET_PX
from designer.window.parts.theme import apply_scheme
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.entries import What
from tests.active_window import made_active
from tests.driven_clock import DrivenClock
from tests.window.session.test_open_brew import InMemory
from tests.workbench.planned_red import two_boils

SIZES = [(1280, 736), (1024, 536)]
"""Of the page, within windows of 1280 × 800 and 1024 × 600."""


@pytest.fixture(scope="module")
def finger():
    return QTest.createTouchDevice()


class Kitchen:
    """The page of a brew, its clock and what is on the disk."""

    def __init__(self, page, clock, kept):
        self.page, self.clock, self.kept = page, clock, kept
        self.brew, self.clocks, self.ring = page.brew, page.clocks, page.clocks.ring

    def begin(self, porter):
        self.brew.begin(new_brew(document_text(porter)), porter)

    def done_up_to(self, kind):
        while self.brew.brewing.now.kind != kind:
            self.brew.done()

    def boil(self, porter, minutes=0.0):
        self.begin(porter)
        self.done_up_to("boils")
        self.brew.done()
        self.go_on(minutes * 60)

    def go_on(self, seconds):
        self.clock.go_on(seconds)
        self.page.speaking.tick()
        self.page._tick()

    def card(self, timer="free 1"):
        return self.clocks.timers.cards[timer]

    def choose(self, words):
        self.ring.fill_menu()
        next(each for each in self.ring.menu.actions() if each.text() == words).trigger()

    def offered(self):
        self.ring.fill_menu()
        return [each.text() for each in self.ring.menu.actions()]

    @property
    def last(self):
        return self.kept.entries()[-1]


@pytest.fixture
def kitchen(qtbot, opened, display):
    clock, kept = DrivenClock(), InMemory()
    brew = OpenBrew(kept, display, clock)
    kept.running = lambda: ()
    brew.look_for_running = lambda: None
    brew.running = lambda: ()
    page = BrewPage(opened, display, brew, lambda: None)
    page.speaking.alarm.sound._player = lambda samples, rate: None
    qtbot.addWidget(page)
    page.resize(*SIZES[0])
    made_active(qtbot, page)
    page._ticks.stop()
    yield Kitchen(page, clock, kept)
    page.close_down()


def tap(qtbot, finger, widget, at=None):
    """Touch a widget as a finger does."""
    at = at or widget.rect().center()
    QTest.touchEvent(widget, finger).press(1, at, widget).commit()
    QTest.touchEvent(widget, finger).release(1, at, widget).commit()
    qtbot.wait(1)


def test_the_ring_shows_the_boil_to_come_and_begins_it_when_it_boils(kitchen, porter):
    assert (kitchen.ring.words.time, kitchen.ring.isEnabled()) == ("60:00", False)
    kitchen.begin(porter)
    kitchen.done_up_to("boils")
    assert kitchen.offered() == ["It boils", "It boiled at …"]
    kitchen.choose("It boils")
    assert kitchen.brew.brewing.now.kind == "addition"
    kitchen.go_on(90)
    assert (kitchen.ring.time.text(), kitchen.ring.words.above) == ("58:30", "Boil, left")
    assert kitchen.ring.words.below.startswith("ends ")


def test_a_burner_that_is_off_stops_the_clock_until_it_boils_again(kitchen, porter):
    kitchen.boil(porter, 10)
    kitchen.choose("Burner off: stop the clock")
    kitchen.go_on(300)
    assert (kitchen.ring.time.text(), kitchen.ring.words.above) == ("50:00", "burner off")
    kitchen.choose("It boils again: go on")
    kitchen.go_on(60)
    assert kitchen.ring.time.text() == "49:00"


def test_it_boiled_five_minutes_ago_is_told_by_one_tap(qtbot, kitchen, porter, finger):
    kitchen.begin(porter)
    kitchen.done_up_to("boils")
    kitchen.choose("It boiled at …")
    asked = kitchen.clocks.boiled_at
    assert asked.isVisible()
    tap(qtbot, finger, asked.usual[3])
    assert not asked.isVisible()
    left = kitchen.brew.find_timer("boil 1").left_s(kitchen.clock.now())
    assert left == pytest.approx(3600 - 300, abs=60), "five minutes ago, by the minute"


def test_a_time_that_is_no_time_is_refused_beside_its_field(qtbot, kitchen, porter):
    kitchen.boil(porter, 10)
    kitchen.choose("It boiled at …")
    asked = kitchen.clocks.boiled_at
    qtbot.keyClicks(asked.field, "25:70")
    qtbot.keyClick(asked.field, Qt.Key.Key_Return)
    assert asked.isVisible()
    assert asked.field.property("refused")
    qtbot.keyClick(asked.field, Qt.Key.Key_Escape)
    assert not asked.isVisible()
    assert kitchen.last.what is not What.TIMER or kitchen.last.values["does"] == "start"


def test_the_ring_opens_its_menu_by_the_space_bar_when_the_tab_key_came_to_it(
    qtbot, kitchen, porter
):
    kitchen.boil(porter, 1)
    kitchen.ring.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(kitchen.ring, Qt.Key.Key_Space)
    qtbot.waitUntil(kitchen.ring.menu.isVisible)
    qtbot.keyClick(kitchen.ring.menu, Qt.Key.Key_Down)
    qtbot.keyClick(kitchen.ring.menu, Qt.Key.Key_Return)
    assert not kitchen.brew.find_timer("boil 1").running


def test_a_timer_of_ones_own_is_started_by_keys_and_paused_lengthened_and_removed_by_touch(
    qtbot, kitchen, porter, finger
):
    kitchen.begin(porter)
    page = kitchen.page
    page.take_focus()
    qtbot.keyClick(page.card, Qt.Key.Key_T)
    qtbot.keyClicks(page.new_timer.field, "10")
    qtbot.keyClicks(page.new_timer.name, "Sanitiser in the bucket")
    qtbot.keyClick(page.new_timer.name, Qt.Key.Key_Return)
    card = kitchen.card()
    qtbot.waitUntil(card.isVisible)
    kitchen.go_on(215)
    assert (card.name.text(), card.time.text()) == ("Sanitiser in the bucket", "6:25")
    tap(qtbot, finger, card.pause_button)
    kitchen.go_on(60)
    assert card.time.text() == "6:25"
    tap(qtbot, finger, card.pause_button)
    tap(qtbot, finger, card.add_button)
    kitchen.go_on(60)
    assert card.time.text() == "6:25"
    tap(qtbot, finger, card.stop_button)
    assert kitchen.clocks.timers.cards == {}
    kitchen.brew.undo()
    assert kitchen.card().time.text() == "6:25", "undo brings it back, still running"


def test_what_is_due_flashes_in_words_and_one_tap_says_that_it_is_in(
    qtbot, kitchen, porter, finger
):
    kitchen.boil(porter)
    for _ in ("hops", "sanitised"):
        kitchen.brew.done()
    kitchen.go_on(45 * 60)
    flash = kitchen.page.flash
    assert flash.isVisible()
    assert flash.rows[0].words.text() == "Now: 400 g Light dry malt extract."
    assert flash.is_lit
    qtbot.waitUntil(lambda: not flash.is_lit)
    kitchen.go_on(70)
    assert flash.rows[0].words.text().startswith("400 g Light dry malt extract: 1:10 late")
    tap(qtbot, finger, flash.rows[0].button)
    kitchen.go_on(1)
    assert not flash.isVisible()
    assert kitchen.brew.brewing.now.mark == "E"
    kitchen.brew.undo()
    kitchen.go_on(1)
    assert flash.isVisible(), "what was not in after all is due again"


def test_a_sleep_past_everything_says_all_of_it_the_latest_first(kitchen, porter):
    kitchen.boil(porter)
    kitchen.go_on(61 * 60)
    said = [each.words.text for each in kitchen.page.speaking.due]
    assert said[0].startswith("burner off, then 20 g East Kent Golding")
    assert [each.split(":")[0] for each in said[1:]] == [
        "½ tablet Carrageenan finings",
        "400 g Light dry malt extract",
        "Sanitise fermenter and tools",
        "18 g Challenger, pellets",
    ]
    assert said[3].endswith("late. Do it now.")
    assert said[4].endswith("late. Put it in now.")
    assert "and 3 more" in kitchen.page.flash.more.text()


def test_clocks_that_do_not_agree_after_a_reboot_are_asked_about(qtbot, kitchen, porter):
    kitchen.boil(porter, 10)
    kitchen.brew.note("foam is falling")
    kitchen.clock.reboot(60)
    kitchen.clock.set_wall(-7200)
    kitchen.go_on(0)
    assert (kitchen.ring.words.state, kitchen.ring.time.text()) == ("doubtful", "?")
    assert kitchen.offered() == ["What is left of it …", "What time is it …"]
    flash, asked = kitchen.page.flash, kitchen.clocks.what_is_left
    assert flash.rows[0].words.text().startswith("Boil: how much is left?")
    flash.rows[0].button.click()
    qtbot.keyClicks(asked.field, "soon")
    qtbot.keyClick(asked.field, Qt.Key.Key_Return)
    assert asked.isVisible(), "that is no time"
    asked.field.selectAll()
    qtbot.keyClicks(asked.field, "48 min")
    qtbot.keyClick(asked.field, Qt.Key.Key_Return)
    assert kitchen.ring.words.state == "runs"
    assert kitchen.brew.find_timer("boil 1").left_s(kitchen.clock.now()) == 48 * 60


def test_what_time_it_is_answers_it_too(qtbot, kitchen, porter):
    from designer.window.brew.stove_texts import clock_text

    kitchen.boil(porter, 10)
    kitchen.brew.note("foam is falling")
    true_wall = kitchen.clock.now().wall + 60
    kitchen.clock.reboot(60)
    kitchen.clock.set_wall(-7200)
    kitchen.go_on(0)
    kitchen.choose("What time is it …")
    asked = kitchen.clocks.what_time
    qtbot.keyClicks(asked.field, clock_text(true_wall))
    qtbot.keyClick(asked.field, Qt.Key.Key_Return)
    left = kitchen.brew.find_timer("boil 1").left_s(kitchen.clock.now())
    assert left == pytest.approx(3600 - 660, abs=61), "a clock on the wall shows minutes"


def test_a_window_that_is_closed_and_opened_shows_the_boil_as_it_goes_on(
    qtbot, kitchen, porter, opened, display
):
    kitchen.boil(porter, 10)
    kitchen.clock.go_on(125)
    brew = OpenBrew(kitchen.kept, display, kitchen.clock)
    brew.show(kitchen.brew.brew, porter, kitchen.kept.entries())
    assert brew.find_timer("boil 1").left_s(kitchen.clock.now()) == 3600 - 725
    brew.close()


def test_the_timers_of_a_brew_that_is_not_shown_speak_too_and_lead_to_it(
    kitchen, porter, monkeypatch
):
    kitchen.boil(porter, 44)
    kitchen.brew.done()
    other, asked = kitchen.brew.brew, []
    monkeypatch.setattr(kitchen.brew, "go_on", asked.append)
    kitchen.brew.leave()
    kitchen.go_on(60)
    assert kitchen.page.flash.rows[0].words.text() == (
        "Harbour Lamp Porter: Now: 400 g Light dry malt extract."
    )
    kitchen.page.flash.rows[0].button.click()
    assert asked == [other.uid]


def test_the_ring_goes_from_one_boil_to_the_next_and_says_which_it_is(kitchen):
    kitchen.begin(two_boils())
    kitchen.done_up_to("boils")
    assert kitchen.ring.words.above == "Boil 1"
    kitchen.choose("It boils")
    kitchen.go_on(60)
    assert kitchen.ring.words.above == "Boil 1, left"
    while not kitchen.brew.find_timer("boil 1").ended:
        kitchen.brew.done()
    kitchen.go_on(1)
    assert (kitchen.ring.words.above, kitchen.ring.words.below) == ("Boil 2", "not yet")
    kitchen.done_up_to("boils")
    kitchen.choose("It boils")
    kitchen.go_on(60)
    assert kitchen.ring.words.above == "Boil 2, left"
    assert all(not mark.done for mark, _ in kitchen.ring.mark_places())


def test_what_the_menu_of_the_ring_offers_can_be_hit_with_a_wet_thumb(qtbot, kitchen, porter):
    kitchen.boil(porter, 10)
    kitchen.ring.click()
    menu = kitchen.ring.menu
    qtbot.waitUntil(menu.isVisible)
    heights = {menu.actionGeometry(each).height() for each in menu.actions()}
    menu.close()
    assert min(heights) >= TARGET_PX


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    ("scheme", "contrast"), [("light", "usual"), ("dark", "usual"), ("light", "high")]
)
def test_targets_are_large_and_nothing_is_cut(qtbot, qapp, kitchen, porter, size, scheme, contrast):
    apply_scheme(qapp, scheme, contrast)
    kitchen.page.resize(*size)
    kitchen.boil(porter, 42)
    kitchen.brew.start_timer("free", 95, "Hefestarterzwischenaufbewahrungsgefäß")
    kitchen.brew.start_timer("free", 1, "Sanitiser in the bucket")
    kitchen.go_on(120)
    qtbot.waitUntil(kitchen.card().isVisible)
    buttons = [
        *kitchen.clocks.findChildren(QAbstractButton),
        *kitchen.page.flash.findChildren(QAbstractButton),
    ]
    for each in buttons:
        if each.isVisible():
            assert min(each.width(), each.height()) >= TARGET_PX, each.accessibleName()
            assert each.accessibleName(), each
    qtbot.waitUntil(lambda: kitchen.ring.height() >= kitchen.ring.minimumSizeHint().height())
    assert kitchen.ring.is_whole()
    assert all(each.is_whole() for each in kitchen.clocks.timers.cards.values())
    for mark, place in kitchen.ring.mark_places():
        half = kitchen.ring._mark_size() / 2
        spot = QRect(
            place.toPoint() - QPoint(int(half), int(half)),
            place.toPoint() + QPoint(int(half), int(half)),
        )
        assert kitchen.ring.rect().contains(spot), mark


def test_a_tick_paints_only_the_figures_that_changed(qtbot, kitchen, porter):
    kitchen.boil(porter, 30.3)
    kitchen.brew.done()
    kitchen.go_on(0)
    qtbot.wait(50)
    ring, figures, others = kitchen.ring, [], []
    paint = ring.time.paintEvent
    ring.time.paintEvent = lambda event: (
        figures.append(event.region().boundingRect()),
        paint(event),
    )
    for each in (ring, ring.above, ring.below):
        each.paintEvent = lambda event, each=each: others.append(each)
    kitchen.go_on(1)
    qtbot.waitUntil(lambda: bool(figures))
    qtbot.wait(20)
    assert others == []
    assert max(each.width() for each in figures) < ring.time.width() / 3


def test_in_large_type_on_a_small_tablet_the_boil_is_seen_beside_its_step(
    qtbot, kitchen, porter, settings
):
    kitchen.boil(porter, 12.0)
    page = kitchen.page
    page.resize(1024, 506)
    settings.contrast = "high"
    area = page.stove.area.viewport()

    def seen(widget):
        return area.rect().contains(QRect(widget.mapTo(area, QPoint(0, 0)), widget.size()))

    qtbot.waitUntil(lambda: page._was_larger and seen(page.card) and seen(kitchen.ring))
    qtbot.waitUntil(page.card.is_whole)
    assert kitchen.ring.width() >= 200
