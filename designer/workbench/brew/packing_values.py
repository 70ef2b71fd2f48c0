"""How a beer is packaged as the plain values of a log, and back."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from designer.brewday.packaging.packaged import BottleSize, Packing
from designer.brewday.packaging.waiting import BEST_FROM, KEG_READY, dates_of
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.workbench.brew.entry_values import count_in, number_in, text_in, values_in

MOST_SIZES = 20
MOST_OF_A_SIZE = 100_000
READY = frozenset((BEST_FROM.id, KEG_READY.id))
"""What tells from when on a beer is ready to drink."""
LONGEST_WORDS = 500
"""Of one line of a label."""


def values_of_packing(packing: Packing) -> dict[str, Any]:
    """Return the plain values of how a beer is packaged."""
    return {
        "beer_l": packing.beer_l,
        "volumes": packing.volumes,
        "warmest_c": packing.warmest_c,
        "may_fall": packing.may_fall,
        "package": str(packing.package),
        "sugar": str(packing.sugar),
        "bottles": [[each.litres, each.count, str(each.kind)] for each in packing.bottles],
        "keg_c": packing.keg_c,
        "fermentability": packing.fermentability,
        "cautions": sorted(packing.cautions),
        "done": packing.done,
        "condition_c": packing.condition_c,
        "chosen": sorted(packing.chosen),
        "label": dict(packing.label),
        "fermenter": packing.fermenter,
    }


def packaged_values(
    packing: Packing, said: str, on: date, grams: float | None = None
) -> dict[str, Any]:
    """Return what is written once the beer is in bottles or keg; `ready` is when it is to be."""
    values: dict[str, Any] = {"packing": values_of_packing(packing), "said": said}
    if grams is not None:
        values["grams"] = grams
    ready = next((day for day, what in dates_of(packing, on) if what.id in READY), None)
    if ready is not None:
        values["ready"] = ready.isoformat()
    return values


def packing_of(values: Mapping[str, Any]) -> Packing | None:
    """Return how a beer is packaged; None for what is damaged or a later program knows."""
    beer_l, volumes = number_in(values, "beer_l"), number_in(values, "volumes")
    warmest_c, keg_c = number_in(values, "warmest_c"), number_in(values, "keg_c")
    if beer_l is None or volumes is None or warmest_c is None:
        return None
    condition_c = number_in(values, "condition_c")
    try:
        return Packing(
            beer_l,
            volumes,
            warmest_c,
            number_in(values, "may_fall"),
            Package(text_in(values, "package")),
            PrimingSugar(text_in(values, "sugar")),
            _bottles(values.get("bottles")),
            6.0 if keg_c is None else keg_c,
            number_in(values, "fermentability"),
            _words(values.get("cautions")),
            values.get("done") is True,
            20.0 if condition_c is None else condition_c,
            _words(values.get("chosen")),
            _label(values_in(values, "label")),
            count_in(values, "fermenter", 1),
        )
    except ValueError:
        return None


def _words(found: object) -> frozenset[str]:
    return frozenset(
        each for each in (found if isinstance(found, list) else ()) if isinstance(each, str)
    )


def _label(found: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    told = ((str(key), text_in(found, key)) for key in sorted(found))
    return tuple((key, text[:LONGEST_WORDS]) for key, text in told)


def _bottles(found: object) -> tuple[BottleSize, ...]:
    sizes = []
    for each in found[:MOST_SIZES] if isinstance(found, list) else ():
        if isinstance(each, list) and len(each) == 3:
            told = dict(zip(("litres", "count", "kind"), each, strict=True))
            litres, count = number_in(told, "litres"), count_in(told, "count", 0)
            if litres is not None and litres > 0.0 and 0 <= count <= MOST_OF_A_SIZE:
                sizes.append(BottleSize(litres, count, Bottle(text_in(told, "kind"))))
    return tuple(sizes)
