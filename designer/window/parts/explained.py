"""Labels explain their trade terms on demand: under the pointer, by Shift+F1, to a screen reader.

One filter on the window serves all labels, for Qt hands a question for a tip or for "what is this"
up to the window where no widget on the way has an answer. The terms are found in what a label says
at that moment; nothing is read, searched or kept before somebody asks.
"""

from __future__ import annotations

import re

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QAccessible, QHelpEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QGroupBox,
    QHeaderView,
    QLabel,
    QToolTip,
    QWhatsThis,
    QWidget,
)

from designer.library.glossary import Term, explained, headed, terms_in
from designer.translation import message, tr
from designer.window.parts.hint import hint_of
from designer.window.parts.plain_text import as_signs

NOTHING = message("Nothing here is a term of the glossary; Help, Glossary has them all.")
_TAG = re.compile(r"<[^<>]*>")


class Explainer(QObject):
    """Answers for a whole window what the terms on its labels mean."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        window.installEventFilter(self)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._describe)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind in (QEvent.Type.ToolTip, QEvent.Type.WhatsThis, QEvent.Type.QueryWhatsThis):
            return isinstance(event, QHelpEvent) and self._answered(event)
        return False

    def explain_focus(self) -> None:
        """Explain the terms of the field, button or column that has the keyboard."""
        explain(self._window.focusWidget() or self._window)

    def _answered(self, event: QHelpEvent) -> bool:
        widget = self._window.childAt(self._window.mapFromGlobal(event.globalPos()))
        if widget is None:
            return False
        at = widget.mapFromGlobal(event.globalPos())
        if event.type() is QEvent.Type.ToolTip:
            hint, found = hint_of(widget), terms_of(widget, at)
            if hint or found:
                QToolTip.showText(event.globalPos(), _behind(hint, found), widget)
            return bool(hint or found)
        found = _asked_of(widget, at)
        event.setAccepted(bool(found))
        if found and event.type() is QEvent.Type.WhatsThis:
            QWhatsThis.showText(event.globalPos(), as_rich(found), widget)
        return bool(found)

    def _describe(self, _before: QWidget | None, widget: QWidget | None) -> None:
        """Let a screen reader read the meanings behind what a widget says of itself."""
        if widget is None or not QAccessible.isActive() or widget.window() is not self._window:
            return
        told, said = explained(_asked_of(widget)), widget.accessibleDescription()
        if told and told not in said:
            widget.setAccessibleDescription(f"{said}\n{told}".strip())


def explain(widget: QWidget) -> None:
    """Explain beside a widget the terms of what it says, or of what is around it."""
    found = _asked_of(widget)
    text = as_rich(found) if found else as_signs(tr(NOTHING))
    QWhatsThis.showText(widget.mapToGlobal(QPoint(8, widget.height())), text, widget)


def terms_of(widget: QWidget, at: QPoint | None = None) -> tuple[Term, ...]:
    """Return the terms that stand on a label, button, heading or column header, and no other."""
    header = _header_of(widget)
    if header is not None:
        return terms_in(_heading(header, header.logicalIndexAt(at or QPoint(0, 0))))
    if isinstance(widget, QLabel | QAbstractButton):
        return terms_in(_plain(widget.text()) or _on_card(widget) or widget.accessibleName())
    if isinstance(widget, QGroupBox):
        return terms_in(_plain(widget.title()))
    return ()


def _on_card(widget: QWidget) -> str:
    """What stands on a button that is a card of labels, through which the pointer goes."""
    if not isinstance(widget, QAbstractButton):
        return ""
    shown = [each for each in widget.findChildren(QLabel) if not each.isHidden()]
    return " · ".join(_plain(each.text()) for each in shown)


def _asked_of(widget: QWidget, at: QPoint | None = None) -> tuple[Term, ...]:
    """Return the terms of what is asked about, or of the nearest thing around it that has some."""
    asked: QWidget | None = widget
    while asked is not None and not asked.isWindow():
        found = terms_of(asked, at) or terms_in(_of_field(asked))
        if found:
            return found
        asked, at = asked.parentWidget(), None
    return ()


def _of_field(widget: QWidget) -> str:
    """What stands beside a field, at the head of a table's column, and what a widget is called."""
    said = [_plain(label.text()) for label in _labels_of(widget)]
    if isinstance(widget, QAbstractItemView) and not isinstance(widget, QHeaderView):
        said.append(_of_column(widget))
    return " · ".join([*said, widget.accessibleName()])


def _labels_of(widget: QWidget) -> list[QLabel]:
    labels = widget.window().findChildren(QLabel)
    return [each for each in labels if each.buddy() is widget and not each.isHidden()]


def _of_column(view: QAbstractItemView) -> str:
    index = view.currentIndex()
    if not index.isValid():
        return ""
    across, role = Qt.Orientation.Horizontal, Qt.ItemDataRole.DisplayRole
    return str(index.model().headerData(index.column(), across, role) or "")


def _header_of(widget: QWidget) -> QHeaderView | None:
    for each in (widget, widget.parentWidget()):
        if isinstance(each, QHeaderView):
            return each
    return None


def _heading(header: QHeaderView, section: int) -> str:
    if section < 0 or header.model() is None:
        return ""
    text = header.model().headerData(section, header.orientation(), Qt.ItemDataRole.DisplayRole)
    return str(text or "")


def with_meaning(tip: str, heading: str) -> str:
    """Return the tip of a heading with the meanings of its terms behind it; as rich text."""
    return _behind(tip, terms_in(heading))


def _behind(tip: str, found: tuple[Term, ...]) -> str:
    return f"<p>{as_signs(tip)}</p>{as_rich(found)}" if tip and found else tip or as_rich(found)


def as_rich(found: tuple[Term, ...]) -> str:
    """Return terms and meanings as rich text, which breaks its lines by itself."""
    return "".join(
        f"<p><b>{as_signs(headed(each))}</b><br>{as_signs(tr(each.meaning))}</p>" for each in found
    )


def _plain(text: str) -> str:
    """A text without its tags, and without the marks of keys."""
    from html import unescape  # names of signs by the thousand: not loaded before they are asked

    return unescape(_TAG.sub(" ", text)).replace("&", "")
