"""Preferences, and how large everything is drawn."""

import subprocess
import sys

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox

from designer.preferences_file import preferences
from designer.window.parts.interface_size import largest_on, next_size
from designer.window.parts.on_screen import LEAST
from designer.window.parts.settings import DOORS, Settings
from designer.window.preferences import Preferences


@pytest.fixture
def shown(window, qtbot):
    window.show_preferences()
    (dialog,) = window.findChildren(Preferences)
    qtbot.waitUntil(dialog.isVisible)
    return dialog


def _pick(row: QComboBox, data: object) -> None:
    at = row.findData(data)
    assert at >= 0
    row.setCurrentIndex(at)
    row.activated.emit(at)


def test_every_choice_is_kept_at_once_and_read_back_by_the_next_program(shown, window):
    chosen = {"units": "us", "gravity": "plato", "colour": "srm", "ingredient_colour": "beer",
              "language": "fr", "size": 125, "scheme": "dark", "contrast": "high",
              "typeface": "desktop", "paper": "letter", "sheet_language": "de", "starts": DOORS,
              "brew_volume": 40, "targets": "always"}  # fmt: skip
    for name, data in chosen.items():
        _pick(shown.rows[name], data)
    for name in ("large_print", "brew_sound"):
        before = getattr(window.settings, name)
        shown.rows[name].click()
        assert getattr(Settings(), name) is not before
    QTest.keyClicks(shown.rows["shop"], "Quay 4")
    shown.rows["shop"].editingFinished.emit()
    assert Settings().shop == "Quay 4"
    assert set(shown.rows) == {*chosen, "large_print", "brew_sound", "shop"}
    window.settings.write_out()
    for name, data in chosen.items():
        assert str(getattr(Settings(), name)) == str(data)
        assert preferences()[name] == str(data)


def test_what_a_menu_changes_is_shown_in_the_open_dialog(shown, window):
    window.settings.gravity = "plato"
    assert shown.rows["gravity"].currentData() == "plato"


def test_each_press_is_a_size_and_another_is_offered_to_be_opened_anew(window):
    entries = {str(each.shortcut().toString()): each for each in window.menus.actions}
    entries["Ctrl++"].trigger()
    entries["Ctrl++"].trigger()
    assert Settings().size == 125
    assert "125 %" in window.messages.text.text()
    entries["Ctrl+0"].trigger()
    assert Settings().size == 100
    assert not window.messages.isVisible()


def test_nothing_is_drawn_larger_than_the_screen_has_room_for():
    width, height = LEAST
    assert largest_on(width, height, LEAST) == 100
    assert largest_on(2 * width, 2 * height, LEAST) == 200
    assert next_size(100, 1, 100) == 100
    assert next_size(150, 1, 100) == 150  # chosen for a larger screen
    assert next_size(100, -1, 100) == 90


PROBE = """
import os
from designer.window.start import made_application
application = made_application()
print(application.primaryScreen().devicePixelRatio(), os.environ.get("QT_SCALE_FACTOR"))
"""


@pytest.mark.parametrize(("given", "drawn", "left"), [(None, "1.5", "None"), ("2", "3.0", "2")])
def test_the_program_is_drawn_in_the_size_that_was_kept(settings, monkeypatch, given, drawn, left):
    settings.size = 150
    settings.write_out()
    if given:
        monkeypatch.setenv("QT_SCALE_FACTOR", given)
    done = subprocess.run([sys.executable, "-c", PROBE], capture_output=True, text=True, check=True)
    assert done.stdout.split() == [drawn, left]
