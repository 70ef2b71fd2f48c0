"""A first bill for a wish: how strong, how bitter, how dark, in which pot and fermenter.

It is solved through the day, one target by one line at a time, in turns until all hold: extract for
the strength, grain for the colour, the bittering hop for the bitterness, water for the pot. It is a
place to start from, not a recipe of anyone's.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from designer.brewday.aiming import Means, make_it
from designer.brewday.cures import rounded_down
from designer.brewday.day import brew
from designer.brewday.findings import findings
from designer.recipe.document import Fermentable, Fermenter, Hop, Pot, Process, Recipe, Yeast
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.named import lines_of
from designer.recipe.quantity import Kind, Quantity, Stage, When

TURNS = 4
EXTRACT_IN_TIME = 0.4
"""Share of the extract that boils from the start; the rest goes in late, which keeps beer pale."""

GRAIN_FROM_SRM, ROAST_FROM_SRM = 5.0, 20.0
CRYSTAL_KG_PER_L, AROMA_KG_PER_L = 0.02, 0.001
Weighed = TypeVar("Weighed", Fermentable, Hop)
CURED = ("pot-overflows", "foam-room")


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted: original gravity, IBU, SRM, and the size of pot and fermenter in litres."""

    original_gravity: float
    bitterness_ibu: float
    colour_srm: float
    pot_l: float
    fermenter_l: float


@dataclass(frozen=True, slots=True)
class Larder:
    """What the bill is made of: lines with their figures; their amounts are not looked at."""

    extract: Fermentable
    late_extract: Fermentable
    crystal: Fermentable
    roast: Fermentable
    bittering: Hop
    aroma: Hop
    yeast: Yeast


def first_bill(wish: Wish, larder: Larder) -> Recipe:
    """Return a recipe that meets the wish as nearly as the larder allows; raises for none."""
    recipe = _begun(wish, larder)
    for _ in range(TURNS):
        recipe = _aimed(recipe, "original_gravity", wish.original_gravity, larder.late_extract.name)
        recipe = _coloured(recipe, wish.colour_srm, larder)
        recipe = _aimed(recipe, "bitterness_ibu", wish.bitterness_ibu, larder.bittering.name)
        recipe = _cured(recipe)
    return _as_weighed(recipe)


def _begun(wish: Wish, larder: Larder) -> Recipe:
    """A bill of about the right size, to be solved from."""
    batch = max(rounded_down(0.85 * wish.fermenter_l, 0.5), 0.5)
    start = max(rounded_down(min(0.68 * wish.pot_l, batch), 0.1), 0.1)
    extract_kg = batch * 1000.0 * (wish.original_gravity - 1.0) / 300.0
    boil, late = (When(Stage.BOIL, f"boil {t} min", float(t)) for t in (60, 15))
    lines = [
        replace(larder.extract, amount=_mass(EXTRACT_IN_TIME * extract_kg), when=boil),
        replace(larder.late_extract, amount=_mass((1.0 - EXTRACT_IN_TIME) * extract_kg), when=late),
    ]
    steep = When(Stage.STEEP, "steep")
    if wish.colour_srm >= GRAIN_FROM_SRM:
        crystal_kg = CRYSTAL_KG_PER_L * batch
        lines.append(replace(larder.crystal, amount=_mass(crystal_kg), when=steep))
    if wish.colour_srm >= ROAST_FROM_SRM:
        lines.append(replace(larder.roast, amount=_mass(0.01 * batch), when=steep))
    ten = When(Stage.BOIL, "boil 10 min", 10.0)
    hops = (
        replace(larder.bittering, amount=_mass(0.001 * batch), when=boil),
        replace(larder.aroma, amount=_mass(AROMA_KG_PER_L * batch), when=ten),
    )
    return with_line_ids(
        Recipe(
            name="First bill",
            pot=Pot(volume=typed(Kind.VOLUME, round(wish.pot_l, 3))),
            fermenter=Fermenter(volume=typed(Kind.VOLUME, round(wish.fermenter_l, 3))),
            process=Process(
                start_water=typed(Kind.VOLUME, round(start, 3)),
                top_up_to=typed(Kind.VOLUME, round(batch, 3)),
            ),
            fermentables=tuple(lines),
            hops=hops,
            yeast=larder.yeast,
        )
    )


def _aimed(recipe: Recipe, key: str, wanted: float, name: str) -> Recipe:
    """The recipe with the line of that name changed; as it was where that cannot reach."""
    lines = "hops" if key == "bitterness_ibu" else "fermentables"
    line = next((each for each in lines_of(recipe, lines) if each.name == name), None)
    if line is None:
        return recipe
    aim = make_it(recipe, key, wanted, Means(lines, line.line_id, line.name))
    return aim.edit.apply(recipe) if aim.edit is not None else recipe


def _coloured(recipe: Recipe, wanted_srm: float, larder: Larder) -> Recipe:
    name = larder.roast.name if wanted_srm >= ROAST_FROM_SRM else larder.crystal.name
    return _aimed(recipe, "colour_srm", wanted_srm, name)


def _cured(recipe: Recipe) -> Recipe:
    """The recipe with less water at the start, where the pot would be too full."""
    for each in findings(recipe, brew(recipe)):
        if each.code in CURED and each.fix is not None:
            recipe = each.fix.apply(recipe)
    return recipe


def _as_weighed(recipe: Recipe) -> Recipe:
    """Amounts as a kitchen weighs them: 5 g of extract and grain, half a gram of hops."""
    return replace(
        recipe,
        fermentables=tuple(_weighed(line, 0.005) for line in recipe.fermentables),
        hops=tuple(_weighed(hop, 0.0005) for hop in recipe.hops),
    )


def _weighed(line: Weighed, step: float) -> Weighed:
    kg = line.amount.value if line.amount is not None else 0.0
    return replace(line, amount=_mass(round(kg / step) * step))


def _mass(kg: float) -> Quantity:
    return typed(Kind.MASS, round(kg, 6))
