"""What the Edit menu asks for: find anywhere, and find on the page that is shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from designer.window.parts.page_frame import Page

if TYPE_CHECKING:
    from designer.window.find.find_bar import FindBar
    from designer.window.find.find_card import FindCard
    from designer.window.paged_window import PagedWindow


class Finding:
    """Makes the card when it is first asked for; nothing of it is there at the start."""

    def __init__(self, window: PagedWindow, look: Callable[[], None]) -> None:
        self._window, self._look = window, look
        self.card: FindCard | None = None
        self.bar: FindBar | None = None

    def anywhere(self) -> None:
        """Lay the card over the window that finds anything."""
        if self.card is None:
            from designer.window.find.find_card import FindCard

            self.card = FindCard(self._window, self._look)
        self.card.open()

    def on_page(self) -> None:
        """Find on the page that is shown: by its own search where it has one, else by the bar."""
        page = self._window.pages.currentWidget()
        if not isinstance(page, Page) or not page.begin_search():
            self._shown_bar().ask()

    def go_on(self, by: int) -> None:
        """Go to the next hit on the page, or with -1 to the one before."""
        bar = self._shown_bar()
        if bar.isVisible() and bar.search.text():
            bar.go(by)
        else:
            bar.ask()

    def _shown_bar(self) -> FindBar:
        if self.bar is None:
            from designer.window.find.find_bar import FindBar

            self.bar = FindBar(self._window)
            self._window.lay_below(self.bar)
        return self.bar
