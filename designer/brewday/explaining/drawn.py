"""Brews as they may have gone: what is in the fermenter, and how large each cause is in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.brewday.explaining import cause_priors as priors
from designer.brewday.explaining.asked import Asked, Taken
from designer.brewday.explaining.beliefs import Beliefs
from designer.brewday.explaining.corrected import Corrected
from designer.brewday.explaining.explained import CauseCode
from designer.brewday.explaining.spreads import Part, normal_scores, sizes
from designer.brewday.measured.reading_errors import MARK_SHARE
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS, even_column

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

BENT = 1.5
"""How much more of the draws are taken from the far end of a spread."""
_WHOLE_LINE = 0.9


@dataclass(frozen=True, slots=True, eq=False)
class Size:
    """How large a cause is in each brew, and what such a brew counts beside others."""

    of: Array
    weight: Array


@dataclass(frozen=True, slots=True, eq=False)
class OfALine:
    """Which line was weighed or forgotten wrong in each brew, and what share of it."""

    line: NDArray[np.intp]
    share: Array
    extract_factor: Array
    weight: Array


@dataclass(frozen=True, slots=True, eq=False)
class Brews:
    """Columns of one value a brew: the day by itself, and each cause as if it were at work.

    `off` is what the instrument is off within its trust, in standard deviations of that.
    `is_topped_up` tells that water was added up to a mark before anything was read, and
    `read_before_topping_up` that it will be: either way what boiled off does no harm.
    """

    points: Array
    batch_l: Array
    pot_points: Array
    pot_l: Array
    off: Array
    volume: Size
    warmer_c: Size
    forgotten: OfALine | None
    misweighed: OfALine | None
    hydrometer: Size
    bubbles: Size
    misread: Size
    wrong_scale: NDArray[np.bool_]
    fallen: Size
    jitter: Array
    is_topped_up: bool
    read_before_topping_up: bool

    @property
    def sizes(self) -> dict[CauseCode, Size]:
        """The causes of one size each."""
        return {
            CauseCode.VOLUME: self.volume,
            CauseCode.SAMPLE_TEMPERATURE: self.warmer_c,
            CauseCode.HYDROMETER: self.hydrometer,
            CauseCode.BUBBLES: self.bubbles,
            CauseCode.MISREAD: self.misread,
            CauseCode.FERMENTING: self.fallen,
        }

    @property
    def many(self) -> int:
        """How many there are."""
        return int(self.points.size)


def drawn(asked: Asked, beliefs: Beliefs, corrected: Sequence[Corrected], many: int) -> Brews:
    """Return so many brews; they are the same on every machine and at every call."""
    import numpy as np

    day = (even_column("reading: day", many) * beliefs.points.size).astype(int)
    pot_l, pot_points = beliefs.pot_l[day], beliefs.pot_points[day]
    tops_up = beliefs.top_up_share >= priors.LITTLE_TOP_UP
    in_pot = all(each.taken is Taken.POT for each in asked.samples)
    if asked.pot_l is not None and tops_up and not in_pot:
        # The extract is what it is: less wort in the pot is stronger.
        error = normal_scores(even_column("reading: litres in the pot", many))
        told_l = asked.pot_l * np.exp(MARK_SHARE / HALF_WIDTH_SIGMAS * error)
        pot_l, pot_points = told_l, pot_points * pot_l / np.maximum(told_l, 1e-6)
    typed = all(each.sample.sample_c is not None for each in corrected)
    misread = even_column("reading: misread", many)
    scale = misread >= 1.0 - priors.WRONG_SCALE
    wrong = np.minimum(misread / (1.0 - priors.WRONG_SCALE), 1.0 - 1e-9)
    return Brews(
        points=beliefs.points[day],
        batch_l=beliefs.batch_l[day],
        pot_points=pot_points,
        pot_l=pot_l,
        off=normal_scores(even_column("reading: instrument", many)),
        volume=_size(priors.VOLUME_LOG, "volume", many, BENT),
        warmer_c=_size(
            priors.WARMER_THAN_TYPED_C if typed else priors.WARM_ABOVE_C, "warmth", many
        ),
        forgotten=_of_a_line(priors.FORGOTTEN, "forgotten", beliefs, many),
        misweighed=_of_a_line(priors.MISWEIGHED_BY, "misweighed", beliefs, many),
        hydrometer=_size(priors.HYDROMETER_OFF, "hydrometer", many),
        bubbles=_size(priors.BUBBLES_ON_BULB, "bubbles", many),
        misread=_misread(wrong, scale),
        wrong_scale=scale,
        fallen=_fallen(asked, many),
        jitter=even_column("reading: layer", many),
        is_topped_up=tops_up and not in_pot,
        read_before_topping_up=tops_up and in_pot,
    )


def _size(parts: Sequence[Part], name: str, many: int, bent: float = 1.0) -> Size:
    return Size(*sizes(parts, even_column(f"reading: {name}", many), bent))


def _misread(even: Array, scale: NDArray[np.bool_]) -> Size:
    """Return slips of reading; those of the scale are worked out from the wort."""
    import numpy as np

    found, weight = sizes(priors.READ_WRONG, even)
    told = sum(each.share for each in priors.READ_WRONG)
    return Size(found, np.where(scale, 1.0, weight / told))


def _of_a_line(parts: Sequence[Part], name: str, beliefs: Beliefs, many: int) -> OfALine | None:
    import numpy as np

    if not beliefs.lines:
        return None
    points = np.array([each.points for each in beliefs.lines])
    of_all = points / max(beliefs.planned_points, 1e-6)
    line = (even_column(f"reading: line {name}", many) * points.size).astype(int)
    share, weight = sizes(parts, even_column(f"reading: {name}", many))
    share = np.maximum(share, -1.0)
    noticed = (np.abs(share) > _WHOLE_LINE) & (of_all[line] >= priors.NOTICED_SHARE)
    weight = np.where(noticed, priors.NOTICED_TIMES, 1.0) * weight
    return OfALine(line, share, np.maximum(1.0 + share * of_all[line], 0.0), weight)


def _fallen(asked: Asked, many: int) -> Size:
    """Return how far the wort has fallen: points, or below nothing the share of what it can fall.

    Of fermenting beer it is any part of what it may have done by then.
    """
    import numpy as np

    even = even_column("reading: fallen", many)
    fermenting = [each for each in asked.samples if each.taken is Taken.FERMENTING]
    if not fermenting:
        return Size(*sizes(priors.FALLEN_UNPITCHED, even))
    hours = fermenting[-1].hours
    most = 1.0
    if hours is not None:
        over = hours - priors.FERMENTS_FROM_H
        most = min(max(over / priors.FALLS_OVER_H, 0.02), 1.0)
    return Size(-most * even, np.ones(many))
