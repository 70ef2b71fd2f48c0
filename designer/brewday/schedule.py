"""What goes in where: the recipe's lines sorted by the stage of the day that takes them.

Every line finds a place. Grain always steeps, whatever its line says; extract that is to go in with
the first wort, or for longer than the boil lasts, goes in at its start; hops in the steep count as
first wort hops, and in the fermenter as dry hops.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.extract_inputs import ExtractIn
from designer.brewday.hop_inputs import HopIn
from designer.brewday.inputs import Inputs
from designer.recipe.quantity import Stage


@dataclass(frozen=True, slots=True)
class Schedule:
    """The lines of each stage, in the order of the recipe."""

    grain: tuple[ExtractIn, ...]
    into_steep: tuple[ExtractIn, ...]
    boil_start: tuple[ExtractIn, ...]
    boil_late: tuple[ExtractIn, ...]
    flame_out: tuple[ExtractIn, ...]
    fermenter: tuple[ExtractIn, ...]
    first_wort_hops: tuple[HopIn, ...]
    boil_hops: tuple[HopIn, ...]
    flame_out_hops: tuple[HopIn, ...]
    stand_hops: tuple[HopIn, ...]
    dry_hops: tuple[HopIn, ...]

    @property
    def pot_hops(self) -> tuple[HopIn, ...]:
        """All hops that are in the pot when it is emptied."""
        return self.first_wort_hops + self.boil_hops + self.flame_out_hops + self.stand_hops


def schedule(given: Inputs) -> Schedule:
    """Return the lines by the stage that takes them."""
    grain = tuple(line for line in given.extracts if line.is_grain)
    rest = tuple(line for line in given.extracts if not line.is_grain)

    def extracts(*stages: Stage) -> tuple[ExtractIn, ...]:
        return tuple(line for line in rest if line.when.stage in stages)

    def hops(*stages: Stage) -> tuple[HopIn, ...]:
        return tuple(hop for hop in given.hops if hop.when.stage in stages)

    boiled = extracts(Stage.BOIL)
    late = tuple(line for line in boiled if line.when.minutes < given.boil_min)
    return Schedule(
        grain=grain,
        into_steep=extracts(Stage.STEEP),
        boil_start=extracts(Stage.FIRST_WORT) + tuple(line for line in boiled if line not in late),
        boil_late=late,
        flame_out=extracts(Stage.FLAME_OUT, Stage.STAND),
        fermenter=extracts(Stage.FERMENTER, Stage.DRY_HOP),
        first_wort_hops=hops(Stage.FIRST_WORT, Stage.STEEP),
        boil_hops=hops(Stage.BOIL),
        flame_out_hops=hops(Stage.FLAME_OUT),
        stand_hops=hops(Stage.STAND),
        dry_hops=hops(Stage.DRY_HOP, Stage.FERMENTER),
    )
