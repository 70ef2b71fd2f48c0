"""What brings a missed style in, sought beside the window once nobody types any more."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.recipe.document import Recipe
from designer.window.parts.background import Latest
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.results import Finding, Outlook

RESTING_MS = 300
MISSED = "style-missed"
"""The finding of a chosen style that is missed."""


class StyleCure(QObject):
    """Follows the forecast of a recipe; `found` carries its findings with the cure among them."""

    found = Signal(object)

    def __init__(self, opened: OpenRecipe, parent: QObject) -> None:
        super().__init__(parent)
        self._opened = opened
        self._asked: tuple[Recipe, Outlook] | None = None
        self._seeking = Latest(self)
        self._seeking.answered.connect(self._take)
        self._rest = QTimer(self, singleShot=True, interval=RESTING_MS)
        self._rest.timeout.connect(self._seek)
        opened.recipe_changed.connect(self._rest.stop)
        opened.outlook_changed.connect(self.follow)

    def follow(self, outlook: Outlook) -> None:
        """Seek what cures a forecast, once nobody types any more."""
        self._rest.stop()
        self._asked = None
        if self._opened.with_ranges and _missed(outlook) is not None:
            self._asked = self._opened.reckoned, outlook
            self._rest.start()

    def _seek(self) -> None:
        # Loaded where a style is missed, not at the start.
        from designer.workbench.style_watch import cured

        if self._asked is None:
            return
        recipe, finding = self._asked[0], _missed(self._asked[1])
        if finding is not None:
            wanted = partial(self._is_wanted, recipe)
            self._seeking.ask(partial(cured, recipe, finding, wanted))

    def _is_wanted(self, recipe: Recipe) -> bool:
        """Whether the recipe is still the one that is open; asked beside the window."""
        return self._opened.reckoned is recipe

    def _take(self, finding: Finding) -> None:
        if self._asked is None or self._asked[0] is not self._opened.reckoned:
            return
        findings = self._asked[1].findings
        if finding.fix is not None:
            self.found.emit(
                tuple(finding if each.code == finding.code else each for each in findings)
            )

    def close_down(self) -> None:
        """Await what is sought, for the end of the program."""
        self._rest.stop()
        self._seeking.wait()


def _missed(outlook: Outlook) -> Finding | None:
    return next((each for each in outlook.findings if each.code == MISSED), None)
