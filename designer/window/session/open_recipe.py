"""A recipe that is open: its undo stack, its file, and what is forecast of it.

Every change, pasting and dragging included, goes through `make()`, which takes nothing that a file
could not give back. What is forecast follows as `LookingAhead` says.
"""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from designer.errors import RefusedInputError
from designer.library.round_trip import as_held, unmarked
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit, all_lists
from designer.recipe.message import Message, say
from designer.recipe.taught import Filled, without_taught
from designer.translation import message, tr
from designer.units.control_characters import DROPPED
from designer.window.parts.plain_text import caption
from designer.window.session.looking_ahead import Known, LookingAhead

if TYPE_CHECKING:
    from designer.brewday.results import Day, Outlook, PlanDays
    from designer.workbench.learning.taken import TakenFigure

MERGING_ID = 1
UNNAMED = message("Untitled brew")
"""What a recipe without a name is called."""


class FileTrouble(StrEnum):
    """Why the file of a recipe does not hold what was last saved, as the header says it."""

    NOT_WRITTEN = message("not in its file")
    BEING_WRITTEN = message("its file is being written")
    GONE = message("its file is gone")
    CHANGED = message("its file was changed")


class _EarlierStep(NamedTuple):
    """A step of an earlier session: its outcome, and in words what was done if that was kept."""

    recipe: Recipe
    text: Message = say("earlier", "an earlier change")
    merge_key: str = ""

    def apply(self, recipe: Recipe) -> Recipe:
        """Return the recipe as it was after the step."""
        return self.recipe


class _RecipeEdit(QUndoCommand):
    """One step on the undo stack; steps with the same merge key, one after another, are one.

    A `settled` step is merged with no other. One that is `withdrawn` leaves the stack when it is
    undone, so that it cannot be done again.
    """

    def __init__(
        self, opened: OpenRecipe, edit: Edit, after: Recipe, before: Recipe | None = None
    ) -> None:
        # What stands after a line break is for menus, where a single & would mark a key.
        text = str(edit.text)
        super().__init__(f"{text}\n{caption(text)}" if "&" in text else text)
        self._opened, self.edit = opened, edit
        self.before, self.after = before if before is not None else opened.recipe, after
        self.settled, self.withdrawn = before is not None, False
        self._is_new = True

    def redo(self) -> None:
        self._opened.show(
            self.after, step="" if self._is_new else tr("Redone: {step}.", step=self.text())
        )
        self._is_new = False

    def undo(self) -> None:
        self._opened.show(
            self.before, step="" if self.withdrawn else tr("Undone: {step}.", step=self.text())
        )
        if self.withdrawn:
            self.setObsolete(True)

    def id(self) -> int:
        return MERGING_ID if self.edit.merge_key and not self.settled else -1

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, _RecipeEdit) or other.edit.merge_key != self.edit.merge_key:
            return False
        self.after = other.after
        self.setObsolete(self.after == self.before)
        return True


class _Ahead(NamedTuple):
    """The steps that could be redone before typing began, and which of them is the saved one."""

    merge_key: str = ""
    at: int = 0
    steps: tuple[tuple[Edit, Recipe, Recipe], ...] = ()
    saved: int = 0


class OpenRecipe(QObject):
    """The document of a window; an empty one that takes no change while nothing `is_open` yet.

    With `waiting` nothing is forecast until somebody asks for the outlook: at the start of the
    program the window is seen first. `stepped` carries the recipes before and after an undo or a
    redo, and what was done in words. `told` says that something was taken out of a text to make it
    fit to be kept; `note` says it of the recipe at the start. `file_trouble` says why its file
    does not hold what was last saved, None where it does; `file_mark` tells the content that it
    was last seen to have from any other. `changes` grows with each recipe that is shown.
    """

    recipe_changed = Signal(object)
    stepped = Signal(object, object, str)
    opened_first = Signal()
    """A recipe is open now where nothing was."""
    taken_changed = Signal()
    """Other figures that brews taught are taken now."""
    untaken_changed = Signal()
    refused = Signal(str)
    told = Signal(str)
    path_changed = Signal(object)
    written = Signal(object)
    """A file, its path, holds now what is shown."""

    def __init__(
        self,
        recipe: Recipe | None,
        path: Path | None = None,
        parent: QObject | None = None,
        *,
        waiting: bool = False,
    ) -> None:
        super().__init__(parent)
        self.is_open = recipe is not None
        wanted = recipe if recipe is not None else Recipe()
        self.recipe, self.path = unmarked(wanted), path
        self.note = "" if self.recipe is wanted else tr(DROPPED)
        self.file_trouble: FileTrouble | None = None
        self.file_mark = ""
        self.undo_stack = QUndoStack(self)
        # Of nothing nothing is forecast until a recipe is opened.
        self.taken: tuple[TakenFigure, ...] = ()
        self._reckoned: tuple[Recipe, Recipe] | None = None
        self._looking = LookingAhead(self.taught, self, waiting=waiting or not self.is_open)
        self.values_changed = self._looking.values_changed
        self.outlook_changed = self._looking.outlook_changed
        self._typing = 0
        self._ahead = _Ahead()
        self._rebuilding = self._going_on = False
        self.opening = self.changes = 0
        self._untaken: dict[object, tuple[str, ...]] = {}

    def make(self, edit: Edit) -> bool:
        """Make an edit, as one undo step; False if it changes nothing, or is `refused`."""
        try:
            return self.make_or_refuse(edit)
        except RefusedInputError as fault:
            self.refused.emit(str(fault))
            return False

    def make_or_refuse(self, edit: Edit) -> bool:
        """Make an edit for somebody who says beside a field why it is refused.

        Raises RefusedInputError, and nothing has changed, if no file could hold the outcome.
        """
        if not self.is_open:
            raise RefusedInputError(tr("No recipe is open. Begin one, or open one, first."))
        wanted = self._as_typed(edit.apply(self.recipe))
        visible = unmarked(wanted, self.recipe)
        after = as_held(self.recipe, visible)
        if visible is not wanted:
            self.told.emit(tr(DROPPED))
        if after == self.recipe and _ids(after) == _ids(self.recipe):
            return False
        self._note_ahead(edit.merge_key)
        self.undo_stack.push(_RecipeEdit(self, edit, after))
        if self.undo_stack.index() == self._ahead.at:
            self._put_ahead()  # what was typed is what stood there before: no step is left
        return True

    def outcome(self, edit: Edit) -> Recipe:
        """Return the recipe that an edit would make.

        Raises RefusedInputError if no file could hold it.
        """
        wanted = self._as_typed(edit.apply(self.recipe))
        return as_held(self.recipe, unmarked(wanted, self.recipe))

    def _as_typed(self, recipe: Recipe) -> Recipe:
        """Return a recipe without what was taught: nothing of that is written into fields."""
        return without_taught(recipe) if self.taken else recipe

    def start_typing(self) -> str:
        """Return a key that is new, for the edits of one stay in a field."""
        self._typing += 1
        return f"typing {self._typing}"

    def take_back(self, merge_key: str) -> None:
        """Take what was typed under a key back, if it is the last thing done, and leave no trace.

        It cannot be redone, and what could be redone before it was typed can be again.
        """
        stack, index = self.undo_stack, self.undo_stack.index()
        if not index or not merge_key:
            return
        last = stack.command(index - 1)
        if isinstance(last, _RecipeEdit) and last.edit.merge_key == merge_key:
            last.withdrawn = index == stack.count()  # else later steps stand upon it
            stack.undo()
            if index - 1 == self._ahead.at and stack.index() == stack.count():
                self._put_ahead()

    def _note_ahead(self, merge_key: str) -> None:
        """Remember what can be redone: the next step on the stack will be the end of it."""
        stack, index = self.undo_stack, self.undo_stack.index()
        if index == stack.count() and merge_key and merge_key == self._ahead.merge_key:
            return
        edits = [stack.command(number) for number in range(index, stack.count())]
        steps = tuple((e.edit, e.before, e.after) for e in edits if isinstance(e, _RecipeEdit))
        self._ahead = _Ahead(merge_key, index, steps if merge_key else (), stack.cleanIndex())

    def _put_ahead(self) -> None:
        """Let the steps that were noted be redone again; the recipe shown stays as it is."""
        ahead, stack = self._ahead, self.undo_stack
        self._ahead = _Ahead()
        if not ahead.steps:
            return
        self._rebuilding = True
        stack.blockSignals(True)
        for edit, before, after in ahead.steps:
            stack.push(_RecipeEdit(self, edit, after, before))
            if stack.index() == ahead.saved:
                stack.setClean()
        stack.blockSignals(False)
        stack.setIndex(ahead.at)
        self._rebuilding = False

    @property
    def untaken(self) -> tuple[str, ...]:
        """What is typed in fields and cells and could not be taken, each with its place."""
        return tuple(each for said in self._untaken.values() for each in said)

    def set_untaken(self, owner: object, said: tuple[str, ...]) -> None:
        """Hear of a field or table what is typed there and could not be taken."""
        if said != self._untaken.get(owner, ()):
            self._untaken[owner] = said
            self.untaken_changed.emit()

    def show(self, recipe: Recipe, *, step: str = "", is_other: bool = False) -> None:
        """Put a recipe in place of the present one; the undo stack calls this.

        `step` says of an undo or a redo what was done; with `is_other` it is no change of it.
        """
        if self._rebuilding:
            return
        before, self.recipe = self.recipe, recipe
        self.changes += 1
        self.recipe_changed.emit(recipe)
        self._looking.follow(is_other=is_other)
        if step and not self._going_on:
            self.stepped.emit(before, recipe, step)

    # what the kitchen taught

    def set_taken(self, taken: tuple[TakenFigure, ...]) -> None:
        """Hear which figures the brewer has taken from brews: empty fields are filled by them."""
        if taken == self.taken:
            return
        before, self.taken = self.reckoned, taken
        self._reckoned = None
        self.taken_changed.emit()
        if self.reckoned != before and not self.waiting:
            self._looking.follow(is_other=True)

    def taught(self, recipe: Recipe | None = None) -> tuple[Recipe, tuple[Filled, ...]]:
        """Return a recipe, the open one if none is given, as it is reckoned with; what fills it."""
        written = self.recipe if recipe is None else recipe
        if not self.taken:
            return written, ()
        from designer.recipe.taught import filled_with  # first seen long after the first picture
        from designer.workbench.learning.with_taught import filled_by

        fills = filled_by(written, self.taken)
        if recipe is not None:
            return filled_with(written, fills), fills
        if self._reckoned is None or self._reckoned[0] is not written:
            self._reckoned = written, filled_with(written, fills)
        return self._reckoned[1], fills

    @property
    def reckoned(self) -> Recipe:
        """The recipe with what the kitchen taught in fields that it leaves empty."""
        return self.taught()[0]

    # what is forecast

    @property
    def brewed(self) -> Recipe:
        """What is reckoned with where one line is changed."""
        return self.reckoned

    @property
    def waiting(self) -> bool:
        """Whether nothing has been forecast yet."""
        return self._looking.waiting

    @property
    def known(self) -> Known:
        """How much is known by now of what is forecast of the recipe as it stands."""
        return self._looking.known

    @property
    def with_ranges(self) -> bool:
        """Whether the day is run for ranges too."""
        return self._looking.with_ranges

    @property
    def day(self) -> Day:
        """The day of the forecast that was told of last; its ranges may still be to come."""
        return self._looking.day

    @property
    def plan(self) -> PlanDays | None:
        """The boils and fermenters of that day, where they are planned."""
        return self._looking.plan

    @property
    def outlook(self) -> Outlook:
        """The latest whole forecast, maybe of an earlier recipe; made now if there is none."""
        return self._looking.outlook

    def refresh_outlook(self) -> None:
        """Forecast now."""
        self._looking.refresh()

    def newest_outlook(self) -> Outlook:
        """Return the whole forecast of the recipe as it is this moment."""
        return self._looking.newest

    def want_ranges(self) -> None:
        """From now on run the day for ranges too; not before the window is painted."""
        self._looking.want_ranges(now=self.is_open)

    @property
    def unsaved(self) -> bool:
        """Whether there is something that the file does not hold."""
        return not self.undo_stack.isClean()

    def replace_by(self, recipe: Recipe, path: Path | None) -> None:
        """Open another recipe in place of this one; `told` if marks had to be taken out of it."""
        is_first, self.is_open = not self.is_open, True
        self.undo_stack.clear()
        self._ahead = _Ahead()
        self.opening += 1
        self.path, self.file_mark = path, ""
        self.show(unmarked(recipe), is_other=True)
        if is_first:
            self.opened_first.emit()
        self.path_changed.emit(path)
        if self.recipe is not recipe:
            self.told.emit(tr(DROPPED))

    def history(self) -> tuple[tuple[Recipe, ...], int]:
        """Return the recipe after each step that can be undone or redone, and which is shown."""
        stack = self.undo_stack
        steps = [stack.command(number) for number in range(stack.count())]
        edits = [each for each in steps if isinstance(each, _RecipeEdit)]
        if not edits:
            return (self.recipe,), 0
        return (edits[0].before, *(each.after for each in edits)), stack.index()

    def phrases(self) -> tuple[str, ...]:
        """Return beside each recipe of the history what was done to reach it; "" for the first."""
        stack = self.undo_stack
        return ("", *(stack.text(number) for number in range(stack.count())))

    def go_on(
        self,
        history: tuple[Recipe, ...],
        position: int,
        path: Path | None,
        phrases: tuple[str, ...] = (),
        file_mark: str = "",
    ) -> None:
        """Go on where another session stopped: its steps can be undone, nothing counts as saved.

        `phrases` says what was done to reach each recipe of the history, as `phrases()` told it;
        `file_mark` is that of the content that its file was last seen to have.
        """
        self.replace_by(history[0], path)
        self.file_mark = file_mark
        known = phrases if len(phrases) == len(history) else ("",) * len(history)
        for recipe, phrase in zip(history[1:], known[1:], strict=True):
            text = say("earlier-text", "{text}", text=phrase)
            step = _EarlierStep(recipe, text) if phrase else _EarlierStep(recipe)
            self.undo_stack.push(_RecipeEdit(self, step, recipe))
        self._going_on = True
        self.undo_stack.setIndex(position)
        self._going_on = False
        self.undo_stack.resetClean()
        self.path_changed.emit(path)

    def note_written(self, recipe: Recipe, path: Path) -> None:
        """A file holds `recipe` now: what was changed since then is unsaved."""
        self.path, self._ahead = path, self._ahead._replace(saved=-1)
        if recipe == self.recipe:
            self.undo_stack.setClean()
        else:
            self.undo_stack.resetClean()
        self.path_changed.emit(path)
        if recipe == self.recipe:
            self.written.emit(path)


def _ids(recipe: Recipe) -> tuple[int, ...]:
    return tuple(line.line_id for lines in all_lists(recipe) for line in lines)
