"""Kill the window at random instants while a recipe is edited in it, and look what is left.

Run it: `python tests/benchmarks/window_soak.py [TRIES]`. It prints how many edits were confirmed as
kept, how many of those were lost (must be none), and how often the store was found damaged.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.benchmarks.figures import note

TOP = Path(__file__).parents[2]
TRIES = 200

EDITOR = """
import sys
from PySide6.QtCore import QTimer
from designer.recipe.edits import ChangeRecipe
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
application = made_application()
window = opened_window(None, Settings(application), keeping=True, waiting=True)
window.show()
first, count, written = int(sys.argv[1]), 0, ""

def edit():
    global count
    if window.autosave is None or window.autosave.store.busy:
        return
    if not window.opened.is_open:
        window.files.open_example()
    count += 1
    window.opened.make(ChangeRecipe("name", f"edit {first + count}", "rename the recipe"))
    if count % 7 == 0:
        window.files.save()
    else:
        window.autosave.write_draft()
    global written
    written = window.opened.recipe.name

def told(state):
    if written and (state.startswith("draft kept") or state.startswith("kept, version")):
        print(written, flush=True)

def listen():
    if window.autosave is None:
        QTimer.singleShot(20, listen)
    else:
        window.autosave.state_changed.connect(told)

listen()
ticker = QTimer(interval=15)
ticker.timeout.connect(edit)
ticker.start()
application.exec()
"""


def number_of(name: str) -> int:
    """Return the number of an edit; 0 for a name that is none of ours."""
    words = name.split()
    return int(words[1]) if len(words) == 2 and words[0] == "edit" and words[1].isdigit() else 0


def kept(folder: Path) -> int:
    """Return the number of the latest edit that the store holds, as a draft or a version."""
    from designer.library.recipe_file import read_document
    from designer.library.store import Store

    with Store.open(folder) as store:
        drafts = [read_document(each.document, "draft").name for each in store.drafts.all()]
        rows = [row.name for row in store.finder.find("", hurry_s=None).rows]
    return max((number_of(name) for name in (*drafts, *rows)), default=0)


def attempt(folder: Path, first: int, seconds: float) -> int:
    """Edit for some seconds, kill, and return the latest edit that was confirmed."""
    environment = {
        **os.environ,
        "QT_QPA_PLATFORM": "offscreen",
        "HOBWORT_STORE": str(folder),
        "HOBWORT_SETTINGS": str(folder),
        "PYTHONPATH": str(TOP),
    }
    child = subprocess.Popen(
        [sys.executable, "-c", EDITOR, str(first)],
        stdout=subprocess.PIPE,
        text=True,
        env=environment,
        cwd=TOP,
    )
    time.sleep(seconds)
    child.send_signal(signal.SIGKILL)
    told, _ = child.communicate()
    names = [line for line in told.splitlines() if line.startswith("edit ")]
    return max((number_of(name) for name in names), default=0)


def main() -> int:
    """Kill, look, count."""
    from designer.library.store.folder import store_path
    from designer.library.store.health import SOUND, check

    tries = int(sys.argv[1]) if len(sys.argv) > 1 else TRIES
    draw = random.Random(9)
    confirmed = lost = damaged = 0
    with tempfile.TemporaryDirectory(prefix="hobwort-soak-") as name:
        folder = Path(name)
        for number in range(1, tries + 1):
            first = 10_000 * number
            last = attempt(folder, first, draw.uniform(0.8, 2.4))
            confirmed += max(last - first, 0)
            lost += last > kept(folder)
            damaged += check(store_path(folder), deep=True).state != SOUND
    sys.stdout.write(
        f"{tries} kills, {confirmed} edits confirmed, {lost} times a confirmed edit was lost, "
        f"{damaged} times the store was damaged\n"
    )
    note(f"kill -9 of the window, {tries} times: lost or damaged", lost + damaged, "", bound=0)
    return int(lost + damaged > 0)


if __name__ == "__main__":
    sys.exit(main())
