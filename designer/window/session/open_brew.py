"""The brew that is being brewed: whatever is pressed and typed beside the stove becomes an entry.

The recipe that is open is not touched by any of it: a brew has the document it was begun with.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from designer.sheet.stove import StoveStep
from designer.window.session.after_the_stove import AfterTheStove
from designer.window.session.logged_brew import Line
from designer.workbench.brew import timer_moves
from designer.workbench.brew.blank_places import blank_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.entry_values import text_in
from designer.workbench.brew.keep_in_recipe import kept_in_recipe
from designer.workbench.brew.log_lines import words_of
from designer.workbench.brew.timed_steps import ended_by
from designer.workbench.brew.what_counts import BY, REDO, UNDO

if TYPE_CHECKING:
    from designer.brewday.measured.advice import Proposal
    from designer.window.session.open_recipe import OpenRecipe


class OpenBrew(AfterTheStove):
    """What the page of a brew day drives. Without a brew there is nothing to press."""

    # steps

    def done(self, key: str = "") -> None:
        """A step is done, the one now if none is named.

        The timers that it starts begin to run, those that waited for it are over.
        """
        step = self._step(key)
        if step is None:
            return
        many: list[Line] = [(What.DONE, {"step": step.key})]
        many += [(What.TIMER, timer_moves.end(each)) for each in ended_by(step, self.timers)]
        starts = step.starts
        if starts is not None:
            there = self.find_timer(timer_moves.timer_id(starts.name, starts.boil))
            if there is None or there.ended:
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

    @property
    def is_read_oddly(self) -> bool:
        """Whether the newest gravity lies where neither the plan nor a changed day has it."""
        # Brings the day's samples along; the page opens without.
        from designer.workbench.brew.reading_story import is_odd

        brewing, planned, known = self.brewing, self.outlook_planned, self.outlook
        if brewing is None or planned is None:
            return False
        changed = self.as_brewed != brewing.recipe
        return is_odd(brewing, [planned, *([known] if changed and known is not None else [])])

    def taste(self, mark: int, text: str) -> None:
        """Write down how the beer was, with a mark from 1 to 5."""
        self._write(What.TASTED, mark=mark, text=text.strip())

    # taking back

    def correct(self, entry_id: str, typed: str) -> bool:
        """Set an entry right: a reading, a note, a reason; what it said before stays beside it.

        False where a reading is in doubt, as with `measure`. Raises RefusedInputError for what is
        no such reading.
        """
        brewing, _ = self._open()
        kept = next((each for each in brewing.readings if each.entry == entry_id), None)
        if kept is not None:
            blank = replace(blank_of(kept.reading, brewing.steps), left_min=kept.reading.left_min)
            return self._measure(blank, typed.strip(), entry_id)
        entry = brewing.entry(entry_id)
        if entry is not None:
            said = "reason" if entry.what is What.LEFT_OUT else "text"
            self._write(What.CORRECTS, entry=entry_id, values={said: typed.strip()})
        return True

    def correct_time(self, entry_id: str, wall: float) -> None:
        """Set the time of an entry right, seconds since 1970."""
        self._write(What.CORRECTS, entry=entry_id, values={"wall": wall})

    @property
    def would_undo(self) -> str:
        """What undo would take back, in words; "" for nothing."""
        return self._in_words(self.brewing.undo) if self.brewing is not None else ""

    @property
    def would_redo(self) -> str:
        """What redo would do again, in words; "" for nothing."""
        if self.brewing is None or not self.brewing.redo:
            return ""
        undone = next(e for e in self.brewing.entries if e.id == self.brewing.redo)
        return self._in_words(text_in(undone.values, "entry"))

    def _in_words(self, entry_id: str) -> str:
        brewing, _ = self._open()
        words = words_of(brewing, entry_id) if entry_id else None
        return "" if words is None else str(words)

    def undo(self) -> None:
        """Take the last thing back that was done; also after a restart."""
        self.settling.emit()
        brewing, _ = self._open()
        self._say_back(brewing.undo, UNDO)

    def redo(self) -> None:
        """Do again what was undone last."""
        self.settling.emit()
        brewing, _ = self._open()
        self._say_back(brewing.redo, REDO)

    def _say_back(self, entry_id: str, by: str) -> None:
        if not entry_id:
            return
        made = self._write(What.TAKES_BACK, entry=entry_id, **{BY: by})
        brewing, _ = self._open()
        self.said.emit(str(words_of(brewing, made)))

    # proposals

    def accept(self, proposal: Proposal) -> None:
        """Do as a proposal says; the recipe that is open stays as it is."""
        self._answer(What.ACCEPTED, proposal)

    def keep(self, proposal: Proposal) -> None:
        """Leave it as it is; the proposal does not come again."""
        self._answer(What.KEPT, proposal)

    def _answer(self, what: What, proposal: Proposal) -> None:
        self._ahead.forget_proposal(proposal)
        self._write(what, **proposal.values)

    def keep_in_recipe(self, opened: OpenRecipe) -> bool:
        """Make the open recipe what the brew made of it, as one undo step; False for no change."""
        brewing, _ = self._open()
        return opened.make(kept_in_recipe(opened.recipe, brewing))
