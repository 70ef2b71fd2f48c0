"""A test begins with no key held down, whatever the one before it pressed."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

NONE, CTRL = Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ControlModifier


@pytest.mark.parametrize("time", ["first", "second"])
def test_ctrl_of_the_test_before_is_not_held_down_any_more(qtbot, time):
    assert QGuiApplication.keyboardModifiers() == NONE
    pressed = QWidget()
    qtbot.addWidget(pressed)
    qtbot.keyClick(pressed, Qt.Key.Key_F, CTRL)
    assert QGuiApplication.keyboardModifiers() == CTRL, "Qt holds it down, so it is to be let go"
