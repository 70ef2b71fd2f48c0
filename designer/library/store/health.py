"""Whether a store's file is sound. To be asked in the background: it reads the whole file.

SQLite finds damage to its own structure (`quick_check`, https://www.sqlite.org/pragma.html); a bit
turned inside a text it does not. Each version carries a fingerprint for that.
"""

from __future__ import annotations

from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from designer.library.store.connection import as_text, connected
from designer.library.store.documents import digest
from designer.library.store.faults import (
    damaged,
    in_words,
    is_busy,
    shown,
    system_words,
    tells_damage,
)
from designer.library.store.steps import STEPS, has_its_tables

if TYPE_CHECKING:
    import sqlite3

SOUND, MISSING, EMPTY, DAMAGED, FOREIGN, NEWER, UNREADABLE = (
    "sound", "missing", "empty", "damaged", "foreign", "newer", "unreadable",
)  # fmt: skip
MOST_PROBLEMS = 20


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
    import sqlite3

    where = shown(path)
    try:
        if not path.exists():
            return Health(MISSING, f"{where} is not there.")
        if path.stat().st_size == 0:
            return Health(EMPTY, f"{where} is empty.")
        with closing(_reading(path)) as conn:
            return _looked_into(conn, where, deep)
    except sqlite3.Error as fault:
        state = DAMAGED if tells_damage(fault) else UNREADABLE
        return Health(state, str(in_words(fault, path)), (str(fault),))
    except UnicodeDecodeError:
        words = "a text in it is no text"
        return Health(DAMAGED, str(damaged(path, words)), (words,))
    except (OSError, ValueError) as fault:
        told = fault if isinstance(fault, OSError) else OSError(str(fault))
        return Health(UNREADABLE, str(system_words(told, path, "Reading")), (str(fault),))


def _reading(path: Path) -> sqlite3.Connection:
    """Return a reading connection; one that needs no other files where SQLite wants them."""
    import sqlite3

    conn = connected(path, "mode=ro")
    try:
        conn.execute("select count(*) from sqlite_master").fetchone()
    except sqlite3.Error as fault:
        conn.close()
        if is_busy(fault) or not isinstance(fault, sqlite3.OperationalError):
            raise
        conn = connected(path, "immutable=1")
    conn.text_factory = as_text
    return conn


def _looked_into(conn: sqlite3.Connection, where: str, deep: bool) -> Health:
    problems = [row[0] for row in conn.execute(f"pragma quick_check({MOST_PROBLEMS})")]
    if problems != ["ok"]:
        return Health(DAMAGED, f"{where} is damaged: {problems[0]}.", tuple(problems))
    tables = {row[0] for row in conn.execute("select name from sqlite_master")}
    if not {"_sqlite_migrations", "recipes", "versions"} <= tables:
        return Health(FOREIGN, f"{where} is a database, but not a Recipe box.")
    return _of_store(conn, where, deep)


def _of_store(conn: sqlite3.Connection, where: str, deep: bool) -> Health:
    known = {step.__name__ for step in STEPS}
    taken = {row[0] for row in conn.execute("select name from _sqlite_migrations")}
    recipes = conn.execute("select count(*) from recipes").fetchone()[0]
    versions = conn.execute("select count(*) from versions").fetchone()[0]
    if taken - known:
        words = f"{where} was written by a newer Hobwort; update the program."
        return Health(NEWER, words, (), recipes, versions)
    if not has_its_tables(conn):
        words = "its tables are not as they were made"
        return Health(DAMAGED, f"{where} is damaged: {words}.", (words,), recipes, versions)
    changed = _changed_texts(conn) if deep else []
    if changed:
        words = f"In {where} the text of {len(changed)} versions is damaged."
        return Health(DAMAGED, words, tuple(changed), recipes, versions)
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
