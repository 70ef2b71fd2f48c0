"""What the File menu asks for: recipes opened and saved, tables of ingredients in and out."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QUrl

from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.paged_window import FIT, PagedWindow
from designer.window.recipe_closing import RecipeClosing
from designer.workbench.examples import PORTER, example

if TYPE_CHECKING:
    from designer.library.store import Version
    from designer.window.compose.bill_files import BillFiles
    from designer.window.session.to_go_on_with import Thing

MOST_WINDOWS = 5
"""More files at once are not opened in windows of their own."""


class RecipeFiles:
    """Puts recipes in place of the open one of a window, each once that is kept."""

    def __init__(self, window: PagedWindow, recipe_closing: RecipeClosing) -> None:
        self._window, self._recipe_closing = window, recipe_closing
        self._bill: BillFiles | None = None
        window.begun.connect(self._begin_with)
        window.begun_to_fit.connect(self._begin_at_fit)
        window.example_wanted.connect(self.open_example)
        window.file_wanted.connect(self.open_file)
        window.version_wanted.connect(self.open_version)
        window.go_on_wanted.connect(self.go_on_with)
        window.keeping.version_wanted.connect(self.open_version)

    # another recipe

    def _begin_with(self, recipe: Recipe) -> None:
        words = tr("A place to start from: change any line, and watch the forecast follow.")
        # It was made of what a brewer has answered, so it is kept from the first moment on.
        self._put(recipe, None, lambda: self._window.messages.say(words), is_kept=False)

    def _begin_at_fit(self, recipe: Recipe) -> None:
        """Begin with a recipe that the vessels do not hold: the ways to brew it are shown."""
        window = self._window
        at = window.page_names.index(FIT)
        self._put(recipe, None, lambda: window.show_page(at), is_kept=False)

    def new_recipe(self) -> None:
        """Begin an empty recipe in the same vessels."""
        old = self._window.opened.recipe
        self._put(Recipe(pot=old.pot, fermenter=old.fermenter, process=old.process), None)

    def open_example(self, name: str = PORTER) -> None:
        """Open an example: it is there at once, and becomes one's own with the first change."""
        recipe = example(name)

        def note() -> None:
            if self._window.autosave is not None:
                self._window.autosave.begin_example(name, recipe)

        self._put(recipe, None, note)

    def open_file(self) -> None:
        """Ask for a recipe file and open it."""
        path = self._window.questions.which_file(self._window, self._window.folder())
        if path is not None:
            self.open_path(path)

    def open_path(self, path: Path, *, keep_path: bool = True) -> None:
        """Open a file that is already named, such as a recent one.

        Without `keep_path` it is opened as a recipe that is in no file yet.
        """

        def show(recipe: Recipe) -> None:
            then = partial(self._window.settings.remember, path) if keep_path else None
            self._put(recipe, path if keep_path else None, then)

        self._window.keeping.saving.on_disk.open(path, show, self._say_fault)

    def _say_fault(self, fault: DesignerError) -> None:
        self._window.messages.say(str(fault), grave=True)

    def _put(
        self,
        recipe: Recipe,
        path: Path | None,
        then: Callable[[], None] | None = None,
        *,
        is_kept: bool = True,
    ) -> None:
        """Put another recipe in place of the open one, once that is kept.

        One that nothing holds yet, not `is_kept`, counts as unsaved.
        """
        window = self._window

        def show() -> None:
            if window.autosave is not None:
                window.autosave.start_afresh()
            if is_kept:
                window.opened.replace_by(recipe, path)
            else:
                window.opened.go_on((recipe,), 0, path)

        self._leave_for(show, then)

    def begin_with(self, recipe: Recipe, then: Callable[[], None]) -> None:
        """Begin with a recipe that nothing holds yet; `then` follows once it is shown."""
        self._put(recipe, None, then, is_kept=False)

    def open_version(self, version: Version, then: Callable[[], None] | None = None) -> None:
        """Open a recipe of the Recipe box; `then` follows once it is shown."""
        autosave = self._window.autosave
        if autosave is None:
            return
        try:
            recipe = read_document(version.document, version.called)
        except DesignerError as fault:
            self._say_fault(fault)
        else:
            self._leave_for(partial(autosave.show_version, version, recipe), then)

    def go_on_with(self, thing: Thing) -> None:
        """Go on with a draft that was left behind, a recipe of the box or a file."""
        autosave = self._window.autosave
        if thing.path is not None:
            self.open_path(thing.path)
        elif thing.version is not None:
            self.open_version(thing.version)
        elif autosave is not None:
            take = partial(autosave.take_draft, thing.draft, self._show_taken, self._say_failed)
            self._recipe_closing.leave_for(take)

    def _show_taken(self) -> None:
        self._window.show_page(0)

    def _say_failed(self, fault: str) -> None:
        self._window.messages.say(fault, grave=True)

    def _leave_for(self, show: Callable[[], None], then: Callable[[], None] | None = None) -> None:
        """Show another recipe; then say what was typed in the one before and not taken."""
        window = self._window

        def go() -> None:
            untaken, name = window.opened.untaken, window.recipe_name()
            show()
            window.messages.clear()
            window.show_page(0)
            if untaken:
                text = tr(
                    "Typed in {name} and not taken: {texts}.", name=name, texts=", ".join(untaken)
                )
                window.messages.say(text, refused=True)
            if then is not None:
                then()

        self._recipe_closing.leave_for(go)

    # saving

    def save(self) -> None:
        """Keep a version in the Recipe box, and write the recipe's file if it has one."""
        self._window.keeping.saving.save()

    def save_as(self) -> None:
        """Ask for a file and write the recipe to it."""
        self._window.keeping.saving.save_as()

    # ingredients

    @property
    def bill(self) -> BillFiles:
        """What takes tables of ingredients in and out; loaded when first wanted."""
        if self._bill is None:
            from designer.window.compose.bill_files import BillFiles

            self._bill = BillFiles(self._window, self._window.keeping.saving)
        return self._bill

    def take_dropped(self, urls: list[QUrl], *, is_passing: bool) -> None:
        """Open the first file that was dropped, the others in windows of their own.

        One that is a table is brought in. Too many for windows are offered to the Recipe box. Files
        that are `is_passing` are there for the moment only, out of another Recipe box.
        """
        from designer.window.parts.questions import TABLES  # not before the first picture

        if not urls:
            return
        path, *others = [Path(each.toLocalFile()) for each in urls]
        if path.suffix.lower() not in TABLES:
            self.open_path(path, keep_path=not is_passing)
            self._open_others([each for each in others if each.suffix.lower() not in TABLES])
        elif self._window.opened.is_open:
            self.bill.read(path)
        else:
            words = tr("No recipe is open to take the lines of {file}.", file=path.name)
            self._window.messages.say(words, refused=True)

    def _open_others(self, paths: list[Path]) -> None:
        """Open each file in a window of its own, as long as one can keep an eye on them."""
        window = self._window
        if len(paths) < MOST_WINDOWS:
            for path in paths:
                window.open_window(str(path.absolute()))
            return
        said = tr(
            "{number} more recipes were dropped, too many for windows of their own.",
            number=len(paths),
        )
        take_in = [(tr("Import them into the Recipe box"), lambda: window.import_into_box(paths))]
        window.messages.say(said, actions=take_in if window.keeping.has_box else [])
