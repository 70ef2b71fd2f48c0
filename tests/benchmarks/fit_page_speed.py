"""How soon Fit shows the recipe as it is written, the ways with what is in hand, and all ways.

Run it: `python tests/benchmarks/fit_page_speed.py`. It prints, for a first visit, visits after it
and a size that is typed, the time from the press until each is painted, as multiples of one plain
run of the day on the same machine in the same minute; and beside that what the window's thread had
to do for it, which a busy machine changes less. Each first visit is a process of its own.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

from as_installed import use_own_folders

sys.path.insert(0, str(Path(__file__).parents[2]))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")
use_own_folders()

FIRST_VISITS, AGAIN = 5, 10
ONE_VISIT = "one"
RESTED_S = 1.5
"""By then the window has loaded what it loads beside itself."""


def clocks():
    """Return the time of the clock and of this thread, milliseconds."""
    return 1000.0 * time.perf_counter(), 1000.0 * time.thread_time()


def plain_ms(recipe):
    """Return what one plain run of the day takes, the median of forty."""
    from designer.brewday.day import run_day
    from designer.brewday.tolerances import Nominal

    took = []
    for _ in range(40):
        begun = time.thread_time()
        run_day(recipe, Nominal(), noting=False)
        took.append(1000.0 * (time.thread_time() - begun))
    return statistics.median(took)


def spin(application, seconds):
    """Let the window live for a while."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        application.processEvents()
        time.sleep(0.001)


def seen(application, window, act):
    """Return what passes from `act` until the recipe as written is painted, and until all is."""
    begun = clocks()
    act()
    window.repaint()
    written = [now - then for now, then in zip(clocks(), begun, strict=True)]
    while window.fit.answer is None:
        application.processEvents()
        time.sleep(0.0005)
    window.repaint()
    return written, [now - then for now, then in zip(clocks(), begun, strict=True)]


def one_process():
    """Visit the page first, again, and with sizes typed; print the spans."""
    from PySide6.QtWidgets import QApplication

    from designer.library.recipe_file import load
    from designer.resource_files import resource_path
    from designer.window.main_window import MainWindow
    from designer.window.parts.settings import Settings
    from designer.window.session.open_recipe import OpenRecipe

    application = QApplication([])
    recipe = load(resource_path("examples/breakwater_red.hobwort"))
    opened = OpenRecipe(recipe)
    window = MainWindow(opened, Settings())
    window.resize(1280, 800)
    window.show()
    spin(application, RESTED_S)
    tell("first", *seen(application, window, lambda: window.show_page(1)))
    for number in range(AGAIN):
        window.show_page(0)
        spin(application, 0.05)
        tell("again", *seen(application, window, lambda: window.show_page(1)))
        field = window.fit.fields["pot"]
        field.setText(f"{7 + number % 3} L")
        tell("typed", *seen(application, window, partial(field.textEdited.emit, field.text())))
    print("plain", plain_ms(recipe))  # noqa: T201 - read by the process that asked
    sys.stdout.flush()
    os._exit(0)


def tell(what, written, everything):
    """Print two spans, by the clock and by the thread."""
    print(what, *written, *everything)  # noqa: T201 - read by the process that asked


def main():
    """Print the medians as multiples of a plain run."""
    found = {"first": [], "again": [], "typed": []}
    for _ in range(FIRST_VISITS):
        words = [sys.executable, __file__, ONE_VISIT]
        told = subprocess.run(words, capture_output=True, text=True, check=True).stdout.split("\n")
        lines = [line.split() for line in told if line]
        plain = next(float(figures[0]) for what, *figures in lines if what == "plain")
        for what, *figures in lines:
            if what in found:
                found[what].append([float(each) / plain for each in figures])
    print("in plain runs of the day, median: clock (window's thread)")  # noqa: T201
    for what, rows in found.items():
        written, thread, every, every_thread = (
            statistics.median(column) for column in zip(*rows, strict=True)
        )
        print(  # noqa: T201 - what the benchmark is for
            f"{what:>6}: as written {written:5.0f} ({thread:.0f}), "
            f"all ways {every:5.0f} ({every_thread:.0f})"
        )


if __name__ == "__main__":
    if ONE_VISIT in sys.argv[1:]:
        one_process()
    else:
        main()
