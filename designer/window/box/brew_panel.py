"""What can be done with a brew that is chosen: its log, going on, tasting notes, deleting it.

A tasting is an entry of the brew's log like any other: a mark from 1 to 5, each with its word, and
what there is to say. Later tastings stand beside earlier ones.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QVBoxLayout,
    QWidget,
)

from designer.translation import tr
from designer.window.box.tasting_form import TastingForm
from designer.window.parts.buttons import button
from designer.window.parts.flow import FlowLayout
from designer.window.session.brew_keeping import BrewKeeping, BrewLog
from designer.workbench.brew.brew_told import BrewTold
from designer.workbench.brew.clocks import now
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id


class BrewPanel(QWidget):
    """Follows the brew that is chosen. `log_wanted` and `go_on_wanted` name it.

    `removed` tells what was deleted, with the way to put it back.
    """

    log_wanted = Signal(str)
    go_on_wanted = Signal(str)
    said = Signal(str, bool)
    removed = Signal(str, object)
    changed = Signal()

    def __init__(self, brews: BrewKeeping) -> None:
        super().__init__()
        self._brews = brews
        self._told: BrewTold | None = None
        self.log_button = button(tr("Open log"), tr("Show the log of the chosen brew"), self.open)
        self.go_on_button = button(
            tr("Go on brewing"), tr("Go on with the chosen brew at the stove"), self._go_on
        )
        self.taste_button = button(
            tr("Tasting notes…"), tr("Say how the beer of the chosen brew is"), self.taste
        )
        self.delete_button = button(
            tr("Delete brew"), tr("Delete the chosen brew with its log"), self.delete
        )
        self.form = TastingForm()
        self.form.kept.connect(self._keep)
        self.form.left.connect(self._end_tasting)
        self.form.hide()
        self._buttons = buttons = QWidget()
        row = FlowLayout(buttons, across=6)
        for each in (self.go_on_button, self.log_button, self.taste_button, self.delete_button):
            row.addWidget(each)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(buttons)
        layout.addWidget(self.form)
        self.hide()

    def show_brew(self, told: BrewTold | None) -> None:
        """Offer what can be done with a brew; None for none."""
        is_other = told is None or self._told is None or told.brew.uid != self._told.brew.uid
        self._told = told
        if is_other:
            self._show_form(shown=False)
        if told is not None:
            ferments = told.fermenting_since(date.today()) is not None
            self.go_on_button.setVisible(told.brew.is_under_way or ferments)
            self.go_on_button.setText(
                tr("Readings and packaging") if ferments else tr("Go on brewing")
            )
            self.go_on_button.setToolTip(
                tr("Show the beer of the chosen brew in its fermenter")
                if ferments
                else tr("Go on with the chosen brew at the stove")
            )
            self.log_button.setEnabled(told.has_log)
            self.log_button.setToolTip(
                tr("Show the log of the chosen brew")
                if told.has_log
                else tr("Nothing was logged of this brew")
            )
        self.setVisible(told is not None)

    def open(self) -> None:
        """Ask for the log of the chosen brew."""
        if self._told is not None and self._told.has_log:
            self.log_wanted.emit(self._told.brew.uid)

    def _go_on(self) -> None:
        if self._told is not None:
            self.go_on_wanted.emit(self._told.brew.uid)

    def taste(self) -> None:
        """Ask how the beer is."""
        if self._told is not None:
            self._show_form(shown=True)
            self.form.begin(self._told)

    def _show_form(self, *, shown: bool) -> None:
        """Show the form in place of the buttons: on a small screen there is no room for both."""
        self.form.setVisible(shown)
        self._buttons.setVisible(not shown)

    def _end_tasting(self) -> None:
        self._show_form(shown=False)
        self.taste_button.setFocus(Qt.FocusReason.OtherFocusReason)

    def _keep(self, mark: int, text: str) -> None:
        """Add a tasting to the log of the chosen brew."""
        if self._told is None:
            return
        self._end_tasting()
        values = {"text": text} | ({"mark": mark} if mark else {})

        def add(log: BrewLog) -> None:
            entry = Entry(next_id(log.entries), now(), What.TASTED, values)
            self._brews.append(log.brew.uid, entry)

        self._brews.log_of(self._told.brew.uid, add, self._fail)

    def delete(self) -> None:
        """Delete the chosen brew; it can be put back while the message stands."""
        if self._told is None:
            return
        uid = self._told.brew.uid

        def done(log: BrewLog) -> None:
            words = tr("The brew of “{name}” and its log were deleted.", name=log.brew.name[:60])
            put_back: Callable[[], None] = partial(self._brews.put_back, log)
            self.removed.emit(words, put_back)
            self.changed.emit()

        self._brews.delete(uid, done, self._fail)

    def _fail(self, fault: str) -> None:
        self.said.emit(fault, True)
