"""A brewer begins: with the example."""

import pytest
from PySide6.QtCore import Qt


@pytest.fixture
def doors(qtbot, window):
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(window, Qt.Key.Key_N, both)
    return window.begin_page


def test_the_example_is_one_press_away(qtbot, window, doors, porter):
    window.opened.replace_by(type(porter)(), None)
    qtbot.mouseClick(doors.doors.button(2), Qt.MouseButton.LeftButton)
    qtbot.mouseClick(doors.example.examples["harbour_lamp_porter"], Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert window.opened.path is None
