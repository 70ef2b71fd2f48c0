"""How a program is started to be measured, and the bare window that it is measured against.

With its modules compiled, as an installed one's are, and with folders that are no one's own.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager

BARE_WINDOW = """
from PySide6.QtGui import QStandardItemModel
from PySide6.QtWidgets import QApplication, QMainWindow, QSplitter, QTableView
application, window, both = QApplication([]), QMainWindow(), QSplitter()
for _ in range(2):
    table = QTableView()
    table.setModel(QStandardItemModel(4, 6, table))
    both.addWidget(table)
window.setCentralWidget(both)
window.resize(1280, 800)
"""


def use_own_folders() -> None:
    """Let settings and Recipe box lie in folders that go with this process."""
    for name in ("HOBWORT_SETTINGS", "HOBWORT_STORE"):
        os.environ[name] = tempfile.mkdtemp(prefix="hobwort-measured-")
        atexit.register(shutil.rmtree, os.environ[name], ignore_errors=True)


@contextmanager
def as_installed() -> Iterator[dict[str, str]]:
    """Give the environment for starts; the first start in it compiles, and is not to be counted.

    Whatever the environment here says: compiling every module anew takes longer than the start.
    """
    with tempfile.TemporaryDirectory(prefix="hobwort-compiled-") as compiled:
        environment = {**os.environ, "PYTHONPYCACHEPREFIX": compiled}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        yield environment
