"""Says what keeps a brew's log from being kept, for as long as it is so, and offers the ways on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject

from designer.library.file_names import file_name
from designer.translation import tr
from designer.window.session.brew_keeping import BrewKeeping
from designer.window.session.recipe_window import RecipeWindow

TOPIC = "log"


class BrewTrouble(QObject):
    """For one window and the logs that are written in it."""

    def __init__(self, window: RecipeWindow, brews: BrewKeeping) -> None:
        super().__init__(window)
        self._window, self._brews = window, brews
        brews.trouble.connect(self._say)
        brews.well_again.connect(partial(window.messages.withdraw, TOPIC))

    def _say(self, words: str) -> None:
        ways: list[tuple[str, Callable[[], None]]] = [
            (tr("Try again"), self._brews.try_again),
            (tr("Save the log to a file…"), partial(self.save_elsewhere, _nothing)),
        ]
        self._window.messages.say(words, grave=True, actions=ways, topic=TOPIC, lasts=True)

    def save_elsewhere(self, told: Callable[[bool], object]) -> None:
        """Ask for a file for each log that is in this window only; tell whether all are written."""
        loose = self._brews.unkept()
        if not loose:
            told(True)
            return
        brew = loose[0]
        suggested = str(Path.home() / f"{file_name(brew.name)}.jsonl")
        path = self._window.questions.brew_log_where(self._window, suggested)
        if path is None:
            told(False)
            return

        def written() -> None:
            self._window.messages.say(tr("The brew log is in {path}.", path=path))
            told(True)

        def failed(fault: str) -> None:
            self._window.messages.say(fault, grave=True)
            told(False)

        self._brews.save_elsewhere(brew.uid, path, written, failed)


def _nothing(_: object) -> None:
    """What follows where nothing has to."""
