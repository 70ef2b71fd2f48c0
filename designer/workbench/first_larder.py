"""What a first recipe is chosen from: the row of its style, its flavours, and the cupboard."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import pairwise

from designer.brewday.first.larder import Larder, Part, Role
from designer.library import catalogue
from designer.library.style_grists import Portion, StyleGrist
from designer.recipe.choices import YeastForm
from designer.recipe.document import Fermentable, Yeast
from designer.recipe.kind_defaults import real_fermentability
from designer.workbench.first_hops import hop, in_hand_alpha, late_hops
from designer.workbench.first_wishes import Wishes, stock_of

A_GRAIN, LIQUID_YEAST = 0.25, 0.8
"""What counts against grain for each place in its row, and against yeast that is kept cold."""
NEEDLESS_ROAST, ONLY_BODY = 1.0, 1.0
"""What roast counts for in a style that does without, and what is there for body alone."""
ROAST_FROM_LOVIBOND, FERMENTS_NOT = 200.0, 0.1
BREADY = (0.10, 0.25)
"""Share of an extract that is put in for its flavour alone; judgement."""


@cache
def fermentable(name: str) -> Fermentable:
    """Return a line with the figures of the catalogue; KeyError for a name it does not have."""
    entry = catalogue.find_fermentable(name)
    if entry is None:
        raise KeyError(name)
    return catalogue.new_fermentable(entry)


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
            (yeast(*each), _dear_yeast(each, wishes, place))
            for place, each in enumerate(grist.yeast)
        ),
        bittering=tuple(
            (in_hand_alpha(hop(name), wishes), wishes.dearness(name, 2 * place))
            for place, name in enumerate(dict.fromkeys((*grist.bittering, *grist.late)))
        ),
        late=late_hops(grist, wishes),
        usual={
            Role.CRYSTAL: family.crystal,
            Role.ROAST: family.roast,
            Role.SUGAR: (0.0, family.sugar_most),
            Role.BODY: (0.0, _most_body(grist)),
        },
        late_g_l=family.late_hops_g_l,
        dry_g_l=family.dry_hops_g_l,
    )


def _dear_yeast(each: tuple[str, str], wishes: Wishes, place: int) -> float:
    """Dry yeast keeps on a shelf: liquid yeast has to be worth its cold."""
    is_liquid = each[1] == YeastForm.LIQUID
    return wishes.dearness(each[0], place) + (LIQUID_YEAST if is_liquid else 0.0)


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
