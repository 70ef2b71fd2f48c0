"""Which program, libraries and system these are, for a report of a problem."""

from __future__ import annotations

import platform

import PySide6
from PySide6.QtCore import QLocale, qVersion
from PySide6.QtGui import QGuiApplication

import designer


def system_words() -> str:
    """Return program, libraries and system, as far as they may matter."""
    from sqlite3 import sqlite_version  # not before a report or a version is wanted

    screen = QGuiApplication.primaryScreen()
    scale = f", screen {screen.devicePixelRatio():g}" if screen is not None else ""
    return "\n".join(
        (
            f"Hobwort {designer.__version__}",
            f"Python {platform.python_version()}, Qt {qVersion()}, PySide6 {PySide6.__version__}, "
            f"SQLite {sqlite_version}",
            f"{platform.system()} {platform.release()}, {platform.machine()}",
            f"{QGuiApplication.platformName()}{scale}, {QLocale().name()}",
        )
    )
