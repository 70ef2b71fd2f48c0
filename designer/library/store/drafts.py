"""Drafts: what each window is editing, written with every change, so that a crash loses nothing.

A draft belongs to a recipe and to a window's sitting. It may outlive all of them: its text is whole
in itself. Drafts come in the order of their numbers, which grow with each write: no clock is asked.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from designer.library.store.changes import note
from designer.library.store.connection import Connection, inserted
from designer.library.store.documents import accepted
from designer.library.store.faults import damaged
from designer.library.store.values import Draft, from_row, now_text
from designer.library.store.windows import window_of
from designer.translation import tr

if TYPE_CHECKING:
    from sqlite_utils import Database

MOST_UNDO = 100
LARGEST_UNDO = 1_000_000
LONGEST_PHRASE = 200
"""The undo history is kept up to so many documents and signs, the nearest to the present first."""

_PLAIN = ("recipe", "window", "base", "document", "position", "saved")


class Drafts:
    """The drafts of a store."""

    def __init__(self, connection: Connection) -> None:
        self._connection = connection

    def put(self, draft: Draft) -> Draft:
        """Keep a draft in place of the last one for its recipe and sitting; return it as kept.

        It is read back from the disk. Raises DesignerError.
        """
        kept = replace(bounded(draft), document=accepted(draft.document)[0], saved=now_text())

        def work(db: Database) -> int:
            facts = {name: getattr(kept, name) for name in _PLAIN}
            facts |= {"undo": json.dumps(kept.undo), "phrases": json.dumps(kept.phrases)}
            number = inserted(db, "drafts", facts, replace=True)
            note(db, "draft", kept.recipe)
            return number

        kept = replace(kept, number=self._connection.write(work))
        if self.get(kept.window, kept.recipe) != kept:
            raise damaged(self._connection.path, tr("a draft is not there as it was written"))
        return kept

    def get(self, window: str, recipe: int = 0) -> Draft | None:
        """Return the draft of a sitting for a recipe (0: one never saved), or None."""
        row = self._connection.row(
            "select * from drafts where window = ? and recipe = ?", (window, recipe)
        )
        return _draft(row) if row else None

    def all(self) -> list[Draft]:
        """Return all drafts, the last written last."""
        return [_draft(row) for row in self._connection.rows("select * from drafts order by id")]

    def last_number(self, *, without: str = "") -> int:
        """Return the number of the draft written last, but for those of one sitting; 0 for none."""
        row = self._connection.row(
            "select coalesce(max(id), 0) as n from drafts where window <> ?", (without,)
        )
        return int(row["n"]) if row else 0

    def left_behind(self, open_windows: Collection[str]) -> list[Draft]:
        """Return the drafts of windows that are not open any more: after a crash, what to show."""
        return [draft for draft in self.all() if window_of(draft.window) not in open_windows]

    def take_over(self, draft: Draft, sitting: str) -> Draft | None:
        """Let a new sitting go on with a draft that another left behind; return it as its own.

        None if another window was quicker, or has written it anew. Raises DesignerError.
        """

        def work(db: Database) -> int:
            # by hand: one statement looks and takes, and tells whether it did
            done = db.conn.execute(
                "update drafts set window = ? where id = ? and window = ?",
                (sitting, draft.number, draft.window),
            )
            note(db, "draft", draft.recipe)
            return int(done.rowcount)

        return replace(draft, window=sitting) if self._connection.write(work) else None

    def drop(self, window: str, recipe: int | None = None) -> None:
        """Forget a sitting's draft, of one recipe or of any: it was saved, or given up.

        Raises DesignerError.
        """

        def work(db: Database) -> None:
            db.table("drafts").delete_where(
                "window = ? and (? is null or recipe = ?)", (window, recipe, recipe)
            )
            note(db, "draft", recipe or 0)

        self._connection.write(work)


def bounded(draft: Draft) -> Draft:
    """Return the draft with as much of its undo history as is kept, nearest to the present."""
    position = min(max(draft.position, 0), max(len(draft.undo) - 1, 0))
    phrases = [phrase[:LONGEST_PHRASE] for phrase in _beside(draft.undo, draft.phrases)]
    steps = list(zip(draft.undo, phrases, strict=True))
    size = sum(len(text) for text, _ in steps)
    while len(steps) > 1 and (len(steps) > MOST_UNDO or size > LARGEST_UNDO):
        if position * 2 >= len(steps) - 1:
            size -= len(steps.pop(0)[0])
            position -= 1
        else:
            size -= len(steps.pop()[0])
    undo, phrases = [text for text, _ in steps], [phrase for _, phrase in steps]
    return replace(draft, undo=tuple(undo), phrases=tuple(phrases), position=position)


def _beside(undo: Sequence[str], phrases: Sequence[str]) -> tuple[str, ...]:
    """Return one phrase for each document; none at all where they do not belong together."""
    return tuple(phrases) if len(phrases) == len(undo) else ("",) * len(undo)


def _draft(row: dict[str, Any]) -> Draft:
    """Return the draft of a row; a history that cannot be read is left out, not the draft."""
    try:
        undo = tuple(str(text) for text in json.loads(row["undo"]))
        position = min(int(row["position"]), max(len(undo) - 1, 0))
    except (ValueError, TypeError):
        undo, position = (), 0
    phrases = _beside(undo, _texts(row["phrases"]))
    return from_row(Draft, row, undo=undo, position=position, phrases=phrases, number=row["id"])


def _texts(text: object) -> tuple[str, ...]:
    """Return the texts of a JSON list; none where it is no such list."""
    try:
        found = json.loads(str(text))
    except ValueError:
        return ()
    return tuple(map(str, found)) if isinstance(found, list) else ()
