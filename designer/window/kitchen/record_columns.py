"""The columns of pots, fermenters and the cupboard: a record keeps what was typed, as text."""

from __future__ import annotations

from datetime import date
from math import inf
from typing import Any

from designer.errors import RefusedInputError
from designer.library.catalogue import catalogue_name
from designer.recipe.document import FERMENTER_KINDS, STOVES
from designer.recipe.fields import FieldFacts
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.units.control_characters import without_control_characters
from designer.units.days import day_in_figures, read_day
from designer.window.parts.columns import Column, Typed
from designer.workbench.cupboard import read_price

SACKS = (0.0, 60_000.0)
"""Amounts in grams that lie in a kitchen's cupboard."""
YES = ("yes", "y", "true", "1", "open", "x")
NO = ("", "no", "n", "false", "0", "closed")


_YES, _NO = message("yes"), message("no")


def _words(typed: Typed) -> str:
    return without_control_characters(typed.text)


def _name(typed: Typed) -> str:
    if not typed.text:
        raise RefusedInputError(tr("a name is wanted; Delete takes the line out"))
    return _words(typed)


def _ingredient(typed: Typed) -> str:
    """What the catalogue has is kept by its English name, as in a recipe."""
    return catalogue_name(_name(typed))


def _choice(key: str, heading: str, choices: tuple[str, ...], width: int) -> Column:
    def chosen(typed: Typed) -> str:
        if typed.text and typed.text not in choices:
            raise RefusedInputError(tr("one of: {choices}", choices=", ".join(map(tr, choices))))
        return _words(typed)

    return Column(key, heading, read=chosen, choices=choices, width=width)


def _quantity(key: str, heading: str, kind: Kind, width: int, tip: str = "") -> Column:
    facts = FieldFacts(heading, kind, -inf, inf, likely=SACKS if kind is Kind.DOSE else None)

    def kept(typed: Typed) -> str:
        return typed.display.read(kind, typed.text, typed.before).text if typed.text else ""

    return Column(
        key, heading, facts, lambda row, display: display.kept_text(kind, getattr(row, key)), kept,
        tip=tip, width=width,
    )  # fmt: skip


def _price(typed: Typed) -> str:
    money = typed.text.partition("/")[0].strip()
    if not typed.text:
        return ""
    text = typed.text.replace(money, typed.display.read(Kind.MONEY, money).text, 1)
    read_price(text)
    return without_control_characters(text)


def _day(key: str, heading: str, tip: str, width: int) -> Column:
    def text(row: Any, _: object) -> str:
        day = getattr(row, key)
        return day_in_figures(day) if day is not None else ""

    return Column(key, heading, text=text, read=_date, tip=tip, width=width)


def _date(typed: Typed) -> date | None:
    return read_day(typed.text) if typed.text else None


def _flag(typed: Typed) -> bool:
    word = typed.text.casefold()
    if word in YES or word == tr(_YES).casefold():
        return True
    if word in NO or word == tr(_NO).casefold():
        return False
    raise RefusedInputError(tr("yes or no"))


_NOTES = Column("notes", message("Notes"), read=_words, width=80)
POTS = (
    Column("name", message("Pot"), read=_name, width=120),
    _quantity("volume", message("Volume"), Kind.VOLUME, 62),
    _quantity("diameter", message("Diameter"), Kind.LENGTH, 70),
    _choice("stove", message("Stove"), STOVES, 64),
    _quantity("power", message("Power"), Kind.POWER, 64),
    _quantity(
        "evaporation",
        message("Evaporation"),
        Kind.EVAPORATION,
        104,
        message("As measured; see below"),
    ),
    _quantity("coil", message("Coil"), Kind.VOLUME, 48, message("What the cooling coil displaces")),
    _quantity(
        "cooling_constant", message("Cooling"), Kind.RATE, 66, message("As measured; see below")
    ),
    _quantity(
        "left_in_pot",
        message("Left in it"),
        Kind.VOLUME,
        66,
        message("Sludge and wort that stay behind when it is emptied, as measured"),
    ),
    _NOTES,
)
FERMENTERS = (
    Column("name", message("Fermenter"), read=_name, width=130),
    _quantity("volume", message("Volume"), Kind.VOLUME, 70),
    _quantity("graduation", message("Marks every"), Kind.VOLUME, 90),
    _choice("kind", message("Kind"), FERMENTER_KINDS, 110),
    _NOTES,
)
CUPBOARD = (
    Column("name", message("On hand"), read=_ingredient, suggests="all", width=180),
    _quantity(
        "amount", message("Amount"), Kind.DOSE, 80, message("500 g, 1 kg, 1 1/2 oz, 2 packets")
    ),
    Column(
        "price", message("Price"), read=_price, tip=message("9.50 / kg, or 4.20 for all"), width=84
    ),
    _quantity(
        "alpha", message("Alpha acid"), Kind.FRACTION, 84, message("As the bag says, for hops")
    ),
    Column("lot", message("Lot"), read=_words, width=66),
    _day("bought", message("Bought"), message("2026-03-28"), 88),
    _day("best_before", message("Best before"), message("2027-03-28"), 92),
    Column(
        "open_bag",
        message("Opened"),
        text=lambda row, _: tr(_YES) if row.open_bag else "",
        read=_flag,
        tip=message("yes or no"),
        width=56,
    ),
    _NOTES._replace(width=110),
)
