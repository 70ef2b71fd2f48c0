"""How often what was forecast after measuring holds the truth, and how wide it then is."""

from dataclasses import dataclass

import numpy as np

from designer.brewday.measured.expecting import expected
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import Measured, Reading
from designer.brewday.outlook import look_ahead
from tests.brew_proof.hidden_days import FORECASTS, LEFT_MIN, HiddenDays

ITSELF = "itself"
"""What was measured itself: how much is there, without the error of reading it."""
OF_NO_DAY = (Measured.ALPHA, Measured.WEIGHT)


@dataclass(frozen=True)
class Counted:
    """Of so many days: the share that each forecast holds, and its width beside the plan's.

    Both are of what was measured `ITSELF` too, where one thing was.
    """

    days: int
    held: dict[str, float]
    width: dict[str, float]


def counted(recipe, taken, days, seed=1):
    """Return what comes of measuring `taken` on each of so many days."""
    plan = look_ahead(recipe)
    hidden = HiddenDays(recipe, taken, days, seed)
    alone = taken[0] if len(taken) == 1 and taken[0].what not in OF_NO_DAY else None
    truth = dict(hidden.truth)
    if alone is not None:
        truth[ITSELF] = hidden.there(alone.what)
    planned = _ranges(plan, alone)
    held, widths = np.zeros((len(truth), days)), np.zeros((len(truth), days))
    for day in range(days):
        found = _ranges(day_measured(recipe, hidden.readings(day)), alone)
        for row, key in enumerate(truth):
            low, high = found[key].low, found[key].high
            held[row, day] = low - 1e-9 <= truth[key][day] <= high + 1e-9
            widths[row, day] = _share(high - low, planned[key].high - planned[key].low)
    return Counted(
        days,
        dict(zip(truth, held.mean(axis=1).tolist(), strict=True)),
        dict(zip(truth, widths.mean(axis=1).tolist(), strict=True)),
    )


def _ranges(outlook, alone):
    found = {key: outlook.forecasts[key] for key in FORECASTS}
    if alone is not None:
        place = Reading(alone.what, 0.0, alone.by, left_min=LEFT_MIN)
        found[ITSELF] = expected(outlook, place)
    return found


def _share(width, planned):
    """What is surely planned, such as a temperature, has no width to be compared with."""
    return width / planned if planned > 1e-6 else np.nan


def together(found):
    """Return the same of several recipes."""
    days = sum(each.days for each in found)

    def mean(name):
        return {
            key: sum(getattr(each, name)[key] * each.days for each in found) / days
            for key in found[0].held
        }

    return Counted(days, mean("held"), mean("width"))
