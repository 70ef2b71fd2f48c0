"""What the kitchen taught: made of all brews of the Recipe box, and what the brewer does with it.

A brew takes a fifth of a second to be asked, so this is for a thread beside the window; what a log
said is kept in mind for as long as it does not grow.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING

from designer.brewday.learning.figures import Figure, Learned, LearnedStep, Seen
from designer.brewday.learning.learned import learned
from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.library.store.taught_figures import Does, TaughtRow
from designer.recipe.document import Recipe
from designer.recipe.message import Message, refused
from designer.units.shown import ShownUnits
from designer.workbench.brew.brewing import Brewing, brewing_of
from designer.workbench.brew.clocks import MachineClock
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entries_text import entries_of, plain
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.kept_logs import kept_logs
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.learning.figure_places import PLACES, figure_text
from designer.workbench.learning.observations import observations_of
from designer.workbench.learning.questions import question_of
from designer.workbench.learning.starts import Kitchen, starts_of
from designer.workbench.learning.taken import TakenFigure, figure_of, taken_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.library.store.brews import Brew

_MOST_KEPT = 256


@dataclass(frozen=True, slots=True)
class SeenRow:
    """What a brew said of a figure of a subject.

    `counts` tells whether it is learned from; `odd` that it lies far from all the others; `said`
    what the brewer answered, None where he did not.
    """

    figure: Figure
    subject: str
    value: float
    counts: bool
    odd: bool
    said: bool | None = None


@dataclass(frozen=True, slots=True)
class BrewRow:
    """A brew that the kitchen learned from, or could have.

    `version` counts the versions of its recipe, 0 where it has none in the box; `pot`, `fermenter`
    and `yeast` are what it was brewed with. `question` asks about what is odd and was not answered.
    """

    uid: str
    name: str
    version: int
    started: str
    pot: str
    fermenter: str
    yeast: str
    seen: tuple[SeenRow, ...] = ()
    question: Message | None = None

    def of(self, figure: Figure) -> SeenRow | None:
        """Return what it said of a figure; None where it said nothing."""
        return next((each for each in self.seen if each.figure is figure), None)


@dataclass(frozen=True, slots=True)
class Taught:
    """What brews taught: every figure, what is taken of it and what was left, the brews.

    `brews` begin with the last; `let_be` are figures of which the brewer keeps his own.
    """

    learned: tuple[Learned, ...] = ()
    taken: tuple[TakenFigure, ...] = ()
    let_be: tuple[TakenFigure, ...] = ()
    brews: tuple[BrewRow, ...] = ()
    pots: tuple[str, ...] = field(default=())

    def of(self, figure: Figure, subject: str = "") -> Learned | None:
        """Return what is known of a figure of a subject; None where nothing is."""
        found = (e for e in self.learned if e.figure is figure and e.subject == subject)
        return next(found, None)

    def taken_for(self, figure: Figure, subject: str = "") -> TakenFigure | None:
        """Return what was taken for it; None where nothing was."""
        found = (e for e in self.taken if e.figure is figure and e.subject == subject)
        return next(found, None)

    def kept_for(self, figure: Figure, subject: str = "") -> TakenFigure | None:
        """Return what was offered when the brewer kept his own; None where he took it, or nothing.

        It is told no more once the brews say something else.
        """
        found = (e for e in self.let_be if e.figure is figure and e.subject == subject)
        kept, now = next(found, None), self.of(figure, subject)
        same = kept is not None and now is not None and kept.value == figure_text(figure, now.known)
        return kept if same else None


def taught_of(store: Store) -> Taught:
    """Return what all brews of the box teach, with what was taken of it. Raises DesignerError."""
    brewed = [each for each in map(_brewed, kept_logs(store)) if each is not None]
    seens = [seen for each in brewed for seen in each.seen]
    rows = store.taught.last()
    kitchen = Kitchen(tuple(store.pots.all()), tuple(store.fermenters.all()))
    taken = taken_of(store)
    starts = starts_of(kitchen, [each.recipe for each in brewed], taken)
    found = learned(seens, starts)
    steps = {(each.figure, each.subject, step.brew): step for each in found for step in each.steps}
    versions = _versions(store, brewed)
    told = {(each.figure, each.subject): each for each in found}
    let_be = tuple(
        TakenFigure(figure, row.subject, row.value, row.before, row.at, row.rests_on)
        for row in rows.values()
        if row.does == Does.LET_BE and (figure := figure_of(row)) is not None
    )
    return Taught(
        tuple(each for each in found if each.steps or _is_in(kitchen, each)),
        taken,
        let_be,
        tuple(_row(each, steps, told, versions) for each in brewed),
        tuple(dict.fromkeys(each.name for each in kitchen.pots)),
    )


@dataclass(frozen=True, slots=True)
class _Brewed:
    brew: Brew
    recipe: Recipe
    seen: tuple[Seen, ...]


def _brewed(log: tuple[Brew, tuple[Entry, ...]]) -> _Brewed | None:
    """Return a brew with what it says; None for one that was not begun, or cannot be read."""
    brew, entries = log
    try:
        recipe = read_document(brew.document, brew.name)
    except DesignerError:
        return None
    return _Brewed(brew, recipe, _said(_Log(brew.uid, brew.document, brew.name, entries)))


@dataclass(frozen=True, slots=True)
class _Log:
    """A log as it is kept in mind: by its brew, and by how many entries of which id it has."""

    uid: str
    document: str
    name: str
    entries: tuple[Entry, ...] = field(compare=False)
    ids: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "ids", tuple(each.id for each in self.entries))


@lru_cache(maxsize=_MOST_KEPT)
def _said(log: _Log) -> tuple[Seen, ...]:
    recipe = read_document(log.document, log.name)
    first = brewing_of(recipe, (), log.entries)
    if first.began is None:
        return ()
    return observations_of(log.uid, _with_steps(first))


def _with_steps(first: Brewing) -> Brewing:
    steps = reckoned(first, ShownUnits.METRIC, ranges=False).steps
    return brewing_of(first.recipe, steps, first.entries)


def _is_in(kitchen: Kitchen, figure: Learned) -> bool:
    """Whether a figure that no brew told is of a vessel that stands in the kitchen."""
    of = PLACES[figure.figure].vessel
    if of is None:
        return False
    vessels = kitchen.pots if of.table == "pots" else kitchen.fermenters
    return any(each.name == figure.subject for each in vessels)


def _versions(store: Store, brewed: Sequence[_Brewed]) -> dict[int, int]:
    """Return how many versions of its recipe each version is the last of, by id."""
    recipes = {each.brew.recipe for each in brewed if each.brew.recipe}
    return {each.id: each.number for recipe in recipes for each in store.recipes.versions(recipe)}


def _row(
    brewed: _Brewed,
    steps: dict[tuple[Figure, str, str], LearnedStep],
    told: dict[tuple[Figure, str], Learned],
    versions: dict[int, int],
) -> BrewRow:
    brew, recipe = brewed.brew, brewed.recipe
    seen = []
    for each in brewed.seen:
        step = steps[each.figure, each.subject, each.brew]
        seen.append(
            SeenRow(each.figure, each.subject, each.value, step.counts, step.odd, each.counts)
        )
    asked = next((each for each in seen if each.odd and each.said is None), None)
    return BrewRow(
        brew.uid,
        brew.name,
        versions.get(brew.version, 0),
        brew.started,
        recipe.pot.name,
        recipe.fermenter.name,
        recipe.yeast.name,
        tuple(seen),
        None
        if asked is None
        else question_of(asked.figure, asked.value, told[asked.figure, asked.subject]),
    )


def take(store: Store, known: Learned) -> TakenFigure:
    """Write a learned figure with its band to the vessel, or keep it for yeast or brewer.

    Raises DesignerError, and RefusedInputError where it is not sure enough.
    """
    if not known.enough:
        raise refused(
            "taught-too-little",
            "It is not sure enough yet: too few brews tell of it, or they tell too little.",
        )
    was = _taken_now(store, known)
    before = "" if was is None else was.before
    row = _new_row(known, Does.TOOK, before)
    place = PLACES[known.figure]
    brews = [each.brew for each in known.steps if each.counts]
    done = store.taught.write(row, place.vessel, brews, again=was is not None)
    return TakenFigure(known.figure, known.subject, done.value, done.before, done.at, done.rests_on)


def keep(store: Store, known: Learned) -> None:
    """Note that the brewer keeps his own figure. Raises DesignerError."""
    store.taught.write(_new_row(known, Does.LET_BE))


def give_back(store: Store, figure: Figure, subject: str = "") -> TakenFigure | None:
    """Put back what stood there before a figure was taken, or let it be offered again.

    Returns what was taken, None where nothing was. Raises DesignerError.
    """
    last = store.taught.last().get((str(figure), subject))
    if last is None or last.does == Does.GAVE_BACK:
        return None
    was = TakenFigure(figure, subject, last.value, last.before, last.at, last.rests_on)
    took = last.does == Does.TOOK
    of = PLACES[figure].vessel if took and was in taken_of(store) else None
    row = TaughtRow(str(figure), subject, Does.GAVE_BACK, last.before, last.value)
    store.taught.write(row, of)
    return was if took else None


def let_count(store: Store, uid: str, figure: Figure, *, counts: bool) -> None:
    """Write in the log of a brew whether it says of a figure. Raises DesignerError."""
    brew = store.brews.by_uid(uid)
    entries = entries_of(line.entry for line in store.brews.lines(brew.id))
    values = {"figure": str(figure), "counts": counts}
    entry = Entry(next_id(entries), MachineClock().now(), What.COUNTS, values)
    store.brews.append(brew.id, plain(entry))


def _taken_now(store: Store, known: Learned) -> TakenFigure | None:
    found = (e for e in taken_of(store) if (e.figure, e.subject) == (known.figure, known.subject))
    return next(found, None)


def _new_row(known: Learned, does: Does, before: str = "") -> TaughtRow:
    value = figure_text(known.figure, known.known)
    return TaughtRow(str(known.figure), known.subject, does, value, before)
