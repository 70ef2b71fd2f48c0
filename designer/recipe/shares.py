"""A share of what a recipe lists: masses exactly, doses as a kitchen measures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from designer.recipe.document import Extra
from designer.recipe.edits import with_amount
from designer.recipe.kinds import typed
from designer.recipe.named import Line
from designer.recipe.quantity import Kind, Quantity


def masses_in_share(lines: tuple[Any, ...], share: float) -> tuple[Any, ...]:
    """Return fermentables or hops in a share of their masses, to a tenth of a gram.

    The label of a hopped kit stays that of the whole tin. What has no amount stays.
    """
    if abs(share - 1.0) < 1e-9:
        return lines
    return tuple(_line_in_share(each, share) for each in lines)


def _line_in_share(line: Line, share: float) -> Line:
    if line.amount is None:
        return line
    mass = typed(Kind.MASS, round(line.amount.value * share, 4))
    return replace(line, **dict(with_amount(line, mass)))


_COUNTED = ("piece", "tablet", "packet", "sachet", "drop", "teaspoon", "tablespoon")


def counted(value: float, unit: str) -> Quantity:
    """Return a dose; of what is counted, one tablet or several tablets."""
    one = unit.removesuffix("s")
    if one in _COUNTED:
        unit = one if value <= 1.0 else f"{one}s"
    return typed(Kind.DOSE, value, unit=unit)


def dose_in_share(amount: Quantity, share: float) -> Quantity:
    """Return a dose in a share: pieces in quarters, all else to two figures; never more than it."""
    if abs(share - 1.0) < 1e-9:
        return amount
    value = amount.value * share
    if amount.unit not in ("g", "mL"):
        value = max(round(4.0 * value) / 4.0, 0.25) if amount.value > 0.0 else 0.0
    else:
        value = float(f"{value:.2g}")
    value = min(value, amount.value) if share < 1.0 else value
    return counted(value, amount.unit)


def extras_in_share(extras: tuple[Extra, ...], share: float) -> tuple[Extra, ...]:
    """Return finings and the like in a share of their doses; what has no dose stays."""
    return tuple(
        replace(each, amount=dose_in_share(each.amount, share)) if each.amount else each
        for each in extras
    )
