"""Words that have less room than they need, among all that a window shows."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QRadioButton,
    QToolButton,
)

from designer.window.parts.eliding import ElidedButton, ElidedLabel
from designer.window.parts.icons import Choice

_BUTTONS = (QPushButton, QToolButton, QCheckBox, QRadioButton)


def cut_words(window):
    """Return the words of buttons, labels, boxes and empty fields that are cut, with their room."""
    found = []
    for kind in (QAbstractButton, QLabel, QComboBox, QLineEdit):
        for each in window.findChildren(kind):
            if each.isVisible() and not isinstance(each, (ElidedButton, ElidedLabel)):
                found += _cut(each)
    return found


def _cut(each):
    if isinstance(each, Choice):
        shown = each.shown_text()  # which ends in a sign, and is told whole in a tip
        return _where(each, shown, each.width() - 18) if len(shown) < 3 else []
    if isinstance(each, QComboBox):
        return _where(each, each.currentText(), each.width() - 24)
    if isinstance(each, QLineEdit):
        shown = each.text() or each.placeholderText()
        short = each.isReadOnly() or not each.text()
        return _where(each, shown, each.width() - 6) if short and not each.toolTip() else []
    if isinstance(each, QLabel):
        return _cut_label(each)
    return _where(each, each.text(), each.width()) if isinstance(each, _BUTTONS) else []


def _cut_label(label):
    if not label.text() or label.textFormat() is Qt.TextFormat.RichText or "<" in label.text():
        return []
    if label.wordWrap():
        room = label.contentsRect()
        needs = label.heightForWidth(label.width())
        if room.width() > 0 and needs > label.height() + 2 and _is_seen(label):
            return [(type(label).__name__, label.text(), label.size().toTuple(), needs)]
        longest = max(label.text().split(), key=label.fontMetrics().horizontalAdvance, default="")
        return _where(label, longest, room.width())
    return [
        each
        for line in label.text().split("\n")
        for each in _where(label, line, label.contentsRect().width())
    ]


def _where(widget, text, room):
    needs = widget.fontMetrics().horizontalAdvance(text.replace("&", ""))
    seen = widget.visibleRegion().boundingRect()  # empty where it is scrolled away
    if text and (room < needs or 0 < seen.width() < min(needs, widget.width())):
        return [(type(widget).__name__, text, widget.width(), needs)]
    return []


def _is_seen(widget):
    return widget.visibleRegion().boundingRect().size() != QSize(0, 0)
