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
from designer.library.store.contents import all_of
from designer.library.store.documents import digest
from designer.library.store.faults import NOT_AS_MADE, in_words, shown, system_words, tells_damage
from designer.library.store.steps import STEPS, has_its_tables
from designer.library.store.table_shapes import NOTES_OF_STEPS, strange_parts
from designer.library.store.taking_over import readable
from designer.translation import message, tr, trn
from designer.units.quoting import one_line

SOUND, MISSING, EMPTY, DAMAGED = "sound", "missing", "empty", "damaged"
FOREIGN, NEWER, UNREADABLE = "foreign", "newer", "unreadable"
MOST_PROBLEMS = 20
MADE_OTHERWISE = message(
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
            return Health(MISSING, tr("{where} is not there.", where=where))
        if path.is_dir():
            return Health(UNREADABLE, tr("{where} is a folder, not a file.", where=where))
        if path.stat().st_size == 0:
            return Health(EMPTY, tr("{where} is empty.", where=where))
        with closing(readable(path)) as conn:
            conn.text_factory = as_text
            return _looked_into(conn, where, deep)
    except sqlite3.Error as fault:
        if tells_damage(fault):
            return _damaged(where, str(fault))
        return Health(UNREADABLE, str(in_words(fault, path)), (str(fault),))
    except UnicodeDecodeError:
        return _damaged(where, tr("a text in it is not text"))
    except (OSError, ValueError) as fault:
        told = fault if isinstance(fault, OSError) else OSError(str(fault))
        return Health(UNREADABLE, str(system_words(told, path, tr("Reading"))), (str(fault),))


def _damaged(where: str, why: str, *problems: str, recipes: int = 0, versions: int = 0) -> Health:
    words = tr("{where} is damaged ({reason}).", where=where, reason=one_line(why))
    return Health(DAMAGED, words, problems or (why,), recipes, versions)


def _looked_into(conn: sqlite3.Connection, where: str, deep: bool) -> Health:
    tables = {row[0] for row in conn.execute("select name from sqlite_master")}
    is_ours = {NOTES_OF_STEPS, "recipes", "versions"} <= tables
    is_newer = is_ours and not _taken(conn) <= {step.__name__ for step in STEPS}
    strange = strange_parts(conn) if is_ours and not is_newer else []
    if strange:  # before anything else is read: SQLite would run what it says
        words = tr(MADE_OTHERWISE, where=where, strange=listed(strange))
        return Health(DAMAGED, words, tuple(strange))
    problems = [row[0] for row in conn.execute(f"pragma quick_check({MOST_PROBLEMS})")]
    if problems != ["ok"]:
        # the first line only names the database
        return _damaged(where, problems[0].splitlines()[-1], *problems)
    if not is_ours:
        return Health(FOREIGN, tr("{where} is a database, but not a Recipe box.", where=where))
    return _of_store(conn, where, deep, is_newer)


def _taken(conn: sqlite3.Connection) -> set[str]:
    return {row[0] for row in conn.execute(f"select name from {NOTES_OF_STEPS}")}


def listed(parts: Sequence[str]) -> str:
    """Return the parts of a file in one phrase: the first three, and how many more."""
    more = len(parts) - 3
    return all_of([*parts[:3], *([tr("{number:,} more", number=more)] if more > 0 else [])])


def _of_store(conn: sqlite3.Connection, where: str, deep: bool, is_newer: bool) -> Health:
    recipes = conn.execute("select count(*) from recipes").fetchone()[0]
    versions = conn.execute("select count(*) from versions").fetchone()[0]
    if is_newer:
        words = tr("{where} was written by a newer Hobwort; update the program.", where=where)
        return Health(NEWER, words, (), recipes, versions)
    counts = {"recipes": recipes, "versions": versions}
    if not has_its_tables(conn):
        return _damaged(where, tr(NOT_AS_MADE), **counts)
    changed = _changed_texts(conn) if deep else []
    if changed:
        why = trn(
            "{number:,} version is not what was written",
            "{number:,} versions are not what was written",
            len(changed),
        )
        return _damaged(where, why, *changed, **counts)
    words = tr("{where} is sound: {recipes} recipes.", where=where, recipes=recipes)
    return Health(SOUND, words, (), recipes, versions)


def _changed_texts(conn: sqlite3.Connection) -> list[str]:
    """Return which versions are not what was written, and recipes whose newest one is missing."""
    found = [
        tr("version {number} of recipe {recipe}", number=number, recipe=recipe)
        for recipe, number, document, kept in conn.execute(
            "select recipe, number, document, digest from versions"
        )
        if digest(recipe, number, document) != kept
    ]
    return found + [
        tr("recipe {recipe} without its newest version", recipe=recipe)
        for (recipe,) in conn.execute(
            "select id from recipes where newest not in (select id from versions)"
        )
    ]
