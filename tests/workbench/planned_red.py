"""The Breakwater Red of 20 L as it is brewed in a 9 L pot, and shared into buckets of 12 L."""

from dataclasses import replace

from designer.library.recipe_file import load
from designer.recipe.choices import Turn
from designer.recipe.document import Fermenter, Hop, PlannedBoil, PlannedFermenter, WortShare, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.plan import wort_share
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path

WRITTEN = load(resource_path("examples/breakwater_red.hobwort"))
BUCKET = Fermenter("Small bucket", typed(Kind.VOLUME, 12.0))


def litres(value):
    return typed(Kind.VOLUME, value)


def bucket(mark, *wort, **changes):
    return PlannedFermenter(BUCKET, tuple(wort), top_up_to=litres(mark), **changes)


HALF = PlannedBoil(WRITTEN.pot, typed(Kind.FRACTION, 0.5), start_water=litres(6.3))


def two_boils(turn=Turn.AFTER, **second):
    """Each half of the recipe is boiled by itself, and goes into its own bucket."""
    return with_line_ids(
        replace(
            WRITTEN,
            boils=(HALF, replace(HALF, turn=turn.value, **second)),
            fermenters=(bucket(10.0, WortShare(1)), bucket(10.0, WortShare(2))),
        )
    )


def two_buckets(*marks):
    """One boil is shared evenly into buckets that are filled to their marks."""
    share = 1.0 / len(marks)
    return replace(WRITTEN, fermenters=tuple(bucket(each, wort_share(1, share)) for each in marks))


def with_own_hops():
    """The second boil has hops of its own: fewer of the written ones, and others."""
    fewer = replace(WRITTEN.hops[0], amount=typed(Kind.MASS, 0.007))
    other = Hop("Harbour hop", alpha=typed(Kind.FRACTION, 0.06), amount=typed(Kind.MASS, 0.012))
    return two_boils(hops=(fewer, other))


def with_own_yeast():
    """The second bucket is pitched with another yeast."""
    first, second = two_boils().fermenters
    yeast = Yeast("Lager, unnamed", amount=typed(Kind.DOSE, 11.0, unit="g"))
    return replace(two_boils(), fermenters=(first, replace(second, yeast=yeast)))
