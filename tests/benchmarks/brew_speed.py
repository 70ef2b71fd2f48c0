"""How fast the brew day comes back at the stove: a key, a tap, a reading, and a second that passes.

Run it: `python tests/benchmarks/brew_speed.py`. The porter is brewed in the window with its log in
a Recipe box, as in the program. For each kind of act it prints median and 99th percentile from the
act until the window has painted what follows at once (its `UpdateRequest` is over), by the clock
and by the time of the window's thread, which a busy machine changes less; beside them what a bare
window of the same size takes to paint a label that has changed, in the same run, and the ratio of
both. What is reckoned of the day comes later, from beside the window, and is not waited for here.
"""

from __future__ import annotations

import os
import statistics
import sys
from pathlib import Path

from as_installed import use_own_folders
from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")
use_own_folders()

from key_speed import now, open_window, since  # noqa: E402 - after the folders are named

ACTS, WARMING = 60, 5
STEPS = ("Space, and Backspace", "a tap on Done, and on Back")
"""After these another step is shown."""
LONGEST_MS = 2000.0
FRAME_MS = 16.7
"""A frame at 60 Hz: the bound for the median of each act, and for its 99th percentile."""


def painted_after(window, act, shown=lambda: None) -> tuple[float, float]:
    """Return how long it took from an act until the window had painted, by clock and by thread.

    What is `shown` has to be another then than before the act, if it says anything.
    """
    from PySide6.QtWidgets import QApplication

    done: list[tuple[float, float]] = []
    before = shown()

    def note() -> None:
        if not done and (before is None or shown() != before):
            done.append(since(begun))

    window.has_painted = note
    begun = now()
    act()
    while not done and since(begun)[0] < LONGEST_MS:
        QApplication.processEvents()
    done = done or [since(begun)]
    window.has_painted = lambda: None
    return done[0]


def settle(page) -> None:
    """Wait until all that follows is known, and painted."""
    from PySide6.QtTest import QTest

    while page.brew.reckoning:
        QTest.qWait(5)
    QTest.qWait(30)


def bare_window(like):
    """Return a window with a label and a button, as large as another, that tells of its paints."""
    from PySide6.QtCore import QEvent
    from PySide6.QtWidgets import QLabel, QMainWindow, QPushButton, QVBoxLayout, QWidget

    class Bare(QMainWindow):
        has_painted = lambda self: None  # noqa: E731 - put in by who measures

        def event(self, event):
            done = super().event(event)
            if event.type() == QEvent.Type.UpdateRequest:
                self.has_painted()
            return done

    window, body = Bare(), QWidget()
    layout = QVBoxLayout(body)
    window.label = QLabel("0")
    layout.addWidget(window.label)
    layout.addWidget(QPushButton("Done"))
    window.setCentralWidget(body)
    window.resize(like.size())
    window.show()
    return window


def acts_of(page, clock):
    """Return each kind of act, by its name: what is done, and what is waited for before it."""
    from PySide6.QtCore import Qt
    from PySide6.QtTest import QTest

    def forth_and_back(key_now: list[bool] = [True]) -> None:  # noqa: B006 - it remembers
        key = Qt.Key.Key_Space if key_now[0] else Qt.Key.Key_Backspace
        key_now[0] = not key_now[0]
        QTest.keyClick(page.card, key)

    def tap(turn: list[bool] = [True]) -> None:  # noqa: B006 - it remembers
        button = page.card.done_button if turn[0] else page.card.back_button
        turn[0] = not turn[0]
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    cell = next(iter(page.strip.cells.values()))

    def figure(turn: list[int] = [0]) -> None:  # noqa: B006 - it remembers
        turn[0] += 1
        cell.field.setFocus()
        QTest.keyClick(cell.field, "12"[turn[0] % 2])

    def reading(turn: list[int] = [0]) -> None:  # noqa: B006 - it remembers
        turn[0] += 1
        cell.field.setFocus()
        cell.field.setText(f"6.{turn[0] % 3}")
        cell.field.setModified(True)
        QTest.keyClick(cell.field, Qt.Key.Key_Return)

    def second() -> None:
        clock.go_on(1.0)
        page._tick()

    return {
        STEPS[0]: forth_and_back,
        STEPS[1]: tap,
        "a figure into a blank": figure,
        "Return in a blank": reading,
        "a second that passes": second,
    }


def measured(window, act, before, shown=lambda: None) -> list[tuple[float, float]]:
    """Return the spans of an act that is done again and again."""
    spans = []
    for number in range(WARMING + ACTS):
        before()
        span = painted_after(window, act, shown)
        if number >= WARMING:
            spans.append(span)
    return spans


def told(name: str, spans: list[tuple[float, float]], bare_ms: float) -> tuple[float, float]:
    """Print one line; return median and 99th percentile by the clock."""
    clock, thread = (sorted(each) for each in zip(*spans, strict=True))
    last = round(0.99 * (len(clock) - 1))
    median = statistics.median(clock)
    note(f"brew day, {name}", median, "ms", bound=FRAME_MS)
    note(f"brew day, {name}, 99 of 100", clock[last], "ms", bound=FRAME_MS)
    sys.stdout.write(
        f"{name:28} {median:6.1f} ms, 99 %: {clock[last]:6.1f} ms   by the thread "
        f"{statistics.median(thread):6.1f}, {thread[last]:6.1f} ms   {median / bare_ms:5.1f} x bare"
        "\n"
    )
    return median, clock[last]


def main() -> int:
    from PySide6.QtTest import QTest

    from designer.library.recipe_file import load
    from designer.resource_files import resource_path
    from tests.driven_clock import DrivenClock

    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    _, window = open_window(porter)
    window.brew_clock = clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    page.do()
    while page.brew.brewing.now.kind != "boils":
        page.brew.done()
    page.do()
    settle(page)
    bare = bare_window(window)
    turns = iter(range(10**6))
    paint = lambda: bare.label.setText(str(next(turns)))  # noqa: E731 - said once
    bare_spans = measured(bare, paint, lambda: None)
    bare_ms = statistics.median(clock for clock, _ in bare_spans)
    told("a bare window's label", bare_spans, bare_ms)
    bare.close()
    window.activateWindow()
    QTest.qWait(100)
    page.take_focus()
    slow = []
    for name, act in acts_of(page, clock).items():
        step = (lambda: page.card.shown) if name in STEPS else (lambda: None)
        spans = measured(window, act, lambda: settle(page), step)
        for span, found in zip(
            ("half", "one in a hundred"), told(name, spans, bare_ms), strict=True
        ):
            if found > FRAME_MS:
                slow.append(f"{name}: {span} of them slower than a frame of {FRAME_MS} ms")
    for line in slow:
        sys.stdout.write(f"{line}\n")
    window.opened.undo_stack.setClean()
    window.close()
    return 1 if slow else 0


if __name__ == "__main__":
    sys.exit(main())
