"""What is measured on the brew under way, out of what was typed; what cannot be is asked about."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property, partial
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.measured.doubtful import Doubtful
from designer.brewday.measured.readings import Measured, Reading
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.stove import Blank
from designer.window.session.brew_timers import BrewTimers
from designer.window.session.brew_trial import BrewTrial
from designer.workbench.brew import timer_moves
from designer.workbench.brew.asking import doubt_of, misread_of
from designer.workbench.brew.blank_places import Place, blank_of, place_of
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.reading_values import values_of
from designer.workbench.brew.reckoning import Reckoned, reckoned
from designer.workbench.brew.typed_reading import typed_reading
from designer.workbench.brew.weighed_wort import kg_per_litre

if TYPE_CHECKING:
    from designer.library.store.brews import Brew

IN_BOIL = (Measured.BOIL_VOLUME, Measured.BOIL_GRAVITY)
"""What is measured while a boil goes on: what is left of it then belongs to the reading."""


class _InDoubt(NamedTuple):
    """What was typed of a reading that waits for an answer, and the entry that it corrects."""

    typed: str
    corrects: str


class BrewMeasuring(BrewTimers):
    """A log with readings. While one is in doubt `doubtful` says why.

    It is not taken before `measure_anyway` or `measure_meant`.
    """

    doubtful: Doubtful | None = None
    _in_doubt: _InDoubt | None = None

    @cached_property
    def trial(self) -> BrewTrial:
        """What would follow from the reading that is being typed."""
        return BrewTrial(self)

    @property
    def seen(self) -> Reckoned | None:
        """What is known of the day, with what is being typed."""
        return self.trial.known or self._known

    def _take_forecast(self, found: Reckoned) -> None:
        self.trial.follow()
        super()._take_forecast(found)

    def close(self) -> None:
        self.trial.close()
        super().close()

    def leave(self) -> None:
        self.trial.drop()
        super().leave()

    def _show(self, brew: Brew, recipe: Recipe, entries: Sequence[Entry]) -> None:
        self.forget_doubt()
        self.trial.drop()
        super()._show(brew, recipe, entries)

    def measure(self, blank: Blank, typed: str, sample: str = "") -> bool:
        """Take what was typed into a blank, with the sample's temperature beside a gravity.

        False where it is in doubt: then nothing is taken and `doubtful` says why. A blank that has
        a reading is corrected, one that is emptied is taken back. Raises RefusedInputError for what
        is no reading.
        """
        kept = self._kept_in(place_of(blank))
        self.trial.forget()
        if not typed.strip():
            self.trial.drop()
            self.forget_doubt()
            if kept:
                self.take_back(kept)
            return True
        text = f"{typed.strip()} at {sample.strip()}" if sample.strip() else typed.strip()
        return self._measure(blank, text, kept)

    def _kept_in(self, place: Place) -> str:
        """Return the entry of the reading that a new one there corrects; "" for none."""
        brewing, _ = self._open()
        what, boil, fermenter, lines, line_id = place
        kept = brewing.reading_at(what, boil, fermenter, (lines, line_id))
        return kept.entry if kept is not None and what not in IN_BOIL else ""

    def _measure(self, blank: Blank, text: str, corrects: str) -> bool:
        """Take a reading, unless it is in doubt."""
        self.forget_doubt()
        # It lasts longer than the units that are shown now.
        text = self._display.with_unit(blank.kind, text, self._shown_beside(blank, blank.kind))
        try:
            reading = self._reading(blank, text)
            self.doubtful = self._doubt(reading, text, corrects)
        except RefusedInputError:
            self.doubtful = self._misread(blank, text, corrects)
            if self.doubtful is None:
                self.trial.drop()
                raise
        if self.doubtful is not None:
            self.trial.drop()
            self._in_doubt = _InDoubt(text, corrects)
            self.changed.emit()
            return False
        self._take_reading(reading, text, corrects)
        return True

    def _reading(self, blank: Blank, text: str) -> Reading:
        brewing, _ = self._open()
        if blank.what in IN_BOIL and blank.left_min is None:
            blank = replace(blank, left_min=self._left_of_boil(blank.boil))
        outlook = self.outlook
        weighs = None if outlook is None else partial(kg_per_litre, outlook)
        return typed_reading(blank, text, brewing.recipe, partial(self._read, blank), weighs)

    def _read(self, blank: Blank, kind: Kind, text: str) -> Quantity:
        """Read a text; a bare number takes the unit of the plan's figure beside the blank."""
        return self._display.read(kind, text, self._shown_beside(blank, kind))

    def _shown_beside(self, blank: Blank, kind: Kind) -> str:
        is_planned = bool(blank.forecast) and kind is blank.kind
        return self._display.short(kind, blank.value) if is_planned else ""

    def _left_of_boil(self, boil: int) -> float | None:
        timer = self.find_timer(timer_moves.timer_id("boil", boil))
        return max(timer.left_s(self.now()) / 60.0, 0.0) if timer is not None else None

    def _doubt(self, reading: Reading, typed: str, corrects: str) -> Doubtful | None:
        """Return why a reading cannot be, None where it can."""
        brewing, _ = self._open()
        known = self._ahead.known
        return None if known is None else doubt_of(brewing, known, reading, typed, corrects)

    def _misread(self, blank: Blank, typed: str, corrects: str) -> Doubtful | None:
        """Return what may have been meant by a text that is no reading, None for nothing."""
        brewing, _ = self._open()
        known = self._ahead.known
        return None if known is None else misread_of(brewing, known, blank, typed, corrects)

    def _take_reading(self, reading: Reading, typed: str, corrects: str, **more: str) -> None:
        values = {"reading": values_of(reading), "typed": typed, **more}
        if corrects:
            self._write(What.CORRECTS, entry=corrects, values=values)
        else:
            self._write(What.READING, **values, step=self._key_now())

    # what is still being typed

    def try_out(self, blank: Blank, typed: str) -> None:
        """Let it be seen what would follow from what is being typed; nothing of it is kept."""
        if typed.strip():
            self.trial.try_out(partial(self._look_at, blank, typed.strip()))
        else:
            self.trial.drop()

    def _look_at(self, blank: Blank, typed: str) -> Callable[[], Reckoned] | None:
        """Return what is to be reckoned of a text; None for what is no reading, or cannot be."""
        known = self._ahead.known
        if known is None or not known.whole or self.brewing is None:
            return None
        corrects = self._kept_in(place_of(blank))
        try:
            reading = self._reading(blank, typed)
        except RefusedInputError:
            return None
        if self._doubt(reading, typed, corrects) is not None:
            return None
        values: dict[str, object] = {"reading": values_of(reading), "typed": typed}
        what = What.READING
        if corrects:
            what, values = What.CORRECTS, {"entry": corrects, "values": values}
        brewing = self.brewing
        entry = Entry(next_id(brewing.entries), self.now(), what, values)
        tried = brewing_of(brewing.recipe, brewing.steps, (*brewing.entries, entry))
        units = self._display.settings.units
        return partial(reckoned, tried, units, known.planned, advice=False)

    def measure_anyway(self) -> None:
        """Take the reading that is in doubt as it was typed."""
        doubtful, waits = self.doubtful, self._in_doubt
        if doubtful is not None and doubtful.anyway is not None and waits is not None:
            self.forget_doubt()
            asked = str(doubtful.message)
            self._take_reading(doubtful.reading, waits.typed, waits.corrects, asked=asked)

    def measure_meant(self, meant: Reading) -> None:
        """Take what was meant in place of the reading that is in doubt."""
        if self.doubtful is None or self._in_doubt is None:
            return
        (typed, corrects), doubtful = self._in_doubt, self.doubtful
        self.forget_doubt()
        if place_of(meant) != place_of(doubtful.reading):
            corrects = self._kept_in(place_of(meant))
        brewing, _ = self._open()
        kind = blank_of(meant, brewing.steps).kind
        shown = self._display.single(kind, meant.value)
        self._take_reading(meant, shown, corrects, slip=typed, asked=str(doubtful.message))

    def forget_doubt(self) -> None:
        """Leave a reading that is in doubt: it is not taken."""
        self.doubtful = self._in_doubt = None
