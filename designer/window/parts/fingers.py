"""Fingers on the screen: drawn, they scroll; a tap presses; held, they ask.

Of a touch that nobody takes Qt makes the press of a mouse, at once: a finger that is put down to
push the page would choose, and drag, what it happens to land on. So the touches of each window of
the program are looked at first:

- a finger that is drawn scrolls what lies under it, which goes on by itself for a while;
- a tap is the press of a mouse, a second one soon after a double click;
- a finger that rests shows what a resting pointer does, and opens the menu under it, when it is let
  go where there was something to read;
- what is itself drawn along (sliders, heads of columns, the markers of the day), or repeats while
  it is pressed, has its touches as Qt makes them, as have menus.

How far, how long and how soon is what the desktop says of it. Kinetics: Qt's own `QScroller`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QGuiApplication,
    QHelpEvent,
    QMouseEvent,
    QTouchEvent,
    QWindow,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QAbstractSlider,
    QApplication,
    QHeaderView,
    QMenu,
    QMenuBar,
    QScroller,
    QScrollerProperties,
    QSplitterHandle,
    QToolTip,
    QWidget,
)
from shiboken6 import isValid

DRAWN_ALONG = "drawnAlong"
"""The property of a widget that is itself drawn along by a finger."""
SHOWS_DOWN_MS = 80
"""A button looks pressed once a finger has rested on it for so long."""
CLEAR_PX = 30
"""So far from a finger is what it asks for, that it does not hide it."""
_Kind = QEvent.Type
_TOUCHES = (_Kind.TouchUpdate, _Kind.TouchEnd, _Kind.TouchCancel)
_OWN = (QAbstractSlider, QSplitterHandle, QHeaderView, QMenu, QMenuBar)
_Policy = QScrollerProperties.OvershootPolicy
_Metric = QScrollerProperties.ScrollMetric


class Fingers(QObject):
    """Looks at the touches of all windows of the program."""

    touched = Signal()
    """The screen has been touched, and the finger has been let go."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._watched: set[QWindow] = set()
        self._finger: _Finger | None = None
        self._last: tuple[float, QPointF] | None = None
        application = QGuiApplication.instance()
        if isinstance(application, QGuiApplication):
            application.focusWindowChanged.connect(self.watch)
        self.watch()

    def watch(self) -> None:
        """Look at the windows that are there now too."""
        self._watched = {each for each in self._watched if isValid(each)}
        for window in QGuiApplication.topLevelWindows():
            if window not in self._watched:
                self._watched.add(window)
                window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind == _Kind.TouchBegin:
            return self._begin(cast(QWindow, watched), cast(QTouchEvent, event))
        if kind not in _TOUCHES:
            return False
        finger = self._finger
        if finger is None:
            if kind == _Kind.TouchEnd:
                self._ended()
            return False
        touch = cast(QTouchEvent, event)
        if kind == _Kind.TouchUpdate and touch.pointCount() == 1:
            finger.go_to(touch.points()[0].position(), touch.timestamp())
        elif kind == _Kind.TouchEnd:
            self._finger = None
            self._last = finger.let_go(touch.timestamp(), self._last)
            self._ended()
        else:
            self._finger = None
            finger.give_up(touch.timestamp())
        event.accept()
        return True

    def _begin(self, window: QWindow, event: QTouchEvent) -> bool:
        if self._finger is not None:
            self._finger.give_up(event.timestamp())
            self._finger = None
        under = _under(window, event.points()[0].position().toPoint())
        if under is None or _is_own(under) or _is_outside_popup(under):
            return False
        QToolTip.hideText()
        self._finger = _Finger(self, window, under, event)
        event.accept()
        return True

    def _ended(self) -> None:
        """Look at what a tap has opened; once it is all done, tell of it."""
        QTimer.singleShot(0, self, self.watch)
        QTimer.singleShot(0, self, self.touched.emit)


class _Finger:
    """One finger, from when it comes down until it is let go."""

    def __init__(self, owner: QObject, window: QWindow, under: QWidget, event: QTouchEvent) -> None:
        self._window, self._under = window, under
        self._device = event.pointingDevice()
        self._from = self._at = event.points()[0].position()
        self._areas = _areas_round(under)
        self._scrolls: QScroller | None = None
        self._viewport: QWidget | None = None
        self._is_drawn = self._has_stopped = self._has_asked = self._reads = False
        for each in self._areas:
            if QScroller.hasScroller(each.viewport()):
                scroller = QScroller.scroller(each.viewport())
                if scroller.state() == QScroller.State.Scrolling:
                    scroller.stop()
                    self._has_stopped = True
        hints = QGuiApplication.styleHints()
        self._slop = hints.startDragDistance()
        self._soon_ms, self._near = hints.mouseDoubleClickInterval(), hints.touchDoubleTapDistance()
        self._timers = [
            _timer(owner, SHOWS_DOWN_MS, self._show_down),
            _timer(owner, hints.mousePressAndHoldInterval(), self._ask),
        ]

    def go_to(self, place: QPointF, at_ms: int) -> None:
        """Be drawn to a place of the window."""
        self._at = place
        way = place - self._from
        if not self._is_drawn and way.manhattanLength() > self._slop and not self._has_asked:
            self._is_drawn = True
            self._rest()
            self._begin_to_scroll(way, at_ms)
        if self._scrolls is not None and self._viewport is not None and isValid(self._viewport):
            self._scrolls.handleInput(QScroller.Input.InputMove, self._in_viewport(place), at_ms)

    def let_go(
        self, at_ms: int, last: tuple[float, QPointF] | None
    ) -> tuple[float, QPointF] | None:
        """Be lifted; return when and where this was a tap, None if it was none."""
        self._rest()
        if self._scrolls is not None:
            self._end_scrolling(at_ms)
        elif self._reads:
            self._open_menu()
        elif not (self._has_asked or self._is_drawn or self._has_stopped):
            again = (
                last is not None
                and at_ms - last[0] <= self._soon_ms
                and (self._from - last[1]).manhattanLength() <= self._near
            )
            self._press(again)
            return None if again else (at_ms, self._from)
        return None

    def give_up(self, at_ms: int) -> None:
        """Mean nothing after all: another finger came, or the desktop took it."""
        self._rest()
        if self._scrolls is not None:
            self._end_scrolling(at_ms)

    def _rest(self) -> None:
        """Wait for nothing any more."""
        for timer in self._timers:
            timer.stop()
            timer.deleteLater()
        self._timers = []
        button = _button_round(self._under)
        if button is not None and button.isDown() and not _has_menu(button):
            button.setDown(False)

    def _show_down(self) -> None:
        button = _button_round(self._under)
        if button is not None and button.isEnabled() and not _has_menu(button):
            button.setDown(True)

    # scrolling

    def _begin_to_scroll(self, way: QPointF, at_ms: int) -> None:
        is_down = abs(way.y()) >= abs(way.x())
        along = way.y() if is_down else way.x()
        area = next((each for each in self._areas if _can_go(each, is_down, along)), None)
        if area is None:
            return
        if isinstance(area, QAbstractItemView):
            _scroll_by_pixels(area)
        self._viewport = area.viewport()
        self._scrolls = QScroller.scroller(self._viewport)
        properties = self._scrolls.scrollerProperties()
        for metric in (
            _Metric.HorizontalOvershootPolicy,
            _Metric.VerticalOvershootPolicy,
        ):
            properties.setScrollMetric(metric, _Policy.OvershootAlwaysOff)
        properties.setScrollMetric(_Metric.DragStartDistance, 0.0)
        self._scrolls.setScrollerProperties(properties)
        begun = self._in_viewport(self._from)
        self._scrolls.handleInput(QScroller.Input.InputPress, begun, at_ms)

    def _end_scrolling(self, at_ms: int) -> None:
        if self._scrolls is not None and self._viewport is not None and isValid(self._viewport):
            ended = self._in_viewport(self._at)
            self._scrolls.handleInput(QScroller.Input.InputRelease, ended, at_ms)

    def _in_viewport(self, place: QPointF) -> QPointF:
        assert self._viewport is not None
        return self._viewport.mapFrom(self._viewport.window(), place)

    # pressing

    def _press(self, again: bool) -> None:
        """Press as a mouse would; the window hands it to what lies there."""
        first = _Kind.MouseButtonDblClick if again else _Kind.MouseButtonPress
        left, none = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
        for kind, buttons in ((first, left), (_Kind.MouseButtonRelease, none)):
            if not isValid(self._window):
                return
            place = self._from
            event = QMouseEvent(
                kind,
                place,
                place,
                self._window.mapToGlobal(place),
                left,
                buttons,
                Qt.KeyboardModifier.NoModifier,
                Qt.MouseEventSource.MouseEventSynthesizedByApplication,
                self._device,
            )
            QApplication.sendEvent(self._window, event)

    # asking

    def _ask(self) -> None:
        """Show what a resting pointer would be shown; where there is nothing, open the menu."""
        if not isValid(self._under):
            return
        at = self._window.mapToGlobal(self._from).toPoint()
        place = self._under.mapFromGlobal(at)
        QApplication.sendEvent(self._under, QHelpEvent(_Kind.ToolTip, place, at))
        self._reads = QToolTip.isVisible()
        if self._reads:
            _lift_tip(at)
            self._has_asked = True
        else:
            self._has_asked = self._open_menu()

    def _open_menu(self) -> bool:
        """Open the menu under the finger; False where there is none."""
        if not isValid(self._under):
            return False
        at = self._window.mapToGlobal(self._from).toPoint()
        place, mouse = self._under.mapFromGlobal(at), QContextMenuEvent.Reason.Mouse
        QApplication.sendEvent(self._under, QContextMenuEvent(mouse, place, at))
        return QApplication.activePopupWidget() is not None


def _timer(owner: QObject, after_ms: int, act: Callable[[], None]) -> QTimer:
    timer = QTimer(owner, singleShot=True, interval=after_ms)
    timer.timeout.connect(act)
    timer.start()
    return timer


def _under(window: QWindow, place: QPoint) -> QWidget | None:
    """Return the widget under a place of a window."""
    top = next(
        (each for each in QApplication.topLevelWidgets() if each.windowHandle() is window), None
    )
    return None if top is None else top.childAt(place) or top


def _is_own(widget: QWidget) -> bool:
    """Whether a touch is left to Qt: it draws the widget along, or keeps it pressed."""
    around: QWidget | None = widget
    while around is not None:
        if isinstance(around, _OWN) or around.property(DRAWN_ALONG):
            return True
        if isinstance(around, QAbstractButton) and around.autoRepeat():
            return True
        if around.isWindow():
            return False
        around = around.parentWidget()
    return False


def _is_outside_popup(widget: QWidget) -> bool:
    """Whether a list or menu is open that is put away by this touch."""
    popup = QApplication.activePopupWidget()
    return popup is not None and widget.window() is not popup


def _areas_round(widget: QWidget) -> list[QAbstractScrollArea]:
    """Return what scrolls around a widget, the innermost first."""
    found: list[QAbstractScrollArea] = []
    around: QWidget | None = widget
    while around is not None and not around.isWindow():
        parent = around.parentWidget()
        if isinstance(parent, QAbstractScrollArea) and around is parent.viewport():
            found.append(parent)
        around = parent
    return found


def _can_go(area: QAbstractScrollArea, is_down: bool, along: float) -> bool:
    """Whether an area has more to show where a finger pulls it from."""
    bar = area.verticalScrollBar() if is_down else area.horizontalScrollBar()
    return bar.value() < bar.maximum() if along < 0 else bar.value() > bar.minimum()


def _scroll_by_pixels(view: QAbstractItemView) -> None:
    """Let a table or list follow a finger, where it otherwise goes from row to row."""
    by_pixels = QAbstractItemView.ScrollMode.ScrollPerPixel
    if view.verticalScrollMode() != by_pixels:
        top = view.indexAt(QPoint(1, 1))
        view.setVerticalScrollMode(by_pixels)
        view.scrollTo(top, QAbstractItemView.ScrollHint.PositionAtTop)
    if view.horizontalScrollMode() != by_pixels:
        view.setHorizontalScrollMode(by_pixels)


def _button_round(widget: QWidget) -> QAbstractButton | None:
    if not isValid(widget):
        return None
    around: QWidget | None = widget
    while around is not None and not around.isWindow():
        if isinstance(around, QAbstractButton):
            return around
        around = around.parentWidget()
    return None


def _has_menu(button: QAbstractButton) -> bool:
    return getattr(button, "menu", lambda: None)() is not None


def _lift_tip(at: QPoint) -> None:
    """Put what is shown above the finger that asked for it, or clear below it."""
    for each in QApplication.topLevelWidgets():
        if each.objectName() == "qtooltip_label" and each.isVisible():
            top = at.y() - CLEAR_PX - each.height()
            has_room = top >= each.screen().availableGeometry().top()
            each.move(each.x(), top if has_room else at.y() + CLEAR_PX)
