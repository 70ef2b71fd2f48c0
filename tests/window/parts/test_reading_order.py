"""Tab goes as one reads, wherever a thing was put together; and what it comes to is seen."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from designer.window.brew.card_panel import CardPanel
from designer.window.parts.reading_order import order_tabs, stops

Key = Qt.Key


def line(name, inside):
    made = QLineEdit()
    made.setObjectName(name)
    inside.addWidget(made)
    return made


def walked(qtbot, start, count):
    """The names of what Tab comes to, from a start on."""
    QApplication.processEvents()  # what was put into a layout just now is shown
    start.setFocus()
    found = [start.objectName()]
    for _ in range(count - 1):
        qtbot.keyClick(QApplication.focusWidget(), Key.Key_Tab)
        found.append(QApplication.focusWidget().objectName())
    return found


@pytest.fixture
def page(qtbot):
    """Three fields in a column, all there from the start; between the first two there is room."""
    made = QWidget()
    qtbot.addWidget(made)
    column = QVBoxLayout(made)
    made.first = line("first", column)
    made.between = QWidget()
    column.addWidget(made.between)
    made.last = line("last", column)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def test_what_is_made_late_is_come_to_where_it_stands(qtbot, page):
    rows = QVBoxLayout(page.between)
    line("above", rows)
    side_by_side = QHBoxLayout()
    rows.addLayout(side_by_side)
    line("left", side_by_side)
    line("right", side_by_side)
    assert walked(qtbot, page.first, 3) == ["first", "last", "above"], "as Qt has it"
    order_tabs(page.between)
    assert walked(qtbot, page.first, 6) == ["first", "above", "left", "right", "last", "first"]
    order_tabs(page.between, page.last)
    assert walked(qtbot, page.first, 5) == ["first", "last", "above", "left", "right"]


def test_a_grid_is_read_row_by_row_however_it_was_filled(qtbot, page):
    grid = QGridLayout(page.between)
    for name, row, column in (("d", 1, 1), ("b", 0, 1), ("c", 1, 0), ("a", 0, 0)):
        made = QLineEdit()
        made.setObjectName(name)
        grid.addWidget(made, row, column)
    order_tabs(page.between)
    assert walked(qtbot, page.first, 6) == ["first", "a", "b", "c", "d", "last"]


def test_what_scrolls_what_is_laid_by_hand_and_what_is_one_of_several_have_their_places(
    qtbot, page
):
    rows, group = QVBoxLayout(page.between), QButtonGroup(page.between)
    for name in ("chosen", "other"):
        made = QPushButton(name)
        made.setObjectName(name)
        made.setCheckable(True)
        group.addButton(made)
        rows.addWidget(made)
    group.buttons()[0].setChecked(True)
    area, inside, by_hand = QScrollArea(), QWidget(), QWidget()
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    line("scrolled", QVBoxLayout(inside))
    area.setWidget(inside)
    rows.addWidget(area)
    rows.addWidget(by_hand)
    QLineEdit(by_hand).setObjectName("by hand")
    assert [each.objectName() for each in stops(page.between)] == [
        "chosen", "other", "scrolled", "by hand",
    ]  # fmt: skip


def test_a_question_over_the_card_is_gone_round_as_it_is_read(qtbot):
    card = QWidget()
    qtbot.addWidget(card)
    card.resize(400, 300)
    panel = CardPanel(card, "New timer", "Minutes", "Start")
    more = QLineEdit()
    more.setObjectName("what for")
    panel.rows.insertWidget(panel.rows.indexOf(panel.field) + 1, more)
    panel.field.setObjectName("minutes")
    panel.ok_button.setObjectName("start")
    panel.cancel_button.setObjectName("cancel")
    panel.offer(["5 min"], lambda _: None)
    panel.usual[0].setObjectName("usual")
    card.show()
    card.activateWindow()
    qtbot.waitUntil(card.isActiveWindow)
    panel.ask()
    order = ["minutes", "what for", "start", "cancel", "usual", "minutes"]
    assert walked(qtbot, panel.field, 6) == order
