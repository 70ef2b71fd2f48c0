"""Says what keeps the Recipe box from keeping, for as long as it is so, and offers the ways on.

What is said lasts: it comes back after other messages and after each way that did not help. The
header tells that nothing is kept, however often the message is put away; pressed, it brings the
message back.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from designer.library.store.folder import usual_folder
from designer.translation import message, tr
from designer.window.parts.message_bar import KEEPING
from designer.window.session.autosave import Autosave
from designer.window.session.box_maintenance import BoxMaintenance
from designer.window.session.recipe_window import RecipeWindow
from designer.window.session.rescue_offer import words_and_ways

if TYPE_CHECKING:
    from designer.library.store.rescue import Offer

Ways = list[tuple[str, Callable[[], None]]]
UNDER_WAY = message("The Recipe box is being put right. Until that is done nothing is kept in it.")


class BoxTrouble(QObject):
    """For one window and its Recipe box. `save_as` is the way on that needs no box.

    `unkept_changed` says why nothing is kept, "" if it is, and whether the box is damaged.
    """

    unkept_changed = Signal(str, bool)

    def __init__(
        self,
        window: RecipeWindow,
        autosave: Autosave,
        maintenance: BoxMaintenance,
        save_as: Callable[[], None],
    ) -> None:
        super().__init__(window)
        self._window, self._autosave, self._maintenance = window, autosave, maintenance
        self._save_as = save_as
        self._said: tuple[str, Ways] | None = None
        autosave.trouble.connect(self._say_trouble)
        autosave.well_again.connect(self._end)
        maintenance.ways_found.connect(self._offer)
        autosave.moved.connect(self._say_moved)

    def _say_trouble(self, text: str) -> None:
        """The Recipe box could not take something, or will take nothing at all."""
        again = (tr("Try again"), self._autosave.try_again)
        self._say(text, [again, (tr("Choose another folder…"), self.choose_folder)])

    def _offer(self, offer: Offer) -> None:
        """It was looked what can be done about a box that cannot be used: each way is a button."""
        if not self._autosave.broken or not (offer.is_beyond_use or offer.fault):
            return
        words, found = words_and_ways(offer)
        own = {"again": self._autosave.try_again, "folder": self.choose_folder}
        ways: Ways = []

        def rescue(way: str) -> None:
            """Begin it, once only; if it fails, the same ways are open as before."""
            self._say(tr(UNDER_WAY), [])
            self._maintenance.rescue(offer, way, lambda: self._say(words, ways))

        ways += [(text, own.get(way) or partial(rescue, way)) for text, way in found]
        self._say(words, ways)

    def _say(self, words: str, ways: Ways) -> None:
        self._said = (words, [*ways, (tr("Save to a file…"), self._save_as)])
        self.unkept_changed.emit(words, self._autosave.is_damaged)
        self.say_again()

    def say_again(self) -> None:
        """Bring the message back, if it is still so."""
        if self._said is not None:
            words, ways = self._said
            self._window.messages.say(words, grave=True, actions=ways, topic=KEEPING, lasts=True)

    def _end(self) -> None:
        """The box is well again."""
        self._said = None
        self.unkept_changed.emit("", False)
        self._window.messages.withdraw(KEEPING)

    # where the box lies

    def choose_folder(self) -> None:
        """Ask in which folder the box is to lie."""
        folder = self._window.questions.which_box_folder(self._window, str(self._autosave.folder))
        if folder is not None:
            self._maintenance.move_to(folder)

    def back_to_usual(self) -> None:
        """Let the box lie in the usual folder again."""
        self._maintenance.move_to(usual_folder())

    def _say_moved(self, words: str, old: Path) -> None:
        back = (tr("Back to where it was"), partial(self._maintenance.move_to, old))
        self._window.messages.say(words, actions=[back], topic="box moved")
