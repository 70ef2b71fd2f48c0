"""All that can be chosen about the program: units, looks, language, sheet, brew day, start.

Each choice takes effect at once, here and where a menu has it too, but for language and size, which
wait until the program is opened anew; there is nothing to confirm.
"""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from designer.translation import message, tr
from designer.window.parts.on_screen import largest_size
from designer.window.parts.scrolling_dialog import ScrollingDialog
from designer.window.preferences.choices import Choices
from designer.window.preferences.rows import PickOne, TickOne, TypeOne
from designer.window.session.recipe_window import RecipeWindow

AT_ONCE = message(
    "Each choice takes effect at once, but for language and size: they wait until Hobwort is "
    "opened anew."
)
SIZE = QSize(560, 520)


class Preferences(ScrollingDialog):
    """A tab for each subject, a row for each preference."""

    def __init__(self, parent: RecipeWindow) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Preferences"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.rows: dict[str, PickOne | TickOne | TypeOne] = {}
        self._settings = parent.settings
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(tr("Preferences"))
        for title, rows in Choices(parent.settings, largest_size(parent)).tabs():
            self.tabs.addTab(self._tab(title, rows), title)
        close = QPushButton(tr("Close"))
        close.clicked.connect(self.accept)
        close.setDefault(True)
        said = QLabel(tr(AT_ONCE))
        said.setWordWrap(True)
        said.setObjectName("soft")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(12)
        layout.addWidget(self.tabs, 1)
        layout.addWidget(said)
        layout.addWidget(close, alignment=Qt.AlignmentFlag.AlignRight)
        self._settings.changed.connect(self._follow)
        room = self.screen().availableGeometry().size() - QSize(40, 60)
        self.resize(SIZE.expandedTo(self.sizeHint()).boundedTo(room))
        self.tabs.setFocus()

    def _tab(self, name: str, rows: list[PickOne | TickOne | TypeOne]) -> QWidget:
        inner = QWidget()
        inner.setObjectName("plain")
        form = QFormLayout(inner)
        form.setContentsMargins(14, 14, 14, 14)
        form.setHorizontalSpacing(18)
        form.setVerticalSpacing(10)
        for row in rows:
            self.rows[row.name] = row
            if isinstance(row, TickOne):
                form.addRow("", row)
            else:
                form.addRow(tr("{name}:", name=row.label), row)
            if row.why:
                said = QLabel(row.why)
                said.setObjectName("soft")
                said.setWordWrap(True)
                form.addRow("", said)
        scrolled = QScrollArea()
        scrolled.setWidgetResizable(True)
        scrolled.setAccessibleName(name)
        scrolled.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # what has the keyboard in it scrolls it
        scrolled.setWidget(inner)
        return scrolled

    def _follow(self) -> None:
        """Show what a menu, or another choice, has changed."""
        for row in self.rows.values():
            row.show_kept()
