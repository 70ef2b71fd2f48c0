"""The whole window by fingers alone: touches as a screen tells of them, and its own keyboard."""

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import (
    QApplication,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QScrollArea,
    QScroller,
    QToolTip,
)

from designer.library.recipe_file import load
from designer.library.store import Store
from designer.recipe.edits import ChangePart
from designer.recipe.message import word
from designer.recipe.plan import is_planned
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.units import read
from designer.window.parts import targets
from designer.window.session.looking_ahead import Known
from designer.window.session.open_recipe import OpenRecipe
from tests.small_targets import small_targets

from .acts import store_at_rest, wait_for_words
from .by_finger import Finger, touch_screen
from .walking import filled, look_at_rare_dialogs, saved_on_its_clock, walk

INACTIVE = QScroller.State.Inactive


@pytest.fixture
def finger(qtbot):
    return Finger(qtbot)


@pytest.fixture
def touched(qtbot, finger, window):
    """A window that a finger has touched, so that its targets are large."""
    return made_for_fingers(qtbot, window, finger)


def made_for_fingers(qtbot, window, finger):
    touch_screen()
    qtbot.waitUntil(lambda: window.fingers is not None, timeout=10_000)
    finger.tap(window.header.page_buttons.button(0))
    qtbot.waitUntil(targets.are_large)
    QApplication.processEvents()
    return window


def settle(qtbot, window):
    """Wait until the forecast is that of the recipe as it now is."""
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL, timeout=10_000)


def column(view):
    """The column of the page that a table stands in."""
    around = view.parentWidget()
    while not isinstance(around, QScrollArea):
        around = around.parentWidget()
    return around


def at_rest(qtbot, view):
    scroller = QScroller.scroller(view.viewport())
    qtbot.waitUntil(lambda: scroller.state() == INACTIVE, timeout=10_000)


def press_in_menu(finger, menu, words):
    action = next(each for each in menu.actions() if words in each.text().replace("&", ""))
    finger.tap(menu, menu.actionGeometry(action).center())


# how fingers are taken


def test_the_first_touch_makes_all_that_is_pressed_large_and_a_mouse_does_not(
    qtbot, finger, window, settings
):
    assert small_targets(window)
    made_for_fingers(qtbot, window, finger)
    assert small_targets(window) == []
    settings.targets = "never"
    assert small_targets(window)
    settings.targets = "always"
    assert small_targets(window) == []


def test_a_drawn_finger_scrolls_the_page_and_chooses_nothing(qtbot, touched, finger, porter):
    view = touched.compose.hops.view
    area = column(view)
    before, cell = area.verticalScrollBar().value(), view.currentIndex()
    place = view.visualRect(view.model().index(0, 1)).center()
    finger.draw(view.viewport(), QPoint(0, -120), place)
    at_rest(qtbot, area)
    assert area.verticalScrollBar().value() == pytest.approx(before + 120, abs=12)
    assert view.currentIndex() == cell
    assert not view.is_editing
    assert touched.opened.recipe == porter


def test_a_flick_goes_on_by_itself_and_a_finger_that_stops_it_presses_nothing(
    qtbot, touched, finger
):
    view = touched.compose.hops.view
    area = column(view)
    bar = area.verticalScrollBar()
    scroller = QScroller.scroller(area.viewport())
    for _ in range(12):  # of a finger that a busy machine has seen only once Qt tells no speed
        scroller.stop()
        bar.setValue(0)
        finger.draw(area.viewport(), QPoint(0, -60), QPoint(300, 250), steps=4, rests=False)
        at_once = bar.value()
        qtbot.wait(30)
        if scroller.state() == QScroller.State.Scrolling and at_once < bar.value() < bar.maximum():
            break
    assert scroller.state() == QScroller.State.Scrolling
    assert at_once < bar.value() < bar.maximum(), "it goes on by itself"
    recipe, button = touched.opened.recipe, touched.compose.hops.add_button
    window, place = finger._place(area.viewport(), QPoint(300, 250))
    finger._event(window).press(0, place, window).commit()
    finger._event(window).release(0, place, window).commit()
    stood = bar.value()
    qtbot.wait(150)
    assert bar.value() == stood < bar.maximum()
    assert touched.opened.recipe == recipe
    assert not button.isDown()


def test_a_finger_drawn_off_a_button_leaves_it(qtbot, touched, finger):
    page = touched.compose
    button = page.hops.more_button
    finger.reach(button)
    finger.draw(button, QPoint(0, -60))
    at_rest(qtbot, column(button))
    assert not button.isChecked()
    finger.tap(button)
    assert button.isChecked()


def test_a_second_finger_means_neither(qtbot, touched, finger):
    button = touched.compose.hops.more_button
    finger.reach(button)
    window, place = finger._place(button, None)
    finger._event(window).press(0, place, window).commit()
    both = finger._event(window)
    both.stationary(0).press(1, place + QPoint(80, 0), window).commit()
    finger._event(window).release(0, place, window).release(
        1, place + QPoint(80, 0), window
    ).commit()
    QApplication.processEvents()
    assert not button.isChecked()


def test_a_finger_that_rests_reads_what_a_resting_pointer_reads(qtbot, touched, finger):
    label = next(each for each in touched.compose.forecast.rows if each.key == "bitterness_ibu")
    at = QPoint(20, 12)

    def read():
        assert "Press for its largest uncertainties" in QToolTip.text()
        assert "<b>IBU</b>" in QToolTip.text(), "what a term means"
        tips = [w for w in QApplication.topLevelWidgets() if w.objectName() == "qtooltip_label"]
        assert [each.geometry().bottom() < label.mapToGlobal(at).y() for each in tips] == [True]

    finger.hold(label, at, read)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu), "what else can be done is offered once it is let go"
    assert not label.isChecked(), "it was asked about, not pressed"
    menu.close()
    heading = next(
        each for each in touched.compose.findChildren(QLabel) if each.text() == "FERMENTABLES"
    )
    finger.reach(heading)
    finger.hold(heading)
    assert "fermentable" in QToolTip.text().lower()
    qtbot.wait(300)
    assert QToolTip.isVisible(), "it stays to be read"
    finger.tap(touched.header.page_buttons.button(0))
    assert not QToolTip.isVisible()


def test_what_is_off_says_to_a_finger_why(qtbot, touched, finger):
    undo = touched.header.undo
    assert not undo.isEnabled()
    finger.hold(undo)
    assert QToolTip.text() == undo.toolTip()


def test_a_finger_that_rests_on_a_line_opens_its_menu(qtbot, touched, finger):
    view = touched.compose.hops.view
    finger.reach(view.viewport(), view.visualRect(view.model().index(1, 1)).center())
    finger.hold(view.viewport(), view.visualRect(view.model().index(1, 1)).center())
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    assert view.currentIndex().row() == 1
    before = len(touched.opened.recipe.hops)
    assert small_targets(menu) == []
    press_in_menu(finger, menu, "Delete")
    assert len(touched.opened.recipe.hops) == before - 1


# what a brewer does


def test_an_amount_is_changed_a_line_added_and_a_hop_chosen(qtbot, touched, finger):
    page, opened = touched.compose, touched.opened
    view = page.fermentables.view
    amount = view.model().index(1, view.model().column_of("amount"))
    finger.tap_cell(view, amount)
    assert not view.is_editing
    qtbot.wait(QApplication.doubleClickInterval() + 50)
    finger.tap_cell(view, amount)
    assert view.is_editing, "a second tap, however late, opens the cell"
    finger.type("1.2 kg")
    finger.enter()
    assert opened.recipe.fermentables[1].amount.text == "1.2 kg"

    lines = len(opened.recipe.fermentables)
    new = view.model().index(lines, view.model().column_of("name"))
    finger.tap_cell(view, new)
    finger.tap_cell(view, new)
    finger.type("100 g biscuit")
    offers = view.findChild(QLineEdit).completer().popup()
    qtbot.waitUntil(offers.isVisible)
    assert small_targets(offers.window()) == []
    finger.tap(offers.viewport(), offers.visualRect(offers.model().index(0, 0)).center())
    finger.enter()
    settle(qtbot, touched)
    assert len(opened.recipe.fermentables) == lines + 1
    assert "iscuit" in opened.recipe.fermentables[-1].name
    assert opened.recipe.fermentables[-1].amount.text == "100 g"

    hops = page.hops.view
    name = hops.model().index(0, hops.model().column_of("name"))
    finger.tap_cell(hops, name)
    finger.tap_cell(hops, name)
    assert hops.is_editing
    editor = hops.findChild(QLineEdit)
    editor.selectAll()  # as a screen's keyboard does with a long press
    finger.type("fugg")
    offers = editor.completer().popup()
    qtbot.waitUntil(offers.isVisible)
    finger.tap(offers.viewport(), offers.visualRect(offers.model().index(0, 0)).center())
    finger.enter()
    settle(qtbot, touched)
    assert opened.recipe.hops[0].name == "Fuggle"


def test_a_cure_is_taken_up_and_taken_back(qtbot, touched, finger):
    touched.opened.make(
        ChangePart("process", "start_water", read(Kind.VOLUME, "7 L"), word("fill it"))
    )
    settle(qtbot, touched)
    too_full = touched.opened.recipe
    cure = touched.compose.watch_out.cards[0].cure
    assert cure.text().startswith("Start with 6.4 L")
    finger.tap(cure)
    assert touched.opened.recipe.process.start_water.value == pytest.approx(6.4)
    finger.tap(touched.header.undo)
    assert touched.opened.recipe == too_full


def test_a_way_is_chosen_and_used(qtbot, finger, window):
    window.opened.replace_by(load(resource_path("examples/breakwater_red.hobwort")), None)
    made_for_fingers(qtbot, window, finger)
    finger.tap(window.header.page_buttons.button(1))
    fit = window.fit
    qtbot.waitUntil(lambda: fit.answer is not None, timeout=20_000)
    second = fit.table.model().index(2, fit.table.chosen_column() + 1)
    finger.tap_cell(fit.table, second)
    assert fit.chosen.way is fit.ways[1]
    finger.tap(fit.chosen.use_button)
    assert is_planned(window.opened.recipe)
    assert window.pages.currentWidget() is window.compose


def test_the_sheet_is_turned_over_and_written_as_pdf(qtbot, touched, finger, answers, tmp_path):
    answers.file = tmp_path / "porter.pdf"
    finger.tap(touched.header.page_buttons.button(touched.page_names.index("Sheet")))
    sheet = touched.sheet
    qtbot.waitUntil(lambda: sheet.count.text() == "2 pages", timeout=10_000)
    bar = sheet.area.verticalScrollBar()
    for _ in range(30):
        if bar.value() == bar.maximum():
            break
        finger.draw(sheet.area.viewport(), QPoint(0, -250))
        at_rest(qtbot, sheet.area)
    assert bar.value() == bar.maximum() > 0, "the end of the last page is reached"
    pdf = next(each for each in sheet.findChildren(QPushButton) if each.text() == "PDF…")
    finger.tap(pdf)
    wait_for_words(qtbot, touched, "Exported 2 pages")
    assert answers.file.read_bytes().startswith(b"%PDF")


def test_a_recipe_of_the_box_is_looked_at_opened_thrown_away_and_brought_back(
    qtbot, on_a_box, boxed, finger, folder
):
    window = made_for_fingers(qtbot, on_a_box(OpenRecipe(boxed[0])), finger)
    finger.tap(window.header.page_buttons.button(window.page_names.index("Recipe box")))
    box = window.box
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 4, timeout=10_000)
    row = box.model.index(2, 0)
    finger.tap_cell(box.table, row)
    store_at_rest(qtbot, window)
    name = box.model.rows_read[2].name
    assert [each.name for each in box.chosen()] == [name]
    finger.hold(box.table.viewport(), box.table.visualRect(row).center())
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    press_in_menu(finger, menu, "Throw away")
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 3, timeout=10_000)
    finger.tap(box.trash_button)
    qtbot.waitUntil(lambda: [each.name for each in box.model.rows_read] == [name])
    finger.tap_cell(box.table, box.model.index(0, 0))
    store_at_rest(qtbot, window)
    assert box.details.throw_button.text() == "Restore"
    finger.tap(box.details.throw_button)
    qtbot.waitUntil(lambda: not box.model.rows_read, timeout=10_000)
    finger.tap(box.trash_button)
    qtbot.waitUntil(lambda: len(box.model.rows_read) == 4, timeout=10_000)
    finger.tap_cell(box.table, box.model.index(0, 0))
    store_at_rest(qtbot, window)
    chosen = box.model.rows_read[0].name
    finger.tap(box.details.open_button)
    qtbot.waitUntil(lambda: window.pages.currentWidget() is window.compose, timeout=10_000)
    assert window.opened.recipe.name == chosen


def test_a_pot_and_what_is_in_the_cupboard_are_written_down(
    qtbot, on_a_box, opened, finger, folder
):
    window = made_for_fingers(qtbot, on_a_box(opened), finger)
    finger.tap(window.header.page_buttons.button(window.page_names.index("Kitchen")))
    kitchen = window.kitchen
    store_at_rest(qtbot, window)
    for view, words in (
        (kitchen.pots, {"name": "Jam kettle", "volume": "12 L"}),
        (kitchen.cupboard, {"name": "Fuggle", "amount": "50 g"}),
    ):
        for field, text in words.items():
            index = view.model().index(0, view.model().column_of(field))
            finger.tap_cell(view, index)
            finger.tap_cell(view, index)
            assert view.is_editing, field
            finger.type(text)
            finger.enter()
            store_at_rest(qtbot, window)
    with Store.open(folder) as store:
        assert [(each.name, each.volume) for each in store.pots.all()] == [("Jam kettle", "12 L")]
        assert [(each.name, each.amount) for each in store.cupboard.all()] == [("Fuggle", "50 g")]


def test_a_first_recipe_is_begun_from_three(qtbot, touched, finger):
    finger.tap(touched.header.new)
    own = touched.begin_page.own
    qtbot.waitUntil(lambda: own.found is not None and not own.reckoning.busy, timeout=20_000)
    finger.tap(own.form.words)
    finger.type("english porter")
    finger.enter()
    qtbot.waitUntil(lambda: not own.reckoning.busy and own.found is not None, timeout=20_000)
    finger.tap(own.three.cards[1].button)
    qtbot.waitUntil(lambda: touched.pages.currentWidget() is touched.compose, timeout=20_000)
    assert touched.opened.recipe.fermentables
    assert "orter" in touched.opened.recipe.style


def test_nothing_that_is_pressed_is_too_small_for_a_finger_anywhere(
    qtbot, opened, on_a_box, folder, settings
):
    filled(folder)
    window = on_a_box(opened)
    settings.targets = "always"
    assert targets.are_large()
    found = {}

    def see(place, widget):
        QApplication.processEvents()
        for each in small_targets(widget):
            found.setdefault(each, place)

    clock = saved_on_its_clock(qtbot, window)
    walk(see, qtbot, window, clock)
    look_at_rare_dialogs(see, qtbot, window)
    assert not found, "\n".join(f"{place}: {each}" for each, place in found.items())
