"""Two whole brews in the program itself: `python -m tests.brew_proof.whole_brews [FOLDER]`.

The porter, then the kit that is poured into two buckets, each from filling the pot to pitched
yeast, by keys alone: time goes on until each step is due, each blank is typed as it is forecast,
and Space does the step. In the middle of the boil the program is killed, and started again half a
minute later: at the same step, with its timers as they have to be. Then the log is read from the
disk. Into FOLDER go pictures of the page on the way, in two sizes, light, dark and of high
contrast.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

from designer.library.recipe_file import load, save
from designer.library.store import Store
from designer.resource_files import resource_path
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import entries_of
from tests.stories.real_program import Program
from tests.workbench.planned_red import two_buckets

PATIENCE_S = 120.0
OFF_S = 30.0
"""How long it is away."""
TIMER_S = 1.0

DRIVEN = """
import builtins
from designer.workbench.brew import clocks
from designer.workbench.brew.instants import Instant

ahead = builtins.ahead = [float(os.environ["TEST_AHEAD"])]
_now = clocks.MachineClock.now

def later(self):
    real = _now(self)
    return Instant(real.wall + ahead[0], real.boot, real.up + ahead[0])

clocks.MachineClock.now = later
from designer.workbench.brew.schedule import schedule_of
builtins.schedule_of = schedule_of
"""
PAGE = "window.brew_page"
BREW = f"{PAGE}.brew"
IS_BREWING = f"{PAGE} is not None and {BREW}.brew is not None"
RESTS = f"not {BREW}.reckoning"
NOW = f"({BREW}.brewing.now and {BREW}.brewing.now.key)"
DUE_S = (
    "next(each.at for each in schedule_of(brewing, brewing.timers, now).steps "
    "if each.step.key == brewing.now.key) - now.wall"
)
DUE_S = f"(lambda brewing, now: {DUE_S})({BREW}.brewing, {BREW}.now())"
BLANKS = (
    "[''.join(s for s in window.display.short(each.kind, each.value) if s in '0123456789.') "
    f"for each in {BREW}.brewing.now.blanks]"
)
LEFT_S = f"[(each.id, each.left_s({BREW}.now()), each.running) for each in {BREW}.timers]"
IN_BOIL = f"{BREW}.brewing.now.left_min is not None and {BREW}.brewing.now.starts is None"

DRESSES = {
    "1280 light": (1280, 800, "light", "usual"),
    "1024 dark": (1024, 600, "dark", "usual"),
    "1280 high contrast": (1280, 800, "light", "high"),
    "1024 high contrast": (1024, 600, "light", "high"),
}


class Brew:
    """One brew in the program, and where its pictures go."""

    def __init__(self, folder, path, pictures, name):
        self.folder, self.path, self.pictures, self.name = folder, path, pictures, name
        self.ahead, self.program, self.taken = 0.0, None, 0
        self.timers_off_s = []

    def start(self, *words):
        """Start the program, with the clocks as far ahead as they are."""
        os.environ["TEST_AHEAD"] = str(self.ahead)
        self.program = Program(self.folder, *words, hook=DRIVEN)
        self.program.until("window.autosave is not None and not window.autosave.store.busy", 60.0)
        self.do("window.resize(1280, 800)")

    def do(self, statement):
        """Let the program do something; a busy machine may take its time."""
        self.program.ask(f"do {statement}", PATIENCE_S)

    def go_on(self, seconds):
        """Let time pass."""
        self.ahead += seconds
        self.do(f"ahead[0] = {self.ahead}")

    def brewed(self):
        """Brew it; return the key of each step as it was done."""
        self.start(self.path)
        self.do("window.show_page(window.page_names.index('Brew day'))")
        self.picture("before")
        self.do("press('Space')")
        self.program.until(IS_BREWING, PATIENCE_S)
        seen, killed, in_boil = [], False, 0
        while True:
            self.program.until(RESTS, PATIENCE_S)
            key = self.program.ask(NOW, PATIENCE_S)
            if key is None:
                break
            self.go_on(max(self.program.ask(DUE_S, PATIENCE_S), 1.0))
            self.type_blanks()
            self.picture(key)
            in_boil += bool(self.program.ask(IN_BOIL))
            if in_boil == 2 and not killed:
                killed = True
                self.killed_at(key)
                self.picture(f"after the kill {key}")
            seen.append(key)
            self.do("press('Space')")
        self.picture("all done")
        self.do("press('Space')")
        self.program.until(f"{BREW}.brewing.finished is not None", PATIENCE_S)
        self.program.until("window.keeping.brews.settled", PATIENCE_S)
        self.picture("finished")
        with self.program:
            self.program.kill()
        assert killed, "it never came to the middle of the boil"
        return seen

    def type_blanks(self):
        """Type what is forecast into each blank of the step, as it comes."""
        for text in self.program.ask(BLANKS, PATIENCE_S):
            self.do(f"[QTest.keyClick(focus(), sign) for sign in {text!r}]")
            self.do("press('Return')")
            self.program.until(RESTS, PATIENCE_S)
            assert not self.program.ask(f"{PAGE}.measuring.doubt.isVisible()")

    def killed_at(self, key):
        """Kill the program, start it anew, and hold what it shows against what has to be."""
        self.program.until("window.keeping.brews.settled", PATIENCE_S)
        before, when = self.program.ask(LEFT_S), time.monotonic()
        with self.program:
            self.program.kill()
        self.ahead += OFF_S
        self.start()
        self.program.until(f"{IS_BREWING} and {RESTS}", PATIENCE_S)
        after, gone = self.program.ask(LEFT_S), time.monotonic() - when + OFF_S
        assert self.program.ask(NOW, PATIENCE_S) == key
        assert [each[0] for each in after] == [each[0] for each in before]
        for (_, was, running), (_, left, _) in zip(before, after, strict=True):
            self.timers_off_s.append(abs(left - (was - gone if running else was)))

    def picture(self, name):
        """Take the page as it is now, in each dress."""
        if self.pictures is None:
            return
        self.taken += 1
        safe = "".join(each if each.isalnum() else "-" for each in name)
        for dress, (wide, high, scheme, contrast) in DRESSES.items():
            place = self.pictures / f"{self.name} {self.taken:02} {safe} {dress}.png"
            self.do(
                f"window.settings.scheme = {scheme!r}; window.settings.contrast = {contrast!r}; "
                f"window.resize({wide}, {high})"
            )
            for _ in range(6):
                self.do("QApplication.processEvents()")
            self.do(f"window.grab().save({str(place)!r})")
        self.do(
            "window.settings.scheme = 'light'; window.settings.contrast = 'usual'; "
            "window.resize(1280, 800)"
        )
        self.do("QApplication.processEvents()")


def held_against_the_disk(folder, seen):
    """Read the one log of the box; return how many entries it has."""
    with Store.open(folder / "box") as store:
        (brew,) = store.brews.all()
        entries = entries_of(line.entry for line in store.brews.lines(brew.id))
    assert not brew.is_under_way
    done = [each.values["step"] for each in entries if each.what is What.DONE]
    assert done == seen, "each step once, in its order"
    assert sum(each.what is What.FINISHED for each in entries) == 1
    return len(entries)


def main():
    """Brew both; 1 if a timer was off."""
    pictures = Path(sys.argv[1]) if len(sys.argv) > 1 else None
    if pictures is not None:
        pictures.mkdir(parents=True, exist_ok=True)
    worst = 0.0
    with tempfile.TemporaryDirectory(prefix="hobwort-whole-") as top:
        kit = two_buckets(10.0, 10.0)
        porter = load(resource_path("examples/harbour_lamp_porter.hobwort"))
        for name, recipe in (("porter", porter), ("kit", kit)):
            path = Path(top) / f"{name}.hobwort"
            save(recipe, path)
            brew = Brew(Path(top) / name, path, pictures, name)
            begun = time.monotonic()
            seen = brew.brewed()
            entries = held_against_the_disk(brew.folder, seen)
            worst = max(worst, *brew.timers_off_s)
            sys.stdout.write(
                f"{recipe.name}: {len(seen)} steps, {entries} entries, killed once, "
                f"{len(brew.timers_off_s)} timers off by {max(brew.timers_off_s):.3f} s at the "
                f"most, in {time.monotonic() - begun:.0f} s\n"
            )
            sys.stdout.flush()
    return 1 if worst > TIMER_S else 0


if __name__ == "__main__":
    sys.exit(main())
