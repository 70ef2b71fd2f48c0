"""What fitting finds: ways side by side, each with its recipes, its figures and plain words.

Litres are at 20 °C unless the name says hot.
"""

from __future__ import annotations

from dataclasses import dataclass

from designer.brewday.results import Day, PlanDays, Range
from designer.brewday.time_line import Addition
from designer.recipe.document import Fermenter, Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import Figure, Message, listed, say
from designer.recipe.quantity import Kind, Quantity


def named(name: str) -> str | Message:
    """Return a brewer's own name, or words for a line that has none."""
    return name or say("nameless", "a line without a name")


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
    """One fermenter filled: wort from the pot, liquid and frozen water on top, litres of room."""

    fermenter: Fermenter
    in_hand: bool
    from_pot_l: float
    liquid_top_up_l: float
    frozen_kg: float
    filled_l: float
    room_l: float


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
    `over_kg` what is then left over.
    """

    what: str | Message
    amount: Quantity | None = None
    kind: str = ""
    packs: tuple[tuple[int, str], ...] = ()
    over_kg: float = 0.0

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
            if self.over_kg > 5e-5:
                over = (Kind.MASS, self.over_kg)
                words = say("packs-over", "{bought}, {0} of it left over", over, bought=words)
        return words


@dataclass(frozen=True, slots=True)
class LeftOver:
    """What a way does not use of a line, a mass or a dose, and how to keep it."""

    lines: str
    line_id: int
    name: str
    amount: Quantity
    keep: Message


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
    is more to do than one plain boil. `rank` is 1 for the best. `cost` is that of what goes in,
    None where a price is not known. `ceiling_ibu` is the bitterness that a pot carries in practice.
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
    cost: float | None
    judgement: Message
    closeness: float
    effort: int
    rank: int

    @property
    def in_hand(self) -> bool:
        """Whether it is brewed with what is in the kitchen: nothing has to be bought or lent."""
        return not self.must_buy

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
    """

    original: Day
    forecasts: dict[str, Range]
    ways: tuple[Way, ...]
    no_ways: tuple[NoWay, ...]
    sentence: Message
    would_work: tuple[Message, ...]
