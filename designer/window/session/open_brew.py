"""The brew that is being brewed: whatever is pressed and typed beside the stove becomes an entry.

The recipe that is open is not touched by any of it: a brew has the document it was begun with.
"""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Any

from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep
from designer.window.session.brew_log import Line
from designer.window.session.brew_measuring import BrewMeasuring
from designer.workbench.brew import timer_moves
from designer.workbench.brew.blank_places import blank_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.what_counts import BY, REDO, UNDO

if TYPE_CHECKING:
    from designer.library.store.brews import Brew


class OpenBrew(BrewMeasuring):
    """What the page of a brew day drives. Without a brew there is nothing to press."""

    def begin(self, brew: Brew, recipe: Recipe) -> None:
        """Begin a brew that has no entry yet."""
        self._show(brew, recipe, ())
        wall = datetime.fromtimestamp(self.now().wall)
        self._write(
            What.BEGAN,
            start_min=60 * wall.hour + wall.minute,
            shown=str(self._display.settings.units),
        )

    # steps

    def done(self, key: str = "") -> None:
        """A step is done, the one now if none is named; what it starts begins to run."""
        step = self._step(key)
        if step is None:
            return
        many: list[Line] = [(What.DONE, {"step": step.key})]
        starts = step.starts
        if (
            starts is not None
            and self.find_timer(timer_moves.timer_id(starts.name, starts.boil)) is None
        ):
            start = timer_moves.start(starts.name, starts.minutes, boil=starts.boil)
            many.append((What.TIMER, start))
        self._write_all(many)

    def back(self) -> None:
        """Go back to the step before the one now; nothing done or typed since is lost."""
        brewing, _ = self._open()
        keys = [each.key for each in brewing.steps]
        at = len(keys) if brewing.now is None else keys.index(brewing.now.key)
        if at > 0:
            self.go_to(keys[at - 1])

    def go_to(self, key: str) -> None:
        """Let a step be the one now, done already or not."""
        self._write(What.BACK, step=key)

    def go_on_where_it_was(self) -> None:
        """After going back: let the first step that is not done be the one now again."""
        self._write(What.BACK, step="")

    def later(self, key: str = "") -> None:
        """Put a step off until the next is done."""
        step = self._step(key)
        if step is not None:
            self._write(What.LATER, step=step.key)

    def leave_out(self, key: str = "", reason: str = "") -> None:
        """Leave a step out."""
        step = self._step(key)
        if step is not None:
            self._write(What.LEFT_OUT, step=step.key, reason=reason.strip())

    def _step(self, key: str) -> StoveStep | None:
        brewing, _ = self._open()
        if not key:
            return brewing.now
        return next((each for each in brewing.steps if each.key == key), None)

    def note(self, text: str) -> None:
        """Write down what the brewer has to say."""
        if text.strip():
            self._write(What.NOTE, text=text.strip(), step=self._key_now())

    def finish(self) -> None:
        """The yeast is in: the day is over."""
        self._write(What.FINISHED)

    def taste(self, mark: int, text: str) -> None:
        """Write down how the beer was, with a mark from 1 to 5."""
        self._write(What.TASTED, mark=mark, text=text.strip())

    # taking back

    def correct(self, entry_id: str, typed: str) -> None:
        """Set an entry right: a reading, a note, a reason; what it said before stays beside it.

        Raises RefusedInputError for what is no such reading.
        """
        brewing, _ = self._open()
        kept = next((each for each in brewing.readings if each.entry == entry_id), None)
        if kept is not None:
            reading = self._reading(blank_of(kept.reading, brewing.steps), typed)
            self._take_reading(reading, typed.strip(), entry_id)
            return
        entry = brewing.entry(entry_id)
        if entry is not None:
            said = "reason" if entry.what is What.LEFT_OUT else "text"
            self._write(What.CORRECTS, entry=entry_id, values={said: typed.strip()})

    def correct_time(self, entry_id: str, wall: float) -> None:
        """Set the time of an entry right, seconds since 1970."""
        self._write(What.CORRECTS, entry=entry_id, values={"wall": wall})

    def undo(self) -> None:
        """Take the last thing back that was done; also after a restart."""
        brewing, _ = self._open()
        if brewing.undo:
            self._write(What.TAKES_BACK, entry=brewing.undo, **{BY: UNDO})

    def redo(self) -> None:
        """Do again what was undone last."""
        brewing, _ = self._open()
        if brewing.redo:
            self._write(What.TAKES_BACK, entry=brewing.redo, **{BY: REDO})

    # proposals

    def accept(self, proposal: Any) -> None:
        """Do as a proposal says; the recipe that is open stays as it is."""
        self._write(
            What.ACCEPTED,
            proposal=proposal.code,
            changes=proposal.changes,
            said=str(proposal.use),
        )

    def keep(self, proposal: Any) -> None:
        """Leave it as it is; the proposal does not come again."""
        self._write(
            What.KEPT, proposal=proposal.code, changes=proposal.changes, said=str(proposal.keep)
        )
