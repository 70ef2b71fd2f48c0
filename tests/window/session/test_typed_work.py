"""A misspelt name in work for the store is found by the type check, before anything is run."""

import subprocess
import sys
from pathlib import Path

import designer

ROOT = Path(designer.__file__).parent.parent
ASKED = """
from collections.abc import Sequence
from pathlib import Path
from designer.library.store import Store
from designer.window.session.background_jobs import BackgroundJobs
from designer.window.session.disk_thread import DiskThread
from designer.window.session.piecewise_job import PiecewiseJob
from designer.window.session.store_thread import StoreThread

def say(words: str) -> None: ...
def count(number: int) -> None: ...
def piece(store: Store, items: Sequence[int]) -> tuple[int, None]:
    return len(items), None

def ask(thread: StoreThread, beside: BackgroundJobs, files: DiskThread, folder: Path) -> None:
    thread.ask(lambda store: store.recipes.count(), count, say)
    thread.ask(lambda store: store.recpies.count(), count, say)  # wrong
    thread.ask(lambda store: store.recipes.count(), say)  # wrong
    thread.ask_without(lambda: 1, count, say)
    thread.ask_without(lambda: "one", count, say)  # wrong
    beside.ask("", folder, lambda store, told: store.recipes.count(), count, say)
    beside.ask("", folder, lambda store, told: store.recpies.count(), count, say)  # wrong
    beside.ask("", folder, lambda store, told: store.recipes.count(), say, say)  # wrong
    files.ask(lambda: 1, count, lambda fault: say(str(fault)))
    files.ask(lambda: "one", count, lambda fault: say(str(fault)))  # wrong
    PiecewiseJob(thread, [1], piece)
    PiecewiseJob(thread, ["one"], piece)  # wrong
"""


def test_work_that_the_store_cannot_do_does_not_pass_the_type_check(tmp_path):
    (tmp_path / "asking.py").write_text(ASKED)
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--cache-dir", str(ROOT / ".mypy_cache"),
         str(tmp_path / "asking.py")],
        capture_output=True, text=True, timeout=300, cwd=ROOT,
    )  # fmt: skip
    found = {int(line.split(":")[1]) for line in done.stdout.splitlines() if ": error:" in line}
    wrong = {number for number, line in enumerate(ASKED.splitlines(), 1) if "# wrong" in line}
    assert found == wrong, done.stdout + done.stderr
