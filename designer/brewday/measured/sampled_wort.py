"""The wort of a fermenter in each sample of a day: what a gravity reading is held against."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.brewday.results import Day
from designer.wort.numeric import Numeric

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class SampledWort:
    """The wort as it is pitched, one value a sample, equally likely.

    Gravity points (thousandths above water) and litres at 20 °C of the topped up wort; points and
    litres of what stood in the pot at its end; litres of top-up.
    """

    points: Array
    batch_l: Array
    pot_points: Array
    pot_l: Array
    top_up_l: Array

    @classmethod
    def of(cls, day: Day, pot_gravity: Numeric, samples: int) -> SampledWort:
        """Return the wort of a day of samples, of which some figures may be the same in each."""
        import numpy as np

        def each(figure: Numeric) -> Array:
            return np.array(np.broadcast_to(figure, samples), dtype=float)

        return cls(
            1000.0 * (each(day.beer.original_gravity) - 1.0),
            each(day.fermenter.batch_l),
            1000.0 * (each(pot_gravity) - 1.0),
            each(day.fermenter.in_pot_l),
            each(day.fermenter.top_up_l),
        )


def mixed_worts(worts: Sequence[SampledWort], shares: Sequence[float]) -> SampledWort:
    """Return the wort of one fermenter that a share of each of several goes into.

    What lies at its bottom is the strongest of them.
    """
    import numpy as np

    samples = max(each.points.size for each in worts)
    litres = [s * _as_long(w.batch_l, samples) for s, w in zip(shares, worts, strict=True)]
    batch = np.sum(litres, axis=0)
    points = sum(v * _as_long(w.points, samples) for v, w in zip(litres, worts, strict=True))
    strongest = max(worts, key=lambda each: float(each.pot_points.mean()))

    def added(name: str) -> Array:
        found: Array = np.sum(
            [s * _as_long(getattr(w, name), samples) for s, w in zip(shares, worts, strict=True)],
            axis=0,
        )
        return found

    return SampledWort(
        np.asarray(points) / np.maximum(batch, 1e-9),
        batch,
        _as_long(strongest.pot_points, samples),
        added("pot_l"),
        added("top_up_l"),
    )


def _as_long(column: Array, samples: int) -> Array:
    """Return a column with each value as often as makes so many samples."""
    import numpy as np

    found: Array = np.tile(column, -(-samples // column.size))[:samples]
    return found
