"""Brew sheets of many recipes of the Recipe box at once, as a shop prints them.

They are made in pieces, as all work on many recipes is (`box_files.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from designer.brewday.outlook import look_ahead
from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.sheet.blocks import Form, Sheet
from designer.sheet.content import brew_sheet
from designer.units import ShownUnits
from designer.workbench.box_files import for_a_piece
from designer.workbench.learning.taken import taken_of
from designer.workbench.learning.with_taught import with_taught

if TYPE_CHECKING:
    from designer.library.packs import PackSize
    from designer.library.store import Store


@dataclass(frozen=True, slots=True)
class SheetWishes:
    """How sheets are wanted; the same for all of them."""

    shown: ShownUnits
    language: str
    shop: str
    form: Form
    packs: tuple[PackSize, ...]


@dataclass(frozen=True, slots=True)
class MadeSheets:
    """Some sheets, and words about recipes that have none."""

    sheets: tuple[Sheet, ...] = ()
    faults: tuple[str, ...] = ()


def sheets_a_piece(
    wishes: SheetWishes, store: Store, recipes: Sequence[int]
) -> tuple[int, MadeSheets]:
    """Make the sheets of the first recipes, as many as there is time for in one piece.

    `recipes` are their numbers; what brews taught fills empty fields, as in the window. Returns how
    many were looked at and what came of them.
    """
    sheets, faults, count = [], list[str](), 0
    taken = taken_of(store)
    make = partial(
        brew_sheet,
        shown=wishes.shown,
        start=None,
        brew_date=None,
        language=wishes.language,
        shop=wishes.shop,
        form=wishes.form,
        packs=wishes.packs,
    )
    for number in for_a_piece(recipes):
        count += 1
        try:
            document, name = store.recipes.newest(number).document, store.recipes.row(number).name
            recipe = with_taught(read_document(document, name), taken)
            sheets.append(make(recipe, look_ahead(recipe)))
        except DesignerError as fault:
            if str(fault) not in faults:  # such as words of a language, which all sheets lack
                faults.append(str(fault))
    return count, MadeSheets(tuple(sheets), tuple(faults))
