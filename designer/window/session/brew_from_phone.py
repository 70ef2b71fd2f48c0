"""The log of a phone is taken into a brew: into the one that is open, or as a brew of its own.

However often it is pasted, each of its entries is there once.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from designer.sheet.pocket.recipe_id import recipe_id
from designer.translation import tr, trn
from designer.workbench.brew.pocket_entries import pocket_brew, pocket_entries
from designer.workbench.brew.pocket_version import version_brewed

if TYPE_CHECKING:
    from designer.library.store import Version
    from designer.window.session.autosave import Autosave
    from designer.window.session.brew_keeping import BrewKeeping, BrewLog
    from designer.window.session.open_brew import OpenBrew
    from designer.window.session.open_recipe import OpenRecipe
    from designer.workbench.brew.pocket_text import PocketLog


def join_brew(brew: OpenBrew, log: PocketLog) -> None:
    """Take the log into the brew that is open, which has begun already."""
    _say_taken(brew, brew.take_in(pocket_entries(log, joins=True)))


def take_in_brew(
    brew: OpenBrew,
    keeping: BrewKeeping,
    log: PocketLog,
    opened: OpenRecipe,
    autosave: Autosave | None,
) -> None:
    """Take the log in as a brew of its own, or add to that if it was taken in before; show it.

    It becomes a brew of the recipe that is open where it was brewed from that, else of the version
    of the box that is alike, which is kept first where there is none.
    """
    head = pocket_brew(log)

    def known(found: BrewLog) -> None:
        brew.show(found.brew, log.recipe, found.entries)
        _say_taken(brew, brew.take_in(pocket_entries(log)))

    def new(_: str) -> None:
        is_opened = recipe_id(opened.recipe) == log.recipe_id
        begun = brew.of_opened(head, opened, autosave) if is_opened else head
        brew.show(begun, log.recipe, ())
        _say_taken(brew, brew.take_in(pocket_entries(log)))
        if autosave is not None and not is_opened:
            autosave.store.ask(partial(version_brewed, log=log), belongs, autosave.say_broken)

    def belongs(kept: Version) -> None:
        keeping.belongs_to(head.uid, kept.recipe, kept.id)

    keeping.log_of(head.uid, known, new)


def _say_taken(brew: OpenBrew, count: int) -> None:
    if count == 0:
        brew.said.emit(tr("All of this text was in the log already."))
        return
    brew.said.emit(
        trn(
            "{number} entry of the phone is in the log now.",
            "{number} entries of the phone are in the log now.",
            count,
        )
    )
