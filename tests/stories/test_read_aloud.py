"""What a screen reader is handed, on every page and dialog; and that Tab stays where it is seen.

WCAG 2.2: 1.1.1 (words for pictures), 4.1.2 (name, role, value), 2.4.3 (focus order).
"""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
    QPushButton,
    QTableWidget,
    QVBoxLayout,
    QWidget,
)

from designer.window.brew.part_names import Part
from tests.accessible_tree import faults
from tests.active_window import made_active
from tests.driven_clock import DrivenClock

from .walking import look_at_rare_dialogs

TIMES = 20


def test_what_is_amiss_is_found(qtbot):
    class Drawn(QWidget):
        def paintEvent(self, event):  # noqa: N802 - Qt's own name
            pass

    Drawn.__module__ = "designer.window.drawn"
    page = QWidget()
    qtbot.addWidget(page)
    layout, table = QVBoxLayout(page), QTableWidget(1, 1)
    table.setAccessibleName("Hops")
    table.setHorizontalHeaderLabels([""])
    table.model().setData(table.model().index(0, 0), "Fuggle")
    for each in (QPushButton("Add"), QPushButton("Add"), QLineEdit(), Drawn(), table):
        layout.addWidget(each)
    page.show()
    amiss = " ".join(faults(page))
    for told in ("2 of QPushButton", "QLineEdit in QWidget has no name", "the picture Drawn"):
        assert told in amiss
    assert "column 0 of QTableWidget" in amiss


def test_dialogs_that_few_ask_for_say_what_they_show(qtbot, opened, on_a_box):
    """All else is walked in `test_in_each_language.py`."""
    window = on_a_box(opened)
    found = {}

    def see(place, widget):
        QApplication.processEvents()
        for each in faults(widget):
            found.setdefault(each, place)

    window.brew_clock = DrivenClock()
    look_at_rare_dialogs(see, qtbot, window)
    assert not found, "\n".join(f"{place}: {each}" for each, place in found.items())


def assert_tab_stays(qtbot, card, before):
    """Tab goes round within a card, forward and back; Escape gives the keyboard back."""
    for back in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier):
        for _ in range(TIMES):
            qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab, back)
            focus = QApplication.focusWidget()
            assert card is focus or card.isAncestorOf(focus)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    assert not card.isVisible()
    made_active(qtbot, before.window())  # where there is a desktop, it does that
    qtbot.waitUntil(lambda: QApplication.focusWidget() is before)


def test_tab_never_leaves_a_card_over_the_window(qtbot, window):
    field = window.compose.process.by_place["process.boil_time"]
    field.setFocus()
    ctrl = Qt.KeyboardModifier.ControlModifier
    qtbot.keyClick(field, Qt.Key.Key_K, ctrl)
    qtbot.keyClicks(QApplication.focusWidget(), "Fuggle")
    assert_tab_stays(qtbot, window.finding.card, field)
    qtbot.keyClick(field, Qt.Key.Key_F1, ctrl)
    assert_tab_stays(qtbot, window.help, field)
    tried = window.compose.what_if()
    qtbot.waitUntil(tried.isActiveWindow)
    assert_tab_stays(qtbot, tried, field)


@pytest.mark.parametrize("asked", ["note", "timer", "correction"])
def test_tab_never_leaves_a_question_over_the_brew_day(qtbot, opened, on_a_box, asked):
    window = on_a_box(opened)
    window.brew_clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    page.do()
    page.brew.done()
    page.take_focus()
    before = QApplication.focusWidget()
    if asked == "note":
        page.ask_for_note()
        card = page.note
    elif asked == "timer":
        page.ask_for_timer()
        card = page.new_timer
    else:
        page.show_part(Part.LOG)
        page.take_focus()
        before = QApplication.focusWidget()
        card = page.log.correcting
        card.ask("What it ought to say", "Boiled")
    assert card.isVisible()
    assert_tab_stays(qtbot, card, before)


@pytest.mark.parametrize("place", ["process.boil_time", "process.evaporation"])
def test_a_refused_field_tells_a_reader_why_before_what_it_says_otherwise(qtbot, window, place):
    """Qt has no state for an entry that is not valid (QAccessible::State, Qt 6 documentation)."""
    window.compose.process.more_button.setChecked(True)
    field = window.compose.process.by_place[place]
    told = QAccessible.queryAccessibleInterface(field)
    before = told.text(QAccessible.Text.Description)
    assert before.startswith("Left empty")
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "much")
    assert field.property("refused")
    assert told.text(QAccessible.Text.Description).startswith("Not taken: ")
    assert told.text(QAccessible.Text.Description).endswith(f". {before}")
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert not field.property("refused")
    assert told.text(QAccessible.Text.Description) == before


def test_a_refused_cell_tells_a_reader_why_while_it_is_typed_and_once_it_is_left(qtbot, window):
    view = window.compose.fermentables.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    qtbot.keyClick(view, Qt.Key.Key_F2)
    editor = view.viewport().findChild(QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, "much")
    told = QAccessible.queryAccessibleInterface(editor)
    assert told.text(QAccessible.Text.Description).startswith("Not taken: ")
    window.header.style_field.setFocus()
    cell = view.currentIndex().data(Qt.ItemDataRole.AccessibleTextRole)
    assert cell.startswith("Not taken: much. ")
