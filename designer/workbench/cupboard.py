"""What lies in the cupboard as amounts and prices, to be held against a recipe."""

from __future__ import annotations

from collections.abc import Sequence

from designer.brewday.stock import Stock
from designer.errors import RefusedInputError
from designer.library.store.kitchen import CupboardRecord
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.units import read


def stock_of(records: Sequence[CupboardRecord]) -> tuple[Stock, ...]:
    """Return what lies in the cupboard as the recipe is held against it; unreadable cells are 0."""
    return tuple(_stock(each) for each in records)


def _stock(record: CupboardRecord) -> Stock:
    amount, unit = _measured(record.amount)
    alpha = _read(Kind.FRACTION, record.alpha)
    price = _price_each(record.price, amount, unit)
    return Stock(record.name, amount, unit, price, alpha.value if alpha is not None else None)


def _price_each(price: str, amount: float, unit: str) -> float | None:
    """Return the price of a kilogram or a piece; None where none is given, or for another unit."""
    try:
        money, per = read_price(price)
    except RefusedInputError:
        return None
    size, size_unit = _measured(per) if per else (amount, unit)
    return money / size if size_unit == unit and size > 0.0 else None


def _measured(text: str) -> tuple[float, str]:
    """Return an amount in kilograms, or in a dose's own unit."""
    found = _read(Kind.DOSE, text)
    if found is None:
        return 0.0, "kg"
    return (found.value / 1000.0, "kg") if found.unit == "g" else (found.value, found.unit)


def _read(kind: Kind, text: str) -> Quantity | None:
    try:
        return read(kind, text, kept=True) if text else None
    except RefusedInputError:
        return None


def read_price(text: str) -> tuple[float, str]:
    """Return the money, and the amount it is for as text ("" for all that is there).

    `9.50 / kg` and `4.20 / 500 g` name the amount. Raises RefusedInputError.
    """
    money, slash, per = text.partition("/")
    found = read(Kind.MONEY, money).value
    amount = per.strip()
    if slash and not amount:
        raise RefusedInputError(tr("nothing stands behind the stroke; write 9.50 / kg"))
    if amount and not amount[0].isdigit():
        amount = f"1 {amount}"
    if amount:
        read(Kind.DOSE, amount)
    return found, amount
