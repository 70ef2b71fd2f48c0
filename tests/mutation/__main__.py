"""How many small mistakes in the code the tests would notice.

    python -m tests.mutation wort --of 100 --seed 1

A sample is drawn of all changes that can be made to a package; those that no test notices are
listed, to be looked at. DEVELOPERS.md tells what was last counted.
"""

import argparse
import random
import re
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import hypothesis  # noqa: F401 - loaded once, before every process that is forked off
import numpy  # noqa: F401 - the same
import pytestqt.plugin  # noqa: F401 - the same

from tests.mutation.changes import Change, changes_in
from tests.mutation.tried import fate

HERE = Path(__file__).resolve().parents[2]
READINGS = ("explaining", "measured", "learning", "fermenting", "packaging")
PACKAGES = {
    "wort": (["wort"], ["tests/wort", "tests/proof", "tests/brewday/test_*.py"]),
    "brewday": (["brewday/*.py", "brewday/first"],
                ["tests/brewday/test_*.py", "tests/brewday/first", "tests/workbench"]),
    "fit": (["brewday/fit"], ["tests/brewday/fit", "tests/fit_proof", "tests/workbench"]),
    "sheet": (["sheet"], ["tests/sheet", "tests/fit_proof"]),
    "readings": ([f"brewday/{each}" for each in READINGS],
                 [*(f"tests/brewday/{each}" for each in READINGS), "tests/workbench",
                  "tests/reading_proof", "tests/learning_proof", "tests/beer_proof"]),
}  # fmt: skip
"""Of each package its modules, below designer/, and where the tests nearest to it lie."""
STRONGEST = {
    "sheet": ["tests/sheet/test_golden.py", "tests/sheet/test_content.py"],
    "readings": ["tests/brewday/explaining/test_worked_examples.py"],
}
"""Tests that see most of what a package does: they are tried beside the nearest, before others."""


def modules_of(places: list[str]) -> list[Path]:
    """Return the modules at some places, which are folders or patterns of files."""
    found: set[Path] = set()
    for place in places:
        pattern = place if place.endswith(".py") else f"{place}/**/*.py"
        found.update((HERE / "designer").glob(pattern))
    return sorted(found)


def tests_for(module: Path, places: list[str]) -> list[str]:
    """Return the files of tests, the nearest first: named alike, then those that import it."""
    files: set[Path] = set()
    for place in places:
        files.update(HERE.glob(place if "*" in place else f"{place}/**/test_*.py"))
    name = ".".join(module.relative_to(HERE).with_suffix("").parts)
    imports = re.compile(rf"from {re.escape(name)} import|from {re.escape(name.rpartition('.')[0])}"
                         rf" import .*\b{module.stem}\b")  # fmt: skip
    words = set(module.stem.split("_"))

    def distance(file: Path) -> tuple[bool, bool, bool, bool, int, str]:
        named = set(file.stem.removeprefix("test_").split("_"))
        folder = file.parent.name == module.parent.name
        return (
            file.stem != f"test_{module.stem}",
            not imports.search(file.read_text("utf-8")),
            not words & named,
            not folder,
            places.index(next(p for p in places if file.match(p if "*" in p else "*.py"))),
            str(file),
        )

    return [str(file) for file in sorted(files, key=distance)]


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
        default=90.0,
        help="seconds of the processor for each of three helpings of tests",
    )
    asked.add_argument("--at-once", type=int, default=2)
    chosen = asked.parse_args()
    places, tests = PACKAGES[chosen.package]
    strongest = [str(HERE / each) for each in STRONGEST.get(chosen.package, [])]
    every = [
        (module, change)
        for module in modules_of(places)
        if chosen.only in str(module)
        for change in changes_in(module.read_text("utf-8"))
    ]
    drawn = random.Random(chosen.seed).sample(every, min(chosen.of, len(every)))

    def tried(item: tuple[Path, Change]) -> str:
        module, change = item
        began = time.monotonic()
        files = tests_for(module, tests)
        first = list(dict.fromkeys([files[0], *strongest, *files[1:2]]))
        rest = [each for each in files if each not in first]
        for some in (first, rest[:12], rest[12:]):
            what = fate(module, change, some, chosen.limit)
            if what != "survived":
                break
        where = f"{module.relative_to(HERE)}:{change.line}"
        sys.stdout.write(f"{what:14}{time.monotonic() - began:6.1f} s  {where}  {change.words}\n")
        sys.stdout.flush()
        return what

    with ThreadPoolExecutor(chosen.at_once) as pool:
        fates = list(pool.map(tried, drawn))
    noticed = sum(each in ("killed", "hung") for each in fates)
    sys.stdout.write(
        f"{chosen.package}: {noticed} of {len(fates)} noticed, {100 * noticed / len(fates):.0f} %, "
        f"of {len(every)} that can be made; seed {chosen.seed}\n"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
