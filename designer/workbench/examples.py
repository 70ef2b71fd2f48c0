"""The recipes that come with the program, to look around in: a harbour kitchen's four."""

from __future__ import annotations

from typing import TYPE_CHECKING

from designer.library.recipe_file import document_text, load
from designer.recipe.document import Recipe
from designer.resource_files import resource_path
from designer.translation import message

if TYPE_CHECKING:
    from designer.library.store import Store

PORTER = "harbour_lamp_porter"
EXAMPLES = {
    PORTER: message("dark and round, for a 9 L pot and a 12 L bucket"),
    "slipway_bitter": message("amber and dry, with whole hops"),
    "foghorn_wheat": message("pale and cloudy, typed in pounds, ounces and gallons"),
    "breakwater_red": message("a locked 20 L kit that does not fit its vessels"),
}
"""What each is good for, by the name of its file."""


def example(name: str) -> Recipe:
    """Return an example. Raises DesignerError."""
    return load(resource_path(f"examples/{name}.hobwort"))


def lay_in_examples(store: Store) -> None:
    """Put the examples into a box in which nothing was ever kept. Raises DesignerError."""
    if not store.examples.wanted:
        return
    # Reckons with the day: only the very first start has to.
    from designer.workbench.recipe_summary import summary_of

    # The first of them last, so that it is the one that was kept last.
    recipes = {name: example(name) for name in reversed(EXAMPLES)}
    store.examples.lay_in(
        {name: (document_text(each), summary_of(each)) for name, each in recipes.items()}
    )
