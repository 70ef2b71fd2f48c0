"""Findings about yeast, packaging, and numbers outside what a formula was published for."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.results import Day, Finding, doubt
from designer.brewday.yeast_doubts import pitched_dry_g
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangePart
from designer.recipe.fields import number
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind
from designer.recipe.severity import Severity
from designer.wort.bitterness import TABLE_MIN, TABLE_SG
from designer.wort.colour import HIGHEST_FITTED_SRM
from designer.wort.pitching import LITTLE_PART, PACKET_G, packets

STRONG_SG = 1.120
NEARLY = 0.95


def yeast_short(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """No yeast, or less than the usual dose of dry yeast."""
    yeast = recipe.yeast
    if float(day.beer.original_gravity) < 1.001:
        return
    if not yeast.name and yeast.amount is None:
        yield doubt(Severity.CARE, Place("yeast", "name"), "no-yeast", "No yeast is chosen yet.")
        return
    pitched, wanted = pitched_dry_g(yeast), float(day.beer.yeast_wanted_g)
    if pitched is None or pitched >= NEARLY * float(day.beer.yeast_low_g):
        return
    fix = _pitch_packets(packets(wanted))
    if pitched < LITTLE_PART * wanted:
        yield doubt(
            Severity.CARE,
            Place("yeast", "amount"),
            "yeast-little",
            "{0} of dry yeast is under half of the {1} that {2} of {3} want: it may start late, "
            "taste of it, and stop some points early. Pitch more of it.",
            (Kind.MASS, pitched / 1000.0),
            (Kind.MASS, wanted / 1000.0),
            (Kind.VOLUME, float(day.fermenter.batch_l)),
            (Kind.GRAVITY, float(day.beer.original_gravity)),
            fix=fix,
        )
        return
    yield doubt(
        Severity.NOTE,
        Place("yeast", "amount"),
        "yeast-short",
        "{0} of dry yeast is less than the usual {1} to {2} for this batch; go by its packet.",
        (Kind.MASS, pitched / 1000.0),
        (Kind.MASS, float(day.beer.yeast_low_g) / 1000.0),
        (Kind.MASS, float(day.beer.yeast_high_g) / 1000.0),
        fix=fix,
    )


def _pitch_packets(number: int) -> ChangePart:
    """Return the edit that pitches so many whole packets of dry yeast."""
    dose = typed(Kind.DOSE, number * PACKET_G, unit="g")
    weighs = (Kind.DOSE, dose)
    if number == 1:
        text = say("pitch-packet", "Pitch a packet, {0}", weighs)
    else:
        text = say("pitch-packets", "Pitch {number} packets, {0}", weighs, number=f"{number}")
    return ChangePart("yeast", "amount", dose, text)


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


FINDERS = (yeast_short, outside_published_range)
