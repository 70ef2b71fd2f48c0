"""Findings about yeast, packaging, and numbers outside what a formula was published for."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.results import Day, Finding, doubt
from designer.recipe.choices import Package, YeastForm
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.wort.bitterness import TABLE_MIN, TABLE_SG
from designer.wort.carbonation import (
    COMFORTABLE_BOTTLE_VOLUMES,
    REFUSE_BOTTLE_VOLUMES,
    WARN_BOTTLE_VOLUMES,
)
from designer.wort.colour import HIGHEST_FITTED_SRM

STRONG_SG = 1.120
COMFORTABLE = typed(Kind.CARBONATION, COMFORTABLE_BOTTLE_VOLUMES)


def yeast_short(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """No yeast, or less than the usual dose of dry yeast."""
    yeast = recipe.yeast
    if float(day.beer.original_gravity) < 1.001:
        return
    if not yeast.name and yeast.amount is None:
        yield doubt(Severity.CARE, Place("yeast", "name"), "no-yeast", "No yeast is chosen yet.")
        return
    low_kg, high_kg = float(day.beer.yeast_low_g) / 1000.0, float(day.beer.yeast_high_g) / 1000.0
    amount = yeast.amount
    weighed = amount is not None and amount.unit == "g" and yeast.form == YeastForm.DRY
    if weighed and amount is not None and amount.value / 1000.0 < low_kg * 0.95:
        grams = round((float(day.beer.yeast_low_g) + float(day.beer.yeast_high_g)) / 2.0)
        dose = typed(Kind.DOSE, grams, unit="g")
        yield doubt(
            Severity.CARE,
            Place("yeast", "amount"),
            "yeast-short",
            "{0} of dry yeast is less than the {1} to {2} that makers print for this batch; "
            "the packet wins.",
            (Kind.MASS, amount.value / 1000.0),
            (Kind.MASS, low_kg),
            (Kind.MASS, high_kg),
            fix=ChangePart("yeast", "amount", dose, say("pitch", "Pitch {0}", (Kind.DOSE, dose))),
        )


def bottle_pressure(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Bottles that may burst."""
    volumes = number(recipe.process, "carbonation")
    if recipe.process.package != Package.BOTTLES or volumes <= WARN_BOTTLE_VOLUMES:
        return
    stop = volumes > REFUSE_BOTTLE_VOLUMES
    yield doubt(
        Severity.STOP if stop else Severity.CARE,
        Place("process", "carbonation"),
        "bottle-pressure",
        "{0} is too much for ordinary bottles: they may burst. Stay at {1}, or use heavy "
        "bottles made for it."
        if stop
        else "{0} is near the limit of ordinary bottles; {1} is comfortable. Never reuse "
        "scratched or single-trip glass.",
        (Kind.CARBONATION, volumes),
        (Kind.CARBONATION, COMFORTABLE.value),
        fix=ChangePart(
            "process",
            "carbonation",
            COMFORTABLE,
            say("carbonate-to", "Carbonate to {0}", (Kind.CARBONATION, COMFORTABLE)),
        ),
    )


def outside_published_range(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Formulas answer beyond the range they were published for; say so."""
    start, end = float(day.pot.boil_gravity_start), float(day.pot.boil_gravity_end)
    low, high = TABLE_SG
    if recipe.hops and end > high:
        yield doubt(
            Severity.NOTE,
            Place("hops"),
            "bitterness-range",
            "The published table of bitterness ends at boils of {0}; this one ends at {1}, so take "
            "the figure as rough.",
            (Kind.GRAVITY, high),
            (Kind.GRAVITY, end),
        )
    elif recipe.hops and end < low and start > 0.0:
        yield doubt(
            Severity.NOTE,
            Place("hops"),
            "bitterness-range-weak",
            "The published table of bitterness begins at boils of {0}; this one ends at {1}, so "
            "take the figure as rough.",
            (Kind.GRAVITY, low),
            (Kind.GRAVITY, end),
        )
    boil = number(recipe.process, "boil_time")
    if recipe.hops and boil > TABLE_MIN:
        yield doubt(
            Severity.NOTE,
            Place("process", "boil_time"),
            "boil-range",
            "The published table of bitterness ends at boils of {0}; for {1} it is extended.",
            (Kind.TIME, TABLE_MIN),
            (Kind.TIME, boil),
        )
    if float(day.beer.colour_srm) > HIGHEST_FITTED_SRM:
        yield doubt(
            Severity.NOTE,
            Place("fermentables"),
            "colour-range",
            "Colour is fitted up to {0}; beyond it all beer is black.",
            (Kind.BEER_COLOUR, HIGHEST_FITTED_SRM),
        )
    if float(day.beer.original_gravity) > STRONG_SG:
        yield doubt(
            Severity.CARE,
            Place("fermentables"),
            "strong",
            "{0} is stronger than most yeast can finish. Add water or take less extract.",
            (Kind.GRAVITY, float(day.beer.original_gravity)),
        )


FINDERS = (yeast_short, bottle_pressure, outside_published_range)
