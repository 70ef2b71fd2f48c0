"""What is known that makes a beer slow: its temperature, its yeast, and how much of it went in."""

from __future__ import annotations

from collections.abc import Sequence

from designer.brewday.fermenting.course import Warmth
from designer.brewday.results import Outlook
from designer.brewday.yeast_doubts import pitched_dry_g
from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.message import Message, say
from designer.recipe.quantity import Kind
from designer.wort.pitching import LITTLE_PART

G_IN_KG = 1000.0


def what_slows(recipe: Recipe, outlook: Outlook, warmths: Sequence[Warmth]) -> tuple[Message, ...]:
    """Return what to look at first in a beer that is slow, by what is known of it."""
    return (_warmth(recipe, warmths), _yeast(recipe, outlook))


def _warmth(recipe: Recipe, warmths: Sequence[Warmth]) -> Message:
    lowest = number_or_none(recipe.yeast, "lowest")
    if not warmths:
        return say("beer-slow-measure", "Measure how warm the beer is: cold yeast is slow.")
    now_c = max(warmths, key=lambda each: each.day).temp_c
    now = (Kind.TEMPERATURE, now_c)
    if lowest is None:
        return say("beer-slow-warmth", "It is at {0}: see whether that suits its yeast.", now)
    works = (Kind.TEMPERATURE, lowest)
    if now_c < lowest:
        return say("beer-slow-cold", "It is at {0}; this yeast works from {1} on.", now, works)
    return say("beer-slow-warm-enough", "It is at {0}, warm enough for its yeast.", now)


def _yeast(recipe: Recipe, outlook: Outlook) -> Message:
    dry_g, wanted_g = pitched_dry_g(recipe.yeast), float(outlook.day.beer.yeast_wanted_g)
    if dry_g is not None and dry_g < LITTLE_PART * wanted_g:
        return say(
            "beer-slow-little",
            "{0} of yeast went in where {1} is wanted: a fresh packet helps.",
            (Kind.MASS, dry_g / G_IN_KG),
            (Kind.MASS, wanted_g / G_IN_KG),
        )
    return say("beer-slow-yeast", "Old or tired yeast is slow: a fresh packet helps.")
