"""A window opens within its screen, whatever size it had last, on whatever screen."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QMargins, QRect
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from designer.window.parts.interface_size import largest_on

LEAST = (760, 520)
"""The least size of a window, where the screen has that much."""
USUAL_FRAME = QMargins(4, 34, 4, 4)
"""Taken for what the desktop puts round a window until it has done so."""


def open_on_screen(window: QWidget, usual: tuple[int, int], kept: QByteArray) -> None:
    """Give a window that is not shown yet the place and size it had, or its usual size.

    Its least size gives way to the screen too.
    """
    if kept.isEmpty() or not window.restoreGeometry(kept):
        window.resize(*usual)
    keep_on_screen(window)


def keep_on_screen(window: QWidget) -> None:
    """Make a window with its frame as small as its screen, and move it in where it juts out."""
    if window.isMaximized() or window.isFullScreen():
        return
    inner = window.geometry()
    # Of a window that was just moved Qt hears only later that it is on another screen.
    screen = QGuiApplication.screenAt(inner.center()) or window.screen()
    free = screen.availableGeometry()
    frame = _frame(window)
    room = free.marginsRemoved(frame).size()
    window.setMinimumSize(window.minimumSize().boundedTo(room))
    size = inner.size().boundedTo(room)
    if size != inner.size():
        window.resize(size)
    outer = QRect(inner.topLeft(), size).marginsAdded(frame)
    moved = _moved_in(outer, free)
    if window.isVisible() and moved != outer:
        window.move(moved.topLeft())


def _frame(window: QWidget) -> QMargins:
    """Return what is round a window: what the desktop says, or before that what is usual."""
    inner, outer = window.geometry(), window.frameGeometry()
    if not window.isVisible():
        return USUAL_FRAME
    return QMargins(
        inner.left() - outer.left(),
        inner.top() - outer.top(),
        outer.right() - inner.right(),
        outer.bottom() - inner.bottom(),
    )


def _moved_in(outer: QRect, free: QRect) -> QRect:
    """Return the rectangle moved as little as it has to be to lie inside the free one."""
    left = max(min(outer.left(), free.right() + 1 - outer.width()), free.left())
    top = max(min(outer.top(), free.bottom() + 1 - outer.height()), free.top())
    return QRect(left, top, outer.width(), outer.height())


def largest_size(window: QWidget) -> int:
    """Return how large everything can be drawn, per cent, that a window keeps its least size."""
    free = window.screen().availableGeometry().marginsRemoved(USUAL_FRAME)
    return largest_on(free.width(), free.height(), LEAST)
