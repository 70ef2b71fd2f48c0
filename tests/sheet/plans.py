"""Recipes that are brewed by a plan: ways of Breakwater Red in small kitchens, and odd ones."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import sized_pot, wish_for
from designer.library.recipe_file import load
from designer.recipe.choices import Turn
from designer.recipe.document import (
    Fermenter,
    Hop,
    PlannedBoil,
    PlannedFermenter,
    Pot,
    Recipe,
    WortShare,
    Yeast,
)
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.plan import wort_share
from designer.recipe.quantity import Kind, Stage, When
from designer.resource_files import resource_path


def example(name: str) -> Recipe:
    """Return an example recipe."""
    return load(resource_path(f"examples/{name}.hobwort"))


def litres(value):
    return typed(Kind.VOLUME, value)


def bucket(mark, *wort, size=15.0, kind="plastic bucket", yeast=None):
    vessel = Fermenter("Small bucket", litres(size), kind=kind)
    return PlannedFermenter(vessel, tuple(wort), top_up_to=litres(mark), yeast=yeast)


def way(key: str, wish) -> Recipe:
    """Return the recipe with the plan of a way that Fit finds for Breakwater Red."""
    found = ways(example("breakwater_red"), wish)
    return next(each.planned for each in found.ways if each.key == key)


@cache
def two_buckets() -> Recipe:
    """Return Breakwater Red boiled once, shared between two buckets of 12 L."""
    return way("one boil", wish_for(example("breakwater_red"), 9.0, (12.0, 12.0)))


@cache
def two_boils() -> Recipe:
    """Return Breakwater Red in two boils that are alike, each into its own bucket."""
    return way("two boils", wish_for(example("breakwater_red"), 9.0, (12.0, 12.0)))


@cache
def two_into_one() -> Recipe:
    """Return Breakwater Red in two boils that are alike, into one fermenter."""
    return way("two boils", wish_for(example("breakwater_red"), 9.0, (25.0,)))


@cache
def two_pots() -> Recipe:
    """Return Breakwater Red in two pots at once, a larger and a smaller one."""
    wish = wish_for(example("breakwater_red"), 9.0, (25.0,))
    second = sized_pot(Pot("Second pot"), 7.0)
    return way("second pot", replace(wish, second_pot=second))


def boil(share, water, **changes) -> PlannedBoil:
    pot = example("breakwater_red").pot
    return PlannedBoil(
        **{
            "pot": pot,
            "share": typed(Kind.FRACTION, share),
            "start_water": litres(water),
            **changes,
        }
    )


def unlike() -> Recipe:
    """Return two boils that differ, the second on another day, into buckets that differ."""
    recipe = example("breakwater_red")
    lager = Yeast("Lager yeast", form="liquid", amount=typed(Kind.DOSE, 2.0, unit="packet"))
    return replace(
        recipe,
        boils=(boil(0.6, 6.5), boil(0.4, 5.0, turn=Turn.ANOTHER_DAY.value)),
        fermenters=(
            bucket(11.0, WortShare(1)),
            bucket(9.0, WortShare(2), kind="glass carboy", yeast=lager),
        ),
    )


def another_day_into_one() -> Recipe:
    """Return two boils on two days into one fermenter: the first has to wait overnight."""
    return replace(
        example("breakwater_red"),
        boils=(boil(0.5, 6.0), boil(0.5, 6.0, turn=Turn.ANOTHER_DAY.value)),
        fermenters=(bucket(20.0, WortShare(1), WortShare(2), size=28.0),),
    )


def three_ways() -> Recipe:
    """Return one boil shared unevenly between three vessels, with hops that go in dry."""
    recipe = example("breakwater_red")
    when = When(Stage.DRY_HOP, "dry hop 4 days", days=4.0)
    dry = Hop("East Kent Golding", amount=typed(Kind.MASS, 0.04), when=when)
    return with_line_ids(
        replace(
            recipe,
            hops=(*recipe.hops, dry),
            fermenters=(
                bucket(10.0, wort_share(1, 0.5)),
                bucket(5.0, wort_share(1, 0.25), size=7.0),
                bucket(5.0, wort_share(1, 0.25), size=7.0, kind="glass carboy"),
            ),
        )
    )


def pots_alike() -> Recipe:
    """Return two pots that are alike, at once, each into its own bucket."""
    halves = (boil(0.5, 6.0), boil(0.5, 6.0, turn=Turn.AT_ONCE.value))
    return replace(
        example("breakwater_red"),
        boils=halves,
        fermenters=(bucket(10.0, WortShare(1)), bucket(10.0, WortShare(2))),
    )


def thrice() -> Recipe:
    """Return three boils that are alike into six jugs, with ice and extract in the fermenter."""
    recipe = example("breakwater_red")
    late = tuple(
        replace(line, when=When(Stage.FERMENTER, "fermenter")) if "kit" in line.kind else line
        for line in recipe.fermentables
    )
    return replace(
        recipe,
        fermentables=late,
        boils=tuple(boil(1.0 / 3.0, 4.0) for _ in range(3)),
        fermenters=tuple(
            bucket(3.3, wort_share(number, 0.5), size=5.0) for number in (1, 1, 2, 2, 3, 3)
        ),
    )


FOUND = {
    "two buckets": two_buckets,
    "two boils": two_boils,
    "two boils into one": two_into_one,
    "two pots at once": two_pots,
}
"""Plans that Fit finds."""
ODD = {
    "unlike, on two days": unlike,
    "two days into one": another_day_into_one,
    "shared unevenly": three_ways,
    "pots alike": pots_alike,
    "thrice": thrice,
}
ALL = {**FOUND, **ODD}
