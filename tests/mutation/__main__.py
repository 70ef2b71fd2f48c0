"""How many small mistakes in the code the tests would notice.

    python -m tests.mutation readings --of 100 --seed 1

A sample is drawn of all changes that can be made to a package. Each is tried against the tests
that come to it, until one notices; those that no test notices are listed, to be looked at. Which
lines a test runs is looked at once and kept below the folder for temporary files. All bounds are
of the processor, so the count is the same on a busy machine. DEVELOPERS.md tells what was last
counted.
"""

import argparse
import json
import os
import random
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import hypothesis  # noqa: F401 - loaded once, before every process that is forked off
import numpy  # noqa: F401 - the same
import pytest
import pytestqt.plugin  # noqa: F401 - the same

from tests.mutation.changes import Change, changes_in
from tests.mutation.nearest import Nearest
from tests.mutation.places import Place, place_of
from tests.mutation.reached import Seen, kept, kept_at
from tests.mutation.tried import Fate, fate_cold, fate_warm
from tests.mutation.warm import in_warm_process, look_at_all

HERE = Path(__file__).resolve().parents[2]
READINGS = ("explaining", "measured", "learning", "fermenting", "packaging")
PACKAGES = {
    "wort": (["wort"], ["tests/wort", "tests/proof", "tests/brewday/test_*.py"]),
    "brewday": (["brewday/*.py", "brewday/first"],
                ["tests/brewday/test_*.py", "tests/brewday/first", "tests/workbench"]),
    "fit": (["brewday/fit"], ["tests/brewday/fit", "tests/fit_proof", "tests/workbench"]),
    "sheet": (["sheet"], ["tests/sheet", "tests/fit_proof"]),
    "readings": ([f"brewday/{each}" for each in READINGS],
                 [*(f"tests/brewday/{each}" for each in READINGS),
                  "tests/brewday/test_judged_*.py", "tests/workbench/brew",
                  "tests/workbench/learning", "tests/workbench/test_day_*.py",
                  "tests/reading_proof", "tests/learning_proof", "tests/beer_proof"]),
}  # fmt: skip
"""Of each package its modules, below designer/, and where the tests nearest to it lie."""


def modules_of(places: Sequence[str]) -> list[Path]:
    """Return the modules at some places, which are folders or patterns of files."""
    found: set[Path] = set()
    for place in places:
        pattern = place if place.endswith(".py") else f"{place}/**/*.py"
        found.update((HERE / "designer").glob(pattern))
    return sorted(found)


def files_at(places: Sequence[str]) -> list[Path]:
    """Return the files of tests at some places."""
    files: set[Path] = set()
    for place in places:
        files.update(HERE.glob(place if "*" in place else f"{place}/**/test_*.py"))
    return sorted(files)


class Trial:
    """Tries the changes that were drawn, each in a process of its own."""

    def __init__(self, package: str, limit_s: float, at_once: int) -> None:
        self._package = package
        places, tests = PACKAGES[package]
        self.modules = modules_of(places)
        self.files = files_at(tests)
        self._limit_s = limit_s
        self._at_once = at_once
        self._places: dict[tuple[Path, Change], Place] = {}

    def look(self) -> Nearest:
        """Look at what the tests run, as far as that is not kept, and return their order."""
        told = Path(tempfile.gettempdir()) / f"hobwort-mutation-{os.getpid()}.txt"

        def work(collected: Sequence[pytest.Item]) -> None:
            look_at_all(collected, HERE, self._package, self.modules, self._at_once)

        if not all(kept_at(HERE, self._package, each).exists() for each in self.files):
            in_warm_process(self.files, work, str(told))
        return self._nearest()

    def _nearest(self) -> Nearest:
        where = [kept_at(HERE, self._package, each) for each in self.files]
        return Nearest([one for each in where if each.exists() for one in kept(each)], HERE)

    def _chosen(
        self, nearest: Nearest, module: Path, change: Change
    ) -> tuple[Place, list[Seen], bool]:
        place = place_of(module, change, self.modules)
        tests, used_s = [], 0.0
        every = nearest.tests_for(module, place)
        for each in every:
            used_s += each.seconds
            if used_s > self._limit_s:
                break
            tests.append(each)
        return place, tests, len(tests) == len(every)

    def _try(
        self,
        nearest: Nearest,
        item: tuple[Path, Change],
        try_one: Callable[[Place, Path, Change, list[Seen]], Fate],
    ) -> Fate:
        module, change = item
        place, tests, every = self._chosen(nearest, module, change)
        fate = try_one(place, module, change, tests)
        if fate.noticed:
            nearest.noticed(module, fate.by)
        if fate.what == "survived" and not every:
            return Fate("not all tried")
        return fate

    def all_tried(
        self, drawn: Sequence[tuple[Path, Change]], tell: Callable[[int, Fate, float], None]
    ) -> None:
        """Try them all; `tell` is called with the number of a change, its fate and seconds."""
        self.look()
        reading, writing = os.pipe()

        def one_warm(
            nearest: Nearest, collected: Sequence[pytest.Item], number: int
        ) -> tuple[int, Fate, float]:
            began = time.monotonic()

            def try_one(place: Place, module: Path, change: Change, tests: list[Seen]) -> Fate:
                if not place.in_function:
                    return Fate("not warm")
                return fate_warm(module, change, tests, collected)

            fate = self._try(nearest, drawn[number], try_one)
            return number, fate, time.monotonic() - began

        def work(collected: Sequence[pytest.Item]) -> None:
            os.close(reading)
            nearest = self._nearest()

            def one(number: int) -> None:
                which, fate, seconds = one_warm(nearest, collected, number)
                row = json.dumps([which, fate.what, fate.by, seconds])
                os.write(writing, f"{row}\n".encode())

            with ThreadPoolExecutor(self._at_once) as pool:
                list(pool.map(one, range(len(drawn))))

        cold = []

        def listen() -> None:
            with os.fdopen(reading, encoding="utf-8") as rows:
                for row in rows:
                    number, what, by, seconds = json.loads(row)
                    if what == "not warm":
                        cold.append(number)
                    else:
                        tell(number, Fate(what, by), seconds)

        told = Path(tempfile.gettempdir()) / f"hobwort-mutation-{os.getpid()}.txt"
        listener = threading.Thread(target=listen)
        listener.start()
        try:
            in_warm_process(self.files, work, str(told))
        finally:
            os.close(writing)
            listener.join()
        self._all_cold(drawn, cold, tell)

    def _all_cold(
        self,
        drawn: Sequence[tuple[Path, Change]],
        numbers: Sequence[int],
        tell: Callable[[int, Fate, float], None],
    ) -> None:
        nearest = self._nearest()

        def try_one(place: Place, module: Path, change: Change, tests: list[Seen]) -> Fate:
            return fate_cold(module, change, tests, HERE)

        def one(number: int) -> None:
            began = time.monotonic()
            fate = self._try(nearest, drawn[number], try_one)
            tell(number, fate, time.monotonic() - began)

        with ThreadPoolExecutor(self._at_once) as pool:
            list(pool.map(one, numbers))


def main() -> int:
    """Draw, try and tell."""
    asked = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    asked.add_argument("package", choices=PACKAGES)
    asked.add_argument("--of", type=int, default=80, help="how many changes are drawn")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--only", default="", help="only modules whose path has this in it")
    asked.add_argument(
        "--limit",
        type=float,
        default=120.0,
        help="seconds of the processor for the tests of one change, as they are unchanged",
    )
    asked.add_argument("--at-once", type=int, default=2)
    chosen = asked.parse_args()
    trial = Trial(chosen.package, chosen.limit, chosen.at_once)
    every = [
        (module, change)
        for module in trial.modules
        if chosen.only in str(module)
        for change in changes_in(module.read_text("utf-8"))
    ]
    drawn = random.Random(chosen.seed).sample(every, min(chosen.of, len(every)))
    fates: list[Fate] = []

    def tell(number: int, fate: Fate, seconds: float) -> None:
        module, change = drawn[number]
        fates.append(fate)
        where = f"{module.relative_to(HERE)}:{change.line}"
        by = f"  by {fate.by}" if fate.by else ""
        sys.stdout.write(f"{fate.what:14}{seconds:6.1f} s  {where}  {change.words}{by}\n")
        sys.stdout.flush()

    trial.all_tried(drawn, tell)
    noticed = sum(each.noticed for each in fates)
    sys.stdout.write(
        f"{chosen.package}: {noticed} of {len(fates)} noticed, {100 * noticed / len(fates):.0f} %, "
        f"of {len(every)} that can be made; seed {chosen.seed}\n"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
