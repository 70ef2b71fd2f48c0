"""The keyboard: keys go to what has it, as they do on a desk."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

NONE = Qt.KeyboardModifier.NoModifier


class Keys:
    """Presses keys at whatever has the keyboard."""

    def __init__(self, qtbot, window):
        self._qtbot, self._window = qtbot, window

    @property
    def _at(self):
        """What has the keyboard: a list that is open, else a widget, else the window."""
        return QApplication.activePopupWidget() or QApplication.focusWidget() or self._window

    def press(self, *keys, modifier=NONE):
        for key in keys:
            self._qtbot.keyClick(self._at, key, modifier)

    def type(self, text):
        for sign in text:
            self._qtbot.keyClick(self._at, sign)

    def tab_to(self, widget, key=Qt.Key.Key_Tab, most=80):
        """Go on with Tab until a widget has the keyboard."""
        for _ in range(most):
            if QApplication.focusWidget() is widget:
                return
            self.press(key)
        raise AssertionError((widget, "is not reached", QApplication.focusWidget()))
