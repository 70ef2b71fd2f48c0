"""Where Tab leads on Compose: in the order of reading, and always into what is seen."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QDialog,
    QRadioButton,
    QScrollArea,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from tests.active_window import made_active

Key = Qt.Key


def area_around(widget):
    around = widget.parentWidget()
    while not isinstance(around, QScrollArea):
        around = around.parentWidget()
    return around


def is_seen(widget):
    """Whether none of it lies outside the area that scrolls it."""
    area = area_around(widget)
    place = widget.rect().translated(widget.mapTo(area.viewport(), widget.rect().topLeft()))
    return area.viewport().rect().contains(place)


def test_tab_into_a_column_that_was_scrolled_away_brings_it_back(qtbot, window):
    made_active(qtbot, window)
    page = window.compose
    window.resize(1000, 600)
    for first in (page.fermentables.view, page.forecast.rows[0]):
        first.setFocus()
        qtbot.keyClick(first, Key.Key_Backtab)
        bar = area_around(first).verticalScrollBar()
        bar.setValue(bar.maximum())
        assert not is_seen(first)
        qtbot.keyClick(QApplication.focusWidget(), Key.Key_Tab)
        assert first.hasFocus()
        assert is_seen(first)


def test_fields_that_are_asked_for_come_behind_what_asks_for_them(qtbot, window):
    made_active(qtbot, window)
    page = window.compose
    page.fermentables.view.setCurrentIndex(page.fermentables.model.index(0, 1))
    page.fermentables.more_button.setChecked(True)
    page.process.more_button.setChecked(True)
    page.forecast.rows[0].setChecked(True)
    details = page.fermentables.details
    for before, name in (
        (page.fermentables.add_button, "Extract yield"),
        (page.process.more_button, "Pot"),
        (page.forecast.rows[0], "Make it this value"),
    ):
        before.setFocus()
        qtbot.keyClick(before, Key.Key_Tab)
        assert QApplication.focusWidget().accessibleName() == name
    assert details.isVisible()


def test_the_line_that_stands_where_one_was_taken_out_is_the_next_to_go(qtbot, window):
    made_active(qtbot, window)
    view = window.compose.fermentables.view
    names = [each.name for each in window.opened.recipe.fermentables]
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 0))
    for left in (names[1:], names[2:]):
        qtbot.keyClick(view, Key.Key_Delete)
        assert [each.name for each in window.opened.recipe.fermentables] == left
        assert view.selected_rows() == [0]


def test_the_card_of_styles_is_seen_once_it_is_opened_and_tab_goes_into_it(qtbot, window):
    made_active(qtbot, window)
    window.resize(1000, 600)
    styles = window.compose.styles
    styles.open_card()
    focus = QApplication.focusWidget()
    assert styles.card.isAncestorOf(focus)
    qtbot.waitUntil(lambda: is_seen(focus))
    styles.link.setFocus()
    qtbot.keyClick(styles.link, Key.Key_Tab)
    assert styles.card.isAncestorOf(QApplication.focusWidget())


def changed_by_focus(widget):
    """How many pixels of a widget, and about it, look otherwise once it has the keyboard."""
    window, looks = widget.window(), []
    for has_it in (False, True):
        widget.setFocus(Qt.FocusReason.TabFocusReason) if has_it else widget.clearFocus()
        place = widget.rect().translated(widget.mapTo(window, widget.rect().topLeft()))
        looks.append(window.grab(place).toImage())
    before, after = looks
    return sum(
        before.pixel(x, y) != after.pixel(x, y)
        for x in range(before.width())
        for y in range(before.height())
    )


def test_whatever_tab_comes_to_is_seen_to_have_the_keyboard(qtbot, settings):
    """A ring of 2 pixels around: at least three sides of it are looked for."""
    ground = QWidget()
    qtbot.addWidget(ground)
    area = QScrollArea(ground)
    area.setObjectName("readByKeys")
    parts = (QCheckBox("counts"), QRadioButton("one"), QSlider(Qt.Orientation.Horizontal), area)
    rows = QVBoxLayout(ground)
    for each in parts:
        rows.addWidget(each)
    ground.resize(200, 300)
    ground.show()
    ground.activateWindow()
    qtbot.waitUntil(ground.isActiveWindow)
    for each in parts:
        least = 2 * (2 * each.height() + each.width())
        assert changed_by_focus(each) >= 0.8 * least, each


def test_tab_in_the_preferences_goes_from_the_tabs_to_the_first_choice(qtbot, window):
    window.show_preferences()
    dialog = next(each for each in window.findChildren(QDialog))
    qtbot.waitUntil(dialog.isActiveWindow)
    qtbot.keyClick(QApplication.focusWidget(), Key.Key_Tab)
    assert dialog.rows["units"].hasFocus()
    dialog.close()
