"""How much memory the window holds, against a bare window with two tables.

Run it: `python tests/benchmarks/window_memory.py` (on Linux, which tells a process's share). It
prints megabytes and their ratio, three seconds after the start, when ranges and store are there:
on a recipe file, and at a first start, which shows the doors.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from as_installed import BARE_WINDOW, as_installed
from figures import note

TOP = Path(__file__).parents[2]
BOUND, RUNS = 1.8, 3
BARE = f"from PySide6.QtCore import QTimer\n{BARE_WINDOW}"
OURS = """
import gc
gc.disable()  # as the program does while the window opens
from designer.paper.plain_imports import import_qt
import_qt()
from PySide6.QtCore import QTimer
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
application = made_application()
settings = Settings(application)
wear_typeface(application, settings.typeface)
window = opened_window(%PATH%, settings, keeping=True, waiting=True)
apply_scheme(application, settings.scheme)
"""
SCREEN = f"offscreen:configfile={TOP}/tests/screen.json"
EXAMPLE = TOP / "resources" / "examples" / "harbour_lamp_porter.hobwort"
ON_A_FILE = OURS.replace("%PATH%", f"__import__('pathlib').Path({str(EXAMPLE)!r})")
AT_THE_DOORS = OURS.replace("%PATH%", "None")
END = """
import os
def tell():
    found = next(line for line in open("/proc/self/status") if line.startswith("VmRSS"))
    print(int(found.split()[1]) / 1024, flush=True)
    os._exit(0)
window.show()
QTimer.singleShot(3000, tell)
application.exec()
"""


def megabytes(program: str, environment: dict[str, str]) -> float:
    """Return the memory of a window, three seconds after its start."""
    with tempfile.TemporaryDirectory(prefix="hobwort-memory-") as folder:
        places = {"HOBWORT_STORE": folder, "HOBWORT_SETTINGS": folder}
        done = subprocess.run(
            [sys.executable, "-c", program + END], capture_output=True, text=True, check=True,
            cwd=TOP, env={"QT_QPA_PLATFORM": SCREEN, **environment, **places},
        )  # fmt: skip
    return float(done.stdout.split()[-1])


def main() -> None:
    """Print both, and the ratio."""
    with as_installed() as environment:
        megabytes(ON_A_FILE, environment)
        bare = statistics.median(megabytes(BARE, environment) for _ in range(RUNS))
        for what, program in (("on a file", ON_A_FILE), ("at the doors", AT_THE_DOORS)):
            ours = statistics.median(megabytes(program, environment) for _ in range(RUNS))
            note(f"memory {what}", ours / bare, "x", bound=BOUND)
            sys.stdout.write(
                f"memory {what}: bare window {bare:.1f} MB, ours {ours:.1f} MB, ratio "
                f"{ours / bare:.2f} (bound {BOUND})\n"
            )


if __name__ == "__main__":
    main()
