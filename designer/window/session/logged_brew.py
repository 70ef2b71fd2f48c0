"""The log of the brew under way: an entry is kept first, then all of it is folded again.

There is no other state. What is reckoned of the day follows beside the window.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from designer.recipe.document import Recipe
from designer.sheet.stove import StoveStep
from designer.window.parts.display_format import DisplayFormat
from designer.window.session.brew_ahead import BrewAhead
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.clocks import Clock, MachineClock
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import in_order, next_id
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reckoning import Reckon, Reckoned, reckoned
from designer.workbench.brew.what_counts import WITH

if TYPE_CHECKING:
    from designer.brewday.measured.advice import Proposal
    from designer.brewday.results import Outlook
    from designer.library.store.brews import Brew
    from designer.window.session.brew_keeping import BrewKeeping

Line = tuple[What, dict[str, Any]]
"""What an entry tells, and the values of it."""


class LoggedBrew(QObject):
    """The log of one brew, or of none. `brewing` is where it stands.

    `changed` comes with every entry, `forecast_changed` when something else is known of the day,
    `said` carries words for the brewer.
    """

    changed = Signal()
    forecast_changed = Signal()
    said = Signal(str)

    def __init__(
        self,
        keeping: BrewKeeping,
        display: DisplayFormat,
        clock: Clock | None = None,
        parent: QObject | None = None,
        reckon: Reckon = reckoned,
    ) -> None:
        super().__init__(parent)
        self._keeping, self._display = keeping, display
        self.clock: Clock = clock if clock is not None else MachineClock()
        self.brew: Brew | None = None
        self.brewing: Brewing | None = None
        self._ahead = BrewAhead(self, reckon)
        self._ahead.changed.connect(self._take_forecast)
        display.settings.changed.connect(self._follow)

    # what is known

    @property
    def is_open(self) -> bool:
        """Whether there is a brew."""
        return self.brew is not None

    @property
    def recipe(self) -> Recipe | None:
        """The recipe that was brewed, as it was when the day began."""
        return self.brewing.recipe if self.brewing is not None else None

    @property
    def as_brewed(self) -> Recipe | None:
        """The recipe as this brew makes it."""
        return self._known.recipe if self._known is not None else None

    @property
    def _known(self) -> Reckoned | None:
        return self._ahead.known if self.is_open else None

    @property
    def steps(self) -> tuple[StoveStep, ...]:
        """What is done at the stove, in order."""
        return self._known.steps if self._known is not None else ()

    @property
    def outlook_planned(self) -> Outlook | None:
        """The day as it was meant."""
        return self._known.planned if self._known is not None else None

    @property
    def outlook(self) -> Outlook | None:
        """The day as it is known from what was measured."""
        return self._known.outlook if self._known is not None else None

    @property
    def proposals(self) -> tuple[Proposal, ...]:
        """What could be done about how the day goes, the most important first."""
        return self._known.proposals if self._known is not None else ()

    @property
    def reckoning(self) -> bool:
        """Whether more will be known of the day as it stands."""
        return self._ahead.busy

    def now(self) -> Instant:
        """Return this instant, by the clock of the day."""
        return self.clock.now()

    def show(self, brew: Brew, recipe: Recipe, entries: Iterable[Entry]) -> None:
        """Go on with a brew by the entries of its log."""
        self._show(brew, recipe, in_order(entries))
        self.changed.emit()

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        units = self._display.settings.units
        self.brew = brew
        self._keeping.begin(brew)
        known = self._ahead.open(brewing_of(recipe, (), entries), units)
        self.brewing = brewing_of(recipe, known.steps, entries)
        if entries:  # what was done, accepted and measured counts once the steps are known
            known = self._ahead.open(self.brewing, units)
            self.brewing = brewing_of(recipe, known.steps, entries)
        self._follow()

    def _follow(self) -> None:
        """Let the day be reckoned as the brew stands, in the units that are shown."""
        if self.brewing is not None:
            self._ahead.follow(self.brewing, self._display.settings.units)

    def close(self) -> None:
        """End what is still reckoned, at the end of the window."""
        self._ahead.close()

    def leave(self) -> None:
        """Let the brew be: it stays under way."""
        self._ahead.leave()
        self.brew = self.brewing = None
        self.changed.emit()

    # entries

    def _write(self, what: What, /, **values: Any) -> str:
        return self._write_all([(what, values)])

    def _write_all(self, many: Sequence[Line]) -> str:
        """Keep entries of one moment; those after the first go with it. Return the first's id."""
        brewing, brew = self._open()
        at, entries, first = self.now(), list(brewing.entries), ""
        before = len(entries)
        for what, values in many:
            with_first = {WITH: first} if first else {}
            made = Entry(next_id(entries), at, what, {**values, **with_first})
            first = first or made.id
            entries.append(made)
        self._keeping.append(brew.uid, *entries[before:])
        self._fold(entries)
        return first

    def take_in(self, entries: Iterable[Entry]) -> int:
        """Keep entries that were written elsewhere; return how many of them were not here yet."""
        brewing, brew = self._open()
        known = {each.id for each in brewing.entries}
        fresh = [each for each in entries if each.id not in known]
        if fresh:
            self._keeping.append(brew.uid, *fresh)
            self._fold(in_order((*brewing.entries, *fresh)))
        return len(fresh)

    def _open(self) -> tuple[Brewing, Brew]:
        assert self.brewing is not None
        assert self.brew is not None
        return self.brewing, self.brew

    def _fold(self, entries: Sequence[Entry]) -> None:
        brewing, _ = self._open()
        self.brewing = brewing_of(brewing.recipe, self.steps, entries)
        self.changed.emit()
        self._follow()

    def _take_forecast(self, found: Reckoned) -> None:
        if self.brewing is None:
            return
        if found.steps != self.brewing.steps:
            entries = self.brewing.entries
            self.brewing = brewing_of(self.brewing.recipe, found.steps, entries)
            self.changed.emit()
        self.forecast_changed.emit()

    def _key_now(self) -> str:
        brewing, _ = self._open()
        return brewing.now.key if brewing.now is not None else ""

    def take_back(self, entry_id: str) -> None:
        """Take an entry back; it stays written. What counts no more is not taken back again."""
        brewing, _ = self._open()
        if entry_id in brewing.in_force:
            self._write(What.TAKES_BACK, entry=entry_id)
