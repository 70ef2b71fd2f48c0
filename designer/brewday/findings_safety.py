"""Findings about what hurts people: wort too hot for glass or hands, bottles that burst."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.findings_lines import NAMELESS
from designer.brewday.findings_wort import LEAST_GRAVITY_SG
from designer.brewday.hot_wort import (
    HOTTEST_INTO_GLASS_C,
    HOTTEST_TO_POUR_C,
    SCALDS_C,
    cracks_glass,
    hottest_to_pour_c,
    takes_hot_water,
)
from designer.brewday.results import Day, Finding, doubt
from designer.recipe.choices import is_grain
from designer.recipe.document import Recipe
from designer.recipe.edits import ChangeLine, ChangePart
from designer.recipe.fields import number_or_none
from designer.recipe.kinds import typed
from designer.recipe.message import say, word
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage, When
from designer.recipe.severity import Severity
from designer.wort.carbonation import WARMEST_STORE_C


def hot_wort_moved(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Wort that leaves the pot so hot that it cracks glass or scalds."""
    hot, kind = float(day.fermenter.cool_to_c), recipe.fermenter.kind
    if float(day.fermenter.from_pot_l) <= 0.0:
        return
    if cracks_glass(kind, hot):
        yield doubt(
            Severity.STOP,
            Place("process", "cool_to"),
            "hot-into-glass",
            "Wort at {0} goes into glass: it cracks, and hot wort and shards go over your feet. "
            "Cool it in the pot to {1} or below, or take a bucket.",
            (Kind.TEMPERATURE, hot),
            (Kind.TEMPERATURE, hottest_to_pour_c(kind)),
            fix=_cool_further(recipe, hottest_to_pour_c(kind)),
        )
    elif hot > SCALDS_C:
        yield doubt(
            Severity.CARE,
            Place("process", "cool_to"),
            "hot-to-pour",
            "Wort at {0} scalds within seconds and softens plastic: cool it in the pot to {1} "
            "before you pour it.",
            (Kind.TEMPERATURE, hot),
            (Kind.TEMPERATURE, HOTTEST_TO_POUR_C),
            fix=_cool_further(recipe, HOTTEST_TO_POUR_C),
        )


def _cool_further(recipe: Recipe, temp_c: float) -> ChangePart | None:
    """Return the edit that cools the pot so far; None where it is not what was typed that is hot.

    The bath is then too warm, and another number would not cool it.
    """
    wanted = number_or_none(recipe.process, "cool_to")
    if wanted is None or wanted <= temp_c:
        return None
    temp = typed(Kind.TEMPERATURE, temp_c, ".0f")
    text = say("cool-in-pot-to", "Cool in the pot to {0}", (Kind.TEMPERATURE, temp))
    return ChangePart("process", "cool_to", temp, text)


def hot_water_on_extract(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Extract for a fermenter of glass: the hot water that it is dissolved in cracks it."""
    if takes_hot_water(recipe.fermenter.kind):
        return
    for line in recipe.fermentables:
        goes_in = line.when.stage in (Stage.FERMENTER, Stage.DRY_HOP)
        if not goes_in or is_grain(line.kind) or line.amount is None or line.amount.value <= 0.0:
            continue
        at_flame_out = When(Stage.FLAME_OUT, "flame-out")
        yield doubt(
            Severity.CARE,
            Place("fermentables", line=line.line_id),
            "hot-water-into-glass",
            "{name} for the fermenter is dissolved in hot water, which cracks glass: dissolve it "
            "in a pan and let it cool to {0} first, or stir it in at flame-out.",
            (Kind.TEMPERATURE, HOTTEST_INTO_GLASS_C),
            name=line.name or NAMELESS,
            fix=ChangeLine(
                "fermentables",
                line.line_id,
                (("when", at_flame_out),),
                say("in-at-flame-out", "Put it in at flame-out"),
            ),
        )


def bottle_pressure(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """Bottles that may burst, or bear more than they do with ease."""
    bottles = day.beer.bottled
    if bottles is None or bottles.is_at_ease:
        return
    kind, most = word(bottles.kind), (Kind.PRESSURE, bottles.most_bar)
    if not bottles.is_made_for_pressure:
        yield doubt(
            Severity.STOP,
            Place("process", "bottle"),
            "bottle-pressure",
            "Bottles: {bottle}. They are not made for pressure: with {0} in them they burst and "
            "throw shards. No priming sugar is given. Take beer or sparkling-wine bottles, "
            "soft-drink bottles of plastic, or a keg.",
            most,
            bottle=kind,
        )
        return
    volumes = bottles.comfortable_volumes
    warm, comfortable = (Kind.TEMPERATURE, WARMEST_STORE_C), (Kind.CARBONATION, volumes)
    if bottles.is_refused:
        yield doubt(
            Severity.STOP,
            Place("process", "carbonation"),
            "bottle-pressure",
            "Bottles: {bottle}. The fullest may come to {0} at {1}, and above {2} they burst and "
            "throw shards. No priming sugar is given. Aim at {3}, take bottles made for more, or "
            "a keg.",
            most,
            warm,
            (Kind.PRESSURE, bottles.never_bar),
            comfortable,
            bottle=kind,
            fix=_carbonate_to(volumes),
        )
    elif float(day.beer.original_gravity) >= LEAST_GRAVITY_SG:
        yield doubt(
            Severity.CARE,
            Place("process", "carbonation"),
            "bottle-strain",
            "Bottles: {bottle}. The fullest may come to {0} at {1}, and {2} is what they bear "
            "with ease. Say which bottles you have, or aim at {3}.",
            most,
            warm,
            (Kind.PRESSURE, bottles.comfortable_bar),
            comfortable,
            bottle=kind,
            fix=_carbonate_to(volumes),
        )


def _carbonate_to(volumes: float) -> ChangePart:
    aim = typed(Kind.CARBONATION, volumes)
    text = say("carbonate-to", "Carbonate to {0}", (Kind.CARBONATION, aim))
    return ChangePart("process", "carbonation", aim, text)


FINDERS = (hot_wort_moved, hot_water_on_extract, bottle_pressure)
