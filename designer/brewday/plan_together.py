"""Parts of days and days together: what a share of a boil is, and what several vessels come to.

Volumes and masses add up; gravity, bitterness and colour are means by volume, since what is mixed
keeps its extract, its iso-alpha acids and its colour.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import isclose
from typing import Any

from designer.brewday.results import Beer, Boiled, Cause, Contribution, Day, Filled, Range
from designer.brewday.time_line import Addition, Moment, Span

_ADDED_WATER = (
    "lost_to_trub_l",
    "lost_to_hops_l",
    "from_pot_l",
    "top_up_l",
    "frozen_kg",
    "hot_l",
    "batch_l",
    "iso_mg",
    "colour_units",
)
_ADDED_BEER = ("packaged_l", "yeast_wanted_g", "water_l", "water_treatment_g")
_MEAN_BEER = (
    "original_gravity",
    "final_gravity",
    "abv_percent",
    "bitterness_ibu",
    "colour_srm",
    "kcal_per_100ml",
    "undissolved_ibu",
)


def in_share(day: Day, share: float) -> Day:
    """Return the day with what a share of its wort comes to in a fermenter of its own."""
    if isclose(share, 1.0):
        return day
    filled = {name: share * float(getattr(day.fermenter, name)) for name in _ADDED_WATER}
    beer = {name: share * float(getattr(day.beer, name)) for name in _ADDED_BEER}
    priming = {sugar: share * float(grams) for sugar, grams in day.beer.priming_g.items()}
    return replace(
        day,
        fermenter=replace(day.fermenter, **filled),  # type: ignore[arg-type]
        beer=replace(day.beer, **beer, priming_g=priming),  # type: ignore[arg-type]
    )


def mixed(days: Sequence[Day]) -> Day:
    """Return the day of one fermenter, or of all, that the worts of several days go into.

    Its pot and time line are those of the first.
    """
    first = days[0]
    if len(days) == 1:
        return first
    return replace(
        first,
        fermenter=_filled([each.fermenter for each in days]),
        beer=_beer(days),
        gives=_gives(days),
    )


def _weights(days: Sequence[Day]) -> list[float]:
    litres = [max(float(each.fermenter.batch_l), 1e-9) for each in days]
    return [each / sum(litres) for each in litres]


def _mean(values: Sequence[float], weights: Sequence[float]) -> float:
    return sum(value * weight for value, weight in zip(values, weights, strict=True))


def _filled(each: Sequence[Filled]) -> Filled:
    litres = [max(float(one.batch_l), 1e-9) for one in each]
    weights = [one / sum(litres) for one in litres]
    added = {name: sum(float(getattr(one, name)) for one in each) for name in _ADDED_WATER}
    return replace(
        each[0],
        **added,
        cool_to_c=max(float(one.cool_to_c) for one in each),
        bath_ice_kg=max(float(one.bath_ice_kg) for one in each),
        frozen_melted=all(one.frozen_melted for one in each),
        mixed_c=_mean([float(one.mixed_c) for one in each], weights),
        pot_ibu=max(float(one.pot_ibu) for one in each),
    )


def _beer(days: Sequence[Day]) -> Beer:
    each, weights = [day.beer for day in days], _weights(days)
    changes: dict[str, Any] = {
        name: sum(float(getattr(one, name)) for one in each) for name in _ADDED_BEER
    }
    changes |= {
        name: _mean([float(getattr(one, name)) for one in each], weights) for name in _MEAN_BEER
    }
    hop_ibu: defaultdict[int, float] = defaultdict(float)
    priming: defaultdict[str, float] = defaultdict(float)
    for one, weight in zip(each, weights, strict=True):
        for line, ibu in one.hop_ibu.items():
            hop_ibu[line] += weight * float(ibu)
        for sugar, grams in one.priming_g.items():
            priming[sugar] += float(grams)
    return replace(each[0], **changes, hop_ibu=dict(hop_ibu), priming_g=dict(priming))


def _gives(days: Sequence[Day]) -> dict[int, Contribution]:
    found: defaultdict[int, Contribution] = defaultdict(Contribution)
    for day, weight in zip(days, _weights(days), strict=True):
        for line, given in day.gives.items():
            before = found[line]
            found[line] = Contribution(
                before.points + weight * given.points,
                before.colour_mcu + weight * given.colour_mcu,
                before.bitterness_ibu + weight * given.bitterness_ibu,
            )
    return dict(found)


def one_after_another(days: Sequence[Day], starts_min: Sequence[float], total_min: float) -> Day:
    """Return all boils as one day: waters and steam add up, the fullest pot and strongest boil."""
    whole = mixed(days)
    if len(days) == 1:
        return replace(whole, total_min=total_min)
    return replace(
        whole,
        steep=replace(
            whole.steep, held_in_grain_l=sum(float(each.steep.held_in_grain_l) for each in days)
        ),
        pot=_pots([day.pot for day in days]),
        fermenter=replace(
            whole.fermenter,
            cooling_min=sum(float(each.fermenter.cooling_min) for each in days),
            bath_ice_kg=sum(float(each.fermenter.bath_ice_kg) for each in days),
        ),
        total_min=total_min,
        spans=tuple(_later(days, starts_min)),
        additions=tuple(sorted(_added(days, starts_min), key=lambda each: each.time_min)),
        moments=tuple(_moments(days, starts_min)),
        began=None,
    )


def _pots(each: Sequence[Boiled]) -> Boiled:
    fullest = max(each, key=lambda one: float(one.fullest_l))
    strongest = max(each, key=lambda one: float(one.boil_gravity_end))
    return replace(
        strongest,
        start_water_l=sum(float(one.start_water_l) for one in each),
        boil_start_l=sum(float(one.boil_start_l) for one in each),
        boil_end_l=sum(float(one.boil_end_l) for one in each),
        evaporated_l=sum(float(one.evaporated_l) for one in each),
        reached_boil=all(one.reached_boil for one in each),
        fullest_l=fullest.fullest_l,
        fullest_at=fullest.fullest_at,
        fullest_boiling_l=max(float(one.fullest_boiling_l) for one in each),
    )


def _later(days: Sequence[Day], starts_min: Sequence[float]) -> list[Span]:
    return [
        replace(each, start_min=each.start_min + start, end_min=each.end_min + start)
        for day, start in zip(days, starts_min, strict=True)
        for each in day.spans
    ]


def _added(days: Sequence[Day], starts_min: Sequence[float]) -> list[Addition]:
    return [
        replace(each, time_min=each.time_min + start)
        for day, start in zip(days, starts_min, strict=True)
        for each in day.additions
    ]


def _moments(days: Sequence[Day], starts_min: Sequence[float]) -> list[Moment]:
    return [
        replace(each, time_min=each.time_min + start)
        for day, start in zip(days, starts_min, strict=True)
        for each in day.moments
    ]


def forecasts_mixed(
    found: Sequence[Mapping[str, Range]], litres: Sequence[float]
) -> dict[str, Range]:
    """Return the forecasts of worts that are mixed, by volume.

    What is doubtful of one kitchen day is taken to be so in all of them: the ranges are means too.
    """
    if all(each == found[0] for each in found):
        return dict(found[0])
    whole = sum(max(each, 1e-9) for each in litres)
    weights = [max(each, 1e-9) / whole for each in litres]
    return {key: _mean_range([each[key] for each in found], weights) for key in found[0]}


def _mean_range(found: Sequence[Range], weights: Sequence[float]) -> Range:
    def mean(name: str) -> float:
        return _mean([float(getattr(each, name)) for each in found], weights)

    def mean_or_none(name: str) -> float | None:
        values = [getattr(each, name) for each in found]
        return None if None in values else _mean([float(each) for each in values], weights)

    return Range(
        mean("value"),
        mean("low"),
        mean("high"),
        tuple(sorted(_causes(found, weights), key=lambda each: -each.share)),
        mean_or_none("first_quartile"),
        mean_or_none("middle"),
        mean_or_none("third_quartile"),
    )


def _causes(found: Sequence[Range], weights: Sequence[float]) -> list[Cause]:
    by_key: dict[str, list[tuple[Cause | None, Range]]] = {}
    keys = dict.fromkeys(cause.key for each in found for cause in each.causes)
    for key in keys:
        by_key[key] = [
            (next((cause for cause in each.causes if cause.key == key), None), each)
            for each in found
        ]
    causes = []
    for pairs in by_key.values():
        known = next(cause for cause, _ in pairs if cause is not None)
        shares = [0.0 if cause is None else cause.share for cause, _ in pairs]
        lows = [each.low if cause is None else cause.low for cause, each in pairs]
        highs = [each.high if cause is None else cause.high for cause, each in pairs]
        causes.append(
            replace(
                known,
                share=_mean(shares, weights),
                low=_mean(lows, weights),
                high=_mean(highs, weights),
            )
        )
    return causes
