"""No key waits for a unit: every unit word, letter by letter, into the fields of the real window.

Run it: `python tests/benchmarks/unit_words.py`. It types each word that is known at once behind a
figure, in the cell or field of its kind, and states the worst key; then rarer words while they are
looked up, with a key every 40 ms until they are known, in the same fields. A key is counted from
its event to the end of the turn of the event loop that paints what it changed.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
from pathlib import Path
from typing import NamedTuple

from as_installed import use_own_folders

sys.path.insert(0, str(Path(__file__).parents[2]))
SCREEN = Path(__file__).parents[1] / "screen.json"  # larger than the window
os.environ.setdefault("QT_QPA_PLATFORM", f"offscreen:configfile={SCREEN}")
use_own_folders()

BOUND_MS = 33.0
KEY_EVERY_S = 0.04
LONGEST_S = 30.0
PLACES = {
    "mass": "fermentables", "dose": "extras", "volume": "process.top_up_to",
    "time": "process.boil_time", "power": "pot.power", "length": "pot.diameter",
    "evaporation": "process.evaporation", "absorption": "process.grain_absorption",
    "concentration": "process.chlorine", "carbonation": "process.carbonation",
    "loss rate": "pot.heat_loss", "rate": "process.cooling_constant",
}  # fmt: skip
"""Where a unit of each kind is typed: a table's first amount, or a field of the process."""
PIECES = ("tablet", "tablets", "packet", "packets", "sachet", "sachets", "teaspoon", "tonne")
RARE = {"mass": "0.1 slug", "volume": "0.04 hogshead", "length": "0.2 fathom"}


class Key(NamedTuple):
    """One key: how long until what it changed was painted, and how long the window worked on it."""

    ms: float
    busy_ms: float
    typed: str


class Timed:
    """The window, and how long each key in it took."""

    def __init__(self) -> None:
        from PySide6.QtWidgets import QApplication

        from designer.library.recipe_file import load
        from designer.resource_files import resource_path
        from designer.window.main_window import MainWindow
        from designer.window.parts.settings import Settings
        from designer.window.parts.theme import apply_scheme
        from designer.window.parts.typeface import wear_typeface
        from designer.window.session.open_recipe import OpenRecipe
        from designer.window.start import made_application

        self.application = QApplication.instance() or made_application()
        wear_typeface(self.application, "own")
        apply_scheme(self.application, "light")
        porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
        self.window = MainWindow(OpenRecipe(porter), Settings())
        self.window.resize(1280, 1400)
        self.window.show()
        self.window.activateWindow()
        self.window.compose.process.more_button.setChecked(True)
        self.settle()
        self.keys: list[Key] = []

    def settle(self) -> None:
        """Let what is under way be done."""
        for _ in range(20):
            self.application.processEvents()

    def editor_of(self, kind: str):
        """Return the editor of a kind's place, its text selected."""
        from PySide6.QtWidgets import QLineEdit

        place = PLACES[kind]
        field = self.window.compose.process.by_place.get(place)
        if field is None:
            view = getattr(self.window.compose, place).view
            view.setFocus()
            view.setCurrentIndex(view.model().index(0, 0))
            view.edit(view.currentIndex())
            field = view.viewport().findChild(QLineEdit)
        field.setFocus()
        field.selectAll()
        self.settle()
        return field

    def key(self, editor, key, typed: str) -> None:
        """Press a key and note how long it took."""
        from PySide6.QtTest import QTest

        begun, busy = time.perf_counter(), time.thread_time()
        QTest.keyClick(editor, key)
        self.application.processEvents()
        took, busy = time.perf_counter() - begun, time.thread_time() - busy
        self.keys.append(Key(1000.0 * took, 1000.0 * busy, typed))

    def type(self, kind: str, text: str) -> None:
        """Type a text key by key, and take it back."""
        from PySide6.QtCore import Qt

        editor = self.editor_of(kind)
        for count, sign in enumerate(text, 1):
            self.key(editor, sign, f"{text[:count]} ({kind})")
        self.key(editor, Qt.Key.Key_Escape, f"Escape after {text} ({kind})")
        self.settle()


def known_words(timed: Timed) -> int:
    """Type every word that is known at once; return how many."""
    from designer.units.quick_words import FACTORS

    words = [(kind.value, word) for kind, known in FACTORS.items() for word in known]
    words += [("dose", word) for word in (*PIECES, *FACTORS["mass"], *FACTORS["volume"])]
    words = [(kind, word) for kind, word in words if kind in PLACES]
    for kind, word in words:
        timed.type(kind, f"1 {word}" if word.isascii() else "1 L")
    return len(words)


def while_looked_up(timed: Timed) -> float:
    """Type rare words until they are known, with a key every 40 ms; return the seconds it took."""
    from designer.units.pint_units import is_table_known

    begun = time.perf_counter()
    while not is_table_known() and time.perf_counter() - begun < LONGEST_S:
        for kind, text in RARE.items():
            editor = timed.editor_of(kind)
            for sign in text:
                timed.key(editor, sign, f"{text} ({kind}), looked up")
                until = time.perf_counter() + KEY_EVERY_S
                while time.perf_counter() < until:
                    timed.application.processEvents()
                    time.sleep(0.002)
    return time.perf_counter() - begun


def told(keys: list[Key]) -> str:
    """Return the slowest keys in words, by the clock and by the processor time of the window."""
    slowest = sorted(keys, reverse=True)[:3]
    busiest = max(keys, key=lambda key: key.busy_ms)
    median = statistics.median(key.ms for key in keys)
    worst = ", ".join(f"{key.ms:.1f} ms at {key.typed}" for key in slowest)
    return (
        f"{len(keys)} keys, median {median:.1f} ms, worst {worst} (bound {BOUND_MS:.0f} ms); "
        f"most processor time {busiest.busy_ms:.1f} ms at {busiest.typed}"
    )


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")


def main() -> int:
    """Print both measurements; 1 if a key was slower than the bound, or pint was loaded here."""
    timed = Timed()
    timed.type("mass", "1.5 kg")  # the first key of all loads what editors need
    timed.keys.clear()
    count = known_words(timed)
    known, timed.keys = timed.keys, []
    say(f"{count} words known at once: {told(known)}")
    took = while_looked_up(timed)
    looked = timed.keys
    say(f"rarer words, known after {took:.1f} s, meanwhile: {told(looked)}")
    loaded = "pint" in sys.modules
    say(f"pint was {'loaded' if loaded else 'not loaded'} in the window's process")
    timed.window.opened.undo_stack.setClean()
    timed.window.close()
    return int(loaded or max(known + looked).ms > BOUND_MS)


if __name__ == "__main__":
    sys.exit(main())
