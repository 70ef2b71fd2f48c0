"""A finger on a screen, and the keyboard that a tablet shows on it: no mouse, no keys."""

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QInputMethodEvent, QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractScrollArea, QApplication, QScroller

STEP_MS = 8
"""So far apart are the places that a screen tells of a finger, as at 120 Hz."""
HELD_MS = 900
"""Longer than Qt holds a finger to be resting (800 ms)."""
screens = []


def touch_screen():
    """Return the one screen that can be touched; made when first wanted."""
    if not screens:
        screens.append(QTest.createTouchDevice())
    return screens[0]


class Finger:
    """Touches what is seen, as the window system tells of touches."""

    def __init__(self, qtbot):
        self._qtbot, self._screen = qtbot, touch_screen()

    def tap(self, widget, at=None):
        """Touch and let go, once the page was drawn far enough for it to be seen."""
        self.reach(widget, at)
        window, place = self._place_at_rest(widget, at)
        self._event(window).press(0, place, window).commit()
        self._event(window).release(0, place, window).commit()
        QApplication.processEvents()

    def tap_cell(self, view, index):
        """Touch a cell of a table or list."""
        self.tap(view.viewport(), view.visualRect(index).center())

    def hold(self, widget, at=None, while_held=lambda: None):
        """Touch, rest until something is shown, look at it, and let go."""
        window, place = self._place(widget, at)
        self._event(window).press(0, place, window).commit()
        self._qtbot.wait(HELD_MS)
        while_held()
        self._event(window).release(0, place, window).commit()
        QApplication.processEvents()

    def draw(self, widget, by, at=None, steps=10, rests=True):
        """Draw the finger over a widget by so much; it `rests` before it is let go, or flicks."""
        window, place = self._place(widget, at)
        self._event(window).press(0, place, window).commit()
        for step in range(1, steps + 1):
            QTest.qWait(STEP_MS)
            self._event(window).move(0, place + by * step / steps, window).commit()
        if rests:
            for _ in range(12):
                QTest.qWait(STEP_MS)
                self._event(window).move(0, place + by, window).commit()
        self._event(window).release(0, place + by, window).commit()
        QApplication.processEvents()

    def reach(self, widget, at=None):
        """Draw the page under the finger until a place of it is seen."""
        self._qtbot.wait(20)  # what was done before has been laid out
        for _ in range(40):
            area = self._hidden_in(widget, at)
            if area is None:
                return
            viewport = area.viewport()
            target = QRect(widget.mapTo(viewport, self._at(widget, at)), QRect(0, 0, 1, 1).size())
            middle = viewport.rect().center()
            way = middle - target.center()
            down, across = viewport.height() // 3, viewport.width() // 3
            if not 0 <= target.center().y() < viewport.height():
                by = QPoint(0, max(min(way.y(), down), -down))
            else:
                by = QPoint(max(min(way.x(), across), -across), 0)
            before = (area.verticalScrollBar().value(), area.horizontalScrollBar().value())
            self.draw(viewport, by, self._free_place(viewport))
            self._qtbot.waitUntil(
                lambda v=viewport: QScroller.scroller(v).state() == QScroller.State.Inactive
            )
            after = (area.verticalScrollBar().value(), area.horizontalScrollBar().value())
            assert after != before, (widget, "cannot be reached")
        raise AssertionError((widget, "is never seen"))

    def type(self, text):
        """Type on the screen's own keyboard, which hands signs to what has the focus."""
        for sign in text:
            event = QInputMethodEvent()
            event.setCommitString(sign)
            QApplication.sendEvent(QApplication.focusObject(), event)
        QApplication.processEvents()

    def enter(self):
        """Press Return on the screen's own keyboard."""
        focus, none = QApplication.focusObject(), Qt.KeyboardModifier.NoModifier
        for kind in (QKeyEvent.Type.KeyPress, QKeyEvent.Type.KeyRelease):
            QApplication.sendEvent(focus, QKeyEvent(kind, Qt.Key.Key_Return, none))
        QApplication.processEvents()

    def _event(self, window):
        return QTest.touchEvent(window, self._screen)

    def _at(self, widget, at):
        return at if at is not None else widget.rect().center()

    def _place(self, widget, at):
        window = widget.window()
        place = widget.mapTo(window, self._at(widget, at))
        assert window.rect().contains(place), widget
        touched = window.childAt(place) or window
        assert touched is widget or widget.isAncestorOf(touched), (widget, touched)
        return window, place

    def _place_at_rest(self, widget, at):
        """Where it is once nothing moves any more: nobody presses what runs away."""
        window, place = self._place(widget, at)
        for _ in range(50):
            before = place
            self._qtbot.wait(30)
            window, place = self._place(widget, at)
            if place == before:
                break
        return window, place

    def _hidden_in(self, widget, at):
        """The innermost area that has to be scrolled for a place to be seen."""
        place, around = self._at(widget, at), widget
        while around is not None and not around.isWindow():
            parent = around.parentWidget()
            if isinstance(parent, QAbstractScrollArea) and around is parent.viewport():
                seen = around.rect().adjusted(0, 2, 0, -2)
                if not seen.contains(widget.mapTo(around, place)):
                    return parent
            around = parent
        return None

    def _free_place(self, viewport):
        """A place from which a draw moves the page: not on what is itself drawn along."""
        return QPoint(viewport.width() // 2, viewport.height() // 2)
