"""The open recipe gives way, to another or to the end, once it is kept or the brewer has decided.

Without a Recipe box the brewer is asked what is to become of what is unsaved.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from designer.translation import tr
from designer.window.session.keeping import Keeping
from designer.window.session.recipe_window import RecipeWindow

if TYPE_CHECKING:
    from designer.window.session.leaving import Leaving


class RecipeClosing:
    """For one window. `was_left` tells that it closes though not all is kept: it was asked.

    `stays` is called where it was to close and the brewer stays.
    """

    def __init__(
        self, window: RecipeWindow, keeping: Keeping, stays: Callable[[], None] = lambda: None
    ) -> None:
        self._window, self._keeping, self._stays = window, keeping, stays
        self._leaving: Leaving | None = None
        self._log_leaving: Leaving | None = None
        self.was_left = False

    def leave_for(self, go: Callable[[], None]) -> None:
        """Go on to another recipe."""
        window = self._window
        window.finish_typing()
        self._keeping.begin()
        if window.autosave is None:
            if self._may_be_lost():
                go()
        elif window.opened.unsaved or self._is_leaving():
            self._leaver().begin(window.autosave.leave, go, window.recipe_name())
        else:
            go()

    def may_close(self) -> bool:
        """Whether the window may close now; if not, it closes by itself once all is kept."""
        window = self._window
        window.finish_typing()
        if self._keeping.saving.holds_up(window.close, self._stays):
            return False
        if window.opened.unsaved:
            self._keeping.begin()
        if self.was_left:
            return True
        if window.autosave is None:
            may_close = self._may_be_lost()
            if not may_close:
                self._stays()
            return may_close
        if self._holds_log():
            return False
        if window.autosave.settled and not self._is_leaving():
            return True
        name = window.recipe_name() if window.opened.unsaved else ""
        keep = window.autosave.keep_for_closing
        self._leaver().begin(keep, self._close_now, name, closing=True)
        return False

    def _holds_log(self) -> bool:
        """Whether the log of a brew is in this window only; it closes once that is kept."""
        brews, trouble = self._keeping.brews, self._keeping.brew_trouble
        if brews is None or trouble is None or brews.settled:
            return False
        if self._log_leaving is None:
            from designer.window.session.leaving import Leaving  # brings message boxes in

            self._log_leaving = Leaving(self._window, trouble.save_elsewhere, self._stays)
        name = tr("brew log of {name}", name=brews.unkept()[0].name)
        self._log_leaving.begin(brews.keep_for_closing, self._close_now, name, closing=True)
        return True

    def _close_now(self) -> None:
        self.was_left = True
        self._window.close()
        self.was_left = False

    def _leaver(self) -> Leaving:
        if self._leaving is None:
            from designer.window.session.leaving import Leaving  # brings message boxes in

            self._leaving = Leaving(self._window, self._keeping.saving.save_elsewhere, self._stays)
        return self._leaving

    def _is_leaving(self) -> bool:
        return self._leaving is not None and self._leaving.pending

    def _may_be_lost(self) -> bool:
        """Whether nothing is unsaved, or the brewer says what is to become of it."""
        window, saving = self._window, self._keeping.saving
        if not window.opened.unsaved:
            return True
        answer = window.questions.about_unsaved(window, window.opened.recipe.name)
        if answer == "save":
            saving.save()
            return saving.on_disk.disk.finished() and not window.opened.unsaved
        return answer == "leave"
