"""A hundred sheets in one run: `python tests/benchmarks/many_sheets.py`.

`hobwort sheet` is given a hundred recipes at once, as a shop prints them, and one; what a further
sheet takes is the difference.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from figures import note

sys.path.insert(0, str(Path(__file__).parents[2]))

from designer.library.recipe_file import document_text, load
from designer.resource_files import resource_path

TOP = Path(__file__).parents[2]
SHEETS, BOUND_MS, RUNS = 100, 60.0, 3


def seconds(files: list[Path], out: Path) -> float:
    """Return how long one run of the command takes, its PDFs counted."""
    for each in out.glob("*"):
        each.unlink()
    begun = time.perf_counter()
    subprocess.run(
        [sys.executable, "-m", "designer", "sheet", *map(str, files), "-o", f"{out}/"],
        cwd=TOP, check=True, capture_output=True,
    )  # fmt: skip
    took = time.perf_counter() - begun
    made = len(list(out.glob("*.pdf")))
    if made != len(files):
        raise SystemExit(f"{made} sheets of {len(files)}")
    return took


def main() -> int:
    """Print what a sheet takes; 1 where that is too long."""
    examples = [load(path) for path in sorted(resource_path("examples").glob("*.hobwort"))]
    with tempfile.TemporaryDirectory(prefix="hobwort-sheets-") as name:
        folder, out = Path(name) / "recipes", Path(name) / "sheets"
        folder.mkdir()
        out.mkdir()
        files = []
        for number in range(SHEETS):
            recipe = examples[number % len(examples)]
            files.append(folder / f"{number}.hobwort")
            text = document_text(replace(recipe, name=f"{recipe.name} {number}"))
            files[-1].write_text(text, encoding="utf-8")
        one = statistics.median(seconds(files[:1], out) for _ in range(RUNS))
        all_of_them = statistics.median(seconds(files, out) for _ in range(RUNS))
    each = 1000.0 * (all_of_them - one) / (SHEETS - 1)
    sys.stdout.write(
        f"{SHEETS} sheets in {all_of_them:.2f} s, one in {one:.2f} s; a further one {each:.0f} ms "
        f"(bound {BOUND_MS:.0f} ms)\n"
    )
    note(f"{SHEETS} sheets in one run, each", each, "ms", bound=BOUND_MS)
    return int(each > BOUND_MS)


if __name__ == "__main__":
    sys.exit(main())
