"""How large what is pressed is at least: for a pointer as it comes, for fingers 44 pixels each way.

One figure for the whole program. Beside the stove it always holds (`LargeButton`); elsewhere while
targets are large, which is chosen in Preferences, or follows from a finger on the screen.

Source: W3C, Web Content Accessibility Guidelines 2.2 (2023), 2.5.5: targets of 44 by 44 pixels.
"""

from __future__ import annotations

from weakref import WeakKeyDictionary

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QPushButton, QTableView
from shiboken6 import isValid

from designer.window.parts.inks import Inks

TARGET_PX = 44
"""The least height and width of what is pressed by a finger."""
WHEN = ("automatically", "always", "never")
"""When targets are large; automatically: once the screen was touched."""

_large = False
_rows: WeakKeyDictionary[QTableView, int] = WeakKeyDictionary()


def are_large() -> bool:
    """Return whether what is pressed is large enough for fingers now."""
    return _large


def least_high(usual: int) -> int:
    """Return how high something is that is `usual` high for a pointer."""
    return max(usual, TARGET_PX) if _large else usual


class WordButton(QPushButton):
    """A button that is never narrower than its words, nor, for fingers, than a target."""

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(least_high(0), 0))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()


def keep_rows_high(table: QTableView, padding: int) -> None:
    """Give the rows of a table the height of a line and `padding`, or that of a target."""
    _rows[table] = padding
    _size_rows(table, padding)


def make_large(large: bool) -> None:
    """Have targets large from now on, or as they come; a style sheet has to be worn anew."""
    global _large
    if large is not _large:
        _large = large
        for table, padding in list(_rows.items()):
            if isValid(table):  # one whose window has gone may be known to Python still
                _size_rows(table, padding)


def _size_rows(table: QTableView, padding: int) -> None:
    table.verticalHeader().setDefaultSectionSize(least_high(table.fontMetrics().height() + padding))
    table.updateGeometry()


def sheet_of_targets(inks: Inks) -> str:
    """Return what the style sheet says besides while targets are large.

    Heights and widths are those within padding and border, as style sheets count them. A width told
    here is the least that a layout gives, however long the words: it is for plain buttons, most of
    which have a sign or a short word. Buttons of a class of their own look after their width.
    """
    return f"""
    QPushButton, QToolButton {{ min-height: 34px; }}
    .QPushButton, QToolButton, _ChoiceButton {{ min-width: 22px; }}
    QLineEdit, QComboBox {{ min-height: 36px; }}
    QTableView QLineEdit, QTableView QComboBox {{ min-height: 0; }}
    QComboBox:focus {{ min-height: 34px; }}
    QPushButton#switch, QToolButton#wayBack {{ min-height: 42px; }}
    QToolButton#wayBack {{ min-width: 28px; }}
    QPushButton#switch:focus, QToolButton#wayBack:focus {{ min-height: 40px; }}
    QPushButton#cure, QPushButton#link, QPushButton#quiet {{ min-height: 38px; }}
    .QPushButton#cure, .QPushButton#link, .QPushButton#quiet {{ min-width: 34px; }}
    QPushButton#pageButton {{ min-height: 32px; }}
    QPushButton#unkept {{ min-height: 38px; }}
    QComboBox QAbstractItemView::item, #offers::item {{ min-height: {TARGET_PX}px; }}
    QTabBar::tab {{ min-height: 34px; }}
    QCheckBox, QRadioButton, QSlider {{ min-height: {TARGET_PX}px; }}
    QListWidget::item, VersionsList::item {{ min-height: {TARGET_PX}px; }}
    QHeaderView::section {{ min-height: 30px; }}
    QMenuBar::item {{ padding: 15px 12px; }}
    QMenu::item {{ padding: 12px 28px 12px 22px; min-height: 22px; }}
    QScrollBar:vertical {{ width: 18px; }}
    QScrollBar:horizontal {{ height: 18px; }}
    QScrollBar::handle {{ background: {inks.line_strong}; border-radius: 5px; min-height: 44px;
        min-width: 44px; }}
    """
