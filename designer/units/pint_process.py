"""The table of rarer units, made by a process of its own: importing pint holds an interpreter up.

A thread would do it beside the window, but a thread that imports keeps the others waiting.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import designer
from designer.units.pint_units import TABLE_COMMAND, table_text

LONGEST_S = 60.0


def table_fetched() -> str:
    """Return what `rare.table_text` returns, from another process or, failing that, from this."""
    try:
        found = table_from_another_process()
        json.loads(found)
    except (OSError, subprocess.SubprocessError, ValueError):
        return table_text()
    return found


def table_from_another_process() -> str:
    """Return what `rare.table_text` returns, found by another process of this program.

    Raises OSError or subprocess.SubprocessError where none can be started or it fails. It has no
    terminal, says nothing on ours, and ends by itself within a second when nobody listens.
    """
    root = str(Path(designer.__file__).parents[1])
    path = os.pathsep.join(filter(None, (root, os.environ.get("PYTHONPATH"))))
    whole = getattr(sys, "frozen", False)  # one file, with the interpreter in it
    words = [sys.executable] if whole else [sys.executable, "-P", "-m", "designer"]
    done = subprocess.run(
        [*words, TABLE_COMMAND],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": path},
        timeout=LONGEST_S,
        check=True,
        creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
    )
    return done.stdout.decode("utf-8")
