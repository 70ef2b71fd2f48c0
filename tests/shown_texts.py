"""Everything that a window shows or reads aloud, each with the room whose widget says it."""

from PySide6.QtCore import QAbstractListModel, QModelIndex, Qt
from PySide6.QtGui import QAccessible, QAction
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)

from designer.window.sheet.paper_view import PagesView

MOST_ROWS = 30
_GETTERS = (
    "text", "title", "toolTip", "accessibleName", "accessibleDescription", "placeholderText",
    "windowTitle", "statusTip", "whatsThis", "informativeText",
)  # fmt: skip
_ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)
_TYPED_IN = (QLineEdit, QTextEdit, QPlainTextEdit)
"""What stands in these is a brewer's own."""


def shown_texts(window):
    """Return all texts of a window and what lies in it, as pairs of a room and a text."""
    found = set()
    for widget in [window, *window.findChildren(QWidget)]:
        if widget.objectName().startswith("qt_") or isinstance(widget, PagesView):
            continue  # parts of Qt's own; and the sheet, which has a language of its own
        room = room_of(widget)
        found |= {(room, text) for text in (*_own(widget), *_of_actions(widget)) if text}
        if isinstance(widget, QComboBox):
            found |= {(room, widget.itemText(row)) for row in range(widget.count())}
        if isinstance(widget, QAbstractItemView) and widget.model() is not None:
            found |= {(room, text) for text in _cells(widget.model())}
    return found


def room_of(widget):
    """Return the folder of the window that a widget belongs to; "window" for what lies in none.

    What is from `parts` belongs to whoever uses it.
    """
    while widget is not None:
        module = type(widget).__module__
        if module.startswith("designer.window.") and ".parts." not in module:
            folders = module.split(".")[2:-1]
            return folders[0] if folders else "window"
        widget = widget.parent()
    return "window"


def _own(widget):
    for name in _GETTERS:
        getter = getattr(widget, name, None)
        if callable(getter) and not (name == "text" and isinstance(widget, _TYPED_IN)):
            try:
                text = getter()
            except TypeError:  # a text of something in it, not its own
                continue
            if isinstance(text, str):
                yield text
    interface = QAccessible.queryAccessibleInterface(widget)
    if interface is not None:
        yield interface.text(QAccessible.Text.Name)
        yield interface.text(QAccessible.Text.Description)


def _of_actions(widget):
    actions = widget.actions() if isinstance(widget, QMenu) else widget.findChildren(
        QAction, options=Qt.FindChildOption.FindDirectChildrenOnly
    )  # fmt: skip
    for action in actions:
        yield action.text()
        if action.toolTip() != action.text().replace("&", ""):
            yield action.toolTip()


def _cells(model):
    is_list = isinstance(model, QAbstractListModel)  # which does not tell how many columns
    columns = range(1 if is_list else model.columnCount())
    for column in columns:
        yield from _text(model.headerData(column, Qt.Orientation.Horizontal))
    for row in range(min(model.rowCount(QModelIndex()), MOST_ROWS)):
        for column in columns:
            for role in _ROLES:
                yield from _text(model.data(model.index(row, column), role))


def _text(found):
    return [found] if isinstance(found, str) and found else []
