"""Measures what is pressed by a finger, by walking what a window shows.

W3C, Web Content Accessibility Guidelines 2.2 (2023), 2.5.5: 44 by 44 pixels. Left out, as there:
what stands in a text (a link in a label), and what can be done as well by something large enough
(the editor that stands in a cell, a scroll bar beside what a finger scrolls anyhow).
"""

from PySide6.QtCore import QRect
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSlider,
    QComboBox,
    QHeaderView,
    QLineEdit,
    QMenuBar,
    QScrollBar,
    QTabBar,
    QTableView,
)

from designer.window.fit.ways_table import WaysView
from designer.window.parts.targets import TARGET_PX

PRESSED = (QAbstractButton, QComboBox, QLineEdit, QAbstractSlider)


def _all_of(window, *kinds):
    return [each for kind in kinds for each in window.findChildren(kind) if each.isVisible()]


def small_targets(window):
    """Return what is smaller than a target: its kind, its name, its words, width and height."""
    found = []
    for widget in _all_of(window, *PRESSED):
        if widget.isEnabled() and not _stands_in_another(widget):
            _note(found, widget, widget.rect(), _words_of(widget))
    for bar in _all_of(window, QTabBar):
        for number in range(bar.count()):
            _note(found, bar, bar.tabRect(number), bar.tabText(number))
    for bar in _all_of(window, QMenuBar):
        for action in bar.actions():
            _note(found, bar, bar.actionGeometry(action), action.text())
    for view in _all_of(window, QAbstractItemView):
        if not isinstance(view, QHeaderView) and view.model() is not None:
            _note_rows(found, view)
    return found


def _note_rows(found, view):
    if isinstance(view, WaysView):  # a way is chosen anywhere in its column
        wide = view.columnWidth(view.model().columnCount() - 1)
        _note(found, view, QRect(0, 0, wide, view.height()), "a way")
        return
    for row in range(view.model().rowCount()):
        if isinstance(view, QTableView):
            if view.isRowHidden(row):
                continue
            high = view.rowHeight(row)
        else:
            high = view.visualRect(view.model().index(row, 0)).height()
        if high:
            _note(found, view, QRect(0, 0, TARGET_PX, high), f"row {row}")
            return  # they are alike, or the first would do


def _note(found, widget, rect, words):
    if min(rect.width(), rect.height()) < TARGET_PX and not rect.isEmpty():
        name = widget.objectName() or widget.accessibleName()
        found.append((type(widget).__name__, name, words[:30], rect.width(), rect.height()))


def _words_of(widget):
    if isinstance(widget, QComboBox):
        return widget.currentText()
    if isinstance(widget, QAbstractSlider):
        return widget.accessibleName()
    return widget.text() or widget.accessibleName()


def _stands_in_another(widget):
    if isinstance(widget, QScrollBar):
        return True
    around = widget.parentWidget()
    while around is not None and not around.isWindow():
        if isinstance(around, QComboBox | QAbstractItemView):
            return True
        around = around.parentWidget()
    return False
