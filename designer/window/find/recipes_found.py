"""Recipes of the Recipe box, asked for with each key; a slow or broken box holds up nothing."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.find.things import Act, Thing
from designer.window.paged_window import PagedWindow
from designer.window.parts.dates import kept_day
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from designer.library.store import RecipeRow, Store

MOST = 40
LATE_MS = 600
"""So long the box is waited for without a word."""


class RecipesFound(QObject):
    """Asks the Recipe box; `answered` carries what it has, `told` what became of the question."""

    answered = Signal()
    told = Signal(str)

    def __init__(self, window: PagedWindow, parent: QObject) -> None:
        super().__init__(parent)
        self._window = window
        self._asked = ""
        self.things: tuple[Thing, ...] = ()
        self._late = QTimer(self, singleShot=True, interval=LATE_MS)
        self._late.timeout.connect(self._say_late)
        window.keeping.begun.connect(lambda: self.ask(self._asked))

    def ask(self, typed: str) -> None:
        """Ask for the recipes that have what was typed; those found before are forgotten."""
        self.things, self._asked = (), typed
        self.told.emit("")
        if not typed.strip() or not self._window.keeping.has_box:
            self._late.stop()
            return
        autosave = self._window.autosave
        if autosave is None:
            self._say_late()  # it is opened once the window has been painted
            return
        self._late.start()

        def work(store: Store) -> tuple[RecipeRow, ...]:
            return store.finder.find(typed, limit=MOST).rows

        done, failed = partial(self._take, typed), partial(self._fail, typed)
        autosave.store.ask(work, done, failed, key="find anywhere")

    def forget(self) -> None:
        """Nobody asks any more."""
        self._asked, self.things = "", ()
        self._late.stop()

    def _take(self, typed: str, rows: tuple[RecipeRow, ...]) -> None:
        if typed == self._asked:
            self._late.stop()
            self.things = tuple(map(self._thing, rows))
            self.told.emit("")
            self.answered.emit()

    def _fail(self, typed: str, fault: str) -> None:
        if typed == self._asked:
            self._late.stop()
            self.told.emit(tr("No recipes can be found: {fault}", fault=fault))

    def _say_late(self) -> None:
        self.told.emit(tr("The Recipe box has not answered yet; its recipes follow."))

    def _thing(self, row: RecipeRow) -> Thing:
        return Thing(
            row.name,
            tr("Recipe box"),
            named(row.summary.style),
            " ".join((row.summary.style, *row.tags)),
            told=partial(_told, row, self._window.display),
            act=Act(tr("Open the recipe"), partial(self._open, row.id)),
            drawing="action-recipe-box",
        )

    def _open(self, recipe: int) -> None:
        window = self._window
        if window.autosave is not None:
            window.autosave.store.ask(
                lambda store: store.recipes.newest(recipe),
                window.version_wanted.emit,
                window.say_fault,
            )


def _told(row: RecipeRow, display: DisplayFormat) -> str:
    summary, said = row.summary, [named(row.summary.style)] if row.summary.style else []
    if summary.og is not None and summary.abv is not None:
        said.append(
            tr(
                "{og} original gravity, {abv} %",
                og=display.rounded(Kind.GRAVITY, summary.og),
                abv=display.decimal(f"{summary.abv:.1f}"),
            )
        )
    if row.changed:
        said.append(tr("changed {day}", day=kept_day(row.changed)))
    return "\n\n".join(said)
