"""A variant of the open recipe that is tried: nothing of the recipe changes until it is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine, ChangePart, Edit, Together
from designer.recipe.message import Message, say
from designer.recipe.place import Place
from designer.window.session.worked_on import WorkedOn

if TYPE_CHECKING:
    from designer.brewday.results import Glimpse, Outlook

RESTING_MS = 80
"""How long after the last change the ranges follow its values."""
TRIED = say("tried", "what if")

Changes = dict[Place, Edit]


def _place_of(edit: Edit) -> Place:
    if isinstance(edit, ChangePart):
        return Place(edit.part, edit.field)
    assert isinstance(edit, ChangeLine)
    return Place(edit.lines, edit.changes[0][0], edit.line_id)


class Trial(QObject):
    """One variant: what is changed, and what is forecast of it, values first.

    It stands for the recipe to the fields in which it is changed. `seen_changed` carries a
    `Glimpse` while the ranges are not known, then an `Outlook`.
    """

    recipe_changed = Signal(object)
    seen_changed = Signal(object)

    def __init__(self, base: WorkedOn, name: str, parent: QObject) -> None:
        super().__init__(parent)
        self.name, self._base = name, base
        self.recipe: Recipe = base.recipe
        self.opening = 0
        self.whole: Recipe = base.opened.recipe
        self.changes: Changes = {}
        self._before: tuple[str, Changes] = "", {}
        self._typing = 0
        self.untaken: tuple[str, ...] = ()
        self.seen: Glimpse | Outlook = base.opened.newest_outlook()
        self._rest = QTimer(self, singleShot=True, interval=RESTING_MS)
        self._rest.timeout.connect(self.look_ahead)

    def make_or_refuse(self, edit: Edit) -> bool:
        """Change the variant; what is as in the recipe counts as no change of it.

        Raises RefusedInputError, and nothing has changed, if no file could hold the outcome.
        """
        place = _place_of(edit)
        changes = {**self.changes, place: edit}
        if edit.apply(self._base.recipe) == self._base.recipe:
            del changes[place]
        if self._before[0] != edit.merge_key:
            self._before = edit.merge_key, self.changes
        return self._show(changes)

    def take_back(self, merge_key: str) -> None:
        """Take back what was typed under a key."""
        if merge_key and merge_key == self._before[0]:
            self._show(self._before[1])

    def restore(self) -> None:
        """Be as the recipe is."""
        self._show({})

    def start_typing(self) -> str:
        """Return a key that is new, for the edits of one stay in a field."""
        self._typing += 1
        return f"trying {self._typing}"

    def set_untaken(self, owner: object, said: tuple[str, ...]) -> None:
        """Hear of a field what is typed there and could not be taken."""
        self.untaken = said

    def edit(self, text: Message = TRIED) -> Together:
        """Return all changes as one edit of what is worked on."""
        return Together(tuple(self.changes.values()), text)

    def _show(self, changes: Changes) -> bool:
        edit = Together(tuple(changes.values()), TRIED)
        whole = self._base.outcome(edit)
        if changes == self.changes:
            return False
        self.changes, self.whole, self.recipe = changes, whole, edit.apply(self._base.recipe)
        self._glimpse()
        self.recipe_changed.emit(self.recipe)
        return True

    def _glimpse(self) -> None:
        from designer.brewday.outlook import glimpse  # reckoned where somebody tries something

        self._rest.start()
        opened = self._base.opened
        self.seen = glimpse(opened.taught(self.whole)[0], opened.outlook)
        self.seen_changed.emit(self.seen)

    def look_ahead(self) -> None:
        """Forecast all of the variant, ranges and findings included."""
        from designer.workbench.style_watch import outlook_of

        opened = self._base.opened
        self.seen = outlook_of(opened.taught(self.whole)[0], ranges=opened.with_ranges)
        self.seen_changed.emit(self.seen)


def put_or_none(trial: Trial, edit: Edit) -> str:
    """Change a variant; return why it is refused, "" where it is not."""
    try:
        trial.make_or_refuse(edit)
    except RefusedInputError as fault:
        return str(fault)
    return ""
