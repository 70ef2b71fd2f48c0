"""Ingredients out to a table and in from one, or from pasted text that has to be asked about."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from designer.library.bill import bill_csv, bill_or_table, bill_text
from designer.library.file_names import file_name
from designer.library.pasted import PastedTable
from designer.recipe.edits import BRING_IN, Edit, lines_added
from designer.recipe.named import Line
from designer.translation import tr
from designer.units import ShownUnits
from designer.window.compose.paste_preview import PastePreview
from designer.window.session.recipe_window import RecipeWindow
from designer.window.session.saving import Saving


class BillFiles:
    """Writes and reads tables of ingredients for a window."""

    def __init__(self, window: RecipeWindow, saving: Saving) -> None:
        self._window, self._saving = window, saving
        self._preview: PastePreview | None = None

    def write(self) -> None:
        """Ask for a file and write the ingredient list, as a table or as text."""
        window = self._window
        recipe = window.opened.recipe
        suggested = Path(window.folder()) / (file_name(recipe.name) + ".csv")
        path = window.questions.bill_where(window, str(suggested))
        if path is None:
            return
        text = bill_text(recipe) if path.suffix == ".txt" else bill_csv(recipe)
        told = tr("Exported the ingredient list to {path}.", path=path)
        self._saving.write(path, text.encode("utf-8"), told)

    def bring_in(self) -> None:
        """Ask for a table of ingredients and add its lines, as one step."""
        path = self._window.questions.which_bill(self._window, self._window.folder())
        if path is not None:
            self.read(path)

    def read(self, path: Path) -> None:
        """Add the lines of a table in a file; ask about what is not certain."""
        display, opening = self._window.display, self._window.opened.opening
        comma, us = display.settings.decimal_comma, display.one_system is ShownUnits.US

        def take(found: PastedTable | Sequence[tuple[str, Line]]) -> None:
            if isinstance(found, PastedTable):
                self.choose(found)
            else:
                self._add(lines_added(found, BRING_IN), opening)

        self._saving.on_disk.disk.ask(
            lambda: bill_or_table(path, comma=comma, us=us),
            take,
            lambda fault: self._window.messages.say(str(fault), grave=True),
            tr("Reading {name}", name=path.name),
        )

    def choose(self, table: PastedTable, make: Callable[[Edit], bool] | None = None) -> None:
        """Ask which rows of a text are lines, and what its columns are; one text at a time.

        They are added by `make`, to the recipe as it is written unless another is given.
        """
        if self._preview is not None:
            return
        window = self._window
        opening = window.opened.opening
        self._preview = preview = PastePreview(table, window.opened.recipe, window.display, window)
        preview.chosen.connect(lambda edit: self._add(edit, opening, make))
        preview.finished.connect(self._forget)
        preview.open()

    def _forget(self) -> None:
        self._preview = None

    def _add(self, edit: Edit, opening: int, make: Callable[[Edit], bool] | None = None) -> None:
        """Add lines to the recipe that they were meant for."""
        if self._window.opened.opening == opening:
            (make or self._window.opened.make)(edit)
        else:
            self._window.messages.say(
                tr("Another recipe was opened meanwhile: no lines were added to it."), refused=True
            )
