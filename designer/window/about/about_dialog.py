"""About the program: what it is, its versions, the sources of its catalogue, licences of all parts.

Each of these is a tab, so that all of it has room on a small screen in large type too.
"""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from designer import __version__
from designer.translation import message, tr
from designer.window.about.licences_tab import LicencesTab
from designer.window.about.sources_tab import sources_tab
from designer.window.about.words import words
from designer.window.parts.own_icon import own_icon
from designer.window.system_words import system_words

WHAT_IT_IS = message(
    "Hobwort plans a brew day on a kitchen stove, from malt extract and steeping grain: what goes "
    "in and when, whether it fits the pot, what the hydrometer should say."
)
YOURS = message("Free software under the Apache License 2.0. Nothing is sent anywhere.")
TYPEFACE = message(
    "Set in Hobwort Sans, made of the letters of Noto Sans (Google), under the SIL Open Font "
    "License 1.1."
)
SIZE, ICON = QSize(720, 580), QSize(72, 72)


class AboutHobwort(QDialog):
    """What a brewer, or who looks after the program, may ask of the program itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("About Hobwort"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.versions = _versions()
        self.copy_button = QPushButton(tr("Copy versions"))
        self.copy_button.clicked.connect(self._copy)
        self.copy_button.setAutoDefault(False)
        self.licences = LicencesTab()
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(tr("About Hobwort"))
        self.tabs.addTab(self._versions_tab(), tr("&Versions"))
        self.tabs.addTab(sources_tab(), tr("&Sources"))
        self.tabs.addTab(self.licences, tr("&Licences"))
        close = QPushButton(tr("Close"))
        close.clicked.connect(self.accept)
        close.setDefault(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(18, 16, 18, 14)
        layout.setSpacing(12)
        layout.addLayout(_head())
        layout.addWidget(self.tabs, 1)
        layout.addWidget(close, alignment=Qt.AlignmentFlag.AlignRight)
        self.tabs.setFocus()
        self._take_room()

    def _take_room(self) -> None:
        """Be no larger than the screen has room for."""
        room = self.screen().availableGeometry().size() - QSize(40, 60)
        self.resize(SIZE.boundedTo(room))

    def _versions_tab(self) -> QWidget:
        tab = QWidget()
        layout = QVBoxLayout(tab)
        layout.setContentsMargins(12, 12, 12, 12)
        layout.setSpacing(10)
        layout.addWidget(self.versions, 1)
        layout.addWidget(self.copy_button, alignment=Qt.AlignmentFlag.AlignLeft)
        layout.addWidget(words(tr(TYPEFACE)))
        return tab

    def _copy(self) -> None:
        QGuiApplication.clipboard().setText(self.versions.toPlainText())
        self.copy_button.setText(tr("Copied"))


def _head() -> QHBoxLayout:
    """The icon, and beside it what the program is."""
    icon = QLabel()
    icon.setPixmap(own_icon().pixmap(ICON, icon.devicePixelRatioF()))
    icon.setAccessibleName(tr("The icon of Hobwort: a harbour lamp over a pot"))
    name = QLabel(f"Hobwort {__version__}")
    font = name.font()
    font.setPointSizeF(1.6 * font.pointSizeF())
    font.setBold(True)
    name.setFont(font)
    told = QVBoxLayout()
    told.setSpacing(4)
    told.addWidget(name)
    told.addWidget(words(tr(WHAT_IT_IS)))
    told.addWidget(words(tr(YOURS)))
    head = QHBoxLayout()
    head.setSpacing(16)
    head.addWidget(icon, alignment=Qt.AlignmentFlag.AlignTop)
    head.addLayout(told, 1)
    return head


def _versions() -> QPlainTextEdit:
    text = QPlainTextEdit(system_words())
    text.setReadOnly(True)
    text.setTabChangesFocus(True)
    text.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse
        | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    text.setAccessibleName(tr("Versions of Hobwort and of what it runs on"))
    return text
