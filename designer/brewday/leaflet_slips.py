"""Slips that are made where a leaflet is typed in, each as the edit that would undo it.

How likely one is beside another is a judgement. The edits are tried on the day by whoever asks.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import AddLine, ChangeLine, ChangePart, Edit, RemoveLines, Together
from designer.recipe.message import Message, say
from designer.recipe.place import Place
from designer.recipe.quantity import Kind, Quantity, Stage, When

POUND_KG, US_GALLON_L, UK_GALLON_L = 0.45359237, 3.785411784, 4.54609
"""By definition."""
_VOLUMES = {"L": 1.0, "gal": US_GALLON_L, "imp gal": UK_GALLON_L}
_OTHER_MASS = {"kg": "lb", "lb": "kg"}
_MASSES = {"kg": 1.0, "g": 0.001, "lb": POUND_KG}
SMALLEST_L, LARGEST_L = 3.0, 80.0
SMALLEST_KG, LARGEST_KG = 0.05, 6.0
SUGAR_KG = 1.0
"""What leaflets most often ask to be added; common practice, no source."""


class Slip(NamedTuple):
    """What may have been typed wrongly: the edit for what was meant, and the question for it.

    `points` is what the edit makes, about, of all the extract, as a share; `makes_l` how much beer
    it makes, None where that stays. `unlikely` is 0 for the likeliest slips.
    """

    about: Place
    edit: Edit
    asks: Message
    points: float = 1.0
    makes_l: float | None = None
    unlikely: float = 0.0


def slips(recipe: Recipe, shares: dict[int, float]) -> Iterator[Slip]:
    """Yield what may have been typed wrongly of amounts and volume.

    `shares` tells by line_id what share of the gravity a line gives.
    """
    yield from _volume_slips(recipe)
    for line in recipe.fermentables:
        if line.amount is not None and line.amount.value > 0.0 and line.line_id in shares:
            yield from _mass_slips(line, line.amount, shares[line.line_id])
            if not is_grain(line.kind):
                yield from _count_slips(recipe, line, line.amount, shares[line.line_id])
    yield from _sugar_left_out(recipe, shares)


def _volume_slips(recipe: Recipe) -> Iterator[Slip]:
    makes = recipe.leaflet.makes
    if makes is None:
        return
    unit, figure = _unit_of(makes, _VOLUMES)
    for other, litres in _VOLUMES.items():
        if unit and other != unit:
            meant = Quantity(figure * litres, f"{figure:.6g} {other}")
            unlikely = 0.1 if "L" in (unit, other) else 0.0
            yield from _volume_slip(recipe, makes, meant, unlikely)
    for factor in (10.0, 0.1):
        if unit:
            meant = Quantity(makes.value * factor, f"{figure * factor:.6g} {unit}")
            yield from _volume_slip(recipe, makes, meant, 0.3)


def _volume_slip(
    recipe: Recipe, makes: Quantity, meant: Quantity, unlikely: float
) -> Iterator[Slip]:
    if not SMALLEST_L <= meant.value <= LARGEST_L:
        return
    text = say("makes-meant", "Make up to {0}", (Kind.VOLUME, meant))
    edits: list[Edit] = [
        ChangePart("leaflet", "makes", meant, text),
        ChangePart("process", "top_up_to", meant, text),
    ]
    edits += [
        ChangeLine("fermentables", line.line_id, (("label_volume", meant),), text)
        for line in recipe.fermentables
        if line.label_volume is not None and line.label_volume.value == makes.value
    ]
    asks = say(
        "slip-volume",
        "Does the kit make {0}, not {1}?",
        (Kind.VOLUME, meant),
        (Kind.VOLUME, makes),
    )
    about = Place("process", "top_up_to")
    edit = Together(tuple(edits), text)
    yield Slip(about, edit, asks, makes_l=meant.value, unlikely=unlikely)


def _mass_slips(line: Fermentable, amount: Quantity, share: float) -> Iterator[Slip]:
    unit, figure = _unit_of(amount, _MASSES)
    if not unit:
        return
    meants = [(Quantity(amount.value * by, f"{figure * by:.6g} {unit}"), 0.3) for by in (10.0, 0.1)]
    other = _OTHER_MASS.get(unit)
    if other is not None:
        meants.append((Quantity(figure * _MASSES[other], f"{figure:.6g} {other}"), 0.1))
    for meant, unlikely in meants:
        if SMALLEST_KG <= meant.value <= LARGEST_KG:
            figures = ((Kind.MASS, meant), (Kind.MASS, amount))
            asks = say(
                "slip-amount", "Did you mean {0} of {name}, not {1}?", *figures, name=line.name
            )
            text = say("amount-meant", "Make it {0} of {name}", figures[0], name=line.name)
            points = 1.0 + share * (meant.value / amount.value - 1.0)
            yield _of_line(line, (("amount", meant),), asks, text, points, unlikely)


def _of_line(
    line: Fermentable,
    changes: tuple[tuple[str, Any], ...],
    asks: Message,
    text: Message,
    points: float,
    unlikely: float,
) -> Slip:
    edit = ChangeLine("fermentables", line.line_id, changes, text)
    about = Place("fermentables", "amount", line.line_id)
    return Slip(about, edit, asks, points, unlikely=unlikely)


def _count_slips(
    recipe: Recipe, line: Fermentable, amount: Quantity, share: float
) -> Iterator[Slip]:
    """One of several alike too few or too many, or two typed as one."""
    figure, about = (Kind.MASS, amount), Place("fermentables", "", line.line_id)
    alike = [each for each in recipe.fermentables if _is_alike(each, line)]
    if alike[0] is line:  # of several alike it is asked once
        asks = say("slip-forgotten", "Is another {0} of {name} missing?", figure, name=line.name)
        text = say("add-another", "Add another {0} of {name}", figure, name=line.name)
        add = AddLine("fermentables", line, text, recipe.fermentables.index(line) + 1)
        yield Slip(about, add, asks, 1.0 + share, unlikely=0.5)
    if len(alike) > 1 and alike[-1] is line:
        asks = say("slip-twice", "Is {0} of {name} there twice?", figure, name=line.name)
        text = say("take-one-out", "Remove one {name}", name=line.name)
        out = RemoveLines("fermentables", frozenset({line.line_id}), text)
        yield Slip(about, out, asks, 1.0 - share, unlikely=0.2)
    elif len(alike) == 1:
        unit, typed = _unit_of(amount, _MASSES)
        half = Quantity(amount.value / 2.0, f"{typed / 2.0:.6g} {unit}")
        if unit and half.value >= SMALLEST_KG:
            figures = ((Kind.MASS, amount), (Kind.MASS, half))
            asks = say("slip-doubled", "Does the kit hold {1} of {name}, not {0}?", *figures,
                       name=line.name)  # fmt: skip
            text = say("amount-meant", "Make it {0} of {name}", figures[1], name=line.name)
            yield _of_line(line, (("amount", half),), asks, text, 1.0 - share / 2.0, 0.6)


def _is_alike(line: Fermentable, other: Fermentable) -> bool:
    return (line.name, line.kind, line.amount) == (other.name, other.kind, other.amount)


def _sugar_left_out(recipe: Recipe, shares: dict[int, float]) -> Iterator[Slip]:
    """A tin by itself, whose leaflet says to add sugar."""
    tins = [line for line in recipe.fermentables if line.line_id in shares]
    if len(tins) != 1 or tins[0].kind != FermentableKind.HOPPED_KIT or tins[0].amount is None:
        return
    when = When(Stage.BOIL, "boil 5 min", 5.0)
    added = Quantity(SUGAR_KG, f"{SUGAR_KG:g} kg")
    sugar = Fermentable("Sugar", FermentableKind.SUGAR, added, when, locked=True)
    asks = say("slip-sugar", "Is the {0} of sugar to be added missing?", (Kind.MASS, added))
    text = say("add-sugar", "Add {0} of sugar", (Kind.MASS, added))
    points = 1.0 + SUGAR_KG / (0.8 * tins[0].amount.value)
    place = Place("fermentables", "", tins[0].line_id)
    yield Slip(place, AddLine("fermentables", sugar, text), asks, points, unlikely=0.4)


def _unit_of(quantity: Quantity, units: dict[str, float]) -> tuple[str, float]:
    """Return which of the units a plain figure was typed in, and the figure; "" for none."""
    words = quantity.text.strip().lstrip("0123456789.,½¼¾ ").lower()
    for unit, base in units.items():
        known = {unit.lower(), *_LONG.get(unit, ())}
        if words in known:
            return unit, quantity.value / base
    return "", 0.0


_LONG = {
    "L": ("litre", "litres", "liter", "liters"),
    "gal": ("gallon", "gallons", "us gal", "us gallons"),
    "imp gal": ("imperial gallon", "imperial gallons", "uk gal", "imp gallons"),
    "kg": ("kilo", "kilos", "kilogram", "kilograms"),
    "g": ("gram", "grams"),
    "lb": ("lbs", "pound", "pounds"),
}
