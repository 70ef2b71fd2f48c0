"""What is asked before a first recipe, and what comes of it: answers, readings, drafts."""

from __future__ import annotations

from dataclasses import dataclass, field

from designer.brewday.results import Outlook
from designer.brewday.stock import Stock
from designer.library.catalogue import StyleEntry
from designer.library.packs import PackSize
from designer.recipe.document import Recipe
from designer.recipe.message import Message
from designer.recipe.quantity import Quantity
from designer.units import ShownUnits


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What is wanted and what there is to brew with; all but pot and fermenter may be left out.

    `words` are a style's name or plain words. Of original gravity and alcohol one is enough.
    `flavours` are keys of `flavours()`. `in_hand` is what lies in the cupboard, where it is to be
    used up. `packs` are the sizes a shop sells, () for those that go with the `units` in which
    amounts are weighed. `kitchen` is a recipe of which pot, fermenter and process tell what else is
    known of the vessels: the stove, what evaporates.
    """

    words: str = ""
    original_gravity: float | None = None
    abv_percent: float | None = None
    bitterness_ibu: float | None = None
    colour_srm: float | None = None
    flavours: tuple[str, ...] = ()
    pot: Quantity
    fermenter: Quantity
    batch: Quantity | None = None
    in_hand: tuple[Stock, ...] = ()
    is_simple: bool = False
    whole_packs: bool = False
    units: ShownUnits = ShownUnits.METRIC
    packs: tuple[PackSize, ...] = ()
    kitchen: Recipe = field(default_factory=Recipe)


@dataclass(frozen=True, slots=True)
class Reading:
    """What was understood of plain words.

    `said` tells it: "read as: Best Bitter, drier than usual"; `unread` are the words that say
    nothing to the program, in their order.
    """

    style: StyleEntry | None
    family: str
    said: Message
    unread: str = ""


@dataclass(frozen=True, slots=True)
class Flavour:
    """Something that a beer may taste of: a key for it that lasts, and its word."""

    key: str
    label: str


@dataclass(frozen=True, slots=True)
class Wished:
    """What a recipe is aimed at once the answers that were left out are filled in.

    `strength` is the figure of strength that was not typed, "OG near 1.042"; `bitterness` is the
    bitterness with its word of balance, "balanced, 25 IBU". `ibu_ends` and `srm_ends` are the least
    and the most that a slider need reach: those of the style, or of beer in general.
    """

    original_gravity: float
    final_gravity: float
    abv_percent: float
    bitterness_ibu: float
    colour_srm: float
    batch_l: float
    strength: Message
    bitterness: Message
    ibu_ends: tuple[float, float]
    srm_ends: tuple[float, float]


@dataclass(frozen=True, slots=True)
class LineReason:
    """Why a line is in a recipe, and what of it lies in the cupboard.

    `lines` is the list it is in, "fermentables" or "hops", or "yeast"; `line_id` is 0 for yeast.
    """

    lines: str
    line_id: int
    why: Message
    in_hand: Message | None = None


@dataclass(frozen=True, slots=True)
class Draft:
    """One recipe to choose from.

    `key` is "drier", "rounder", "hoppier" or "study". `gave_way` says what could not be met and
    why, `to_buy` how many things the cupboard lacks.
    """

    key: str
    name: Message
    about: Message
    recipe: Recipe
    outlook: Outlook
    reasons: tuple[LineReason, ...]
    gave_way: tuple[Message, ...]
    to_buy: int
