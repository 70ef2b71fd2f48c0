"""What fitting finds: ways side by side, each with its recipes, its figures and plain words.

Litres are at 20 °C unless the name says hot.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.fit.keeping import EXTRAS, KEEPING, YEAST, Keeping
from designer.brewday.results import Day, PlanDays, Range
from designer.brewday.time_line import Addition
from designer.recipe.document import Fermenter, Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import Figure, Message, listed, say
from designer.recipe.quantity import Kind, Quantity

LEAST_BEER_L = 0.01


def named(name: str) -> str | Message:
    """Return a brewer's own name, or words for a line that has none."""
    return name or say("nameless", "a line without a name")


def per_litre(cost: float | None, litres: float) -> float | None:
    """Return what a litre costs; None where that is not known, or there is no beer."""
    return None if cost is None or litres < LEAST_BEER_L else cost / litres


@dataclass(frozen=True, slots=True)
class Compared:
    """A forecast of a way beside the original's: value, 5 to 95 % range, original, change.

    `leans` tells where the beer more likely lies than the value, see `Range.leans`.
    """

    value: float
    low: float
    high: float
    original: float
    leans: str = ""

    @property
    def change(self) -> float:
        """By how much the way differs from the original recipe."""
        return self.value - self.original


@dataclass(frozen=True, slots=True)
class Filling:
    """One fermenter filled: wort from the pot, liquid and frozen water on top, litres of room.

    `hot_l` is what of the liquid water is poured just boiled, to dissolve extract in the fermenter.
    """

    fermenter: Fermenter
    in_hand: bool
    from_pot_l: float
    liquid_top_up_l: float
    frozen_kg: float
    filled_l: float
    room_l: float
    hot_l: float = 0.0

    @property
    def cold_top_up_l(self) -> float:
        """Water to pour on top cold."""
        return max(self.liquid_top_up_l - self.hot_l, 0.0)


@dataclass(frozen=True, slots=True)
class Boil:
    """One boil of a way: its recipe and day, and what that day means for the vessels.

    `fullest_l` is hot, with grain, coil and hops, at the stage `fullest_at`. `foam_room_l` is what
    is left below the foam line at the fullest moment of the boil; `foam_limit_l` is that line.
    `rim_l` and what follows from it is infinite for a pot of unknown size.
    """

    recipe: Recipe
    day: Day
    start_water_l: float
    fullest_l: float
    fullest_at: str
    rim_l: float
    foam_limit_l: float
    foam_room_l: float
    top_up_l: float
    frozen_kg: float
    pot_bitterness_ibu: float
    fillings: tuple[Filling, ...]

    @property
    def goes_in(self) -> tuple[Addition, ...]:
        """What goes in when, in order."""
        return self.day.additions


@dataclass(frozen=True, slots=True)
class ToBuy:
    """Something to be bought or borrowed.

    `kind` is that of a shop's packs ("hops", "yeast", a kind of fermentable), "" for a vessel.
    `packs` says how many of which pack hold the amount, where the shop's sizes are known, and
    `over_kg` what is then left over. `price` is that of all of it, None where it is not known.
    `later` tells that it is wanted only for a brew on another day.
    """

    what: str | Message
    amount: Quantity | None = None
    kind: str = ""
    packs: tuple[tuple[int, str], ...] = ()
    over_kg: float = 0.0
    price: float | None = None
    later: bool = False

    @property
    def keeping(self) -> Keeping | None:
        """How what is left over of the packs is kept; None where nothing is."""
        return KEEPING.get(self.kind) if self.over_kg > 5e-5 else None

    @property
    def mass_kg(self) -> float | None:
        """What it weighs; None where it is counted: a vessel, packets of yeast."""
        if self.amount is None or (self.kind == "yeast" and self.amount.unit != "g"):
            return None
        return self.amount.value / (1000.0 if self.amount.unit == "g" else 1.0)

    @property
    def words(self) -> Message:
        """What to buy, how much of it and in which packs."""
        words = say("to-buy", "{what}", what=self.what)
        if self.amount is not None:
            kg = self.mass_kg
            figure: Figure = (Kind.DOSE, self.amount) if kg is None else (Kind.MASS, kg)
            words = say("to-buy-amount", "{what}, {0}", figure, what=self.what)
        if self.packs:
            packs = listed(
                [say("packs", "{n} × {pack}", n=count, pack=name) for count, name in self.packs]
            )
            words = say("to-buy-packs", "{bought}: {packs}", bought=words, packs=packs)
            if self.keeping is not None:
                words = say(
                    "packs-over",
                    "{bought}, {0} of it left over ({keep})",
                    (Kind.MASS, self.over_kg),
                    bought=words,
                    keep=self.keeping.briefly,
                )
        if self.later:
            words = say("to-buy-later", "{bought}, for the second brew", bought=words)
        return words


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What a way does not use of a line, a mass or a dose, and how to keep it and for how long.

    Of yeast, whose `lines` is "yeast", the packets that stay closed.
    """

    lines: str
    line_id: int
    name: str
    amount: Quantity
    keeping: Keeping

    @property
    def keep(self) -> Message:
        """How to keep it, in a sentence."""
        return self.keeping.how

    @property
    def figure(self) -> Figure:
        """The amount as it is shown: weighed, or a dose."""
        if self.lines in (EXTRAS, YEAST):
            return (Kind.DOSE, self.amount)
        return (Kind.MASS, self.amount.value)


@dataclass(frozen=True, slots=True)
class Costs:
    """Costs of a way, each None where a price is not known: never nothing for that.

    `used` is for what goes in of the recipe's own ingredients, `to_buy` for all that is bought,
    vessels too, in whole packs; `in_all` for the ingredients, used and bought.
    """

    used: float | None
    to_buy: float | None
    in_all: float | None


@dataclass(frozen=True, slots=True)
class Cooling:
    """Cooling with so much frozen top-up: pot temperature to pour at, minutes, where it lands."""

    frozen_kg: float
    liquid_top_up_l: float
    cool_to_c: float
    cooling_min: float
    mixed_c: float
    lands: bool


@dataclass(frozen=True, slots=True)
class CoolingPlan:
    """The plan, the same day with no frozen water, and what that means in a sentence."""

    planned: Cooling
    without: Cooling
    sentence: Message


@dataclass(frozen=True, slots=True)
class Way:
    """One way to brew the recipe in this kitchen.

    `planned` is the recipe as it is written with the plan of this way, which `edit` gives it in one
    undo step; `plan` are its boils and fermenters, `boils` the same with what they mean here.
    `closeness` is 0 for the beer of the original in full, or for all of it in a little less water,
    rising with what differs by more than the original's own range leaves open; `effort` counts what
    is more to do than one plain boil. `rank` is 1 for the best. `costs` are those of what goes in
    and is bought, `original_cost` that of the whole recipe. `ceiling_ibu` is the bitterness that a
    pot carries in practice.
    `kept_meanwhile` waits for a brew on another day, whose beer does not count for closeness.
    `much_the_same` are ways that nobody could tell from this one, which stands for them.
    """

    key: str
    name: str
    steps: tuple[Message, ...]
    cautions: tuple[Message, ...]
    planned: Recipe
    plan: PlanDays
    boils: tuple[Boil, ...]
    edit: Edit
    forecasts: dict[str, Compared]
    batch_l: float
    original_batch_l: float
    pot_bitterness_ibu: float
    ceiling_ibu: float
    total_min: float
    cooling: CoolingPlan
    must_buy: tuple[ToBuy, ...]
    left_over: tuple[LeftOver, ...]
    kept_meanwhile: tuple[LeftOver, ...]
    costs: Costs
    original_cost: float | None
    judgement: Message
    closeness: float
    effort: int
    rank: int
    much_the_same: tuple[Way, ...] = ()

    @property
    def cost(self) -> float | None:
        """What goes in costs, and what is bought of it in whole packs; None if not known."""
        return self.costs.in_all

    @property
    def cost_used(self) -> float | None:
        """What the part of the recipe costs that goes in; None where a price is not known."""
        return self.costs.used

    @property
    def cost_to_buy(self) -> float | None:
        """What is to be bought costs, vessels too; None where a price is not known."""
        return self.costs.to_buy

    @property
    def cost_per_litre(self) -> float | None:
        """What a litre of beer costs; None where a price is not known."""
        return per_litre(self.cost, self.batch_l)

    @property
    def original_cost_per_litre(self) -> float | None:
        """What a litre of the whole recipe costs; None where a price is not known."""
        return per_litre(self.original_cost, self.original_batch_l)

    @property
    def in_hand(self) -> bool:
        """Whether it is begun with what is in the kitchen: nothing has to be bought or lent yet."""
        return all(each.later for each in self.must_buy)

    @property
    def brew_days(self) -> int:
        """On how many days it is brewed."""
        return 1 + max(each.on_day for each in self.plan.boils)

    @property
    def recipes(self) -> tuple[Recipe, ...]:
        """The recipe of each boil."""
        return tuple(boil.recipe for boil in self.boils)


@dataclass(frozen=True, slots=True)
class NoWay:
    """A way that does not work here, and why."""

    key: str
    name: str
    reason: Message


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """All ways, the best first; those that do not work; and what would, where the best falls short.

    `original` and `forecasts` are what the recipe gives at its own volume, whatever the vessels.
    `idle_hops` says of each hop in hand that no way puts in why not.
    """

    original: Day
    forecasts: dict[str, Range]
    ways: tuple[Way, ...]
    no_ways: tuple[NoWay, ...]
    sentence: Message
    would_work: tuple[Message, ...]
    idle_hops: tuple[Message, ...] = ()

    @property
    def every_way(self) -> tuple[Way, ...]:
        """All ways by their rank, with those that others stand for at the end."""
        return (*self.ways, *(each for way in self.ways for each in way.much_the_same))
