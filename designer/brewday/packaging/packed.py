"""Beer into bottles or a keg: how much sugar, what pressure, whether the bottles bear it, when.

Judged is the fullest bottle of twenty, of the weakest kind that is filled, with what may still
ferment on top (`designer.brewday.bottles`). What is refused has no amount of sugar at all, so
nothing that shows it can tell one. Sugar and pressure are reckoned as the day reckons them.
"""

from __future__ import annotations

from datetime import date, timedelta
from math import isfinite

from designer.brewday.bottles import Bottled, aimed_volumes, judged
from designer.brewday.packaging.cautions import cautions_of, has_to_be_ticked
from designer.brewday.packaging.filling import bottles_in, empty_bottles
from designer.brewday.packaging.kegs import MOST_SETTING_BAR, keg_setting, keg_settings
from designer.brewday.packaging.packaged import (
    Bears,
    Packaged,
    Packing,
    Pressure,
    Refused,
    SugarWanted,
)
from designer.brewday.packaging.refusing import (
    POINT_SG,
    no_figure,
    not_read,
    too_much,
    too_warm_a_keg,
    unfinished,
)
from designer.brewday.packaging.sugars import each_sugar, extract_ferments
from designer.brewday.packaging.waiting import (
    READ_AGAIN_DAYS,
    dates_of,
    dates_of_unfinished,
)
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.message import Message
from designer.wort.carbonation import (
    BOTTLE_LIMITS,
    VOLUMES_PER_POINT,
    WARMEST_STORE_C,
    keg_pressure_bar,
    most_volumes,
    priming_sugar_g,
    residual_co2,
    volumes_at,
)

DONE_WITHIN = 0.0015
"""What beer that is done may still fall by at most, for two readings that agree tell no less.

Judgement; its gas is counted in the pressure.
"""
ROOM_C = 20.0
_NEARLY = 1e-9


def packaged(packing: Packing, today: date, read_again: date | None = None) -> Packaged:
    """Return what packaging takes and comes to if it is done today.

    `read_again` is when beer that is not done is read next, or first. Where it is left out it is
    today for beer that nobody read yet, and three days on for what was read.
    """
    if not _figures_are_numbers(packing):
        return _without_figures(packing)
    adds = unfinished_volumes(packing.may_fall)
    first = read_again or today
    again = read_again or _days_on(today, READ_AGAIN_DAYS)
    if adds is None:
        again = _days_on(first, READ_AGAIN_DAYS)
    kind = weakest(packing)
    in_keg = packing.package == Package.KEG
    bottles = judged(kind, packing.volumes, packing.warmest_c, adds or 0.0)
    why, refusal = _refusal(packing, None if in_keg else bottles, adds, first, again)
    cautions = cautions_of(packing.package, bottles, packing.sugar)
    wanted = frozenset(code for code, _ in cautions if has_to_be_ticked(code))
    aimed_at = aimed_volumes(packing.volumes, packing.warmest_c)
    held_l = bottles_in(packing.bottles)
    return Packaged(
        bears=_bears(why, wanted),
        residual_volumes=float(residual_co2(packing.warmest_c)),
        pressure=None if in_keg else _pressure(bottles, kind, aimed_at, adds or 0.0),
        sugars=() if in_keg or why is not None else _sugars(packing),
        refusal=refusal,
        cautions=tuple(cautions),
        to_tick=wanted - packing.cautions if why is None else frozenset(),
        filled_l=packing.beer_l if in_keg else min(held_l, packing.beer_l),
        left_over_l=0.0 if in_keg else max(packing.beer_l - held_l, 0.0),
        caps=0 if in_keg else sum(each.count for each in packing.bottles),
        keg=keg_settings(packing.volumes, packing.keg_c),
        dates=_dates(packing, why, adds, today, again),
        aimed_volumes=aimed_at,
        unfinished_volumes=adds,
        refused_for=why,
        empty_bottles=0 if in_keg else empty_bottles(packing.bottles, packing.beer_l),
    )


def weakest(packing: Packing) -> Bottle:
    """Return the weakest kind of bottle that is filled; unknown ones where none is named."""
    filled = [each for each in packing.bottles if each.count > 0] or packing.bottles
    return min(
        (each.kind for each in filled),
        key=lambda kind: BOTTLE_LIMITS[kind].never_bar,
        default=Bottle.UNKNOWN,
    )


def unfinished_volumes(may_fall: float | None) -> float | None:
    """Return the volumes that come of what may still ferment; None where nobody knows."""
    return None if may_fall is None else max(may_fall, 0.0) / POINT_SG * VOLUMES_PER_POINT


def _figures_are_numbers(packing: Packing) -> bool:
    wanted = (packing.beer_l, packing.volumes, packing.warmest_c, packing.keg_c)
    others = (packing.condition_c, packing.may_fall, packing.fermentability)
    told = (*wanted, *(each for each in others if each is not None))
    sizes = (each.litres for each in packing.bottles)
    return all(isfinite(each) for each in (*told, *sizes))


def _without_figures(packing: Packing) -> Packaged:
    refusal = no_figure()
    return Packaged(
        Bears.REFUSED, 0.0, None, (), refusal, (), frozenset(), 0.0, 0.0, 0,
        refused_for=Refused.NO_FIGURE,
    )  # fmt: skip


def _refusal(
    packing: Packing, bottles: Bottled | None, adds: float | None, first: date, again: date
) -> tuple[Refused | None, Message | None]:
    """Return why it is refused, and in words; what no waiting changes comes first."""
    if bottles is not None and not bottles.is_made_for_pressure:
        return Refused.NOT_FOR_PRESSURE, too_much(bottles)
    if adds is None:
        return Refused.NOT_READ, not_read(packing, first, again)
    if not packing.done or (packing.may_fall or 0.0) > DONE_WITHIN + _NEARLY:
        return Refused.UNFINISHED, unfinished(packing, bottles, adds, again)
    if bottles is not None and bottles.is_refused:
        return Refused.PRESSURE, too_much(bottles, adds, again)
    too_warm = keg_setting(packing.volumes, packing.keg_c).bar > MOST_SETTING_BAR
    if bottles is None and too_warm:
        return Refused.WARM_KEG, too_warm_a_keg(packing.keg_c, MOST_SETTING_BAR)
    return None, None


def _bears(why: Refused | None, to_tick: frozenset[str]) -> Bears:
    if why is not None:
        return Bears.REFUSED
    return Bears.CAUTION if to_tick else Bears.AT_EASE


def _pressure(bottles: Bottled, kind: Bottle, aimed_at: float, adds: float) -> Pressure:
    most = float(most_volumes(aimed_at, adds))
    comfortable, never = (
        float(volumes_at(bar, WARMEST_STORE_C)) if bar > 0.0 else 0.0
        for bar in (bottles.comfortable_bar, bottles.never_bar)
    )
    return Pressure(
        volumes=most,
        at_20_bar=float(keg_pressure_bar(most, ROOM_C)),
        warm_bar=bottles.most_bar,
        warm_c=WARMEST_STORE_C,
        comfortable_bar=bottles.comfortable_bar,
        never_bar=bottles.never_bar,
        comfortable_volumes=comfortable,
        never_volumes=never,
        kind=kind,
    )


def _sugars(packing: Packing) -> tuple[SugarWanted, ...]:
    ferments = packing.fermentability
    factors = each_sugar(extract_ferments() if ferments is None else ferments)
    return tuple(_sugar(packing, sugar, float(factors[sugar])) for sugar in PrimingSugar)


def _sugar(packing: Packing, sugar: PrimingSugar, factor: float) -> SugarWanted:
    grams, a_litre = (
        float(priming_sugar_g(litres, packing.volumes, packing.warmest_c, factor))
        for litres in (max(packing.beer_l, 0.0), 1.0)
    )
    return SugarWanted(sugar, grams, a_litre)


def _dates(
    packing: Packing, why: Refused | None, adds: float | None, today: date, again: date
) -> tuple[tuple[date, Message], ...]:
    """Return what follows; where another reading would help, that comes first."""
    if why is None:
        return dates_of(packing, today)
    waits = why in (Refused.NOT_READ, Refused.UNFINISHED) or (why is Refused.PRESSURE and adds)
    return dates_of_unfinished(packing, again) if waits else ()


def _days_on(today: date, days: int) -> date:
    try:
        return today + timedelta(days=days)
    except OverflowError:
        return today
