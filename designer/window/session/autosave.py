"""Keeps what is on the screen in the Recipe box: drafts as one types, versions when saved.

The next start goes on with what closed windows left, exactly where it was.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QApplication, QLineEdit

from designer.library.recipe_file import read_document
from designer.library.store import Conflict, Draft, Version
from designer.recipe.document import Recipe
from designer.translation import message, tr
from designer.window.parts.settings import Written
from designer.window.session.draft_keeping import DraftKeeping, Failed, Then, say_nothing
from designer.window.session.draft_making import unreadable
from designer.window.session.drafts_left_behind import Left, file_draft, find_left
from designer.window.session.open_recipe import UNNAMED, FileTrouble, OpenRecipe
from designer.window.session.sitting import Sitting, keep_version, note_last
from designer.window.session.store_thread import StoreThread
from designer.window.session.to_go_on_with import take_draft
from designer.workbench.recipe_summary import summary_of

if TYPE_CHECKING:
    from designer.library.store import Store

OLDER_DRAFT = message("The Recipe box held an older draft of it: Undo brings that back.")
WAS_OPEN_LAST = message("“{name}” was open last; it is in the Recipe box as version {number}.")
WAS_LEFT = message("“{name}” was left unsaved before; it is in the Recipe box as version {number}.")
STOPPING_S = 10.0
"""How long the end of the program waits for work that was asked for, if the disk is slow."""


class Autosave(DraftKeeping):
    """Stands between one window and its Recipe box. `written` is what the settings noted.

    With `lays_examples_in` a box that is new is given the examples of the program.
    """

    version_wanted = Signal(object)
    looked_back = Signal()
    """What the last session left is shown, or there is none, or nobody can tell for now."""

    def __init__(
        self, opened: OpenRecipe, thread: StoreThread, folder: Path, parent: QObject | None = None
    ) -> None:
        super().__init__(opened, thread, folder, parent)
        self.written: Written | None = None
        self.lays_examples_in = False
        self._has_begun = False
        self.tried_again.connect(self._begin_if_need_be)
        self.opened_anew.connect(self._go_on_anew)
        self.broke.connect(self.looked_back)
        opened.path_changed.connect(self.note_last)

    # beginning

    def begin(self, *, look_back: bool) -> None:
        """Begin to keep; with `look_back` show what the last session left, if nothing was touched.

        Of a file that was asked for, only a draft of it.
        """
        self.note_change()
        if self.lays_examples_in:
            self.store.ask(_lay_in_examples, failed=self.say_broken)
        if look_back:
            self.go_on(self._opened.path)
        self._has_begun = not look_back
        self.note_last()

    def go_on(self, only: Path | None = None) -> None:
        """Look for what closed windows left, and show the last of it if nothing is touched yet.

        With `only` a file was asked for: only a draft of it is gone on with.
        """
        written = self.written

        def work(store: Store) -> Left:
            if not store.read_only:
                self.window_name()
            return find_left(store, self.next_sitting, only, written)

        self.store.ask(work, self._show_left, self.say_broken, key="go on")

    def take_draft(self, sitting: str, then: Then, failed: Failed) -> None:
        """Go on with the draft of a sitting that was left behind: `then` once it is shown."""

        def work(store: Store) -> Left:
            self.window_name()
            return take_draft(store, sitting, self.next_sitting())

        def done(left: Left) -> None:
            if left.history and left.sitting is not None:
                self._go_on_with(left, left.sitting)
                then()
            else:
                failed(tr("That draft is open in another window now."))

        self.store.ask(work, done, partial(self._tell, failed, again=True))

    def _begin_if_need_be(self) -> None:
        """The box failed a while ago: is there something that waits for it?"""
        if self.store.busy:
            return
        if self._opened.unsaved and self._kept is not self._opened.recipe:
            self.write_draft()
        elif not self._has_begun:
            self.go_on(self._opened.path)

    def _go_on_anew(self) -> None:
        """Keep what was typed since the box failed, or show what was left."""
        if self._untouched and not self._has_begun:
            self.go_on(self._opened.path)
        elif self._opened.unsaved:
            self.write_draft()
        self.box_replaced.emit()

    def _show_left(self, left: Left) -> None:
        self._has_begun = True
        self.say_well()
        told = list(left.told)
        if left.history and left.sitting is not None:
            if self._untouched and not _is_typing():
                told = [*self._go_on_with(left, left.sitting), *told]
            elif left.draft is not None:
                self._file(left.draft)
            elif left.version is not None:
                self._offer_to_open(left.version, WAS_OPEN_LAST)
            elif left.path is not None:
                name = _short(left.recipe.name)
                told.append(
                    tr("“{name}” was open last; it is in {path}.", name=name, path=left.path)
                )
        if left.filed:
            filed = [
                tr("“{name}” (version {number})", name=_name_of(each), number=each.number)
                for each in left.filed
            ]
            told.append(
                tr(
                    "Left unsaved before, now in the Recipe box: {recipes}.",
                    recipes=", ".join(filed),
                )
            )
        if told:
            self.said.emit(" ".join(told), bool(left.told))
        self.looked_back.emit()

    def _go_on_with(self, left: Left, sitting: Sitting) -> list[str]:
        """Show what was left; return what there is to say about it."""
        version, name = left.version, _short(left.recipe.name)
        self._begin_sitting(sitting, kept_as(version) if version else "")
        if left.is_example:
            self._note_example(sitting)
        if left.draft is None:
            self._opened.replace_by(left.recipe, left.path)
            return []
        if sitting.drafted:
            self._kept = left.recipe
        self._opened.go_on(left.history, left.position, left.path, left.phrases, left.file_mark)
        if left.is_written and left.path is not None:
            self._opened.note_written(left.recipe, left.path)
            told = tr(
                "Going on with “{name}” as it was saved to {path}.", name=name, path=left.path
            )
            return [told, tr(OLDER_DRAFT)] if left.position else [told]
        return [tr("Going on with “{name}” where it was left.", name=name)]

    def _file(self, draft: Draft) -> None:
        """A draft cannot be shown any more: put it into the box, and say where it is."""

        def work(store: Store) -> Version | None:
            return file_draft(store, draft)

        def done(version: Version | None) -> None:
            if version is not None:
                self._offer_to_open(version, WAS_LEFT)

        self.store.ask(work, done, lambda fault: self.said.emit(fault, True))

    def _offer_to_open(self, version: Version, words: str) -> None:
        self.offered.emit(
            tr(words, name=_name_of(version), number=version.number),
            [(tr("Open it"), partial(self.version_wanted.emit, version))],
        )

    def note_last(self) -> None:
        """Let the next start know what is open now: not a file that could not be written."""
        sitting, path = self._sitting, self._opened.path
        if self._opened.file_trouble is FileTrouble.NOT_WRITTEN:
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
        self.keep_version(then or say_nothing, failed or say_nothing, name=name)

    def leave(self, then: Then, failed: Failed) -> None:
        """Before another recipe takes its place: keep what is unsaved as a version."""
        name = _short(self._opened.recipe.name)
        told = tr("“{name}” was kept in the Recipe box as you left it.", name=name)

        def kept(_: int) -> None:
            then()
            self.said.emit(told, False)

        self.keep_version(kept, failed)

    def keep_version(self, then: Callable[[int], None], failed: Failed, *, name: str = "") -> None:
        """Keep the recipe as a version: `then` gets its number, `failed` why none was kept."""
        recipe, outlook = self._opened.recipe, self._opened.newest_outlook()
        sitting, path = self._sitting, self._opened.path

        def work(store: Store) -> Version | Conflict | str:
            document, summary = self._making.text(recipe), summary_of(recipe, outlook)
            problem = unreadable(document)
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
        self.say_well()
        if isinstance(kept, Conflict):
            self.said.emit(str(kept), True)
        if sitting is not self._sitting:
            return
        self._kept, self._clean_state = None, kept_as(mine)
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

    def show_version(self, version: Version, recipe: Recipe | None = None) -> None:
        """Open a version of the box, read as `recipe`.

        Raises DesignerError for a document that cannot be read.
        """
        if recipe is None:
            recipe = read_document(version.document, version.called)
        sitting = Sitting(self.next_sitting(), version.recipe, version.id, version.id)
        self._begin_sitting(sitting, kept_as(version))

        def look(store: Store) -> bool:
            sitting.seen = max(sitting.seen, store.recipes.newest(version.recipe).id)
            return store.examples.is_one(version.recipe)

        self.store.ask(
            look,
            lambda is_example: self._note_example(sitting) if is_example else None,
            key=f"newest for {sitting.name}",
        )
        self._opened.replace_by(recipe, None)

    def begin_example(self, name: str, recipe: Recipe) -> None:
        """What is shown is an example: the one of the box, once that has been asked."""
        sitting = self._sitting

        def look(store: Store) -> bool:
            found = store.examples.version(name, self._making.text(recipe))
            if found is None or sitting.recipe or sitting.drafted:
                return False
            sitting.recipe, sitting.base = found
            sitting.seen = sitting.base
            note_last(store, sitting, None)
            return True

        self.store.ask(look, lambda is_one: self._note_example(sitting) if is_one else None)

    def _note_example(self, sitting: Sitting) -> None:
        """A sitting goes on with an example: nothing is kept of it until it is changed."""
        if sitting is self._sitting:
            self._clean_state = tr("an example")
            self.note_change()

    def note_brought_back(self, version: Version) -> None:
        """A version was made the newest again: if its recipe is open, that is what is open now."""
        if version.recipe != self._sitting.recipe:
            return
        if self._opened.unsaved:
            self._sitting.seen = version.id
            return
        self.show_version(version)

    # another box

    def move_to(self, folder: Path, is_copy: bool) -> None:
        """Keep in the box of another folder from now on; `is_copy` tells that it holds the same."""
        sitting = self._sitting

        def leave() -> None:
            self.let_mark_go()
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
        self._kept = None
        self.note_other_store()
        self._say_state("")
        self.note_change()
        self.box_replaced.emit()

    def close(self, within_s: float = STOPPING_S) -> bool:
        """Let the store go, with what is not needed any more; False if it does not answer."""
        self._stop_timers()
        if not self._opened.unsaved and self._sitting.drafted:
            self._drop_draft()
        return super().close(within_s)


def _lay_in_examples(store: Store) -> None:
    # Only the very first start has examples to lay in.
    from designer.workbench.examples import lay_in_examples

    lay_in_examples(store)


def kept_as(version: Version) -> str:
    """Return what is said of a recipe that is as it was kept."""
    return tr("kept, version {number}", number=version.number)


def _is_typing() -> bool:
    """Whether something stands in a field or cell that may not have become a change yet."""
    focus = QApplication.focusWidget()
    return isinstance(focus, QLineEdit) and focus.isModified()


def _name_of(version: Version) -> str:
    return _short(read_document(version.document, version.called).name)


def _short(name: str) -> str:
    return " ".join(name.split())[:60] or tr(UNNAMED)
