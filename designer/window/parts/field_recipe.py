"""What a field asks of the recipe that it stands for."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import SignalInstance

from designer.recipe.document import Recipe
from designer.recipe.edits import Edit


class FieldRecipe(Protocol):
    """A recipe that is open. `opening` counts the recipes that were opened before it."""

    recipe: Recipe
    opening: int

    @property
    def recipe_changed(self) -> SignalInstance:
        """Another recipe is shown, or the same one after an edit."""

    def make_or_refuse(self, edit: Edit) -> bool:
        """Make an edit; False if it changes nothing. Raises RefusedInputError."""

    def start_typing(self) -> str:
        """Return a key that is new, for the edits of one stay in a field."""

    def take_back(self, merge_key: str) -> None:
        """Take back what was typed under a key, if it is the last thing done."""

    def set_untaken(self, owner: object, said: tuple[str, ...]) -> None:
        """Hear of a field what is typed there and could not be taken."""
