"""A page is one entry of a list: its button, its menu entry and its key follow."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout

from designer.window import paged_window
from designer.window.main_window import MainWindow
from designer.window.paged_window import PageEntry
from designer.window.parts.page_frame import Page
from tests.active_window import made_active


class Readings(Page):
    """A page that does not exist."""

    def __init__(self):
        super().__init__()
        self.gravity = QLineEdit()
        QVBoxLayout(self).addWidget(self.gravity)
        self.is_closed = False

    def take_focus(self):
        self.gravity.setFocus()

    def close_down(self):
        self.is_closed = True


def test_a_page_has_its_button_its_menu_entry_and_its_key(qtbot, monkeypatch, opened, settings):
    made = []

    def put_together(window):
        if not made:
            made.append(Readings())
            window.pages.addWidget(made[0])
        return made[0]

    entry = PageEntry("Readings", put_together)
    monkeypatch.setattr(paged_window, "PAGES", (*paged_window.PAGES, entry))
    window = MainWindow(opened, settings)
    qtbot.addWidget(window)
    made_active(qtbot, window)
    assert window.page_names == ("Compose", "Fit", "Sheet", "Readings")
    button = window.header.page_buttons.button(3)
    assert (button.text(), button.toolTip()) == ("Readings", "Ctrl+4")
    assert not made
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert window.pages.currentWidget() is made[0]
    assert made[0].gravity.hasFocus()
    qtbot.keyClick(window, Qt.Key.Key_1, Qt.KeyboardModifier.ControlModifier)
    assert window.pages.currentWidget() is window.compose
    qtbot.keyClick(window, Qt.Key.Key_4, Qt.KeyboardModifier.ControlModifier)
    assert window.pages.currentWidget() is made[0]
    entries = [action.text() for menu in window.menuBar().actions()
               for action in menu.menu().actions()]  # fmt: skip
    assert "&Readings" in entries
    window.close_pages()
    assert made[0].is_closed
