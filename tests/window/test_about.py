"""About Hobwort: what a brewer, a shop and whoever looks after the program find there."""

import sqlite3

import PySide6
import pytest
from PySide6.QtCore import QSize, Qt, qVersion
from PySide6.QtGui import QAccessible, QGuiApplication

from designer import __version__
from designer.window.about.about_dialog import AboutHobwort
from designer.workbench.licences import parts

SMALL = QSize(640, 400)
"""What a screen of 1280 by 800 has room for in double size."""


@pytest.fixture
def about(qtbot, settings):
    dialog = AboutHobwort()
    qtbot.addWidget(dialog)
    dialog.open()
    return dialog


def test_the_versions_can_be_copied_for_whoever_helps(qtbot, about):
    qtbot.mouseClick(about.copy_button, Qt.MouseButton.LeftButton)
    copied = QGuiApplication.clipboard().text()
    for told in (
        f"Hobwort {__version__}",
        f"Qt {qVersion()}",
        f"PySide6 {PySide6.__version__}",
        f"SQLite {sqlite3.sqlite_version}",
        "Python 3.",
    ):
        assert told in copied


def test_by_keys_alone_every_licence_is_read_and_that_of_qt_tells_how_to_replace_it(qtbot, about):
    for _ in range(2):
        qtbot.keyClick(about.tabs.tabBar(), Qt.Key.Key_Right)
    listed = about.licences.list
    assert listed.isVisible()
    texts = {}
    for part in parts():
        row = listed.currentItem()
        assert (row.text(0), row.text(2)) == (part.name, part.licence)
        texts[part.name] = about.licences.text.toPlainText()
        assert part.name in about.licences.text.accessibleName()
        qtbot.keyClick(listed, Qt.Key.Key_Down)
    assert min(len(text) for text in texts.values()) > 200
    assert "Lesser General Public" in texts["Qt"]
    assert "lib/PySide6" in texts["Qt"]
    assert listed.findItems("Qt", Qt.MatchFlag.MatchExactly)[0].text(1) == qVersion()


def test_on_a_small_screen_in_large_type_all_of_it_has_room_and_says_what_it_is(about):
    for number in range(about.tabs.count()):
        about.tabs.setCurrentIndex(number)
        least = about.minimumSizeHint()
        assert least.width() <= SMALL.width()
        assert least.height() <= SMALL.height()
    for each in (about.tabs, about.versions, about.licences.list, about.licences.text):
        told = QAccessible.queryAccessibleInterface(each)
        assert told.text(QAccessible.Text.Name)
