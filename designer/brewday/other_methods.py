"""What other published methods say of the same day, side by side.

Bitterness is brewed again by each method, so that all of them meet the same minutes, gravities and
losses; colour and alcohol are read off the finished day. A method that is asked beyond what it was
measured for still answers, and says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from operator import mul
from typing import Any

from designer.brewday.day import run_day
from designer.brewday.results import Day
from designer.brewday.tolerances import Nominal
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.plan import pours, recipe_of_pour
from designer.recipe.quantity import Stage
from designer.translation import message, tr
from designer.wort.bitterness import TABLE_MIN, TABLE_SG
from designer.wort.bitterness_methods import BITTERNESS_METHODS
from designer.wort.colour import COLOUR_METHODS, HIGHEST_FITTED_SRM
from designer.wort.fermentation import ALCOHOL_METHODS
from designer.wort.method import Method

TABLES_MIN = 90.0
"""The last class of minutes in the tables of Rager and of Garetz."""
LEAST_MCU = {"Mosher": 7.0, "Daniels": 11.0}
STRONG_SG = 1.070
"""From here on Hall's formula runs high and the linear one low."""
CUTAIA_PLATO_SG = (1.046, 1.073)
"""The range of the means of the brews that Cutaia's fit was shown against, 11.3 to 17.7 °P."""

WHY = {
    "Tinseth": message(
        "Follows gravity and temperature through the whole day, stands and cooling too."
    ),
    "Rager": message(
        "One table of minutes, corrected only above 1.050; gives more for a full hour."
    ),
    "Garetz": message(
        "Takes off for concentration and for the bitterness itself, and counts nothing for "
        "the first ten minutes; gives less."
    ),
    "Morey": message("A curve that bends down for dark beer and starts at nothing."),
    "Mosher": message(
        "A straight line from 4.7: darker for pale beer, a little paler for amber and brown."
    ),
    "Daniels": message("A flat straight line from 8.4: darker for pale beer, paler for dark beer."),
    "Balling": message("Splits the extract that is gone into alcohol, gas and yeast by mass."),
    "Cutaia": message(
        "A fit to measured brews; a little less for weak beer, a little more for strong."
    ),
    "Hall": message("Puts a rising amount of alcohol on each point as the wort gets stronger."),
    "linear": message("The same alcohol for each point, however strong; less for strong beer."),
}


@dataclass(frozen=True, slots=True)
class MethodSays:
    """One number by one method.

    `number` is the key of the forecast and `value` in its unit; `default` marks the method that a
    recipe has unless it says otherwise, `chosen` the one that this recipe has. `outside` says what
    lies beyond the range the method was published for, empty if nothing does.
    """

    number: str
    method: str
    value: float
    default: bool
    chosen: bool
    source: str
    why: str
    outside: str


def other_methods(recipe: Recipe, day: Day) -> tuple[MethodSays, ...]:
    """Return bitterness, colour and alcohol of the recipe's `day` by every method, defaults first.

    Raises nothing for a valid recipe.
    """
    return tuple(each for key in _BY_NUMBER for each in methods_of(key, recipe, day))


def methods_of(key: str, recipe: Recipe, day: Day) -> tuple[MethodSays, ...]:
    """Return one forecast by every method there is for it, the default first; none for most."""
    found = _BY_NUMBER.get(key)
    return tuple(found(recipe, day)) if found is not None else ()


def _of_bitterness(recipe: Recipe, day: Day) -> Iterator[MethodSays]:
    return _said(
        "bitterness_ibu",
        BITTERNESS_METHODS,
        recipe.methods.bitterness,
        {name: _bitterness(recipe, day, name) for name in BITTERNESS_METHODS},
        {name: _outside_bitterness(name, recipe, day) for name in BITTERNESS_METHODS},
    )


def _of_colour(recipe: Recipe, day: Day) -> Iterator[MethodSays]:
    return _said(
        "colour_srm",
        COLOUR_METHODS,
        recipe.methods.colour,
        {name: float(each.function(_mcu(day))) for name, each in COLOUR_METHODS.items()},
        {name: _outside_colour(name, day) for name in COLOUR_METHODS},
    )


def _of_alcohol(recipe: Recipe, day: Day) -> Iterator[MethodSays]:
    return _said(
        "abv_percent",
        ALCOHOL_METHODS,
        recipe.methods.alcohol,
        {
            name: float(each.function(day.beer.original_gravity, day.beer.final_gravity))
            for name, each in ALCOHOL_METHODS.items()
        },
        {name: _outside_alcohol(name, day) for name in ALCOHOL_METHODS},
    )


_BY_NUMBER = {
    "bitterness_ibu": _of_bitterness,
    "colour_srm": _of_colour,
    "abv_percent": _of_alcohol,
}


def methods_document(said: tuple[MethodSays, ...]) -> dict[str, list[dict[str, Any]]]:
    """Return the methods as plain values for JSON, in a list for each number."""
    document: dict[str, list[dict[str, Any]]] = {}
    for each in said:
        row = asdict(each)
        document.setdefault(row.pop("number"), []).append(row)
    return document


def _said(
    number_key: str,
    methods: dict[str, Method],
    chosen: str,
    values: dict[str, float],
    outside: dict[str, str],
) -> Iterator[MethodSays]:
    default = next(iter(methods))
    for name, method in methods.items():
        yield MethodSays(
            number=number_key,
            method=name,
            value=values[name],
            default=name == default,
            chosen=name == chosen,
            source=method.source,
            why=WHY[name],
            outside=outside[name],
        )


def _bitterness(recipe: Recipe, day: Day, method: str) -> float:
    if method == recipe.methods.bitterness:
        return float(day.beer.bitterness_ibu)
    by_it = replace(recipe, methods=replace(recipe.methods, bitterness=method))
    found = [
        (pour.share, run_day(recipe_of_pour(by_it, pour), Nominal(), noting=False)[0])
        for pour in pours(by_it)
    ]
    litres = [max(share * float(each.fermenter.batch_l), 1e-9) for share, each in found]
    bitterness = [float(each.beer.bitterness_ibu) for _, each in found]
    return float(sum(map(mul, litres, bitterness)) / sum(litres))


def _mcu(day: Day) -> float:
    return sum(line.colour_mcu for line in day.gives.values())


def _outside_bitterness(method: str, recipe: Recipe, day: Day) -> str:
    stages = {hop.when.stage for hop in recipe.hops if hop.amount is not None}
    if not stages - {Stage.DRY_HOP, Stage.FERMENTER}:
        return ""
    minutes, end_sg = number(recipe.process, "boil_time"), float(day.pot.boil_gravity_end)
    if method == "Tinseth":
        low, high = TABLE_SG
        if not low <= end_sg <= high:
            return tr(
                "The boil ends at {gravity:.3f}; the published table goes from {low:.3f} to "
                "{high:.3f}.",
                gravity=end_sg,
                low=low,
                high=high,
            )
        return _too_long(minutes, TABLE_MIN)
    if stages & {Stage.FLAME_OUT, Stage.STAND}:
        return tr("Made for hops that boil; below the boil the day's own clock is used.")
    return _too_long(minutes, TABLES_MIN)


def _too_long(minutes: float, longest: float) -> str:
    if minutes <= longest:
        return ""
    return tr(
        "The boil lasts {minutes:.0f} min; the published table ends at {longest:.0f} min.",
        minutes=minutes,
        longest=longest,
    )


def _outside_colour(method: str, day: Day) -> str:
    units = _mcu(day)
    if method == "Morey":
        too_dark = float(COLOUR_METHODS["Morey"].function(units)) > HIGHEST_FITTED_SRM
        return tr("Fitted up to {colour:.0f} SRM.", colour=HIGHEST_FITTED_SRM) if too_dark else ""
    least = LEAST_MCU[method]
    if units >= least:
        return ""
    return tr(
        "For use above {least:.0f} malt colour units; these are {units:.1f}.",
        least=least,
        units=units,
    )


_RUNS_HIGH = message("Runs high above {strong:.3f}; this is {gravity:.3f}.")
_RUNS_LOW = message("Runs low above {strong:.3f}; this is {gravity:.3f}.")


def _outside_alcohol(method: str, day: Day) -> str:
    original = float(day.beer.original_gravity)
    if method in ("Hall", "linear") and original > STRONG_SG:
        runs = _RUNS_HIGH if method == "Hall" else _RUNS_LOW
        return tr(runs, strong=STRONG_SG, gravity=original)
    low, high = CUTAIA_PLATO_SG
    if method == "Cutaia" and not low <= original <= high:
        return tr(
            "Shown against brews of {low:.3f} to {high:.3f} on average; this is {gravity:.3f}.",
            low=low,
            high=high,
            gravity=original,
        )
    return ""
