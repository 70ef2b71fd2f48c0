"""Why each line is in a first recipe, and what could not be met."""

from __future__ import annotations

from collections import defaultdict

from designer.brewday.first.larder import Role
from designer.brewday.first.weighing import Weighed
from designer.brewday.stock import Stock
from designer.library.flavours import FlavourEntry
from designer.recipe.document import Fermentable, Hop, Recipe, Yeast
from designer.recipe.kind_defaults import colour_lovibond
from designer.recipe.message import Message, in_a_row, say, word
from designer.recipe.quantity import Kind
from designer.recipe.same_name import name_key
from designer.workbench.first_answers import LineReason
from designer.workbench.first_wishes import stock_of

TOUCH = 0.03
"""A share so small that it is there for the colour; judgement."""

_SUGARS = {
    "Lactose": say("why-lactose", "sweetness that no yeast ferments"),
    "Maltodextrin powder": say("why-dextrin", "body that no yeast ferments"),
    "Rice syrup solids": say("why-rice", "strength that tastes of next to nothing"),
    "Candi syrup, dark": say("why-dark-candi", "dried fruit, and strength without sweetness"),
    "Candi syrup, amber": say("why-amber-candi", "caramel, and strength without sweetness"),
    "Black treacle": say("why-treacle", "a taste of liquorice and plums"),
    "Light brown sugar": say("why-brown-sugar", "a little rum, and strength without sweetness"),
}
_SUGAR = say("why-sugar", "strength without sweetness")
_BESIDE = {
    "Wheat": say("why-wheat", "soft and cloudy, with a head that lasts"),
    "Munich": say("why-munich", "bread crust, and some of the colour"),
    "Dark": say("why-dark-extract", "dark and soft: less roast is needed"),
    "Amber": say("why-amber-extract", "toast, and some of the colour"),
}
_CRYSTAL = (
    (25.0, say("why-palest-crystal", "a little body and sweetness")),
    (50.0, say("why-pale-crystal", "light caramel and nuts")),
    (100.0, say("why-crystal", "toffee and the amber")),
    (1e9, say("why-dark-crystal", "dried fruit, and a red brown")),
)
_ROUND_CRYSTAL = say("why-crystal-round", "toffee; it does not ferment out")
_ROAST = {
    "Pale chocolate malt": say("why-pale-chocolate", "nuts and milky coffee, and the brown"),
    "Chocolate malt": say("why-chocolate", "chocolate, and the brown"),
    "Chocolate wheat malt": say("why-chocolate-wheat", "soft chocolate, and the brown"),
    "Chocolate rye malt": say("why-chocolate-rye", "spicy chocolate, and the brown"),
    "Black (patent) malt": say("why-black", "black, with a burnt edge"),
    "Roasted barley": say("why-roasted-barley", "dry coffee, and the black"),
    "Dehusked black malt": say("why-dehusked", "dark without harshness"),
}
_TOUCH = say("why-touch", "a touch, for the colour")
_YEASTS = (
    ("wheat", say("why-wheat-yeast", "cloves and banana are its doing")),
    ("Saison", say("why-saison-yeast", "pepper and fruit; it ferments nearly all")),
    ("Belgian", say("why-belgian-yeast", "fruit and spice are its doing")),
    ("lager", say("why-lager-yeast", "clean, if it is kept cool")),
    ("Kölsch", say("why-cool-yeast", "nearly as clean as a lager's")),
)
_ATTENUATIONS = (
    (0.72, say("why-yeast-low", "stops early and leaves body and sweetness")),
    (0.775, say("why-yeast-medium", "ferments well and leaves some body")),
    (1.1, say("why-yeast-high", "ferments far, for a dry finish")),
)


def reasons(
    key: str, found: Weighed, flavours: tuple[FlavourEntry, ...], in_hand: tuple[Stock, ...]
) -> tuple[LineReason, ...]:
    """Return why each line of an alternative is there."""
    recipe, cupboard = found.recipe, _Cupboard(in_hand)
    total = sum(line.amount.value for line in recipe.fermentables if line.amount is not None)
    bases = [each.line_id for each in recipe.fermentables if found.roles[each.line_id] is Role.BASE]
    told = [
        LineReason(
            "fermentables",
            line.line_id,
            _why_fermentable(key, line, found.roles[line.line_id], total, bases),
            cupboard.takes(line.name, _kg(line)),
        )
        for line in recipe.fermentables
    ]
    told += [
        LineReason(
            "hops",
            line.line_id,
            _why_hop(key, line, found.roles[line.line_id], flavours),
            cupboard.takes(line.name, _kg(line)),
        )
        for line in recipe.hops
    ]
    told.append(LineReason("yeast", 0, _why_yeast(recipe.yeast), _yeast_in_hand(recipe, in_hand)))
    return tuple(told)


def _kg(line: Fermentable | Hop) -> float:
    return line.amount.value if line.amount is not None else 0.0


def _why_fermentable(
    key: str, line: Fermentable, role: Role, total_kg: float, bases: list[int]
) -> Message:
    if role is Role.BASE:
        return _why_base(key, line, bases)
    if role is Role.BESIDE:
        return _BESIDE.get(line.name.split()[0], say("why-beside", "some of the strength"))
    if role is Role.CRYSTAL:
        found = next(each for most, each in _CRYSTAL if colour_lovibond(line) <= most)
        return _ROUND_CRYSTAL if key == "rounder" and found is _CRYSTAL[2][1] else found
    if role is Role.ROAST:
        return _TOUCH if _kg(line) < TOUCH * total_kg else _ROAST.get(line.name, _TOUCH)
    return _SUGARS.get(line.name, _SUGAR)


def _why_base(key: str, line: Fermentable, bases: list[int]) -> Message:
    if line.line_id != bases[0]:
        return say("why-base-late", "the rest of the strength; in late, so it does not darken")
    if len(bases) > 1:
        return say("why-base-early", "strength, and wort for the hops to boil in")
    if key == "hoppier":
        return say("why-base-hoppy", "strength, and plain ground for the hops")
    return say("why-base", "body and strength")


def _why_hop(key: str, line: Hop, role: Role, flavours: tuple[FlavourEntry, ...]) -> Message:
    brings = [word(each.name) for each in flavours if line.name in each.hops]
    if role is Role.BITTERING:
        if key == "rounder":
            return say("why-bittering-round", "holds the sweetness in check")
        return say("why-bittering", "the bitterness")
    if role is Role.DRY:
        if brings:
            return say("why-dry-flavour", "{flavour}, in the nose", flavour=in_a_row(brings))
        return say("why-dry", "scent, and no bitterness")
    if brings:
        return say("why-late-flavour", "{flavour}", flavour=in_a_row(brings))
    return say("why-late", "taste and scent of hops")


def _why_yeast(yeast: Yeast) -> Message:
    for part, message in _YEASTS:
        if part in yeast.name:
            return message
    attenuation = yeast.attenuation.value if yeast.attenuation is not None else 0.75
    return next(each for most, each in _ATTENUATIONS if attenuation <= most)


class _Cupboard:
    """What lies there, less what lines before have taken."""

    def __init__(self, in_hand: tuple[Stock, ...]) -> None:
        self._left_kg: dict[str, float] = defaultdict(float)
        for each in in_hand:
            if each.unit == "kg":
                self._left_kg[name_key(each.name)] += each.amount

    def takes(self, name: str, kg: float) -> Message | None:
        """Return how much of a line lies there, and take it out."""
        there = self._left_kg[name_key(name)]
        if there <= 1e-9:
            return None
        self._left_kg[name_key(name)] -= min(kg, there)
        if there >= kg - 1e-9:
            return say("in-hand", "in hand")
        return say("some-in-hand", "{0} in hand", (Kind.MASS, there))


def _yeast_in_hand(recipe: Recipe, in_hand: tuple[Stock, ...]) -> Message | None:
    stock = stock_of(in_hand, recipe.yeast.name)
    return None if stock is None else say("in-hand", "in hand")
