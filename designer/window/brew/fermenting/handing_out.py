"""What leaves the window of a beer: dates for a calendar, labels as PDF and on paper."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from designer.errors import DesignerError
from designer.library.file_names import file_name
from designer.paper.labels import labels_pdf, print_labels
from designer.translation import tr, trn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.questions import Questions
from designer.window.session.open_brew import OpenBrew
from designer.window.session.recipe_window import RecipeWindow
from designer.workbench.brew.calendar_file import calendar_text, events_of
from designer.workbench.brew.packing_of_beer import beer_dates, packed_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from designer.sheet.labels import BottleLabel
    from designer.workbench.brew.beer import BeerNow


class HandingOut(QObject):
    """`file_made` carries a file to be written: where, its bytes, what is said once it is there.

    `failed` says what cannot be done, `told` what was.
    """

    file_made = Signal(object, object, str)
    failed = Signal(str)
    told = Signal(str)

    def __init__(self, brew: OpenBrew, display: DisplayFormat, part: QWidget) -> None:
        super().__init__(part)
        self._brew, self._display, self._part = brew, display, part

    @property
    def name(self) -> str:
        """What the beer is called."""
        return self._brew.brew.name if self._brew.brew is not None else ""

    @property
    def _questions(self) -> Questions:
        window = self._part.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    def _suggested(self, ending: str) -> str:
        return str(Path.home() / (file_name(self.name) + ending))

    def which_table(self) -> Path | None:
        """Ask for a table of temperatures."""
        return self._questions.which_warmth_table(self._part, str(Path.home()))

    def save_calendar(self, beer: BeerNow | None) -> None:
        """Ask for a file and write what is to be done with a beer into it, for a calendar."""
        brew, brewing = self._brew.brew, self._brew.brewing
        if beer is None or brew is None or brewing is None:
            return
        path = self._questions.calendar_where(self._part, self._suggested(".ics"))
        if path is None:
            return
        now = datetime.fromtimestamp(self._brew.now().wall).astimezone()
        dates = beer_dates(beer, packed_of(brewing, beer, now.date()))
        events = events_of(brew.uid, brew.name, dates, beer.fermenter)
        content = calendar_text(events, now).encode("utf-8")
        done = tr("Saved {path}: open it with your calendar.", path=path)
        self.file_made.emit(path, content, done)

    def save_labels(self, labels: Sequence[BottleLabel]) -> None:
        """Ask for a file and write labels as PDF."""
        path = self._questions.labels_where(self._part, self._suggested("-labels.pdf"))
        if path is None:
            return
        try:
            content, count = labels_pdf(labels, self._display.settings.paper, self.name)
        except DesignerError as fault:
            self.failed.emit(str(fault))
            return
        done = trn(
            "Exported {number} page of labels to {path}.",
            "Exported {number} pages of labels to {path}.",
            count,
            path=path,
        )
        self.file_made.emit(path, content, done)

    def print_labels(self, labels: Sequence[BottleLabel]) -> None:
        """Print labels through the dialog of the system."""
        printer = self._questions.which_printer(self._part, self._display.settings.paper)
        if printer is None:
            return
        try:
            count = print_labels(labels, printer, self.name)
        except DesignerError as fault:
            self.failed.emit(str(fault))
            return
        self.told.emit(
            trn("Sent {number} page to the printer.", "Sent {number} pages to the printer.", count)
        )
