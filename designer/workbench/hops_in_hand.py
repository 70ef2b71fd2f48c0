"""Hops that lie in the freezer, for the ways to fit: as they were typed, or out of the cupboard."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from designer.brewday.fit.wish import HopInHand
from designer.errors import RefusedInputError
from designer.library import catalogue
from designer.library.store.kitchen import CupboardRecord
from designer.recipe.choices import HopForm
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.workbench.cupboard import stock_of

LEAST_ALPHA, MOST_ALPHA = 0.001, 0.3
MOST_KG = 10.0
MOST_HOPS = 20
LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class HopRow:
    """A hop in hand as it was typed; `from_cupboard` if it was taken over from there."""

    name: str
    alpha: Quantity
    amount: Quantity
    form: str = HopForm.PELLETS
    from_cupboard: bool = False

    @property
    def in_hand(self) -> HopInHand:
        """The hop as the ways to fit take it."""
        return HopInHand(self.name, self.alpha, self.amount.value, self.form)


def checked_name(text: str) -> str:
    """Return a name as a row holds it; raises RefusedInputError for none or one too long."""
    name = " ".join(text.split())
    if not name:
        raise RefusedInputError(tr("a name is wanted; Delete takes the hop out"))
    if len(name) > LONGEST_NAME:
        raise RefusedInputError(tr("{most} letters are the most for a name", most=LONGEST_NAME))
    return name


def checked_alpha(alpha: Quantity, typed: str) -> Quantity:
    """Return the alpha acid of a hop; raises RefusedInputError for what no hop has."""
    if not LEAST_ALPHA <= alpha.value <= MOST_ALPHA:
        raise RefusedInputError(
            tr(
                "“{typed}” is not the alpha acid of a hop: from 0.1 % to 30 %, as printed on the "
                "bag",
                typed=typed,
            )
        )
    return alpha


def checked_amount(amount: Quantity, typed: str) -> Quantity:
    """Return an amount in hand; raises RefusedInputError for none or more than a kitchen has."""
    if not 0.0 < amount.value <= MOST_KG:
        raise RefusedInputError(
            tr("“{typed}” is not an amount in hand: more than 0, up to 10 kg", typed=typed)
        )
    return amount


def checked_rows(rows: tuple[HopRow, ...]) -> tuple[HopRow, ...]:
    """Return the rows; raises RefusedInputError for too many."""
    if len(rows) > MOST_HOPS:
        raise RefusedInputError(
            tr("{most} hops in hand are the most; take one out first", most=MOST_HOPS)
        )
    return rows


def usual_alpha(name: str) -> Quantity | None:
    """Return the usual alpha acid of a variety and its range; None for a name not catalogued."""
    variety = catalogue.find_hop(" ".join(name.split()))
    return catalogue.usual_alpha(variety) if variety is not None else None


def hops_of(records: Sequence[CupboardRecord]) -> tuple[tuple[HopRow, ...], tuple[str, ...]]:
    """Return the hops of a cupboard, and the names of those that have no amount.

    A hop is what has an alpha acid, or the name of a variety: then with its usual alpha acid and
    the range of that.
    """
    found, without = [], []
    for stock in stock_of(records):
        told = stock.alpha
        alpha = usual_alpha(stock.name) if told is None else typed(Kind.FRACTION, told, ".4g")
        if alpha is None or not LEAST_ALPHA <= alpha.value <= MOST_ALPHA:
            continue
        if stock.unit != "kg" or not 0.0 < stock.amount <= MOST_KG:
            without.append(stock.name)
            continue
        found.append(
            HopRow(
                stock.name,
                alpha,
                typed(Kind.MASS, stock.amount, unit="g"),
                from_cupboard=True,
            )
        )
    return tuple(found[:MOST_HOPS]), tuple(without)
