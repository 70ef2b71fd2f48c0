"""Whose work Hobwort is made of: each part with its version, its licence and the text of that.

The texts are gathered by `packaging/licences.py`. A bundle adds, in a table of its own, what it
carries of the libraries of the system that it was built on.
"""

from __future__ import annotations

import csv
import platform
import sqlite3
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from designer import __version__
from designer.resource_files import licences_folder

TABLES = ("parts.csv", "libraries.csv")
"""The parts of every Hobwort, and what only a bundle carries; the latter tells its versions."""


@dataclass(frozen=True)
class LicencedPart:
    """A part of the program: `licence` is an SPDX expression, `version` "" where none is known."""

    name: str
    version: str
    licence: str
    text_path: Path


def parts() -> tuple[LicencedPart, ...]:
    """Return all parts, Hobwort itself first."""
    folder = licences_folder()
    rows = [row for name in TABLES for row in _rows(folder / name)]
    return tuple(
        LicencedPart(row["name"], _version(row), row["licence"], folder / row["text"])
        for row in rows
    )


def _rows(path: Path) -> list[dict[str, str]]:
    if not path.is_file():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _version(row: dict[str, str]) -> str:
    told = row.get("version") or _OF_THEIR_OWN.get(row["name"], "")
    if told or not row["distribution"]:
        return told
    try:
        return version(row["distribution"])
    except PackageNotFoundError:  # what only a bundle has, or a newer release has no need of
        return ""


_OF_THEIR_OWN = {
    "Hobwort": __version__,
    "Python": platform.python_version(),
    "SQLite": sqlite3.sqlite_version,
}
"""Versions of what Python does not know as packages."""
