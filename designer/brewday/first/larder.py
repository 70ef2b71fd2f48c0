"""What a first recipe may be made of, and what it is to become."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from designer.recipe.document import Fermentable, Hop, Yeast

Band = tuple[float, float]
"""The least and the most."""


class Role(StrEnum):
    """What a line is in a recipe for."""

    BASE = "base"
    BESIDE = "beside"
    CRYSTAL = "crystal"
    ROAST = "roast"
    SUGAR = "sugar"
    BODY = "body"
    BITTERING = "bittering"
    LATE = "late"
    DRY = "dry"


@dataclass(frozen=True, slots=True)
class Part:
    """A fermentable that may go in, with its figures; its amount is not looked at.

    `share` is what it may be of all that is weighed in, where it has a share of its own. `dearness`
    is added to what a recipe with it counts for: less than 0 for what is wanted or in hand.
    """

    line: Fermentable
    role: Role
    share: Band = (0.0, 1.0)
    dearness: float = 0.0


@dataclass(frozen=True, slots=True)
class Larder:
    """What there is to choose from; None stands for leaving it out.

    `usual` are the least and the most that parts of a role are of all that is weighed in.
    """

    bases: tuple[Part, ...]
    beside: tuple[Part | None, ...]
    crystals: tuple[tuple[Part, ...] | None, ...]
    roasts: tuple[tuple[Part, ...] | None, ...]
    sugars: tuple[Part | None, ...]
    yeasts: tuple[tuple[Yeast, float], ...]
    bittering: tuple[tuple[Hop, float], ...]
    late: tuple[Hop, ...]
    usual: dict[Role, Band]
    late_g_l: float
    dry_g_l: float


@dataclass(frozen=True, slots=True)
class Aim:
    """What the beer is to be.

    `original_gravity` or `abv_percent` hold where they were asked for, else None; `near` are the
    figures to come near to, by forecast, to those that were `asked` for nearest. `bands` are the
    ranges to be in, by forecast. `crystal_at` and `sugar_at` say how much of what may go in does,
    0 to 1; `late_times` how many times the usual late hops.
    """

    near: dict[str, float]
    bands: dict[str, Band] = field(default_factory=dict)
    original_gravity: float | None = None
    abv_percent: float | None = None
    asked: frozenset[str] = frozenset()
    crystal_at: float = 0.5
    sugar_at: float = 0.5
    late_times: float = 1.0
    dry_hopped: bool = False
    is_simple: bool = False
