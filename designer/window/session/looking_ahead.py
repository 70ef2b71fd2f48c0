"""What is forecast of the open recipe, in two turns of the event loop.

First the day is run as typed: its values are told at once, to be painted with the key that changed
them. Ranges, causes and findings take several times as long; they follow when that is painted and
no key waits. Until then a range that is shown moves along with its value, and nothing disappears.
Whoever needs the whole forecast asks for `newest`, which makes what is not known yet.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum, auto
from typing import TYPE_CHECKING

from PySide6.QtCore import QElapsedTimer, QObject, Qt, QTimer, Signal

from designer.recipe.document import Recipe
from designer.recipe.taught import Filled

if TYPE_CHECKING:
    from designer.brewday.results import Day, Glimpse, Outlook, PlanDays

LONGEST_BEHIND_MS = 100
"""While one types on, ranges and findings stay behind the values no longer than this."""


class Known(Enum):
    """How much of the forecast of the recipe as it stands was made and told."""

    NOTHING = auto()
    VALUES = auto()
    ALL = auto()


class LookingAhead(QObject):
    """The forecast of a recipe that changes; `known` says how far it has followed the recipe.

    `recipe_now` tells it as it is to be reckoned with, and what of that the kitchen taught. With
    `waiting` nothing is forecast until somebody asks.
    """

    values_changed = Signal(object)
    """The values are known, the rest is not yet: a `Glimpse`."""
    outlook_changed = Signal(object)
    """All is known: an `Outlook`."""
    _turn_wanted = Signal()

    def __init__(
        self,
        recipe_now: Callable[[], tuple[Recipe, tuple[Filled, ...]]],
        parent: QObject | None = None,
        *,
        waiting: bool,
    ) -> None:
        super().__init__(parent)
        self._recipe_now = recipe_now
        self.with_ranges = False
        self.known = Known.NOTHING
        self._glimpse: Glimpse | None = None
        self._outlook: Outlook | None = None
        self._is_other = self._turn_comes = False
        self._behind = QElapsedTimer()
        # Queued it comes before the painting that the key has asked for: both are painted as one.
        self._turn_wanted.connect(self._take_turn, Qt.ConnectionType.QueuedConnection)
        # Idle it comes after that painting, and after keys that wait.
        self._rest = QTimer(self, singleShot=True, interval=0)
        self._rest.timeout.connect(self.refresh)
        if not waiting:
            self._outlook, self.known = self._look_ahead(), Known.ALL

    @property
    def waiting(self) -> bool:
        """Whether nothing has been forecast yet."""
        return self._outlook is None

    @property
    def outlook(self) -> Outlook:
        """The latest whole forecast, maybe of an earlier recipe; made now if there is none."""
        if self._outlook is None:
            self._outlook = self._look_ahead()
            self.known = Known.NOTHING if self._turn_comes else Known.ALL
        return self._outlook

    @property
    def newest(self) -> Outlook:
        """The whole forecast of the recipe as it is this moment."""
        if self.known is not Known.ALL and not self.waiting:
            self.refresh()
        return self.outlook

    @property
    def day(self) -> Day:
        """The day that was told of last, as typed."""
        return self._glimpse.day if self._glimpse is not None else self.outlook.day

    @property
    def plan(self) -> PlanDays | None:
        """The boils and fermenters of that day, where they are planned."""
        return self._glimpse.plan if self._glimpse is not None else self.outlook.plan

    def follow(self, *, is_other: bool = False) -> None:
        """Hear that the recipe has changed, or is another one, whose ranges are not known at all.

        It is forecast once, however often it changes in one turn of the event loop.
        """
        self.known = Known.NOTHING
        self._is_other |= is_other
        self._rest.stop()
        if not self._behind.isValid():
            self._behind.start()
        if not self._turn_comes:
            self._turn_comes = True
            self._turn_wanted.emit()

    def _take_turn(self) -> None:
        if not self._turn_comes:
            return  # somebody could not wait for it
        if self._is_due or self._outlook is None:
            self.refresh()
            return
        from designer.brewday.outlook import glimpse

        self._turn_comes = False
        self._glimpse, self.known = glimpse(self._recipe_now()[0], self._outlook), Known.VALUES
        self._rest.start()
        self.values_changed.emit(self._glimpse)

    @property
    def _is_due(self) -> bool:
        """Whether all is to be made in one turn: it takes no time, or has waited long enough."""
        return not self.with_ranges or self._is_other or self._behind.hasExpired(LONGEST_BEHIND_MS)

    def refresh(self) -> None:
        """Forecast all that is not known yet of the recipe as it is now, and tell of it."""
        self._rest.stop()
        self._turn_comes = False
        self._outlook = self._look_ahead()
        self._glimpse, self.known, self._is_other = None, Known.ALL, False
        self._behind.invalidate()
        self.outlook_changed.emit(self._outlook)

    def _look_ahead(self) -> Outlook:
        from designer.workbench.style_watch import outlook_of

        glimpsed = self._glimpse if self.known is Known.VALUES else None
        recipe, fills = self._recipe_now()
        outlook = outlook_of(recipe, ranges=self.with_ranges, glimpsed=glimpsed)
        if not fills:
            return outlook
        from designer.workbench.learning.with_taught import naming_what_it_rests_on

        return naming_what_it_rests_on(outlook, fills)

    def want_ranges(self, *, now: bool = True) -> None:
        """From now on run the day for ranges too; not before the window is painted.

        With `now` what is shown gets its ranges at once.
        """
        self.with_ranges = True
        if now:
            self.refresh()
