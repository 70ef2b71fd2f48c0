"""The brew that is being brewed: whatever is pressed and typed beside the stove becomes an entry.

The recipe that is open is not touched by any of it: a brew has the document it was begun with.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store.brews import Brew, new_brew
from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep
from designer.window.session.brew_measuring import BrewMeasuring
from designer.window.session.brewed_version import put_to_open
from designer.window.session.logged_brew import Line
from designer.workbench.brew import timer_moves
from designer.workbench.brew.blank_places import blank_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.entry_values import text_in
from designer.workbench.brew.keep_in_recipe import kept_in_recipe
from designer.workbench.brew.log_lines import words_of
from designer.workbench.brew.reckoning import Reckon, reckoned
from designer.workbench.brew.timed_steps import ended_by
from designer.workbench.brew.timers import TimerState, timers_of
from designer.workbench.brew.what_counts import BY, REDO, UNDO

if TYPE_CHECKING:
    from designer.brewday.measured.advice import Proposal
    from designer.window.parts.display_format import DisplayFormat
    from designer.window.session.autosave import Autosave
    from designer.window.session.brew_keeping import BrewKeeping, BrewLog
    from designer.window.session.open_recipe import OpenRecipe
    from designer.workbench.brew.clocks import Clock


class OpenBrew(BrewMeasuring):
    """What the page of a brew day drives. Without a brew there is nothing to press.

    `running_changed` tells that it is known which brews are under way.
    """

    running_changed = Signal()

    def __init__(
        self,
        keeping: BrewKeeping,
        display: DisplayFormat,
        clock: Clock | None = None,
        parent: QObject | None = None,
        reckon: Reckon = reckoned,
    ) -> None:
        super().__init__(keeping, display, clock, parent, reckon)
        self._running: tuple[BrewLog, ...] = ()

    # beginning

    def start(self, opened: OpenRecipe, autosave: Autosave | None) -> None:
        """Begin to brew the open recipe, at once; the store keeps its version before the brew.

        Raises DesignerError for a recipe that no file could hold.
        """
        brew = new_brew(document_text(opened.recipe), started=self._started())
        self.begin(self.of_opened(brew, opened, autosave), opened.recipe)

    def of_opened(self, brew: Brew, opened: OpenRecipe, autosave: Autosave | None) -> Brew:
        """Return a brew as one of the open recipe, of which a version is kept."""
        return put_to_open(brew, opened, autosave, self._keeping.belongs_to)

    def _started(self) -> str:
        return datetime.fromtimestamp(self.now().wall, UTC).isoformat(timespec="seconds")

    def begin(self, brew: Brew, recipe: Recipe) -> None:
        """Begin a brew that has no entry yet."""
        self._show(brew, recipe, ())
        at = datetime.fromtimestamp(self.now().wall)
        units = self._display.settings.units
        self._write(What.BEGAN, start_min=60 * at.hour + at.minute, shown=str(units))

    def go_on(self, uid: str) -> None:
        """Go on with a brew that was left, or with another of those under way."""
        if self.brew is None or self.brew.uid != uid:
            self._keeping.log_of(uid, self._go_on_with, self.said.emit)

    def _go_on_with(self, log: BrewLog) -> None:
        try:
            recipe = read_document(log.brew.document, log.brew.name)
        except DesignerError as fault:
            self.said.emit(str(fault))
            return
        self.show(log.brew, recipe, log.entries)

    def running(self) -> tuple[Brew, ...]:
        """All brews under way, the last begun first, as far as the store has told."""
        return tuple(each.brew for each in self._running)

    def elsewhere(self) -> tuple[tuple[Brew, tuple[TimerState, ...]], ...]:
        """The other brews under way, each with its timers: they run on as well."""
        mine = self.brew.uid if self.brew is not None else ""
        others = [each for each in self._running if each.brew.uid != mine]
        return tuple((each.brew, timers_of(each.entries)) for each in others)

    def look_for_running(self) -> None:
        """Ask which brews are under way; `running_changed` tells."""
        self._keeping.running(self._note_running, lambda _: None)  # the box says what is wrong

    def _note_running(self, found: list[BrewLog]) -> None:
        self._running = tuple(found)
        self.running_changed.emit()

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
        brewing, _ = self._open()
        self._say_back(brewing.undo, UNDO)

    def redo(self) -> None:
        """Do again what was undone last."""
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
