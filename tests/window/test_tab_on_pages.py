"""Where Tab leads on Compose: in the order of reading, and always into what is seen."""

import pytest
from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QDialog,
    QPushButton,
    QRadioButton,
    QScrollArea,
    QSlider,
    QStyledItemDelegate,
    QVBoxLayout,
    QWidget,
)

from designer.window.about.sources_tab import sources_tab
from designer.window.brew.row_list import RowList
from designer.window.parts.icons import Mark, Tick
from designer.window.parts.theme import apply_scheme
from designer.window.sheet.paper_view import PagesArea
from tests.active_window import made_active
from tests.contrast import focus_ring

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


def test_escape_puts_away_what_stands_behind_a_number(qtbot, window):
    made_active(qtbot, window)
    forecast = window.compose.forecast
    row = forecast.rows[0]
    row.setFocus()
    qtbot.keyClick(row, Key.Key_Return)
    assert forecast.behind.isVisible()
    qtbot.keyClick(row, Key.Key_Tab)
    focus = QApplication.focusWidget()
    assert forecast.behind.isAncestorOf(focus)
    qtbot.keyClick(focus, Key.Key_Escape)
    assert not forecast.behind.isVisible()
    assert row.hasFocus()


def test_by_a_key_one_comes_to_a_page_where_the_keyboard_is(qtbot, window):
    """By its button one comes to it as it was left."""
    made_active(qtbot, window)
    window.resize(1000, 600)
    view = window.compose.fermentables.view
    bar = area_around(view).verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > view.height())
    bar.setValue(bar.maximum())
    window.show_page(1)
    qtbot.waitUntil(lambda: window.fit.isAncestorOf(QApplication.focusWidget()))
    qtbot.wait(1)
    qtbot.mouseClick(window.header.page_buttons.button(0), Qt.MouseButton.LeftButton)
    assert view.hasFocus()
    qtbot.wait(1)
    assert bar.value() == bar.maximum()
    window.show_page(1)
    control = Qt.KeyboardModifier.ControlModifier
    qtbot.keyClick(QApplication.focusWidget(), Key.Key_1, control)
    assert view.hasFocus()
    qtbot.waitUntil(lambda: is_seen(view))


def primary(name):
    made = QPushButton("Open")
    made.setObjectName(name)
    made.setCheckable(True)
    made.setChecked(True)
    return made


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_whatever_tab_comes_to_is_seen_to_have_the_keyboard(qtbot, qapp, settings, scheme):
    """A ring 2 pixels thick, 3 to 1 against what was there: WCAG 2.2 (2023), 2.4.13.

    Nine tenths of it: corners are round.
    """
    apply_scheme(qapp, scheme, "normal")
    ground = QWidget()
    qtbot.addWidget(ground)
    area = sources_tab()
    several = map(primary, ("primary", "largePrimary", "pageButton", "switch"))
    ticks = (QCheckBox("counts"), QRadioButton("one"), Tick("keep"), Mark("sugar"))
    ticks[2].setChecked(True)
    rows_of_log = RowList(QStringListModel(["noted"]), QStyledItemDelegate(), "log")
    parts = (*ticks, QSlider(Qt.Orientation.Horizontal), area, PagesArea(), rows_of_log, *several)
    rows = QVBoxLayout(ground)
    for each in parts:
        rows.addWidget(each)
    ground.resize(200, 700)
    ground.show()
    ground.activateWindow()
    qtbot.waitUntil(ground.isActiveWindow)
    found = {each.objectName() or type(each).__name__: focus_ring(each) for each in parts}
    apply_scheme(qapp, "light", "normal")
    assert {name: share for name, share in found.items() if share < 0.9 * 2.0} == {}


def test_tab_in_the_preferences_goes_from_the_tabs_to_the_first_choice(qtbot, window):
    window.show_preferences()
    dialog = next(each for each in window.findChildren(QDialog))
    qtbot.waitUntil(dialog.isActiveWindow)
    qtbot.keyClick(QApplication.focusWidget(), Key.Key_Tab)
    assert dialog.rows["units"].hasFocus()
    dialog.close()
