"""What can be done just now to what has the keyboard: cut, copy, paste, move ...

The Edit menu and the menus under the pointer ask it. A widget of ours says it by `deeds()`; of Qt's
own fields, labels and tables it is known here. The keys stay with the widget in any case.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import partial
from typing import Protocol, runtime_checkable

from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)

from designer.translation import tr
from designer.window.parts.menu_drawings import drawn_when_opened, wear
from designer.workbench import keys
from designer.workbench.keys import MenuKey, key_said

Deeds = Mapping[MenuKey, Callable[[], object]]


@runtime_checkable
class HasDeeds(Protocol):
    """A widget that says what can be done to what is chosen in it."""

    def deeds(self) -> Deeds:
        """Return what can be done just now, and what does it."""


def deeds_of(widget: QWidget | None) -> Deeds:
    """Return what can be done just now to a widget, and what does it; nothing to most."""
    if widget is None:
        return {}
    if isinstance(widget, HasDeeds):
        return widget.deeds()
    if isinstance(widget, QAbstractSpinBox):
        return _of_line(widget.lineEdit())
    if isinstance(widget, QComboBox):
        return deeds_of(widget.lineEdit())
    if isinstance(widget, QLineEdit):
        return _of_line(widget)
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        return _of_text(widget)
    if isinstance(widget, QLabel):
        return _of_label(widget)
    if isinstance(widget, QAbstractItemView):
        return of_table(widget)
    return {}


def on_clipboard(*formats: str) -> bool:
    """Whether there is text on the clipboard, or something in one of these formats."""
    mime: QMimeData | None = QGuiApplication.clipboard().mimeData()
    return mime is not None and (mime.hasText() or any(map(mime.hasFormat, formats)))


def _of_line(line: QLineEdit) -> Deeds:
    found: dict[MenuKey, Callable[[], object]] = {}
    may_type, is_marked = not line.isReadOnly() and line.isEnabled(), line.hasSelectedText()
    if is_marked:
        found[keys.COPY] = line.copy
    if is_marked and may_type:
        found |= {keys.CUT: line.cut, keys.DELETE: line.del_}
    if may_type and on_clipboard():
        found[keys.PASTE] = line.paste
    if line.text():
        found[keys.SELECT_ALL] = line.selectAll
    return found


def _of_text(text: QPlainTextEdit | QTextEdit) -> Deeds:
    found: dict[MenuKey, Callable[[], object]] = {}
    is_marked = text.textCursor().hasSelection()
    if is_marked:
        found[keys.COPY] = text.copy
    if is_marked and not text.isReadOnly():
        found |= {keys.CUT: text.cut, keys.DELETE: lambda: text.textCursor().removeSelectedText()}
    if not text.isReadOnly() and text.canPaste():
        found[keys.PASTE] = text.paste
    if not text.document().isEmpty():
        found[keys.SELECT_ALL] = text.selectAll
    return found


def _of_label(label: QLabel) -> Deeds:
    if not label.textInteractionFlags() & Qt.TextInteractionFlag.TextSelectableByMouse:
        return {}
    found: dict[MenuKey, Callable[[], object]] = {}
    if label.hasSelectedText():
        found[keys.COPY] = lambda: QGuiApplication.clipboard().setText(label.selectedText())
    found[keys.SELECT_ALL] = lambda: label.setSelection(0, len(label.text()))
    return found


def of_table(view: QAbstractItemView) -> dict[MenuKey, Callable[[], object]]:
    """Return what any table or list can do: copy the text of the cell, choose all, edit."""
    found: dict[MenuKey, Callable[[], object]] = {}
    index = view.currentIndex()
    text = index.data(Qt.ItemDataRole.DisplayRole) if index.isValid() else None
    if text:
        found[keys.COPY] = lambda: QGuiApplication.clipboard().setText(str(text))
    modes = QAbstractItemView.SelectionMode
    if view.selectionMode() not in (modes.SingleSelection, modes.NoSelection):
        found[keys.SELECT_ALL] = view.selectAll
    return found


def add_deeds(menu: QMenu, deeds: Deeds, wanted: Iterable[MenuKey]) -> list[QAction]:
    """Add entries for deeds to a menu, with their keys; one that would do nothing is off."""
    added = []
    for entry in wanted:
        action = add_entry(menu, entry, deeds.get(entry, _nothing))
        action.setEnabled(entry in deeds)
        added.append(action)
    return added


def add_entry(
    menu: QMenu, entry: MenuKey | str, act: Callable[[], object], drawing: str = ""
) -> QAction:
    """Add an entry to a menu under the pointer; a key is shown behind a tab, and has no hold."""
    if isinstance(entry, MenuKey):
        action = menu.addAction(f"{tr(entry.text)}\t{key_said(entry.keys[0])}")
        drawing = entry.drawing
    else:
        action = menu.addAction(entry)
    action.triggered.connect(partial(_do, act))
    wear(action, drawing)
    return action


def _nothing() -> None:
    """What is off does nothing."""


def _do(act: Callable[[], object], _checked: bool = False) -> None:
    act()


def menu_under(widget: QWidget) -> QMenu:
    """Return an empty menu for under the pointer; it goes when it closes."""
    menu = QMenu(widget)
    menu.setToolTipsVisible(True)
    drawn_when_opened(menu)
    return menu


def open_menu(menu: QMenu, at: QPoint) -> None:
    """Open a menu at a place of the screen, if anything is in it."""
    if menu.isEmpty():
        menu.deleteLater()
        return
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    menu.popup(at)
