"""What all ways start from: a kitchen, the beer to be held, and a way not yet worked out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from designer.brewday.fit.answer import NoWay, ToBuy
from designer.brewday.fit.changed_recipe import mass, quick_day, with_mark, with_process
from designer.brewday.fit.cooling_plan import LANDS_WITHIN_C, with_frozen
from designer.brewday.fit.fermenters import Cellar
from designer.brewday.fit.original import Original, apart_day
from designer.brewday.fit.pot_losses import with_losses_of
from designer.brewday.fit.wish import FitWish
from designer.recipe.document import Fermenter, Recipe
from designer.recipe.fields import number
from designer.recipe.message import Figure, Message, say
from designer.translation import message

NAMES: Mapping[str, str] = {
    "one boil": message("One boil and top-up"),
    "less water": message("All of it in less water"),
    "late extract": message("One boil, extract late"),
    "off the boil": message("One boil, extract off the boil"),
    "into the fermenter": message("One boil, extract into the fermenter"),
    "smaller batch": message("A smaller batch"),
    "whole packs": message("A smaller batch of whole packs"),
    "two boils": message("Two boils"),
    "two brews": message("Two brews, in turn"),
    "second pot": message("Two pots at once"),
    "more hops": message("One boil, more hops"),
    "other hops": message("One boil, hops in hand"),
    "lid": message("One boil, lid partly on"),
    "shorter boil": message("One shorter boil"),
}


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The wish and the beer to be held."""

    wish: FitWish
    original: Original

    def apart(self, recipe: Recipe) -> float:
        """Return how far the beer of a recipe is from the original; see `original.apart`."""
        return apart_day(self.original.day, quick_day(recipe))

    def held_by(self, draft: Draft) -> Original:
        """Return the beer that a draft is held against."""
        return draft.held or self.original

    @property
    def recipe(self) -> Recipe:
        """The original recipe."""
        return self.original.recipe


@dataclass(frozen=True, slots=True)
class Draft:
    """A way before its ranges and words are worked out.

    `recipes` and `cellars` go together, one for each boil; `at_once` where boils share the time,
    `another_day` where each is brewed on a day of its own, when the fermenter is free again.
    `held` is the beer that is held, where that is not the original but the original in less water.
    """

    key: str
    recipes: tuple[Recipe, ...]
    cellars: tuple[Cellar, ...]
    effort: int
    gist: Message
    steps: tuple[Message, ...] = ()
    cautions: tuple[Message, ...] = ()
    must_buy: tuple[ToBuy, ...] = ()
    at_once: bool = False
    keeps_rest: bool = False
    one_fermenter: bool = False
    held: Original | None = None
    another_day: bool = False

    def litres_at_once(self, litres: Sequence[float]) -> float:
        """Return how much beer there is at once, of so much from each boil."""
        return litres[0] if self.another_day else sum(litres)

    @property
    def vessels(self) -> tuple[Cellar, ...]:
        """The cellars, one that takes both boils but once."""
        return self.cellars[:1] if self.one_fermenter else self.cellars

    @property
    def fermenters(self) -> tuple[Fermenter, ...]:
        """All fermenters that are filled."""
        return tuple(each for cellar in self.vessels for each in cellar.fermenters)

    @property
    def filled_first(self) -> tuple[Fermenter, ...]:
        """Those that are filled on the first day."""
        return self.cellars[0].fermenters if self.another_day else self.fermenters

    @property
    def bought(self) -> int:
        """How many of them are not in hand."""
        return sum(cellar.bought for cellar in self.vessels)


Tried = Draft | NoWay


def no_way(key: str, id: str, template: str, /, *figures: Figure, **names: object) -> NoWay:
    """Return a way that does not work here, and say why in a message."""
    return NoWay(key, NAMES[key], say(id, template, *figures, **names))


def in_kitchen(kitchen: Kitchen, cellar: Cellar, batch_l: float) -> Recipe:
    """Return the original in the kitchen's pot and fermenters, topped up to the batch.

    Of the frozen top-up a smaller batch has its share.
    """
    recipe = with_losses_of(kitchen.recipe, kitchen.wish.pot_there_is)
    recipe = with_process(recipe, **dict(kitchen.wish.measured))
    recipe = replace(recipe, pot=kitchen.wish.pot, fermenter=cellar.as_one())
    frozen = recipe.process.frozen_top_up
    share = batch_l / max(kitchen.original.batch_l, 1e-9)
    if frozen is not None and share < 0.995:
        recipe = with_process(recipe, frozen_top_up=mass(round(frozen.value * share, 1)))
    return with_mark(recipe, batch_l)


def with_freezer(kitchen: Kitchen, recipe: Recipe) -> Recipe:
    """Return the recipe with as much frozen water as helps, of what there is.

    Where the brewer said nothing the recipe's own stays, unless the mix then lands too cold.
    """
    most = kitchen.wish.most_frozen_kg
    if most is not None:
        return with_frozen(recipe, most)
    own = number(recipe.process, "frozen_top_up")
    pitch = number(recipe.process, "pitch_temperature")
    if own <= 0.0 or float(quick_day(recipe).fermenter.mixed_c) > pitch - LANDS_WITHIN_C:
        return recipe
    return with_frozen(recipe, own)
