"""The tables of a store, built by named steps. A released step is never edited: add another.

Times are text in UTC, shown but never compared: a clock may be set back. Order comes from numbers
that only grow (`changes.id`, `versions.number`). The document is the text of a recipe file; a
recipe's row holds what its newest version forecasts, so that a list need not open documents.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from functools import cache
from typing import TYPE_CHECKING

from designer.digests import blake2b
from designer.translation import message, tr
from designer.units.quoting import one_line

if TYPE_CHECKING:
    from sqlite_utils import Database
    from sqlite_utils.migrations import Migrations

SET_NAME = "hobwort"
SUMMARY_SQL = """
    style text not null default '', fermenter text not null default '',
    pot text not null default '',
    og real, fg real, abv real, ibu real, srm real, batch_l real, pot_fullest_l real
"""
TABLES = (
    "about", "changes", "recipes", "versions", "tags", "words", "drafts", "pots", "fermenters",
    "cupboard", "preferences", "brews", "brew_lines", "taught",
)  # fmt: skip
BEER_DAYS = ("fermenting", "packaged", "ready")
"""Days of a recipe's beers: in the fermenter since, in bottles or keg since, ready from."""
SORTED_BY = ("name_key", "style", "og", "abv", "ibu", "srm", "batch_l", "last_brewed", "touched")


def recipes_and_versions(db: Database) -> None:
    """Recipes, each with every version that was saved."""
    db.executescript(f"""
        create table about (key text primary key, value text not null);
        create table changes (
            id integer primary key autoincrement, about text not null, key integer not null);
        create table recipes (
            id integer primary key autoincrement,
            name text not null, name_key text not null,
            made text not null, changed text not null, touched integer not null,
            newest integer not null default 0, count integer not null default 0,
            trashed text, last_brewed text, branched_from integer, {SUMMARY_SQL});
        create table versions (
            id integer primary key autoincrement,
            recipe integer not null references recipes(id) on delete cascade,
            number integer not null, name text not null default '', saved text not null,
            base integer, document text not null, digest text not null, {SUMMARY_SQL});
        create unique index versions_of_recipe on versions (recipe, number);
        create index recipes_by_figures on recipes
            (trashed, ibu, og, fg, abv, srm, batch_l, pot_fullest_l);
        create table tags (
            recipe integer not null references recipes(id) on delete cascade,
            tag text not null, tag_key text not null,
            primary key (recipe, tag_key));
        create index recipes_by_tag on tags (tag_key, recipe);
    """)
    for column in SORTED_BY:
        db.execute(f"create index recipes_by_{column} on recipes (trashed, {column}, id)")


def words_to_search(db: Database) -> None:
    """The words of each recipe under its own number, found from their first letters on."""
    db.execute("""
        create virtual table words using fts5 (
            name, style, ingredients, notes, tags, state,
            tokenize = "unicode61 remove_diacritics 2", prefix = '1 2 3')
    """)


def drafts(db: Database) -> None:
    """What is being edited: one draft for each recipe and window, with its undo history."""
    db.executescript("""
        create table drafts (
            id integer primary key autoincrement,
            recipe integer not null, window text not null, base integer,
            document text not null, undo text not null, position integer not null,
            saved text not null, unique (window, recipe));
    """)


def kitchen_things(db: Database) -> None:
    """Pots, fermenters, the cupboard and preferences; quantities as typed."""
    db.executescript("""
        create table pots (
            id integer primary key autoincrement, name text not null, volume text not null,
            diameter text not null, stove text not null, power text not null,
            evaporation text not null, heat_loss text not null, coil text not null,
            cooling_constant text not null, notes text not null);
        create table fermenters (
            id integer primary key autoincrement, name text not null, volume text not null,
            graduation text not null, kind text not null, notes text not null);
        create table cupboard (
            id integer primary key autoincrement, name text not null, kind text not null,
            amount text not null, price text not null, alpha text not null, lot text not null,
            bought text, best_before text, open_bag integer not null, notes text not null);
        create table preferences (key text primary key, value text not null);
    """)


def brews(db: Database) -> None:
    """Brew logs. A log outlives its recipe, so it keeps the document it was brewed from."""
    db.executescript("""
        create table brews (
            id integer primary key autoincrement, recipe integer, version integer,
            name text not null, document text not null,
            started text not null, finished text);
        create index brews_of_recipe on brews (recipe);
        create table brew_lines (
            id integer primary key autoincrement,
            brew integer not null references brews(id) on delete cascade,
            at text not null, entry text not null);
        create index lines_of_brew on brew_lines (brew, id);
    """)


def phrases_of_drafts(db: Database) -> None:
    """What was done to reach each document of a draft's history, in a brewer's words."""
    db.execute("alter table drafts add column phrases text not null default '[]'")


def other_forecasts(db: Database) -> None:
    """Forecasts without a column of their own, as JSON."""
    for table in ("recipes", "versions"):
        db.execute(f"alter table {table} add column others text not null default ''")


def what_stays_in_pots(db: Database) -> None:
    """What a pot keeps back when it is emptied, as measured with it."""
    db.execute("alter table pots add column left_in_pot text not null default ''")


def examples_to_look_around_in(db: Database) -> None:
    """Which recipes are examples of the program; a box that holds anything by now gets none."""
    db.execute("alter table recipes add column example text not null default ''")
    held = ("recipes", "drafts", "pots", "fermenters", "cupboard", "preferences", "brews")
    is_used = any(db.execute(f"select 1 from {each} limit 1").fetchone() for each in held)
    if is_used:
        db.execute("insert or replace into preferences (key, value) values ('examples', '[]')")


def brews_beside_the_stove(db: Database) -> None:
    """Logs that are written while brewing: names that last, entries that are there once only."""
    db.executescript("""
        alter table brews add column uid text not null default '';
        alter table brews add column file text not null default '';
        alter table brews add column mark integer not null default 0;
        alter table brew_lines add column entry_id text not null default '';
        alter table brew_lines add column what text not null default '';
        update brews set uid = lower(hex(randomblob(16)));
        create unique index brews_by_uid on brews (uid) where uid <> '';
        create unique index lines_by_entry on brew_lines (brew, entry_id) where entry_id <> '';
    """)


def what_the_kitchen_taught(db: Database) -> None:
    """What the brewer did with a figure that brews taught: took it, let it be, gave it back."""
    db.executescript("""
        create table taught (
            id integer primary key autoincrement, figure text not null, subject text not null,
            does text not null, value text not null, before text not null,
            at text not null, brews text not null);
        alter table fermenters add column marks_hold text not null default '';
    """)


def days_of_beers(db: Database) -> None:
    """When beers were packaged and are ready; what a recipe's list tells of its beers."""
    for column in ("packaged", "ready"):
        db.execute(f"alter table brews add column {column} text")
    for column in BEER_DAYS:
        db.execute(f"alter table recipes add column {column} text")
        db.execute(f"create index recipes_by_{column} on recipes (trashed, {column}, id)")
    db.execute(
        "update recipes set fermenting = (select max(substr(finished, 1, 10)) from brews"
        " where recipe = recipes.id and mark = 0)"
    )


STEPS: tuple[Callable[[Database], None], ...] = (
    recipes_and_versions,
    words_to_search,
    drafts,
    kitchen_things,
    brews,
    phrases_of_drafts,
    other_forecasts,
    what_stays_in_pots,
    examples_to_look_around_in,
    brews_beside_the_stove,
    what_the_kitchen_taught,
    days_of_beers,
)


@cache
def migrations() -> Migrations:
    """Return the steps as sqlite-utils applies them."""
    from sqlite_utils.migrations import Migrations  # see connection.database

    found = Migrations(SET_NAME)
    for step in STEPS:
        found(name=step.__name__)(step)
    return found


def mark_tables(db: Database) -> None:
    """Note how the tables are made, so that damage to their making is seen at once."""
    db.table("about").upsert({"key": "tables", "value": _tables_mark(db.conn)}, pk="key")


def has_its_tables(conn: sqlite3.Connection) -> bool:
    """Tell whether the tables are as the last upgrade made them."""
    kept = conn.execute("select value from about where key = 'tables'").fetchone()
    return kept is not None and kept[0] == _tables_mark(conn)


def runs_by_itself(conn: sqlite3.Connection) -> str:
    """Return what in the schema SQLite would run unasked, in words; "" for nothing, as is made."""
    found = conn.execute(
        "select type, name from sqlite_master where type in ('trigger', 'view')"
    ).fetchone()
    return part_words(found[0], one_line(str(found[1]))[:60]) if found else ""


def part_words(kind: str, name: str) -> str:
    """Return a part of a schema in words: a table “recipes”."""
    return tr(_PARTS.get(kind, _OTHER_PART), kind=kind, name=name)


_PARTS = {
    "table": message("a table “{name}”"),
    "index": message("an index “{name}”"),
    "view": message("a view “{name}”"),
    "trigger": message("a trigger “{name}”"),
}
_OTHER_PART = message("a {kind} “{name}”")


def _tables_mark(conn: sqlite3.Connection) -> str:
    marks = ", ".join("?" * len(TABLES))
    made = conn.execute(
        f"select name, sql from sqlite_master where name in ({marks}) order by name", TABLES
    )
    return blake2b(repr(made.fetchall()).encode(), digest_size=8).hexdigest()


def unknown_steps(db: Database) -> list[str]:
    """Return the steps that were taken by a newer program than this one."""
    known = {step.__name__ for step in STEPS}
    return [each.name for each in migrations().applied(db) if each.name not in known]


def is_store(db: Database) -> bool:
    """Tell whether the database is a store of ours at all."""
    return any(each.name == STEPS[0].__name__ for each in migrations().applied(db))
