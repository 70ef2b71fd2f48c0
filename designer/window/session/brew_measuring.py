"""What is measured on the brew under way, out of what was typed; what cannot be is asked about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from designer.brewday.measured.readings import Measured, Reading
from designer.recipe.document import Recipe
from designer.sheet.stove import Blank
from designer.window.session.brew_timers import BrewTimers
from designer.workbench.brew import timer_moves
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.typed_reading import typed_reading

if TYPE_CHECKING:
    from designer.library.store.brews import Brew

IN_BOIL = (Measured.BOIL_VOLUME, Measured.BOIL_GRAVITY)
"""What is measured while a boil goes on: what is left of it then belongs to the reading."""


class _InDoubt(NamedTuple):
    """A reading that waits for an answer; `place` is the entry that it corrects, "" for none."""

    reading: Reading
    typed: str
    place: str


class BrewMeasuring(BrewTimers):
    """A log with readings. While one is in doubt `doubtful` says why.

    It is not taken before `measure_anyway` or `measure_meant`.
    """

    doubtful: Any = None
    _in_doubt: _InDoubt | None = None

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        self.forget_doubt()
        super()._show(brew, recipe, entries)

    def measure(self, blank: Blank, typed: str, sample: str = "") -> bool:
        """Take what was typed into a blank, with the sample's temperature beside a gravity.

        False where it is in doubt: then nothing is taken and `doubtful` says why. A blank that has
        a reading is corrected, one that is emptied is taken back. Raises RefusedInputError for what
        is no reading.
        """
        brewing, _ = self._open()
        self.forget_doubt()
        line = blank.lines, blank.line_id
        kept = brewing.reading_at(blank.what, blank.boil, blank.fermenter, line)
        if not typed.strip():
            if kept is not None:
                self.take_back(kept.entry)
            return True
        text = f"{typed.strip()} at {sample.strip()}" if sample.strip() else typed.strip()
        reading = self._reading(blank, text)
        place = kept.entry if kept is not None and blank.what not in IN_BOIL else ""
        doubtful = self._doubt(reading)
        if doubtful is not None:
            self.doubtful, self._in_doubt = doubtful, _InDoubt(reading, text, place)
            self.changed.emit()
            return False
        self._take_reading(reading, text, place)
        return True

    def _reading(self, blank: Blank, text: str) -> Reading:
        brewing, _ = self._open()
        if blank.what in IN_BOIL and blank.left_min is None:
            blank = replace(blank, left_min=self._left_of_boil(blank.boil))
        return typed_reading(blank, text, brewing.recipe, self._display.read)

    def _left_of_boil(self, boil: int) -> float | None:
        timer = self.find_timer(timer_moves.timer_id("boil", boil))
        return max(timer.left_s(self.now()) / 60.0, 0.0) if timer is not None else None

    def _doubt(self, reading: Reading) -> Any:
        """Return why a reading cannot be, None where it can."""
        return None

    def _take_reading(self, reading: Reading, typed: str, place: str) -> None:
        values = {"reading": values_of(reading), "typed": typed}
        if place:
            self._write(What.CORRECTS, entry=place, values=values)
        else:
            self._write(What.READING, **values, step=self._key_now())

    def measure_anyway(self) -> None:
        """Take the reading that is in doubt as it was typed."""
        if self._in_doubt is not None:
            reading, typed, place = self._in_doubt
            self.forget_doubt()
            self._take_reading(reading, typed, place)

    def measure_meant(self, reading: Reading) -> None:
        """Take what was meant in place of the reading that is in doubt."""
        if self._in_doubt is not None:
            _, typed, place = self._in_doubt
            self.forget_doubt()
            self._take_reading(reading, typed, place)

    def forget_doubt(self) -> None:
        """Leave a reading that is in doubt: it is not taken."""
        self.doubtful = self._in_doubt = None
