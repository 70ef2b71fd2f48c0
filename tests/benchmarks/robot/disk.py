"""What is on disk, read by the robot itself: drafts, versions and recipe files.

A recipe is compared by its facts: every field by its place, quantities by their number to six
digits (a text may be tidied, a number may not change).
"""

from __future__ import annotations

import json
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, fields, is_dataclass
from pathlib import Path
from typing import Any

Facts = dict[str, Any]


def facts_of_text(text: str) -> Facts:
    """Return the facts of a document's text. Raises DesignerError for what cannot be opened."""
    from designer.library.recipe_file import read_document

    return facts_of(read_document(text, "document"))


def facts_of(recipe: Any) -> Facts:
    """Return every field of a recipe by its place."""
    found: Facts = {}
    for each in fields(recipe):
        value = getattr(recipe, each.name)
        if isinstance(value, tuple):
            found[each.name] = len(value)
            for number, line in enumerate(value):
                _put_part(found, f"{each.name}.{number}", line)
        elif is_dataclass(value):
            _put_part(found, each.name, value)
        else:
            found[each.name] = value
    return found


def _put_part(found: Facts, place: str, part: Any) -> None:
    for each in fields(part):
        if each.name != "line_id":
            found[f"{place}.{each.name}"] = plain(getattr(part, each.name))


def plain(value: Any) -> Any:
    """Return a quantity or a time as text that is the same for the same number."""
    from designer.recipe.quantity import Quantity, When

    if isinstance(value, Quantity):
        spread = f" ± {value.spread:.6g}" if value.spread is not None else ""
        return f"{value.value:.6g} {value.unit}{spread}".strip()
    if isinstance(value, When):
        heat = "" if value.temperature is None else f"{value.temperature:.6g}"
        return f"{value.stage} {value.minutes:.6g} {heat} {value.days:.6g}"
    return value


def key_of(facts: Facts) -> str:
    """Return a text that is the same for the same facts."""
    return json.dumps(facts, sort_keys=True, ensure_ascii=False)


def differences(before: Facts, after: Facts) -> dict[str, tuple[Any, Any]]:
    """Return the places at which two recipes differ, with both values."""
    places = sorted(before.keys() | after.keys())
    return {
        each: (before.get(each), after.get(each))
        for each in places
        if before.get(each) != after.get(each)
    }


@dataclass(frozen=True)
class Held:
    """What the store holds, by key: facts of versions and of drafts."""

    versions: dict[str, Facts]
    drafts: dict[str, Facts]
    recipes: int
    unreadable: tuple[str, ...] = ()

    def has(self, key: str) -> bool:
        """Whether a recipe is there, as a version or as a draft."""
        return key in self.versions or key in self.drafts


class Disk:
    """Reads a store again and again; documents that were read before are known."""

    def __init__(self, folder: Path) -> None:
        self.box, self._known = folder / "disk" / "box", dict[str, tuple[str, Facts] | None]()

    def _read(self, text: str) -> tuple[str, Facts] | None:
        from designer.errors import DesignerError

        if text not in self._known:
            try:
                facts = facts_of_text(text)
                self._known[text] = (key_of(facts), facts)
            except DesignerError:
                self._known[text] = None
        return self._known[text]

    def held(self) -> Held:
        """Return what the store holds now; nothing, and why, for one that cannot be read.

        The tables are read as they are: nothing is opened for writing, so that the robot changes
        nothing, wherever it looks.
        """
        from designer.library.store.folder import store_path

        path = store_path(self.box)
        if not path.exists():
            return Held({}, {}, 0)
        try:
            versions, drafts, recipes = _rows_anyhow(path)
        except sqlite3.DatabaseError as fault:
            return Held({}, {}, 0, (f"the store cannot be read: {fault}",))
        found: tuple[dict[str, Facts], dict[str, Facts]] = ({}, {})
        unreadable = []
        for into, texts in zip(found, (versions, drafts), strict=True):
            for text in texts:
                read = self._read(text)
                if read is None:
                    unreadable.append(text)
                else:
                    into[read[0]] = read[1]
        return Held(*found, recipes, tuple(unreadable))

    def file(self, path: Path) -> tuple[str, Facts] | None:
        """Return key and facts of a recipe file; None for one that is not there or unreadable."""
        try:
            return self._read(path.read_text(encoding="utf-8"))
        except (OSError, UnicodeDecodeError):
            return None

    def sound(self) -> str:
        """Return "" for a store that is whole, else what is wrong."""
        from designer.library.store.folder import store_path
        from designer.library.store.health import MISSING, SOUND, check

        with _copied(store_path(self.box)) as copy:
            found = check(copy, deep=True)
        return "" if found.state in (SOUND, MISSING) else f"{found.state}: {found.words}"


def _rows_anyhow(path: Path) -> tuple[list[str], list[str], int]:
    try:
        return _rows(path)
    except sqlite3.OperationalError:  # a full disk has no room for the files of a reader
        with _copied(path) as copy:
            return _rows(copy)


def _rows(path: Path) -> tuple[list[str], list[str], int]:
    uri = f"file:{path}?mode=ro"
    with closing(sqlite3.connect(uri, uri=True, timeout=10.0)) as conn:
        conn.execute("pragma query_only=on")
        versions = [row[0] for row in conn.execute("select document from versions")]
        drafts = [row[0] for row in conn.execute("select document from drafts")]
        (recipes,) = conn.execute("select count(*) from recipes").fetchone()
    return versions, drafts, recipes


@contextmanager
def _copied(path: Path) -> Iterator[Path]:
    """Copy a store that nobody writes to; yield the copy."""
    with tempfile.TemporaryDirectory(prefix="hobwort-robot-copy-") as name:
        for ending in ("", "-wal"):
            if Path(f"{path}{ending}").exists():
                shutil.copyfile(f"{path}{ending}", f"{name}/{path.name}{ending}")
        yield Path(name) / path.name
