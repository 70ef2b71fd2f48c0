"""`--version`: the program's version, and those of what it stands on."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from typing import Any

from designer import __version__
from designer.translation import tr


def add_version(command: argparse.ArgumentParser) -> None:
    """Add the versions, which are looked for when they are asked for."""
    command.add_argument("--version", action=_Versions, nargs=0, help=tr("print the versions"))


class _Versions(argparse.Action):
    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: str | Sequence[Any] | None,
        option_string: str | None = None,
    ) -> None:
        sys.stdout.write("\n".join(versions()) + "\n")
        parser.exit()


def versions() -> list[str]:
    """Return the versions, a line each, the program's own first."""
    # None of these is loaded by a command that does without; of Qt its core alone.
    import platform
    import sqlite3

    from designer.library.store.steps import STEPS

    return [
        f"hobwort {__version__}",
        f"Python {platform.python_version()}",
        *_qt(),
        f"SQLite {sqlite3.sqlite_version}",
        tr("Recipe box, release {number}", number=len(STEPS)),
    ]


def _qt() -> list[str]:
    try:
        import PySide6
        from PySide6.QtCore import qVersion
    except ImportError as fault:
        return [tr("Qt cannot be loaded: {reason}", reason=fault)]
    return [f"PySide6 {PySide6.__version__}", f"Qt {qVersion()}"]
