"""The Recipe box on disk: recipes with every version, drafts, vessels, cupboard, brew logs.

Nothing here loads sqlite-utils, and numpy with it, until a store is opened: the window's thread
does not wait for them. The names below are loaded when they are asked for: where the box lies, and
one value of it, are told without all of the store.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from designer.library.store.folder import store_folder
    from designer.library.store.store import Store
    from designer.library.store.values import (
        Conflict,
        Draft,
        RecipeRow,
        Summary,
        Version,
        VersionRow,
    )

__all__ = [
    "Conflict",
    "Draft",
    "RecipeRow",
    "Store",
    "Summary",
    "Version",
    "VersionRow",
    "store_folder",
]

_OF_MODULES = {"store_folder": "folder", "Store": "store"}


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(name)
    return getattr(import_module(f"{__name__}.{_OF_MODULES.get(name, 'values')}"), name)
