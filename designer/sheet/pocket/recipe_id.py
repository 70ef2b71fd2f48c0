"""What a recipe is known by in the log of a phone."""

from __future__ import annotations

from designer.digests import sha256
from designer.library.recipe_file import document_text
from designer.recipe.document import Recipe


def recipe_id(recipe: Recipe) -> str:
    """Return an id of a recipe: the same words give the same, whatever language the page is in."""
    return sha256(document_text(recipe).encode("utf-8")).hexdigest()[:16]
