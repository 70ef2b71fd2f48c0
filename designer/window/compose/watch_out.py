"""Watch out: the findings, worst first, each with the edit that cures it as one click.

A vessel that is too small leads to the page with the ways to brew it there.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QContextMenuEvent, QGuiApplication, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QLabel,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.results import Finding
from designer.recipe.document import PLAN_TYPES
from designer.recipe.edits import Edit
from designer.recipe.severity import Severity
from designer.translation import message, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.laid_out_once import laid_out_once
from designer.window.parts.lead_label import LeadLabel
from designer.window.parts.plain_text import caption
from designer.window.parts.wrapped_button import WrappedButton
from designer.workbench.keys import COPY

WORDS = {
    Severity.STOP: message("Stop:"),
    Severity.CARE: message("Take care:"),
    Severity.NOTE: message("Worth knowing:"),
}
SHOW = {
    "boils": message("Show boil {number}"),
    "fermenters": message("Show fermenter {number}"),
}
LEADS_TO = {
    "fit": message("Ways to brew it here"),
    "styles": message("The nearest styles"),
}
"""The way to other cures, by what a finding names."""
BAR = 4


class FindingCard(QFrame):
    """One finding: a bar and a word for how grave it is, the message, the cures."""

    cure_wanted = Signal(object)
    place_wanted = Signal(object)
    page_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self._finding: Finding | None = None
        self._said = ""
        self.message = LeadLabel()
        self.cure = _button()
        self.cure.clicked.connect(self._press)
        self.ways: QPushButton | None = None
        self.where: QPushButton | None = None
        layout = QVBoxLayout(self)
        layout.setContentsMargins(BAR + 9, 5, 8, 5)
        layout.setSpacing(0)
        layout.addWidget(self.message)
        layout.addWidget(self.cure)

    def show_finding(self, finding: Finding, display: DisplayFormat) -> None:
        """Show another finding; what reads as before is not laid out anew at each key."""
        self._finding = finding
        lead = tr(WORDS[finding.severity])
        words = finding.message.said(display.rounded, display.quantity)
        said = f"{lead} {words}"
        if said != self._said:
            self._said = said
            self.message.say(lead, words)
            self.setAccessibleName(said)
            self.update()
        offer = finding.offer
        cure = offer.said(display.rounded, display.quantity) if offer is not None else ""
        if caption(cure) != self.cure.text():
            self.cure.setText(caption(cure))
        spoken = tr("{cure}. Cures: {finding}", cure=cure, finding=said) if cure else ""
        if spoken != self.cure.accessibleName():
            self.cure.setAccessibleName(spoken)
        if self.cure.isHidden() == bool(cure):
            self.cure.setVisible(bool(cure))
        self._show_ways(said)
        self._show_where(said)

    def _show_where(self, said: str) -> None:
        """Show the way to the boil or fermenter of the plan that it is about."""
        about = self._finding.about if self._finding is not None else None
        if about is not None and about.of in PLAN_TYPES and about.line is not None:
            if self.where is None:
                self.where = _button()
                self.where.clicked.connect(self._press_where)
                layout = self.layout()
                assert isinstance(layout, QVBoxLayout)
                layout.addWidget(self.where)
            self.where.setText(tr(SHOW[about.of], number=about.line))
            self.where.setAccessibleName(
                tr("{where}, of which is said: {finding}", where=self.where.text(), finding=said)
            )
            self.where.setVisible(True)
        elif self.where is not None:
            self.where.setVisible(False)

    def _press_where(self) -> None:
        if self._finding is not None:
            self.place_wanted.emit(self._finding.about)

    def _show_ways(self, said: str) -> None:
        """Show the way to the page with other cures; its button is made when first wanted."""
        leads_to = LEADS_TO.get(self._finding.leads_to) if self._finding is not None else None
        if leads_to is not None:
            if self.ways is None:
                self.ways = _button()
                self.ways.clicked.connect(self._press_ways)
                layout = self.layout()
                assert isinstance(layout, QVBoxLayout)
                layout.insertWidget(1, self.ways)
            self.ways.setText(tr(leads_to))
            spoken = tr("{cure}. Cures: {finding}", cure=self.ways.text(), finding=said)
            if spoken != self.ways.accessibleName():
                self.ways.setAccessibleName(spoken)
            self.ways.setVisible(True)
        elif self.ways is not None:
            self.ways.setVisible(False)

    def _press_ways(self) -> None:
        if self._finding is not None and self._finding.leads_to:
            self.page_wanted.emit(self._finding.leads_to)

    def _press(self) -> None:
        if self._finding is not None and self._finding.fix is not None:
            self.cure_wanted.emit(self._finding.fix)

    def mouseDoubleClickEvent(self, event: object) -> None:
        """Go to the field that the finding is about."""
        if self._finding is not None:
            self.place_wanted.emit(self._finding.about)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.deeds import open_menu  # no start opens a menu

        open_menu(self.menu(), event.globalPos())

    def menu(self) -> QMenu:
        """Return the menu of the finding: its cures, the way to what it is about, its words."""
        from designer.window.parts.deeds import add_entry, menu_under
        from designer.window.parts.row_menu import add_buttons

        menu, finding = menu_under(self), self._finding
        add_buttons(menu, [each for each in (self.cure, self.ways, self.where) if each is not None])
        if finding is not None:
            go = partial(self.place_wanted.emit, finding.about)
            add_entry(menu, tr("Go to what it is about"), go)
        copy = partial(QGuiApplication.clipboard().setText, self._said)
        add_entry(menu, COPY, copy)
        return menu

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._finding is None:
            return
        inks = inks_for(self.palette())
        bars = {
            Severity.STOP: inks.stop,
            Severity.CARE: inks.brass,
            Severity.NOTE: inks.line_strong,
        }
        with QPainter(self) as painter:
            painter.fillRect(0, 0, BAR, self.height(), QColor(bars[self._finding.severity]))


def _button() -> QPushButton:
    """Return a button of a cure; one that names several ingredients is long."""
    made = WrappedButton()
    made.setObjectName("cure")
    made.setCursor(Qt.CursorShape.PointingHandCursor)
    return made


class WatchOut(QWidget):
    """The list of findings."""

    cure_wanted = Signal(object)
    place_wanted = Signal(object)
    page_wanted = Signal(str)

    def __init__(self, display: DisplayFormat, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._display = display
        self._findings: tuple[Finding, ...] = ()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(5)
        self._nothing = QLabel(
            tr("Nothing to watch out for. It fits, it will ferment, it is hopped.")
        )
        self._nothing.setObjectName("soft")
        self._nothing.setWordWrap(True)
        self._layout.addWidget(self._nothing)
        self.cards: list[FindingCard] = []
        self.setAccessibleName(tr("Watch out"))
        display.settings.changed.connect(self.refresh)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What is shown, the worst first."""
        return self._findings

    def show_findings(self, findings: tuple[Finding, ...]) -> None:
        """Show other findings; cards are used again, so that the keyboard keeps its place."""
        shown, self._findings = self._findings, findings
        focus = QApplication.focusWidget() if self.isVisible() else None
        has_keyboard = focus is not None and self.isAncestorOf(focus)
        with laid_out_once(self, lambda: self.cards):
            self._show_cards(shown)
        if has_keyboard and focus is not None and not focus.isVisibleTo(self):
            self._take_keyboard()

    def _take_keyboard(self) -> None:
        """Go to the next cure when one has gone with its finding; Qt would go to the next field."""
        cures = (card.cure for card in self.cards if card.cure.isVisibleTo(self))
        next(cures, self).setFocus(Qt.FocusReason.OtherFocusReason)

    def refresh(self) -> None:
        """Show the findings in the units now preferred."""
        self._show_cards(())

    def _show_cards(self, shown: tuple[Finding, ...]) -> None:
        """Give each finding its card; one that `shown` says is on it already is not put anew."""
        while len(self.cards) < len(self._findings):
            card = FindingCard(self)
            card.cure_wanted.connect(self._pass_on)
            card.place_wanted.connect(self.place_wanted)
            card.page_wanted.connect(self.page_wanted)
            self._layout.addWidget(card)
            self.cards.append(card)
        for number, card in enumerate(self.cards):
            wanted = number < len(self._findings)
            if wanted and self._findings[number : number + 1] != shown[number : number + 1]:
                card.show_finding(self._findings[number], self._display)
            if card.isVisibleTo(self) != wanted:
                card.setVisible(wanted)
        if self._nothing.isVisibleTo(self) == bool(self._findings):
            self._nothing.setVisible(not self._findings)

    def _pass_on(self, fix: Edit) -> None:
        self.cure_wanted.emit(fix)
