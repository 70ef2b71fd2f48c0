"""Where Tab leads on Compose: in the order of reading, and always into what is seen."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QScrollArea

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
