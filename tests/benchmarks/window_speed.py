"""How fast the window is: a key to repainted panels, and the start against a bare window.

Run it: `python tests/benchmarks/window_speed.py`. It prints milliseconds and ratios of one run.
Frames are counted by real paint events of the panels. Starts are told by the clock and by the time
of the processor, which a busy machine changes less.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

from as_installed import BARE_WINDOW, as_installed, use_own_folders

sys.path.insert(0, str(Path(__file__).parents[2]))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
use_own_folders()

KEYS = 300
STARTS = 9
FRAME_MS = 16.7

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
from designer.window.plain_imports import import_qt
import_qt()
from PySide6.QtCore import QEvent, QObject, QTimer
%PROBE%
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
from designer.window.parts.theme import apply_scheme
application = made_application()
settings = Settings(application)
window = opened_window(None, settings, keeping=True, waiting=True)
apply_scheme(application, settings.scheme)
probe, last = Painted(last=False), Painted(last=True)
window.installEventFilter(probe)
complete = window.compose.complete
def completed():
    complete()
    window.compose.day_line.installEventFilter(last)
window.compose.complete = completed
window.show()
application.exec()
""".replace("%PROBE%", PROBE)


def forty_lines():
    """Return the porter with twenty fermentables and twenty hops."""
    from designer.library.recipe_file import load
    from designer.recipe.edits import with_line_ids
    from designer.resource_files import resource_path

    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    return with_line_ids(
        replace(
            porter,
            fermentables=(porter.fermentables * 7)[:20],
            hops=(porter.hops * 10)[:20],
        )
    )


def keystrokes(recipe) -> list[float]:
    """Return milliseconds from a key in the first amount to the repainted page."""
    from PySide6.QtCore import QEvent, QObject, Qt
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication, QLineEdit

    from designer.window.main_window import MainWindow
    from designer.window.parts.settings import Settings
    from designer.window.parts.theme import apply_scheme
    from designer.window.session.open_recipe import OpenRecipe
    from designer.window.start import made_application

    application = QApplication.instance() or made_application()
    apply_scheme(application, "light")
    window = MainWindow(OpenRecipe(recipe), Settings())
    window.show()
    window.activateWindow()
    for _ in range(20):
        application.processEvents()

    class Painted(QObject):
        seen = 0

        def eventFilter(self, watched, event):  # noqa: N802 - Qt's own name
            if event.type() == QEvent.Type.Paint:
                self.seen += 1
            return False

    painted = Painted()
    watched = (window.compose.forecast.rows[0], window.compose.day_line, window.compose.vessels)
    for widget in watched:
        widget.installEventFilter(painted)
    view = window.compose.fermentables.view
    view.setCurrentIndex(view.model().index(0, 0))
    view.edit(view.currentIndex())
    editor = view.viewport().findChild(QLineEdit)
    editor.selectAll()
    times = []
    text = "1.2345 kg"
    for number in range(KEYS):
        key = text[number % len(text)]
        painted.seen = 0
        begun = time.perf_counter()
        if number % len(text) == 0:
            editor.selectAll()
        QTest.keyClick(editor, key)
        application.processEvents()
        application.processEvents()
        times.append(1000.0 * (time.perf_counter() - begun))
        if number > 20 and key.isdigit() and not painted.seen:
            times[-1] = float("nan")
    editor.deleteLater()
    window.opened.undo_stack.setClean()
    window.close()
    assert Qt is not None
    return times


def start(program: str, environment: dict[str, str]) -> list[float]:
    """Return milliseconds, by the clock and of the processor, until the turn after each paint."""
    found = subprocess.run(
        [sys.executable, "-c", program, str(time.time())],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
        env=environment,
    )
    return [float(each) for each in found.stdout.split()]


def starts() -> None:
    """Print how long starts take, a bare window and ours in turn."""
    with as_installed() as environment:
        runs = [start(BARE, environment) + start(OURS, environment) for _ in range(STARTS + 1)][1:]
    found = [statistics.median(each) for each in zip(*runs, strict=True)]
    for by, (bare, usable, whole) in (("clock", found[::2]), ("processor", found[1::2])):
        say(f"start by the {by}: bare window {bare:.0f} ms; ours, editors usable, {usable:.0f} ms, "
            f"ratio {usable / bare:.2f} (bound 1.50); all pictures painted {whole:.0f} ms, ratio "
            f"{whole / bare:.2f}")  # fmt: skip


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")


def main() -> None:
    """Print both measurements."""
    starts()
    times = sorted(keystrokes(forty_lines())[20:])
    p50, p99 = times[len(times) // 2], times[int(0.99 * len(times))]
    say(f"key to repainted page, 40 lines: median {p50:.1f} ms, p99 {p99:.1f} ms "
          f"(bound {FRAME_MS} ms)")  # fmt: skip


if __name__ == "__main__":
    main()
