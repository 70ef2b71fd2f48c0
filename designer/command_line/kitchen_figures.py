"""`--kitchen`: what the brewer took of what brews taught, in the empty fields of a recipe."""

from __future__ import annotations

from collections.abc import Sequence

from designer.command_line.no_box import no_box_yet
from designer.command_line.output import notice
from designer.recipe.document import Fermenter, Process, Recipe, Yeast
from designer.recipe.fields import facts_of
from designer.recipe.message import within
from designer.recipe.taught import Filled, filled_with
from designer.translation import tr, trn


def filled_by_kitchen(recipe: Recipe, *, wanted: bool) -> tuple[Recipe, tuple[Filled, ...]]:
    """Return a recipe as the kitchen fills it, and what of it that is; as it is unless `wanted`.

    Raises DesignerError for a Recipe box that cannot be read.
    """
    if not wanted:
        return recipe, ()
    # Few ask for it: the Recipe box is loaded for them alone.
    from designer.library.store import Store, store_folder
    from designer.library.store.folder import store_path
    from designer.workbench.learning.taken import taken_of
    from designer.workbench.learning.with_taught import filled_by

    folder = store_folder()
    if not store_path(folder).exists():
        notice([no_box_yet(folder).text])
        return recipe, ()
    with Store.open(folder, expected=True) as store:
        fills = filled_by(recipe, taken_of(store))
    return filled_with(recipe, fills), fills


def told_by_kitchen(fills: Sequence[Filled]) -> list[str]:
    """Return what fills empty fields, a line each with how many brews it rests on."""
    if not fills:
        return []
    lines = ["", tr("What your kitchen taught:")]
    for each in fills:
        label = within(label_of(str(each.path[-1]))).text
        said = trn(
            "{figure} {value} ({number} brew)",
            "{figure} {value} ({number} brews)",
            each.quantity.brews,
            figure=label,
            value=each.quantity.text,
        )
        lines.append(f"  {said}")
    return lines


def label_of(field: str) -> str:
    """Return the label of a field that a kitchen teaches."""
    found = next(part for part in (Process, Fermenter, Yeast) if hasattr(part(), field))
    return facts_of(found(), field).label


def all_filled_by_kitchen(recipes: Sequence[Recipe], *, wanted: bool) -> list[Recipe]:
    """Return recipes as the kitchen fills them."""
    return [filled_by_kitchen(each, wanted=wanted)[0] for each in recipes]
