"""Tab goes round within what lies over a page: nobody sees what is below it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget

from designer.window.parts.reading_order import stops
from designer.window.parts.scrolling import bring_keyboard_into_view


def go_round(card: QWidget, *, forward: bool) -> None:
    """Give the keyboard to the next thing on a card, after its last to its first."""
    there = _stops(card)
    if not there:
        return
    focus = QApplication.focusWidget()
    at = there.index(focus) if focus in there else -1 if forward else 0
    reason = Qt.FocusReason.TabFocusReason if forward else Qt.FocusReason.BacktabFocusReason
    there[(at + (1 if forward else -1)) % len(there)].setFocus(reason)
    bring_keyboard_into_view()


def _stops(card: QWidget) -> list[QWidget]:
    """What Tab goes to, as it is read; what no layout holds comes last.

    Not by Qt's own chain: PySide takes whatever `nextInFocusChain` returns for a part of the card,
    and what is not part of it could not be used any more once the card is gone.
    """
    return [
        each
        for each in dict.fromkeys((*stops(card), *card.findChildren(QWidget)))
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isEnabled() and each.isVisible()
    ]
