"""The rows behind a recipe, written within the transaction of whoever calls.

By hand, for thousands are brought in at once: what sqlite-utils looks up before each insert, update
and delete (see `connection.inserted`) would triple the time of a recipe, 0.9 ms against 0.3. The
words to search are rows of a table of FTS5, which has no key that it could find.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from designer.library.store.changes import note
from designer.library.store.connection import Connection, inserted
from designer.library.store.documents import accepted, digest, name_of, searchable, words_of
from designer.library.store.values import SUMMARY_COLUMNS, RecipeRow, Summary, now_text

if TYPE_CHECKING:
    from sqlite_utils import Database

KEPT, TRASHED = "kept", "trashed"
LONGEST_KEY = 200


def new_recipe(db: Database, name: str, *, branched_from: int = 0, example: str = "") -> int:
    """Make a recipe without versions; return its number."""
    now = now_text()
    facts: dict[str, Any] = {
        "name": name,
        "name_key": key_of(name),
        "made": now,
        "changed": now,
        "touched": 0,
        "branched_from": branched_from or None,
        "example": example,
    }
    return inserted(db, "recipes", facts)


def new_version(
    db: Database,
    recipe: int,
    document: str,
    values: dict[str, Any],
    summary: Summary,
    name: str,
    *,
    base: int = 0,
) -> int:
    """Add a version to a recipe and let the recipe's row and words follow; return its id."""
    found = db.conn.execute("select max(number) from versions where recipe = ?", (recipe,))
    number = (found.fetchone()[0] or 0) + 1
    facts: dict[str, Any] = {
        "recipe": recipe,
        "number": number,
        "name": name,
        "saved": now_text(),
        "base": base or None,
        "document": document,
        "digest": digest(recipe, number, document),
        **asdict(summary),
    }
    version = inserted(db, "versions", facts)
    _follow(db, recipe, version, number, values, asdict(summary))
    return version


def refresh(db: Database, recipe: int) -> None:
    """Let a recipe's row and words follow its newest version anew."""
    row = next(
        db.query("select * from versions where recipe = ? order by number desc limit 1", (recipe,))
    )
    summary = {name: row[name] for name in SUMMARY_COLUMNS}
    _follow(db, recipe, row["id"], row["number"], accepted(row["document"])[1], summary)
    db.conn.execute("update recipes set changed = ? where id = ?", (row["saved"], recipe))


def _follow(
    db: Database,
    recipe: int,
    version: int,
    number: int,
    values: dict[str, Any],
    summary: dict[str, Any],
) -> None:
    """Let a recipe's row and words follow a version that is its newest now."""
    shown = name_of(values)
    about: dict[str, Any] = {
        "name": shown,
        "name_key": key_of(shown),
        "changed": now_text(),
        "touched": note(db, "recipe", recipe),
        "newest": version,
        "count": number,
        **summary,
    }
    sets = ", ".join(f"{column} = ?" for column in about)
    db.conn.execute(f"update recipes set {sets} where id = ?", (*about.values(), recipe))
    put_words(db, recipe, values)


def is_version_of(db: Database, version: int, recipe: int) -> bool:
    """Tell whether a version belongs to a recipe."""
    found = db.conn.execute("select recipe from versions where id = ?", (version,)).fetchone()
    return found is not None and found[0] == recipe


def newest_of(db: Database, recipe: int) -> dict[str, Any] | None:
    """Return id, recipe, name and document of the newest version, and whether it is an example.

    None if there is no recipe.
    """
    return next(
        db.query(
            "select v.id, v.recipe, v.name, v.document, r.example from recipes r"
            " join versions v on v.id = r.newest where r.id = ?",
            (recipe,),
        ),
        None,
    )


def name_version(db: Database, version: dict[str, Any], name: str) -> None:
    """Give a version a name, unless none is given or it has that one."""
    if name and name != version["name"]:
        db.conn.execute("update versions set name = ? where id = ?", (name, version["id"]))
        note(db, "recipe", version["recipe"])


def key_of(text: str) -> str:
    """Return a text as it is compared and sorted."""
    return " ".join(text.split()).casefold()[:LONGEST_KEY]


def put_words(db: Database, recipe: int, values: dict[str, Any]) -> None:
    """Let the search find a recipe by the words of its document, and by its tags."""
    words = words_of(values)
    trashed = db.conn.execute("select trashed from recipes where id = ?", (recipe,)).fetchone()
    state = TRASHED if trashed and trashed[0] else KEPT
    tags = searchable(" / ".join(tags_of(db, recipe)))
    db.conn.execute(
        "replace into words (rowid, name, style, ingredients, notes, tags, state)"
        " values (?, ?, ?, ?, ?, ?, ?)",
        (recipe, words.name, words.style, words.ingredients, words.notes, tags, state),
    )


def put_tags(db: Database, recipe: int, tags: Iterable[str]) -> None:
    """Give a recipe these tags and no others; upper and lower case do not tell tags apart."""
    wanted = {key_of(tag): " ".join(tag.split()) for tag in tags if tag.strip()}
    db.conn.execute("delete from tags where recipe = ?", (recipe,))
    db.conn.executemany(
        "insert into tags (recipe, tag, tag_key) values (?, ?, ?)",
        [(recipe, tag, key) for key, tag in wanted.items()],
    )
    found = searchable(" / ".join(tags_of(db, recipe)))
    db.conn.execute("update words set tags = ? where rowid = ?", (found, recipe))


def tags_of(db: Database, recipe: int) -> tuple[str, ...]:
    """Return a recipe's tags in the order of the alphabet."""
    found = db.conn.execute("select tag from tags where recipe = ? order by tag_key", (recipe,))
    return tuple(row[0] for row in found)


def set_trashed(db: Database, recipe: int, when: str | None) -> None:
    """Throw a recipe away, or with None take it out of the trash, unless that was done before."""
    done = db.conn.execute(
        "update recipes set trashed = ? where id = ? and (trashed is null) = ?",
        (when, recipe, when is not None),
    )
    if done.rowcount:
        state = KEPT if when is None else TRASHED
        db.conn.execute("update words set state = ? where rowid = ?", (state, recipe))
        note(db, "recipe", recipe)


def listed(connection: Connection, recipes: Sequence[int]) -> list[RecipeRow]:
    """Return the rows of these recipes, in this order; those that are gone are left out."""
    marks = ", ".join("?" * len(recipes))
    tags: dict[int, list[str]] = {}
    for recipe, tag in connection.tuples(
        f"select recipe, tag from tags where recipe in ({marks}) order by tag_key", recipes
    ):
        tags.setdefault(recipe, []).append(tag)
    by_id = {}
    # By place, for it is done with each key of a search: by name it takes half as long again.
    for row in connection.tuples(f"select {_LISTED} from recipes where id in ({marks})", recipes):
        values: list[Any] = [*row[:_OWN], Summary(*row[_OWN:]), tuple(tags.get(row[0], ()))]
        by_id[row[0]] = RecipeRow(*values)
    return [by_id[each] for each in recipes if each in by_id]


_OWN_COLUMNS = (
    "id", "name", "newest", "count", "made", "changed",
    "ifnull(trashed, '')", "ifnull(last_brewed, '')", "ifnull(branched_from, 0)",
    "example", "ifnull(fermenting, '')", "ifnull(packaged, '')", "ifnull(ready, '')",
)  # fmt: skip
"""The columns of a recipe's row in the order of the fields of `RecipeRow`, its summary aside."""

_OWN = len(_OWN_COLUMNS)
_LISTED = ", ".join(_OWN_COLUMNS + SUMMARY_COLUMNS)
