"""The menus, and with them every shortcut of the window."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import SignalInstance
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QAbstractButton, QMenu
from shiboken6 import isValid

from designer.translation import message, tr
from designer.units import ShownUnits
from designer.window.paged_window import NOTHING_OPEN
from designer.window.parts.plain_text import as_read, caption, tip
from designer.window.parts.settings import COLOURS, GRAVITIES, INGREDIENT_COLOURS
from designer.window.parts.theme import CONTRASTS, SCHEMES
from designer.window.parts.typeface import TYPEFACES

if TYPE_CHECKING:
    from designer.window.explaining import Explaining
    from designer.window.paged_window import PagedWindow
    from designer.window.recipe_files import RecipeFiles

PRINT = "Ctrl+P"
UNIT_WORDS = {
    ShownUnits.METRIC: message("Metric"),
    ShownUnits.US: message("US customary"),
    ShownUnits.BOTH: message("Both"),
}
GRAVITY_WORDS = {
    "sg": message("Specific gravity, 1.050"),
    "plato": message("Degrees Plato, 12.4 °P"),
}
COLOUR_WORDS = {"srm": message("SRM"), "ebc": message("EBC")}
INGREDIENT_COLOUR_WORDS = {
    "typed": message("As typed, usually °L"),
    "beer": message("On the scale of the beer"),
}
SCHEME_WORDS = {
    "system": message("As the desktop"),
    "light": message("Light"),
    "dark": message("Dark"),
}
CONTRAST_WORDS = {
    "usual": message("Usual"),
    "high": message("High, the brew day in larger type"),
}
TYPEFACE_WORDS = {
    "own": message("Hobwort's own"),
    "desktop": message("The desktop's"),
}


class Menus:
    """The menu bar of a window."""

    def __init__(
        self,
        window: PagedWindow,
        files: RecipeFiles,
        show_help: Callable[[], None],
        report_problem: Callable[[], None],
        show_about: Callable[[], None],
        explaining: Explaining,
    ) -> None:
        self._window, self._files = window, files
        self.actions: list[QAction] = []
        self._of_recipe: list[QAction] = []
        self._file()
        self._edit()
        self._view()
        if window.keeping.has_box:
            self._brew_day()
        self._help(show_help, report_problem, show_about, explaining)
        self._offer()
        window.opened.opened_first.connect(self._offer)

    def _offer(self) -> None:
        """Offer what is done to a recipe only while one is open."""
        is_open = self._window.opened.is_open
        for action in self._of_recipe:
            action.setEnabled(is_open)
            action.setToolTip("" if is_open else tr(NOTHING_OPEN))

    def _menu(self, title: str) -> QMenu:
        menu = self._window.menuBar().addMenu(title)
        menu.setToolTipsVisible(True)
        return menu

    def _entry(
        self,
        menu: QMenu,
        text: str,
        keys: str | list[str],
        act: Callable[[], object],
        *,
        of_recipe: bool = False,
    ) -> QAction:
        """Add an entry; one that is done to the open recipe is off while there is none."""
        action = menu.addAction(text)
        wanted = [keys] if isinstance(keys, str) else keys
        action.setShortcuts([QKeySequence(each) for each in wanted if each])
        action.triggered.connect(lambda _checked=False: act())
        self.actions.append(action)
        if of_recipe:
            self._of_recipe.append(action)
        return action

    def _file(self) -> None:
        window, files, menu = self._window, self._files, self._menu(tr("&File"))
        self._entry(menu, tr("&Begin…"), "Ctrl+Shift+N", window.begin)
        self._entry(menu, tr("&New, empty"), "Ctrl+N", files.new_recipe)
        self._entry(menu, tr("&Open…"), "Ctrl+O", files.open_file)
        self._recent = menu.addMenu(tr("Open &recent"))
        self._recent.aboutToShow.connect(self._fill_recent)
        self._entry(menu, tr("Open the e&xample"), "", files.open_example)
        menu.addSeparator()
        self._entry(menu, tr("&Save"), "Ctrl+S", files.save, of_recipe=True)
        self._entry(menu, tr("Save &as…"), "Ctrl+Shift+S", files.save_as, of_recipe=True)
        if window.keeping.has_box:
            self._entry(
                menu,
                tr("Keep a &version with a name…"),
                "Ctrl+Alt+S",
                window.keeping.save_version,
                of_recipe=True,
            )
        self._with_lines_and_sheet(menu)
        if window.keeping.has_box:
            menu.addSeparator()
            self._entry(menu, tr("Copy &everything to a file…"), "", window.keeping.copy_everything)
            self._entry(menu, tr("Res&tore everything…"), "", window.keeping.bring_everything_back)
            self._place = menu.addMenu(tr("Where the Recipe bo&x is kept"))
            self._place.aboutToShow.connect(self._fill_place)
        menu.addSeparator()
        self._entry(menu, tr("&Quit"), "Ctrl+Q", window.close)

    def _with_lines_and_sheet(self, menu: QMenu) -> None:
        """Add what brings tables of ingredients in and out, and what prints the sheet."""
        window, files = self._window, self._files
        for entries in (
            (
                (tr("Export the &ingredient list…"), "", lambda: files.bill.write()),
                (tr("Import &lines from a table…"), "", lambda: files.bill.bring_in()),
            ),
            (
                (tr("&Print the sheet…"), PRINT, lambda: window.sheet.print_sheet()),
                (tr("Export the sheet as P&DF…"), "Ctrl+Shift+P", lambda: window.sheet.write_pdf()),
            ),
        ):
            menu.addSeparator()
            for text, keys, act in entries:
                entry = self._entry(menu, text, keys, act, of_recipe=True)
                if keys == PRINT:
                    _bind(window.header.print, entry, tr("Print"))

    def _fill_place(self) -> None:
        """Say where the Recipe box lies, and offer to let it lie elsewhere."""
        from designer.library.store.folder import VARIABLE, named_folder, usual_folder

        self._place.clear()
        autosave, trouble = self._window.autosave, self._window.keeping.trouble
        if autosave is None or trouble is None:
            self._place.addAction(tr("It is being opened")).setEnabled(False)
            return
        self._place.addAction(caption(str(autosave.folder))).setEnabled(False)
        if named_folder() is not None:
            self._place.addAction(tr("named by {variable}", variable=VARIABLE)).setEnabled(False)
        self._place.addSeparator()
        another = self._place.addAction(tr("Choose &another folder…"))
        another.triggered.connect(lambda _checked=False: trouble.choose_folder())
        back = self._place.addAction(tr("Back to the &usual folder"))
        back.setToolTip(str(usual_folder()))
        back.setEnabled(autosave.folder != usual_folder())
        back.triggered.connect(lambda _checked=False: trouble.back_to_usual())

    def _fill_recent(self) -> None:
        self._recent.clear()
        for name in self._window.settings.recent:
            path = Path(name)
            action = self._recent.addAction(caption(path.name))
            action.setToolTip(tip(name))
            action.triggered.connect(partial(self._open_recent, path))
        if self._recent.isEmpty():
            self._recent.addAction(tr("No recipe opened or saved yet")).setEnabled(False)

    def _open_recent(self, path: Path, _checked: bool = False) -> None:
        self._files.open_path(path)

    def _edit(self) -> None:
        window, menu = self._window, self._menu(tr("&Edit"))
        turning, header = window.turning, window.header
        undo = self._entry(menu, tr("&Undo"), "Ctrl+Z", turning.undo)
        redo = self._entry(menu, tr("&Redo"), ["Ctrl+Shift+Z", "Ctrl+Y"], turning.redo)
        _name_step(
            undo, message("&Undo {step}"), turning.undo_text_changed, turning.can_undo_changed
        )
        _name_step(
            redo, message("&Redo {step}"), turning.redo_text_changed, turning.can_redo_changed
        )
        _bind(header.undo, undo)
        _bind(header.redo, redo)
        menu.addSeparator()
        for text, key, lines in (
            (tr("Add a &fermentable"), "Ctrl+Shift+F", "fermentables"),
            (tr("Add a &hop"), "Ctrl+Shift+H", "hops"),
            (tr("Add an e&xtra"), "Ctrl+Shift+X", "extras"),
        ):
            self._entry(menu, text, key, partial(self._add_line, lines), of_recipe=True)
        menu.addSeparator()
        self._entry(menu, tr("&What if…"), "Ctrl+Shift+W", window.what_if, of_recipe=True)

    def _add_line(self, lines: str) -> None:
        self._window.compose.add_line(lines)

    def _view(self) -> None:
        window, menu = self._window, self._menu(tr("&View"))
        for number, name in enumerate(window.page_names):
            caption = tr("&{page}", page=tr(name))
            self._entry(
                menu,
                caption,
                f"Ctrl+{number + 1}",
                partial(window.show_page, number),
                of_recipe=window.needs_recipe(number),
            )
        menu.addSeparator()
        self._choice(menu, tr("&Units"), "units", {str(key): UNIT_WORDS[key] for key in ShownUnits})
        self._choice(
            menu, tr("&Gravity"), "gravity", {key: GRAVITY_WORDS[key] for key in GRAVITIES}
        )
        self._choice(
            menu, tr("Beer c&olour"), "colour", {key: COLOUR_WORDS[key] for key in COLOURS}
        )
        self._choice(
            menu,
            tr("&Ingredient colour"),
            "ingredient_colour",
            {key: INGREDIENT_COLOUR_WORDS[key] for key in INGREDIENT_COLOURS},
        )
        self._choice(
            menu, tr("&Light or dark"), "scheme", {key: SCHEME_WORDS[key] for key in SCHEMES}
        )
        self._choice(
            menu, tr("Contr&ast"), "contrast", {key: CONTRAST_WORDS[key] for key in CONTRASTS}
        )
        self._choice(
            menu, tr("&Typeface"), "typeface", {key: TYPEFACE_WORDS[key] for key in TYPEFACES}
        )

    def _brew_day(self) -> None:
        """What is done on the page of the brew day; its single keys are the page's own."""
        window, menu = self._window, self._menu(tr("&Brew day"))
        of_page: list[QAction] = []
        for text, key, act in (
            (tr("&Done, go on"), tr("Space"), lambda: window.brew_day().do()),
            (tr("&Back a step"), tr("Backspace"), lambda: window.brew_day().go_back()),
            (tr("New &timer…"), "T", lambda: window.brew_day().ask_for_timer()),
            (tr("&Note for the log…"), "N", lambda: window.brew_day().ask_for_note()),
            (tr("&Keep this in the recipe"), "", lambda: window.brew_day().keep_in_recipe()),
            (tr("&Export the log…"), "", lambda: window.brew_day().log.export()),
        ):
            of_page.append(self._entry(menu, f"{text}\t{key}" if key else text, "", act))
        menu.addSeparator()
        full = self._entry(menu, tr("&Full screen"), "F11", window.turn_full, of_recipe=True)
        window.addAction(full)  # its key is to work where no menu is seen

        def offer() -> None:
            page = window.brew_page
            is_shown = page is not None and window.pages.currentWidget() is page
            for each in of_page:
                each.setEnabled(is_shown)
                each.setToolTip("" if is_shown else tr("On the page of the brew day"))

        offer()
        window.pages.currentChanged.connect(lambda _: offer())

    def _choice(self, menu: QMenu, title: str, name: str, words: dict[str, str]) -> None:
        """A sub-menu that sets one preference."""
        settings, sub = self._window.settings, menu.addMenu(title)
        group = QActionGroup(sub)
        for key, text in words.items():
            action = group.addAction(tr(text))
            action.setCheckable(True)
            action.setData(key)
            sub.addAction(action)

        def check() -> None:
            for action in group.actions():
                action.setChecked(action.data() == str(getattr(settings, name)))

        def choose(action: QAction) -> None:
            value = ShownUnits(action.data()) if name == "units" else action.data()
            setattr(settings, name, value)

        check()
        group.triggered.connect(choose)
        sub.aboutToShow.connect(check)

    def _help(
        self,
        show_help: Callable[[], None],
        report_problem: Callable[[], None],
        show_about: Callable[[], None],
        explaining: Explaining,
    ) -> None:
        menu = self._menu(tr("&Help"))
        self._entry(menu, tr("&Keys and first steps"), "F1", show_help)
        self._entry(menu, tr("&What is this?"), "Shift+F1", explaining.of_focus)
        self._entry(menu, tr("&Explain what I click on"), "", explaining.of_click)
        self._entry(menu, tr("&Glossary…"), "", explaining.all_terms)
        menu.addSeparator()
        self._entry(menu, tr("A gravity rea&ding, without a recipe…"), "", self._window.read_kit)
        menu.addSeparator()
        self._entry(menu, tr("&Report a problem…"), "", report_problem)
        self._entry(menu, tr("&About Hobwort"), "", show_about)


def _name_step(
    action: QAction, words: str, text_changed: SignalInstance, can_changed: SignalInstance
) -> None:
    """Let an action say which step it takes back or does again, while there is one."""
    plain = action.text()

    def name(step: str) -> None:
        if isValid(action):  # the stack may be there longer
            action.setText(tr(words, step=step) if step else plain)
            action.setToolTip(tip(as_read(action.text())))  # its menu shows tips

    action.setEnabled(False)
    text_changed.connect(name)
    can_changed.connect(action.setEnabled)


def _bind(button: QAbstractButton, action: QAction, text: str = "") -> None:
    """Let a button of the header do what an action does, and say what that would be."""

    def follow() -> None:
        if not isValid(action):  # it also changes while it goes down with its window
            return
        button.setEnabled(action.isEnabled())
        said = as_read(action.text())
        button.setToolTip(tip(said if action.isEnabled() else action.toolTip()))
        button.setAccessibleName(said)

    button.setText(text)
    button.clicked.connect(action.trigger)
    action.changed.connect(follow)
    follow()
