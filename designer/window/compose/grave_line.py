"""The gravest finding in one line that stays in sight while its card is scrolled away.

It stands at the foot of the column in which Watch out is; pressed, it leads to the card.
"""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from designer.brewday.results import Finding
from designer.recipe.severity import Severity
from designer.translation import trn
from designer.window.compose.watch_out import FindingCard, WatchOut
from designer.window.parts.eliding import ElidedButton
from designer.window.parts.plain_text import caption
from designer.window.parts.scrolling import bring_into_view


class GraveLine(ElidedButton):
    """Shows itself while what stops a brewer is said where nobody sees it."""

    def __init__(self, watch_out: WatchOut, area: QScrollArea, parent: QWidget) -> None:
        super().__init__("", parent)
        self._watch_out, self._area, self._column = watch_out, area, parent
        self._said = ""
        self.setObjectName("grave")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.clicked.connect(self.lead)
        self.hide()
        area.verticalScrollBar().valueChanged.connect(self.look)
        area.verticalScrollBar().rangeChanged.connect(self.look)
        parent.installEventFilter(self)

    def card(self) -> FindingCard | None:
        """Return the card of the gravest finding that stops; findings stand worst first."""
        shown = self._watch_out.findings
        is_grave = bool(shown) and shown[0].severity is Severity.STOP
        return self._watch_out.cards[0] if is_grave else None

    def look(self, *_moved: int) -> None:
        """Show itself if the card is out of sight, hide if it is in sight or there is none."""
        card = self.card()
        if card is None:
            self.setVisible(False)
            return
        said = _line(card.accessibleName(), self._watch_out.findings)
        if said != self._said:
            self._said = said
            self.setText(caption(said))
            self.setAccessibleName(said)
        self.setVisible(not self._is_seen(card))

    def _is_seen(self, card: FindingCard) -> bool:
        """Whether the head of the card is in what is left of the column beside this line."""
        top = card.mapTo(self._column, QPoint()).y() - self._area.y()
        column = self._column.height() - self.sizeHint().height()
        needed = min(card.height(), 3 * self.fontMetrics().height())
        return top >= 0 and top + needed <= column

    def lead(self) -> None:
        """Bring the card into sight, and give the keyboard to its first way out."""
        card = self.card()
        if card is None:
            return
        bring_into_view(card)
        ways = (card.cure, card.ways, card.where)
        way = next((each for each in ways if each is not None and each.isVisible()), None)
        if way is not None:
            way.setFocus(Qt.FocusReason.OtherFocusReason)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Show):
            self.look()
        return super().eventFilter(watched, event)


def _line(said: str, findings: tuple[Finding, ...]) -> str:
    """Return what is said of the first finding, and how many more there are as grave."""
    more = sum(each.severity is Severity.STOP for each in findings) - 1
    if more < 1:
        return said
    return trn("{said} (and {number} more)", "{said} (and {number} more)", more, said=said)
