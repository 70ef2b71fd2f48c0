"""The store: everything a brewer keeps, in one SQLite file. One `Store` for each thread.

Opening makes the file if there is none, brings an older one up to date, and opens read-only what
cannot be written: `read_only` then says why. It does not search for damage (see `rescue.check`),
but an empty or cut-off file is not taken for a new one.
"""

from __future__ import annotations

from pathlib import Path
from types import TracebackType

from designer.library.store.backup_files import Backup, backups
from designer.library.store.backups import copy_store, make_backup
from designer.library.store.brews import Brews
from designer.library.store.bringing_back import bring_back
from designer.library.store.changes import Changes, changes_since
from designer.library.store.connection import PATIENCE_S, Connection, Waiting
from designer.library.store.drafts import Drafts
from designer.library.store.examples import Examples
from designer.library.store.folder import store_path
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord, Records
from designer.library.store.opening import opened
from designer.library.store.preferences import Preferences
from designer.library.store.recipes import Recipes
from designer.library.store.search import Finder
from designer.library.store.tags_and_trash import Tags, Trash
from designer.library.store.taught_figures import TaughtFigures


class Store:
    """A store opened by one thread; close it in that thread (or use `with`)."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.recipes = Recipes(connection)
        self.examples = Examples(connection)
        self.finder = Finder(connection)
        self.tags = Tags(connection)
        self.trash = Trash(connection)
        self.drafts = Drafts(connection)
        self.pots = Records(connection, "pots", PotRecord)
        self.fermenters = Records(connection, "fermenters", FermenterRecord)
        self.cupboard = Records(connection, "cupboard", CupboardRecord)
        self.preferences = Preferences(connection)
        self.brews = Brews(connection)
        self.taught = TaughtFigures(connection)

    @classmethod
    def open(
        cls,
        folder: Path,
        *,
        fresh: bool = False,
        expected: bool = False,
        patience_s: float = PATIENCE_S,
        waiting: Waiting | None = None,
    ) -> Store:
        """Return the store in a folder, made if there is none.

        Where the store is missing but backups are there it is not made anew unless `fresh` says
        so, nor where it is `expected` to be there. `patience_s` is how long a call waits while
        another program holds the store; `waiting` is told the seconds waited and ends the wait by
        returning False.

        Raises StoreDamagedError, StoreGoneError, StoreBusyError and other DesignerErrors.
        """
        return cls(
            opened(folder, fresh=fresh, expected=expected, patience_s=patience_s, waiting=waiting)
        )

    @property
    def folder(self) -> Path:
        """The folder of the store."""
        return self.connection.path.parent

    @property
    def path(self) -> Path:
        """The store's file."""
        return store_path(self.folder)

    @property
    def read_only(self) -> str:
        """Why nothing can be written, in words to show; "" if all is well."""
        return self.connection.read_only

    @property
    def is_outdated(self) -> bool:
        """Whether it is to be opened anew: another file lies there, or it can be written again."""
        return self.connection.is_outdated

    def changes_since(self, token: str = "") -> Changes:
        """Return what changed since a token was given, by whomever; "" for a first token."""
        return changes_since(self.connection, token)

    def make_backup(self, *, forced: bool = False) -> Backup | None:
        """Make a backup and check it; None if nothing changed since the last one, unless forced.

        Raises DesignerError.
        """
        return make_backup(self.connection, forced=forced)

    def backups(self) -> list[Backup]:
        """Return the backups, the newest first. Raises DesignerError."""
        return backups(self.folder)

    def copy_everything(self, target: Path) -> None:
        """Write all that the store holds into one file, checked. Raises DesignerError."""
        copy_store(self.connection, target)

    def bring_back(self, source: Path) -> Backup | None:
        """Put a backup or a copy of everything in place of what the store holds now.

        That is made a backup first, which is returned. Raises DesignerError.
        """
        return bring_back(self.connection, source)

    def close(self) -> None:
        """Close the store."""
        self.connection.close()

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self.close()
