"""Says in the logs of brews whether what they tell of the kitchen counts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial

from designer.brewday.learning.figures import Figure
from designer.window.session.brew_keeping import BrewKeeping, BrewLog
from designer.workbench.brew.clocks import now
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id

Said = tuple[str, Figure, bool]
"""The lasting name of a brew, a figure, and whether it counts."""


def count_brews(brews: BrewKeeping, said: Iterable[Said], failed: Callable[[str], object]) -> None:
    """Write it into the log of each brew; `failed` tells why that is not possible."""
    by_brew: dict[str, list[tuple[Figure, bool]]] = {}
    for uid, figure, counts in said:
        by_brew.setdefault(uid, []).append((figure, counts))
    for uid, figures in by_brew.items():
        brews.log_of(uid, partial(_add, brews, figures), failed)


def _add(brews: BrewKeeping, figures: list[tuple[Figure, bool]], log: BrewLog) -> None:
    entries = list(log.entries)
    for figure, counts in figures:
        values = {"figure": str(figure), "counts": counts}
        entries.append(Entry(next_id(entries), now(), What.COUNTS, values))
    brews.append(log.brew.uid, *entries[len(log.entries) :])
