"""Inside the program: what a brewer sees, read off the widgets."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QFrame,
    QLabel,
    QLineEdit,
    QMainWindow,
    QTableView,
    QWidget,
)

EDITORS = ("Fermentables", "Hops", "Extras")


def main_window() -> Any:
    """Return the program's window; None before there is one."""
    for each in QApplication.topLevelWidgets():
        if isinstance(each, QMainWindow) and each.isVisible():
            return each
    return None


def on_top() -> QWidget:
    """Return what has the brewer's attention: a dialog, or else the window."""
    found = QApplication.activeModalWidget() or main_window()
    assert found is not None
    return found


def shown(of: type[Any], within: QWidget | None = None) -> list[Any]:
    """Return the widgets of a kind that are not hidden, in the order they were made."""
    top = within or on_top()
    return [each for each in top.findChildren(of) if each.isVisibleTo(top)]


def tables() -> dict[str, QTableView]:
    """Return the editors of the recipe's lists that are on the page shown."""
    found = shown(QTableView, main_window())
    return {each.accessibleName(): each for each in found if each.accessibleName() in EDITORS}


def headings(table: QTableView) -> list[str]:
    """Return the column headings of a table."""
    model = table.model()
    across = Qt.Orientation.Horizontal
    return [str(model.headerData(n, across) or "") for n in range(model.columnCount())]


def _table(table: QTableView) -> dict[str, Any]:
    model = table.model()
    rows = []
    for row in range(model.rowCount()):
        indexes = [model.index(row, column) for column in range(model.columnCount())]
        rows.append(
            {
                "texts": [str(each.data() or "") for each in indexes],
                "edits": [bool(each.flags() & Qt.ItemFlag.ItemIsEditable) for each in indexes],
            }
        )
    names = headings(table)
    hidden = [name for n, name in enumerate(names) if table.isColumnHidden(n)]
    at = table.currentIndex()
    return {
        "headings": names, "hidden": hidden, "rows": rows, "current": [at.row(), at.column()],
    }  # fmt: skip


def _message() -> dict[str, Any]:
    window = main_window()
    bar = window.findChild(QFrame, "messageBar")
    if bar is None or not bar.isVisibleTo(window):
        return {"text": "", "buttons": []}
    labels = [each.text() for each in shown(QLabel, bar)]
    return {
        "text": " ".join(labels),
        "buttons": [each.text() for each in shown(QAbstractButton, bar) if each.isEnabled()],
    }


def _dialog() -> dict[str, Any] | None:
    dialog = QApplication.activeModalWidget()
    if dialog is None:
        return None
    buttons = [each.text().replace("&", "") for each in shown(QAbstractButton, dialog)]
    return {
        "kind": type(dialog).__name__,
        "title": dialog.windowTitle(),
        "texts": [each.text() for each in shown(QLabel, dialog)],
        "buttons": [each for each in buttons if each],
    }


def _is_busy(window: Any) -> bool:
    """Whether the Recipe box is not open yet, or has work that it has not answered."""
    store = getattr(getattr(window, "autosave", None), "store", None)
    return store is None or bool(getattr(store, "busy", False))


def look(_: dict[str, Any]) -> dict[str, Any]:
    """Return the words and states that the window shows."""
    window = main_window()
    if window is None:
        return {"gone": True}
    pages = [each for each in shown(QAbstractButton, window) if each.objectName() == "pageButton"]
    focus = QApplication.focusWidget()
    return {
        "title": window.windowTitle(),
        "state": window.header.state.text(),
        "message": _message(),
        "dialog": _dialog(),
        "page": next((each.text() for each in pages if each.isChecked()), ""),
        "pages": [each.text() for each in pages],
        "begin": window.begin_page is not None and window.begin_page.isVisibleTo(window),
        "focus": [type(focus).__name__, focus.accessibleName()] if focus is not None else None,
        "active": [str(QApplication.activeWindow()), str(QGuiApplication.focusWindow())],
        "busy": _is_busy(window),
        "undo": window.header.undo.isEnabled(),
        "redo": window.header.redo.isEnabled(),
    }


def page(_: dict[str, Any]) -> dict[str, Any]:
    """Return the editors and fields of the page shown."""
    window = main_window()
    fields = [each for each in shown(QLineEdit, window) if each.accessibleName()]
    return {
        "tables": {name: _table(each) for name, each in tables().items()},
        "fields": {
            each.accessibleName(): each.text()
            for each in fields
            if each.isEnabled() and not each.isReadOnly()
        },
        "buttons": [
            each.text()
            for each in shown(QAbstractButton, window)
            if each.text() and each.isEnabled()
        ],
    }


def document(_: dict[str, Any]) -> dict[str, Any]:
    """Return the recipe that is open, as the text of a file, and where its file is."""
    from designer.library.recipe_file import document_text

    window = main_window()
    if window is None:
        return {"gone": True}
    opened = window.opened
    return {
        "text": document_text(opened.recipe),
        "path": str(opened.path) if opened.path is not None else "",
        "unsaved": opened.unsaved,
    }


def clipboard(_: dict[str, Any]) -> str:
    """Return the text on the clipboard."""
    return QApplication.clipboard().text()


QUESTIONS = {"look": look, "page": page, "document": document, "clipboard": clipboard}
