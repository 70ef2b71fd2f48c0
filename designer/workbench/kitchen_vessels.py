"""Pots and fermenters of the kitchen taken for a recipe, and those of a recipe kept."""

from __future__ import annotations

from designer.library.store.kitchen import FermenterRecord, PotRecord
from designer.recipe.document import Fermenter, Pot, Recipe
from designer.recipe.edits import ChangePart, ChangeRecipe, Edit, Together
from designer.recipe.message import say
from designer.recipe.quantity import Kind, Quantity
from designer.units import read


def pot_edit(recipe: Recipe, record: PotRecord) -> Edit:
    """Return the edit that brews the recipe in a pot of the kitchen, as one step."""
    pot = Pot(
        name=record.name,
        volume=_quantity(Kind.VOLUME, record.volume),
        diameter=_quantity(Kind.LENGTH, record.diameter),
        stove=record.stove or recipe.pot.stove,
        power=_quantity(Kind.POWER, record.power),
        heat_loss=_quantity(Kind.LOSS_RATE, record.heat_loss),
        foam_room=recipe.pot.foam_room,
        coil=_quantity(Kind.VOLUME, record.coil),
    )
    text = say("brew-in", "use the pot {name}", name=record.name)
    edits: list[Edit] = [ChangeRecipe("pot", pot, text)]
    for field, measured in measured_with(record):
        edits.append(ChangePart("process", field, measured, text))
    return Together(tuple(edits), text)


def measured_with(record: PotRecord) -> tuple[tuple[str, Quantity], ...]:
    """Return what was measured with a pot of the kitchen, as fields of the process."""
    kinds = (
        ("evaporation", Kind.EVAPORATION),
        ("cooling_constant", Kind.RATE),
        ("left_in_pot", Kind.VOLUME),
    )
    found = ((field, _quantity(kind, getattr(record, field))) for field, kind in kinds)
    return tuple((field, measured) for field, measured in found if measured is not None)


def fermenter_edit(recipe: Recipe, record: FermenterRecord) -> Edit:
    """Return the edit that ferments the recipe in a vessel of the kitchen."""
    fermenter = Fermenter(
        name=record.name,
        volume=_quantity(Kind.VOLUME, record.volume),
        marks=recipe.fermenter.marks,
        marks_hold=_quantity(Kind.FRACTION, record.marks_hold),
        kind=record.kind or recipe.fermenter.kind,
        headspace=recipe.fermenter.headspace,
    )
    return ChangeRecipe(
        "fermenter", fermenter, say("ferment-in", "use the fermenter {name}", name=record.name)
    )


def pot_record(recipe: Recipe) -> PotRecord:
    """Return the recipe's pot as the kitchen keeps it."""
    pot, process = recipe.pot, recipe.process
    return PotRecord(
        name=pot.name,
        volume=_text(pot.volume),
        diameter=_text(pot.diameter),
        stove=pot.stove,
        power=_text(pot.power),
        evaporation=_text(process.evaporation),
        heat_loss=_text(pot.heat_loss),
        coil=_text(pot.coil),
        cooling_constant=_text(process.cooling_constant),
        left_in_pot=_text(process.left_in_pot),
    )


def fermenter_record(recipe: Recipe) -> FermenterRecord:
    """Return the recipe's fermenter as the kitchen keeps it."""
    own = recipe.fermenter
    return FermenterRecord(
        own.name, volume=_text(own.volume), kind=own.kind, marks_hold=_text(own.marks_hold)
    )


def _quantity(kind: Kind, text: str) -> Quantity | None:
    return read(kind, text, kept=True) if text else None


def _text(quantity: Quantity | None) -> str:
    return quantity.text if quantity is not None else ""
