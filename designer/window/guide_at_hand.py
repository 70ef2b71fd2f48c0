"""The guide of a window: opened at the page that fits what is shown, and closed with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.translation import spoken, tr
from designer.window.paged_window import BOX, BREW, COMPOSE, FIT, KITCHEN, NOTHING_OPEN, SHEET

if TYPE_CHECKING:
    from designer.window.guide.guide_window import GuideWindow
    from designer.window.paged_window import PagedWindow

DOORS = "doors"
"""How the guide names the doors of Begin, which are no page of the header."""
FITTING = {
    DOORS: "begin",
    COMPOSE: "compose",
    FIT: "fit",
    SHEET: "sheet",
    BREW: "brew_day",
    BOX: "recipe_box",
    KITCHEN: "kitchen",
}
"""The page of the guide that tells of a page of the program."""
OF_PARTS = {"reading": "reading", "fermenting": "fermenting"}
"""The same of the parts of a brew day; the others are told with the stove."""


class GuideAtHand:
    """What the Help menu asks for."""

    def __init__(self, window: PagedWindow) -> None:
        self._window = window
        self.reader: GuideWindow | None = None

    def open(self) -> None:
        """Show the guide, at the page that fits what the window shows."""
        self.open_at(self._fitting())

    def open_at(self, page: str, heading: str = "") -> None:
        """Show a page of the guide by its name, from a heading on."""
        if self.reader is None:
            # Few sittings need it.
            from designer.window.guide.guide_window import GuideWindow

            self.reader = GuideWindow(
                spoken(), self._window.questions, lambda: self._window.settings.paper
            )
            self.reader.setWindowIcon(self._window.windowIcon())
            self.reader.show_wanted.connect(self._show)
        self.reader.show()
        self.reader.open_page(page, heading)
        self.reader.raise_()
        self.reader.activateWindow()
        self.reader.view.setFocus()

    def close(self) -> None:
        """Close the guide: the window that it belongs to closes."""
        if self.reader is not None:
            self.reader.close()
            self.reader.deleteLater()
            self.reader = None

    def _fitting(self) -> str:
        shown = self._window.page_shown or DOORS
        if shown == BREW and self._window.brew_page is not None:
            part = str(self._window.brew_page.parts.shown)
            return OF_PARTS.get(part, FITTING[BREW])
        return FITTING[shown]

    def _show(self, name: str) -> None:
        """Show a page of the program that the guide leads to."""
        window = self._window
        if name == DOORS:
            window.begin()
        elif name in window.page_names:  # without a Recipe box some are not there
            number = window.page_names.index(name)
            if window.why_off(number):
                window.messages.say(tr(NOTHING_OPEN))
            window.show_page(number)
        window.raise_()
        window.activateWindow()
