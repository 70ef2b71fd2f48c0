"""How a brewer can know an input better, and how well it is known then.

Half widths that a careful kitchen reaches; common practice, no source. An input that no kitchen
can measure (the bitterness model, the colour fit, how far malt extract ferments) has no entry.
"""

from __future__ import annotations

from typing import NamedTuple

from designer.brewday.tolerances import Doubt


class Better(NamedTuple):
    """What to do, and the half width reached: in the unit of the input, or relative to it."""

    advice: str
    half_width: float
    relative: bool


_BY_KEY = {
    "fermenter mark": Better("read the volume to 0.2 L", 0.2, relative=False),
    "water measured in": Better("weigh the water to 50 g", 0.05, relative=False),
    "evaporation": Better("measure your boil-off once with plain water", 0.08, relative=True),
    "wort left in the pot": Better("measure what stays in the pot", 0.1, relative=False),
    "water held by grain": Better("weigh the wet bag", 0.1, relative=False),
    "wort held by hops": Better("weigh the wet hops", 1.0, relative=False),
    "kitchen scale": Better("check the scale with a litre of water", 0.003, relative=True),
    "attenuation": Better("use the figure on the yeast's data sheet", 0.015, relative=False),
    "tap water temperature": Better("measure the tap water", 1.0, relative=False),
    "freezer temperature": Better("measure the freezer", 1.0, relative=False),
    "steep yield": Better("measure the gravity of the steep once", 0.08, relative=True),
    "stove power": Better("time how long a known volume takes to heat", 0.05, relative=True),
}
_BY_START = {
    "alpha acid of ": Better("use the alpha acid printed for this lot, fresh", 0.04, relative=True),
    "weight of ": Better("weigh the hops to 0.2 g", 0.0002, relative=False),
    "solids of ": Better("use the solids on the data sheet", 0.005, relative=False),
    "colour of ": Better("use the colour on the data sheet", 0.06, relative=True),
    "label bitterness of ": Better("ask the supplier for the lot's figure", 0.06, relative=True),
}


def better_half_width(key: str, doubt: Doubt) -> tuple[str, float]:
    """Return what would make the input surer, and the share of its half width then left.

    ("", 1.0) where nothing would, or it is known as well already.
    """
    better = _BY_KEY.get(key) or next(
        (each for start, each in _BY_START.items() if key.startswith(start)), None
    )
    if better is None:
        return "", 1.0
    size = abs(doubt.value)
    now = doubt.half_width * (size if doubt.relative else 1.0)
    then = better.half_width * (size if better.relative else 1.0)
    return (better.advice, then / now) if then < 0.9 * now else ("", 1.0)
