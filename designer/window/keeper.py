"""Keeps what is on the screen: a draft within a second of the last key, versions when saved.

Drafts carry the undo history, so that the next start goes on exactly where this one stopped, after
a crash too. Each open window holds a lock beside the store; a draft whose window holds none was
left behind.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication

from designer.brewday.results import Outlook
from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store import Conflict, Draft, Summary, Version
from designer.library.store.folder import BACKUP_FOLDER
from designer.library.store.windows import OpenWindow, open_windows
from designer.recipe.document import Recipe
from designer.window.caretaker import Caretaker
from designer.window.open_recipe import OpenRecipe
from designer.window.store_thread import StoreThread

if TYPE_CHECKING:
    from designer.library.store import Store

AFTER_KEY_MS, LATEST_MS = 350, 900
HISTORY_KEPT = 60
LAST = "last recipe"


def summary_of(recipe: Recipe, outlook: Outlook) -> Summary:
    """Return what the Recipe box lists of a recipe."""
    day = outlook.day
    return Summary(
        style=recipe.style,
        fermenter=recipe.fermenter.name,
        pot=recipe.pot.name,
        og=float(day.original_gravity),
        fg=float(day.final_gravity),
        abv=float(day.abv_percent),
        ibu=float(day.bitterness_ibu),
        srm=float(day.colour_srm),
        batch_l=float(day.batch_l),
        pot_fullest_l=float(day.fullest_l),
    )


class Keeper(QObject):
    """Stands between one window and the store."""

    said = Signal(str, bool)
    rescue_wanted = Signal(object)
    state_changed = Signal(str)
    offered = Signal(str, object)
    box_replaced = Signal()

    def __init__(
        self, opened: OpenRecipe, thread: StoreThread, folder: Path, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self.store, self._folder = opened, thread, folder
        self.recipe_id, self.base = 0, 0
        self.state = ""
        self.broken = ""
        self._texts: dict[int, tuple[Recipe, str]] = {}
        self._mark: OpenWindow | None = None
        self._untouched = True
        self._drafted = False
        self._after_key = QTimer(self, singleShot=True, interval=AFTER_KEY_MS)
        self._latest = QTimer(self, singleShot=True, interval=LATEST_MS)
        self.care = Caretaker(self)
        for timer in (self._after_key, self._latest):
            timer.timeout.connect(self.write_draft)
        opened.recipe_changed.connect(self.note_change)
        opened.undo_stack.cleanChanged.connect(self.note_change)
        QGuiApplication.instance().applicationStateChanged.connect(self._note_state)  # type: ignore[union-attr]

    @property
    def folder(self) -> Path:
        """Where the store lies."""
        return self._folder

    @property
    def backup_folder(self) -> Path:
        """Where the backups lie."""
        return self._folder / BACKUP_FOLDER

    # drafts

    def note_change(self) -> None:
        """Something may be unkept now: write a draft soon."""
        if not self._opened.unsaved:
            return
        self._untouched = False
        self._say_state("keeping…")
        self._after_key.start()
        if not self._latest.isActive():
            self._latest.start()

    def _note_state(self, state: Qt.ApplicationState) -> None:
        if state != Qt.ApplicationState.ApplicationActive and self._after_key.isActive():
            self.write_draft()

    def write_draft(self) -> None:
        """Put the recipe as it is, with its history, into the store now."""
        self._after_key.stop()
        self._latest.stop()
        if not self._opened.unsaved:
            return
        history, position = self._opened.history()
        first = min(max(position - HISTORY_KEPT // 2, 0), max(len(history) - HISTORY_KEPT, 0))
        kept = history[first : first + HISTORY_KEPT]
        phrases = self._opened.phrases()[first : first + HISTORY_KEPT]
        recipe = self._opened.recipe
        recipe_id, base, path = self.recipe_id, self.base, self._opened.path

        def work(store: Store) -> None:
            window = self.window_name()
            texts = tuple(self._text(each) for each in kept)
            store.drafts.put(
                Draft(
                    window, self._text(recipe), recipe_id, base, texts, position - first,
                    phrases=phrases,
                )
            )  # fmt: skip
            store.preferences.put(f"path {window}", str(path) if path is not None else None)

        self._drafted = True
        self.store.ask(work, lambda _: self.say_kept("draft kept"), self.say_broken, key="draft")

    def _text(self, recipe: Recipe) -> str:
        """The text of a recipe's document; those of the history are made once."""
        found = self._texts.get(id(recipe))
        if found is None or found[0] is not recipe:
            if len(self._texts) > 4 * HISTORY_KEPT:
                self._texts.clear()
            found = self._texts[id(recipe)] = (recipe, document_text(recipe))
        return found[1]

    def window_name(self) -> str:
        """The name of this window's drafts, marked as open; asked for on the store's thread."""
        if self._mark is None:
            self._mark = OpenWindow(self._folder)
        return self._mark.name

    def begin(self, *, go_on: bool) -> None:
        """Begin to keep; with `go_on` show what the last session left, if nothing was touched."""
        self.note_change()
        if go_on:
            self.go_on()
        self.care.begin()

    def go_on(self) -> None:
        """Look for what the last session left, and show it if nothing has been touched yet."""

        def work(store: Store) -> tuple[Draft | Version | None, str]:
            window = self.window_name()
            left = store.drafts.left_behind(open_windows(self._folder))
            if left:
                path = store.preferences.get(f"path {left[-1].window}")
                store.preferences.put(f"path {left[-1].window}", None)
                draft = store.drafts.take_over(left[-1], window)
                return draft, path if isinstance(path, str) else ""
            last = store.preferences.get(LAST, 0)
            if not isinstance(last, int) or not last:
                return None, ""
            try:
                return store.recipes.newest(last), ""
            except DesignerError:
                return None, ""  # it was deleted since

        self.store.ask(work, self._show_left, self.say_broken)

    def _show_left(self, found: tuple[Draft | Version | None, str]) -> None:
        left, path = found
        if left is None:
            return
        if not self._untouched:
            self.said.emit("What was open last is kept; find it in the Recipe box.", False)
            return
        try:
            if isinstance(left, Version):
                self.show_version(left)
                return
            texts = left.undo or (left.document,)
            history = tuple(read_document(text, "draft") for text in texts)
        except DesignerError as fault:
            self.said.emit(str(fault), True)
            return
        self.recipe_id, self.base = left.recipe, left.base
        position, at = (left.position if left.undo else 0), (Path(path) if path else None)
        self._opened.go_on(history, position, at, left.phrases)
        self.said.emit(f"Going on with “{self._opened.recipe.name}” where it was left.", False)

    # versions

    def save(
        self,
        name: str = "",
        then: Callable[[int], None] | None = None,
        failed: Callable[[str], None] | None = None,
    ) -> None:
        """Keep the recipe as a version; what it says then is saved.

        `then` gets the number of the version, `failed` why none was kept.
        """
        recipe, outlook = self._opened.recipe, self._opened.newest_outlook()
        at = self._opened.undo_stack.index()
        recipe_id, base = self.recipe_id, self.base

        def work(store: Store) -> Version | Conflict:
            document, summary = self._text(recipe), summary_of(recipe, outlook)
            kept: Version | Conflict
            if recipe_id:
                kept = store.recipes.save(recipe_id, document, summary, base=base, name=name)
            else:
                kept = store.recipes.add(document, summary, name=name)
            mine = kept.mine if isinstance(kept, Conflict) else kept
            store.drafts.drop(self.window_name(), recipe_id)
            store.preferences.put(LAST, mine.recipe)
            return kept

        def done(kept: Version | Conflict) -> None:
            mine = kept.mine if isinstance(kept, Conflict) else kept
            self.recipe_id, self.base = mine.recipe, mine.id
            if self._opened.undo_stack.index() == at:
                self._drafted = False
                self._opened.undo_stack.setClean()
            if isinstance(kept, Conflict):
                self.said.emit(str(kept), True)
            self.say_kept(f"kept, version {mine.number}")
            if then is not None:
                then(mine.number)

        def refuse(fault: str) -> None:
            self.say_broken(fault)
            if failed is not None:
                failed(fault)

        self.store.ask(work, done, refuse)

    def leave(self) -> None:
        """Before another recipe takes its place: keep what is unsaved as a version."""
        if self._opened.unsaved:
            name = self._opened.recipe.name
            recipe, outlook = self._opened.recipe, self._opened.newest_outlook()
            recipe_id, base = self.recipe_id, self.base

            def work(store: Store) -> None:
                document, summary = self._text(recipe), summary_of(recipe, outlook)
                if recipe_id:
                    store.recipes.save(recipe_id, document, summary, base=base)
                else:
                    store.recipes.add(document, summary)
                store.drafts.drop(self.window_name(), recipe_id)

            told = f"“{name}” was kept in the Recipe box as you left it."
            self.store.ask(work, lambda _: self.said.emit(told, False), self.say_broken)
        self.start_afresh()

    def start_afresh(self) -> None:
        """What is opened next belongs to no recipe of the box yet."""
        self._after_key.stop()
        self._latest.stop()
        self.recipe_id, self.base = 0, 0
        self._untouched = False
        self._drafted = False
        self._say_state("")

    def show_version(self, version: Version) -> None:
        """Open a version of the box. Raises DesignerError for a document that cannot be read."""
        recipe = read_document(version.document, f"version {version.number}")
        self._opened.replace_by(recipe, None)
        self.recipe_id, self.base = version.recipe, version.id
        self._say_state(f"kept, version {version.number}")
        recipe_id = version.recipe
        self.store.ask(lambda store: store.preferences.put(LAST, recipe_id), None, None)

    # telling

    def _say_state(self, state: str) -> None:
        self.state = state
        self.state_changed.emit(state)

    def say_kept(self, state: str) -> None:
        """Say what holds the recipe; the store is well."""
        self.broken = ""
        self._say_state(state)

    def say_broken(self, fault: str) -> None:
        """Say that the store could not take it, and look what could be done about that."""
        self.broken = fault
        self._say_state("not kept")
        self.said.emit(f"{fault} Until then save to a file: File, Save as.", True)
        folder = self._folder

        def look(_: None) -> object:
            from designer.library.store.rescue import offer

            return offer(folder)

        self.store.ask(look, self.rescue_wanted.emit, None, key="offer", without_store=True)

    # for the care of the whole box

    def go_on_in_another_box(self, is_in_it: bool) -> None:
        """What is open stays open; where the box does not hold it, it counts as unsaved."""
        if not is_in_it:
            self.recipe_id, self.base = 0, 0
            self._opened.undo_stack.resetClean()
        self.say_kept("")
        self.note_change()
        self.box_replaced.emit()

    def close(self) -> None:
        """Keep what is still to be kept, and let the store go."""
        if self._after_key.isActive() or self._latest.isActive():
            self.write_draft()
        if not self._opened.unsaved and self._drafted:
            recipe_id = self.recipe_id
            self.store.ask(
                lambda store: store.drafts.drop(self.window_name(), recipe_id), None, None
            )
        self.care.close()
        self.store.stop()
        if self._mark is not None:
            self._mark.close()
            self._mark = None
