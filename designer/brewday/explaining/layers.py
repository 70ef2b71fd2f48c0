"""What samples of wort in layers may show."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Drawn, GravitySample, Stirred
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


class Layered(NamedTuple):
    """The first so many samples were drawn of wort in layers, and all later ones of mixed wort."""

    samples: int
    chance: float


class SameLayer(NamedTuple):
    """Samples, by their place in the list, that were drawn of the same layer."""

    samples: tuple[int, ...]
    drawn: Drawn


def ways_layered(samples: Sequence[GravitySample]) -> Iterator[Layered]:
    """Yield until when the wort may have been in layers; it was so at the first sample."""
    stays = 1.0
    for place in range(1, len(samples)):
        still = priors.STAYS_LAYERED[samples[place].stirred]
        if still < 1.0:
            yield Layered(place, stays * (1.0 - still))
        stays *= still
    yield Layered(len(samples), stays)


def same_layers(samples: Sequence[GravitySample]) -> tuple[SameLayer, ...]:
    """Return which samples of wort in layers show the same layer.

    It is another elsewhere, and where wort was stirred a little. Where it was stirred hard and is
    still in layers, that did nothing.
    """
    found: list[SameLayer] = []
    for place, each in enumerate(samples):
        if found and each.drawn is found[-1].drawn and each.stirred is not Stirred.LITTLE:
            found[-1] = SameLayer((*found[-1].samples, place), each.drawn)
        else:
            found.append(SameLayer((place,), each.drawn))
    return tuple(found)


def layer_points(share: Numeric, low: bool, wort: Numeric, pot: Numeric) -> Numeric:
    """Return the points that a layer is off, a share of the way to water or to the pot's wort."""
    return -share * wort if low else share * (pot - wort)
