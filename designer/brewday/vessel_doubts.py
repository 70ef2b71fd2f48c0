"""What is doubtful about litres read off a vessel, and litres that stay behind in one."""

from __future__ import annotations

from functools import lru_cache
from math import exp, hypot

from designer.brewday.doubts import Doubt, Sure
from designer.recipe.choices import HopForm, IntoFermenter, VolumeMarks
from designer.recipe.document import Fermenter
from designer.recipe.fields import number
from designer.recipe.kind_defaults import (
    PELLET_ABSORPTION_L_PER_KG,
    WHOLE_HOP_ABSORPTION_L_PER_KG,
)
from designer.translation import message

_OF_MARKS: dict[str, tuple[float, float]] = {
    VolumeMarks.PRINTED: (0.04, 0.15),
    VolumeMarks.STICKER: (0.08, 0.15),
    VolumeMarks.OWN: (0.01, 0.10),
}
"""Share of the litres and litres at any height that a mark is off by."""


FERMENTER_MARK = message("fermenter mark")


def off_by_marks(marks: str) -> tuple[float, float]:
    """Return the share of the litres, and the litres at any height, that marks are off by."""
    return _OF_MARKS[marks]


@lru_cache(maxsize=64)
def fermenter_mark(litres: float, marks: str = VolumeMarks.PRINTED) -> Doubt:
    """Return what a fermenter may hold that is filled to its mark of so many litres.

    The mark is off by a share of it, the eye by so much at any height; both are independent and
    asked of the brewer as one.
    """
    of_it, anyway_l = _OF_MARKS[marks]
    share = min(hypot(of_it, anyway_l / litres), 1.0) if litres > 0.0 else 0.0
    return Doubt(
        FERMENTER_MARK,
        litres,
        litres * exp(-share),
        litres,
        litres * exp(share),
        "moulded marks within 4 % and stuck-on scales within 8 % (judgement; home tests found 5 to "
        "10 %, and 2 L in 25); 2 to 3 mm by eye at 24 to 32 cm across are 0.1 to 0.2 L (geometry)",
        Sure.ONE_SOURCE,
    )


def share_off(fermenter: Fermenter) -> tuple[float, float]:
    """Return the share of the litres, and the litres at any height, that its marks are off by.

    Where it is known what they hold, with its ±, that is how far off they still are.
    """
    of_it, anyway_l = off_by_marks(fermenter.marks)
    holds = fermenter.marks_hold
    if holds is not None and holds.spread is not None and holds.value > 0.0:
        of_it = holds.spread / holds.value
    return of_it, anyway_l


def true_litres(fermenter: Fermenter, marked_l: float) -> float:
    """Return what is really in a fermenter that is filled to a mark of so many litres."""
    return marked_l * number(fermenter, "marks_hold")


def marked_litres(fermenter: Fermenter, litres: float) -> float:
    """Return the mark to which so many litres fill a fermenter."""
    return litres / number(fermenter, "marks_hold")


def off_at_mark(fermenter: Fermenter, litres: float) -> float:
    """Return the share that a fermenter is off by that is filled to the mark of so many litres."""
    of_it, anyway_l = share_off(fermenter)
    return min(hypot(of_it, anyway_l / max(litres, 1e-9)), 1.0)


_HELD = message("wort held by hops")
HELD_BY_HOPS: dict[str, Doubt] = {
    HopForm.WHOLE: Doubt(
        _HELD, WHOLE_HOP_ABSORPTION_L_PER_KG, 5.0 * exp(-0.25), 5.0, 5.0 * exp(0.25),
        "4.9 L/kg weighed, hung for 2 min (home record, second-hand)", Sure.ONE_SOURCE,
    ),
    HopForm.PELLETS: Doubt(
        _HELD, PELLET_ABSORPTION_L_PER_KG, 6.0 * exp(-0.45), 6.0, 6.0 * exp(0.45),
        "4 to 6 L/kg alone (from memory), 10 with the trub (home record, second-hand)",
        Sure.ONE_SOURCE,
    ),
}  # fmt: skip
"""Litres that a kilogram of hops holds where the brewer has not measured them."""

LEFT_IN_POT = Doubt(
    message("wort left in the pot"), 0.3, 0.2, 0.4, 1.0,
    "0.5 to 1 L in a 19 L batch, less from a small pot; judgement", Sure.JUDGEMENT,
)  # fmt: skip
LEFT_IN_POT_SCATTER_L = 0.10
"""Litres by which that differs from boil to boil in one pot, half the 5 to 95 % range: the sludge
differs with the hops (judgement)."""
_STRAINED = LEFT_IN_POT._replace(low=0.1, middle=0.2, high=0.4)


def left_in_pot(way: str) -> Doubt:
    """Return what stays in the pot, litres, where nobody said how much, by how it is emptied."""
    return _STRAINED if way == IntoFermenter.STRAINED else LEFT_IN_POT
