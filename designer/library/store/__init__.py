"""The Recipe box on disk: recipes with every version, drafts, vessels, cupboard, brew logs.

Nothing here loads sqlite-utils, and numpy with it, until a store is opened: the window's thread
does not wait for them.
"""

from designer.library.store.folder import store_folder
from designer.library.store.store import Store
from designer.library.store.values import Conflict, Draft, RecipeRow, Summary, Version, VersionRow

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
