"""Pint's registry as it comes, made once, and not before a test converts with it."""

from functools import cache

import pint


@cache
def pints_own() -> pint.UnitRegistry:
    """Return it. It takes half a second, and every process of a run loads every file of tests."""
    return pint.UnitRegistry()
