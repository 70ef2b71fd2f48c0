"""What a doubt of the brew day is: a figure that nobody knows, and how its draws are spread.

The published figure is the value of the day as typed; the draws may lie on one side of it. A doubt
is declared once, beside others of its kind (`hop_doubts` and the like), with its source and how
sure that is, and drawn where the day needs it by `Sampler.doubt`.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from math import exp, inf, log
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.sample_columns import (
    HALF_WIDTH_SIGMAS,
    even_column,
    standard_normal_column,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class Sure(StrEnum):
    """How sure the spread of a doubt is."""

    MEASURED = "measured by several"
    ONE_SOURCE = "one source or clear physics"
    JUDGEMENT = "judgement"


class Doubt(NamedTuple):
    """A figure of the brew day that is not known, and what it may be.

    `words` name it to the brewer, with `{name}` where each line has its own draw. `published` is
    the figure of the day as typed. `low`, `middle` and `high` are the 5 %, 50 % and 95 % points of
    the draws, log-normal on either side of the middle where all three are above zero, else normal;
    with `evenly` all draws from `low` to `high` are alike likely. No draw leaves `least` to `most`.
    """

    words: str
    published: float
    low: float
    middle: float
    high: float
    source: str
    sure: Sure
    least: float = -inf
    most: float = inf
    evenly: bool = False


def ratio(words: str, half_width: float, source: str, sure: Sure) -> Doubt:
    """Return the doubt of a factor about 1 that is off by the share `half_width` either way."""
    return Doubt(words, 1.0, exp(-half_width), 1.0, exp(half_width), source, sure)


@lru_cache(maxsize=1024)  # a line's draws are those of its name, whatever key is typed next
def draws(doubt: Doubt, key: str, samples: int) -> NDArray[np.float64]:
    """Return what the figure is in each sample, in the order of `key`; not to be written to."""
    if doubt.evenly:
        drawn = evenly_drawn(doubt, even_column(key, samples))
    else:
        drawn = drawn_at(doubt, standard_normal_column(key, samples))
    drawn.flags.writeable = False
    return drawn


def evenly_drawn(doubt: Doubt, shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the figures that lie so far, from 0 to 1, on the way from low to high."""
    import numpy as np

    return np.clip(doubt.low + (doubt.high - doubt.low) * shares, doubt.least, doubt.most)


def drawn_at(doubt: Doubt, scores: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the figures at standard normal scores, of a doubt that is not spread evenly."""
    import numpy as np

    score = scores / HALF_WIDTH_SIGMAS
    low, middle, high = doubt.low, doubt.middle, doubt.high
    if low > 0.0:
        drawn = middle * np.exp(
            score * np.where(score > 0.0, log(high / middle), log(middle / low))
        )
    else:
        drawn = middle + score * np.where(score > 0.0, high - middle, middle - low)
    return np.clip(drawn, doubt.least, doubt.most)
