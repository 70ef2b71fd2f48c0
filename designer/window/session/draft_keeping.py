"""Drafts: what is on the screen is in the store within a second of the last key.

They carry the undo history, so that the next start goes on exactly where this one stopped, after a
crash too.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtGui import QGuiApplication

from designer.recipe.document import Recipe
from designer.translation import message, tr
from designer.window.parts.settings import Written
from designer.window.session.box_link import BoxLink
from designer.window.session.draft_making import DraftMaking, unreadable
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.sitting import Sitting, drop_draft, put_file
from designer.window.session.store_thread import StoreThread

if TYPE_CHECKING:
    from designer.library.store import Store

AFTER_KEY_MS, LATEST_MS = 350, 900
DRAFT_KEPT, KEEPING = message("draft kept"), message("keeping…")
NOT_KEPT = message("not kept")
Then = Callable[[], None]
Failed = Callable[[str], None]


def nothing() -> None:
    """What follows where nothing has to."""


def say_nothing(_: object) -> None:
    """What is said where all was told already."""


class DraftKeeping(BoxLink):
    """Keeps a draft of the recipe of a window. `state` says in words what holds the recipe."""

    state_changed = Signal(str)
    file_is_newest = Signal(object)
    """A file holds what no draft holds yet: a `Written`."""
    holds_newest = Signal()
    """The store holds what is newest, or knows the file that does."""

    def __init__(
        self, opened: OpenRecipe, thread: StoreThread, folder: Path, parent: QObject | None = None
    ) -> None:
        super().__init__(thread, folder, parent)
        self._opened, self._making = opened, DraftMaking(opened)
        self._sitting = Sitting(self.next_sitting())
        self.state = self._clean_state = self._problem = ""
        self._newest_file: Written | None = None
        self._file_changes = 0
        self._kept: Recipe | None = None
        self._untouched = True
        self._after_key = QTimer(self, singleShot=True, interval=AFTER_KEY_MS)
        self._latest = QTimer(self, singleShot=True, interval=LATEST_MS)
        for timer in (self._after_key, self._latest):
            timer.timeout.connect(self.write_draft)
        self.broke.connect(self._note_broken)
        opened.recipe_changed.connect(self.note_change)
        opened.undo_stack.cleanChanged.connect(self.note_change)
        opened.written.connect(self._note_file)
        QGuiApplication.instance().applicationStateChanged.connect(self._note_state)  # type: ignore[union-attr]

    @property
    def sitting(self) -> Sitting:
        """The sitting of what is open now; it knows what becomes of it after another is open."""
        return self._sitting

    @property
    def recipe_id(self) -> int:
        """The recipe of the box that is open; 0 for none."""
        return self._sitting.recipe

    @property
    def base(self) -> int:
        """The version of the box that the text was made from; 0 for none."""
        return self._sitting.base

    @property
    def settled(self) -> bool:
        """Whether nothing that the brewer made is still on its way to the store."""
        held = not self._opened.unsaved or self._kept is self._opened.recipe
        return held and not self.store.owes

    def _begin_sitting(self, sitting: Sitting, state: str) -> None:
        """Another recipe is open from now on."""
        self._stop_timers()
        self._sitting, self._kept = sitting, None
        self._untouched = False
        self._clean_state = state
        self._say_state(state)

    def _say_state(self, state: str) -> None:
        self.state = state
        self.state_changed.emit(state)

    def _note_broken(self) -> None:
        if self._opened.unsaved:
            self._kept = None  # to be shown anew, by another draft
            self._say_state(tr(NOT_KEPT))

    def _stop_timers(self) -> None:
        self._after_key.stop()
        self._latest.stop()

    # drafts

    def note_change(self) -> None:
        """Something may be unkept now, or is no longer: let the draft follow soon."""
        is_unsaved = self._opened.unsaved
        self._untouched = self._untouched and not is_unsaved
        if is_unsaved and self._kept is self._opened.recipe:
            self._rest(tr(DRAFT_KEPT))  # such as a change that was undone and made again
        elif not is_unsaved and not self._sitting.drafted:
            self._rest(self._clean_state)
        else:
            self._say_state(tr(KEEPING) if is_unsaved else self._clean_state)
            self._after_key.start()
            if not self._latest.isActive():
                self._latest.start()

    def _rest(self, state: str) -> None:
        """Nothing is to be written."""
        self._stop_timers()
        self._say_state(state)

    def _note_state(self, state: Qt.ApplicationState) -> None:
        if state != Qt.ApplicationState.ApplicationActive and self._after_key.isActive():
            self.write_draft()

    def write_draft(self) -> None:
        """Put the recipe as it is, with its history, into the store now."""
        self.keep_draft(nothing, say_nothing)

    def keep_draft(self, then: Then, failed: Failed) -> None:
        """Put the recipe as it is into the store: `then` once it is there, `failed` if not.

        What is saved needs no draft: that of an undone change goes.
        """
        self._stop_timers()
        sitting, recipe, changes = self._sitting, self._opened.recipe, self._opened.changes
        if not self._opened.unsaved:
            self._drop_draft(then)
            return
        make, path, mark = self._making.draft_of(sitting), self._opened.path, self._opened.file_mark

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
            return unreadable(draft.document)

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
        self.say_well()
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

    def _drop_draft(self, then: Then = nothing) -> None:
        sitting, self._kept = self._sitting, None

        def work(store: Store) -> None:
            if sitting.drafted:
                drop_draft(store, sitting.name)
                sitting.drafted = False

        self.store.ask(work, lambda _: then(), lambda _: then(), key=f"draft {sitting.name}")

    def _tell(self, failed: Failed, fault: str, *, again: bool = False) -> None:
        self.say_broken(fault, again=again)
        failed(fault)

    def _say_problem(self, problem: str, *, again: bool = False) -> None:
        """The recipe could not be opened again as it stands."""
        self._rest(tr(NOT_KEPT))
        if again or problem != self._problem:
            self.said.emit(problem, True)
        self._problem = problem
