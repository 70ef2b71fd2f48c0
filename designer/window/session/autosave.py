"""Keeps what is on the screen: a draft within a second of the last key, versions when saved.

Drafts carry the undo history, so that the next start goes on exactly where this one stopped, after
a crash too. Each open window holds a lock beside the store; a draft whose window holds none was
left behind.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QLineEdit

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store import Conflict, Draft, Version
from designer.library.store.folder import BACKUP_FOLDER
from designer.library.store.windows import OpenWindow, new_window_name, sitting_name
from designer.recipe.document import Recipe
from designer.window.session.open_recipe import NOT_IN_FILE, OpenRecipe
from designer.window.session.sitting import (
    Sitting,
    drop_draft,
    keep_version,
    note_last,
    put_file,
)
from designer.window.session.store_thread import StoreThread
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.health import Health
    from designer.window.parts.settings import Written
    from designer.window.session.left_behind import Left

AFTER_KEY_MS, LATEST_MS = 350, 900
STOPPING_S = 10.0
"""How long the end of the program waits for work that was asked for, if the disk is slow."""
AGAIN_MS = 3000
"""After a failure the store is tried again so often, and with each key and each save."""
HISTORY_KEPT = 60
OLDER_DRAFT = "The Recipe box held an older draft of it: Undo brings that back."
DRAFT_KEPT, KEEPING = "draft kept", "keeping…"
Then = Callable[[], None]
Failed = Callable[[str], None]


def _nothing() -> None:
    """What follows where nothing has to."""


def _say_nothing(_: object) -> None:
    """What is said where all was told already."""


class Autosave(QObject):
    """Stands between one window and the store."""

    said = Signal(str, bool)
    trouble = Signal(str)
    well_again = Signal()
    state_changed = Signal(str)
    offered = Signal(str, object)
    version_wanted = Signal(object)
    box_replaced = Signal()
    file_is_newest = Signal(object)
    """A file holds what no draft holds yet: a `Written`."""
    holds_newest = Signal()
    """The store holds what is newest, or knows the file that does."""
    moved = Signal(str, Path)
    opened_anew = Signal()
    """The store was opened again, because the brewer asked for that."""

    def __init__(
        self, opened: OpenRecipe, thread: StoreThread, folder: Path, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self.store, self._folder = opened, thread, folder
        self._window, self._numbers = new_window_name(), count(1)
        self._sitting = Sitting(self.next_sitting())
        self.state = self._clean_state = ""
        self._is_damaged = False
        self.broken = ""
        self.written: Written | None = None
        self._newest_file: Written | None = None
        self._file_changes = 0
        self._problem = ""
        self._kept: Recipe | None = None
        self._texts: dict[int, tuple[Recipe, str]] = {}
        self._mark: OpenWindow | None = None
        self._untouched, self._has_begun = True, False
        self._after_key = QTimer(self, singleShot=True, interval=AFTER_KEY_MS)
        self._latest = QTimer(self, singleShot=True, interval=LATEST_MS)
        self._again = QTimer(self, interval=AGAIN_MS)
        for timer in (self._after_key, self._latest):
            timer.timeout.connect(self.write_draft)
        self._again.timeout.connect(self._try_again)
        opened.recipe_changed.connect(self.note_change)
        opened.undo_stack.cleanChanged.connect(self.note_change)
        opened.path_changed.connect(self.note_last)
        opened.written.connect(self._note_file)
        QGuiApplication.instance().applicationStateChanged.connect(self._note_state)  # type: ignore[union-attr]

    @property
    def folder(self) -> Path:
        """Where the store lies."""
        return self._folder

    @property
    def backup_folder(self) -> Path:
        """Where the backups lie."""
        return self._folder / BACKUP_FOLDER

    @property
    def recipe_id(self) -> int:
        """The recipe of the box that is open; 0 for none."""
        return self._sitting.recipe

    @property
    def base(self) -> int:
        """The version of the box that the text was made from; 0 for none."""
        return self._sitting.base

    def next_sitting(self) -> str:
        """Return the name for another sitting in this window."""
        return sitting_name(self._window, next(self._numbers))

    @property
    def settled(self) -> bool:
        """Whether nothing that the brewer made is still on its way to the store."""
        held = not self._opened.unsaved or self._kept is self._opened.recipe
        return held and not self.store.owes

    # drafts

    def note_change(self) -> None:
        """Something may be unkept now, or is no longer: let the draft follow soon."""
        is_unsaved = self._opened.unsaved
        self._untouched = self._untouched and not is_unsaved
        if is_unsaved and self._kept is self._opened.recipe:
            self._rest(DRAFT_KEPT)  # such as a change that was undone and made again
        elif not is_unsaved and not self._sitting.drafted:
            self._rest(self._clean_state)
        else:
            self._say_state(KEEPING if is_unsaved else self._clean_state)
            self._after_key.start()
            if not self._latest.isActive():
                self._latest.start()

    def _rest(self, state: str) -> None:
        """Nothing is to be written."""
        self._after_key.stop()
        self._latest.stop()
        self._say_state(state)

    def _note_state(self, state: Qt.ApplicationState) -> None:
        if state != Qt.ApplicationState.ApplicationActive and self._after_key.isActive():
            self.write_draft()

    def _try_again(self) -> None:
        if not self.broken:
            self._again.stop()
        elif self.store.busy:
            return
        elif self._opened.unsaved and self._kept is not self._opened.recipe:
            self.write_draft()
        elif not self._has_begun:
            self.go_on(self._opened.path)

    def write_draft(self) -> None:
        """Put the recipe as it is, with its history, into the store now."""
        self.keep_draft(_nothing, _say_nothing)

    def keep_draft(self, then: Then, failed: Failed) -> None:
        """Put the recipe as it is into the store: `then` once it is there, `failed` if not.

        What is saved needs no draft: that of an undone change goes.
        """
        self._after_key.stop()
        self._latest.stop()
        sitting, recipe, changes = self._sitting, self._opened.recipe, self._opened.changes
        if not self._opened.unsaved:
            self._drop_draft(then)
            return
        make, path, mark = self._draft_to_be(), self._opened.path, self._opened.file_mark

        def work(store: Store) -> str:
            self.window_name()
            draft = make()

            def all_at_once(_: object) -> None:
                store.drafts.drop(sitting.name)  # that of another number: it was saved meanwhile
                sitting.number = store.drafts.put(draft).number
                if path is not None:
                    put_file(store, sitting.name, path, mark)

            store.connection.write(all_at_once)
            sitting.drafted = True
            return _unreadable(draft.document)

        def done(problem: str) -> None:
            self._note_draft(sitting, recipe, problem, changes)
            if problem:
                failed(problem)
            else:
                then()

        self.store.ask(work, done, partial(self._tell, failed), key=f"draft {sitting.name}")

    def _note_draft(self, sitting: Sitting, recipe: Recipe, problem: str, changes: int) -> None:
        """A draft is in the store: say so if it is what is on the screen.

        It was made after so many changes of the open recipe.
        """
        self._say_well()
        if sitting is not self._sitting:
            return
        self._kept = None if problem else recipe
        if not problem:
            self._weigh_against_file(sitting, is_newer=changes >= self._file_changes)
        if recipe is not self._opened.recipe or not problem:
            self.note_change()
        else:
            self._say_problem(problem)

    def _note_file(self, path: Path) -> None:
        """A file holds what is on the screen now."""
        from designer.window.parts.settings import Written

        self._file_changes = self._opened.changes
        self._newest_file = Written(path, self._sitting.name, self._sitting.number)
        self.file_is_newest.emit(self._newest_file)

    def _weigh_against_file(self, sitting: Sitting, *, is_newer: bool) -> None:
        """A draft is in the store: it is newest, or the file that was written meanwhile."""
        if is_newer or self._newest_file is None or self._newest_file.sitting != sitting.name:
            self._newest_file = None
            self.holds_newest.emit()
        else:
            self._newest_file = self._newest_file._replace(number=sitting.number)
            self.file_is_newest.emit(self._newest_file)

    def _draft_to_be(self) -> Callable[[], Draft]:
        """Return what makes the draft of the recipe as it is now, on the store's thread."""
        history, position = self._opened.history()
        first = min(max(position - HISTORY_KEPT // 2, 0), max(len(history) - HISTORY_KEPT, 0))
        kept = history[first : first + HISTORY_KEPT]
        phrases = self._opened.phrases()[first : first + HISTORY_KEPT]
        sitting, recipe = self._sitting, self._opened.recipe

        def make() -> Draft:
            texts = tuple(self._text(each) for each in kept)
            return Draft(
                sitting.name, self._text(recipe), sitting.recipe, sitting.base, texts,
                position - first, phrases=phrases,
            )  # fmt: skip

        return make

    def _drop_draft(self, then: Then = _nothing) -> None:
        sitting, self._kept = self._sitting, None

        def work(store: Store) -> None:
            if sitting.drafted:
                drop_draft(store, sitting.name)
                sitting.drafted = False

        self.store.ask(work, lambda _: then(), lambda _: then(), key=f"draft {sitting.name}")

    def _text(self, recipe: Recipe) -> str:
        """The text of a recipe's document; those of the history are made once."""
        found = self._texts.get(id(recipe))
        if found is None or found[0] is not recipe:
            if len(self._texts) > 4 * HISTORY_KEPT:
                self._texts.clear()
            found = self._texts[id(recipe)] = (recipe, document_text(recipe))
        return found[1]

    def window_name(self) -> str:
        """The name of this window, marked as open; asked for on the store's thread."""
        if self._mark is None:
            self._mark = OpenWindow(self._folder, self._window)
        return self._window

    # beginning

    def begin(self, *, go_on: bool) -> None:
        """Begin to keep; with `go_on` show what the last session left, if nothing was touched."""
        self.note_change()
        self.go_on(None if go_on else self._opened.path)
        self.note_last()

    def go_on(self, only: Path | None = None) -> None:
        """Look for what closed windows left, and show the last of it if nothing is touched yet.

        With `only` a file was asked for: only a draft of it is gone on with.
        """
        written = self.written

        def work(store: Store) -> Left:
            from designer.window.session.left_behind import find_left

            if not store.read_only:
                self.window_name()
            return find_left(store, self.next_sitting, only, written)

        self.store.ask(work, self._show_left, self.say_broken, key="go on")

    def _show_left(self, left: Left) -> None:
        self._has_begun = True
        self._say_well()
        told = list(left.told)
        if left.history and left.sitting is not None:
            if self._untouched and not _is_typing():
                told = [*self._go_on_with(left, left.sitting), *told]
            elif left.draft is not None:
                self._file(left.draft)
            elif left.version is not None:
                self._offer_to_open(left.version, "was open last; it is")
            elif left.path is not None:
                told.append(f"“{_short(left.recipe.name)}” was open last; it is in {left.path}.")
        if left.filed:
            which = ", ".join(f"“{_name_of(each)}” (version {each.number})" for each in left.filed)
            told.append(f"Left unsaved before, now in the Recipe box: {which}.")
        if told:
            self.said.emit(" ".join(told), bool(left.told))

    def _go_on_with(self, left: Left, sitting: Sitting) -> list[str]:
        """Show what was left; return what there is to say about it."""
        version = left.version
        self._begin_sitting(sitting, f"kept, version {version.number}" if version else "")
        if left.draft is None:
            self._opened.replace_by(left.recipe, left.path)
            return []
        if sitting.drafted:
            self._kept = left.recipe
        self._opened.go_on(left.history, left.position, left.path, left.phrases, left.file_mark)
        if left.is_written and left.path is not None:
            self._opened.note_written(left.recipe, left.path)
            told = f"Going on with “{_short(left.recipe.name)}” as it was saved to {left.path}."
            return [told, OLDER_DRAFT] if left.position else [told]
        return [f"Going on with “{_short(left.recipe.name)}” where it was left."]

    def _file(self, draft: Draft) -> None:
        """A draft cannot be shown any more: put it into the box, and say where it is."""

        def work(store: Store) -> Version | None:
            from designer.window.session.left_behind import file_draft

            return file_draft(store, draft)

        def done(version: Version | None) -> None:
            if version is not None:
                self._offer_to_open(version, "was left unsaved before; it is")

        self.store.ask(work, done, lambda fault: self.said.emit(fault, True))

    def _offer_to_open(self, version: Version, words: str) -> None:
        self.offered.emit(
            f"“{_name_of(version)}” {words} in the Recipe box as version {version.number}.",
            [("Open it", partial(self.version_wanted.emit, version))],
        )

    def note_last(self) -> None:
        """Let the next start know what is open now: not a file that could not be written."""
        sitting, path = self._sitting, self._opened.path
        if self._opened.file_trouble == NOT_IN_FILE:
            path = None

        def work(store: Store) -> bool:
            has_any = bool(sitting.recipe) or path is not None
            if has_any:
                note_last(store, sitting, path)
            return has_any and not sitting.drafted

        def done(is_known: bool) -> None:
            if is_known and sitting is self._sitting and path == self._opened.path:
                self.holds_newest.emit()

        self.store.ask(work, done, key="last")

    # versions

    def save(
        self,
        name: str = "",
        then: Callable[[int], None] | None = None,
        failed: Failed | None = None,
    ) -> None:
        """Keep the recipe as a version; what it says then is saved.

        `then` gets the number of the version, `failed` why none was kept.
        """
        self.keep_version(then or _say_nothing, failed or _say_nothing, name=name)

    def leave(self, then: Then, failed: Failed) -> None:
        """Before another recipe takes its place: keep what is unsaved as a version."""
        told = f"“{_short(self._opened.recipe.name)}” was kept in the Recipe box as you left it."

        def kept(_: int) -> None:
            then()
            self.said.emit(told, False)

        self.keep_version(kept, failed)

    def keep_version(self, then: Callable[[int], None], failed: Failed, *, name: str = "") -> None:
        """Keep the recipe as a version: `then` gets its number, `failed` why none was kept."""
        recipe, outlook = self._opened.recipe, self._opened.newest_outlook()
        sitting, path = self._sitting, self._opened.path

        def work(store: Store) -> Version | Conflict | str:
            document, summary = self._text(recipe), summary_of(recipe, outlook)
            problem = _unreadable(document)
            return problem or keep_version(store, sitting, document, summary, name=name, path=path)

        def done(kept: Version | Conflict | str) -> None:
            if isinstance(kept, str):
                self._say_problem(kept, again=True)
                failed(kept)
                return
            self._note_version(kept, sitting, recipe)
            then((kept.mine if isinstance(kept, Conflict) else kept).number)

        self.store.ask(work, done, partial(self._tell, failed, again=True))

    def _note_version(self, kept: Version | Conflict, sitting: Sitting, recipe: Recipe) -> None:
        """A version is in the box: if it is what is on the screen, that is saved."""
        mine = kept.mine if isinstance(kept, Conflict) else kept
        self._say_well()
        if isinstance(kept, Conflict):
            self.said.emit(str(kept), True)
        if sitting is not self._sitting:
            return
        self._kept, self._clean_state = None, f"kept, version {mine.number}"
        if self._opened.recipe is recipe:
            self._opened.undo_stack.setClean()
            self.holds_newest.emit()
        self.note_change()

    def keep_for_closing(self, then: Then, failed: Failed) -> None:
        """Keep what is on the screen, and wait for all else that was asked of the store."""

        def wait() -> None:
            self.store.ask(lambda _: None, lambda _: then(), lambda _: then())

        self.keep_draft(wait if self.store.owes else then, failed)

    def start_afresh(self) -> None:
        """What is opened next belongs to no recipe of the box yet."""
        self._begin_sitting(Sitting(self.next_sitting()), "")

    def _begin_sitting(self, sitting: Sitting, state: str) -> None:
        self._after_key.stop()
        self._latest.stop()
        self._sitting, self._kept = sitting, None
        self._untouched = False
        self._clean_state = state
        self._say_state(state)

    def show_version(self, version: Version, recipe: Recipe | None = None) -> None:
        """Open a version of the box, read as `recipe`.

        Raises DesignerError for a document that cannot be read.
        """
        if recipe is None:
            recipe = read_document(version.document, f"version {version.number}")
        sitting = Sitting(self.next_sitting(), version.recipe, version.id, version.id)
        self._begin_sitting(sitting, f"kept, version {version.number}")

        def look(store: Store) -> None:
            sitting.seen = max(sitting.seen, store.recipes.newest(version.recipe).id)

        self.store.ask(look, key=f"newest of {version.recipe}")
        self._opened.replace_by(recipe, None)

    def note_brought_back(self, version: Version) -> None:
        """A version was made the newest again: if its recipe is open, that is what is open now."""
        if version.recipe != self._sitting.recipe:
            return
        if self._opened.unsaved:
            self._sitting.seen = version.id
            return
        self.show_version(version)

    # telling

    def _say_state(self, state: str) -> None:
        self.state = state
        self.state_changed.emit(state)

    def say_kept(self, state: str) -> None:
        """Say what holds the recipe, "" for nothing yet; the store is well."""
        self._kept = self._kept if state else None
        self._is_damaged = False
        self._say_well()
        self._say_state(state)

    @property
    def is_damaged(self) -> bool:
        """Whether the store's file was looked through and found damaged."""
        return self._is_damaged

    def note_health(self, health: Health) -> None:
        """The store's file was looked through: where it is damaged, parts of it may work on."""
        from designer.library.store.health import DAMAGED, SOUND

        was_damaged, self._is_damaged = self._is_damaged, health.state == DAMAGED
        if health.state != SOUND:
            self.say_broken(health.words)
        elif was_damaged:
            self._say_well()

    def _say_well(self) -> None:
        """The store did what it was asked for, which says nothing of the parts that are damaged."""
        if self.broken and not self._is_damaged:
            self.broken = ""
            self._again.stop()
            self.well_again.emit()

    def _tell(self, failed: Failed, fault: str, *, again: bool = False) -> None:
        self.say_broken(fault, again=again)
        failed(fault)

    def _say_problem(self, problem: str, *, again: bool = False) -> None:
        """The recipe could not be opened again as it stands."""
        self._rest("not kept")
        if again or problem != self._problem:
            self.said.emit(problem, True)
        self._problem = problem

    def say_broken(self, fault: str, *, again: bool = False) -> None:
        """Say that the store could not take it, and look what could be done about that.

        What was said before is only said `again` if the brewer asked for something.
        """
        is_news, self.broken = again or fault != self.broken, fault
        if self._opened.unsaved:
            self._kept = None  # to be shown anew, by another draft
            self._say_state("not kept")
        self._again.start()
        if not is_news:
            return
        self.trouble.emit(f"{fault} Until then save to a file: File, Save as.")

    def try_again(self) -> None:
        """Open the store anew; then what was typed since is kept, or what was left is shown."""

        def done(why_not: str) -> None:
            if why_not:
                self.say_broken(why_not, again=True)
                return
            self._is_damaged = False  # it is looked through anew, below
            self._say_well()
            if self._untouched and not self._has_begun:
                self.go_on(self._opened.path)
            elif self._opened.unsaved:
                self.write_draft()
            self.box_replaced.emit()
            self.opened_anew.emit()

        self.store.let_go()
        self.store.ask(lambda store: store.read_only, done, self._say_still_broken, key="again")

    def _say_still_broken(self, fault: str) -> None:
        self.say_broken(fault, again=True)

    # for the care of the whole box

    def move_to(self, folder: Path, is_copy: bool) -> None:
        """Keep in the box of another folder from now on; `is_copy` tells that it holds the same."""
        sitting = self._sitting

        def leave() -> None:
            if self._mark is not None:
                self._mark.close()
                self._mark = None
            self._folder = folder

        def look(store: Store) -> bool:
            same = not sitting.recipe or store.recipes.has(sitting.recipe, sitting.base)
            return is_copy and same

        self.store.ask_without(leave)
        self.store.go_to(folder)
        self.store.ask(look, self.go_on_in_another_box, self.say_broken)

    def go_on_in_another_box(self, is_in_it: bool) -> None:
        """What is open stays open; where the box does not hold it, it counts as unsaved."""
        if not is_in_it:
            self._sitting.recipe = self._sitting.base = self._sitting.seen = 0
            self._clean_state = ""
            self._opened.undo_stack.resetClean()
        self.say_kept("")
        self.note_change()
        self.box_replaced.emit()

    def close(self, within_s: float = STOPPING_S) -> bool:
        """Let the store go, with what is not needed any more; False if it does not answer."""
        for timer in (self._after_key, self._latest, self._again):
            timer.stop()
        if not self._opened.unsaved and self._sitting.drafted:
            self._drop_draft()
        stopped = self.store.stop(within_s)
        if stopped and self._mark is not None:
            self._mark.close()
            self._mark = None
        return stopped


def _is_typing() -> bool:
    """Whether something stands in a field or cell that may not have become a change yet."""
    focus = QApplication.focusWidget()
    return isinstance(focus, QLineEdit) and focus.isModified()


def _unreadable(document: str) -> str:
    """Return why a document could not be opened again, in words; "" if it can."""
    try:
        read_document(document, "the recipe")
    except DesignerError as fault:
        return f"This recipe could not be opened again as it stands: {fault}"
    return ""


def _name_of(version: Version) -> str:
    return _short(read_document(version.document, "version").name)


def _short(name: str) -> str:
    return " ".join(name.split())[:60] or "Untitled brew"
