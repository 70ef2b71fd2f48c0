"""What is known of a wort without a recipe: what the box of a kit says, told over the phone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from designer.brewday.explaining.beliefs import (
    MALT_FERMENTS,
    UNTRIED_SG,
    USUAL_MARKS,
    Beliefs,
    Brings,
    range_of,
    reads_within,
)
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS, standard_normal_column
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.kind_defaults import FERMENTABLE_DEFAULTS
from designer.wort.density import gravity_from_plato
from designer.wort.extract import POINTS_L_PER_KG_OF_PPG, SUCROSE_PPG, water_for_volume
from designer.wort.fermentation import alcohol_balling, final_gravity

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SAMPLES = 256
SOLIDS_SHARE = 0.03
"""Half the 5 to 95 % range of what syrup and powder bring, a share of it; makers' sheets 77 to 82
and 94.5 to 98 % solids, and what stays in the tin (judgement)."""
STEEP_SHARE = 0.25
"""The same of steeped grain."""
BATCH_SHARE = 0.05
"""The same of the litres of a bucket: its marks, and what stayed in the pot (judgement)."""
USUAL_POT_L, USUAL_POT_OF_BATCH, UNTOLD_POT_SHARE = 9.0, 0.5, 0.3
"""Wort boiled of which nothing was told: a kitchen pot, half the batch at the most (judgement)."""
POT_SHARE = 0.1
"""Half the range of what a pot that was told really held, a share of it (judgement)."""
SUCROSE_POINTS_L_PER_KG = SUCROSE_PPG * POINTS_L_PER_KG_OF_PPG
SPLIT_UNTOLD = (("", FermentableKind.HOPPED_KIT, 0.6), ("", FermentableKind.SUGAR, 0.4))
"""What a box of which nothing is told holds: a tin and a bag, by points (judgement)."""
LIQUID, DRY, SUGAR = (
    FermentableKind.LIQUID_EXTRACT,
    FermentableKind.DRY_EXTRACT,
    FermentableKind.SUGAR,
)


@dataclass(frozen=True, slots=True)
class ExtractStated:
    """Kilograms of an extract or a sugar; the form is a `FermentableKind`."""

    kg: float
    form: str = LIQUID


@dataclass(frozen=True, slots=True)
class KitStated:
    """What is told of a kit on the phone.

    The band that the box states for the original gravity, `low` and `high` as gravities, or None;
    litres of the batch; litres of wort boiled, or the size of the pot, None where nobody said; what
    went in. Without a band, extract has to be told. Bitterness may be told by the box.
    """

    batch_l: float
    low: float | None = None
    high: float | None = None
    pot_l: float | None = None
    extract: tuple[ExtractStated, ...] = ()
    bitterness_ibu: float | None = None


def beliefs_of_kit(stated: KitStated) -> Beliefs:
    """Return what a kit says is to be read.

    Raises ValueError where neither a band nor any extract is told, or the batch is nothing.
    """
    import numpy as np

    has_band = stated.low is not None and stated.high is not None
    if stated.batch_l <= 0.0 or not (has_band or any(each.kg > 0.0 for each in stated.extract)):
        message = "a kit needs its litres, and a band or what is in it"
        raise ValueError(message)
    batch = stated.batch_l * np.exp(_column("litres of the kit", BATCH_SHARE))
    brings = _points_litres(stated.extract)
    reckoned = sum(each for each, _ in brings) / stated.batch_l
    if has_band:
        low, high = sorted((stated.low or 1.0, stated.high or 1.0))
        value = (low + high) / 2.0
        points = 1000.0 * (value - 1.0 + _column("band of the kit", (high - low) / 2.0))
        batch = np.full(SAMPLES, stated.batch_l)  # the band is that of the litres it names
    else:
        value = _gravity(stated)
        doubt = sum(each * spread for each, spread in brings) / max(stated.batch_l * reckoned, 1e-9)
        made = np.exp(_column("extract of the kit", doubt))
        points = 1000.0 * (value - 1.0) * made * stated.batch_l / batch
    pot_l = _pot_l(stated)
    pot = np.minimum(pot_l, batch)
    pot_points = points * batch / np.maximum(pot, 1e-6)
    expected = range_of(1.0 + points / 1000.0, value)
    reads_from, reads_to = reads_within(expected, UNTRIED_SG)
    final = float(final_gravity(value, _ferments_of(stated.extract)))
    return Beliefs(
        points,
        batch,
        pot_points,
        pot,
        planned_l=stated.batch_l,
        top_up_share=max(1.0 - float(np.median(pot)) / stated.batch_l, 0.0),
        expected=expected,
        expected_in_pot=range_of(1.0 + pot_points / 1000.0),
        reads_from=reads_from,
        reads_to=reads_to,
        lines=_lines(stated.extract, 1000.0 * (value - 1.0)),
        final_gravity=final,
        abv_percent=float(alcohol_balling(value, final)),
        bitterness_ibu=stated.bitterness_ibu,
        mark_share=USUAL_MARKS[0],
        mark_anyway_l=USUAL_MARKS[1],
    )


def _column(key: str, half_width: float) -> Array:
    found: Array = half_width / HALF_WIDTH_SIGMAS * standard_normal_column(key, SAMPLES)
    return found


def _solids_kg(each: ExtractStated) -> float:
    return each.kg * FERMENTABLE_DEFAULTS[each.form].extract


def _points_litres(extract: Sequence[ExtractStated]) -> list[tuple[float, float]]:
    """Return of each line what it brings, in points times litres, and the doubt of it."""
    return [
        (
            SUCROSE_POINTS_L_PER_KG * _solids_kg(each),
            STEEP_SHARE if is_grain(each.form) else SOLIDS_SHARE,
        )
        for each in extract
    ]


def _gravity(stated: KitStated) -> float:
    """Return the gravity of all extract in the litres of the batch, by the mass balance."""
    solids = sum(_solids_kg(each) for each in stated.extract)
    water = water_for_volume(solids, stated.batch_l)
    return float(gravity_from_plato(100.0 * solids / (solids + water)))


def _lines(extract: Sequence[ExtractStated], points: float) -> tuple[Brings, ...]:
    solids = sum(_solids_kg(each) for each in extract)
    if solids <= 0.0:
        return tuple(Brings(0, name, kind, 0.0, part * points) for name, kind, part in SPLIT_UNTOLD)
    return tuple(
        Brings(
            0,
            "",
            each.form,
            each.kg,
            points * _solids_kg(each) / solids,
            ferments=_ferments(each.form),
        )
        for each in extract
        if each.kg > 0.0
    )


def _ferments(form: str) -> float:
    return FERMENTABLE_DEFAULTS[form].fermentability


def _ferments_of(extract: Sequence[ExtractStated]) -> float:
    """Return the real share of all extract that a usual yeast ferments; that of malt if untold."""
    solids = sum(_solids_kg(each) for each in extract)
    if solids <= 0.0:
        return MALT_FERMENTS
    return sum(_solids_kg(each) * _ferments(each.form) for each in extract) / solids


def _pot_l(stated: KitStated) -> Array:
    import numpy as np

    if stated.pot_l is not None:
        found: Array = stated.pot_l * np.exp(_column("pot of the kit", POT_SHARE))
        return found
    usual = min(USUAL_POT_L, USUAL_POT_OF_BATCH * stated.batch_l)
    untold: Array = usual * np.exp(_column("pot of the kit", UNTOLD_POT_SHARE))
    return untold
