"""Everything has a name that can be read aloud, and can be reached by the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLineEdit,
    QTableView,
    QWidget,
)

from tests.taught_kitchen import brewed

CONTROLS = (QAbstractButton, QComboBox, QLineEdit, QTableView)


def controls(window):
    return [
        each
        for each in window.findChildren(QWidget)
        if isinstance(each, CONTROLS)
        and each.isVisible()
        and not each.objectName().startswith("qt_")
        and not isinstance(each.parent(), QTableView)
    ]


def settle(qtbot, window, page):
    """Wait until a page that is put together when first seen is there."""
    if page == 1:
        qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=10_000)
    elif page == 2:
        qtbot.waitUntil(lambda: window.sheet.pages.isVisible())


def name_of(widget):
    return QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)


@pytest.mark.parametrize("page", [0, 1, 2])
def test_every_control_has_a_name(qtbot, window, page):
    window.show_page(page)
    settle(qtbot, window, page)
    window.compose.process.more_button.setChecked(True)
    unnamed = [repr(each) for each in controls(window) if not name_of(each).strip()]
    assert unnamed == []


def test_pictures_tell_their_numbers(window):
    for picture in (window.compose.vessels, window.compose.day_line):
        interface = QAccessible.queryAccessibleInterface(picture)
        assert interface.text(QAccessible.Text.Name)
        assert any(sign.isdigit() for sign in interface.text(QAccessible.Text.Description))


@pytest.mark.parametrize("page", [0, 1, 2])
def test_tab_reaches_every_control_and_comes_round_again(qtbot, window, page):
    window.show_page(page)
    settle(qtbot, window, page)
    assert unreached(qtbot, window) == []


def unreached(qtbot, window):
    """Press Tab until it must have come round; return the names of what it did not come to."""
    wanted = {
        each
        for each in controls(window)
        if each.isEnabled() and each.focusPolicy() & Qt.FocusPolicy.TabFocus
    }
    reached = set()
    for _ in range(3 * len(wanted) + 20):
        focus = QApplication.focusWidget()
        if focus is not None:
            reached.add(focus)
            qtbot.keyClick(focus, Qt.Key.Key_Tab)
    return [name_of(each) for each in wanted - reached]


@pytest.fixture
def kept(qtbot, opened, on_a_box):
    """A window with a Recipe box that holds the porter, and a message with a button."""
    made = on_a_box(opened, 1024, 700)
    made.files.save()
    qtbot.waitUntil(lambda: not made.autosave.store.busy, timeout=10_000)
    made.messages.say("Something was done.", actions=[("Undo that", lambda: None)])
    return made


@pytest.mark.parametrize(
    "place", ["box", "backups", "kitchen", "pack sizes", "taught", "hops in hand", "brew day"]
)
def test_box_backups_and_kitchen_are_reached_and_named(qtbot, kept, place):
    pages = {
        "kitchen": "Kitchen",
        "pack sizes": "Kitchen",
        "taught": "Kitchen",
        "hops in hand": "Fit",
        "brew day": "Brew day",
    }
    kept.show_page(kept.page_names.index(pages.get(place, "Recipe box")))
    if place == "backups":
        kept.box.show_backups()
        qtbot.waitUntil(lambda: kept.box.backups.bring_button.isEnabled(), timeout=10_000)
    elif place == "pack sizes":
        kept.kitchen.show_packs()
        qtbot.waitUntil(lambda: bool(kept.kitchen.packs.table.rows), timeout=10_000)
        kept.kitchen.packs.table.remove((0,))
    elif place == "taught":
        kept.autosave.store.ask(brewed, None, pytest.fail)
        qtbot.waitUntil(lambda: not kept.autosave.store.busy, timeout=10_000)
        kept.kitchen.show_learned()
        learned = kept.kitchen.learned
        qtbot.waitUntil(lambda: bool(learned.rows.buttons), timeout=30_000)
    elif place == "hops in hand":
        qtbot.waitUntil(lambda: kept.fit.answer is not None, timeout=10_000)
        kept.fit.hands_button.setChecked(True)
        hands = kept.fit.hands
        for key, text in (("name", "Magnum"), ("alpha", "12 %"), ("amount", "30 g")):
            hands.fields[key].setText(text)
        hands.add()
        qtbot.waitUntil(
            lambda: not kept.fit.latest.busy and kept.fit.answer is not None, timeout=10_000
        )
    elif place == "box":
        qtbot.waitUntil(lambda: bool(kept.box.model.rows_read), timeout=10_000)
        kept.box.table.selectRow(0)
        qtbot.waitUntil(lambda: kept.box.details.versions_model.rowCount() == 1)
        kept.box.details.versions.setCurrentIndex(kept.box.details.versions_model.index(0, 0))
    qtbot.waitUntil(lambda: not kept.autosave.store.busy, timeout=10_000)
    assert [repr(each) for each in controls(kept) if not name_of(each).strip()] == []
    assert unreached(qtbot, kept) == []


def test_a_message_s_button_comes_before_the_one_that_puts_it_away(qtbot, kept):
    (button,) = kept.messages._buttons
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is kept.messages.close_button


def test_a_field_that_tab_has_left_shows_the_beginning_of_its_text(qtbot, kept):
    name = kept.header.name
    kept.header.style_field.setFocus()
    qtbot.keyClick(kept.header.style_field, Qt.Key.Key_Tab, Qt.KeyboardModifier.ShiftModifier)
    assert name.hasFocus()
    assert name.selectedText() == name.text()
    qtbot.keyClick(name, Qt.Key.Key_Tab)
    assert name.cursorPosition() == 0


def test_help_lists_the_keys_and_escape_gives_the_keyboard_back(qtbot, window):
    before = QApplication.focusWidget()
    qtbot.keyClick(window, Qt.Key.Key_F1, Qt.KeyboardModifier.ControlModifier)
    assert window.help.isVisible()
    qtbot.keyClick(window.help.close_button, Qt.Key.Key_Escape)
    assert not window.help.isVisible()
    assert QApplication.focusWidget() is before
