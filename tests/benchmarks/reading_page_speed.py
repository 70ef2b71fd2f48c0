"""How fast a reading is answered in the window: from a key to the first answer, and to the whole.

Run it: `python tests/benchmarks/reading_page_speed.py`. The porter is brewed, and figures are typed
into *What your reading says*. It prints medians by the clock, of the key itself being painted, of
the first answer and of the whole one; what the page needs of the day is ready by then.
"""

from __future__ import annotations

import statistics
import sys

from brew_speed import ACTS, FRAME_MS, LONGEST_MS, WARMING, settle
from figures import note
from key_speed import now, open_window, since

WHOLE_MS = 100.0
ROUNDS = ACTS // 2


def answered(window, part, act) -> tuple[float, float, float]:
    """Return how long it took until the key was painted, something was said, and all of it."""
    from PySide6.QtCore import QEventLoop
    from PySide6.QtWidgets import QApplication

    found: dict[str, float] = {}
    window.has_painted = lambda: found.setdefault("painted", since(begun)[0])

    def note(explained) -> None:
        found.setdefault("whole" if explained.whole else "first", since(begun)[0])

    part.ahead.answered.connect(note)
    begun = now()
    act()
    # Waiting as the window does: a loop that asks without end would take the other thread's time.
    waiting = QEventLoop.ProcessEventsFlag.WaitForMoreEvents
    while "whole" not in found and since(begun)[0] < LONGEST_MS:
        QApplication.processEvents(waiting)
    part.ahead.answered.disconnect(note)
    window.has_painted = lambda: None
    whole = found.get("whole", LONGEST_MS)
    return found.get("painted", whole), found.get("first", whole), whole


def main() -> int:
    """Print the medians; 1 where the whole answer takes too long."""
    from PySide6.QtTest import QTest

    from designer.library.recipe_file import load
    from designer.resource_files import resource_path
    from designer.window.brew.part_names import Part
    from tests.driven_clock import DrivenClock

    porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
    _, window = open_window(porter)
    window.brew_clock = DrivenClock()
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    page.do()
    while page.brew.brewing.now is not None:
        page.brew.done()
    page.show_part(Part.READING)
    settle(page)
    part = page.parts.current
    field = part.form.reading
    QTest.keyClicks(field, "1.037")
    QTest.qWait(1500)
    spans = []
    for number in range(WARMING + ROUNDS):
        field.setText("1.03")
        spans.append(
            answered(window, part, lambda digit=str(number % 8 + 1): QTest.keyClick(field, digit))
        )
        QTest.qWait(30)
    for name, each in zip(
        ("the key is painted", "the first answer", "the whole answer"),
        zip(*spans[WARMING:], strict=True),
        strict=True,
    ):
        bound = WHOLE_MS if "whole" in name else None
        note(f"reading, in the window: {name}", statistics.median(each), "ms", bound=bound)
        sys.stdout.write(f"{name:20} {statistics.median(each):6.1f} ms, most {max(each):6.1f}\n")
    slow = statistics.median(each[2] for each in spans[WARMING:]) > WHOLE_MS
    if slow:
        sys.stdout.write(f"the whole answer takes more than {WHOLE_MS} ms ({FRAME_MS} a frame)\n")
    window.opened.undo_stack.setClean()
    window.close()
    return int(slow)


if __name__ == "__main__":
    sys.exit(main())
