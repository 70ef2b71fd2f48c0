"""How what is left over is kept, kind by kind, and for how long."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from designer.recipe.choices import FermentableKind
from designer.recipe.message import Message, say

PRACTICE = "common practice, no source"
WEEK_DAYS, YEAR_DAYS = 7, 365


@dataclass(frozen=True, slots=True)
class Keeping:
    """How to keep a kind of ingredient, in a word or two and in a sentence.

    `days` are how long it then keeps, None for as long as one likes or as its label says.
    """

    briefly: Message
    how: Message
    days: int | None
    source: str


_LIQUID = Keeping(
    say("kept-liquid", "cold, covered: 3 weeks"),
    say(
        "keep-liquid",
        "Cold and covered, in its tin or a clean jar: opened it darkens and grows mould on top; "
        "use it within three weeks.",
    ),
    3 * WEEK_DAYS,
    PRACTICE,
)
_DRY = Keeping(
    say("kept-dry", "airtight, dry: a year"),
    say("keep-dry", "Airtight and dry: it draws water from the air and sets like stone."),
    YEAR_DAYS,
    PRACTICE,
)
_SUGAR = Keeping(
    say("kept-sugar", "closed, dry: for long"),
    say(
        "keep-sugar",
        "Closed and dry; a syrup in its own closed tin or jar, not in the cold: it keeps.",
    ),
    None,
    PRACTICE,
)
_GRAIN = Keeping(
    say("kept-grain", "airtight, cool: 4 weeks"),
    say(
        "keep-grain",
        "Dry, cool and airtight; crushed grain goes stale: use it within four weeks.",
    ),
    4 * WEEK_DAYS,
    PRACTICE,
)
HOPS, YEAST, EXTRAS = "hops", "yeast", "extras"
"""The kinds of what is no fermentable; those of fermentables are their own."""
KEEPING: Mapping[str, Keeping] = {
    FermentableKind.LIQUID_EXTRACT: _LIQUID,
    FermentableKind.HOPPED_KIT: _LIQUID,
    FermentableKind.DRY_EXTRACT: _DRY,
    FermentableKind.SUGAR: _SUGAR,
    FermentableKind.STEEPING_GRAIN: _GRAIN,
    FermentableKind.MASH_GRAIN: _GRAIN,
    HOPS: Keeping(
        say("kept-hops", "freezer, airtight: a year"),
        say("keep-hops", "Freeze it, airtight: warm and in air the alpha acid fades."),
        YEAR_DAYS,
        "some 6 % of the alpha acid is lost in a year in a freezer, in a bag without air: Garetz, "
        "BrewingTechniques 2(1) (1994)",
    ),
    YEAST: Keeping(
        say("kept-yeast", "closed, cold: to its date"),
        say("keep-yeast", "Closed, in the cold, up to the date on the packet."),
        None,
        PRACTICE,
    ),
    EXTRAS: Keeping(
        say("kept-extra", "closed, dry: as its label says"),
        say("keep-extra", "Dry and closed, as its label says."),
        None,
        PRACTICE,
    ),
}
"""By the kind of ingredient."""
