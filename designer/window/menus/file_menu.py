"""The File menu: recipes in and out, the sheet, and the Recipe box as a whole."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QMenu

from designer.translation import tr
from designer.window.menus.entries import Entries, bind
from designer.window.parts.plain_text import caption, tip

if TYPE_CHECKING:
    from designer.window.recipe_files import RecipeFiles

PRINT = "Ctrl+P"


class FileMenu:
    """What is done to files; two of its menus are filled when they are opened."""

    def __init__(self, entries: Entries, files: RecipeFiles) -> None:
        self._entries, self._window, self._files = entries, entries.window, files
        menu = entries.menu(tr("&File"))
        self._recipes(menu)
        self._lines_and_sheet(menu)
        if self._window.keeping.has_box:
            self._whole_box(menu)
        menu.addSeparator()
        entries.add(menu, tr("&Quit"), "Ctrl+Q", self._window.close)

    def _recipes(self, menu: QMenu) -> None:
        add, window, files = self._entries.add, self._window, self._files
        add(menu, tr("&Begin…"), "Ctrl+Shift+N", window.begin, drawing="action-begin")
        add(menu, tr("&New, empty"), "Ctrl+N", files.new_recipe, drawing="action-new")
        add(menu, tr("&Open…"), "Ctrl+O", files.open_file, drawing="action-open")
        self.recent = menu.addMenu(tr("Open &recent"))
        self.recent.aboutToShow.connect(self._fill_recent)
        add(menu, tr("Open the e&xample"), "", files.open_example)
        menu.addSeparator()
        add(menu, tr("&Save"), "Ctrl+S", files.save, of_recipe=True, drawing="action-save")
        add(menu, tr("Save &as…"), "Ctrl+Shift+S", files.save_as, of_recipe=True)
        if window.keeping.has_box:
            text, keep = tr("Keep a &version with a name…"), window.keeping.save_version
            add(menu, text, "Ctrl+Alt+S", keep, of_recipe=True, drawing="action-keep-version")

    def _lines_and_sheet(self, menu: QMenu) -> None:
        """Add what brings tables of ingredients in and out, and what prints the sheet."""
        window, files = self._window, self._files
        for entries in (
            (
                (tr("Export the &ingredient list…"), "", "export", lambda: files.bill.write()),
                (tr("Import &lines from a table…"), "", "import", lambda: files.bill.bring_in()),
            ),
            (
                (tr("&Print the sheet…"), PRINT, "print", lambda: window.sheet.print_sheet()),
                (
                    tr("Export the sheet as P&DF…"),
                    "Ctrl+Shift+P",
                    "export",
                    lambda: window.sheet.write_pdf(),
                ),
            ),
        ):
            menu.addSeparator()
            for text, keys, does, act in entries:
                drawing = f"action-{does}"
                entry = self._entries.add(menu, text, keys, act, of_recipe=True, drawing=drawing)
                if keys == PRINT:
                    bind(window.header.print, entry, tr("Print"))

    def _whole_box(self, menu: QMenu) -> None:
        add, keeping = self._entries.add, self._window.keeping
        menu.addSeparator()
        add(
            menu,
            tr("Copy &everything to a file…"),
            "",
            keeping.copy_everything,
            drawing="action-export",
        )
        text, bring_back = tr("Res&tore everything…"), keeping.bring_everything_back
        add(menu, text, "", bring_back, drawing="action-import")
        self.place = menu.addMenu(tr("Where the Recipe bo&x is kept"))
        self.place.aboutToShow.connect(self._fill_place)

    def _fill_place(self) -> None:
        """Say where the Recipe box lies, and offer to let it lie elsewhere."""
        from designer.library.store.folder import VARIABLE, named_folder, usual_folder

        self.place.clear()
        autosave, trouble = self._window.autosave, self._window.keeping.trouble
        if autosave is None or trouble is None:
            self.place.addAction(tr("It is being opened")).setEnabled(False)
            return
        self.place.addAction(caption(str(autosave.folder))).setEnabled(False)
        if named_folder() is not None:
            self.place.addAction(tr("named by {variable}", variable=VARIABLE)).setEnabled(False)
        self.place.addSeparator()
        another = self.place.addAction(tr("Choose &another folder…"))
        another.triggered.connect(lambda _checked=False: trouble.choose_folder())
        back = self.place.addAction(tr("Back to the &usual folder"))
        back.setToolTip(str(usual_folder()))
        back.setEnabled(autosave.folder != usual_folder())
        back.triggered.connect(lambda _checked=False: trouble.back_to_usual())

    def _fill_recent(self) -> None:
        self.recent.clear()
        for name in self._window.settings.recent:
            path = Path(name)
            action = self.recent.addAction(caption(path.name))
            action.setToolTip(tip(name))
            action.triggered.connect(partial(self._open_recent, path))
        if self.recent.isEmpty():
            self.recent.addAction(tr("No recipe opened or saved yet")).setEnabled(False)

    def _open_recent(self, path: Path, _checked: bool = False) -> None:
        self._files.open_path(path)
