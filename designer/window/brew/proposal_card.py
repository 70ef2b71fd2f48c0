"""The one proposal that matters now: its reason, both choices, the forecast before and after.

Where there is none the cell stays empty, as large as it was: nothing else moves.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from designer.brewday.predictions import BY_KEY
from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.plain_text import caption
from designer.window.parts.sized_text import grown

if TYPE_CHECKING:
    from collections.abc import Mapping

    from designer.brewday.measured.advice import Proposal
    from designer.brewday.results import Range

MOST_FIGURES = 3
NO_BREAK = "\u00a0"


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
        self.title, self.reason, self.figures = QLabel(), QLabel(), QLabel()
        self.title.setObjectName("proposalTitle")
        for each in (self.title, self.reason, self.figures):
            each.setTextFormat(Qt.TextFormat.PlainText)
            each.setWordWrap(True)
        self.use_button = LargeButton("", "", self._accept).as_primary(times=1.15)
        self.keep_button = LargeButton("", "", self._leave)
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.use_button, 1)
        row.addWidget(self.keep_button, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 8, 14, 8)
        layout.setSpacing(3)
        layout.addWidget(self.title)
        layout.addWidget(self.reason)
        layout.addWidget(self.figures)
        layout.addStretch(1)
        layout.addLayout(row)
        self.show_proposal(None)

    def show_proposal(self, proposal: Proposal | None) -> None:
        """Show another proposal, or none."""
        if proposal is self.proposal and proposal is not None:
            return
        self.proposal = proposal
        self.setObjectName("proposal" if proposal is not None else "noProposal")
        self.style().unpolish(self)
        self.style().polish(self)
        for each in (self.title, self.reason, self.figures, self.use_button, self.keep_button):
            each.setVisible(proposal is not None)
        if proposal is None:
            self.setAccessibleName(tr("Nothing to decide"))
            return
        self.title.setText(str(proposal.title))
        self.reason.setText(str(proposal.reason))
        self.figures.setText(before_and_after(proposal.before, proposal.after, self._display))
        self.use_button.setText(caption(str(proposal.use)))
        self.keep_button.setText(caption(str(proposal.keep)))
        self.setAccessibleName(f"{proposal.title}. {proposal.reason}")

    def sizeHint(self) -> QSize:
        return QSize(round(grown(self, 304)), super().sizeHint().height())

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
