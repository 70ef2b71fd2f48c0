"""Which packs to take: exact, by all totals that whole numbers of packs can make.

Masses are counted in whole tenths of a gram, so that equal sums are equal. The few sizes of a shop
make few totals; several lines that share an extract are chosen by branch and bound over them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Generic, Protocol, TypeVar

_TENTHS = 10_000
BALANCE_WEIGHT = 0.5
"""What a kilogram off in one line counts beside a kilogram off in all extract together."""


class Pack(Protocol):
    """A size of a shop: the kind of fermentable, "hops" or "yeast", and the mass in it."""

    @property
    def kind(self) -> str:
        """The kind of ingredient."""

    @property
    def mass_kg(self) -> float:
        """The mass in the pack."""


class ShopPack(Pack, Protocol):
    """A size that can be named."""

    @property
    def said(self) -> str:
        """What a shop calls it, such as “25 g bag”."""


@dataclass(frozen=True, slots=True)
class Packs:
    """So many packs of each size, `counts` in the order of `sizes_kg`, and what was wanted."""

    sizes_kg: tuple[float, ...]
    counts: tuple[int, ...]
    wanted_kg: float

    @property
    def total_kg(self) -> float:
        """What the packs hold."""
        pairs = zip(self.sizes_kg, self.counts, strict=True)
        return round(sum(size * count for size, count in pairs), 4)

    @property
    def left_kg(self) -> float:
        """What is left over; below zero where they hold less than wanted."""
        return round(self.total_kg - self.wanted_kg, 4)


AnyPack = TypeVar("AnyPack", bound=Pack)


@dataclass(frozen=True, slots=True)
class Whole(Generic[AnyPack]):
    """Packs as a shop sells them, how many of each, and what is left over of what they hold."""

    packs: tuple[tuple[int, AnyPack], ...]
    over_kg: float


@dataclass(frozen=True, slots=True)
class Want:
    """A line that is to be made of whole packs: kilograms wanted, extract in a kilogram, sizes."""

    kg: float
    extract_fraction: float
    sizes_kg: tuple[float, ...]


_WEIGHED_UP = 12
"""Of more packs of the largest size than that, no others are tried in place of the rest."""


def _tenths(kg: float) -> int:
    return round(kg * _TENTHS)


def enough_packs(wanted_kg: float, sizes_kg: Iterable[float]) -> Packs | None:
    """Return packs that hold at least what is wanted, with the least left over, then the fewest.

    Of very much the greatest part is in packs of the largest size. None where there are no sizes.
    """
    sizes = _sorted_sizes(sizes_kg)
    if not sizes:
        return None
    wanted, largest = max(_tenths(wanted_kg), 0), _tenths(sizes[0])
    many = max(wanted // largest - _WEIGHED_UP, 0)
    rest = wanted - many * largest
    fewest = _fewest(sizes, rest + largest)
    counts = fewest[min(each for each in fewest if each >= rest)]
    return Packs(sizes, (counts[0] + many, *counts[1:]), wanted_kg)


def packs_of(kind: str, wanted_kg: float, packs: Iterable[AnyPack]) -> Whole[AnyPack] | None:
    """Return the packs of a shop that hold so much of a kind: see `enough_packs`.

    None where nothing is wanted, or none of that kind is sold.
    """
    by_size = {each.mass_kg: each for each in packs if each.kind == kind}
    chosen = enough_packs(wanted_kg, by_size) if wanted_kg > 0.0 else None
    if chosen is None:
        return None
    pairs = zip(chosen.counts, chosen.sizes_kg, strict=True)
    return Whole(tuple((count, by_size[size]) for count, size in pairs if count), chosen.left_kg)


def _sorted_sizes(sizes_kg: Iterable[float]) -> tuple[float, ...]:
    return tuple(sorted({size for size in sizes_kg if _tenths(size) > 0}, reverse=True))


def _fewest(sizes: tuple[float, ...], reach: int) -> dict[int, tuple[int, ...]]:
    """Return each total up to `reach` tenths that packs can make, with the fewest that make it.

    Totals are gone through as they rise, so that each is final when more packs are put to it.
    """
    steps = [_tenths(size) for size in sizes]
    fewest: dict[int, tuple[int, ...]] = {0: (0,) * len(sizes)}
    used, rising = {0: 0}, [0]
    while rising:
        total = heappop(rising)
        counts = fewest[total]
        for place, step in enumerate(steps):
            at = total + step
            if at > reach or used.get(at, at) <= used[total] + 1:
                continue
            if at not in used:
                heappush(rising, at)
            used[at] = used[total] + 1
            fewest[at] = (*counts[:place], counts[place] + 1, *counts[place + 1 :])
    return fewest


def nearest_packs(wants: Sequence[Want]) -> tuple[Packs, ...]:
    """Return whole packs for each line: the nearest to what is wanted, then the fewest packs.

    What all lines together are off counts in full (the gravity), what each is off by half (the
    balance of the bill); both in kilograms of extract. Lines without sizes get none. Exact: a
    line's options come nearest first, and a branch is cut only where what its lines are off by each
    already counts more than the best that was found.
    """
    extract = sum(want.kg * want.extract_fraction for want in wants)
    options = [_options(want, extract) for want in wants]
    best: list[tuple[float, int, tuple[Packs, ...]]] = []

    def branch(place: int, off: float, apart: float, used: int, taken: tuple[Packs, ...]) -> None:
        if place == len(wants):
            found = (round(abs(off) + BALANCE_WEIGHT * apart, 9), used, taken)
            if not best or found[:2] < best[0][:2]:
                best[:] = [found]
            return
        share = wants[place].extract_fraction
        for packs in options[place]:
            more = packs.left_kg * share
            if best and BALANCE_WEIGHT * (apart + abs(more)) > best[0][0] + 1e-9:
                return
            branch(
                place + 1, off + more, apart + abs(more), used + sum(packs.counts), (*taken, packs)
            )

    branch(0, 0.0, 0.0, 0, ())
    return best[0][2]


def _options(want: Want, extract_kg: float) -> list[Packs]:
    """The totals a line may have, each with the fewest packs, the nearest to its want first.

    No line need hold more than the extract of all lines and one pack: with more there is too much
    extract even if all others have none, so that a pack less would be better in every regard.
    """
    sizes = _sorted_sizes(want.sizes_kg)
    if not sizes:
        return [Packs((), (), want.kg)]
    reach = _tenths(extract_kg / max(want.extract_fraction, 0.01)) + _tenths(sizes[0])
    packs = [Packs(sizes, counts, want.kg) for counts in _fewest(sizes, reach).values()]
    return sorted(packs, key=lambda each: (abs(each.left_kg), sum(each.counts)))


def sizes_of(kind: str, packs: Iterable[Pack]) -> tuple[float, ...]:
    """Return the sizes in which a kind is sold."""
    return tuple(each.mass_kg for each in packs if each.kind == kind)
