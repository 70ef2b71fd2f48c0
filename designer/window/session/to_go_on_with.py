"""What a brewer may go on with: drafts left behind, what was open last, what was kept of late.

Asked for on the store's thread.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from enum import Enum, auto
from pathlib import Path

from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.library.store import Draft, RecipeRow, Store, Version
from designer.library.store.brews import Brew
from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.library.store.values import LONGEST_FERMENTING_DAYS
from designer.library.store.windows import open_windows
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.window.parts.dates import day_text
from designer.window.session.brew_keeping import log_in
from designer.window.session.drafts_left_behind import Left, noted_last, show_draft
from designer.workbench.brew.brew_told import told_of
from designer.workbench.brew.clocks import now
from designer.workbench.brew.left_words import left_words
from designer.workbench.recipe_summary import summary_of

MOST = 4


class Kind(Enum):
    """What something to go on with is."""

    BREW = auto()
    OPEN = auto()
    DRAFT = auto()
    FILE = auto()
    RECIPE = auto()
    KIT = auto()
    EXAMPLE = auto()


@dataclass(frozen=True, slots=True)
class Thing:
    """Something to go on with: its name, when it was changed, the colour of its beer if known.

    It is a brew under way or a beer in the fermenter (`brew`, and `where` it was left), the draft
    of a sitting (`draft`), a `version` of the box, or the file `path`; the open recipe is none of
    them.
    """

    kind: Kind
    name: str
    when: datetime | None = None
    srm: float | None = None
    draft: str = ""
    version: Version | None = None
    path: Path | None = None
    brew: str = ""
    where: str = ""

    @property
    def is_example(self) -> bool:
        """Whether it is an example of the program, which is nobody's own."""
        return self.kind is Kind.EXAMPLE


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """What there is: things, what comes first on top, how many recipes are kept; the vessels."""

    things: tuple[Thing, ...] = ()
    count: int = 0
    pots: tuple[PotRecord, ...] = ()
    fermenters: tuple[FermenterRecord, ...] = ()


def whereabouts(store: Store, open_now: int | None = None) -> Whereabouts:
    """Return what there is to go on with: brews under way first.

    What is open now is left out: `open_now` is its number in the box, 0 if it is not in the box,
    None if nothing is open. Raises DesignerError.
    """
    drafts = list(reversed(store.drafts.left_behind(open_windows(store.folder))))
    brews = [_of_brew(store, each) for each in store.brews.under_way()]
    brews += _beers(store)
    things = [each for each in map(_of_draft, drafts) if each is not None]
    known = {open_now or 0, *(each.recipe for each in drafts)} - {0}
    last = _last_open(store, known) if open_now is None else None
    if last is not None:
        things.append(last)
        known.add(last.version.recipe if last.version is not None else 0)
    rows = store.finder.find("", order="changed", descending=True, limit=MOST + len(known)).rows
    for row in rows:
        if row.id not in known and len(things) < MOST:
            things.append(_of_row(store, row))
    return Whereabouts(
        (*brews, *things[: max(MOST, len(drafts))]),
        store.recipes.count(),
        tuple(store.pots.all()),
        tuple(store.fermenters.all()),
    )


def _of_brew(store: Store, brew: Brew) -> Thing:
    """Return a brew that was left in the middle."""
    where = left_words(log_in(store, brew).entries, now(), day_text)
    srm = None
    with suppress(DesignerError):
        srm = _srm(read_document(brew.document, brew.name))
    return Thing(Kind.BREW, brew.name, _moment(brew.started), srm, brew=brew.uid, where=where)


def _beers(store: Store) -> list[Thing]:
    """Return the beers in fermenters."""
    today = date.today()
    since = today - timedelta(days=LONGEST_FERMENTING_DAYS)
    found = []
    for brew in store.brews.finished_since(since.isoformat()):
        day = told_of(brew, log_in(store, brew).entries).fermenting_since(today)
        if day is not None:
            where = tr("in the fermenter, day {day}", day=max((today - day).days, 0))
            found.append(replace(_of_brew(store, brew), where=where))
    return found


def _of_draft(draft: Draft) -> Thing | None:
    try:
        recipe = read_document(draft.document, tr("draft"))
    except DesignerError:
        return None  # it is filed as it is at the next start that looks for it
    return Thing(Kind.DRAFT, recipe.name, _moment(draft.saved), _srm(recipe), draft.window)


def _srm(recipe: Recipe) -> float | None:
    return summary_of(recipe).srm


def _last_open(store: Store, known: set[int]) -> Thing | None:
    """Return what was open last, unless it is known already or cannot be told of."""
    noted = noted_last(store)
    path, number = noted.get("path"), noted.get("recipe")
    if isinstance(path, str) and path:
        is_there = Path(path)
        return Thing(Kind.FILE, is_there.stem, path=is_there)
    if not isinstance(number, int) or number in known | {0}:
        return None
    with suppress(DesignerError):
        row = store.recipes.row(number)
        if not row.trashed:
            return _of_row(store, row)
    return None


def _of_row(store: Store, row: RecipeRow) -> Thing:
    version = store.recipes.version(row.newest)
    kind = Kind.EXAMPLE if row.example else Kind.RECIPE
    with suppress(DesignerError):
        lines = read_document(version.document, version.called).fermentables
        if kind is Kind.RECIPE and lines and all(each.locked for each in lines):
            kind = Kind.KIT
    return Thing(kind, row.name, _moment(row.changed), row.summary.srm, version=version)


def _moment(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text).astimezone(UTC)
    except ValueError:
        return None


def take_draft(store: Store, sitting: str, name: str) -> Left:
    """Take over the draft of a sitting that was left behind, for a new sitting of this name.

    There is nothing to show if another window has it now. Raises DesignerError.
    """
    left = Left()
    for draft in store.drafts.left_behind(open_windows(store.folder)):
        if draft.window == sitting:
            show_draft(store, draft, left, name)
    return left


def opened_now(name: str, srm: float | None = None) -> Thing:
    """Return the recipe that is open as something to go on with."""
    return Thing(Kind.OPEN, name, srm=srm)
