"""What nobody knows of hops: how much of their alpha acid ends up as bitterness, and of which hop.

Each doubt is of its own: the model's holds what is left when gravity, alpha acid, age, form and
volume are known, that is pH, vigour of the boil, trub and losses to the yeast.
"""

from __future__ import annotations

from functools import cache
from math import log

from designer.brewday.doubts import Doubt, Sure, ratio
from designer.brewday.tolerances import ALPHA_ACID
from designer.recipe.choices import HopKeeping
from designer.recipe.kind_defaults import DEFAULT_ALPHA
from designer.recipe.quantity import Quantity
from designer.translation import message
from designer.wort.hop_age import BARRIER, OPEN, SEALED, ageing_per_day, alpha_kept, bitterness_kept

GRAVITY_EFFECT = Doubt(
    message("effect of gravity on hops"),
    1.0, 0.0, 0.5, 1.0,
    "published effect 1: Tinseth, web page, 1995 to 1997; about 0.5: Rager, Garetz; 0.15: 66 IBU "
    "from a full boil at 1.068, 61 from one at 1.127 that was thinned (magazine's laboratory test, "
    "second-hand); none: Malowicki, thesis, Oregon State University, 2004, abstract; Jacobsen et "
    "al., J. ASBC 47 (1989) 62, abstract",
    Sure.ONE_SOURCE,
    evenly=True,
)  # fmt: skip
"""Share of the published effect of gravity about 1.050: that both ends are too extreme is fairly
sure, what lies between is judgement."""

BITTERNESS_MODEL = ratio(
    message("bitterness model"),
    0.25,
    "Daniels, Garetz and Rager at 60 min are 0.81 to 1.34 of Tinseth; 30 to 75 % between "
    "breweries, mainly by their equipment: Jacobsen et al., J. ASBC 47 (1989) 62, abstract; 29 % "
    "in beer against 23: Justus, MBAA Technical Quarterly 55(3) (2018) 67, abstract",
    Sure.ONE_SOURCE,
)

PELLETS = Doubt(
    message("how much more pellets give than whole hops"),
    1.10, 1.00, 1.10, 1.25,
    "1.00 to 1.25, common practice; Daniels, Designing Great Beers, tables: 1.2 to 1.27; Hosom, "
    "articles on pellets, abstract: more bitterness, but no faster isomerisation",
    Sure.JUDGEMENT,
    least=1.0,
)  # fmt: skip

BELOW_THE_BOIL = Doubt(
    message("what hops give below the boil"),
    1.0, 0.85, 1.2, 1.8,
    "between Malowicki & Shellhammer, J. Agric. Food Chem. 53 (2005) 4434, measured down to 90 °C, "
    "and Hosom's fit to measured beers, 1.18 of it at 90 and 1.39 at 80 °C; measured more than "
    "either: 30 % in a whirlpool against 44 % for an hour's boil, Justus 2018, abstract",
    Sure.JUDGEMENT,
)  # fmt: skip
"""How much faster than published the clock of isomerisation runs once the heat is off."""

FIRST_WORT = Doubt(
    message("how much more first wort hops give"),
    1.10, 1.00, 1.05, 1.15,
    "about 1.10: Preis & Mitter, Brauwelt International, 1995, from memory; Kappler, ASBC meeting "
    "2011, abstract O-41, confirms that there is an effect",
    Sure.JUDGEMENT,
    least=1.0,
    most=1.2,
)  # fmt: skip
"""Of what the same hops give that go in at the start of the boil."""

UNDISSOLVED = Doubt(
    message("hops that do not dissolve"),
    0.0, 0.0, 0.35, 1.0,
    "from all dissolves to what Hosom's fit to beers says, see `designer.wort.bitterness`; 250 "
    "mg/L: Hough et al., Malting and Brewing Science 2, 1982 (quoted); most did in a boil with "
    "some 500 mg/L, which after thinning gave 61 IBU against 66 from a full one (magazine's "
    "laboratory test, second-hand)",
    Sure.JUDGEMENT,
    least=0.0,
    most=1.0,
)  # fmt: skip
"""Share of what the fit leaves undissolved that really is."""

UNKNOWN_ALPHA = Doubt(
    ALPHA_ACID, DEFAULT_ALPHA, 0.03, 0.06, 0.13, "a hop of which nothing is known", Sure.JUDGEMENT
)

AGED = 0.9
"""Share of a variety's lowest alpha acid that a poor, old packet may have; judgement."""


def usual_alpha(quantity: Quantity, ends: tuple[float, float], *, age_known: bool) -> Doubt:
    """Return the doubt of a figure that stands for a variety, with its range behind it.

    Highest over lowest crop of one variety in ten years is 29 to 46 % (trade table, quoted).
    """
    low, high = ends
    return Doubt(
        ALPHA_ACID,
        quantity.value,
        low if age_known else AGED * low,
        quantity.value,
        high,
        "range of the variety, see its row in the catalogue",
        Sure.ONE_SOURCE,
    )


_KEEPING: dict[str, tuple[float, float, float]] = {
    HopKeeping.FREEZER: (-18.0, BARRIER, 0.04),
    HopKeeping.REFRIGERATOR: (5.0, BARRIER, 0.08),
    HopKeeping.CUPBOARD: (20.0, SEALED, 0.20),
    HopKeeping.OPENED: (20.0, OPEN, 0.20),
    HopKeeping.NOT_KNOWN: (5.0, BARRIER, 0.08),
}
"""Temperature, packing, and how far a packet of unknown age has aged on average: its share of alpha
acid kept is e to minus that; judgement."""

AGEING = ratio(
    message("how fast hops age"),
    0.75,
    "15 to 50 % in half a year by variety, 0.16 to 0.69 where the usual is 0.36 (descriptions of "
    "varieties); 168 days at 4 and 25 °C, 14.5 to 23.4 % whatever the storage: Purdue University, "
    "thesis on pellets, 2020, abstract",
    Sure.ONE_SOURCE,
)


@cache
def ageing_rate(keeping: str) -> float:
    """Return how fast hops age that are kept so, per day."""
    temp_c, packing, _ = _KEEPING[keeping]
    return ageing_per_day(temp_c, packing)


@cache
def unknown_age(keeping: str) -> Doubt:
    """Return the doubt of the bitterness that a packet of unknown age has kept, 1 if all.

    How far it has aged falls off exponentially; most packets in a shop are of this year or last.
    """
    mean = _KEEPING[keeping][2]
    low, middle, high = (
        float(bitterness_kept(alpha_kept(-mean * log(q)))) for q in (0.05, 0.5, 0.95)
    )
    return Doubt(
        message("age of the hops"),
        1.0, low, middle, high,
        "Garetz, BrewingTechniques 2(1) (1994), see `designer.wort.hop_age`; how old packets are "
        "is judgement",
        Sure.JUDGEMENT,
        most=1.0,
    )  # fmt: skip
