"""What is typed in, or has changed, is brought into the visible part of the page."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt, QTimer
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QFrame,
    QScrollArea,
    QWidget,
)

ROUND = 8
"""So many pixels round it are shown too."""
MARKED_MS = 1400


def own_viewport(area: QAbstractScrollArea) -> None:
    """Give a table, or an area that scrolls, a viewport made here that looks like Qt's.

    To hand Qt's own one over, where it is first asked for, PySide6 looks through all kinds of
    widgets and makes each known to Python: 16 ms and 2 MB.
    """
    viewport = QWidget()
    viewport.setObjectName("qt_scrollarea_viewport")  # by that name style sheets know it
    viewport.setAutoFillBackground(True)
    if isinstance(area, QAbstractItemView):
        viewport.setBackgroundRole(QPalette.ColorRole.Base)
    area.setViewport(viewport)


def bring_into_view(widget: QWidget, rect: QRect | None = None) -> None:
    """Scroll every area that a widget lies in until it, or a part of it, is seen.

    Nothing moves where it is seen already.
    """
    part = rect if rect is not None else widget.rect()
    inner, outer = widget, widget.parentWidget()
    while outer is not None:
        if isinstance(outer, QScrollArea) and inner is outer.viewport():
            _show_in(outer, widget, part)
        inner, outer = outer, outer.parentWidget()


def bring_keyboard_into_view() -> None:
    """Scroll until what has the keyboard is seen; of a table its present cell in any case.

    An area that scrolls does so by itself only while the keyboard stays in it.
    """
    widget = QApplication.focusWidget()
    if widget is not None:
        bring_into_view(widget)
    if isinstance(widget, QAbstractItemView) and widget.currentIndex().isValid():
        bring_into_view(widget.viewport(), widget.visualRect(widget.currentIndex()))


def _show_in(area: QScrollArea, widget: QWidget, part: QRect) -> None:
    content = area.widget()
    if content is None:
        return
    place = QRect(widget.mapTo(content, part.topLeft()), part.size())
    middle = place.center()
    height = min(place.height() // 2 + ROUND, area.viewport().height() // 2)
    width = min(place.width() // 2 + ROUND, area.viewport().width() // 2)
    area.ensureVisible(middle.x(), middle.y(), width, height)


def show_changed(widget: QWidget, rect: QRect | None = None) -> None:
    """Bring what has changed into view, and draw a frame round it for a moment."""
    bring_into_view(widget, rect)
    frame = QFrame(widget)
    frame.setObjectName("changed")
    frame.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    frame.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
    frame.setGeometry(rect if rect is not None else widget.rect())
    frame.show()
    later = QTimer(frame, singleShot=True, interval=MARKED_MS)
    later.timeout.connect(frame.deleteLater)
    later.start()
