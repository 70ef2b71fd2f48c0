"""How many bottles the beer fills: of one size, or of several so that little is left over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from designer.brewday.packaging.packaged import BottleSize
from designer.recipe.choices import Bottle

_NEARLY = 1e-6
_FEWER = 8
_WEIGHED_UP = 3
"""How many bottles of a size may make way for others where these leave less over, and of how many
sizes that is tried: a kitchen has few."""


def bottles_in(sizes: Sequence[BottleSize]) -> float:
    """Return the litres that bottles hold together."""
    return sum(each.litres * each.count for each in sizes)


def filled_by(litres_each: float, kind: Bottle, beer_l: float) -> BottleSize:
    """Return how many bottles of one size a beer fills to the neck."""
    count = int(beer_l / litres_each + _NEARLY) if litres_each > 0.0 and beer_l > 0.0 else 0
    return BottleSize(litres_each, count, kind)


def counted_to_fit(sizes: Sequence[BottleSize], beer_l: float) -> tuple[BottleSize, ...]:
    """Return sizes with counts so that little beer is left over, the first sizes going first.

    Of several ways that leave equally little, the one with the fewest bottles is taken. What they
    counted before does not matter.
    """
    counts = _best([each.litres for each in sizes], max(beer_l, 0.0))
    return tuple(replace(each, count=count) for each, count in zip(sizes, counts, strict=True))


def _best(litres: list[float], beer_l: float) -> list[int]:
    """Return counts of sizes for what is left of the beer, from the first on."""
    if not litres:
        return []
    most = filled_by(litres[0], Bottle.UNKNOWN, beer_l).count
    if len(litres) == 1:
        return [most]
    fewer = _FEWER if len(litres) <= _WEIGHED_UP else 0
    ways = (
        [count, *_best(litres[1:], beer_l - count * litres[0])]
        for count in range(most, max(most - fewer, 0) - 1, -1)
    )

    def how_good(counts: list[int]) -> tuple[float, int]:
        filled_l = sum(each * count for each, count in zip(litres, counts, strict=True))
        return round(beer_l - filled_l, 3), sum(counts)

    return min(ways, key=how_good)


def empty_bottles(sizes: Sequence[BottleSize], beer_l: float) -> int:
    """Return how many bottles get no beer, the large ones being filled first."""
    left_l, empty = max(beer_l, 0.0), 0
    for each in sorted(sizes, key=lambda size: -size.litres):
        filled = min(filled_by(each.litres, each.kind, left_l).count, each.count)
        left_l -= filled * each.litres
        empty += each.count - filled
    return empty
