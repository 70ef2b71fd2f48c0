"""All that is measured, in one table: `python -m tests.measured [--quick] [--soaks] [--json FILE]`.

Speed and memory are ratios against a baseline of the same run wherever there is one, or times
against the bound of a frame; soaks (`--soaks`, an hour) kill the program and count what is lost.
The table says what each figure may be at most; `--json` writes it for machines. Exit code 1 where
a figure is over its bound or a measurement failed. A busy machine makes every time longer: measure
on one at rest.
"""

import argparse
import json
import os
import platform
import subprocess
import sys
import tempfile
import time
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, NamedTuple

import designer

TOP = Path(__file__).parents[2]
BENCHMARKS = TOP / "tests" / "benchmarks"
VARIABLE = "HOBWORT_MEASURED"
LONGEST_S = 3600


class Script(NamedTuple):
    """A script that measures, with its words, and fewer of them for a quick look."""

    file: str
    words: tuple[str, ...] = ()
    quick: tuple[str, ...] = ()


SPEED = (
    Script("window_speed.py"),
    Script("window_memory.py"),
    Script("key_speed.py"),
    Script("slider_speed.py"),
    Script("reading_speed.py"),
    Script("reading_page_speed.py"),
    Script("brew_speed.py"),
    Script("test_fit_speed.py"),
    Script("test_sheet_speed.py"),
    Script("many_sheets.py"),
    Script("sheet_against_spreadsheet.py"),
    Script("store_speed.py", quick=("5000",)),
    Script("box_shown_speed.py", quick=("500",)),
)
SOAKS = (
    Script("store_soak.py", quick=("20",)),
    Script("window_soak.py", quick=("10",)),
    Script("brew_soak.py", quick=("10",)),
    Script("timer_soak.py", quick=("10",)),
)


@dataclass(frozen=True)
class Figure:
    """What was measured: a value in a unit ("x": a ratio), and the most that it may be."""

    script: str
    name: str
    value: float
    unit: str
    bound: float | None

    @property
    def is_over(self) -> bool:
        """Whether it is more than it may be."""
        return self.bound is not None and self.value > self.bound


def main() -> int:
    """Measure, print the table, write it; 1 where anything is over its bound or failed."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--quick", action="store_true", help="smaller stores, fewer kills")
    words.add_argument("--soaks", action="store_true", help="kill the program and count too")
    words.add_argument("--only", action="append", default=[], metavar="SCRIPT")
    words.add_argument("--json", type=Path, metavar="FILE")
    chosen = words.parse_args()
    scripts = [*SPEED, *(SOAKS if chosen.soaks else ())]
    if chosen.only:
        scripts = [each for each in (*SPEED, *SOAKS) if each.file in chosen.only]
    found: list[Figure] = []
    failed: list[str] = []
    for script in scripts:
        begun = time.monotonic()
        figures, said = measured(script, script.quick if chosen.quick else script.words)
        found += figures
        for each in figures:
            say(line_of(each))
        if said is not None and not any(each.is_over for each in figures):
            failed.append(script.file)
            say(f"{script.file} failed:\n{said[-1500:]}")
        say(f"  {script.file}: {time.monotonic() - begun:.0f} s")
    over = [each for each in found if each.is_over]
    say(f"{len(found)} figures, {len(over)} over their bound, {len(failed)} scripts failed")
    if chosen.json:
        chosen.json.write_text(json.dumps(as_document(found, failed), indent=2), encoding="utf-8")
    return 1 if over or failed else 0


def measured(script: Script, words: tuple[str, ...]) -> tuple[list[Figure], str | None]:
    """Run a script; return what it noted, and what it said if it did not end well."""
    path = BENCHMARKS / script.file
    is_test = script.file.startswith("test_")
    run = ["-m", "pytest", "-q", "-p", "no:cacheprovider", "--benchmark-disable"] if is_test else []
    with tempfile.TemporaryDirectory(prefix="hobwort-measured-") as name:
        notes = Path(name) / "figures.jsonl"
        notes.touch()
        done = subprocess.run(
            [sys.executable, *run, str(path), *words],
            cwd=TOP, env={**os.environ, VARIABLE: str(notes)}, capture_output=True, text=True,
            errors="replace", check=False, timeout=LONGEST_S,
        )  # fmt: skip
        lines = [json.loads(line) for line in notes.read_text(encoding="utf-8").splitlines()]
    figures = [Figure(script.file, **line) for line in _middle_of_each(lines)]
    return figures, done.stdout + done.stderr if done.returncode else None


def _middle_of_each(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Of a figure that was noted in several runs, the median counts."""
    by_name: dict[str, list[dict[str, Any]]] = {}
    for line in lines:
        by_name.setdefault(line["name"], []).append(line)
    return [
        sorted(several, key=lambda line: line["value"])[len(several) // 2]
        for several in by_name.values()
    ]


def line_of(figure: Figure) -> str:
    """Return a figure as a line of the table."""
    value = f"{figure.value:.2f} {figure.unit}".rstrip()
    bound = "" if figure.bound is None else f"at most {figure.bound:g}"
    return f"{figure.name:64} {value:>12}  {bound:14}{'  OVER' if figure.is_over else ''}".rstrip()


def as_document(found: list[Figure], failed: list[str]) -> dict[str, Any]:
    """Return the table for machines."""
    return {
        "form": 1,
        "hobwort": designer.__version__,
        "python": platform.python_version(),
        "machine": f"{platform.machine()}, {os.cpu_count()} processors",
        "figures": [{**asdict(each), "is_over": each.is_over} for each in found],
        "failed": failed,
    }


def say(text: str) -> None:
    """Write a line."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
