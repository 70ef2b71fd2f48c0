"""What is written of a brew once it is off the stove: samples, warmth, packaging."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal

from designer.recipe.document import Recipe
from designer.window.session.fermenting_brew import FermentingBrew
from designer.window.session.logged_brew import Line
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.packing_values import packaged_values, values_of_packing
from designer.workbench.brew.sample_values import values_of_answer, values_of_sample

if TYPE_CHECKING:
    from designer.brewday.explaining.asked import Answer, GravitySample
    from designer.brewday.packaging.packaged import Packing
    from designer.library.store.brews import Brew


class AfterTheStove(FermentingBrew):
    """Writes what happens to wort and beer; each call is one step that undo takes back.

    `settling` tells that what is still being chosen is to be written now, or never.
    """

    settling = Signal()

    def leave(self) -> None:
        self.settling.emit()
        super().leave()

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        self.settling.emit()
        super()._show(brew, recipe, entries)

    def close(self) -> None:
        self.settling.emit()
        super().close()

    def take_sample(
        self,
        sample: GravitySample,
        typed: str,
        corrects: str = "",
        of: str = "",
        shows: tuple[Answer, str] | None = None,
    ) -> str:
        """Keep a gravity sample as it was typed; return its entry.

        `corrects` names an earlier sample, `of` a reading at the stove of which it tells more.
        `shows` is what a test showed by it, in words too: both are one step.
        """
        values: dict[str, Any] = {"sample": values_of_sample(sample), "typed": typed}
        if of:
            values["of"] = of
        if corrects:
            return self._write(What.CORRECTS, entry=corrects, values=values)
        lines: list[Line] = [(What.SAMPLE, values)]
        if shows is not None:
            answer, told = shows
            lines.append((What.ANSWERED, {**values_of_answer(answer), "typed": told}))
        return self._write_all(lines)

    def answer_test(self, answer: Answer, typed: str, by: str = "") -> str:
        """Keep what a test of the reading showed; `by` is "mark" for a level read off one."""
        told = {"by": by} if by else {}
        return self._write(What.ANSWERED, **values_of_answer(answer), typed=typed, **told)

    def cure_reading(self, cure: str, changes: Any, said: str) -> str:
        """Keep what is done about a reading; `changes` are plain values, as proposals have them."""
        return self._write(What.CURED, cure=cure, changes=changes, said=said)

    def note_warmth(self, temperatures: Sequence[tuple[float, float]], typed: str) -> str:
        """Keep temperatures of the beer, each with its seconds since 1970."""
        return self._write(
            What.WARMTH, temperatures=[list(each) for each in temperatures], typed=typed
        )

    def choose_packing(self, packing: Packing, said: str) -> str:
        """Keep how the beer is to be packaged."""
        return self._write(What.PACKING, packing=values_of_packing(packing), said=said)

    def package(self, packing: Packing, said: str, grams: float | None = None) -> str:
        """The beer is in bottles or keg, with so much sugar."""
        on = datetime.fromtimestamp(self.now().wall).date()
        return self._write(What.PACKAGED, **packaged_values(packing, said, on, grams))

    def remind(self, wall: float, text: str, *, done: bool = False) -> str:
        """Keep what is to be remembered at seconds since 1970, or that it was seen to."""
        return self._write(What.REMINDER, wall=wall, text=text, does="done" if done else "set")
