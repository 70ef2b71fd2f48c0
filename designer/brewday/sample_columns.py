"""The samples of an input: equally likely slices, each taken once, in an order of the input's own.

The order depends on the input's key alone, so a sample is the same on every machine, and adding a
line does not disturb the samples of the others.

Source of the method: McKay, Beckman, Conover, Technometrics 21 (1979) 239 to 245.
"""

from __future__ import annotations

import zlib
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

HALF_WIDTH_SIGMAS = 1.6448536269514722
"""Standard deviations from the middle of a normal range to its 95 % point."""


@lru_cache(maxsize=8)
def _slice_middles(samples: int) -> NDArray[np.float64]:
    from statistics import NormalDist  # dear to import, and not needed before the window is up

    import numpy as np

    normal = NormalDist()
    return np.array([normal.inv_cdf((i + 0.5) / samples) for i in range(samples)])


@lru_cache(maxsize=1024)
def standard_normal_column(key: str, samples: int) -> NDArray[np.float64]:
    """Return the middles of equally likely slices of a standard normal, in the order of `key`."""
    column: NDArray[np.float64] = _slice_middles(samples)[_order(key, samples)]
    column.flags.writeable = False
    return column


@lru_cache(maxsize=64)
def even_column(key: str, samples: int) -> NDArray[np.float64]:
    """Return the middles of `samples` equal slices from 0 to 1, in the same order."""
    column: NDArray[np.float64] = (_order(key, samples) + 0.5) / samples
    column.flags.writeable = False
    return column


def _order(key: str, samples: int) -> NDArray[np.intp]:
    """Return the slice that each sample takes.

    It sorts a 64-bit mix (Steele, Lea, Flood 2014, SplitMix64) of the counter and the key's
    checksum, so it does not depend on any library's random stream.
    """
    import numpy as np

    start = np.uint64(zlib.crc32(key.encode("utf-8")) * 0x9E3779B97F4A7C15 & 0xFFFFFFFFFFFFFFFF)
    x = start + np.arange(1, samples + 1, dtype=np.uint64) * np.uint64(0x9E3779B97F4A7C15)
    x = (x ^ (x >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    x = (x ^ (x >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    x ^= x >> np.uint64(31)
    return np.argsort(x, kind="stable")
