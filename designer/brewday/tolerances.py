"""The tolerance of each input, and samples of what it may really be.

While the inputs of a day are gathered, every number with a tolerance passes through a `Sampler`.
`Nominal` returns it as typed, `LatinHypercube` an array: the same day is then run for all samples
at once, and the ranges are read off the result.

A sample is a Latin hypercube: each input takes every one of its equally likely slices once, in an
order that depends on the input's key alone. So a range is the same on every machine, and adding a
line does not disturb the samples of the others. Inputs that share a cause (one scale, one mark)
share a key and move together.

Half widths are those of a 5 to 95 % range; within it inputs are taken as normal, relative ones as
log-normal. Source of the method: McKay, Beckman, Conover, Technometrics 21 (1979) 239 to 245.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple, Protocol

from designer.recipe.fields import facts_of
from designer.recipe.message import Message, word
from designer.recipe.quantity import Quantity
from designer.translation import message
from designer.wort.numeric import Numeric, exp, largest

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

SAMPLES = 256
"""Enough for ranges within three per cent of their width; see `percentiles`."""
HALF_WIDTH_SIGMAS = 1.6448536269514722
"""Standard deviations from the middle of a normal range to its 95 % point."""
FURTHEST_SIGMAS = 6.0
"""No sample lies further from the middle, were there a thousand million of them."""


class Sampler(Protocol):
    """Returns what a number with a tolerance may be."""

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return `value` give or take `half_width`, never below zero for a value that is not."""

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return `value` give or take the share `half_width` of it."""


class Nominal:
    """For the plain run: every number is its nominal value, what was typed."""

    def absolute(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the value."""
        return value

    def relative(self, key: str, value: float, half_width: float) -> Numeric:
        """Return the value."""
        return value


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
        return Message("input", key.template, (), (("name", key.name),))
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


@lru_cache(maxsize=8)
def _slice_middles(samples: int) -> NDArray[np.float64]:
    from statistics import NormalDist  # dear to import, and not needed before the window is up

    import numpy as np

    normal = NormalDist()
    return np.array([normal.inv_cdf((i + 0.5) / samples) for i in range(samples)])


@lru_cache(maxsize=1024)
def standard_normal_column(key: str, samples: int) -> NDArray[np.float64]:
    """Return the middles of `samples` equally likely slices of a standard normal, in key's order.

    The order sorts a 64-bit mix (Steele, Lea, Flood 2014, SplitMix64) of the counter and the key's
    checksum, so it does not depend on any library's random stream.
    """
    import numpy as np

    start = np.uint64(zlib.crc32(key.encode("utf-8")) * 0x9E3779B97F4A7C15 & 0xFFFFFFFFFFFFFFFF)
    x = start + np.arange(1, samples + 1, dtype=np.uint64) * np.uint64(0x9E3779B97F4A7C15)
    x = (x ^ (x >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    x = (x ^ (x >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    x ^= x >> np.uint64(31)
    column: NDArray[np.float64] = _slice_middles(samples)[np.argsort(x, kind="stable")]
    column.flags.writeable = False
    return column


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
    """Return `value` sampled with the spread that was typed, or else the usual one."""
    if typed is not None and typed.spread is not None:
        return sampler.absolute(key, value, typed.spread)
    if relative:
        return sampler.relative(key, value, spread)
    return sampler.absolute(key, value, spread)
