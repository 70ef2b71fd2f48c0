"""Which whole tins and bags of extract come nearest to what a batch wants."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations_with_replacement
from math import log

from designer.library.packs import PackSize
from designer.recipe.document import Fermentable
from designer.recipe.kind_defaults import extract_fraction

MOST_PACKS = 4
A_PACK, ANOTHER_KIND, OFF = 0.25, 0.6, 10.0


def whole_packs(
    forms: Sequence[Fermentable], extract_kg: float, most: float, packs: Sequence[PackSize]
) -> tuple[tuple[Fermentable, float], ...]:
    """Return how much of which form to take, in whole packs, for about so much extract.

    `most` is how many times as large the batch may become. () where no pack would do.
    """
    sizes = [(line, each.mass_kg) for line in forms for each in packs if each.kind == line.kind]
    best: tuple[float, dict[str, tuple[Fermentable, float]]] | None = None
    for count in range(1, MOST_PACKS + 1):
        for chosen in combinations_with_replacement(sizes, count):
            times = sum(kg * extract_fraction(line) for line, kg in chosen) / extract_kg
            if times > most:
                continue
            lines: dict[str, tuple[Fermentable, float]] = {}
            for line, kg in chosen:
                lines[line.name] = (line, kg + lines.get(line.name, (line, 0.0))[1])
            costs = OFF * abs(log(times)) + A_PACK * count + ANOTHER_KIND * (len(lines) - 1)
            if best is None or costs < best[0]:
                best = (costs, lines)
    return tuple(best[1].values()) if best is not None else ()
