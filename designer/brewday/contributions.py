"""What each line of the recipe gives to the beer, read off the finished day."""

from __future__ import annotations

from designer.brewday.results import Beer, Contribution, Filled
from designer.brewday.run import Run
from designer.wort.colour import malt_colour_units


def contributions(run: Run, filled: Filled, beer: Beer) -> dict[int, Contribution]:
    """Return by line_id the gravity points, colour units (MCU) and IBU in the finished beer.

    Points are shared by mass of extract, so that they add up to the original gravity.
    """
    total_kg = float(run.fermenter.extract_kg)
    points = 1000.0 * (float(beer.original_gravity) - 1.0)
    batch_l = float(filled.batch_l)
    gives: dict[int, Contribution] = {}
    for line in run.inputs.extracts:
        moved = 1.0 if line in run.plan.fermenter else float(filled.moved_fraction)
        share = float(line.extract_kg) * moved / total_kg if total_kg > 0.0 else 0.0
        gives[line.line_id] = Contribution(
            points=points * share,
            colour_mcu=float(malt_colour_units(line.colour_units * moved, batch_l)),
            bitterness_ibu=float(line.label_mg) * moved / batch_l if batch_l > 0.0 else 0.0,
        )
    for line_id, ibu in beer.hop_ibu.items():
        gives[line_id] = Contribution(bitterness_ibu=float(ibu))
    return gives
