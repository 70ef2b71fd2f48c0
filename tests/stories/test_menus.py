"""The menus: what they tell of keys, and what the Edit menu does to what has the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtWidgets import QApplication, QLineEdit, QMenuBar

from designer.window.parts.plain_text import as_read
from designer.workbench import keys
from designer.workbench.keys import KEYS, MENU_KEYS, MenuKey, key_said


def entries(window):
    """All entries of the menus, those of sub-menus too."""
    found, menus = [], [each.menu() for each in window.menuBar().actions()]
    while menus:
        for action in menus.pop(0).actions():
            if action.menu() is not None:
                menus.append(action.menu())
            elif not action.isSeparator():
                found.append(action)
    return found


def shown(entry: MenuKey) -> str:
    """What an open menu shows of an entry."""
    text = as_read(entry.text)
    return f"{text}\t{key_said(entry.keys[0])}" if entry.here else text


def entry(window, wanted: MenuKey):
    """An entry as it is when one has opened the Edit menu."""
    window.menuBar().actions()[1].menu().aboutToShow.emit()
    return next(each for each in entries(window) if as_read(each.text()) == shown(wanted))


def test_each_key_of_the_menus_is_listed_and_each_that_is_listed_stands_in_a_menu(on_a_box, opened):
    window = on_a_box(opened)
    listed = {key for keys, _ in KEYS for key in keys}
    held = {
        key.toString(QKeySequence.SequenceFormat.PortableText)
        for action in entries(window)
        for key in action.shortcuts()
    }
    assert held <= listed
    assert len(held) > 20
    texts = {as_read(each.text()) for each in entries(window)}
    assert {shown(each) for each in MENU_KEYS} <= texts


@pytest.fixture
def hops(window):
    """The table of hops, the keyboard in its first line."""
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 0))
    return view


def names(window):
    return [each.name for each in window.opened.recipe.hops]


def test_the_edit_menu_cuts_moves_and_pastes_the_lines_that_the_keyboard_is_in(window, hops):
    first, second = names(window)
    entry(window, keys.MOVE_DOWN).trigger()
    assert names(window) == [second, first]
    entry(window, keys.CUT).trigger()
    assert names(window) == [second]
    assert not entry(window, keys.MOVE_UP).isEnabled()
    entry(window, keys.PASTE).trigger()
    assert names(window) == [second, first]
    entry(window, keys.SELECT_ALL).trigger()
    entry(window, keys.DELETE).trigger()
    assert names(window) == []
    window.opened.undo_stack.undo()
    assert names(window) == [second, first]


def test_in_a_cell_that_is_typed_in_menu_and_keys_mean_the_text_and_not_the_line(
    qtbot, window, hops
):
    before = window.opened.recipe
    entry(window, keys.OPEN_OR_EDIT).trigger()
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    text = editor.text()
    assert not entry(window, keys.DUPLICATE).isEnabled()
    entry(window, keys.SELECT_ALL).trigger()
    entry(window, keys.COPY).trigger()
    assert QGuiApplication.clipboard().text() == text
    qtbot.keyClick(editor, Qt.Key.Key_X, Qt.KeyboardModifier.ControlModifier)
    assert editor.text() == ""
    qtbot.keyClick(editor, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert editor.text() == text
    qtbot.keyClick(editor, Qt.Key.Key_Escape)
    assert window.opened.recipe == before


def test_a_menu_bar_that_has_taken_the_keyboard_acts_on_what_had_it(window, hops):
    second = names(window)[1]
    bar = window.findChild(QMenuBar)
    bar.setFocus(Qt.FocusReason.MenuBarFocusReason)
    entry(window, keys.DELETE).trigger()
    assert names(window) == [second]


def test_what_the_edit_menu_cannot_do_here_is_off_and_says_why(window):
    window.compose.fermentables.add_button.setFocus()
    off = entry(window, keys.CUT)
    assert not off.isEnabled()
    assert "choose a line" in off.toolTip()
