"""What of all that brews taught the brewer has taken, as the Recipe box keeps it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.brewday.learning.figures import Figure
from designer.library.store.taught_figures import Does, TaughtRow

if TYPE_CHECKING:
    from designer.library.store import Store


@dataclass(frozen=True, slots=True)
class TakenFigure:
    """A figure of a subject that was taken: its text with the ±, and what it was before.

    `at` is when that was (ISO 8601, UTC), `brews` the lasting names of those it rests on.
    """

    figure: Figure
    subject: str
    value: str
    before: str = ""
    at: str = ""
    brews: tuple[str, ...] = ()


def taken_of(store: Store) -> tuple[TakenFigure, ...]:
    """Return the figures that are taken now.

    One that was taken for a vessel and then typed otherwise in its record is not the kitchen's any
    more.
    """
    pots = {("pots", each.name): each for each in reversed(store.pots.all())}
    fermenters = {("fermenters", each.name): each for each in reversed(store.fermenters.all())}
    return in_force(store.taught.last().values(), {**pots, **fermenters})


def in_force(
    rows: Iterable[TaughtRow], vessels: dict[tuple[str, str], object]
) -> tuple[TakenFigure, ...]:
    """Return what is taken of the last rows; `vessels` by table and name hold their own texts."""
    from designer.workbench.learning.figure_places import PLACES  # brings the brew day's doubts in

    found = []
    for row in rows:
        figure = figure_of(row)
        if figure is None or row.does != Does.TOOK:
            continue
        of = PLACES[figure].vessel
        vessel = vessels.get((of.table, row.subject)) if of is not None else None
        if of is not None and vessel is not None and getattr(vessel, of.column) != row.value:
            continue
        found.append(TakenFigure(figure, row.subject, row.value, row.before, row.at, row.rests_on))
    return tuple(found)


def figure_of(row: TaughtRow) -> Figure | None:
    """Return the figure of a row; None for one that a later program learns."""
    try:
        return Figure(row.figure)
    except ValueError:
        return None
