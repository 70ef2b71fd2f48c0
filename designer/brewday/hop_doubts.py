"""What nobody knows of hops: how much of their alpha acid ends up as bitterness, and of which hop.

Each doubt is of its own: the model's holds what is left when gravity, alpha acid, age, form and
volume are known, that is pH, vigour of the boil, trub and losses to the yeast.
"""

from __future__ import annotations

from designer.brewday.doubts import Doubt, Sure, ratio
from designer.translation import message

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
    message("what pellets give more than whole hops"),
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
    message("what first wort hops give more"),
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
    0.0, 0.0, 0.5, 1.0,
    "from all dissolves to what Hosom's fit to beers says, see `designer.wort.bitterness`; 250 "
    "mg/L: Hough et al., Malting and Brewing Science 2, 1982 (quoted)",
    Sure.JUDGEMENT,
    evenly=True,
)  # fmt: skip
"""Share of what the fit leaves undissolved that really is."""
