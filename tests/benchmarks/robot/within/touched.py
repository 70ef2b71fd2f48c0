"""Inside the program: keys and pointer as they come from a display, and the answers of dialogs.

Events enter Qt below its windows (`QTest` on a QWindow), so that focus, shortcuts, popups, editors,
drags and event filters act as for a brewer. The dialogs of the system cannot be driven so: they
answer what the robot told beforehand.
"""

from __future__ import annotations

from typing import Any

import seen
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QGuiApplication, QWindow
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QFileDialog,
    QInputDialog,
    QLineEdit,
    QScrollArea,
    QTableView,
    QWidget,
)

_ANSWERS: dict[str, str] = {}
MODIFIERS = {
    "C": Qt.KeyboardModifier.ControlModifier,
    "S": Qt.KeyboardModifier.ShiftModifier,
    "A": Qt.KeyboardModifier.AltModifier,
}


class CannotBeTouched(Exception):  # noqa: N818 - said of a thing, not of a fault
    """What was to be touched is not there, or covered."""


# dialogs


def answer_dialogs() -> None:
    """From now on the dialogs of the system answer what the robot told; else they are cancelled."""
    QFileDialog.getOpenFileName = _file("open")
    QFileDialog.getSaveFileName = _file("save")
    QFileDialog.getOpenFileNames = lambda *_, **__: ([], "")
    QFileDialog.getExistingDirectory = lambda *_, **__: _ANSWERS.pop("folder", "")
    QInputDialog.getText = lambda *_, **__: ("", False)


def _file(key: str) -> Any:
    def answer(*_: Any, **__: Any) -> tuple[str, str]:
        return _ANSWERS.pop(key, ""), ""

    return answer


def tell_answers(command: dict[str, Any]) -> None:
    """Take the answers for the next dialogs."""
    _ANSWERS.clear()
    _ANSWERS.update(command["answers"])


# keys


def _modifiers(letters: str) -> Any:
    found = Qt.KeyboardModifier.NoModifier
    for each in letters:
        found |= MODIFIERS[each]
    return found


def _window_with_keys() -> QWindow:
    """Return the window with the focus. Without a window manager it is given back here.

    Nobody else does that once a dialog is gone.
    """
    window = QGuiApplication.focusWindow()
    if window is None:
        top = seen.on_top()
        top.activateWindow()
        QTest.qWaitForWindowActive(top, 500)
        window = top.windowHandle()
    assert window is not None
    return window


def key(command: dict[str, Any]) -> None:
    """Press and let go one key, by its name ("Return") or its sign ("½")."""
    name, modifiers = command["key"], _modifiers(command.get("with", ""))
    window = _window_with_keys()
    if len(name) > 1:
        QTest.keyClick(window, getattr(Qt.Key, f"Key_{name}"), modifiers)
    elif modifiers not in (Qt.KeyboardModifier.NoModifier, MODIFIERS["S"]):
        QTest.keyClick(window, Qt.Key(ord(name.upper())), modifiers)
    else:
        code = Qt.Key(ord(name.upper())) if name.isascii() else Qt.Key.Key_unknown
        if name.isascii() and name.isupper():
            modifiers = MODIFIERS["S"]
        QTest.sendKeyEvent(QTest.KeyAction.Click, window, code, name, modifiers)


def keys(command: dict[str, Any]) -> None:
    """Type a text as fast as the window takes it."""
    for sign in command["text"]:
        key({"key": sign})


def copy(command: dict[str, Any]) -> None:
    """Put a text on the clipboard, as another program would."""
    QApplication.clipboard().setText(command["text"])


# pointer


def _of_table(at: list[Any]) -> tuple[QWidget, QPoint]:
    name, row, heading = at
    table = seen.tables().get(name)
    if table is None:
        raise CannotBeTouched(f"no table {name}")
    names = seen.headings(table)
    column = names.index(heading) if heading in names else -1
    if column < 0 or table.isColumnHidden(column) or row >= table.model().rowCount():
        raise CannotBeTouched(f"no cell {at}")
    rect = table.visualRect(table.model().index(row, column))
    return table.viewport(), rect.center() if rect.width() < 120 else rect.topLeft() + QPoint(
        40, rect.height() // 2
    )


def _of_list(row: int) -> tuple[QWidget, QPoint]:
    for table in seen.shown(QTableView, seen.main_window()):
        if table.accessibleName() not in seen.EDITORS and table.model().rowCount():
            rect = table.visualRect(table.model().index(row % table.model().rowCount(), 0))
            return table.viewport(), rect.topLeft() + QPoint(20, rect.height() // 2)
    raise CannotBeTouched("nothing is listed")


def _of_button(text: str) -> tuple[QWidget, QPoint]:
    for each in seen.shown(QAbstractButton):
        said = each.text().replace("&", "")
        if text in (said, each.accessibleName()) and each.isEnabled():
            return each, each.rect().center()
    raise CannotBeTouched(f"no button {text}")


def _of_field(label: str) -> tuple[QWidget, QPoint]:
    for each in seen.shown(QLineEdit):
        if each.accessibleName() == label and each.isEnabled():
            return each, QPoint(min(12, each.width() // 2), each.height() // 2)
    raise CannotBeTouched(f"no field {label}")


def _of_window(share: list[float]) -> tuple[QWidget, QPoint]:
    top = seen.on_top()
    return top, QPoint(int(share[0] * top.width()), int(share[1] * top.height()))


def _of_point(point: list[int]) -> tuple[QWidget, QPoint]:
    return seen.on_top(), QPoint(*point)


def _of_heading(at: list[str]) -> tuple[QWidget, QPoint]:
    table = seen.tables().get(at[0])
    if table is None:
        raise CannotBeTouched(f"no table {at[0]}")
    header, column = table.horizontalHeader(), seen.headings(table).index(at[1])
    x = header.sectionViewportPosition(column) + header.sectionSize(column) // 2
    return header.viewport(), QPoint(x, header.height() // 2)


_PLACES = {
    "cell": _of_table,
    "listed": _of_list,
    "button": _of_button,
    "field": _of_field,
    "window": _of_window,
    "point": _of_point,
    "heading": _of_heading,
}


def _place(at: dict[str, Any]) -> tuple[QWindow, QPoint]:
    """Return where to point, with the page scrolled so that it is seen."""
    ((kind, what),) = at.items()
    widget, point = _PLACES[kind](what)
    area = widget.parent()
    while area is not None:
        if isinstance(area, QScrollArea) and area.widget().isAncestorOf(widget):
            inside = widget.mapTo(area.widget(), point)
            area.ensureVisible(inside.x(), inside.y(), 30, 40)
        area = area.parent()
    top = widget.window()
    found = widget.mapTo(top, point)
    there = top.childAt(found)
    if (
        kind not in ("window", "point")
        and there is not widget
        and not widget.isAncestorOf(there or top)
    ):
        name = there.objectName() or there.accessibleName() if there is not None else ""
        raise CannotBeTouched(f"{at} is covered by {type(there).__name__} {name}")
    handle = top.windowHandle()
    assert handle is not None
    return handle, found


def where(command: dict[str, Any]) -> list[int]:
    """Return the point of the window where something is seen now."""
    _, point = _place(command["at"])
    return [point.x(), point.y()]


def click(command: dict[str, Any]) -> None:
    """Point somewhere and click, or press, move or let go alone."""
    handle, point = _place(command["at"])
    button = Qt.MouseButton.LeftButton
    modifiers = _modifiers(command.get("with", ""))
    how = command.get("how", "click")
    if how == "click":
        QTest.mouseClick(handle, button, modifiers, point)
    elif how == "double":
        QTest.mouseClick(handle, button, modifiers, point)
        QTest.mouseDClick(handle, button, modifiers, point)
    elif how == "press":
        QTest.mousePress(handle, button, modifiers, point)
    elif how == "release":
        QTest.mouseRelease(handle, button, modifiers, point)


def move(command: dict[str, Any]) -> None:
    """Move the pointer somewhere, with a button held or not."""
    handle, point = _place(command["at"])
    x, y = command.get("by", (0, 0))
    QTest.mouseMove(handle, point + QPoint(x, y))


def wheel(command: dict[str, Any]) -> None:
    """Turn the wheel somewhere."""
    handle, point = _place(command["at"])
    turn = QPoint(0, 120 * command["steps"])
    QTest.wheelEvent(handle, QPointF(point), turn)


DEEDS = {
    "key": key,
    "keys": keys,
    "copy": copy,
    "click": click,
    "move": move,
    "wheel": wheel,
    "where": where,
    "answers": tell_answers,
}
