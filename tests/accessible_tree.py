"""What a screen reader cannot tell of a window: its tree walked as it is handed to one.

WAI-ARIA 1.2 (W3C) and WCAG 2.2, 4.1.2: what can have the keyboard has a name and a role, and tells
its states; 1.1.1: a picture has its content in words.
"""

from collections import defaultdict

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QHeaderView,
    QLabel,
    QLineEdit,
    QTableView,
    QWidget,
)

from designer.translation import tr

Role, Text = QAccessible.Role, QAccessible.Text
ROLELESS = {Role.NoRole, Role.Whitespace, Role.Separator, Role.Grip}


def faults(window):
    """Return in sentences what is amiss in the tree of a window or dialog."""
    found = []
    for widget in _seen(window):
        interface = QAccessible.queryAccessibleInterface(widget)
        if interface is None:
            found.append(f"{_of(widget)} is in no tree")
            continue
        name, role = interface.text(Text.Name).strip(), interface.role()
        if interface.state().focusable and _takes_keys(widget):
            if not name:
                found.append(f"{_of(widget)} has no name")
            if role in ROLELESS:
                found.append(f"{_of(widget)} {name!r} has no role")
            found += _untold_states(widget, interface)
        if _is_picture(widget) and not name:
            found.append(f"the picture {_of(widget)} {name!r} does not say what it shows")
        if isinstance(widget, QTableView):
            found += _unnamed_columns(widget)
    return found + _alike(window)


def _seen(window):
    return [
        each
        for each in [window, *window.findChildren(QWidget)]
        if each.isVisible() and not each.objectName().startswith("qt_")
    ]


def _takes_keys(widget):
    by_tab = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    return by_tab and widget.isEnabled() and not widget.isWindow() and widget.focusProxy() is None


def _of(widget):
    at = widget.parentWidget()
    return f"{type(widget).__name__} in {type(at).__name__ if at is not None else None}"


def _untold_states(widget, interface):
    state = interface.state()
    told = interface.text(Text.Name) + interface.text(Text.Description)
    found = []
    if isinstance(widget, QAbstractButton) and widget.isCheckable():
        is_told = state.checkable and bool(state.checked) == widget.isChecked()
        if not is_told:
            found.append(f"{_of(widget)} does not tell whether it is checked")
    if isinstance(widget, QLineEdit):
        if bool(state.readOnly) != widget.isReadOnly():
            found.append(f"{_of(widget)} does not tell that it is to be read only")
        is_told = tr("Not taken: {why}", why="").strip() in told
        if widget.property("refused") and not is_told:
            found.append(f"{_of(widget)} does not tell that it was refused")
    return found


def _is_picture(widget):
    paints = any("paintEvent" in vars(kind) for kind in type(widget).__mro__ if _is_ours(kind))
    controls = (QAbstractButton, QLabel, QAbstractItemView, QAbstractScrollArea, QLineEdit)
    if not paints or isinstance(widget, (*controls, QHeaderView)):
        return False
    if any(each.isVisible() for each in _parts(widget)):
        return False  # it paints the ground of those, or what they say
    return not hasattr(widget, "text") or bool(widget.text())


def _parts(widget):
    return widget.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly)


def _is_ours(kind):
    return kind.__module__.startswith("designer.")


def _unnamed_columns(view):
    model, across = view.model(), Qt.Orientation.Horizontal
    shown = [
        n
        for n in range(model.columnCount())
        if not view.isColumnHidden(n)
        and any(model.index(row, n).data() for row in range(model.rowCount()))
    ]
    return [
        f"column {n} of {_of(view)} has no name"
        for n in shown
        if not model.headerData(n, across)
        and not model.headerData(n, across, Qt.ItemDataRole.AccessibleTextRole)
    ]


def _alike(window):
    named = defaultdict(list)
    for widget in _seen(window):
        if _takes_keys(widget):
            interface = QAccessible.queryAccessibleInterface(widget)
            name = interface.text(Text.Name).strip()
            if name:
                named[widget.parentWidget(), name, interface.role()].append(widget)
    return [
        f"{len(each)} of {_of(each[0])} are called {name!r}"
        for (_, name, _), each in named.items()
        if len(each) > 1
    ]
