"""What the brewer has taken of what brews taught, told to the open recipe as the box has it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from designer.workbench.learning.taken import TakenFigure, taken_of

if TYPE_CHECKING:
    from designer.library.store import Store
    from designer.window.session.box_link import BoxLink
    from designer.window.session.open_recipe import OpenRecipe


class TakenFigures(QObject):
    """For one window; the box is asked when it is opened and whenever something may be new."""

    def __init__(self, link: BoxLink, opened: OpenRecipe, parent: QObject) -> None:
        super().__init__(parent)
        self._link, self._opened = link, opened
        link.opened_anew.connect(self.refresh)
        link.box_replaced.connect(self.refresh)
        link.well_again.connect(self.refresh)
        link.moved.connect(lambda *_: self.refresh())

    def refresh(self) -> None:
        """Ask the box; what was known stays where it does not answer."""

        def work(store: Store) -> tuple[TakenFigure, ...]:
            return taken_of(store)

        self._link.store.ask(work, self._opened.set_taken, lambda _: None, key="taken figures")
