"""Findings about wort that is not there: nothing weighed in, nothing moved, or next to nothing."""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from designer.brewday.cures import set_volume
from designer.brewday.results import Day, Finding, doubt
from designer.recipe.document import Hop, Recipe
from designer.recipe.edits import ChangeLine
from designer.recipe.fields import facts_of, number
from designer.recipe.kind_defaults import extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.message import say
from designer.recipe.named import Line
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Stage
from designer.recipe.severity import Severity

LEAST_GRAVITY_SG = 1.001
"""Below it there is nothing that could be called wort."""
LEAST_MOVED = 0.01
"""Share of the pot's wort; a pot that gives less gives nothing."""
_DRY = (Stage.FERMENTER, Stage.DRY_HOP)


def no_wort(recipe: Recipe, day: Day) -> Iterator[Finding]:
    """What keeps the fermenter from getting wort: the first cause that holds."""
    found = _nothing_moved(recipe, day)
    if found is None and float(day.beer.original_gravity) < LEAST_GRAVITY_SG:
        found = _nothing_weighed_in(recipe) or _too_thin(recipe, day)
    if found is not None:
        yield found


def _nothing_weighed_in(recipe: Recipe) -> Finding | None:
    weighed_kg = fsum(_amount(line) for line in recipe.fermentables)
    if _extract_kg(recipe) > 0.0:
        return None
    if weighed_kg == 0.0:
        return doubt(
            Severity.STOP,
            Place("recipe"),
            "nothing-to-ferment",
            "There is nothing to ferment yet. Add malt extract or sugar.",
        )
    return doubt(
        Severity.STOP,
        Place("recipe"),
        "nothing-to-ferment",
        "None of the {0} weighed in gives extract, so there is nothing to ferment. Add malt "
        "extract or sugar, or look at the extract yields.",
        (Kind.MASS, weighed_kg),
    )


def _nothing_moved(recipe: Recipe, day: Day) -> Finding | None:
    """Wort stays in the pot, below the outlet or in the hops, and none is moved."""
    trub, hops, moved = (
        float(each)
        for each in (
            day.fermenter.lost_to_trub_l,
            day.fermenter.lost_to_hops_l,
            day.fermenter.from_pot_l,
        )
    )
    in_pot = trub + hops + moved
    if moved >= LEAST_MOVED * in_pot or _extract_kg(recipe) == 0.0:
        return None
    return _left_in_pot(recipe, in_pot) if trub >= hops else _in_the_hops(recipe, in_pot - trub)


def _left_in_pot(recipe: Recipe, in_pot_l: float) -> Finding:
    usual = facts_of(recipe.process, "left_in_pot").default or 0.0
    helps = usual < 0.5 * in_pot_l
    return doubt(
        Severity.STOP,
        Place("process", "left_in_pot"),
        "all-left-in-pot",
        "{0} are to be left in the pot, and it holds {1} in the end: no wort is moved. Leave "
        "less behind; {2} are usual.",
        (Kind.VOLUME, number(recipe.process, "left_in_pot")),
        (Kind.VOLUME, in_pot_l),
        (Kind.VOLUME, usual),
        fix=set_volume("left_in_pot", usual, say("leave", "Leave {0}")) if helps else None,
    )


def _in_the_hops(recipe: Recipe, wort_l: float) -> Finding | None:
    boiled = [hop for hop in recipe.hops if hop.when.stage not in _DRY]
    if not boiled:
        return None
    most = max(boiled, key=_amount)
    return doubt(
        Severity.STOP,
        Place("hops", line=most.line_id),
        "hops-hold-all",
        "{0} of hops in the pot soak up all of its {1}: no wort is moved. Take less; a recipe "
        "has grams of hops, not kilograms.",
        (Kind.MASS, fsum(_amount(hop) for hop in boiled)),
        (Kind.VOLUME, wort_l),
        fix=_grams_for_kilograms(most),
    )


def _grams_for_kilograms(hop: Hop) -> ChangeLine | None:
    """Return the edit for who typed kilograms and meant grams."""
    kg = _amount(hop)
    if not 1.0 <= kg <= 1000.0:
        return None
    amount = typed(Kind.MASS, kg / 1000.0, unit="g")
    text = say("make-it", "Make it {0}", (Kind.MASS, amount))
    return ChangeLine("hops", hop.line_id, (("amount", amount),), text)


def _too_thin(recipe: Recipe, day: Day) -> Finding:
    return doubt(
        Severity.STOP,
        Place("process", "top_up_to"),
        "nothing-to-ferment",
        "{0} of extract in {1} make a wort of {2}: next to nothing to ferment. Add malt "
        "extract or sugar, or take less water.",
        (Kind.MASS, _extract_kg(recipe)),
        (Kind.VOLUME, float(day.fermenter.batch_l)),
        (Kind.GRAVITY, float(day.beer.original_gravity)),
    )


def _extract_kg(recipe: Recipe) -> float:
    return fsum(_amount(line) * extract_fraction(line) for line in recipe.fermentables)


def _amount(line: Line) -> float:
    return line.amount.value if line.amount is not None else 0.0


FINDERS = (no_wort,)
