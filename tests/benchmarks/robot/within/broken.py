"""The program broken on purpose, in one way each, to see that the robot notices."""

from __future__ import annotations

import sys
import time
from typing import Any


def drafts() -> None:
    """Write no draft, and say that it is written."""
    from designer.library.store.drafts import Drafts

    Drafts.put = lambda self, draft: draft


def versions() -> None:
    """Keep another weight than was typed."""
    from designer.library.store import recipes

    accepted = recipes.accepted

    def wrong(document: str) -> Any:
        return accepted(document.replace(" kg", " lb"))

    recipes.accepted = wrong


def values() -> None:
    """Lose the first signs of what is typed into a cell."""
    from designer.window.parts.columns import Column

    value = Column.value

    def wrong(column: Any, row: Any, text: str, *more: Any) -> Any:
        return value(column, row, text[2:], *more)

    Column.value = wrong


def freeze() -> None:
    """Keep the window waiting at every change."""
    from designer.window.session.open_recipe import OpenRecipe

    show = OpenRecipe.show

    def slow(self: Any, *more: Any, **named: Any) -> None:
        time.sleep(1.3)
        show(self, *more, **named)

    OpenRecipe.show = slow


def stderr() -> None:
    """Write to stderr at every change."""
    from designer.window.session.open_recipe import OpenRecipe

    show = OpenRecipe.show

    def loud(self: Any, *more: Any, **named: Any) -> None:
        show(self, *more, **named)
        sys.stderr.write("broken on purpose\n")

    OpenRecipe.show = loud


BREAKING = {each.__name__: each for each in (drafts, versions, values, freeze, stderr)}
