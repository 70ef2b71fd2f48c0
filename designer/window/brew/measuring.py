"""The strip of blanks, the proposal at its right: what is typed becomes a reading of the log."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QSizePolicy, QWidget

from designer.translation import tr
from designer.window.brew.doubt_panel import DoubtPanel
from designer.window.brew.number_pad import NumberPad
from designer.window.brew.proposal_card import ProposalCard
from designer.window.brew.strip import Strip
from designer.window.brew.strip_cells import (
    Cell,
    blanks_of,
    cells_of,
    figures_of,
    further_blanks,
)
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.plain_text import caption
from designer.window.parts.sized_text import grown
from designer.window.session.open_brew import OpenBrew
from designer.workbench.brew.blank_places import Place, place_of

if TYPE_CHECKING:
    from designer.brewday.measured.readings import Reading
    from designer.brewday.results import Outlook
    from designer.sheet.stove import StoveStep
    from designer.workbench.brew.brewing import Brewing

USUAL_PX, LOW_PX = 158, 136
"""Height with a heading and without."""
SHARE, LEAST_PX, MOST_SHARE = 0.26, 340, 0.38
"""How much of the width the proposal has, at least so many pixels, but never more than that."""


class Measuring(QFrame):
    """Strip and proposal; `done` tells that the keyboard is to go back to the step."""

    done = Signal()
    explain_wanted = Signal(str)
    """Carries an original gravity as it was typed, of which it is asked what lies behind it."""

    def __init__(self, brew: OpenBrew, display: DisplayFormat, page: QWidget) -> None:
        super().__init__()
        self.setObjectName("card")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._brew, self._display = brew, display
        self._planned: tuple[Outlook | None, dict[Place, float]] = (None, {})
        self._asked: Cell | None = None
        self._wanted: list[Place] = []
        self._is_low = False
        self.strip = Strip(self._take)
        self.proposal = ProposalCard(display)
        self.pad = NumberPad(page, decimal_sign="," if display.settings.decimal_comma else ".")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 10, 0)
        row.setSpacing(10)
        row.addWidget(self.strip, 1)
        aside = QHBoxLayout()
        aside.setContentsMargins(0, 6, 0, 6)
        aside.addWidget(self.proposal)
        row.addLayout(aside)
        self.doubt = DoubtPanel(self.strip, display)
        self._connect()

    def _connect(self) -> None:
        self.strip.done.connect(self._leave_field)
        self.strip.typing.connect(lambda cell, text: self._brew.try_out(cell.blank, text))
        self.strip.tapped.connect(self.pad.open_for)
        self.strip.more_wanted.connect(self._offer_more)
        self.proposal.accepted.connect(self._brew.accept)
        self.proposal.left.connect(self._brew.keep)
        self.doubt.meant.connect(self._take_meant)
        self.doubt.anyway.connect(self._take_anyway)
        self.doubt.again.connect(self._type_again)
        self.doubt.explain.connect(self._explain)

    # what is shown

    def show_brew(self, brewing: Brewing) -> None:
        """Show a brew as it stands."""
        seen = self._brew.seen
        steps = brewing.steps if seen is None else seen.steps
        cells = cells_of(steps, self._figures(), brewing, self._display, self._wanted)
        self.strip.show_cells(cells, next_blank(cells, brewing))
        proposals = self._brew.proposals
        self.proposal.show_proposal(proposals[0] if proposals else None)
        self.strip.setEnabled(True)

    def show_plan(self, steps: tuple[StoveStep, ...]) -> None:
        """Show a day that has not begun: nothing can be typed yet."""
        cells = cells_of(steps, figures_of(steps), None, self._display)
        self.strip.show_cells(cells, None)
        self.proposal.show_proposal(None)
        self.strip.setEnabled(False)

    def _figures(self) -> dict[Place, float]:
        """The figures of the plan; worked out anew only where the plan is another."""
        outlook, recipe = self._brew.outlook_planned, self._brew.recipe
        if outlook is not self._planned[0] and outlook is not None and recipe is not None:
            from designer.sheet.stove import stove_steps

            units = self._display.settings.units
            steps = stove_steps(recipe, outlook, shown=units, start=None, brew_date=None)
            self._planned = outlook, figures_of(steps)
        return self._planned[1]

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = max(SHARE * self.width(), grown(self, LEAST_PX))
        self.proposal.setFixedWidth(round(min(wide, MOST_SHARE * self.width())))

    def hasHeightForWidth(self) -> bool:
        return False  # the page counts on one height, however the words of a proposal wrap

    def sizeHint(self) -> QSize:
        high = self.strip.wanted_height() + 18
        return QSize(1240, max(high, round(grown(self, LOW_PX if self._is_low else USUAL_PX))))

    def minimumSizeHint(self) -> QSize:
        return QSize(300, self.sizeHint().height())

    def be_low(self, low: bool) -> None:
        """Do without a heading where the page is low."""
        self._is_low = low
        self.strip.heading.setVisible(not low)
        self.updateGeometry()

    # what no step asks for

    def _offer_more(self) -> None:
        """Offer what else can be measured, the step now and what comes after it first."""
        brewing = self._brew.brewing
        if brewing is None:
            return
        keys = [each.key for each in brewing.steps]
        here = keys.index(brewing.now.key) if brewing.now is not None else 0
        found = list(further_blanks(brewing.steps))
        found.sort(key=lambda each: keys.index(each[0].key) < here)
        self.more = QMenu(self)
        self.more.setObjectName("largeMenu")
        for step, blank in found:
            told = tr("{blank}: {step}", blank=blank.label, step=step.title or step.name)
            action = self.more.addAction(caption(told))
            action.triggered.connect(partial(self._want, place_of(blank)))
        button = self.strip.more_button
        self.more.popup(button.mapToGlobal(button.rect().bottomLeft()))

    def _want(self, place: Place, _checked: bool = False) -> None:
        """Have a blank for it, and go there."""
        if place not in self._wanted:
            self._wanted.append(place)
        if self._brew.brewing is not None:
            self.show_brew(self._brew.brewing)
        self.strip.go_to(place)

    # what is typed

    def _take(self, cell: Cell, text: str) -> bool:
        is_taken = self._brew.measure(cell.blank, text)
        if not is_taken and self._brew.doubtful is not None:
            self._asked = cell
            self.pad.put_away()
            self.doubt.ask(cell.whole, self._brew.doubtful)
        return is_taken

    def _take_meant(self, reading: Reading) -> None:
        self._settle()
        self._brew.measure_meant(reading)

    def _take_anyway(self) -> None:
        self._settle()
        self._brew.measure_anyway()

    def _settle(self) -> None:
        """The question is answered: the blank shows what is taken."""
        self.doubt.hide()
        if self._asked is not None:
            self.strip.forget_typed(self._asked.place)
        self._asked = None
        self._leave_field()

    def _explain(self) -> None:
        """Hand what was typed on to the part that explains readings; it is not taken here."""
        cell = self.strip.cells.get(self._asked.place) if self._asked is not None else None
        typed = cell.field.text() if cell is not None else ""
        self._brew.forget_doubt()
        self._settle()
        self.explain_wanted.emit(typed)

    def _type_again(self) -> None:
        asked, self._asked = self._asked, None
        self.doubt.hide()
        self._brew.forget_doubt()
        cell = self.strip.cells.get(asked.place) if asked is not None else None
        if cell is not None:
            cell.field.setFocus(Qt.FocusReason.OtherFocusReason)
            cell.field.selectAll()

    def _leave_field(self) -> None:
        self.pad.put_away()
        self.done.emit()

    def take_typed(self) -> bool:
        """Take what is typed in a blank; False where it has to be mended, or is asked about."""
        if self.doubt.isVisible():
            return False
        untaken = self.strip.untaken()
        return untaken is None or self.strip.take_typed(untaken)


def next_blank(cells: tuple[Cell, ...], brewing: Brewing) -> Place | None:
    """Return the blank to fill in next: of the step now or one after it, without a reading."""
    keys = [each.key for each in brewing.steps]
    here = keys.index(brewing.now.key) if brewing.now is not None else len(keys)
    own = {place_of(blank) for _, blank in blanks_of(brewing.steps)}
    ahead = [
        each
        for each in cells
        if not each.is_measured and each.place in own and keys.index(each.step) >= here
    ]
    return ahead[0].place if ahead else None
