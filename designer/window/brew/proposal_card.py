"""The one proposal that matters now: its reason, both choices, the forecast before and after.

Where there is none the cell stays empty, as large as it was: nothing else moves. Its words take the
largest type in which all of them have room.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QSizePolicy, QWidget

from designer.brewday.predictions import BY_KEY
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.plain_text import caption
from designer.window.parts.sized_text import SizedText, grown, steps_down

if TYPE_CHECKING:
    from collections.abc import Mapping

    from designer.brewday.measured.advice import Proposal
    from designer.brewday.results import Range

MOST_FIGURES = 3
NO_BREAK = "\u00a0"
TITLE, USUAL_PX, LEAST_PX = 1.2, 12.5, 8.5
"""Size of the title in sizes of the rest, and between which sizes that is."""
PAD, OVER, BETWEEN = 12, 6, 2


class ProposalCard(QFrame):
    """Shows a proposal; `accepted` and `left` carry it."""

    accepted = Signal(object)
    left = Signal(object)

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self.proposal: Proposal | None = None
        self.setObjectName("noProposal")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)
        self.title = SizedText(bold=True, wraps=True, parent=self)
        self.reason = SizedText(wraps=True, parent=self)
        self.figures = SizedText(wraps=True, parent=self)
        self.use_button = LargeButton("", "", self._accept).as_primary(times=1.15)
        self.keep_button = LargeButton("", "", self._leave)
        for each in (self.use_button, self.keep_button):
            each.setParent(self)
        self._words = (self.title, self.reason, self.figures)
        self.show_proposal(None)

    def show_proposal(self, proposal: Proposal | None) -> None:
        """Show another proposal, or none."""
        if proposal is self.proposal and proposal is not None:
            return
        self.proposal = proposal
        self.setObjectName("proposal" if proposal is not None else "noProposal")
        self.style().unpolish(self)
        self.style().polish(self)
        for each in (*self._words, self.use_button, self.keep_button):
            each.setVisible(proposal is not None)
        if proposal is None:
            self.setAccessibleName(tr("Nothing to decide"))
            return
        title, reason, use, keep = (
            each.said(self._display.short, self._display.quantity)
            for each in (proposal.title, proposal.reason, proposal.use, proposal.keep)
        )
        self.title.say(title)
        self.reason.say(reason)
        self.figures.say(before_and_after(proposal.before, proposal.after, self._display))
        self.use_button.setText(caption(use))
        self.keep_button.setText(caption(keep))
        self.setAccessibleName(". ".join((self.title.text(), self.reason.text())))
        self._arrange()

    def sizeHint(self) -> QSize:
        return QSize(round(grown(self, 304)), 120)

    def is_whole(self) -> bool:
        """Whether all of it has room."""
        return self.proposal is None or all(each.is_whole() for each in self._words)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange and hasattr(self, "_words"):
            self._arrange()

    def _arrange(self) -> None:
        """Set words and buttons into their places."""
        wide = self.width() - 2 * PAD
        if self.proposal is None or wide < 40:
            return
        buttons = (self.use_button, self.keep_button)
        high = max(each.sizeHint().height() for each in buttons)
        top = self.height() - OVER - high
        stacked = sum(each.sizeHint().width() for each in buttons) + 8 > wide
        if stacked:  # long words of two choices: one above the other
            top -= high + 4
        for number, each in enumerate(buttons):
            half = (wide - 8) // 2
            x, y = (0, number * (high + 4)) if stacked else (number * (half + 8), 0)
            each.setGeometry(PAD + x, top + y, wide if stacked else half, high)
        room = top - BETWEEN - OVER
        for pixels in steps_down(grown(self, USUAL_PX), grown(self, LEAST_PX)):
            heights = self._heights(wide, pixels)
            if sum(heights) + 2 * BETWEEN <= room:
                break
        self._set_down(wide, pixels, heights)

    def _heights(self, wide: int, pixels: float) -> list[float]:
        sizes = (TITLE * pixels, pixels, pixels)
        return [e.wanted_height(wide, size) for e, size in zip(self._words, sizes, strict=True)]

    def _set_down(self, wide: int, pixels: float, heights: list[float]) -> None:
        y = float(OVER)
        for number, (each, high) in enumerate(zip(self._words, heights, strict=True)):
            each.set_pixels(pixels if number else TITLE * pixels)
            each.setGeometry(PAD, round(y), wide, round(high) + 1)
            y += high + BETWEEN

    def _accept(self) -> None:
        if self.proposal is not None:
            self.accepted.emit(self.proposal)

    def _leave(self) -> None:
        if self.proposal is not None:
            self.left.emit(self.proposal)


def before_and_after(
    before: Mapping[str, Range], after: Mapping[str, Range], display: DisplayFormat
) -> str:
    """Return the forecasts that a proposal changes, before it and after: OG 1.047 → 1.046."""
    told = []
    for key in before:
        if key not in after or key not in BY_KEY or BY_KEY[key].behind:
            continue
        was = figure(key, before[key].value, display, unit=False)
        then = figure(key, after[key].value, display)
        if was != figure(key, after[key].value, display, unit=False):
            name = tr(BY_KEY[key].heading)
            line = tr("{forecast} {before} → {after}", forecast=name, before=was, after=then)
            told.append(line.replace(" ", NO_BREAK))
    return " · ".join(told[:MOST_FIGURES])
