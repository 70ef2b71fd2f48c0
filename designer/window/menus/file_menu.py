"""The File menu: recipes in and out, the sheet, and the Recipe box as a whole."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

from designer.translation import tr
from designer.window.menus.entries import Entries, bind
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.menu_drawings import drawn_when_opened, wear
from designer.window.parts.plain_text import caption, tip
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.recipe_files import RecipeFiles


class FileMenu:
    """What is done to files; two of its menus are filled when they are opened."""

    def __init__(self, entries: Entries, files: RecipeFiles) -> None:
        self._entries, self._window, self._files = entries, entries.window, files
        menu = entries.menu(tr("&File"))
        self._recipes(menu)
        self._lines_and_sheet(menu)
        self._pictures(menu)
        if self._window.keeping.has_box:
            self._whole_box(menu)
        menu.addSeparator()
        entries.add(menu, keys.CLOSE, self._window.close)
        entries.add(menu, keys.QUIT, self._window.close)

    def _recipes(self, menu: QMenu) -> None:
        add, window, files = self._entries.add, self._window, self._files
        add(menu, keys.BEGIN, window.begin)
        doors = menu.addMenu(tr("Begin &with"))
        lettered_when_opened(doors)
        for number, door in enumerate(keys.DOORS):
            add(doors, door, partial(window.begin_at, number))
        add(menu, keys.NEW, files.new_recipe)
        add(menu, keys.OPEN, files.open_file)
        self.recent = menu.addMenu(tr("Open &recent"))
        self.recent.aboutToShow.connect(self._fill_recent)
        add(menu, tr("Open the e&xample"), files.open_example)
        add(menu, keys.NEW_WINDOW, window.open_window)
        menu.addSeparator()
        add(menu, keys.SAVE, files.save, of_recipe=True)
        add(menu, keys.SAVE_AS, files.save_as, of_recipe=True)
        if window.keeping.has_box:
            add(menu, keys.KEEP_VERSION, window.keeping.save_version, of_recipe=True)

    def _lines_and_sheet(self, menu: QMenu) -> None:
        """Add what brings tables of ingredients in and out, and what prints the sheet."""
        add, window, files = self._entries.add, self._window, self._files
        menu.addSeparator()
        for text, drawing, act in (
            (tr("Export the &ingredient list…"), "action-export", lambda: files.bill.write()),
            (tr("Import &lines from a table…"), "action-import", lambda: files.bill.bring_in()),
        ):
            add(menu, text, act, of_recipe=True, drawing=drawing)
        menu.addSeparator()
        printing = add(menu, keys.PRINT, lambda: window.sheet.print_sheet(), of_recipe=True)
        bind(window.header.print, printing, tr("Print"))
        add(menu, keys.PDF, lambda: window.sheet.write_pdf(), of_recipe=True)

    def _pictures(self, menu: QMenu) -> None:
        """Add a menu of what can be copied and saved of forecast and day."""
        add, window = self._entries.add, self._window
        sub = menu.addMenu(tr("Copy or save pict&ures"))
        wear(sub.menuAction(), "action-picture")
        drawn_when_opened(sub)
        for copy_it, save_it, picture in (
            (
                tr("Copy a picture of the &forecast"),
                tr("&Save a picture of the forecast…"),
                lambda: window.compose.out.of_forecast(),
            ),
            (
                tr("Copy a picture of the &day"),
                tr("Save a picture of the da&y…"),
                lambda: window.compose.out.of_day(),
            ),
        ):
            for text, drawing, act in (
                (copy_it, "action-picture", lambda made=picture: window.pictures.copy(made())),
                (save_it, "action-export", lambda made=picture: window.pictures.save(made())),
            ):
                add(sub, text, act, of_recipe=True, drawing=drawing)
            sub.addSeparator()
        self._colours: QAction | None = None
        sub.aboutToShow.connect(partial(self._add_colours, sub))

    def _add_colours(self, menu: QMenu) -> None:
        """Add which colours pictures are in; not before somebody looks."""
        if self._colours is None:
            from designer.window.parts.picture_menu import add_colours

            self._colours = add_colours(menu, self._window.pictures)

    def _whole_box(self, menu: QMenu) -> None:
        add, keeping = self._entries.add, self._window.keeping
        menu.addSeparator()
        for text, drawing, act in (
            (tr("Copy &everything to a file…"), "action-export", keeping.copy_everything),
            (tr("Res&tore everything…"), "action-import", keeping.bring_everything_back),
        ):
            add(menu, text, act, drawing=drawing)
        self.place = menu.addMenu(tr("Where the Recipe bo&x is kept"))
        wear(self.place.menuAction(), "action-recipe-box")
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
