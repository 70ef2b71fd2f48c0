"""Whole brew days in the program itself, killed again and again:
`python -m tests.brew_proof.killed_days [kills]`.

The porter, then the kit that is poured into two buckets, each from filling the pot to the last
closed fermenter, over and over until there were so many kills (100 by default). Clocks are those of
the machine, sixty times as fast. The program runs as a process of its own, is driven by keys, and
is killed at random instants, also while it starts. After each kill the next start has to be at the
same step, with every entry that was confirmed, and each timer has to show what is left by an
arithmetic of its own, of the entries that were heard.
"""

import random
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from designer.library.recipe_file import save
from tests.stories.real_program import Program
from tests.workbench.planned_red import two_buckets

KILLS, SEED = 100, 16
TIMES = 60.0
LONGEST_S, WHILE_STARTING = 1.2, 0.1
"""How long it runs before it is killed, and how often that comes before it has answered."""
TIMER_S = 1.0
PATIENCE_S = 60.0

FASTER = f"""
import time as _time
from designer.workbench.brew import clocks
from designer.workbench.brew.instants import Instant

_now = clocks.MachineClock.now

def faster(self):
    real, since = _now(self), float(os.environ["TEST_SINCE"])
    gone = {TIMES} * (real.wall - since)
    return Instant(since + gone, real.boot, 1000.0 + gone)

clocks.MachineClock.now = faster
on_disk = []
from designer.window.session.brew_keeping import BrewKeeping
made_keeping = BrewKeeping.__init__

def with_ear(self, *words, **more):
    made_keeping(self, *words, **more)
    self.confirmed.connect(lambda uid, entry: on_disk.append(entry))

BrewKeeping.__init__ = with_ear
import builtins
builtins.entries_on_disk = on_disk
"""
BREW = "window.brew_page.brew"
IS_BREWING = f"window.brew_page is not None and {BREW}.brew is not None"
STANDING = (
    f"({BREW}.brew.uid, {BREW}.brewing.now and {BREW}.brewing.now.key, "
    f"[each.id for each in {BREW}.brewing.entries], list(entries_on_disk))"
)
TIMERS = (
    f"(lambda now: (now.up, [(each.id, each.left_s(now)) for each in {BREW}.timers "
    f"if each.running]))({BREW}.now())"
)
STARTS = (
    f"[(each.values['timer'], each.at.up, 60 * each.values['minutes']) for each in "
    f"{BREW}.brewing.live if each.what == 'timer' and each.values.get('does') == 'start']"
)


@dataclass
class Found:
    """What came of the kills."""

    kills: int = 0
    early: int = 0
    days: int = 0
    entries: int = 0
    lost: list[str] = field(default_factory=list)
    elsewhere: list[str] = field(default_factory=list)
    timer_s: list[float] = field(default_factory=list)
    start_s: list[float] = field(default_factory=list)


class Stove:
    """The program over one box, started again after each kill."""

    def __init__(self, folder, recipe_path, found, random_):
        self.folder, self.path, self.found, self.random = folder, recipe_path, found, random_
        self.confirmed: set[str] = set()
        self.step = None
        self.program = None

    def start(self):
        """Start it; it goes on with the brew that was left."""
        begun = time.monotonic()
        words = () if self.confirmed else (self.path,)
        self.program = Program(self.folder, *words, hook=FASTER)
        self.program.seen()
        if self.confirmed:
            self.program.until(IS_BREWING, PATIENCE_S)
            self.found.start_s.append(time.monotonic() - begun)
            self._look()
        else:
            self.program.do("window.show_page(window.page_names.index('Brew day'))")
            self.program.do("press('Space')")
            self.program.until(IS_BREWING, PATIENCE_S)

    def _look(self):
        """Hold what is there after a kill against what was before."""
        _, step, entries, _ = self.program.ask(STANDING)
        self.found.lost += sorted(self.confirmed - set(entries))
        if self.step is not None and self.confirmed >= set(entries) and step != self.step:
            self.found.elsewhere.append(f"{step}, not {self.step}")
        up, timers = self.program.ask(TIMERS)
        starts = {timer: (at, length) for timer, at, length in self.program.ask(STARTS)}
        for timer, left in timers:
            at, length = starts[timer]
            self.found.timer_s.append(abs(left - (at + length - up)))

    def brew(self):
        """Brew until it is killed, or the day is over; True if it is over."""
        end = time.monotonic() + self.random.uniform(0.05, LONGEST_S)
        while time.monotonic() < end:
            self.program.do("press('Space')")
            _, self.step, entries, kept = self.program.ask(STANDING)
            self.confirmed |= set(kept)
            self.found.entries = max(self.found.entries, len(entries))
            time.sleep(self.random.uniform(0.0, 0.4))
            if self.step is None:
                self.program.do("press('Space')")
                self.program.until(f"{BREW}.brewing.finished is not None")
                self.program.until("window.keeping.brews.settled")
                return True
        return False

    def kill(self):
        """End it without warning; sometimes the next one too, while it starts."""
        with self.program:
            self.program.kill()
        self.found.kills += 1
        if self.random.random() < WHILE_STARTING:
            with Program(self.folder, hook=FASTER) as early:
                time.sleep(self.random.uniform(0.0, 1.0))
                early.kill()
            self.found.kills += 1
            self.found.early += 1


def brewed(kills, seed=SEED):
    """Brew and kill; return what came of it."""
    import os
    import shutil

    from designer.resource_files import resource_path

    random_, found = random.Random(seed), Found()
    with tempfile.TemporaryDirectory(prefix="hobwort-killed-") as top:
        os.environ["TEST_SINCE"] = str(time.time())
        porter, kit = Path(top) / "porter.hobwort", Path(top) / "kit.hobwort"
        shutil.copy(resource_path("examples/harbour_lamp_porter.hobwort"), porter)
        save(two_buckets(10.0, 10.0), kit)
        number = 0
        while found.kills < kills:
            path = (porter, kit)[number % 2]
            stove = Stove(Path(top) / f"day {number}", path, found, random_)
            stove.start()
            while not stove.brew() and found.kills < kills:
                stove.kill()
                stove.start()
            found.days += stove.step is None
            with stove.program:
                stove.program.kill()
            number += 1
    return found


def main():
    """Print what came of it; 1 if anything was lost, or a timer was off."""
    found = brewed(int(sys.argv[1]) if len(sys.argv) > 1 else KILLS)
    worst = max(found.timer_s, default=0.0)
    sys.stdout.write(
        f"{found.kills} kills, {found.early} of them while it started; {found.days} days brewed to "
        f"their end, up to {found.entries} entries each\n"
        f"entries lost: {len(found.lost)}; starts at another step: {len(found.elsewhere)}\n"
        f"timers looked at: {len(found.timer_s)}, off by {worst:.3f} s at the most\n"
        f"gone on with after {max(found.start_s, default=0.0):.1f} s at the most\n"
    )
    for each in found.elsewhere:
        sys.stdout.write(f"  {each}\n")
    return 1 if found.lost or found.elsewhere or worst > TIMER_S else 0


if __name__ == "__main__":
    sys.exit(main())
