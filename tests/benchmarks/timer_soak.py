"""Kill the program at random instants while timers run; none may be off by more than a second.

Run it: `python tests/benchmarks/timer_soak.py [KILLS]` (100 by default). Each time a process of its
own goes on with the brew and starts, pauses, lets go on, lengthens and stops timers; it says what
it does, and when by a stop watch, and is killed without warning. Then the log is read from disk as
the next start does, and its timers are held against plain arithmetic of what was said. Figures are
printed; the exit code is 0 only if no timer was off.
"""

from __future__ import annotations

import os
import random
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.benchmarks.figures import note

TOP = Path(__file__).parents[2]
KILLS = 100
LONGEST_S = 1.0
MOST_OFF_S = 1.0

STOVE = """
import random, sys, time
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtGui import QGuiApplication
from designer.library.recipe_file import load
from designer.library.recipe_file import document_text
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.settings import Settings
from designer.window.session.box_link import BoxLink
from designer.window.session.brew_keeping import BrewKeeping
from designer.window.session.open_brew import OpenBrew
from designer.window.session.store_thread import StoreThread

application = QGuiApplication([])
folder, chance = Path(sys.argv[1]), random.Random(int(sys.argv[2]))
keeping = BrewKeeping(BoxLink(StoreThread(folder), folder))
brew = OpenBrew(keeping, DisplayFormat(Settings()))

def act():
    timers = [each.id for each in brew.timers]
    does = chance.choice(["start", "start", "pause", "resume", "add", "stop"])
    if does != "start" and not timers:
        return
    timer = chance.choice(timers) if timers else ""
    minutes = chance.randint(1, 30)
    free = next(n for n in range(1, 99) if f"free {n}" not in timers)
    if does == "start":
        timer = f"free {free}"
    print("will", timer.replace(" ", "_"), does, minutes, time.monotonic(), flush=True)
    {
        "start": lambda: brew.start_timer("free", minutes),
        "pause": lambda: brew.pause_timer(timer),
        "resume": lambda: brew.resume_timer(timer),
        "add": lambda: brew.lengthen_timer(timer, minutes),
        "stop": lambda: brew.stop_timer(timer),
    }[does]()
    print("did", brew.brewing.entries[-1].id, flush=True)

def go_on(logs):
    if logs:
        brew.changed.connect(start)
        brew.go_on(logs[0].brew.uid)
    else:
        recipe = load(resource_path("examples/harbour_lamp_porter.hobwort"))
        brew.begin(new_brew(document_text(recipe)), recipe)
        start()

def start():
    if not ticker.isActive():
        ticker.start()
        print("goes on", flush=True)

keeping.confirmed.connect(lambda _, key: print("kept", key, flush=True))
ticker = QTimer(interval=15)
ticker.timeout.connect(act)
keeping.running(go_on, print)
application.exec()
"""


@dataclass
class StopWatch:
    """What is left of one timer, by arithmetic alone."""

    left: float
    since: float
    running: bool = True

    def left_at(self, now: float) -> float:
        return self.left - (now - self.since) * self.running


@dataclass
class Tally:
    """What was done and confirmed over all kills, and how far timers were off."""

    watches: dict[str, StopWatch] = field(default_factory=dict)
    confirmed: set[str] = field(default_factory=set)
    kills: int = 0
    done: int = 0
    compared: int = 0
    furthest_s: float = 0.0
    faults: list[str] = field(default_factory=list)

    def do(self, timer: str, does: str, minutes: float, now: float) -> None:
        """Do to the stop watches what was done to the timers."""
        self.done += 1
        if does == "start":
            self.watches[timer] = StopWatch(60.0 * minutes, now)
            return
        watch = self.watches[timer]
        left = watch.left_at(now)
        running = {"pause": False, "resume": True}.get(does, watch.running)
        more = 60.0 * minutes if does == "add" else 0.0
        self.watches[timer] = StopWatch(left + more, now, running)
        if does == "stop":
            del self.watches[timer]


def killed_run(folder: Path, tally: Tally, chance: random.Random) -> list[str]:
    """Let a process run timers and kill it at a random instant; return what it said."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(TOP)}
    environment["HOBWORT_SETTINGS"] = str(folder / "settings")
    with subprocess.Popen(
        [sys.executable, "-c", STOVE, str(folder), str(chance.randrange(10**6))],
        stdout=subprocess.PIPE,
        text=True,
        env=environment,
        cwd=TOP,
    ) as process:
        assert process.stdout is not None
        said = process.stdout.readline()
        time.sleep(chance.uniform(0.0, LONGEST_S))
        process.kill()
        said += process.stdout.read()
    tally.kills += 1
    return said.splitlines()


def look(folder: Path, tally: Tally, said: list[str]) -> None:
    """Hold the timers of the log on the disk against the stop watches."""
    from designer.library.store import Store
    from designer.library.store.brew_journal import take_in
    from designer.workbench.brew.clocks import MachineClock
    from designer.workbench.brew.entries import What
    from designer.workbench.brew.entries_text import entries_of
    from designer.workbench.brew.timers import timers_of

    with Store.open(folder) as store:
        take_in(store)
        lines = [line for each in store.brews.all() for line in store.brews.lines(each.id)]
    entries = entries_of([line.entry for line in lines])
    if "goes on" not in said:
        tally.faults.append("it did not go on")
    there = {each.id for each in entries}
    tally.confirmed |= {line.split()[1] for line in said if line.startswith("kept ")}
    tally.faults += [f"lost {each}" for each in sorted(tally.confirmed - there)]
    acts = [line.split()[1:] for line in said if line.startswith("will ") and line.count(" ") == 4]
    moves = sum(each.what is What.TIMER for each in entries) - tally.done
    if not 0 <= moves <= len(acts):  # what was not confirmed may be lost, the last of it first
        tally.faults.append(f"{len(acts)} things were done, {moves} are in the log")
    for timer, does, minutes, at in acts[:moves]:
        tally.do(timer.replace("_", " "), does, float(minutes), float(at))
    now, mono = MachineClock().now(), time.monotonic()
    timers = {each.id: each for each in timers_of(entries)}
    if set(timers) != set(tally.watches):
        tally.faults.append(f"timers {sorted(timers)} for {sorted(tally.watches)}")
        return
    for name, timer in timers.items():
        off = abs(timer.left_s(now) - tally.watches[name].left_at(mono))
        tally.compared += 1
        tally.furthest_s = max(tally.furthest_s, off)
        if off > MOST_OFF_S or timer.doubtful(now):
            tally.faults.append(f"{name} is off by {off:.2f} s")


def soak(folder: Path, kills: int, seed: int = 5) -> Tally:
    """Kill, look, kill again: the same brew is gone on with."""
    tally, chance = Tally(), random.Random(seed)
    for _ in range(kills):
        said = killed_run(folder, tally, chance)
        look(folder, tally, said)
    return tally


def main() -> int:
    """Print how far timers were off."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else KILLS
    with tempfile.TemporaryDirectory(prefix="hobwort-timers-") as name:
        tally = soak(Path(name) / "kitchen", kills)
    sys.stdout.write(
        f"{tally.kills} kills, {tally.done} things done to timers, {len(tally.confirmed)} entries "
        f"confirmed; {tally.compared} timers compared, at most {tally.furthest_s:.3f} s off, "
        f"{len(tally.faults)} faults\n"
    )
    for each in tally.faults[:20]:
        sys.stdout.write(f"{each}\n")
    note(f"kill -9 of timers, {kills} times: faults", len(tally.faults), "", bound=0)
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
