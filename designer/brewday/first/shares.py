"""Shares of what is weighed in: what may go in together, and how much of it makes the colour.

Colour and gravity of a beer fix how much colour each kilogram of extract brings, and that fixes one
share: of the roast where there is one, else of the crystal malt. The base makes up the rest.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from designer.brewday.extract_inputs import SIMPLE_FROM
from designer.brewday.first.larder import Aim, Band, Larder, Part, Role
from designer.brewday.first.strength import extract_kg_l
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Yeast
from designer.recipe.fields import number
from designer.recipe.kind_defaults import colour_lovibond, extract_fraction, real_fermentability
from designer.wort.colour import colour_units_for, malt_colour_units
from designer.wort.fermentation import REFERENCE_ATTENUATION

Shares = tuple[tuple[Part, float], ...]
"""Parts and what they are of all that is weighed in, the base first."""

ROUNDED = 0.04
"""So far from the ends of what is usual shares are sought, for weighing rounds them."""
LEVELS = (0.0, 0.5, 1.0)
_NOTHING = 1e-9


def candidates(larder: Larder, aim: Aim) -> Iterator[Shares]:
    """Yield all that may go in together, with a colour as near as it comes."""
    choices = product(larder.bases, larder.beside, larder.crystals, larder.roasts, larder.sugars)
    for base, beside, crystals, roasts, sugar in choices:
        if beside is not None and beside.line.name == base.line.name:
            continue
        for level in LEVELS if beside is not None else LEVELS[:1]:
            others: list[tuple[Part, float]] = []
            if beside is not None:
                others.append((beside, at(beside.share, level)))
            if sugar is not None:
                others.append((sugar, at(sugar.share, _sugar_level(sugar, aim))))
            others += _evenly(crystals, at(larder.usual[Role.CRYSTAL], aim.crystal_at))
            others += _evenly(roasts, larder.usual[Role.ROAST][0])
            shares = ((base, 1.0 - sum(share for _, share in others)), *others)
            yield coloured(shares, larder, aim, aim.near["original_gravity"])


def _sugar_level(sugar: Part, aim: Aim) -> float:
    """What dries a beer goes in where it is to be dry, what rounds it where it is to be round."""
    return 1.0 - aim.sugar_at if sugar.role is Role.BODY else aim.sugar_at


def _evenly(parts: tuple[Part, ...] | None, share: float) -> list[tuple[Part, float]]:
    """Give parts as much of a share each; nothing where they are left out."""
    return [(each, share / len(parts)) for each in parts] if parts else []


def at(band: Band, level: float) -> float:
    """Return what lies so far up a band, from 0 to 1."""
    return band[0] + level * (band[1] - band[0])


def sweetened(shares: Shares) -> Iterator[Shares]:
    """Yield the shares with less and with more of their sugar."""
    sugar = next((each for each, _ in shares if each.role in (Role.SUGAR, Role.BODY)), None)
    if sugar is None:
        yield shares
        return
    for level in LEVELS:
        yield _with_share(shares, sugar, at(sugar.share, level))


def _with_share(shares: Shares, part: Part, share: float) -> Shares:
    """The same with another share of a part; the base makes up the difference."""
    (base, rest), *others = shares
    changed = [(each, share if each is part else now) for each, now in others]
    return ((base, rest + sum(now for _, now in others) - sum(now for _, now in changed)), *changed)


def coloured(shares: Shares, larder: Larder, aim: Aim, gravity: float) -> Shares:
    """Return the shares with as much roast and crystal malt as the colour wants and is usual."""
    mcu = float(colour_units_for(aim.near["colour_srm"]))
    a_kg = mcu / float(malt_colour_units(1.0, 1.0)) / extract_kg_l(round(gravity, 4))
    for role in (Role.ROAST, Role.CRYSTAL):
        own = [(part, share) for part, share in shares if part.role is role]
        if own:
            shares = _scaled(shares, own, larder.usual[role], a_kg)
    return shares


def _scaled(shares: Shares, own: list[tuple[Part, float]], band: Band, a_kg: float) -> Shares:
    """The shares with so much of their own parts together as makes the colour, within a band.

    `a_kg` is the colour, °L, that a kilogram of extract is to bring.
    """

    def excess(part: Part) -> float:
        return colour_lovibond(part.line) - a_kg * extract_fraction(part.line)

    base = excess(shares[0][0])
    now = sum(share for _, share in own)
    names = {id(part) for part, _ in own}
    others = sum(
        share * (excess(part) - base) for part, share in shares[1:] if id(part) not in names
    )
    each_kg = sum(share / now * (excess(part) - base) for part, share in own)
    together = -(base + others) / each_kg if abs(each_kg) > _NOTHING else now
    together = min(max(together, (1.0 + ROUNDED) * band[0]), (1.0 - ROUNDED) * band[1])
    for part, share in own:
        shares = _with_share(shares, part, together * share / now)
    return shares


def fermenting(shares: Shares, yeast: Yeast) -> tuple[float, float]:
    """Return the extract in a kilogram, and the share of it that a yeast ferments."""
    scale = number(yeast, "attenuation") / REFERENCE_ATTENUATION
    extract = fermented = 0.0
    for part, share in shares:
        own = share * extract_fraction(part.line)
        ferments = real_fermentability(part.line)
        simple = part.line.kind == FermentableKind.SUGAR and ferments >= SIMPLE_FROM
        extract += own
        fermented += own * (ferments if simple else min(ferments * scale, 1.0))
    return extract, fermented / extract
