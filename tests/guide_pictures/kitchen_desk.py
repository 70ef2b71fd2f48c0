"""A window that is driven by hand, so that pictures of it can be taken: the same ones every time.

It has a desk, a Recipe box, preferences and clocks of its own, and waits for what it shows.
"""

import time
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QImageWriter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer import translation
from designer.window.main_window import MainWindow
from designer.window.parts.settings import Settings
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
from designer.window.parts.wording import speak_alike
from designer.window.session.autosave import Autosave
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.store_thread import StoreThread
from designer.window.start import made_application
from tests.conftest import Answers
from tests.driven_clock import DrivenClock

from . import seen_words
from .chapters import typed_in
from .few_colours import in_few_colours
from .fixed_time import BEGINS, go_to

WIDE, HIGH = 1280, 800
LONGEST_S = 120.0


class Desk:
    """The application, and one window on it after the other."""

    def __init__(self, store, pictures, ears):
        self.application = made_application()
        speak_alike(self.application)
        self.settings = Settings(self.application)
        self.settings.scheme, self.settings.colour = "light", "ebc"
        wear_typeface(self.application, self.settings.typeface)
        apply_scheme(self.application, "light")
        self._pictures, self._ears = Path(pictures), ears
        self.begin_anew(store)

    def begin_anew(self, store):
        """Have an empty Recipe box, and be back at the beginning of the day."""
        self.close()
        self.store, self.clock = Path(store), DrivenClock(wall=BEGINS)
        self.settings.left_off = ""

    window = None

    def open(self, recipe=None):
        """Open a window over a recipe, or on the doors of Begin, in place of the one before."""
        self.close()
        opened = OpenRecipe(recipe)
        autosave = Autosave(opened, StoreThread(self.store), self.store)
        self.window = window = MainWindow(opened, self.settings, Answers(), lambda: autosave)
        window.brew_clock = self.clock
        window.resize(WIDE, HIGH)
        window.show()
        self.until(lambda: window.autosave is autosave)
        self.forecast() if recipe is not None else self.rest()
        return window

    def close(self):
        """Close the window; what it keeps is on the disk then."""
        window, self.window = self.window, None
        if window is not None:
            window.opened.undo_stack.setClean()
            window.close()
            self.until(lambda: not window.isVisible())
            window.deleteLater()

    # waiting

    def until(self, is_so):
        """Turn the event loop until something is so."""
        begun = time.monotonic()
        while not is_so():
            if time.monotonic() - begun > LONGEST_S:
                raise TimeoutError("what a picture was to show did not come")
            QTest.qWait(10)

    def rest(self):
        """Wait until nothing goes on: the store rests, the page is painted."""
        for _ in range(2):
            self.until(lambda: not self.window.autosave.store.busy)
            QTest.qWait(250)

    def forecast(self):
        """Wait for the ranges of the forecast."""
        self.window.opened.want_ranges()
        self.rest()
        self.window.opened.newest_outlook()
        self.rest()

    def drafted(self, door):
        """Wait until the first recipes follow from the answers as they stand."""

        def is_drafted():
            found = door.found
            is_still = not door.reckoning.busy and door._asked is not None
            return found is not None and is_still and found.answers == door._asked

        QTest.qWait(500)
        self.until(is_drafted)
        self.rest()

    # acting

    def page(self, name):
        """Show a page by its English name."""
        self.window.show_page(self.window.page_names.index(name))
        self.rest()

    def type_over(self, field, text):
        """Type in place of all that stands in a field."""
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)

    def typed_in(self, chapter):
        """Return what a chapter of the guide has its reader type, in the language."""
        return typed_in(translation.spoken(), chapter)

    def written(self, text):
        """Return a number as the language writes it."""
        return self.window.display.decimal(text)

    def press(self, button):
        """Press a button."""
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    # what is seen

    def shows(self, **forecasts):
        """Fail where a forecast is not what the guide says: value, low and high, rounded."""
        found = self.window.opened.newest_outlook().forecasts
        for key, told in forecasts.items():
            each = found[key]
            said = f"{each.value:.0f} {each.low:.0f} {each.high:.0f}"
            assert said == told, f"{key}: the guide says {told}, the program {said}"

    def take(self, name):
        """Take a picture of the window, with the sentences seen on it."""
        go_to(self.clock.now().wall)
        self.rest()
        focus = QApplication.focusWidget()
        if focus is not None:
            focus.clearFocus()  # no cursor blinks in one picture and not in the next
        QApplication.processEvents()
        image = in_few_colours(self.window.grab().toImage())
        texts = seen_words.visible_texts(self.window)
        writer = QImageWriter(str(self._pictures / name), b"png")
        writer.setCompression(100)
        writer.setText(seen_words.KEY, seen_words.written(seen_words.seen(self._ears.asked, texts)))
        if not writer.write(image):
            raise OSError(writer.errorString())


class Waiting:
    """Waits as a test does."""

    def __init__(self, desk):
        self._desk = desk

    def waitUntil(self, is_so, timeout=0):  # noqa: N802 - as pytest-qt has it
        """Wait until something is so."""
        self._desk.until(is_so)
