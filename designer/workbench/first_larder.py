"""What a first recipe is chosen from: the row of its style, its flavours, and the cupboard."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

from designer.brewday.first.larder import Larder, Part, Role
from designer.brewday.stock import Stock
from designer.library import catalogue
from designer.library.flavours import FlavourEntry, flavour_entries
from designer.library.style_grists import Portion, StyleGrist
from designer.recipe.document import Fermentable, Hop, Yeast
from designer.recipe.kind_defaults import real_fermentability
from designer.recipe.quantity import Quantity
from designer.recipe.same_name import name_key

A_PLACE, A_GRAIN, IN_HAND, FLAVOUR = 0.5, 0.25, -2.5, -5.0
"""What it counts to come later in a row of the data (of grain), in hand, for a flavour."""
NEEDLESS_ROAST, ONLY_BODY = 1.0, 1.0
"""What roast counts for in a style that does without, and what is there for body alone."""
ROAST_FROM_LOVIBOND, FERMENTS_NOT = 200.0, 0.1
BREADY = (0.10, 0.25)
"""Share of an extract that is put in for its flavour alone; judgement."""
FEWEST_HOPS_G_L, MOST_HOPS_G_L = 0.5, 3.0
"""Bittering hops for a litre that can be weighed well, and that are not dear; judgement."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What makes one choice better than another: flavours, and what lies in the cupboard."""

    flavours: tuple[FlavourEntry, ...]
    in_hand: tuple[Stock, ...]

    def dearness(self, name: str, place: int = 0, each_place: float = A_PLACE) -> float:
        """Return what a choice counts for, at its place in a row."""
        found = each_place * place
        if stock_of(self.in_hand, name) is not None:
            found += IN_HAND
        for each in self.flavours:
            if name in (*each.extract, *each.grain, *each.hops, *each.sugar):
                found += FLAVOUR
        return found


def stock_of(in_hand: tuple[Stock, ...], name: str) -> Stock | None:
    """Return what of a name lies in the cupboard, None for nothing."""
    key = name_key(name)
    return next((each for each in in_hand if name_key(each.name) == key and each.amount > 0), None)


def flavours_of(keys: tuple[str, ...]) -> tuple[FlavourEntry, ...]:
    """Return the flavours of these keys; of those that there are."""
    known = {each.key: each for each in flavour_entries()}
    return tuple(known[key] for key in keys if key in known)


@cache
def fermentable(name: str) -> Fermentable:
    """Return a line with the figures of the catalogue; KeyError for a name it does not have."""
    entry = catalogue.find_fermentable(name)
    if entry is None:
        raise KeyError(name)
    return catalogue.new_fermentable(entry)


@cache
def hop(name: str) -> Hop:
    """Return a hop with the alpha acid of the catalogue; KeyError for a name it does not have."""
    entry = catalogue.find_hop(name)
    if entry is None:
        raise KeyError(name)
    return catalogue.new_hop(entry)


@cache
def yeast(name: str, form: str) -> Yeast:
    """Return a yeast with the figures of the catalogue; KeyError for a name it does not have."""
    entry = catalogue.find_yeast(name, form)
    if entry is None:
        raise KeyError(name)
    return catalogue.new_yeast(entry)


def other_form(name: str) -> str:
    """Return what an extract is called in its other form, dry or liquid."""
    return name.replace(" dry ", " liquid ") if " dry " in name else name.replace("liquid", "dry")


def larder_of(grist: StyleGrist, wishes: Wishes) -> Larder:
    """Return what a beer of a style is chosen from."""
    family = grist.family
    return Larder(
        bases=tuple(_bases(grist, wishes)),
        beside=(*_portions(grist.beside, Role.BESIDE, wishes), *_bready(grist, wishes)),
        crystals=tuple(_grains(grist.crystal, Role.CRYSTAL, wishes)),
        roasts=tuple(_roasts(grist, wishes)),
        sugars=_portions(grist.sugar, Role.SUGAR, wishes),
        yeasts=tuple(
            (yeast(*each), wishes.dearness(each[0], place))
            for place, each in enumerate(grist.yeast)
        ),
        bittering=tuple(
            (in_hand_alpha(hop(name), wishes), wishes.dearness(name, 2 * place))
            for place, name in enumerate(dict.fromkeys((*grist.bittering, *grist.late)))
        ),
        late=_late(grist, wishes),
        usual={
            Role.CRYSTAL: family.crystal,
            Role.ROAST: family.roast,
            Role.SUGAR: (0.0, family.sugar_most),
            Role.BODY: (0.0, _most_body(grist)),
        },
        late_g_l=family.late_hops_g_l,
        dry_g_l=family.dry_hops_g_l,
    )


def in_hand_alpha(line: Hop, wishes: Wishes) -> Hop:
    """Return the hop with the alpha acid of the bag in the cupboard, where it says one."""
    stock = stock_of(wishes.in_hand, line.name)
    if stock is None or stock.alpha is None:
        return line
    return replace(line, alpha=Quantity(stock.alpha, f"{100.0 * stock.alpha:.3g} %"))


def _bases(grist: StyleGrist, wishes: Wishes) -> Iterator[Part]:
    for place, name in enumerate(grist.base):
        yield Part(fermentable(name), Role.BASE, dearness=wishes.dearness(name, place))
        liquid = other_form(name)
        if stock_of(wishes.in_hand, liquid) is not None:
            yield Part(fermentable(liquid), Role.BASE, dearness=wishes.dearness(liquid, place))


def _portions(
    portions: tuple[Portion | None, ...], role: Role, wishes: Wishes
) -> tuple[Part | None, ...]:
    return tuple(
        None if each is None else _portion(each, _role(each, role), wishes, place)
        for place, each in enumerate(portions)
    )


def _portion(portion: Portion, role: Role, wishes: Wishes, place: int) -> Part:
    dearness = wishes.dearness(portion.name, place) + (ONLY_BODY if role is Role.BODY else 0.0)
    return Part(fermentable(portion.name), role, portion.share, dearness)


def _role(portion: Portion, role: Role) -> Role:
    """What no yeast ferments goes in for body and not for strength."""
    ferments = real_fermentability(fermentable(portion.name))
    return Role.BODY if role is Role.SUGAR and ferments < FERMENTS_NOT else role


def _most_body(grist: StyleGrist) -> float:
    """The most of what no yeast ferments: what its family takes, or its own row has."""
    own = (each for each in grist.sugar if each is not None)
    most = (each.share[1] for each in own if _role(each, Role.SUGAR) is Role.BODY)
    return max((grist.family.dextrin_most, *most))


def _bready(grist: StyleGrist, wishes: Wishes) -> Iterator[Part]:
    """Extracts that a flavour asks for and that the style has not, some of the first of each."""
    known = {*grist.base, *(each.name for each in grist.beside if each is not None)}
    for flavour in wishes.flavours:
        if flavour.extract and known.isdisjoint(flavour.extract):
            name = flavour.extract[0]
            yield Part(fermentable(name), Role.BESIDE, BREADY, wishes.dearness(name))


def _wanted_grain(wishes: Wishes, *, roasted: bool) -> list[str]:
    """The first grain of each flavour that is roasted, or not."""
    found = []
    for flavour in wishes.flavours:
        own = [name for name in flavour.grain if _is_roasted(name) is roasted]
        found += own[:1]
    return found


def _is_roasted(name: str) -> bool:
    colour = fermentable(name).colour
    return colour is not None and colour.value >= ROAST_FROM_LOVIBOND


def _grains(
    names: tuple[str | None, ...], role: Role, wishes: Wishes
) -> Iterator[tuple[Part, ...] | None]:
    def part(name: str, place: int = 0) -> Part:
        return Part(fermentable(name), role, dearness=wishes.dearness(name, place, A_GRAIN))

    if any(each is not None for each in names):
        more = [each for each in _wanted_grain(wishes, roasted=False) if each not in names]
        names = (*names, *more)
        for one, other in pairwise(_of_each_flavour(names, wishes)):
            yield part(one), part(other)
    for place, name in enumerate(names):
        yield None if name is None else (part(name, place),)


def _of_each_flavour(names: tuple[str | None, ...], wishes: Wishes) -> tuple[str, ...]:
    """The first of the names for each flavour that one of them brings."""
    known = [name for name in names if name is not None]
    first = (next((each for each in known if each in of.grain), None) for of in wishes.flavours)
    return tuple(dict.fromkeys(each for each in first if each is not None))


def _roasts(grist: StyleGrist, wishes: Wishes) -> Iterator[tuple[Part, ...] | None]:
    if grist.family.roast[1] <= 0.0 or grist.crystal == (None,):
        yield None
        return
    choices = list(grist.roast)
    is_needless = None in choices
    known = {name for each in choices for name in each or ()}
    choices += [(name,) for name in _wanted_grain(wishes, roasted=True) if name not in known]
    for place, names in enumerate(choices):
        if names is None:
            yield None
        else:
            yield tuple(
                Part(
                    fermentable(name),
                    Role.ROAST,
                    dearness=(NEEDLESS_ROAST * is_needless + wishes.dearness(name, place))
                    / len(names),
                )
                for name in names
            )


def _late(grist: StyleGrist, wishes: Wishes) -> tuple[Hop, ...]:
    """The hop for late on; of each flavour of hops one, that of the style first."""
    own = dict.fromkeys((*grist.late, *grist.bittering))
    found: list[str] = []
    for flavour in wishes.flavours:
        if flavour.hops:
            fitting = [name for name in own if name in flavour.hops]
            found.append(
                min(fitting or flavour.hops, key=lambda name: wishes.dearness(name))
                if fitting
                else _kin(flavour, own)
            )
    if not found:
        order = list(enumerate(grist.late))
        found = [min(order, key=lambda each: wishes.dearness(each[1], 2 * each[0]))[1]]
    return tuple(in_hand_alpha(hop(name), wishes) for name in dict.fromkeys(found[:2]))


def _kin(flavour: FlavourEntry, own: dict[str, None]) -> str:
    """The first hop of a flavour that is grown where those of the style are."""
    origins = {entry.origin for name in own if (entry := catalogue.find_hop(name)) is not None}
    for name in flavour.hops:
        entry = catalogue.find_hop(name)
        if entry is not None and entry.origin in origins:
            return name
    return flavour.hops[0]


def bittering_hop(larder: Larder, ibu: float, late: tuple[Hop, ...], *, is_simple: bool) -> Hop:
    """Return the bittering hop: one of the style that is weighed well for so much bitterness."""
    if is_simple:
        return late[0]

    def counts(choice: tuple[Hop, float]) -> float:
        line, dearness = choice
        alpha = line.alpha.value if line.alpha is not None else 0.06
        g_l = ibu / (1000.0 * alpha * 0.22)
        few = max(FEWEST_HOPS_G_L - g_l, 0.0) / FEWEST_HOPS_G_L
        many = max(g_l - MOST_HOPS_G_L, 0.0)
        same = -0.4 if line.name == late[0].name else 0.0
        return dearness + 2.0 * few + 1.5 * many + same

    return min(larder.bittering, key=counts)[0]


STUDY_EXTRACTS = (
    "Pilsner dry malt extract",
    "Extra light dry malt extract",
    "Light dry malt extract",
    "Amber dry malt extract",
    "Dark dry malt extract",
    "Wheat dry malt extract",
    "Munich dry malt extract",
)


def study_larder(grist: StyleGrist, wishes: Wishes) -> Larder:
    """Return what a beer of one malt and one hop is chosen from."""
    larder = larder_of(grist, wishes)
    own = [*grist.base, *(each.name for each in grist.beside if each is not None)]
    names = dict.fromkeys((*own, *STUDY_EXTRACTS))
    bases = tuple(
        Part(fermentable(name), Role.BASE, dearness=wishes.dearness(name, place))
        for place, name in enumerate(names)
    )
    return replace(
        larder, bases=bases, beside=(None,), crystals=(None,), roasts=(None,), sugars=(None,)
    )
