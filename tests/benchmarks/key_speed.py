"""How fast a key comes back: new values painted, then bands, causes and findings.

At 40 lines without a plan, and at the seven of a porter brewed in two boils that differ.

Run it: `python tests/benchmarks/key_speed.py`. It prints, for each of three runs, by the clock and
by the time of the window's thread, which a busy machine changes less, median and 99th percentile of
two spans: from a key in the first amount until a window that shows the new values is painted, and
until all that follows from them is. Beside them stands the same key in a bare table of 40 rows.
Drafts are kept in a Recipe box meanwhile, as in the program.

A span ends where the window has painted what was to be painted (its `UpdateRequest` is over) and
the forecast that is shown was made of the recipe as it stands. Keys that change nothing in the
recipe, such as the space before the unit, are typed but not counted.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from as_installed import use_own_folders
from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")
use_own_folders()

KEYS, WARMING, RUNS = 300, 20, 3
TYPED = "1.2345 kg"
ONE_RUN = "one"
VALUES_MS, ALL_MS = 8.3, 16.7
"""A frame at 120 Hz, bound for the median to values; one at 60 Hz, for p99 to all."""


class Spans(NamedTuple):
    """Milliseconds from keys to values and to all, each by the clock and by the thread's time."""

    values: list[tuple[float, float]]
    everything: list[tuple[float, float]]


def now() -> tuple[float, float]:
    """Return the time of the clock and that of this thread, milliseconds."""
    return 1000.0 * time.perf_counter(), 1000.0 * time.thread_time()


def since(begun: tuple[float, float]) -> tuple[float, float]:
    """Return what has gone by."""
    clock, thread = now()
    return clock - begun[0], thread - begun[1]


def porter_again_and_again():
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


def forty_unlike():
    """Return forty lines of which each is of its own make."""
    from tests.benchmarks.many_lines import forty_lines

    return forty_lines()


def two_unlike_boils():
    """Return the porter brewed in two boils that differ, each into a bucket of its own."""
    from designer.library.recipe_file import load
    from designer.recipe.document import PlannedBoil, PlannedFermenter, WortShare
    from designer.recipe.kinds import typed
    from designer.recipe.quantity import Kind
    from designer.resource_files import resource_path

    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    boils = tuple(PlannedBoil(porter.pot, typed(Kind.FRACTION, each)) for each in (0.6, 0.4))
    buckets = tuple(
        PlannedFermenter(porter.fermenter, (WortShare(each),), typed(Kind.VOLUME, litres))
        for each, litres in ((1, 5.5), (2, 4.0))
    )
    return replace(porter, boils=boils, fermenters=buckets)


RECIPES = {"the porter's lines again and again": porter_again_and_again,
           "lines each of its own make": forty_unlike,
           "seven lines in two unlike boils": two_unlike_boils}  # fmt: skip


def open_window(recipe):
    """Return a window that keeps its recipe, tells when it has painted, and has ranges by now."""
    from PySide6.QtCore import QEvent
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    from designer.library.store import store_folder
    from designer.window.main_window import MainWindow
    from designer.window.parts.settings import Settings
    from designer.window.parts.theme import apply_scheme
    from designer.window.parts.typeface import wear_typeface
    from designer.window.session.autosave import Autosave
    from designer.window.session.open_recipe import OpenRecipe
    from designer.window.session.store_thread import StoreThread
    from designer.window.start import made_application

    class Watched(MainWindow):
        has_painted = lambda self: None  # noqa: E731 - put in by who measures

        def event(self, event):
            done = super().event(event)
            if event.type() == QEvent.Type.UpdateRequest:
                self.has_painted()
            return done

    application = QApplication.instance() or made_application()
    wear_typeface(application, "own")
    apply_scheme(application, "light")
    opened, folder = OpenRecipe(recipe), store_folder()
    keep = lambda: Autosave(opened, StoreThread(folder), folder)  # noqa: E731 - said once
    window = Watched(opened, Settings(), make_autosave=keep)
    window.show()
    window.activateWindow()
    while not opened.with_ranges or window.autosave is None or window.autosave.store.busy:
        QTest.qWait(20)
    QTest.qWait(500)
    return application, window


def editor_in(view):
    """Open the editor of the first amount of a table and return it."""
    from PySide6.QtWidgets import QLineEdit

    view.setCurrentIndex(view.model().index(0, 0))
    view.edit(view.currentIndex())
    return view.viewport().findChild(QLineEdit)


def type_keys(editor, count):
    """Yield before and after each of so many keys."""
    from PySide6.QtTest import QTest

    for number in range(count):
        if number % len(TYPED) == 0:
            editor.selectAll()
        yield
        QTest.keyClick(editor, TYPED[number % len(TYPED)])
        yield


class Watch:
    """Notes when the forecast that follows a key is painted: its values, then all of it."""

    def __init__(self, window) -> None:
        self.shown = self.begun = self.values = self.everything = None
        window.has_painted = self.note
        window.opened.values_changed.connect(self.show)
        window.opened.outlook_changed.connect(self.show)

    def begin(self) -> None:
        self.shown = self.values = self.everything = None
        self.begun = now()

    def show(self, forecast) -> None:
        self.shown = forecast

    def note(self) -> None:
        if self.shown is None or self.begun is None:
            return
        if self.values is None:
            self.values = since(self.begun)
        if self.is_whole and self.everything is None:
            self.everything = since(self.begun)

    @property
    def is_whole(self) -> bool:
        return hasattr(self.shown, "findings")

    def wait(self, application) -> None:
        """Let events be handled until all is painted."""
        while self.everything is None:
            application.processEvents()
            if self.is_whole:
                application.processEvents()
                self.note()  # where the new forecast looks as the old one, nothing is painted


def keys_in_recipe(recipe, keys: int = KEYS) -> Spans:
    """Return how long keys in the first amount of a recipe take to come back."""
    application, window = open_window(recipe)
    opened, spans, watch = window.opened, Spans([], []), Watch(window)
    editor = editor_in(window.compose.fermentables.view)
    typing, counted = type_keys(editor, 10 * keys), -WARMING
    for _ in typing:
        application.processEvents()
        before = opened.changes
        watch.begin()
        next(typing)
        if opened.changes == before:
            continue
        watch.wait(application)
        counted += 1
        if counted > 0:
            spans.values.append(watch.values)
            spans.everything.append(watch.everything)
        if counted == keys:
            break
    return spans


def keys_in_bare_table(keys: int = KEYS) -> list[tuple[float, float]]:
    """Return how long keys take whose text a plain model of 40 rows takes at once."""
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QStandardItemModel
    from PySide6.QtWidgets import QApplication, QMainWindow, QTableView

    class Watched(QMainWindow):
        painted = 0

        def event(self, event):
            done = super().event(event)
            self.painted += event.type() == QEvent.Type.UpdateRequest
            return done

    window, view = Watched(), QTableView()
    model = QStandardItemModel(40, 6, view)
    view.setModel(model)
    window.setCentralWidget(view)
    window.resize(1280, 800)
    window.show()
    application = QApplication.instance()
    for _ in range(20):
        application.processEvents()
    editor, times = editor_in(view), []
    editor.textEdited.connect(lambda text: model.setData(model.index(0, 0), text))
    typing = type_keys(editor, keys + WARMING)
    for _ in typing:
        application.processEvents()
        painted, begun = window.painted, now()
        next(typing)
        while window.painted == painted:
            application.processEvents()
        times.append(since(begun))
    window.close()
    return times[WARMING:]


def percentiles(times: list[float]) -> tuple[float, float]:
    """Return median and 99th percentile."""
    ordered = sorted(times)
    return statistics.median(ordered), ordered[int(0.99 * len(ordered))]


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def told(name: str, times: list[tuple[float, float]], bare: list[tuple[float, float]]) -> str:
    """Return the percentiles of a span by clock and thread, with their ratios."""
    said = []
    for place, by in enumerate(("clock", "thread")):
        p50, p99 = percentiles([each[place] for each in times])
        note(
            f"a key, {name}, by the {by}: median",
            p50,
            "ms",
            bound=VALUES_MS if "values" in name else None,
        )
        note(
            f"a key, {name}, by the {by}: 99 of 100",
            p99,
            "ms",
            bound=ALL_MS if "bands" in name else None,
        )
        bare_p50, bare_p99 = percentiles([each[place] for each in bare])
        said.append(f"{by} median {p50:.2f} ms, p99 {p99:.2f} ms "
                    f"({p50 / bare_p50:.0f} and {p99 / bare_p99:.0f} x bare)")  # fmt: skip
    return f"  {name}: " + "; ".join(said)


def run() -> None:
    """Print one run of each recipe."""
    for name, made in RECIPES.items():
        spans, bare = keys_in_recipe(made()), keys_in_bare_table()
        say(f" {name}")
        say(told("values painted", spans.values, bare))
        say(told("bands, causes, findings painted", spans.everything, bare))
        say(told("bare table", bare, bare))


def main() -> None:
    """Print three runs, each in a process and with folders of its own."""
    say(f"{KEYS} keys; bounds: values median {VALUES_MS} ms, all p99 {ALL_MS} ms")
    for number in range(RUNS):
        say(f"run {number + 1}")
        subprocess.run([sys.executable, __file__, ONE_RUN], check=True)


if __name__ == "__main__":
    if sys.argv[1:] == [ONE_RUN]:
        run()
        sys.stdout.flush()
        os._exit(0)  # nothing is to be kept or asked
    main()
