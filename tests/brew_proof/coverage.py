"""How often what was forecast after measuring holds the truth, and how wide it then is."""

from dataclasses import dataclass

import numpy as np

from designer.brewday.measured.measured_day import day_measured
from designer.brewday.outlook import look_ahead
from tests.brew_proof.hidden_days import FORECASTS, HiddenDays


@dataclass(frozen=True)
class Counted:
    """Of so many days: the share that each forecast holds, and its width beside the plan's."""

    days: int
    held: dict[str, float]
    width: dict[str, float]


def counted(recipe, taken, days, seed=1):
    """Return what comes of measuring `taken` on each of so many days."""
    plan = look_ahead(recipe).forecasts
    hidden = HiddenDays(recipe, taken, days, seed)
    held, widths = np.zeros((len(FORECASTS), days)), np.zeros((len(FORECASTS), days))
    for day in range(days):
        found = day_measured(recipe, hidden.readings(day)).forecasts
        for row, key in enumerate(FORECASTS):
            low, high = found[key].low, found[key].high
            held[row, day] = low <= hidden.truth[key][day] <= high
            widths[row, day] = (high - low) / (plan[key].high - plan[key].low)
    return Counted(
        days,
        dict(zip(FORECASTS, held.mean(axis=1).tolist(), strict=True)),
        dict(zip(FORECASTS, widths.mean(axis=1).tolist(), strict=True)),
    )


def together(found):
    """Return the same of several recipes."""
    days = sum(each.days for each in found)

    def mean(name):
        return {
            key: sum(getattr(each, name)[key] * each.days for each in found) / days
            for key in FORECASTS
        }

    return Counted(days, mean("held"), mean("width"))
