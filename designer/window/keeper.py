"""Keeps what is on the screen: a draft within a second of the last key, versions when saved.

Drafts carry the undo history, so that the next start goes on exactly where this one stopped, after
a crash too. Each open window holds a lock beside the store; a draft whose window holds none was
left behind.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
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
from designer.window.open_recipe import OpenRecipe
from designer.window.store_thread import StoreThread

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.backups import Backup
    from designer.library.store.rescue import Offer

AFTER_KEY_MS, LATEST_MS = 350, 900
HISTORY_KEPT = 60
CARE_MS = 15 * 60_000
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


def _recipes(count: int) -> str:
    return "1 recipe" if count == 1 else f"{count} recipes"


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
        self._care = QTimer(self, interval=CARE_MS)
        self._care.timeout.connect(self.look_after)
        for timer in (self._after_key, self._latest):
            timer.timeout.connect(self.write_draft)
        opened.recipe_changed.connect(self._note_change)
        opened.undo_stack.cleanChanged.connect(self._note_change)
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

    def _note_change(self) -> None:
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
            window = self._window()
            texts = tuple(self._text(each) for each in kept)
            store.drafts.put(
                Draft(
                    window, self._text(recipe), recipe_id, base, texts, position - first,
                    phrases=phrases,
                )
            )  # fmt: skip
            store.preferences.put(f"path {window}", str(path) if path is not None else None)

        self._drafted = True
        self.store.ask(work, lambda _: self._say_kept("draft kept"), self._say_broken, key="draft")

    def _text(self, recipe: Recipe) -> str:
        """The text of a recipe's document; those of the history are made once."""
        found = self._texts.get(id(recipe))
        if found is None or found[0] is not recipe:
            if len(self._texts) > 4 * HISTORY_KEPT:
                self._texts.clear()
            found = self._texts[id(recipe)] = (recipe, document_text(recipe))
        return found[1]

    def _window(self) -> str:
        """The name of this window's drafts, marked as open; asked for on the store's thread."""
        if self._mark is None:
            self._mark = OpenWindow(self._folder)
        return self._mark.name

    def begin(self, *, go_on: bool) -> None:
        """Begin to keep; with `go_on` show what the last session left, if nothing was touched."""
        self._note_change()
        if go_on:
            self.go_on()
        self.look_after()
        self._care.start()

    def go_on(self) -> None:
        """Look for what the last session left, and show it if nothing has been touched yet."""

        def work(store: Store) -> tuple[Draft | Version | None, str]:
            window = self._window()
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

        self.store.ask(work, self._show_left, self._say_broken)

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

    def save(self, name: str = "", then: Callable[[], None] | None = None) -> None:
        """Keep the recipe as a version; what it says then is saved."""
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
            store.drafts.drop(self._window(), recipe_id)
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
            self._say_kept(f"kept, version {mine.number}")
            if then is not None:
                then()

        self.store.ask(work, done, self._say_broken)

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
                store.drafts.drop(self._window(), recipe_id)

            told = f"“{name}” was kept in the Recipe box as you left it."
            self.store.ask(work, lambda _: self.said.emit(told, False), self._say_broken)
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

    def _say_kept(self, state: str) -> None:
        self.broken = ""
        self._say_state(state)

    def _say_broken(self, fault: str) -> None:
        self.broken = fault
        self._say_state("not kept")
        self.said.emit(f"{fault} Until then save to a file: File, Save as.", True)
        folder = self._folder

        def look(_: None) -> object:
            from designer.library.store.rescue import offer

            return offer(folder)

        self.store.ask(look, self.rescue_wanted.emit, None, key="offer", without_store=True)

    def _tell(self, fault: str) -> None:
        self.said.emit(fault, True)

    def _tell_unless_broken(self, fault: str) -> None:
        if not self.broken:
            self._tell(fault)

    # keeping the store itself

    def look_after(self) -> None:
        """Make a backup if anything changed since the last, and look whether the store is sound."""

        def work(store: Store) -> str:
            from designer.library.store.backups import make_backup
            from designer.library.store.health import SOUND, check

            health = check(store.path)
            if health.state != SOUND:
                return health.words
            if not store.read_only:
                make_backup(store.connection)
            return ""

        def done(words: str) -> None:
            if words:
                self._say_broken(words)

        self.store.ask(work, done, self._tell_unless_broken, key="look after")

    def make_backup(self, then: Callable[[], None]) -> None:
        """Make a backup now, though nothing may have changed since the last."""

        def done(made: Backup) -> None:
            self.said.emit(f"A backup was made and read back: {made.path.name}.", False)
            then()

        self.store.ask(lambda store: store.make_backup(forced=True), done, self._tell)

    def rescue(self, offer: Offer, way: str) -> None:
        """Set a damaged store aside and go on by "backup", "salvage" or "empty"."""
        folder = self._folder

        def work(_: None) -> str:
            from designer.library.store import rescue

            if way == "backup" and offer.backup is not None:
                return rescue.go_on_with_backup(folder, offer.backup).words
            if way == "salvage":
                return rescue.go_on_with_salvage(folder, offer.backup).words
            return rescue.begin_empty(folder).words

        def done(words: str) -> None:
            self._say_kept("")
            self.said.emit(words, True)
            self._note_change()

        self.store.ask(work, done, self._tell, without_store=True)

    def copy_all(self, target: Path) -> None:
        """Write everything the store holds into one file."""

        def work(store: Store) -> None:
            from designer.library.store.backups import copy_store

            copy_store(store.connection, target)

        told = f"Everything was copied to {target}, and the copy was read back."
        self.store.ask(work, lambda _: self.said.emit(told, False), self._tell)

    def bring_back_all(self, source: Path, called: str = "") -> None:
        """Put a backup, or a copy of everything, in place of what the store holds.

        What it holds is made a backup first, and can be taken back; a store that is beyond use is
        set aside, whole. `called` is how the backup is spoken of.
        """
        recipe_id, base = self.recipe_id, self.base
        name = called or source.name

        def work(store: Store) -> tuple[Backup | None, int, bool]:
            before = store.bring_back(source)
            window = self._window()
            for draft in store.drafts.all():
                if draft.window == window:  # the present draft is not to be written over it
                    store.drafts.take_over(draft, f"{window} as brought back")
            is_in_it = not recipe_id or store.recipes.has(recipe_id, base)
            return before, store.recipes.count(), is_in_it

        def done(result: tuple[Backup | None, int, bool]) -> None:
            before, count, is_in_it = result
            told = (
                f"{name} is back, with {_recipes(count)}. What the box held before is kept as its "
                "newest backup."
            )
            ways = []
            if before is not None:
                undo = partial(self.bring_back_all, before.path, "What was there before")
                ways.append(("Take that back", undo))
            self._go_on_in_another_box(is_in_it or self.recipe_id != recipe_id)
            self.offered.emit(told, ways)

        def instead(fault: str) -> None:
            self._replace_what_is_beyond_use(source, fault)

        self.store.ask(work, done, instead)

    def _replace_what_is_beyond_use(self, source: Path, fault: str) -> None:
        """Where the store could not even be opened: set it aside and put the backup there."""
        folder = self._folder

        def work(_: None) -> str:
            from designer.library.store import rescue
            from designer.library.store.folder import store_path
            from designer.library.store.health import check

            if check(store_path(folder)).state not in rescue.BEYOND_USE:
                return ""
            return rescue.go_on_with_copy(folder, source).words

        def done(words: str) -> None:
            if not words:
                self._tell(fault)
                return
            self._go_on_in_another_box(True)
            self.said.emit(words, True)

        self.store.ask(work, done, self._tell, without_store=True)

    def _go_on_in_another_box(self, is_in_it: bool) -> None:
        """What is open stays open; where the box does not hold it, it counts as unsaved."""
        if not is_in_it:
            self.recipe_id, self.base = 0, 0
            self._opened.undo_stack.resetClean()
        self._say_kept("")
        self._note_change()
        self.box_replaced.emit()

    def close(self) -> None:
        """Keep what is still to be kept, and let the store go."""
        if self._after_key.isActive() or self._latest.isActive():
            self.write_draft()
        if not self._opened.unsaved and self._drafted:
            recipe_id = self.recipe_id
            self.store.ask(lambda store: store.drafts.drop(self._window(), recipe_id), None, None)
        self.store.stop()
        if self._mark is not None:
            self._mark.close()
            self._mark = None
