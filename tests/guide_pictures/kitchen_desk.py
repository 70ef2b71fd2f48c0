"""A window that is driven by hand, so that pictures of it can be taken: the same ones every time.

It has a desk, a Recipe box, preferences and clocks of its own, and waits for what it shows.
"""

import time
from pathlib import Path

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.window.main_window import MainWindow
from designer.window.parts.settings import Settings
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.store_thread import StoreThread
from designer.window.start import made_application
from designer.workbench.brew.clocks import DrivenClock
from tests.conftest import Answers

WIDE, HIGH = 1280, 800
LONGEST_S = 120.0
BEGINS = 1_774_688_400.0
"""A Saturday in March, nine in the morning in UTC."""


class Desk:
    """The application, and one window on it after the other."""

    def __init__(self, store):
        self.application = made_application()
        self.settings = Settings(self.application)
        self.settings.scheme, self.settings.colour = "light", "ebc"
        wear_typeface(self.application, self.settings.typeface)
        apply_scheme(self.application, "light")
        self.store, self.clock = Path(store), DrivenClock(wall=BEGINS)
        self.window = None

    def open(self, recipe=None, *, wide=WIDE, high=HIGH):
        """Open a window over a recipe, or on the doors of Begin, in place of the one before."""
        self.close()
        opened = OpenRecipe(recipe)
        autosave = Autosave(opened, StoreThread(self.store), self.store)
        window = MainWindow(opened, self.settings, Answers(), lambda: autosave)
        window.brew_clock = self.clock
        self.window = window
        window.resize(wide, high)
        window.show()
        self.until(lambda: window.autosave is autosave)
        if recipe is not None:
            opened.want_ranges()
        self.rest()
        return window

    def close(self):
        """Close the window; what it keeps is on the disk then."""
        window, self.window = self.window, None
        if window is not None:
            window.opened.undo_stack.setClean()
            window.close()
            self.until(lambda: not window.isVisible())
            window.deleteLater()

    def until(self, is_so):
        """Turn the event loop until something is so."""
        begun = time.monotonic()
        while not is_so():
            if time.monotonic() - begun > LONGEST_S:
                raise TimeoutError("what a picture was to show did not come")
            QTest.qWait(10)

    def rest(self):
        """Wait until nothing goes on: the store rests, the page is painted."""
        window = self.window
        self.until(lambda: not window.autosave.store.busy)
        QTest.qWait(150)
        self.until(lambda: not window.autosave.store.busy)

    def page(self, name):
        """Show a page by its English name."""
        self.window.show_page(self.window.page_names.index(name))
        self.rest()

    def type_over(self, field, text):
        """Type in place of all that stands in a field."""
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)

    def press(self, button):
        """Press a button."""
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    def grabbed(self, widget=None, around=None):
        """Return a picture of the window, of a widget, or of a part of the window."""
        self.window.setCursor(Qt.CursorShape.ArrowCursor)
        QApplication.processEvents()
        if around is not None:
            return self.window.grab(around)
        return (widget or self.window).grab()

    def place_of(self, *widgets, margin=8):
        """Return the part of the window that shows some widgets."""
        whole = QRect()
        for each in widgets:
            corner = each.mapTo(self.window, QPoint(0, 0))
            whole = whole.united(QRect(corner, each.size()))
        return whole.adjusted(-margin, -margin, margin, margin) & self.window.rect()
