"""The menus: what they tell of keys, and what the Edit menu does to what has the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QLineEdit, QMenuBar

from designer import translation
from designer.spoken_language import LANGUAGES, catalogue_if_any, names_in
from designer.window.parts.letters import letter_of
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
    # N types a reading while the beer is shown, else a note: it stands beside one of the two.
    assert {shown(each) for each in MENU_KEYS if each is not keys.READING} <= texts
    assert as_read(keys.READING.text) in texts


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


@pytest.fixture(params=LANGUAGES)
def spoken(request):
    """Each language that the program speaks."""
    code = request.param
    if code != "en":
        translation.use(catalogue_if_any(f"program_{code}"), code, names_in(code))
    yield code
    translation.use(None)


def test_each_entry_of_a_menu_has_a_letter_and_no_two_the_same_in_any_language(
    on_a_box, opened, spoken
):
    window = on_a_box(opened)
    bar = window.menuBar().actions()
    letters = [letter_of(each.text()) for each in bar]
    assert len(set(letters) - {""}) == len(bar), [each.text() for each in bar]
    menus = [each.menu() for each in bar]
    while menus:
        menu = menus.pop()
        menu.aboutToShow.emit()
        named = [each for each in menu.actions() if not each.isSeparator()]
        filled = (window.menus.file.recent, window.menus.file.place)
        menus += [each.menu() for each in named if each.menu() not in (None, *filled)]
        letters = [letter_of(each.text()) for each in named]
        assert len(set(letters) - {""}) == len(named), [each.text() for each in named]


def test_no_two_shortcuts_that_work_at_the_same_time_are_the_same(on_a_box, opened):
    window = on_a_box(opened)
    for number in range(len(window.page_names)):
        window.show_page(number)
    held = [key.toString() for each in entries(window) for key in each.shortcuts()]
    of_pages = [each.key().toString() for each in window.findChildren(QShortcut)]
    assert len(held) == len(set(held))
    assert not set(held) & set(of_pages)
