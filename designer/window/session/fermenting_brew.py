"""The beer of the brew that is shown, once its yeast is in: reckoned beside the window."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from designer.recipe.document import Recipe
from designer.window.session.beer_ahead import BeerAhead
from designer.window.session.running_brews import RunningBrews
from designer.workbench.brew.beer import is_pitched
from designer.workbench.brew.entries import Entry

if TYPE_CHECKING:
    from designer.library.store.brews import Brew
    from designer.workbench.brew.beer import BeerNow
    from designer.workbench.brew.reckoning import Reckoned


class FermentingBrew(RunningBrews):
    """A brew with its beer. `beer_changed` tells that something else is known of it, or nothing."""

    beer_changed = Signal()

    @cached_property
    def _beers(self) -> BeerAhead:
        made = BeerAhead(self)
        made.changed.connect(self.beer_changed)
        return made

    @property
    def beers(self) -> tuple[BeerNow, ...]:
        """The beers of all fermenters whose yeast is in, as far as they are known."""
        return self._beers.beers

    @property
    def beer(self) -> BeerNow | None:
        """The beer of the first fermenter; None before its yeast is in."""
        return self.beers[0] if self.beers else None

    @property
    def reckoning_beer(self) -> bool:
        """Whether more will be known of the beer as the brew stands."""
        return self.reckoning or self._beers.busy

    def look_at_beer(self) -> None:
        """Reckon the beer as the brew stands now: time has gone by."""
        brewing, known = self.brewing, self._known
        if brewing is None or not is_pitched(brewing):
            self._beers.leave()
        elif known is not None and known.whole:
            self._beers.follow(brewing, known, self.now())

    def _fold(self, entries: Sequence[Entry]) -> None:
        super()._fold(entries)
        self.look_at_beer()

    def _take_forecast(self, found: Reckoned) -> None:
        super()._take_forecast(found)
        self.look_at_beer()

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        self._beers.leave()
        super()._show(brew, recipe, entries)

    def leave(self) -> None:
        self._beers.leave()
        super().leave()

    def close(self) -> None:
        super().close()
        self._beers.close()
