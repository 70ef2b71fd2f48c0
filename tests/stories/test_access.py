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
        qtbot.waitUntil(lambda: bool(window.fit.cards), timeout=10_000)
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
    assert [name_of(each) for each in wanted - reached] == []


def test_help_lists_the_keys_and_escape_gives_the_keyboard_back(qtbot, window):
    before = QApplication.focusWidget()
    qtbot.keyClick(window, Qt.Key.Key_F1)
    assert window.help.isVisible()
    qtbot.keyClick(window.help.close_button, Qt.Key.Key_Escape)
    assert not window.help.isVisible()
    assert QApplication.focusWidget() is before


def test_no_two_actions_share_a_shortcut(window):
    keys = [key.toString() for action in window.menus.actions for key in action.shortcuts()]
    assert len(keys) == len(set(keys))


def test_no_two_entries_of_a_menu_share_a_letter(window):
    for menu_action in window.menuBar().actions():
        letters = [
            action.text()[action.text().index("&") + 1].lower()
            for action in menu_action.menu().actions()
            if "&" in action.text()
        ]
        assert len(letters) == len(set(letters)), menu_action.text()
