"""Which brew is shown at the stove: begun, gone on with, left for another that is under way too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from types import MappingProxyType
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from designer.errors import DesignerError
from designer.library.recipe_file import document_text, read_document
from designer.library.store.brews import new_brew
from designer.recipe.document import Recipe
from designer.window.session.brew_measuring import BrewMeasuring
from designer.window.session.brewed_version import put_to_open
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.taught_at_start import KEY, values_of_taught

if TYPE_CHECKING:
    from designer.library.store.brews import Brew
    from designer.recipe.taught import Filled
    from designer.window.session.autosave import Autosave
    from designer.window.session.brew_keeping import BrewLog
    from designer.window.session.open_recipe import OpenRecipe


class RunningBrews(BrewMeasuring):
    """One brew is shown, others may be under way.

    `running_changed` tells that it is known which they are.
    """

    running_changed = Signal()
    wanted = ""
    """The brew that was asked for last; its log may be on its way yet."""

    _running: tuple[BrewLog, ...] = ()
    _in_fermenters: tuple[BrewLog, ...] = ()
    _others: Mapping[str, tuple[Brew, Brewing]] = MappingProxyType({})

    def start(self, opened: OpenRecipe, autosave: Autosave | None) -> None:
        """Begin to brew the open recipe, at once; the store keeps its version before the brew.

        Raises DesignerError for a recipe that no file could hold.
        """
        brew = new_brew(document_text(opened.recipe), started=self._started())
        fills = opened.taught()[1]
        self.begin(self.of_opened(brew, opened, autosave), opened.recipe, fills)

    def of_opened(self, brew: Brew, opened: OpenRecipe, autosave: Autosave | None) -> Brew:
        """Return a brew as one of the open recipe, of which a version is kept."""
        return put_to_open(brew, opened, autosave, self._keeping.belongs_to)

    def _started(self) -> str:
        return datetime.fromtimestamp(self.now().wall, UTC).isoformat(timespec="seconds")

    def begin(self, brew: Brew, recipe: Recipe, fills: Sequence[Filled] = ()) -> None:
        """Begin a brew that has no entry yet; what fills empty fields now, fills them for good."""
        self.wanted = brew.uid
        self._show(brew, recipe, ())
        at = datetime.fromtimestamp(self.now().wall)
        units = self._display.settings.units
        told = {KEY: values_of_taught(fills)} if fills else {}
        minute = 60 * at.hour + at.minute
        self._write(What.BEGAN, start_min=minute, shown=str(units), **told)

    def go_on(self, uid: str) -> None:
        """Go on with a brew that was left, or with another of those under way."""
        self.wanted = uid
        if self.brew is None or self.brew.uid != uid:
            self._keeping.log_of(uid, self._go_on_with, self.said.emit)

    def _go_on_with(self, log: BrewLog) -> None:
        if log.brew.uid != self.wanted:
            return  # another was asked for since
        if self.brew is not None and self.brew.uid == log.brew.uid:
            return  # it was asked for twice, and may have grown since
        try:
            recipe = read_document(log.brew.document, log.brew.name)
        except DesignerError as fault:
            self.said.emit(str(fault))
            return
        self.show(log.brew, recipe, log.entries)

    def running(self) -> tuple[Brew, ...]:
        """All brews under way, the last begun first, as far as the store has told."""
        return tuple(each.brew for each in self._running)

    def in_fermenters(self) -> tuple[Brew, ...]:
        """All brews whose beer is in the fermenter, the last begun first, as far as is told."""
        return tuple(each.brew for each in self._in_fermenters)

    def elsewhere(self) -> tuple[tuple[Brew, Brewing], ...]:
        """The other brews under way and where they stand: their timers run on as well."""
        mine = self.brew.uid if self.brew is not None else ""
        return tuple(each for uid, each in self._others.items() if uid != mine)

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        self._note_left()
        super()._show(brew, recipe, entries)
        self._others = {uid: each for uid, each in self._others.items() if uid != brew.uid}

    def leave(self) -> None:
        """Let the brew be: it stays under way, or in the fermenter."""
        self._note_left()
        super().leave()
        self.look_for_beers()

    def _note_left(self) -> None:
        """The brew that is left for another goes on where nobody sees it."""
        if self.brew is not None and self.brewing is not None and self.brewing.finished is None:
            self._others = {**self._others, self.brew.uid: (self.brew, self.brewing)}

    def look_for_running(self) -> None:
        """Ask which brews are under way; `running_changed` tells."""
        self._keeping.running(self._note_running, lambda _: None)  # the box says what is wrong
        self.look_for_beers()

    def look_for_beers(self) -> None:
        """Ask which beers are in fermenters; `running_changed` tells."""
        self._keeping.fermenting(self._note_beers, lambda _: None)

    def _note_beers(self, found: list[BrewLog]) -> None:
        self._in_fermenters = tuple(found)
        self.running_changed.emit()

    def _note_running(self, found: list[BrewLog]) -> None:
        self._running = tuple(found)
        self._others = dict(self._folded(found))
        self.running_changed.emit()

    def _folded(self, found: list[BrewLog]) -> Iterator[tuple[str, tuple[Brew, Brewing]]]:
        """Yield where brews stand by their logs; one that cannot be read is left out."""
        mine = self.brew.uid if self.brew is not None else ""
        for log in found:
            known = self._others.get(log.brew.uid)
            if known is not None:
                _, was = known
                yield log.brew.uid, (log.brew, brewing_of(was.recipe, was.steps, log.entries))
            elif log.brew.uid != mine:
                with suppress(DesignerError):  # it is told when one goes on with it
                    yield log.brew.uid, (log.brew, self._glimpsed(log))

    def _glimpsed(self, log: BrewLog) -> Brewing:
        recipe = read_document(log.brew.document, log.brew.name)
        first = brewing_of(recipe, (), log.entries)
        glimpse = self._ahead.glimpse(first, self._display.settings.units)
        return brewing_of(recipe, glimpse.steps, log.entries)
