"""Whether a store's file is sound. To be asked in the background: it reads the whole file.

SQLite finds damage to its own structure (`quick_check`, https://www.sqlite.org/pragma.html); a bit
turned inside a text it does not. Each version carries a fingerprint for that.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from designer.library.store.connection import as_text
from designer.library.store.documents import digest
from designer.library.store.faults import (
    in_words,
    shown,
    system_words,
    tells_damage,
)
from designer.library.store.steps import STEPS, has_its_tables
from designer.library.store.table_shapes import NOTES_OF_STEPS, strange_parts
from designer.library.store.taking_over import readable
from designer.translation import tr
from designer.units.quoting import one_line

SOUND, MISSING, EMPTY, DAMAGED, FOREIGN, NEWER, UNREADABLE = (
    "sound", "missing", "empty", "damaged", "foreign", "newer", "unreadable",
)  # fmt: skip
MOST_PROBLEMS = 20
MADE_OTHERWISE = (
    "{where} holds {strange}. The program makes no such thing, and it could change recipes unseen."
)


@dataclass(frozen=True, slots=True)
class Health:
    """What a check found: `state` is one of the words above, `words` can be shown.

    `recipes` and `versions` count what is there; `problems` are SQLite's own words.
    """

    state: str
    words: str
    problems: tuple[str, ...] = ()
    recipes: int = 0
    versions: int = 0


def check(path: Path, *, deep: bool = False) -> Health:
    """Return the health of a store's file; `deep` also reads every version. Never raises.

    The file is not changed. It may be in use, and locked: then it is taken for unreadable.
    """
    where = shown(path)
    try:
        if not path.exists():
            return Health(MISSING, f"{where} is not there.")
        if path.stat().st_size == 0:
            return Health(EMPTY, f"{where} is empty.")
        with closing(readable(path)) as conn:
            conn.text_factory = as_text
            return _looked_into(conn, where, deep)
    except sqlite3.Error as fault:
        if tells_damage(fault):
            return _damaged(where, str(fault))
        return Health(UNREADABLE, str(in_words(fault, path)), (str(fault),))
    except UnicodeDecodeError:
        return _damaged(where, "a text in it is no text")
    except (OSError, ValueError) as fault:
        told = fault if isinstance(fault, OSError) else OSError(str(fault))
        return Health(UNREADABLE, str(system_words(told, path, tr("Reading"))), (str(fault),))


def _damaged(where: str, why: str, *problems: str, recipes: int = 0, versions: int = 0) -> Health:
    words = f"{where} is damaged ({one_line(why)})."
    return Health(DAMAGED, words, problems or (why,), recipes, versions)


def _looked_into(conn: sqlite3.Connection, where: str, deep: bool) -> Health:
    tables = {row[0] for row in conn.execute("select name from sqlite_master")}
    is_ours = {NOTES_OF_STEPS, "recipes", "versions"} <= tables
    is_newer = is_ours and not _taken(conn) <= {step.__name__ for step in STEPS}
    strange = strange_parts(conn) if is_ours and not is_newer else []
    if strange:  # before anything else is read: SQLite would run what it says
        words = MADE_OTHERWISE.format(where=where, strange=listed(strange))
        return Health(DAMAGED, words, tuple(strange))
    problems = [row[0] for row in conn.execute(f"pragma quick_check({MOST_PROBLEMS})")]
    if problems != ["ok"]:
        # the first line only names the database
        return _damaged(where, problems[0].splitlines()[-1], *problems)
    if not is_ours:
        return Health(FOREIGN, f"{where} is a database, but not a Recipe box.")
    return _of_store(conn, where, deep, is_newer)


def _taken(conn: sqlite3.Connection) -> set[str]:
    return {row[0] for row in conn.execute(f"select name from {NOTES_OF_STEPS}")}


def listed(parts: Sequence[str]) -> str:
    """Return the parts of a file in one phrase: the first three, and how many more."""
    more = len(parts) - 3
    named = list(parts[:3]) + ([f"{more} more"] if more > 0 else [])
    return " and ".join((", ".join(named[:-1]), named[-1]) if len(named) > 1 else named)


def _of_store(conn: sqlite3.Connection, where: str, deep: bool, is_newer: bool) -> Health:
    recipes = conn.execute("select count(*) from recipes").fetchone()[0]
    versions = conn.execute("select count(*) from versions").fetchone()[0]
    if is_newer:
        words = f"{where} was written by a newer Hobwort; update the program."
        return Health(NEWER, words, (), recipes, versions)
    counts = {"recipes": recipes, "versions": versions}
    if not has_its_tables(conn):
        return _damaged(where, "its tables are not as they were made", **counts)
    changed = _changed_texts(conn) if deep else []
    if changed:
        many = "1 version is" if len(changed) == 1 else f"{len(changed)} versions are"
        return _damaged(where, f"{many} not what was written", *changed, **counts)
    return Health(SOUND, f"{where} is sound: {recipes} recipes.", (), recipes, versions)


def _changed_texts(conn: sqlite3.Connection) -> list[str]:
    """Return which versions are not what was written, and recipes whose newest one is missing."""
    found = [
        f"version {number} of recipe {recipe}"
        for recipe, number, document, kept in conn.execute(
            "select recipe, number, document, digest from versions"
        )
        if digest(recipe, number, document) != kept
    ]
    return found + [
        f"recipe {recipe} without its newest version"
        for (recipe,) in conn.execute(
            "select id from recipes where newest not in (select id from versions)"
        )
    ]
