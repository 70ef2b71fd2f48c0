"""Quantities as a test types them."""

from designer.recipe.quantity import Quantity


def q(value, unit=""):
    """Return a value in its base unit with the text that was typed: `q(6.5, "L")`."""
    return Quantity(float(value), f"{value:g} {unit}".strip())
