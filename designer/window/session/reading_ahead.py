"""What is said of an odd reading, beside the window: a first answer at once, the whole soon after.

What there is to be read (`Beliefs`) is worked out once for each day and kept; with it the first
answer to a key is a matter of milliseconds, and is given on the window's thread.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from designer.window.parts.background import Latest

if TYPE_CHECKING:
    from designer.brewday.explaining.asked import Asked
    from designer.brewday.explaining.beliefs import Beliefs
    from designer.brewday.explaining.explained import Explained
    from designer.recipe.document import Recipe

MakeBeliefs = Callable[[], "Beliefs"]


class ReadingAhead(QObject):
    """Answers the latest question; `answered` carries what is said, first and then whole.

    It carries None where nothing can be said yet.
    """

    answered = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._latest = Latest(self)
        self._latest.answered.connect(self._take)
        self._key: Hashable = None
        self._beliefs: Beliefs | None = None
        self._asked: Asked | None = None
        self._recipe: Recipe | None = None
        self._make: MakeBeliefs | None = None
        # Idle it comes after the key is painted, and after keys that wait.
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._begin)

    @property
    def busy(self) -> bool:
        """Whether more will be said."""
        return self._soon.isActive() or self._latest.busy

    def ask(
        self, asked: Asked, key: Hashable, make: MakeBeliefs, recipe: Recipe | None = None
    ) -> None:
        """Say what lies behind a reading; `make` tells what there is to be read, by `key` once.

        `recipe` is that of which cures are told.
        """
        if key != self._key:
            self._key, self._beliefs = key, None
        self._asked, self._recipe, self._make = asked, recipe, make
        self._soon.start()

    def _begin(self) -> None:
        """Give the first answer where the day is known, and have the whole one reckoned."""
        asked, make = self._asked, self._make
        if asked is None or make is None:
            return
        if self._beliefs is not None:
            self.answered.emit(answer(asked, self._beliefs, self._recipe, whole=False))
        self._latest.ask(partial(_work, asked, self._key, self._beliefs, make, self._recipe))

    def forget(self) -> None:
        """Nothing is asked any more."""
        self._asked = None
        self._soon.stop()

    def _take(self, found: tuple[Asked, Hashable, Beliefs, Explained]) -> None:
        asked, key, beliefs, explained = found
        if key == self._key:
            self._beliefs = beliefs
        if self._asked is not None and asked == self._asked:
            self.answered.emit(explained)

    def close(self) -> None:
        """Wait for what is under way; nobody is told any more."""
        self.forget()
        self._latest.wait()


def answer(
    asked: Asked, beliefs: Beliefs, recipe: Recipe | None, *, whole: bool = True
) -> Explained:
    """Return what is said of a reading."""
    from designer.brewday.explaining.explain import explained

    return explained(asked, beliefs, recipe=recipe, whole=whole)


def _work(
    asked: Asked,
    key: Hashable,
    beliefs: Beliefs | None,
    make: MakeBeliefs,
    recipe: Recipe | None,
) -> tuple[Asked, Hashable, Beliefs, Explained]:
    made = make() if beliefs is None else beliefs
    return asked, key, made, answer(asked, made, recipe)
