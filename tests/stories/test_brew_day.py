"""A whole brew day in the window: by keyboard alone, and with nothing but a finger."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.library.store import Store
from designer.recipe.message import say
from designer.window.brew.part_names import Part
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.announcements import Announcement, When
from designer.workbench.brew.brewing import Status
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import entries_of
from tests.driven_clock import DrivenClock
from tests.workbench.planned_red import two_buckets

from .acts import store_at_rest
from .by_keys import Keys

FINGER = QTest.createTouchDevice()


@pytest.fixture
def clock():
    return DrivenClock()


@pytest.fixture
def at_the_stove(on_a_box, clock):
    """A window over a recipe, with a clock that is driven."""

    def open_one(recipe, width=1280, height=800):
        window = on_a_box(OpenRecipe(recipe), width, height)
        window.brew_clock = clock
        return window

    return open_one


def settled(qtbot, window):
    qtbot.waitUntil(lambda: not window.brew_page.brew.reckoning, timeout=30_000)


def wait_for_its_turn(window, clock):
    """Let time pass until the step now is due."""
    brewing = window.brew_page.brew.brewing
    due = 60.0 * brewing.now.minutes
    clock.go_on(max(due - clock.true_s, 0.0))


def typed_of(window, blank):
    """The forecast of a blank as it would be typed: figures alone."""
    text = window.display.short(blank.kind, blank.value)
    return "".join(sign for sign in text if sign in "0123456789.")


def logged(folder):
    """The one brew of the box, and what of its log counts in any case."""
    with Store.open(folder) as store:
        (brew,) = store.brews.all()
        return brew, entries_of(line.entry for line in store.brews.lines(brew.id))


def assert_whole_day(window, folder, brewing):
    assert all(each.status is Status.DONE for each in brewing.states)
    assert brewing.finished is not None
    brew, entries = logged(folder)
    assert [each.what for each in entries].count(What.DONE) == len(brewing.steps)
    read = [each for each in entries if each.what is What.READING]
    assert len(read) == sum(len(step.blanks) for step in brewing.steps)
    assert brew.version
    assert not brew.is_under_way


@pytest.mark.parametrize("what", ["the porter", "the kit in two buckets"])
def test_a_day_by_keyboard_alone(qtbot, at_the_stove, clock, porter, folder, what):
    recipe = porter if what == "the porter" else two_buckets(10.0, 10.0)
    window = at_the_stove(recipe)
    keys = Keys(qtbot, window)
    number = window.page_names.index("Brew day") + 1
    keys.press(Qt.Key(Qt.Key.Key_0 + number), modifier=Qt.KeyboardModifier.ControlModifier)
    page = window.brew_page
    assert QApplication.focusWidget() is page.card
    assert "start the day" in page.card.done_button.text()
    keys.press(Qt.Key.Key_Space)
    settled(qtbot, window)
    seen = []
    while (step := page.brew.brewing.now) is not None:
        wait_for_its_turn(window, clock)
        for blank in step.blanks:
            keys.type(typed_of(window, blank))
            keys.press(Qt.Key.Key_Return)
            assert not page.measuring.doubt.isVisible(), page.measuring.doubt.text.text()
            assert QApplication.focusWidget() is page.card
        seen.append(step.key)
        keys.press(Qt.Key.Key_Return if len(seen) % 2 else Qt.Key.Key_Space)
    assert seen == [each.key for each in page.brew.brewing.steps]
    assert page.card.done_button.text() == "Finish the day"
    keys.press(Qt.Key.Key_Space)
    settled(qtbot, window)
    qtbot.waitUntil(lambda: window.keeping.brews.settled, timeout=10_000)
    store_at_rest(qtbot, window)
    assert_whole_day(window, folder, page.brew.brewing)


def tap(qtbot, widget, at=None):
    """Touch a widget with a finger and let go: raw touches, of which Qt makes what it does."""
    window = widget.window()
    place = widget.mapTo(window, at if at is not None else widget.rect().center())
    assert window.rect().contains(place), widget
    touched = window.childAt(place)
    assert touched is widget or widget.isAncestorOf(touched), (widget, touched)
    QTest.touchEvent(window, FINGER).press(0, place, window).commit()
    QTest.touchEvent(window, FINGER).release(0, place, window).commit()
    QApplication.processEvents()


def test_a_day_by_touch_alone_on_a_small_tablet(qtbot, at_the_stove, clock, porter, folder):
    window = at_the_stove(porter, 1024, 600)
    tap(qtbot, window.header.page_buttons.button(window.page_names.index("Brew day")))
    page = window.brew_page
    pad = page.measuring.pad
    tap(qtbot, page.card.done_button)
    settled(qtbot, window)
    taken = 0
    while (step := page.brew.brewing.now) is not None:
        wait_for_its_turn(window, clock)
        for blank in step.blanks:
            settled(qtbot, window)
            cell = next(c for c in page.strip.cells.values() if c.cell.blank.what is blank.what)
            assert cell.is_next, "the strip has scrolled to it"
            tap(qtbot, cell.field)
            assert pad.isVisible(), (step.key, blank.label, QApplication.focusWidget())
            for sign in typed_of(window, blank):
                tap(qtbot, pad.buttons[sign])
            tap(qtbot, pad.take_button)
            assert not pad.isVisible()
            taken += 1
            assert len(page.brew.brewing.readings) == taken
        tap(qtbot, page.card.done_button)
    tap(qtbot, page.card.done_button)
    settled(qtbot, window)
    qtbot.waitUntil(lambda: window.keeping.brews.settled, timeout=10_000)
    store_at_rest(qtbot, window)
    assert_whole_day(window, folder, page.brew.brewing)


def test_f11_gives_the_step_the_whole_screen_and_the_window_back(qtbot, at_the_stove, porter):
    window = at_the_stove(porter)
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    qtbot.keyClick(window, Qt.Key.Key_F11)
    assert page.is_full
    assert window.isFullScreen()
    assert not window.header.isVisible()
    assert not window.menuBar().isVisible()
    assert page.bar.clock.isVisible()
    assert page.bar.name.text() == porter.name
    qtbot.keyClick(page.card, Qt.Key.Key_F11)
    assert not window.isFullScreen()
    assert window.header.isVisible()
    assert window.menuBar().isVisible()
    page.full_button.click()
    assert window.isFullScreen()
    window.show_page(0)
    assert not window.isFullScreen()
    assert window.header.isVisible()


def test_f11_gives_any_other_page_the_whole_screen_with_its_menus(qtbot, at_the_stove, porter):
    window = at_the_stove(porter)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F11)
    assert window.isFullScreen()
    assert window.menuBar().isVisible()
    window.show_page(window.page_names.index("Brew day"))
    qtbot.keyClick(window, Qt.Key.Key_F11)
    assert window.isFullScreen()
    assert not window.menuBar().isVisible()
    qtbot.keyClick(window, Qt.Key.Key_F11)
    assert not window.isFullScreen()
    assert window.menuBar().isVisible()


def test_the_menu_does_what_the_keys_do_while_the_page_is_shown(qtbot, at_the_stove, porter):
    window = at_the_stove(porter)
    menu = next(each.menu() for each in window.menuBar().actions() if each.text() == "&Brew day")
    entries = {action.text().split("\t")[0]: action for action in menu.actions()}
    assert not entries["&Done, go on"].isEnabled()
    window.show_page(window.page_names.index("Brew day"))
    assert entries["&Done, go on"].isEnabled()
    entries["&Done, go on"].trigger()
    entries["&Done, go on"].trigger()
    page = window.brew_page
    assert page.brew.brewing.now.key != page.brew.brewing.steps[0].key
    entries["&Back a step"].trigger()
    assert page.brew.brewing.now.key == page.brew.brewing.steps[0].key
    entries["&Note for the log…"].trigger()
    assert page.note.isVisible()
    shown = {action.text().partition("\t")[2] for action in menu.actions()} - {""}
    assert shown == {"Space", "Backspace", "T", "N"}
    for part, means in ((Part.STOVE, "&Note for the log…"), (Part.FERMENTING, "Type a &reading…")):
        page.show_part(part)
        menu.aboutToShow.emit()
        of_n = [each.text() for each in menu.actions() if each.text().endswith("\tN")]
        assert of_n == [f"{means}\tN"], "N does one of two things, as the page stands"


def test_of_several_brews_the_page_says_which_is_shown_and_offers_the_others(
    qtbot, at_the_stove, porter, clock
):
    window = at_the_stove(porter)
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    page.do()
    first = page.brew.brew.uid
    assert not page.bar.brews.isVisible(), "the header says which"
    page.brew.leave()
    clock.go_on(3600.0)
    page.do()
    assert page.brew.brew.uid != first
    qtbot.waitUntil(lambda: window.keeping.brews.settled, timeout=10_000)
    page.brew.look_for_running()
    qtbot.waitUntil(lambda: page.bar.brews.count() == 3, timeout=10_000)
    assert page.bar.brews.isVisible()
    names = [page.bar.brews.itemText(n) for n in range(3)]
    assert all(each.startswith(porter.name) for each in names[:2])
    assert names[2] == f"Begin with {porter.name}"
    place = page.bar.brews.findData(first)
    page.bar.brews.setCurrentIndex(place)
    page.bar.brews.activated.emit(place)
    qtbot.waitUntil(lambda: page.brew.brew.uid == first, timeout=10_000)


def test_high_contrast_is_chosen_on_the_page_and_makes_its_type_larger(
    qtbot, at_the_stove, porter, settings
):
    window = at_the_stove(porter)
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    usual = page.card.font().pointSizeF()
    button = page.card.done_button.font().pointSizeF()
    qtbot.mouseClick(page.contrast_button, Qt.MouseButton.LeftButton)
    assert settings.contrast == "high"
    assert window.palette().window().color().name() == "#ffffff"
    qtbot.waitUntil(lambda: page.card.font().pointSizeF() == pytest.approx(1.2 * usual))
    assert page.card.done_button.font().pointSizeF() == pytest.approx(1.2 * button)
    qtbot.mouseClick(page.contrast_button, Qt.MouseButton.LeftButton)
    assert settings.contrast == "usual"
    qtbot.waitUntil(lambda: page.card.font().pointSizeF() == pytest.approx(usual))
    assert page.card.done_button.font().pointSizeF() == pytest.approx(button)


def test_a_message_lies_above_what_calls_at_the_foot_of_the_page(qtbot, at_the_stove, porter):
    window = at_the_stove(porter, 1024, 600)
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    words = say("now", "Now: {what}.", what="400 g extract")
    due = Announcement("boil", "extract", When.NOW, 0.0, words)
    window.messages.say("The brew is under way.", grave=True)
    window.messages.say("Saved.")
    page.flash.show_due((due,))
    qtbot.waitUntil(page.flash.isVisible)
    top = page.flash.mapTo(window.centralWidget(), page.flash.rect().topLeft()).y()
    assert window.messages.isVisible()
    assert window.messages.geometry().bottom() < top
    page.flash.show_due(())
    qtbot.waitUntil(lambda: window.messages.geometry().bottom() > top)
