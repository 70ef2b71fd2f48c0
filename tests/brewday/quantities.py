"""Quantities as a test types them, and a recipe that much is worked out for by hand."""

from pathlib import Path

from designer.recipe.quantity import Quantity

ONE_GRAIN_PORTER = Path(__file__).parent / "one_grain_porter.hobwort"
"""A small porter of two extracts and one grain, which fills its pot and its freezer."""


def q(value, unit=""):
    """Return a value in its base unit with the text that was typed: `q(6.5, "L")`."""
    return Quantity(float(value), f"{value:g} {unit}".strip())
