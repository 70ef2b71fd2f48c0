"""A kit as its box has it, made a recipe: its contents locked, brewed with a short boil."""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.recipe.choices import FermentableKind
from designer.recipe.document import Fermentable, Fermenter, Pot, Process, Recipe
from designer.recipe.edits import with_line_ids
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.translation import tr
from designer.workbench.first_recipe import usual_yeast

LATE = When(Stage.BOIL, "boil 5 min", 5.0)
"""A kit is boiled and hopped already: its extract goes in when the water has boiled."""


@dataclass(frozen=True, slots=True)
class Kit:
    """What stands on the box, and the vessels in hand.

    `amount` of hopped extract and `more` dry extract or sugar (a mass of 0 for none) are made for a
    `volume` of beer of a `bitterness`.
    """

    name: str
    amount: Quantity
    more: Quantity
    volume: Quantity
    pot: Quantity
    fermenter: Quantity
    bitterness: Quantity


def recipe_of_kit(kit: Kit) -> Recipe:
    """Return the recipe of a kit; only water, times and what is left out may change in it."""
    hopped = Fermentable(
        "Hopped kit extract",
        FermentableKind.HOPPED_KIT,
        kit.amount,
        LATE,
        label_bitterness=kit.bitterness,
        label_volume=kit.volume,
        locked=True,
    )
    dry = Fermentable("Dry malt extract", FermentableKind.DRY_EXTRACT, kit.more, LATE, locked=True)
    start = round(min(0.6 * kit.pot.value, kit.volume.value), 1)
    return with_line_ids(
        Recipe(
            name=kit.name.strip() or tr("My kit"),
            pot=Pot(volume=kit.pot),
            fermenter=Fermenter(volume=kit.fermenter),
            process=Process(
                start_water=typed(Kind.VOLUME, start),
                boil_time=typed(Kind.TIME, 10.0),
                top_up_to=kit.volume,
            ),
            fermentables=(hopped, dry) if kit.more.value > 0.0 else (hopped,),
            yeast=replace(usual_yeast(), name="Packet from the kit"),
        )
    )
