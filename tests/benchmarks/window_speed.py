"""How fast the window is there: its start against that of a bare window.

Run it: `python tests/benchmarks/window_speed.py`. It prints milliseconds and ratios of one run, of
a start on a recipe file and of a first start, which shows the doors; by the clock and by the time
of the processor, which a busy machine changes less. LANGUAGE=de starts it in German.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from as_installed import BARE_WINDOW, as_installed, use_own_folders
from figures import note

TOP = Path(__file__).parents[2]
sys.path.insert(0, str(TOP))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")
use_own_folders()

STARTS = 9

PROBE = """
class Painted(QObject):
    # tells when a widget has been painted for the first time; the last one ends the program
    def __init__(self, last):
        super().__init__()
        self.last, self.told = last, False
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and not self.told:
            self.told = True
            QTimer.singleShot(0, self.tell)
        return False
    def tell(self):
        print(1000 * (time.time() - start), 1000 * time.process_time(), flush=True)
        if self.last:
            os._exit(0)
"""
BARE = """
import time, sys
start = float(sys.argv[1])
import os
from PySide6.QtCore import QEvent, QObject, QTimer
%PROBE%
%WINDOW%
probe = Painted(last=True)
window.installEventFilter(probe)
window.show()
application.exec()
""".replace("%PROBE%", PROBE).replace("%WINDOW%", BARE_WINDOW)
OURS = """
import time, sys
start = float(sys.argv[1])
import gc, os
gc.disable()
from designer.paper.plain_imports import import_qt
import_qt()
from PySide6.QtCore import QEvent, QObject, QTimer
%PROBE%
from designer.spoken_language import speak_as_wanted
from designer.window.parts.settings import Settings
from designer.window.parts.wording import speak_alike
from designer.window.start import made_application, opened_window
from designer.window.parts.theme import apply_scheme
from designer.window.parts.typeface import wear_typeface
speak_as_wanted()
application = made_application()
speak_alike(application)
settings = Settings(application)
wear_typeface(application, settings.typeface)
window = opened_window(%PATH%, settings, keeping=True, waiting=True)
apply_scheme(application, settings.scheme)
probe, last = Painted(last=False), Painted(last=True)
window.installEventFilter(probe)
page = window.pages.currentWidget()
complete = page.complete
def completed():
    complete()
    %LAST%.installEventFilter(last)
page.complete = completed
window.show()
application.exec()
""".replace("%PROBE%", PROBE)
EXAMPLE = TOP / "resources" / "examples" / "harbour_lamp_porter.hobwort"
ON_A_FILE = OURS.replace("%PATH%", f"__import__('pathlib').Path({str(EXAMPLE)!r})").replace(
    "%LAST%", "page.day_line"
)
AT_THE_DOORS = OURS.replace("%PATH%", "None").replace("%LAST%", "page.own")


def start(program: str, environment: dict[str, str]) -> list[float]:
    """Return milliseconds, by the clock and of the processor, until the turn after each paint."""
    found = subprocess.run(
        [sys.executable, "-c", program, str(time.time())],
        capture_output=True,
        text=True,
        check=True,
        cwd=TOP,
        env=environment,
    )
    return [float(each) for each in found.stdout.split()]


def starts() -> None:
    """Print how long starts take, a bare window and ours in turn."""
    for what, ours in (("on a file", ON_A_FILE), ("at the doors", AT_THE_DOORS)):
        with as_installed() as environment:
            runs = [start(BARE, environment) + first_start(ours, environment)
                    for _ in range(STARTS + 1)][1:]  # fmt: skip
        found = [statistics.median(each) for each in zip(*runs, strict=True)]
        for by, (bare, usable, whole) in (("clock", found[::2]), ("processor", found[1::2])):
            note(f"start {what}, usable, by the {by}", usable / bare, "x", bound=1.5)
            note(f"start {what}, all painted, by the {by}", whole / bare, "x", bound=2.0)
            say(f"start {what} by the {by}: bare window {bare:.0f} ms; ours, usable, {usable:.0f} "
                f"ms, ratio {usable / bare:.2f} (bound 1.50); all pictures painted {whole:.0f} ms, "
                f"ratio {whole / bare:.2f} (bound 2.00)")  # fmt: skip


def first_start(program: str, environment: dict[str, str]) -> list[float]:
    """Return what `start` does of a program that has no settings and no Recipe box yet."""
    with tempfile.TemporaryDirectory(prefix="hobwort-speed-") as folder:
        places = {"HOBWORT_STORE": folder, "HOBWORT_SETTINGS": folder}
        return start(program, {**environment, **places})


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")


if __name__ == "__main__":
    starts()
