"""Amounts rounded to what a kitchen can weigh and measure, and put right again after that.

The base extract is weighed last of what ferments, for it sets the gravity; then water is drawn off
where the pot is too full, and last of all the bittering hops are weighed.
"""

from __future__ import annotations

from designer.brewday.day import brew
from designer.brewday.first.amounts import Amounts, Fermented
from designer.brewday.first.kitchen import Steps, step_for
from designer.brewday.first.larder import Role
from designer.brewday.first.strength import gravity_wanted
from designer.brewday.first.turning import LEAST_FOUND
from designer.brewday.results import Day
from designer.wort.fermentation import REAL_PER_APPARENT

NO_TOP_UP_L = 0.02
_BY_EXTRACT = ("original_gravity", "final_gravity", "abv_percent")


def rounded(amounts: Amounts) -> Day:
    """Round the amounts, and return the day that they make then."""
    _round(amounts)
    is_weighed = not amounts.task.packs
    day = _with_base(amounts) if is_weighed else brew(amounts.recipe())
    for _ in range(2):
        if _kept_in_shares(amounts):
            day = _with_base(amounts) if is_weighed else brew(amounts.recipe())
    step_l = amounts.task.scale.litres
    while _too_full(amounts, day) and amounts.water_l > 2.0 * step_l:
        amounts.water_l -= step_l
        day = brew(amounts.recipe())
    return _bittered(amounts, day)


def _round(amounts: Amounts) -> None:
    task, scale = amounts.task, amounts.task.scale
    for amount in amounts.others:
        amount.kg = scale.weighed(amount.kg, _steps(amounts, amount))
    for hop in amounts.hops:
        hop.kg = scale.weighed(hop.kg, scale.hops)
    amounts.water_l = scale.measured_down(amounts.water_l)
    if task.batch_l is None or task.packs:
        batch_l = round(amounts.batch_l / scale.litres) * scale.litres
        amounts.batch_l = min(batch_l, scale.measured_down(amounts.most_l))
    if len(amounts.base) > 1:
        early, late = amounts.base[:2]
        both = early.kg + late.kg
        early.kg = scale.weighed(early.kg, scale.extract)
        if task.packs and early.line is late.line:
            late.kg = both - early.kg  # a tin put in in two parts is still used whole


def _steps(amounts: Amounts, amount: Fermented) -> Steps:
    """Extract is weighed in its steps; grain and sugar, of which there is less, in finer."""
    scale = amounts.task.scale
    return scale.extract if amount.role in (Role.BASE, Role.BESIDE) else scale.grain


def _with_base(amounts: Amounts) -> Day:
    """Weigh out the base for the gravity; a step more or less where that is in the ranges."""
    scale, last = amounts.task.scale, amounts.base[-1]
    day = brew(amounts.recipe())
    for _ in range(2):
        began, ended = (
            max(float(each) - 1.0, LEAST_FOUND)
            for each in (day.beer.original_gravity, day.beer.final_gravity)
        )
        ferments = REAL_PER_APPARENT * (1.0 - ended / began)
        wanted = gravity_wanted(amounts.task.aim, ferments) - 1.0
        all_kg = sum(each.kg for each in amounts.fermentables)
        missing = all_kg * (wanted / began - 1.0)
        last.kg = scale.weighed(max(last.kg + missing, 0.0), scale.extract)
        day = brew(amounts.recipe())
    aim = amounts.task.aim
    is_asked = aim.original_gravity is not None or aim.abv_percent is not None
    return day if is_asked or not _beyond(amounts, day) else _nearer(amounts, day)


def _nearer(amounts: Amounts, day: Day) -> Day:
    """Take a step more or less of the base where that is less far out of the ranges."""
    last = amounts.base[-1]
    step = step_for(last.kg, amounts.task.scale.extract)
    tried = [(_beyond(amounts, day), last.kg, day)]
    for other in (last.kg + step, last.kg - step):
        if other > 0.0:
            last.kg = other
            after = brew(amounts.recipe())
            tried.append((_beyond(amounts, after), other, after))
    _, last.kg, day = min(tried, key=lambda each: each[0])
    return day


def _beyond(amounts: Amounts, day: Day) -> float:
    """How far strength and end are out of their ranges, in widths of those."""
    bands = amounts.task.aim.bands
    total = 0.0
    for key in _BY_EXTRACT:
        if key in bands:
            (low, high), value = bands[key], float(getattr(day.beer, key))
            total += max(low - value, value - high, 0.0) / (high - low)
    return total


def _kept_in_shares(amounts: Amounts) -> bool:
    """Take off or put on a step where rounding has left the shares that are usual."""
    changed = False
    total = sum(each.kg for each in amounts.fermentables)
    for role, (low, high) in amounts.task.larder.usual.items():
        own = [each for each in amounts.others if each.role is role]
        kg = sum(each.kg for each in own)
        if own and not low * total <= kg <= high * total:
            most = max(own, key=lambda each: each.kg)
            step = step_for(most.kg, _steps(amounts, most))
            most.kg = max(most.kg + (step if kg < low * total else -step), step)
            changed = True
    return changed


def _too_full(amounts: Amounts, day: Day) -> bool:
    over_the_foam_line = float(day.pot.fullest_boiling_l) > amounts.foam_l
    return over_the_foam_line or float(day.fermenter.batch_l) > amounts.batch_l + NO_TOP_UP_L


def _bittered(amounts: Amounts, day: Day) -> Day:
    steps, hop = amounts.task.scale.hops, amounts.hops[0]
    for _ in range(2):
        own = max(amounts.hop_ibu(day)[0], 0.01)
        missing = amounts.wanted_ibu() - float(day.beer.bitterness_ibu)
        step = step_for(hop.kg, steps)
        more = min(round(missing * hop.kg / own / step), round(hop.kg / step))
        if more == 0:
            break
        hop.kg = max(round(hop.kg / step) + more, 1) * step
        day = brew(amounts.recipe())
    return day
