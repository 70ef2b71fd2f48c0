"""Sheets of the chosen recipes: printed one after another, or written as one PDF.

They are made a piece at a time beside the window; then each is laid out in a turn of its own, so
that the window can be used meanwhile and the work be stopped.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QObject, QTimer, Signal
from PySide6.QtWidgets import QMenu, QPushButton, QWidget

from designer.errors import DesignerError
from designer.translation import tr, trn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.questions import Questions
from designer.window.session.autosave import Autosave
from designer.window.session.shop_sizes import ShopSizes

if TYPE_CHECKING:
    from designer.sheet.blocks import Sheet
    from designer.workbench.box_sheets import MadeSheets

FILE = "sheets.pdf"
Run = Callable[..., None]
"""Does long work a piece at a time: what it does, items, a piece of it, what follows."""


class ChosenSheets(QObject):
    """Prints and writes sheets of recipes named by their numbers.

    `said` tells what came of it, and whether that is trouble; `file_made` what is to be written.
    """

    said = Signal(str, bool)
    file_made = Signal(object, object, str)

    def __init__(self, display: DisplayFormat, autosave: Autosave, parent: QWidget) -> None:
        super().__init__(parent)
        self._display, self._widget = display, parent
        self._shop = ShopSizes(display, lambda: autosave, self, key="sheets of the box")
        self._turns: Generator[int] | None = None
        self._pages = 0
        self._timer = QTimer(self, interval=0)
        self._then: Callable[[int], None] = lambda _pages: None
        self._timer.timeout.connect(self._turn)

    def button(self, chosen: Callable[[], list[int]], run: Run) -> QPushButton:
        """Return the button of the page, with what can be done behind it."""
        made = QPushButton(tr("Sheets"))
        made.setToolTip(tr("Print the sheets of the chosen recipes, or write them as one PDF"))
        made.setAccessibleName(tr("Sheets of the chosen recipes"))
        menu = QMenu(made)
        menu.aboutToShow.connect(self._shop.ask)
        for text, act in (
            (tr("&Print the sheets of the chosen recipes…"), self.print_all),
            (tr("Write them as one P&DF…"), self.write_all),
        ):
            menu.addAction(text).triggered.connect(
                lambda _checked=False, act=act: act(chosen(), run)
            )
        made.setMenu(menu)
        return made

    def print_all(self, ids: Sequence[int], run: Run) -> None:
        """Ask for a printer and print."""
        if self._may_begin(ids):
            printer = self._questions().which_printer(self._widget, self._display.settings.paper)
            if printer is not None:
                from designer.paper.several import printed

                self._make(
                    ids, run, lambda sheets: self._begin(printed(sheets, printer), self._printed)
                )

    def write_all(self, ids: Sequence[int], run: Run) -> None:
        """Ask for a file and write one PDF."""
        if not self._may_begin(ids):
            return
        path = self._questions().pdf_where(self._widget, str(Path.home() / FILE))
        if path is None:
            return
        from designer.paper.several import in_one_pdf

        buffer, paper = QBuffer(), self._display.settings.paper
        written = partial(self._written, path, buffer)
        self._make(ids, run, lambda sheets: self._begin(in_one_pdf(sheets, paper, buffer), written))

    def stop(self) -> None:
        """End what is being laid out; what was printed is printed."""
        self._timer.stop()
        if self._turns is not None:
            self._turns.close()  # its painter ends
            self._turns = None

    def _questions(self) -> Questions:
        from designer.window.session.recipe_window import RecipeWindow

        window = self._widget.window()
        return window.questions if isinstance(window, RecipeWindow) else Questions()

    def _may_begin(self, ids: Sequence[int]) -> bool:
        if self._turns is not None:
            self.said.emit(tr("Sheets are still being printed."), False)
        elif not ids:
            self.said.emit(tr("Choose the recipes whose sheets you want in the list."), False)
        return bool(ids) and self._turns is None

    def _make(self, ids: Sequence[int], run: Run, then: Callable[[list[Sheet]], None]) -> None:
        from designer.sheet.blocks import Form
        from designer.workbench.box_sheets import SheetWishes, sheets_a_piece

        settings = self._display.settings
        wishes = SheetWishes(
            settings.units,
            settings.sheet_language,
            settings.shop,
            Form(settings.large_print, 1),
            tuple(self._shop.sizes()),
        )

        def made(pieces: list[MadeSheets], left: int) -> None:
            faults = list(dict.fromkeys(fault for each in pieces for fault in each.faults))
            if faults:
                self.said.emit("\n".join(faults[:5]), True)
            sheets = [sheet for each in pieces for sheet in each.sheets]
            if sheets and not left:  # it was not stopped
                then(sheets)

        run(tr("Making sheets"), ids, partial(sheets_a_piece, wishes), made)

    def _begin(self, turns: Generator[int], then: Callable[[int], None]) -> None:
        self._turns, self._then, self._pages = turns, then, 0
        self._timer.start()

    def _turn(self) -> None:
        """Lay the next sheet out."""
        if self._turns is None:
            return
        try:
            self._pages = next(self._turns)
        except StopIteration:
            self.stop()
            self._then(self._pages)
        except DesignerError as fault:
            self.stop()
            self.said.emit(str(fault), True)

    def _printed(self, pages: int) -> None:
        self.said.emit(
            trn("Sent {number} page to the printer.", "Sent {number} pages to the printer.", pages),
            False,
        )

    def _written(self, path: Path, buffer: QBuffer, pages: int) -> None:
        done = trn(
            "Exported {number} page to {path}.",
            "Exported {number} pages to {path}.",
            pages,
            path=path,
        )
        self.file_made.emit(path, bytes(buffer.data().data()), done)
