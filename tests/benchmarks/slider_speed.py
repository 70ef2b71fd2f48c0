"""How long a move of the slider of What if takes until the values it changes are painted.

Run it: `python tests/benchmarks/slider_speed.py`. It prints milliseconds by the clock: median and
slowest of a hundred moves of a hop's alpha acid until the whole window of variants is painted, and
the median of what follows when the slider rests, ranges and findings. A frame is 16.7 ms.
"""

from __future__ import annotations

import os
import statistics
import sys
import tempfile
import time

from figures import note

MOVES, WARMING = 100, 10
FRAME_MS = 16.7
"""A frame at 60 Hz: the bound for the median."""


def ms_of(act):
    """Return how many milliseconds something takes."""
    start = time.perf_counter()
    act()
    return 1000.0 * (time.perf_counter() - start)


def moved(application, tried, at):
    """Move the slider, let what follows at once be laid out and painted."""
    tried.slider.setValue(at)
    application.processEvents()
    tried.repaint()


def main():
    """Print how long moves take, and what follows them."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    for name in ("HOBWORT_SETTINGS", "HOBWORT_STORE"):
        os.environ[name] = tempfile.mkdtemp(prefix="hobwort-slider-")
    from PySide6.QtWidgets import QApplication

    from designer.library.recipe_file import load
    from designer.recipe.place import Place
    from designer.resource_files import resource_path
    from designer.window.main_window import MainWindow
    from designer.window.parts.settings import Settings
    from designer.window.session.open_recipe import OpenRecipe

    application = QApplication([])
    opened = OpenRecipe(load(resource_path("examples/slipway_bitter.hobwort")))
    window = MainWindow(opened, Settings())
    window.show()
    opened.want_ranges()
    tried = window.compose.what_if(Place("hops", "alpha", opened.recipe.hops[0].line_id))
    steps = [5 + (37 * number) % 140 for number in range(WARMING + MOVES)]
    moves = [ms_of(lambda at=at: moved(application, tried, at)) for at in steps][WARMING:]
    rest = [ms_of(tried.trials[0].look_ahead) for _ in range(WARMING)]
    note("What if, a move of the slider painted", statistics.median(moves), "ms", bound=FRAME_MS)
    sys.stdout.write(
        f"a move, painted: median {statistics.median(moves):.1f} ms, slowest {max(moves):.1f} ms\n"
        f"ranges and findings after it: median {statistics.median(rest):.1f} ms\n"
    )
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    main()
