"""Kitchen things for the recipe document."""

import pytest

from designer.recipe.document import Extra, Fermentable, Hop, Recipe
from designer.recipe.edits import with_line_ids


@pytest.fixture
def bitter():
    """A small bitter: two fermentables (1, 2), three hops (3, 4, 5), one extra (6)."""
    return with_line_ids(
        Recipe(
            name="Slipway Bitter",
            fermentables=(Fermentable("Pale dry malt extract"), Fermentable("Golden syrup")),
            hops=(Hop("Northdown"), Hop("Challenger"), Hop("East Kent Golding")),
            extras=(Extra("Carrageenan finings"),),
        )
    )
