"""Ways that a brewer cannot tell apart: one of them stands for all, and the others are its choice.

Extract put in late, or a boil that is shorter, often makes the same beer of the same purchases on
the same day. Beside one another they would only hide the ways that differ.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from designer.brewday.fit.answer import Way
from designer.brewday.fit.original import VOLUME_DEADBAND
from designer.brewday.predictions import PREDICTIONS

MUCH_THE_SAME_MIN = 20.0
"""Nobody plans a brewing day more closely; a judgement, no source."""


def folded(ways: Sequence[Way]) -> tuple[Way, ...]:
    """Return the ways with near copies put behind the first of them; ranks go on through those.

    `ways` are in order, the best first; so is what is returned, and what is behind each.
    """
    groups: list[list[Way]] = []
    for way in ways:
        alike = next((group for group in groups if much_the_same(group[0], way)), None)
        if alike is None:
            groups.append([way])
        else:
            alike.append(way)
    rank = len(groups)
    found: list[Way] = []
    for place, (first, *others) in enumerate(groups, 1):
        behind = tuple(replace(each, rank=rank + n) for n, each in enumerate(others, 1))
        rank += len(others)
        found.append(replace(first, rank=place, much_the_same=behind))
    return tuple(found)


def much_the_same(one: Way, other: Way) -> bool:
    """Tell whether two ways give the same beer, of the same purchases, on as long a day.

    In as many boils, with the same hops and the same left over; the beers lie within what no
    kitchen's hydrometer, tongue or eye can tell.
    """
    return (
        len(one.boils) == len(other.boils)
        and _made_of(one) == _made_of(other)
        and abs(one.total_min - other.total_min) <= MUCH_THE_SAME_MIN
        and abs(one.batch_l - other.batch_l) <= VOLUME_DEADBAND * one.original_batch_l
        and all(
            abs(one.forecasts[each.key].value - other.forecasts[each.key].value) <= each.deadband
            for each in PREDICTIONS
            if each.deadband is not None
        )
    )


def _made_of(way: Way) -> tuple[object, ...]:
    """Return what a brewer sees of a way besides its figures.

    What is to be bought, of which lines some is left over, which hops go in, whether it boils,
    and on how many days.
    """
    return (
        tuple(each.words.text for each in way.must_buy),
        tuple((left.lines, left.line_id) for left in way.left_over),
        {hop.name for recipe in way.recipes for hop in recipe.hops},
        [boil.day.pot.reached_boil for boil in way.boils],
        way.brew_days,
    )
