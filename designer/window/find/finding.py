"""What the Edit menu asks for: find anywhere, and find on the page that is shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from designer.window.find.find_card import FindCard
    from designer.window.paged_window import PagedWindow


class Finding:
    """Makes the card when it is first asked for; nothing of it is there at the start."""

    def __init__(self, window: PagedWindow, look: Callable[[], None]) -> None:
        self._window, self._look = window, look
        self.card: FindCard | None = None

    def anywhere(self) -> None:
        """Lay the card over the window that finds anything."""
        if self.card is None:
            from designer.window.find.find_card import FindCard

            self.card = FindCard(self._window, self._look)
        self.card.open()
