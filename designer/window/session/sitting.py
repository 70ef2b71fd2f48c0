"""A sitting: a recipe open in a window, from being opened to being left."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from designer.library.store import Conflict, Store, Summary, Version

LAST = "last open"
LAST_RECIPE = "last recipe"
"""What earlier releases noted: the number of the recipe that was saved or opened last."""


@dataclass(slots=True)
class Sitting:
    """What one sitting has in the store. `name` is that of its draft and is never used again.

    `recipe` and `base` are the recipe of the box and its version that the text was made from (0 for
    none), `seen` the newest version the brewer knows of, `number` that of the
    draft written last. They change on the store's thread alone,
    where work is done in order: what was asked for before a save was done still goes to the recipe
    that it made.
    """

    name: str
    recipe: int = 0
    base: int = 0
    seen: int = 0
    drafted: bool = False
    number: int = 0

    def holding(self, kept: Version | Conflict) -> Sitting:
        """Note that a version was made of what the sitting has; return the sitting."""
        mine = kept.mine if isinstance(kept, Conflict) else kept
        self.recipe, self.base, self.seen = mine.recipe, mine.id, mine.id
        self.drafted = False
        return self


def _file_key(sitting: str) -> str:
    return f"path {sitting}"


def file_of(store: Store, sitting: str) -> tuple[Path | None, str]:
    """Return the file that a sitting's draft belongs to, and the mark of what it was seen to hold.

    None and "" where there is none, or nobody knows. Raises DesignerError.
    """
    found = store.preferences.get(_file_key(sitting))
    path, mark = found if isinstance(found, list) and len(found) == 2 else (found, "")
    return (Path(path) if isinstance(path, str) and path else None), str(mark)


def put_file(store: Store, sitting: str, path: Path | None, mark: str = "") -> None:
    """Note the file that a sitting's draft belongs to; None for none. Raises DesignerError."""
    if path is not None:
        store.preferences.put(_file_key(sitting), [str(path), mark])
    elif store.preferences.get(_file_key(sitting)) is not None:
        store.preferences.put(_file_key(sitting), None)


def note_last(store: Store, sitting: Sitting, path: Path | None) -> None:
    """Note what is open, for the next start to show. Raises DesignerError.

    What other sittings left before now gives way to it.
    """
    store.preferences.put(
        LAST,
        {
            "recipe": sitting.recipe,
            "version": sitting.base,
            "path": str(path) if path is not None else "",
            "after": store.drafts.last_number(without=sitting.name),
        },
    )


def drop_draft(store: Store, sitting: str) -> None:
    """Forget the draft of a sitting, and the file that it belongs to. Raises DesignerError."""
    store.drafts.drop(sitting)
    put_file(store, sitting, None)


def keep_version(
    store: Store,
    sitting: Sitting,
    document: str,
    summary: Summary,
    *,
    name: str = "",
    path: Path | None = None,
    is_last: bool = True,
) -> Version | Conflict:
    """Keep a version of what a sitting has made; its draft goes in the same transaction.

    The version is read back from the disk. With `is_last` it is what the next start shows, with its
    file `path`. Raises DesignerError; then nothing is changed.
    """

    def all_at_once(_: object) -> Version | Conflict:
        kept: Version | Conflict
        if sitting.recipe:
            kept = store.recipes.save(
                sitting.recipe, document, summary, base=sitting.base, name=name, seen=sitting.seen
            )
        else:
            kept = store.recipes.add(document, summary, name=name)
        drop_draft(store, sitting.name)
        if is_last:
            note_last(store, replace(sitting).holding(kept), path)
        return kept

    kept = store.connection.write(all_at_once)
    store.recipes.version(sitting.holding(kept).base)
    return kept
