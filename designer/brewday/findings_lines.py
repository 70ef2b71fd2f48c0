"""Findings about single lines: missing amounts, grain that wants a mash, times beyond the boil."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from designer.brewday.day import beer_of
from designer.brewday.malt_doubts import MALT_EXTRACTS
from designer.brewday.results import Beer, Day, Finding, doubt
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import ChangeLine
from designer.recipe.fields import number
from designer.recipe.kind_defaults import DEFAULT_ALPHA, alpha_acid, extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.message import Message, Number, say
from designer.recipe.named import lines_of
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage, When
from designer.recipe.severity import Severity
from designer.wort.bitterness import POT_CEILING_IBU
from designer.wort.colour import shown_darkening
from designer.wort.extract import POINTS_L_PER_KG_OF_PPG, SUCROSE_PPG
from designer.wort.steeping import BASE_MALT_YIELD, CONVERTING_C

HIGHEST_ALPHA = 0.25
SUGAR_SHARE = 0.20
WORTH_SAYING = 0.10
"""Share of the bitterness that may be missing, from which on it is said; judgement."""
LEAST_GAIN_IBU = 0.5
MASHED, MASHED_FROM = 0.60, 0.30
"""Yield of a home mash, 0.80 x 75 % (Palmer, How to Brew); from half of it on it is one."""
DARKER_SRM = (1.0, 4.0)
"""Common practice, no source."""
CLEARLY = 0.5
NAMELESS = say("nameless-line", "A line without a name")


def no_hops(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """No bitterness at all."""
    if float(day.beer.bitterness_ibu) < 0.5 and float(day.beer.original_gravity) >= 1.001:
        yield doubt(
            Severity.CARE,
            Place("recipe"),
            "no-hops",
            "No bitterness: add hops to the boil, or a hopped kit extract.",
        )


def no_amount(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Lines without an amount count as nothing."""
    lines: tuple[tuple[str, tuple[Fermentable, ...] | tuple[Hop, ...]], ...] = (
        ("fermentables", recipe.fermentables),
        ("hops", recipe.hops),
    )
    for name, group in lines:
        for line in group:
            if line.amount is None or line.amount.value == 0.0:
                yield doubt(
                    Severity.CARE,
                    Place(name, line=line.line_id),
                    "no-amount",
                    "{name} is not counted yet because it has no amount.",
                    name=_named(line.name),
                )


def _named(name: str) -> str | Message:
    return name or NAMELESS


def needs_a_mash(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Base malt and flakes give starch, not sugar, when steeped; held for long they are mashed."""
    for line in recipe.fermentables:
        counted = extract_fraction(line)
        if line.kind == FermentableKind.MASH_GRAIN and counted < MASHED_FROM:
            mashed = typed(Kind.FRACTION, MASHED)
            yield doubt(
                Severity.CARE,
                Place("fermentables", line=line.line_id),
                "needs-mash",
                "{name} must be mashed: of a steep {0} of extract are counted for a kilogram, and "
                "haze comes with it. Half an hour at {1} to {2} may give up to {3}, and the "
                "range reaches that far; a longer rest there would be a mash. Take malt extract "
                "in its place, or type the yield of your mash.",
                (Kind.MASS, counted),
                (Kind.TEMPERATURE, CONVERTING_C[1]),
                (Kind.TEMPERATURE, CONVERTING_C[2]),
                (Kind.MASS, BASE_MALT_YIELD),
                name=_named(line.name),
                fix=ChangeLine(
                    "fermentables",
                    line.line_id,
                    (("extract", mashed),),
                    say("count-mashed", "Count it as mashed, {0}", (Kind.FRACTION, mashed)),
                ),
            )


def extract_darkens(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Pale beers of malt extract come out darker than computed."""
    extract = [line for line in recipe.fermentables if line.kind in MALT_EXTRACTS]
    points = sum(day.gives[line.line_id].points for line in extract if line.line_id in day.gives)
    extract_kg_l = points / (SUCROSE_PPG * POINTS_L_PER_KG_OF_PPG)
    if shown_darkening(float(day.beer.colour_srm), extract_kg_l) >= CLEARLY:
        low, high = DARKER_SRM
        yield doubt(
            Severity.NOTE,
            Place("fermentables"),
            "extract-darkens",
            "Pale beers of malt extract come out {0} to {1} darker than computed, for it has been "
            "boiled before; the upper part of the range is for that.",
            (Kind.BEER_COLOUR, low),
            (Kind.BEER_COLOUR, high),
        )


def longer_than_the_boil(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """A time left that is longer than the boil means its start."""
    boil = number(recipe.process, "boil_time")
    for name in ("fermentables", "hops", "extras"):
        for line in lines_of(recipe, name):
            when = line.when
            if when.stage is Stage.BOIL and when.minutes > boil:
                yield doubt(
                    Severity.NOTE,
                    Place(name, line=line.line_id),
                    "longer-than-boil",
                    "{name} is to boil {0}, but the boil lasts {1}: it goes in at the start.",
                    (Kind.TIME, when.minutes),
                    (Kind.TIME, boil),
                    name=_named(line.name),
                    fix=ChangeLine(
                        name,
                        line.line_id,
                        (("when", When(Stage.BOIL, f"boil {boil:g} min", boil)),),
                        say("boil-it", "Boil it {minutes} min", minutes=Number(f"{boil:g}")),
                    ),
                )


def alpha_acid_doubtful(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Alpha acid that is unknown, or higher than any hop's."""
    for hop in recipe.hops:
        about = Place("hops", line=hop.line_id)
        if hop.when.stage is Stage.DRY_HOP:
            continue
        if hop.alpha is None:
            yield doubt(
                Severity.CARE,
                about,
                "alpha-unknown",
                "The alpha acid of {name} is not known; {0} is assumed. It is printed on the "
                "packet.",
                (Kind.FRACTION, DEFAULT_ALPHA),
                name=_named(hop.name),
            )
        elif alpha_acid(hop) > HIGHEST_ALPHA:
            yield doubt(
                Severity.CARE,
                about,
                "alpha-too-high",
                "{name} with {0} of alpha acid: no hop has more than {1}. Check the packet.",
                (Kind.FRACTION, alpha_acid(hop)),
                (Kind.FRACTION, HIGHEST_ALPHA),
                name=_named(hop.name),
            )


def too_bitter_for_the_pot(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """More hops than the pot dissolves, or more bitterness than a small pot carries."""
    undissolved = float(day.beer.undissolved_ibu)
    if undissolved > WORTH_SAYING * float(day.beer.bitterness_ibu):
        yield doubt(
            Severity.CARE,
            Place("hops"),
            "more-hops-than-dissolve",
            "So many hops may not dissolve in the {0} that are boiled: the forecast of {1} may be "
            "too high by up to {2}. Boil more water, or take fewer hops.",
            (Kind.VOLUME, float(day.fermenter.in_pot_l + day.pot.evaporated_l)),
            (Kind.BITTERNESS, float(day.beer.bitterness_ibu)),
            (Kind.BITTERNESS, undissolved),
        )
    elif float(day.fermenter.pot_ibu) > POT_CEILING_IBU:
        yield doubt(
            Severity.CARE,
            Place("hops"),
            "pot-bitterness",
            "{0} in the pot before topping up is above the {1} that a pot carries in "
            "practice; the beer may be less bitter than forecast. Boil more water, or accept "
            "less bitterness.",
            (Kind.BITTERNESS, float(day.fermenter.pot_ibu)),
            (Kind.BITTERNESS, POT_CEILING_IBU),
        )


def much_sugar(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Sugar brings no food for yeast."""
    points = 1000.0 * (float(day.beer.original_gravity) - 1.0)
    sugar = sum(
        day.gives[line.line_id].points
        for line in recipe.fermentables
        if line.kind == FermentableKind.SUGAR and line.line_id in day.gives
    )
    if points > 5.0 and sugar / points > SUGAR_SHARE:
        yield doubt(
            Severity.NOTE,
            Place("fermentables"),
            "much-sugar",
            "{0} of the gravity is sugar, which brings no food for yeast: add yeast nutrient, "
            "and expect a thin, dry beer.",
            (Kind.FRACTION, sugar / points),
        )


def extract_could_go_late(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Strong wort in a small pot darkens, and may take bitterness away."""
    boil = number(recipe.process, "boil_time")
    if float(day.pot.boil_gravity_start) < 1.060 or boil < 30.0:
        return
    early = [
        line
        for line in recipe.fermentables
        if line.kind in (FermentableKind.LIQUID_EXTRACT, FermentableKind.DRY_EXTRACT)
        and not line.locked
        and line.when.stage is Stage.BOIL
        and line.when.minutes > 20.0
    ]
    if early:
        most = max(early, key=lambda line: line.amount.value if line.amount else 0.0)
        fix = ChangeLine(
            "fermentables",
            most.line_id,
            (("when", When(Stage.BOIL, "boil 15 min", 15.0)),),
            say("put-it-in-late", "Put it in 15 min before the end"),
        )
        yield replace(
            doubt(
                Severity.NOTE,
                Place("fermentables", line=most.line_id),
                "extract-early",
                "The boil starts at {0}. {name} in the last 15 min keeps the beer paler.",
                (Kind.GRAVITY, float(day.pot.boil_gravity_start)),
                name=_named(most.name),
                fix=fix,
            ),
            says=lambda: _early_extract(day, most.name, beer_of(fix.apply(recipe), day.began)),
        )


def _early_extract(day: Day, name: str, late: Beer) -> Message:
    """Return what is said of an extract beside the beer that it makes if it goes in late."""
    gain = float(late.bitterness_ibu) - float(day.beer.bitterness_ibu)
    start = (Kind.GRAVITY, float(day.pot.boil_gravity_start))
    return say(
        "extract-early",
        "The boil starts at {0}. {name} in the last 15 min keeps the beer paler and brings up to "
        "{1} more from the same hops, or none."
        if gain >= LEAST_GAIN_IBU
        else "The boil starts at {0}. {name} in the last 15 min keeps the beer paler.",
        *((start, (Kind.BITTERNESS, gain)) if gain >= LEAST_GAIN_IBU else (start,)),
        name=_named(name),
    )


FINDERS = (
    no_hops,
    no_amount,
    needs_a_mash,
    extract_darkens,
    longer_than_the_boil,
    alpha_acid_doubtful,
    too_bitter_for_the_pot,
    much_sugar,
    extract_could_go_late,
)
