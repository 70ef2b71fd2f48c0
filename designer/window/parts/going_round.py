"""Tab goes round within what lies over a page: nobody sees what is below it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QWidget


def go_round(card: QWidget, *, forward: bool) -> None:
    """Give the keyboard to the next thing on a card, after its last to its first."""
    stops = _stops(card)
    if not stops:
        return
    focus = QApplication.focusWidget()
    at = stops.index(focus) if focus in stops else -1 if forward else 0
    reason = Qt.FocusReason.TabFocusReason if forward else Qt.FocusReason.BacktabFocusReason
    stops[(at + (1 if forward else -1)) % len(stops)].setFocus(reason)


def _stops(card: QWidget) -> list[QWidget]:
    """What Tab goes to, in the order in which it was put on the card.

    Not by Qt's own chain: PySide takes whatever `nextInFocusChain` returns for a part of the card,
    and what is not part of it could not be used any more once the card is gone.
    """
    return [
        each
        for each in card.findChildren(QWidget)
        if each.focusPolicy() & Qt.FocusPolicy.TabFocus and each.isEnabled() and each.isVisible()
    ]
