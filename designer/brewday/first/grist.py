"""Which fermentables and which yeast, in which shares: for colour, character and where it ends.

What is weighed in is looked at a kilogram at a time: its extract, its colour, how much of it
ferments. Colour and gravity of a beer fix how much colour each kilogram of extract brings, and that
fixes one share: of the roast where there is one, else of the crystal malt. All that may go in is
tried, and what comes nearest to the beer that is wanted, with the shares that its style is used to,
is taken. The day then weighs it out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import product

from designer.brewday.extract_inputs import SIMPLE_FROM
from designer.brewday.first.larder import Aim, Band, Larder, Part, Role
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Yeast
from designer.recipe.fields import number
from designer.recipe.kind_defaults import colour_lovibond, extract_fraction, real_fermentability
from designer.wort.colour import malt_colour_units, morey
from designer.wort.extract import extract_for
from designer.wort.fermentation import REFERENCE_ATTENUATION, alcohol_by_volume, final_gravity

KEPT = 12
"""Grists that are looked at with every yeast and with more and less sugar."""
_NOTICED = {"final_gravity": 0.002, "abv_percent": 0.3, "original_gravity": 0.003}
_ASKED = 3.0
_WEIGHTS = {
    "original_gravity": 1.0,
    "final_gravity": 6.0,
    "abv_percent": 1.0,
    "colour_srm": 1.2,
}
_OUT, _SHARE, _LINE, _SIMPLE_LINE, _NO_BASE = 40.0, 3.0, 0.4, 2.5, 100.0
_NEAR_EDGE = 6.0
LEAST_BASE, EDGE = 0.25, 0.08
WIDE, ROUNDED = 0.02, 0.04
_COLOUR_EXPONENT = 0.6859


@dataclass(frozen=True, slots=True)
class Grist:
    """Parts with their shares of all that is weighed in, the yeast, and what beer they make."""

    shares: tuple[tuple[Part, float], ...]
    yeast: Yeast
    original_gravity: float
    final_gravity: float
    abv_percent: float
    colour_srm: float
    costs: float

    def share_of(self, role: Role) -> float:
        """Return what parts of a role are together of all that is weighed in."""
        return sum(share for part, share in self.shares if part.role is role)


def best_grist(larder: Larder, aim: Aim) -> Grist:
    """Return the grist that comes nearest to what is wanted."""
    usual = larder.yeasts[0][0]
    rough = sorted(
        (_judged(shares, usual, aim, larder) for shares in _candidates(larder, aim)),
        key=lambda each: each.costs,
    )
    best: Grist | None = None
    for grist in rough[:KEPT]:
        for yeast, dearness in larder.yeasts:
            for shares in _sweetened(grist.shares):
                fixed = _coloured(shares, larder, aim, _gravity_of(shares, yeast, aim))
                found = _judged(fixed, yeast, aim, larder, dearness)
                if best is None or found.costs < best.costs:
                    best = found
    assert best is not None  # every larder has a base, and so a grist
    return best


Shares = tuple[tuple[Part, float], ...]


def _candidates(larder: Larder, aim: Aim) -> Iterator[Shares]:
    """Yield shares with a colour as near as each choice of parts comes."""
    gravity = aim.near["original_gravity"]
    choices = product(larder.bases, larder.beside, larder.crystals, larder.roasts, larder.sugars)
    for base, beside, crystals, roasts, sugar in choices:
        for level in (0.0, 0.5, 1.0) if beside is not None else (0.0,):
            shares: list[tuple[Part, float]] = []
            if beside is not None:
                if beside.line.name == base.line.name:
                    continue
                shares.append((beside, _at(beside.share, level)))
            if sugar is not None:
                body = sugar.role is Role.BODY
                shares.append(
                    (sugar, _at(sugar.share, 1.0 - aim.sugar_at if body else aim.sugar_at))
                )
            usual = _at(larder.usual[Role.CRYSTAL], aim.crystal_at)
            shares += _evenly(crystals, usual)
            shares += _evenly(roasts, larder.usual[Role.ROAST][0])
            whole = ((base, 1.0 - sum(share for _, share in shares)), *shares)
            yield _coloured(whole, larder, aim, gravity)


def _evenly(parts: tuple[Part, ...] | None, share: float) -> list[tuple[Part, float]]:
    """Give parts as much of a share each; nothing where they are left out."""
    return [(each, share / len(parts)) for each in parts] if parts else []


def _at(band: Band, level: float) -> float:
    return band[0] + level * (band[1] - band[0])


def _sweetened(shares: Shares) -> Iterator[Shares]:
    """Yield the shares with less and with more of their sugar."""
    sugar = next((each for each, _ in shares if each.role in (Role.SUGAR, Role.BODY)), None)
    if sugar is None:
        yield shares
        return
    for level in (0.0, 0.5, 1.0):
        yield _with_share(shares, sugar, _at(sugar.share, level))


def _with_share(shares: Shares, part: Part, share: float) -> Shares:
    """The same with another share of a part; the base makes up the difference."""
    (base, rest), *others = shares
    changed = [(each, share if each is part else now) for each, now in others]
    return ((base, rest + sum(now for _, now in others) - sum(now for _, now in changed)), *changed)


def _coloured(shares: Shares, larder: Larder, aim: Aim, gravity: float) -> Shares:
    """The shares with as much roast, or else crystal malt, as the colour wants and is usual."""
    mcu = (aim.near["colour_srm"] / float(morey(1.0))) ** (1.0 / _COLOUR_EXPONENT)
    per_extract = mcu / float(malt_colour_units(1.0, 1.0)) / _extract_kg_l(round(gravity, 4))
    for role in (Role.ROAST, Role.CRYSTAL):
        own = [(part, share) for part, share in shares if part.role is role]
        if own:
            shares = _scaled(shares, own, larder.usual[role], per_extract)
    return shares


def _scaled(shares: Shares, own: list[tuple[Part, float]], band: Band, wanted: float) -> Shares:
    """The shares with so much of their own parts together as makes the colour, within a band."""

    def excess(part: Part) -> float:
        return colour_lovibond(part.line) - wanted * extract_fraction(part.line)

    base = shares[0][0]
    now = sum(share for _, share in own)
    names = {id(part) for part, _ in own}
    others = sum(
        share * (excess(part) - excess(base)) for part, share in shares[1:] if id(part) not in names
    )
    each_kg = sum(share / now * (excess(part) - excess(base)) for part, share in own)
    together = -(excess(base) + others) / each_kg if abs(each_kg) > 1e-9 else now
    together = min(max(together, (1.0 + ROUNDED) * band[0]), (1.0 - ROUNDED) * band[1])
    for part, share in own:
        shares = _with_share(shares, part, together * share / now)
    return shares


def _ferments(shares: Shares, yeast: Yeast) -> tuple[float, float]:
    """Return the extract in a kilogram, and the share of it that ferments."""
    scale = number(yeast, "attenuation") / REFERENCE_ATTENUATION
    extract = sum(share * extract_fraction(part.line) for part, share in shares)
    fermented = 0.0
    for part, share in shares:
        ferments = real_fermentability(part.line)
        if not _is_simple_sugar(part, ferments):
            ferments = min(ferments * scale, 1.0)
        fermented += share * extract_fraction(part.line) * ferments
    return extract, fermented / extract


def _is_simple_sugar(part: Part, ferments: float) -> bool:
    return part.line.kind == FermentableKind.SUGAR and ferments >= SIMPLE_FROM


@lru_cache(maxsize=4096)
def _extract_kg_l(gravity: float) -> float:
    return float(extract_for(gravity, 1.0))


@lru_cache(maxsize=4096)
def _abv(gravity: float, final: float) -> float:
    return float(alcohol_by_volume(gravity, final))


def _gravity_of(shares: Shares, yeast: Yeast, aim: Aim) -> float:
    return gravity_wanted(aim, _ferments(shares, yeast)[1])


def gravity_wanted(aim: Aim, ferments: float) -> float:
    """Return the original gravity that gives the strength that is wanted.

    `ferments` is the share of the extract that does.
    """
    if aim.original_gravity is not None:
        return aim.original_gravity
    if aim.abv_percent is not None:
        return _gravity_for(aim.abv_percent, round(ferments, 3))
    return _within_bands(aim, ferments)


@lru_cache(maxsize=4096)
def _gravity_for(abv_percent: float, ferments: float) -> float:
    """Return the gravity that gives so much alcohol; what is asked again and again is kept."""
    gravity = 1.0 + abv_percent / 105.0
    for _ in range(4):
        found = float(alcohol_by_volume(gravity, final_gravity(gravity, ferments)))
        gravity = 1.0 + (gravity - 1.0) * abv_percent / max(found, 1e-6)
    return gravity


def _within_bands(aim: Aim, ferments: float) -> float:
    """Return the gravity nearest to that wanted at which strength and end are in their ranges."""
    low, high = aim.bands.get("original_gravity", (1.0, 2.0))
    if "final_gravity" in aim.bands:
        left = max(float(final_gravity(2.0, ferments)) - 1.0, 1e-6)
        least, most = (1.0 + (each - 1.0) / left for each in aim.bands["final_gravity"])
        low, high = _both((low, high), (least, most))
    if "abv_percent" in aim.bands:
        ends = (_gravity_for(each, round(ferments, 3)) for each in aim.bands["abv_percent"])
        low, high = _both((low, high), (next(ends), next(ends)))
    inset = 0.15 * min(high - low, WIDE)
    return min(max(aim.near["original_gravity"], low + inset), high - inset)


def _both(first: Band, second: Band) -> Band:
    """What lies in both; the first where nothing does, but at its end nearest to the second."""
    low, high = max(first[0], second[0]), min(first[1], second[1])
    if low <= high:
        return low, high
    end = first[1] if second[0] > first[1] else first[0]
    return end, end


def _judged(shares: Shares, yeast: Yeast, aim: Aim, larder: Larder, dearness: float = 0.0) -> Grist:
    gravity = _gravity_of(shares, yeast, aim)
    extract, ferments = _ferments(shares, yeast)
    final = float(final_gravity(gravity, ferments))
    abv = _abv(round(gravity, 4), round(final, 4))
    colour = sum(share * colour_lovibond(part.line) for part, share in shares)
    kg_l = _extract_kg_l(round(gravity, 4)) / extract
    srm = float(morey(malt_colour_units(kg_l * colour, 1.0)))
    figures = {
        "original_gravity": gravity,
        "final_gravity": final,
        "abv_percent": abv,
        "colour_srm": srm,
    }
    costs = dearness + sum(part.dearness for part, _ in shares) + _missed(figures, aim)
    costs += _unusual(shares, larder, aim)
    costs += (_SIMPLE_LINE if aim.is_simple else _LINE) * len(shares)
    return Grist(shares, yeast, gravity, final, abv, srm, costs)


def _missed(figures: dict[str, float], aim: Aim) -> float:
    """What it counts that a beer is not as wanted, and that it is out of its ranges."""
    costs = 0.0
    for key, value in figures.items():
        noticed = _NOTICED.get(key, 0.12 * aim.near["colour_srm"] + 0.5)
        weight = _WEIGHTS[key] * (_ASKED if key in aim.asked else 1.0)
        costs += weight * abs(value - aim.near[key]) / noticed
        if key in aim.bands:
            low, high = aim.bands[key]
            costs += _OUT * max(low - value, value - high, 0.0) / noticed
            near_edge = EDGE - min(value - low, high - value) / (high - low)
            costs += _NEAR_EDGE * min(max(near_edge / EDGE, 0.0), 1.0)
    return costs


def _unusual(shares: Shares, larder: Larder, aim: Aim) -> float:
    """What it counts that there is more or less crystal malt than was to go in."""
    crystal = sum(share for part, share in shares if part.role is Role.CRYSTAL)
    low, high = larder.usual[Role.CRYSTAL]
    usual = _at((low, high), aim.crystal_at)
    off = min(abs(crystal - usual) / max(high - low, 1e-6), 1.0)
    if larder.crystals == (None,):
        off = 0.0
    return _SHARE * off + _NO_BASE * max(LEAST_BASE - shares[0][1], 0.0)
