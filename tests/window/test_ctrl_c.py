"""Ctrl+C in the terminal from which the window was opened."""

import signal

import pytest
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QWidget

from designer.window.faults import close_on_ctrl_c


class Window(QWidget):
    """Notes when it is closed, and may keep open, as one that asks what becomes of a recipe."""

    def __init__(self) -> None:
        super().__init__()
        self.asked = 0

    def closeEvent(self, event: QCloseEvent) -> None:  # noqa: N802 - as Qt calls it
        self.asked += 1
        event.setAccepted(self.asked > 1)


@pytest.fixture(autouse=True)
def as_before():
    before = signal.getsignal(signal.SIGINT)
    yield
    signal.signal(signal.SIGINT, before)


def test_ctrl_c_closes_the_window_once_what_is_at_work_has_ended(qtbot):
    window = Window()
    qtbot.addWidget(window)
    window.show()
    close_on_ctrl_c(window)
    signal.raise_signal(signal.SIGINT)  # raises nothing here
    assert window.asked == 0
    qtbot.waitUntil(lambda: window.asked == 1)
    assert window.isVisible()
    signal.raise_signal(signal.SIGINT)
    qtbot.waitUntil(lambda: not window.isVisible())
