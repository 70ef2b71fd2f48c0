"""Collections of the Recipe box: searches kept under a name, such as "Beginners".

They are found anew each time, so what is kept later belongs to them too. One made of chosen recipes
is the search for a tag. They are preferences of the store, and so go with backups and copies. Upper
and lower case do not tell names apart.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from designer.library.store.recipe_rows import key_of
from designer.library.store.search_said import kept_search, shown_search
from designer.recipe.message import refused

if TYPE_CHECKING:
    from collections.abc import Sequence

    from designer.library.store.store import Store

KEY = "collections"
LONGEST_NAME = 60


class Collection(NamedTuple):
    """A search with its name, in English as it is kept."""

    name: str
    search: str

    @property
    def shown(self) -> str:
        """The search as it is typed into the search field, in the language that is spoken."""
        return shown_search(self.search)


def collections_of(store: Store) -> tuple[Collection, ...]:
    """Return the collections by the alphabet."""
    return _sorted(_read(store.preferences.get(KEY)))


def collection_called(store: Store, name: str) -> Collection | None:
    """Return the collection of a name; None if there is none."""
    key = key_of(name)
    return next((each for each in collections_of(store) if key_of(each.name) == key), None)


def keep_collection(store: Store, name: str, search: str) -> Collection | None:
    """Keep a search, as it was typed or kept, under a name; return what stood under it before.

    Raises RefusedInputError for an empty name or search, and DesignerError.
    """
    made, before = Collection(_name(name), kept_search(search)), collection_called(store, name)
    if not made.search:
        raise refused("collection-empty", "A collection needs a search; type one first.")
    _change(store, drop=name, add=made)
    return before


def keep_chosen(store: Store, name: str, recipes: Sequence[int]) -> Collection | None:
    """Give recipes a tag of that name, and keep its search; as `keep_collection`."""
    tag = " ".join(_name(name).replace(",", " ").replace('"', " ").split())
    if not any(sign.isalnum() for sign in tag):
        raise refused("collection-name", "A collection needs a name with letters in it.")
    store.tags.put(recipes, add=[tag])
    return keep_collection(store, name, f'tagged "{tag}"')


def rename_collection(store: Store, old: str, new: str) -> None:
    """Give a collection another name. Raises RefusedInputError where one has it, DesignerError."""
    found, name = collection_called(store, old), _name(new)
    if found is None:
        return
    if key_of(old) != key_of(name) and collection_called(store, name) is not None:
        raise refused(
            "collection-there",
            "There is a collection “{name}” already. Choose another name, or remove that one.",
            name=name,
        )
    _change(store, drop=old, add=Collection(name, found.search))


def remove_collection(store: Store, name: str) -> None:
    """Forget a collection; its recipes and their tags stay. Raises DesignerError."""
    _change(store, drop=name, add=None)


def _name(typed: str) -> str:
    name = " ".join(typed.split())[:LONGEST_NAME]
    if not name:
        raise refused("collection-name", "A collection needs a name with letters in it.")
    return name


def _change(store: Store, drop: str, add: Collection | None) -> None:
    def become(before: object) -> object:
        kept = [each for each in _read(before) if key_of(each.name) != key_of(drop)]
        kept += [] if add is None else [add]
        return [list(each) for each in _sorted(kept)] or None

    store.preferences.change(KEY, become)


def _read(value: object) -> list[Collection]:
    """Read what is kept; what somebody else wrote there, and is none, is passed over."""
    pairs = value if isinstance(value, list) else []
    return [
        Collection(*pair)
        for pair in pairs
        if isinstance(pair, list) and len(pair) == 2 and all(isinstance(x, str) for x in pair)
    ]


def _sorted(found: list[Collection]) -> tuple[Collection, ...]:
    return tuple(sorted(found, key=lambda each: key_of(each.name)))
