"""A reading out of what was typed into a blank: units, the sample's temperature, how it was read.

A gravity may have the temperature of its sample behind it, `1.046 at 24 °C`; it is corrected to
20 °C for the hydrometer of the recipe, with what that shows in plain water taken off. One in °Bx is
a refractometer's. A volume may be typed as the depth of a dipstick in the pot (`18 cm`), or as what
it weighs without its vessel (`7.1 kg`).
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable

from designer.brewday.instrument import true_gravity
from designer.brewday.measured.readings import By, Measured, Reading
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import refused
from designer.recipe.plan import is_planned, recipe_of_boil
from designer.recipe.quantity import Kind, Quantity
from designer.sheet.stove import Blank
from designer.wort.density import gravity_from_plato, plato_from_gravity
from designer.wort.refractometer import plato_from_brix

Read = Callable[[Kind, str], Quantity]
"""How a text is read as a quantity of a kind; raises RefusedInputError."""
HOTTEST_SAMPLE_C = 60.0
"""Beyond it the correction of a hydrometer says nothing (`designer.wort.hydrometer`)."""
_Found = tuple[float, By, float | None]
_AT = re.compile(r"\s+at\s+|\s*@\s*", re.IGNORECASE)
_BRIX = re.compile(r"(?:°\s*|º\s*)?(?:bx|brix)\.?\s*$", re.IGNORECASE)
_IN_POT = (
    Measured.WATER_IN,
    Measured.BOIL_START_VOLUME,
    Measured.BOIL_VOLUME,
    Measured.BOIL_END_VOLUME,
)
_LEAST, _MOST = {Kind.TEMPERATURE: -20.0, Kind.GRAVITY: 0.9}, {Kind.FRACTION: 1.0}


def typed_reading(
    blank: Blank,
    typed: str,
    recipe: Recipe,
    read: Read,
    weighs: Callable[[Blank], float] | None = None,
) -> Reading:
    """Return what was measured at a blank, corrected, in base units.

    `weighs` tells what a litre of it weighs, kg. Raises RefusedInputError with what would be taken.
    """
    value, by, spread = _value(blank, typed, recipe, read, weighs)
    least, most = _LEAST.get(blank.kind, 0.0), _MOST.get(blank.kind, math.inf)
    if not least <= value <= most:
        raise refused(
            "no-such-reading",
            "{0} cannot be measured; is there a slip in it?",
            (blank.kind, value),
        )
    return Reading(
        blank.what,
        value,
        by,
        spread,
        blank.boil,
        blank.fermenter,
        blank.left_min,
        blank.lines,
        blank.line_id,
    )


def _value(
    blank: Blank,
    typed: str,
    recipe: Recipe,
    read: Read,
    weighs: Callable[[Blank], float] | None,
) -> _Found:
    if blank.kind is Kind.GRAVITY:
        return _gravity(blank, typed, recipe, read)
    try:
        found = read(blank.kind, typed)
    except RefusedInputError:
        otherwise = _depth(blank, typed, recipe, read) or _weight(blank, typed, read, weighs)
        if otherwise is None:
            raise
        return otherwise
    return found.value, blank.by, found.spread


def _gravity(blank: Blank, typed: str, recipe: Recipe, read: Read) -> _Found:
    text, *at = _AT.split(typed, maxsplit=1)
    found = read(Kind.GRAVITY, text)
    if _BRIX.search(text) or (blank.by is By.REFRACTOMETER and not at):
        brix = float(plato_from_gravity(found.value))
        by_wort = number(recipe.process, "wort_correction")
        gravity = float(gravity_from_plato(plato_from_brix(brix, by_wort)))
        return gravity, By.REFRACTOMETER, found.spread
    made_for_c = number(recipe.process, "hydrometer_made_for")
    sample_c = read(Kind.TEMPERATURE, at[0]).value if at else made_for_c
    return corrected(found.value, sample_c, recipe), blank.by, found.spread


def corrected(shown_sg: float, sample_c: float, recipe: Recipe) -> float:
    """Return the gravity at 20/20 °C of a sample, from what the recipe's hydrometer shows in it.

    Raises RefusedInputError for a sample so hot that it says nothing.
    """
    if not 0.0 <= sample_c <= HOTTEST_SAMPLE_C:
        raise refused(
            "sample-too-hot",
            "At {0} a hydrometer says nothing; cool the sample below {1}, best to {2}, and read "
            "again.",
            (Kind.TEMPERATURE, sample_c),
            (Kind.TEMPERATURE, 40.0),
            (Kind.TEMPERATURE, number(recipe.process, "hydrometer_made_for")),
        )
    return true_gravity(shown_sg, sample_c, recipe.process)


def _depth(blank: Blank, typed: str, recipe: Recipe, read: Read) -> _Found | None:
    """Return the litres in the pot by the depth of a dipstick; None where it is no depth."""
    if blank.what not in _IN_POT:
        return None
    try:
        deep = read(Kind.LENGTH, typed)
    except RefusedInputError:
        return None
    planned = is_planned(recipe)
    pot = (recipe_of_boil(recipe, blank.boil) if planned else recipe).pot
    if pot.diameter is None:
        raise refused(
            "depth-without-diameter",
            "For a depth the diameter of the pot is needed; write it into the recipe, or read the "
            "litres at a mark.",
        )
    litres_a_metre = 1000.0 * math.pi / 4.0 * pot.diameter.value**2
    spread = None if deep.spread is None else deep.spread * litres_a_metre
    return deep.value * litres_a_metre, By.DIPSTICK, spread


def _weight(
    blank: Blank, typed: str, read: Read, weighs: Callable[[Blank], float] | None
) -> _Found | None:
    """Return the litres of what was weighed; None where it is no weight."""
    if weighs is None or blank.kind is not Kind.VOLUME:
        return None
    try:
        mass = read(Kind.MASS, typed)
    except RefusedInputError:
        return None
    kg_per_l = weighs(blank)
    spread = None if mass.spread is None else mass.spread / kg_per_l
    return mass.value / kg_per_l, By.SCALE, spread
