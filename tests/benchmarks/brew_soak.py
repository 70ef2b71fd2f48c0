"""Kill the program at random instants while a brew is logged; no confirmed entry may be lost.

Run it: `python tests/benchmarks/brew_soak.py [KILLS]` (100 by default). Each time a process of its
own goes on with the brew and logs as fast as it can, in every third of them with a store that never
answers; it says so of each entry that was confirmed and is killed without warning, often while it
starts. Then the box is opened, takes in what journals hold, and all that was ever confirmed is
looked for. Figures are printed; the exit code is 0 only if nothing was lost.
"""

from __future__ import annotations

import os
import random
import statistics
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
LONGEST_S = 0.8
WHILE_STARTING = 0.15

STOVE = """
import sys, threading, time
from pathlib import Path
from PySide6.QtCore import QCoreApplication, QTimer
from PySide6.QtGui import QGuiApplication
from designer.library.recipe_file import document_text, load
from designer.library.store.brews import new_brew
from designer.resource_files import resource_path
from designer.window.session.box_link import BoxLink
from designer.window.session.brew_keeping import BrewKeeping
from designer.window.session.store_thread import StoreThread
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.entry_ids import next_id
from designer.workbench.brew.instants import Instant

application = QGuiApplication([])
folder, is_stuck = Path(sys.argv[1]), sys.argv[2] == "stuck"
link = BoxLink(StoreThread(folder), folder)
keeping = BrewKeeping(link)
written, waiting, uid = [], {}, ""

def write():
    if len(waiting) > 40:
        return
    what = What.NOTE if written else What.BEGAN
    entry = Entry(next_id(written[-1:]), Instant(time.time()), what, {"text": "Foam at 98 °C"})
    written.append(entry)
    waiting[entry.id] = time.perf_counter()
    keeping.append(uid, entry)

def told(_, key):
    if key in waiting:
        print("kept", key, f"{1000 * (time.perf_counter() - waiting.pop(key)):.2f}", flush=True)

def go_on(logs):
    global uid
    if logs:
        uid = logs[0].brew.uid
        written.extend(logs[0].entries)
        keeping.log_of(uid, lambda _: start(), print)
    else:
        brew = new_brew(document_text(load(resource_path("examples/harbour_lamp_porter.hobwort"))))
        uid = brew.uid
        keeping.begin(brew)
        start()

def start():
    if is_stuck:
        link.store.ask_without(threading.Event().wait)
    print("goes on", flush=True)
    ticker.start()

keeping.confirmed.connect(told)
ticker = QTimer(interval=0)
ticker.timeout.connect(write)
print("begins", flush=True)
keeping.running(go_on, print)
application.exec()
"""


@dataclass
class Tally:
    """What was confirmed over all kills, after how long, and what of it is missing."""

    confirmed: set[str] = field(default_factory=set)
    took_ms: list[float] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)
    kills: int = 0
    while_starting: int = 0


def killed_run(folder: Path, tally: Tally, chance: random.Random) -> None:
    """Let a process log and kill it at a random instant; note what it had confirmed."""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(TOP)}
    way = "stuck" if tally.kills % 3 == 2 else "well"
    with subprocess.Popen(
        [sys.executable, "-c", STOVE, str(folder), way],
        stdout=subprocess.PIPE,
        text=True,
        env=environment,
        cwd=TOP,
    ) as process:
        assert process.stdout is not None
        said = process.stdout.readline()
        if chance.random() >= WHILE_STARTING:
            said += process.stdout.readline()
        time.sleep(chance.uniform(0.0, LONGEST_S))
        process.kill()
        said += process.stdout.read()
    for line in said.splitlines():
        words = line.split()
        if words[:1] == ["kept"] and len(words) == 3:
            tally.confirmed.add(words[1])
            tally.took_ms.append(float(words[2]))
    tally.kills += 1
    tally.while_starting += "goes on" not in said


def look(folder: Path, tally: Tally) -> None:
    """Open the box as the next start does and look for all that was confirmed."""
    from designer.library.store import Store
    from designer.library.store.brew_journal import JOURNAL_FOLDER, take_in
    from designer.library.store.health import SOUND, check

    with Store.open(folder) as store:
        take_in(store)
        brews = store.brews.all()
        there = [line.entry["id"] for each in brews for line in store.brews.lines(each.id)]
    tally.lost += sorted(tally.confirmed - set(there))
    if len(there) != len(set(there)):
        tally.lost.append("an entry is there twice")
    if len(brews) > 1:
        tally.lost.append("the brew is there twice")
    if check(folder / "recipe-box.db", deep=True).state != SOUND:
        tally.lost.append("the box is damaged")
    left = list((folder / JOURNAL_FOLDER).glob("*")) if there else []
    if left:
        tally.lost.append(f"journals that were not cleared away: {len(left)}")


def soak(folder: Path, kills: int, seed: int = 3) -> Tally:
    """Kill, look, kill again: the same brew is gone on with."""
    tally, chance = Tally(), random.Random(seed)
    for _ in range(kills):
        killed_run(folder, tally, chance)
        look(folder, tally)
    return tally


def main() -> int:
    """Print what was confirmed and lost."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else KILLS
    with tempfile.TemporaryDirectory(prefix="hobwort-brew-") as name:
        tally = soak(Path(name) / "kitchen", kills)
    took = sorted(tally.took_ms) or [0.0]
    sys.stdout.write(
        f"{tally.kills} kills, {tally.while_starting} of them before the first entry; "
        f"{len(tally.confirmed)} entries confirmed, {len(tally.lost)} faults\n"
        f"from entry to confirmed, 40 at once: median {statistics.median(took):.1f} ms, 99 % "
        f"{took[int(0.99 * (len(took) - 1))]:.1f} ms\n"
    )
    for each in tally.lost[:20]:
        sys.stdout.write(f"  {each}\n")
    note(f"kill -9 of a brew, {kills} times: lost", len(tally.lost), "", bound=0)
    return 1 if tally.lost else 0


if __name__ == "__main__":
    sys.exit(main())
