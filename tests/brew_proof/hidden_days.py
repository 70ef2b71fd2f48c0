"""Brew days as they really are, hidden from the program, and what is read of them.

The truth is drawn from the doubts of the forecast, each independently of the program's own samples;
a reading is off as it is declared: by its instrument, which is off alike in all that it reads, and
by the eye. What a brewer decides he does otherwise than planned, as far as it is read.
"""

import zlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from math import hypot, sqrt

import numpy as np

from designer.brewday.day import run_from
from designer.brewday.inputs import gather
from designer.brewday.measured.looks import LookingRun, read_of
from designer.brewday.measured.reading_errors import (
    DIPSTICK,
    FERMENTER_MARK,
    GRAVITIES,
    HYDROMETER,
    POT_MARK,
    REFRACTOMETER,
    TEMPERATURES,
    VOLUMES_IN_FERMENTER,
    WATER_IN,
    error_of,
)
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.measured.scores import MovedSamples
from designer.brewday.predictions import BY_KEY
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.brewday.vessel_doubts import off_by_marks

FORECASTS = ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu", "colour_srm")
LEFT_MIN = 30.0


@dataclass(frozen=True)
class Taken:
    """One way of measuring one thing."""

    what: Measured
    by: By

    def __str__(self):
        return f"{self.what}, by {self.by}"


M, B = Measured, By
KINDS = (
    Taken(M.WATER_IN, B.MARK),
    Taken(M.WATER_IN, B.SCALE),
    Taken(M.STRIKE, B.THERMOMETER),
    Taken(M.STEEP, B.THERMOMETER),
    Taken(M.BOIL_START_VOLUME, B.DIPSTICK),
    Taken(M.BOIL_START_VOLUME, B.MARK),
    Taken(M.BOIL_START_GRAVITY, B.HYDROMETER),
    Taken(M.BOIL_VOLUME, B.DIPSTICK),
    Taken(M.BOIL_GRAVITY, B.REFRACTOMETER),
    Taken(M.BOIL_END_VOLUME, B.MARK),
    Taken(M.BOIL_END_GRAVITY, B.HYDROMETER),
    Taken(M.COOLED, B.THERMOMETER),
    Taken(M.INTO_FERMENTER, B.MARK),
    Taken(M.INTO_FERMENTER, B.DIPSTICK),
    Taken(M.INTO_FERMENTER, B.SCALE),
    Taken(M.TOPPED_UP, B.MARK),
    Taken(M.TOPPED_UP, B.DIPSTICK),
    Taken(M.TOPPED_UP, B.SCALE),
    Taken(M.MIXED, B.THERMOMETER),
    Taken(M.ORIGINAL_GRAVITY, B.HYDROMETER),
    Taken(M.ORIGINAL_GRAVITY, B.REFRACTOMETER),
    Taken(M.ALPHA, B.PACKET),
    Taken(M.WEIGHT, B.SCALE),
)
ALL_OF_A_DAY = (
    Taken(M.WATER_IN, B.MARK),
    Taken(M.STEEP, B.THERMOMETER),
    Taken(M.BOIL_START_VOLUME, B.MARK),
    Taken(M.BOIL_START_GRAVITY, B.HYDROMETER),
    Taken(M.BOIL_VOLUME, B.DIPSTICK),
    Taken(M.BOIL_GRAVITY, B.HYDROMETER),
    Taken(M.BOIL_END_VOLUME, B.MARK),
    Taken(M.BOIL_END_GRAVITY, B.HYDROMETER),
    Taken(M.COOLED, B.THERMOMETER),
    Taken(M.INTO_FERMENTER, B.MARK),
    Taken(M.TOPPED_UP, B.MARK),
    Taken(M.MIXED, B.THERMOMETER),
    Taken(M.ORIGINAL_GRAVITY, B.HYDROMETER),
    Taken(M.ALPHA, B.PACKET),
    Taken(M.WEIGHT, B.SCALE),
)


def column(key, days, seed):
    """Return independent standard normal draws, the same ones for the same key."""
    return np.random.default_rng((seed, zlib.crc32(str(key).encode()))).standard_normal(days)


@dataclass
class Hidden(MovedSamples):
    """A sampler of days as they are: each input by what is drawn for its key.

    `did` says what was read of an input in place of what was planned, `off` how far that reading is
    off, in its unit.
    """

    draw: Callable[[str], np.ndarray] = field(kw_only=True)
    did: Mapping[str, np.ndarray] = field(default_factory=dict)
    off: Mapping[str, float] = field(default_factory=dict)

    def absolute(self, key, value, half_width):
        value = self.did.get(key, value)
        deviation = self.off.get(key, half_width) / HALF_WIDTH_SIGMAS
        drawn = value + deviation * self.draw(key)
        return drawn if np.any(np.less(value, 0.0)) else np.maximum(drawn, 0.0)

    def relative(self, key, value, half_width):
        if key in self.off:
            return self.absolute(key, value, 0.0)
        z = self.draw(key)
        return self.did.get(key, value) * np.exp(half_width / HALF_WIDTH_SIGMAS * z)

    def doubt(self, doubt, name=""):
        key = doubt.words.format(name=name) if name else doubt.words
        if key in self.off:
            return self.absolute(key, doubt.published, 0.0)
        self.moved = {key: self.draw(key)}
        drawn = super().doubt(doubt, name)
        return drawn if key not in self.did else self.did[key] / doubt.published * drawn


class HiddenDays:
    """So many days of a recipe, of which some things are read.

    `done` is what was read of what the brewer has done already, whatever is planned since.
    """

    def __init__(self, recipe, taken, days, seed=1, done=None):
        self.recipe, self.taken, self.days, self.seed = recipe, taken, days, seed
        self.done = done or {}

    @cached_property
    def truth(self):
        """The forecasts as they come out, by key: an array of days each."""
        day, _ = self._looked
        return {key: np.broadcast_to(BY_KEY[key].compute(day), (self.days,)) for key in FORECASTS}

    def readings(self, day):
        """Return what the brewer of one of the days wrote down."""
        return [
            Reading(
                each.what,
                float(values[day]),
                each.by,
                left_min=LEFT_MIN if each.what in (M.BOIL_VOLUME, M.BOIL_GRAVITY) else None,
                lines="hops" if each.what in (M.ALPHA, M.WEIGHT) else "",
                line_id=self._hop.line_id if each.what in (M.ALPHA, M.WEIGHT) else 0,
            )
            for each, values in self._read.items()
        ]

    @property
    def _hop(self):
        return self.recipe.hops[0]

    @cached_property
    def _read(self):
        return {each: self._read_of(each) for each in self.taken}

    def _read_of(self, taken):
        if taken.what in self._did:
            return self._did[taken.what]
        return self.shown(taken) + self.eye(taken) * self._column(f"eye {taken}")

    def shown(self, taken):
        """Return what the instrument shows on each day, before the eye reads it."""
        there = self.there(taken.what)
        off = self._error(taken).shared / HALF_WIDTH_SIGMAS * self._instrument(taken)
        if taken.what in GRAVITIES or taken.what in TEMPERATURES:
            return there - off
        return there * np.exp(-off / there.mean())

    def there(self, what):
        """Return what there really is to read on each day."""
        return np.broadcast_to(read_of(self._looked[1], what, LEFT_MIN), (self.days,))

    def eye(self, taken):
        """Return the standard deviation of what the eye adds."""
        return self._error(taken).own / HALF_WIDTH_SIGMAS

    def _error(self, taken):
        typical = float(np.mean(self.there(taken.what)))
        return error_of(self.recipe, Reading(taken.what, typical, taken.by))

    def _instrument(self, taken):
        """What an instrument is off by, in standard deviations; marks are those of the day."""
        if taken.what in GRAVITIES:
            key = REFRACTOMETER if taken.by is B.REFRACTOMETER else HYDROMETER
        elif taken.what in TEMPERATURES:
            key = self._thermometer
        elif taken.what in VOLUMES_IN_FERMENTER:
            if taken.by is B.MARK:
                return self._of_its_mark
            key = DIPSTICK
        elif taken.by is B.DIPSTICK:
            key = DIPSTICK
        else:
            key = WATER_IN if Taken(M.WATER_IN, taken.by) in self.taken else POT_MARK
        return self._column(key)

    @property
    def _of_its_mark(self):
        """How far marks at all heights are off, which is a part of how far the fill is off."""
        of_it, anyway_l = off_by_marks(self.recipe.fermenter.marks)
        part = of_it / hypot(of_it, anyway_l / self.recipe.process.top_up_to.value)
        rest = self._column("eye at the fill")
        return part * self._column(FERMENTER_MARK) + sqrt(1.0 - part**2) * rest

    @property
    def _thermometer(self):
        stands = any(hop.when.stage == "stand" for hop in self.recipe.hops)
        return "temperature of the stand" if stands else "thermometer"

    @cached_property
    def _did(self):
        """What the brewer read of what he decided, by what it is."""
        process, found = self.recipe.process, {}
        plan = {
            M.WATER_IN: (process.start_water.value, 0.05),
            M.TOPPED_UP: (process.top_up_to.value, 0.03),
            M.ALPHA: (getattr(self._hop.alpha, "value", 0.05), 0.15),
            M.WEIGHT: (self._hop.amount.value, 0.10),
        }
        for each in self.taken:
            shift = self._column(f"decided {each.what}")
            if each.what in plan:
                value, share = plan[each.what]
                found[each.what] = value * np.exp(share * shift)
            elif each.what is M.STEEP:
                found[each.what] = 67.0 + shift
            elif each.what is M.COOLED:
                found[each.what] = 45.0 + 5.0 * shift
        return {**found, **{what: np.full(self.days, read) for what, read in self.done.items()}}

    @cached_property
    def _looked(self):
        hop, seen = self._hop, {}
        keys = {
            M.WATER_IN: WATER_IN,
            M.TOPPED_UP: FERMENTER_MARK,
            M.ALPHA: f"alpha acid of {hop.name}",
            M.WEIGHT: f"weight of {hop.name}, {hop.when.text}",
        }
        did = {keys[what]: read for what, read in self._did.items() if what in keys}
        off = {
            keys[each.what]: error_of(
                self.recipe, Reading(each.what, float(self._did[each.what].mean()), each.by)
            ).whole
            for each in self.taken
            if each.what in (M.WATER_IN, M.TOPPED_UP) and each.by is not B.MARK
        }
        given = gather(self.recipe, Hidden(self.days, draw=self._column, did=did, off=off))
        by_thermometer = {M.COOLED: "cool_to_c", M.STEEP: "steep_c"}
        for what, name in by_thermometer.items():
            if what in self._did:
                whole = error_of(self.recipe, Reading(what, 0.0, B.THERMOMETER)).whole
                z = self._column(self._thermometer)
                true_c = self._did[what] + whole / HALF_WIDTH_SIGMAS * z
                given = replace(given, **{name: true_c})
        kind = partial(LookingRun, lefts=frozenset({LEFT_MIN}), seen=seen)
        return run_from(self.recipe, given, kind, noting=False), seen

    def _column(self, key):
        return column(key, self.days, self.seed)
