"""What is asked of packaging, and what is told of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

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
    fermented out. `may_fall` is what the gravity may still fall by, None where nobody knows: then
    it is taken for unfinished. `cautions` are the codes of those that were ticked.
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


@dataclass(frozen=True, slots=True)
class Pressure:
    """Volumes in the fullest bottle of twenty, and its gauge pressure, bar."""

    volumes: float
    at_20_bar: float
    warm_bar: float
    warm_c: float
    comfortable_bar: float
    never_bar: float


@dataclass(frozen=True, slots=True)
class KegSetting:
    """What a regulator is set to, and for how long: at rest, or shaken."""

    temp_c: float
    bar: float
    days: float
    shaken_min: float


@dataclass(frozen=True, slots=True)
class Packaged:
    """What packaging takes and comes to.

    `sugars` are empty where nothing may be added, with `refusal` saying why, the danger and when it
    may. `cautions` are told with their codes; `to_tick` are those that wait for a tick.
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
