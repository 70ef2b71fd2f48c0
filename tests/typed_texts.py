"""Texts as they are typed into fields of quantities, drawn by chance, and what became of them."""

from __future__ import annotations

from dataclasses import fields, replace
from random import Random
from typing import NamedTuple

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.library.recipe_file import document_text, read_document
from designer.recipe.document import LINE_TYPES, PART_TYPES, Recipe
from designer.recipe.fields import FieldFacts, quantity_fields
from designer.recipe.quantity import Kind, Quantity
from designer.units import ShownUnits, read
from designer.units.quick_words import FACTORS
from designer.window.parts.display_format import DisplayFormat

OTHER_UNITS = {
    Kind.TEMPERATURE: ("°C", "C", "F", "°F", "degrees F", "K"),
    Kind.TEMPERATURE_DIFFERENCE: ("°C", "F", "K"),
    Kind.GRAVITY: ("", "SG", "°P", "points", "Brix"),
    Kind.MALT_COLOUR: ("°L", "EBC", "SRM", "L"),
    Kind.BEER_COLOUR: ("SRM", "EBC"),
    Kind.MONEY: ("", "€", "EUR", "kr"),
    Kind.DOSE: ("g", "mL", "tablet", "packets", "tsp", "oz", "kg"),
    Kind.NUMBER: ("",),
}


class Unchanging:
    """A signal that is never given."""

    def connect(self, slot: object) -> None:
        """Have nothing to tell."""


class Preferences:
    """The preferences that decide how a typed text is read."""

    def __init__(self, units: ShownUnits, *, comma: bool) -> None:
        self.units, self.decimal_comma = units, comma
        self.gravity, self.colour, self.ingredient_colour = "sg", "srm", "typed"
        self.changed = Unchanging()


class Field(NamedTuple):
    """A field of quantities: the part or line it is of, its name and declaration."""

    of: str
    name: str
    facts: FieldFacts


FIELDS = tuple(
    Field(of, each.name, facts)
    for of, part in (PART_TYPES | LINE_TYPES).items()
    for each, facts in quantity_fields(part)
)


def number(draw: Random) -> str:
    """A number as somebody might write it, with either sign, grouped or not, whole or broken."""
    whole = draw.choice(("0", "1", "2", "5", "7", "12", "60", "65", "250", "999", "1050", "1500"))
    part = draw.choice(("5", "25", "250", "500", "000", "050", "2", "75", "125"))
    sign, other = draw.choice((",.", ".,"))
    return draw.choice(
        (
            whole,
            f"{whole}{sign}{part}",
            f"{whole}{sign}{part}",
            f"{whole}{sign}{part}",
            f"{draw.randint(1, 20)}{sign}{draw.randint(0, 999):03}",
            f"{draw.randint(1, 20)}{sign}{draw.randint(0, 999):03}{other}{part}",
            f"{draw.randint(1, 9)}{sign}500{sign}250",
            f"{sign}{part}",
            f"1'{draw.randint(0, 999):03}",
            draw.choice(
                ("1/2", "1 1/2", "1½", "½", "¾", "1-1/2", "2 ¼", "1e3", "\u0662", "1.5e-1")
            ),
        )
    )


def unit(draw: Random, kind: Kind) -> str:
    """A unit of the kind, in any spelling, or none."""
    known = OTHER_UNITS.get(kind) or tuple(FACTORS[kind])
    word = draw.choice(("", *known, *known))
    return draw.choice((word, word, word.upper() if len(word) > 2 else word))


def typed(draw: Random, kind: Kind) -> str:
    """A text for a field of the kind; most are accepted, not all."""

    def one(word: str) -> str:
        return f"{number(draw)}{draw.choice((' ', '', ' '))}{word}"

    shared, form = unit(draw, kind), draw.random()
    if form < 0.5:
        return one(shared)
    if form < 0.65:
        return f"{one(draw.choice((shared, '')))} ± {one(draw.choice((shared, '', '%')))}"
    if form < 0.85:
        return (
            f"{one(draw.choice((shared, '')))}{draw.choice(('-', ' - ', ' to ', '–'))}{one(shared)}"
        )
    if form < 0.95:
        return (
            f"{one(unit(draw, kind))}{draw.choice((' ', '', ' and ', ', '))}{one(unit(draw, kind))}"
        )
    if form < 0.97:
        return f"{one(shared)} ({one(draw.choice((shared, '')))}-{one(shared)})"
    return one(shared) + draw.choice(("=", ".", ",", "\u202e", "\u0661", "1", " x", "'"))


def before(draw: Random, display: DisplayFormat, field: Field) -> str:
    """What the field showed: a value in it, its default, or nothing."""
    if draw.random() < 0.5:
        return display.default(field.facts)
    low, high = max(field.facts.low, 0.0), min(field.facts.high, 20.0)
    return display.value(field.facts.kind, low + (high - low) * draw.choice((0.1, 0.5, 0.9)))


class Written(NamedTuple):
    """What a text was taken for, and what a file that holds it says; None if it is unreadable."""

    field: Field
    text: str
    taken: Quantity
    back: Quantity | None


def written(draw: Random, field: Field, display: DisplayFormat) -> Written | None:
    """Type a text into a field, write the recipe and open it; None for a text that is refused."""
    text = typed(draw, field.facts.kind)
    try:
        taken = display.read(field.facts.kind, text, before(draw, display, field))
        taken = checked_quantity(field.facts, taken)
    except RefusedInputError:
        return None
    return Written(field, text, taken, _from_file(field, taken))


def _from_file(field: Field, taken: Quantity) -> Quantity | None:
    is_line = field.of in LINE_TYPES
    part = (LINE_TYPES[field.of] if is_line else PART_TYPES[field.of])(**{field.name: taken})
    if not all(each.name != "name" for each in fields(part)):
        part = replace(part, name="Barley")
    recipe = Recipe(**{field.of: (part,) if is_line else part})
    try:
        again = getattr(read_document(document_text(recipe), "brew"), field.of)
        return getattr(again[0] if is_line else again, field.name)
    except RefusedInputError:
        return None


def preferences() -> tuple[Preferences, ...]:
    """Each unit system, with a decimal point and a decimal comma."""
    return tuple(Preferences(units, comma=comma) for units in ShownUnits for comma in (True, False))


def means(kind: Kind, quantity: Quantity) -> Quantity:
    """What anybody reads in the quantity's text, with no preference at all."""
    return read(kind, quantity.text)
