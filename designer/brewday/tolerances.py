"""The tolerance of each input, and samples of what it may really be.

While the inputs of a day are gathered, every number with a tolerance passes through a `Sampler`.
`Nominal` returns it as typed, `LatinHypercube` an array: the same day is then run for all samples
at once, and the ranges are read off the result.

Inputs that share a cause (one scale, one mark) share a key and move together. Half widths are those
of a 5 to 95 % range; within it inputs are taken as normal, relative ones as log-normal. What is no
figure with a half width, but a thing that nobody knows, is a `Doubt` with a spread of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple, Protocol

from designer.brewday.doubts import Doubt, Sure, draws
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS, standard_normal_column
from designer.recipe.fields import facts_of
from designer.recipe.message import Message, say, word
from designer.recipe.quantity import Quantity
from designer.recipe.when_words import is_moment, said_when
from designer.translation import message
from designer.wort.numeric import Numeric, exp, largest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SAMPLES = 256
"""Enough for ranges within three per cent of their width; see `percentiles`."""
FURTHEST_SIGMAS = 6.0
"""No sample lies further from the middle, were there a thousand million of them."""


class Sampler(Protocol):
    """Returns what a number with a tolerance may be."""

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return `value` give or take `half_width`, never below zero for a value that is not."""

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return `value` give or take the share `half_width` of it."""

    def doubt(self, doubt: Doubt, name: str = "") -> Numeric:
        """Return what a doubtful figure may be; that of a line has the line's `name`."""


class Nominal:
    """For the plain run: every number is its nominal value, what was typed."""

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the value."""
        return value

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the value."""
        return value

    def doubt(self, doubt: Doubt, name: str = "") -> Numeric:
        """Return the published figure."""
        return doubt.published


ALPHA_ACID = message("alpha acid of {name}")
WEIGHT = message("weight of {name}")
SOLIDS = message("solids of {name}")
COLOUR = message("colour of {name}")
LABEL_BITTERNESS = message("label bitterness of {name}")


class LineInput(str):
    """The key of an input that belongs to a line: its words, made of a template and a name."""

    template: str
    name: str


@lru_cache(maxsize=1024)  # every run of the day asks for the same few
def input_of(template: str, name: str) -> LineInput:
    """Return the key of an input of the line of that name."""
    key = LineInput(template.format(name=name))
    key.template, key.name = template, name
    return key


def input_words(key: str) -> Message:
    """Return what an input is called."""
    if isinstance(key, LineInput):
        name, _, when = key.name.rpartition(", ")
        called: object = key.name
        if name and is_moment(when):
            called = say("name-when", "{name}, {when}", name=name, when=said_when(when))
        return Message("input", key.template, (), (("name", called),))
    return word(key)


class Tolerance(NamedTuple):
    """How far off an input may be: half the width of its range, in its unit or as a share of it.

    Where several lines share the cause, it is that of the last of them.
    """

    value: float
    half_width: float
    relative: bool


@dataclass
class LatinHypercube:
    """For the run of many samples; `tolerances` remembers the inputs that have one, by key."""

    samples: int = SAMPLES
    tolerances: dict[str, Tolerance] = field(default_factory=dict)

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return an array of values about `value`."""
        if half_width == 0.0:
            return value
        self.tolerances[key] = Tolerance(value, half_width, relative=False)
        drawn = value + absolute_deviations(key, half_width, self.samples)
        may_fall_below_zero = 0.0 <= value < FURTHEST_SIGMAS / HALF_WIDTH_SIGMAS * half_width
        return largest(drawn, 0.0) if may_fall_below_zero else drawn

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return an array of values about `value`."""
        if half_width == 0.0 or value == 0.0:
            return value
        self.tolerances[key] = Tolerance(value, half_width, relative=True)
        return value * relative_deviations(key, half_width, self.samples)

    def doubt(self, doubt: Doubt, name: str = "") -> Numeric:
        """Return an array of what the figure may be."""
        if doubt.low == doubt.high:
            return doubt.published
        key = input_of(doubt.words, name) if name else doubt.words
        half_width = (doubt.high - doubt.low) / 2.0
        self.tolerances[key] = Tolerance(doubt.middle, half_width, relative=False)
        return draws(doubt, key, self.samples)


@lru_cache(maxsize=1024)
def absolute_deviations(key: str, half_width: float, samples: int) -> NDArray[np.float64]:
    """Return what is added to an input in each sample."""
    return half_width / HALF_WIDTH_SIGMAS * standard_normal_column(key, samples)


@lru_cache(maxsize=1024)
def relative_deviations(key: str, half_width: float, samples: int) -> Numeric:
    """Return what an input is multiplied with in each sample."""
    return exp(absolute_deviations(key, half_width, samples))


def sampled_field(sampler: Sampler, key: str, part: object, name: str) -> Numeric:
    """Return a field's value or default, sampled with its typed or usual spread; 0 if unknown."""
    facts = facts_of(part, name)
    typed: Quantity | None = getattr(part, name)
    value = typed.value if typed is not None else facts.default
    if value is None:
        return 0.0
    return sampled(sampler, key, value, typed, facts.spread, facts.relative)


def sampled(
    sampler: Sampler, key: str, value: float, typed: Quantity | None, spread: float, relative: bool
) -> Numeric:
    """Return `value` sampled with the spread or range that was typed, or else the usual one."""
    if typed is not None and typed.ends is not None:
        low, high = typed.ends
        return sampler.doubt(Doubt(key, value, low, value, high, "typed", Sure.ONE_SOURCE))
    if typed is not None and typed.spread is not None:
        return sampler.absolute(key, value, typed.spread)
    if relative:
        return sampler.relative(key, value, spread)
    return sampler.absolute(key, value, spread)


def sampled_or_doubt(
    sampler: Sampler, typed: Quantity | None, doubt: Doubt, name: str = ""
) -> Numeric:
    """Return a figure sampled with the spread that was typed, or else as its doubt has it."""
    if typed is not None and typed.spread is not None:
        key = input_of(doubt.words, name) if name else doubt.words
        return sampler.absolute(key, typed.value, typed.spread)
    return sampler.doubt(doubt, name)
