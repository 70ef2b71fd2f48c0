"""What is asked of packaging, and what is told of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import ceil

from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.message import Message


@dataclass(frozen=True, slots=True)
class BottleSize:
    """So many bottles of a size and kind."""

    litres: float
    count: int
    kind: Bottle = Bottle.UNKNOWN


@dataclass(frozen=True, slots=True)
class Packing:
    """How a beer is to be packaged: the brewer's choices.

    `beer_l` is what is really there, `volumes` the CO2 wanted, `warmest_c` the warmest since it
    fermented out. `may_fall` is the most that the gravity may still fall by (0.002 is two points),
    at the upper end of what readings tell; None where nobody knows: then it is taken for
    unfinished, as it is until somebody says that it is `done`. `cautions` are the codes of those
    that were ticked.
    """

    beer_l: float
    volumes: float
    warmest_c: float
    may_fall: float | None
    package: Package = Package.BOTTLES
    sugar: PrimingSugar = PrimingSugar.TABLE_SUGAR
    bottles: tuple[BottleSize, ...] = ()
    keg_c: float = 6.0
    fermentability: float | None = None
    """Real fermentability of priming extract with this yeast; None for the usual."""
    cautions: frozenset[str] = frozenset()
    done: bool = False
    """Whether it has fermented out: readings days apart agree, and the brewer or they say so."""
    condition_c: float = 20.0
    """How warm bottles stand until they are ready, °C."""
    chosen: frozenset[str] = frozenset()
    """Names of the figures that the brewer chose; the others follow the beer as it is known."""
    label: tuple[tuple[str, str], ...] = ()
    """Words of the label that the brewer typed in place of ours, by what they are."""
    fermenter: int = 1
    """Whose beer it is, of a plan with several."""


class Bears(StrEnum):
    """Whether the bottles bear it."""

    AT_EASE = "at ease"
    CAUTION = "caution"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class SugarWanted:
    """Grams of a priming sugar; of what is refused there is none of these at all."""

    sugar: PrimingSugar
    grams: float
    grams_a_litre: float


def to_the_tenth_above(value: float) -> float:
    """Return what a bottle may come to (bar, volumes) as it is told, so that it is never told less.

    Beside a limit that it just exceeds, what is told exceeds it too.
    """
    return ceil(10.0 * value - 1e-6) / 10.0


@dataclass(frozen=True, slots=True)
class Pressure:
    """Volumes in the fullest bottle of twenty, and its gauge pressure, bar.

    It counts what may still ferment. `comfortable_volumes` and `never_volumes` are what such a
    bottle holds at the limits of its `kind`, the weakest of those that are filled; 0 where it bears
    no pressure.
    """

    volumes: float
    at_20_bar: float
    warm_bar: float
    warm_c: float
    comfortable_bar: float
    never_bar: float
    comfortable_volumes: float = 0.0
    never_volumes: float = 0.0
    kind: Bottle = Bottle.UNKNOWN


@dataclass(frozen=True, slots=True)
class KegSetting:
    """What a regulator is set to, gauge, and for how long: at rest, or shaken.

    At 0 bar the beer holds enough already: only enough is set to pour it.
    """

    temp_c: float
    bar: float
    days: float
    shaken_min: float
    fewest_days: float = 7.0


class Refused(StrEnum):
    """Why a beer is not packaged so."""

    NOT_READ = "not read"
    UNFINISHED = "unfinished"
    PRESSURE = "pressure"
    NOT_FOR_PRESSURE = "not for pressure"
    WARM_KEG = "warm keg"
    NO_FIGURE = "no figure"


@dataclass(frozen=True, slots=True)
class Packaged:
    """What packaging takes and comes to.

    `sugars` are empty where nothing may be added, with `refusal` saying why, the danger and when it
    may, and `refused_for` its kind. `cautions` are told with their codes; `to_tick` are those that
    wait for a tick. `keg` begins with the temperature that was asked for; others follow, the cold
    first. `aimed_volumes` is what the batch comes to, `unfinished_volumes` what may come on top,
    None where nobody knows. `empty_bottles` are more than the beer fills, the smallest last.
    """

    bears: Bears
    residual_volumes: float
    pressure: Pressure | None
    sugars: tuple[SugarWanted, ...]
    refusal: Message | None
    cautions: tuple[tuple[str, Message], ...]
    to_tick: frozenset[str]
    filled_l: float
    left_over_l: float
    caps: int
    keg: tuple[KegSetting, ...] = ()
    dates: tuple[tuple[date, Message], ...] = ()
    aimed_volumes: float = 0.0
    unfinished_volumes: float | None = None
    refused_for: Refused | None = None
    empty_bottles: int = 0

    @property
    def may_go_ahead(self) -> bool:
        """Whether it may be packaged now: nothing refuses it, and all that has to be is ticked."""
        return self.bears is not Bears.REFUSED and not self.to_tick

    @property
    def strains(self) -> bool:
        """Whether the bottles are under more pressure than they are at ease with."""
        return self.pressure is not None and not (
            self.pressure.warm_bar <= self.pressure.comfortable_bar
        )

    def sugar(self, wanted: PrimingSugar) -> SugarWanted | None:
        """Return how much of a sugar it takes; None where none is told."""
        return next((each for each in self.sugars if each.sugar == wanted), None)
