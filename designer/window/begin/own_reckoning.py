"""What follows from the answers, reckoned beside the window: first how they are understood, then
the recipes. An answer that is older than the question is dropped."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from designer.errors import RefusedInputError
from designer.recipe.message import Message
from designer.window.parts.background import Latest

if TYPE_CHECKING:
    from designer.workbench.first_answers import Answers, Draft, Reading, Wished

STUDY = 3
"""The number of the study beer, behind the three."""
RESTING_MS = 40
"""So long no key has to come before recipes are reckoned: keys come first."""


class Understood(NamedTuple):
    """How answers are understood."""

    answers: Answers
    reading: Reading
    wished: Wished


class Found(NamedTuple):
    """The recipes for some answers, or why there are none; `study` if that was asked for.

    `at` is the key of the answer at fault; "" if no single one is.
    """

    answers: Answers
    drafts: tuple[Draft, ...] = ()
    study: Draft | None = None
    fault: RefusedInputError | None = None
    at: str = ""

    def draft(self, number: int) -> Draft | None:
        """Return one of the recipes by its number; None if it was not asked for."""
        return self.study if number == STUDY else self.drafts[number]


def _answer_at_fault(fault: RefusedInputError) -> str:
    from designer.workbench.first_aims import LIMITS, VESSELS

    keys = {row[-1]: key for table in (LIMITS, VESSELS) for key, row in table.items()}
    found = fault.messages[0]
    named = dict(found.names).get("name") if isinstance(found, Message) else None
    return keys.get(named.id, "") if isinstance(named, Message) else ""


class FirstReckoning(QObject):
    """Asks for what the latest answers come to."""

    understood = Signal(object)
    found = Signal(object)
    _partly = Signal(int, object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._turn = 0
        self._waiting: tuple[Answers, bool] | None = None
        self._latest = Latest(self)
        self._latest.answered.connect(self.found)
        self._partly.connect(self._tell, Qt.ConnectionType.QueuedConnection)
        self._rest = QTimer(self, singleShot=True, interval=RESTING_MS)
        self._rest.timeout.connect(self._go)

    @property
    def busy(self) -> bool:
        """Whether an answer is still to come."""
        return self._waiting is not None or self._latest.busy

    def ask(self, answers: Answers, *, with_study: bool) -> None:
        """Look for recipes; the study beer too, if it is to be seen."""
        self._turn += 1
        self._waiting = (answers, with_study)
        self._rest.start()

    def withdraw(self) -> None:
        """What is being looked for is no answer any more."""
        self._turn += 1
        self._waiting = None
        self._rest.stop()

    def stop(self) -> None:
        """Wait for what is under way, for the end of the program."""
        self.withdraw()
        self._latest.wait()

    def _go(self) -> None:
        if self._waiting is None:
            return
        (answers, with_study), self._waiting = self._waiting, None
        turn, tell = self._turn, self._partly.emit

        def work() -> Found:
            # Beside the window, which does not wait for catalogue and brew day to be loaded.
            from designer.workbench.first_recipe import (
                first_recipes,
                read_words,
                study_recipe,
                wished,
            )

            try:
                tell(turn, Understood(answers, read_words(answers.words), wished(answers)))
                study = study_recipe(answers) if with_study else None
                return Found(answers, first_recipes(answers), study)
            except RefusedInputError as fault:
                return Found(answers, fault=fault, at=_answer_at_fault(fault))

        self._latest.ask(work)

    def _tell(self, turn: int, understood: Understood) -> None:
        if turn == self._turn:
            self.understood.emit(understood)
