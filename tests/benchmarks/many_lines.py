"""A recipe of forty lines, each of its own make: more than a kitchen brews, and the speed's bound.

Eighteen fermentables, eighteen hop additions spread over the day, four extras. Names differ, so
that every line brings doubts of its own.
"""

from designer.recipe.document import (
    Extra,
    Fermentable,
    Fermenter,
    Hop,
    Pot,
    Process,
    Recipe,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.quantity import Quantity, Stage, When

_STEEP = When(Stage.STEEP, "steep")
_FLAME_OUT = When(Stage.FLAME_OUT, "flame-out")


def _q(value, unit):
    return Quantity(float(value), f"{value:g} {unit}")


def _boil(minutes):
    return When(Stage.BOIL, f"boil {minutes} min", float(minutes))


def _stand(minutes, temp_c):
    text = f"stand {minutes} min at {temp_c} °C"
    return When(Stage.STAND, text, float(minutes), float(temp_c))


def _fermentables():
    kinds = ("liquid extract", "dry extract")
    extracts = [
        Fermentable(f"Extract {i}", kinds[i % 2], _q(0.2, "kg"), _boil(left))
        for i, left in enumerate((60, 60, 60, 45, 30, 20, 15, 10))
    ]
    grain = [
        Fermentable(f"Crystal malt {i}", "steeping grain", _q(0.08, "kg"), _STEEP, _q(20 * i, "°L"))
        for i in range(1, 7)
    ]
    sugars = [
        Fermentable(f"Sugar {i}", "sugar", _q(0.1, "kg"), when)
        for i, when in enumerate(
            (_boil(5), _FLAME_OUT, When(Stage.FERMENTER, "fermenter"), _boil(0))
        )
    ]
    return (*extracts, *grain, *sugars)


def _hops():
    whens = (
        When(Stage.FIRST_WORT, "first wort"),
        *map(_boil, (60, 55, 50, 45, 40, 30, 25, 20, 15, 10, 5)),
        _FLAME_OUT,
        _stand(20, 80),
        _stand(10, 80),
        _stand(15, 70),
        When(Stage.DRY_HOP, "dry hop 3 days", days=3.0),
        When(Stage.DRY_HOP, "dry hop 5 days", days=5.0),
    )
    return tuple(
        Hop(
            f"Hop {i}",
            "whole" if i % 3 == 0 else "pellets",
            _q(0.04 + 0.005 * (i % 8), ""),
            _q(0.006, "kg"),
            when,
        )
        for i, when in enumerate(whens)
    )


def forty_lines():
    """The recipe; its pot is too full, so findings and their cures have work to do."""
    return with_line_ids(
        Recipe(
            name="Forty lines",
            pot=Pot(volume=_q(11, "L")),
            fermenter=Fermenter(volume=_q(20, "L")),
            process=Process(
                start_water=_q(9, "L"),
                boil_time=_q(60, "min"),
                evaporation=_q(1.5, "L/h"),
                top_up_to=_q(16, "L"),
                frozen_top_up=_q(2, "kg"),
            ),
            fermentables=_fermentables(),
            hops=_hops(),
            yeast=Yeast("Dry ale yeast", "dry", Quantity(11.0, "11 g", unit="g")),
            extras=tuple(
                Extra(f"Extra {i}", amount=_q(1, "g"), when=_boil(5 * i)) for i in range(1, 5)
            ),
        )
    )
