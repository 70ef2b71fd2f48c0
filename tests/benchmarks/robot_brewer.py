"""A robot brewer works at the program for hours, while disks fill up and processes are killed.

Run it: `python tests/benchmarks/robot_brewer.py [--seeds 1-50] [--actions 200] [--processes 4]`;
`--seed 17` replays one seed and prints its log. It exits with 1 if anything was lost, set to a
value that was not typed, written to stderr, or not answered within a second.

The program is a process of its own, with real time between events: clicks, typing by hand (40 to
150 ms a key) and by machine, drags, undo, redo, paste, pages, save, open, new, begin, close,
restart, kill -9; the store locked, read only, damaged, its disk full; a recipe file changed by
another program, its folder gone. The robot keeps a model of what must be there and reads it back
from the disk itself.

What may be lost: what was typed in the last 1.5 s before a kill (a draft is written within 0.9 s
of a key), and, while the store cannot be written, what was typed since; never what the window said
to be kept, nor anything when the window is closed or another recipe opened, unless the brewer
pressed a button that says so.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))
from tests.benchmarks.robot.session import sit

BEFORE_IT = 14
LOSSES = ("loss", "wrong value", "unreadable", "damaged store")


def options() -> argparse.Namespace:
    """Return what was asked for."""
    asked = argparse.ArgumentParser(description="A robot brewer at the real program.")
    asked.add_argument("--seeds", default="1-50", help="such as 1-50 or 3,7,9")
    asked.add_argument("--seed", type=int, help="replay one seed and print its log")
    asked.add_argument("--actions", type=int, default=200, help="actions of each seed")
    asked.add_argument("--processes", type=int, default=4, help="seeds brewed side by side")
    asked.add_argument("--minutes", type=float, default=0.0, help="stop after so long; 0 for never")
    asked.add_argument("--limit", type=float, default=1.0, help="seconds in which to be answered")
    asked.add_argument("--no-troubles", action="store_true", help="a world in which all is well")
    asked.add_argument("--break", dest="broken", default="", help="break the program on purpose: "
                       "drafts, versions, values, freeze or stderr")  # fmt: skip
    asked.add_argument("--more", default="", help="deeds to do more often: kill,locked,full ...")
    asked.add_argument("--only", default="", help="do nothing but these deeds")
    asked.add_argument("--most", type=int, default=4, help="findings after which a seed ends")
    asked.add_argument("--json", action="store_true", help="with --seed: print the report as JSON")
    return asked.parse_args()


def seeds_of(text: str) -> list[int]:
    """Return the seeds that a text such as `1-3,7` names."""
    found: list[int] = []
    for part in text.split(","):
        first, _, last = part.partition("-")
        found += range(int(first), int(last or first) + 1)
    return found


def one(asked: argparse.Namespace) -> int:
    """Brew one seed in this process."""
    until = time.monotonic() + 60.0 * asked.minutes if asked.minutes else float("inf")
    report = sit(
        asked.seed,
        asked.actions,
        broken=asked.broken,
        troubles=not asked.no_troubles,
        more=asked.more,
        only=asked.only,
        until=until,
        limit_s=asked.limit,
        most=asked.most,
    )
    if asked.json:
        sys.stdout.write(json.dumps(report) + "\n")
    else:
        sys.stdout.write("\n".join(report["log"]) + "\n")
        sys.stdout.write(summary([report]) + "\n")
    return 1 if report["findings"] else 0


def apart(asked: argparse.Namespace, seed: int, until: float) -> dict[str, Any]:
    """Brew one seed in a process of its own and return its report."""
    left = (until - time.monotonic()) / 60.0
    if left <= 0:
        return {}
    command = [sys.executable, __file__, "--seed", str(seed), "--json"]
    command += ["--actions", str(asked.actions), "--limit", str(asked.limit),
                "--most", str(asked.most)]  # fmt: skip
    command += ["--minutes", str(left)] if asked.minutes else []
    command += ["--no-troubles"] if asked.no_troubles else []
    command += ["--more", asked.more] if asked.more else []
    command += ["--only", asked.only] if asked.only else []
    command += ["--break", asked.broken] if asked.broken else []
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=os.environ)
    try:
        return dict(json.loads(done.stdout))
    except ValueError:
        failed = {"kind": "the robot failed", "action": 0, "words": done.stderr[-3000:]}
        return {"seed": seed, "findings": [failed], "log": []}


def reports(asked: argparse.Namespace) -> Iterator[dict[str, Any]]:
    """Yield the report of each seed as it is done."""
    until = time.monotonic() + 60.0 * asked.minutes if asked.minutes else float("inf")
    with ThreadPoolExecutor(asked.processes) as pool:
        yield from pool.map(lambda seed: apart(asked, seed, until), seeds_of(asked.seeds))


def told(report: dict[str, Any], asked: argparse.Namespace) -> str:
    """Return in words what a seed found, with the actions before it and how to replay it."""
    lines = []
    for each in report["findings"]:
        lines.append(f"seed {report['seed']}, action {each['action']}: {each['kind'].upper()}")
        lines.append(f"  {each['words']}")
    if lines:
        extra = " --no-troubles" if asked.no_troubles else ""
        extra += f" --more {asked.more}" if asked.more else ""
        extra += f" --only {asked.only}" if asked.only else ""
        lines.append(
            f"  replay: python tests/benchmarks/robot_brewer.py --seed {report['seed']}"
            f" --actions {asked.actions}{extra}"
        )
        lines += [f"    {line}" for line in shortened(report["log"])]
    return "\n".join(lines)


def shortened(log: list[str]) -> list[str]:
    """Return the lines of a log that stand before each finding."""
    found = [number for number, line in enumerate(log) if "  !!! " in line]
    wanted = {at for number in found for at in range(number - BEFORE_IT, number + 2)}
    return [line for number, line in enumerate(log) if number in wanted]


def summary(found: list[dict[str, Any]]) -> str:
    """Return the figures of a run in a few lines."""

    def total(key: str) -> int:
        return sum(int(each.get(key, 0)) for each in found)

    findings = [each for report in found for each in report["findings"]]
    kinds = {kind: sum(each["kind"] == kind for each in findings) for kind in
             (*LOSSES, "freeze", "stuck", "stderr", "the robot failed")}  # fmt: skip
    worst = max(found, key=lambda each: float(each.get("worst_s", 0.0)), default={})
    return (
        f"{len(found)} seeds, {total('actions')} actions, {total('starts')} starts, "
        f"{total('closes')} closed, {total('kills')} killed, {total('faults')} faults of the "
        f"world, {total('edits confirmed')} edits confirmed, {total('checks')} checks\n"
        + ", ".join(f"{kind}: {number}" for kind, number in kinds.items())
        + f"\nworst answer {worst.get('worst_s', 0.0):.2f} s ({worst.get('worst_what', '')})"
    )


def main() -> int:
    """Brew, tell, and return 1 if anything was found."""
    asked = options()
    if asked.seed is not None:
        return one(asked)
    found: list[dict[str, Any]] = []
    for report in reports(asked):
        if not report:
            continue
        found.append(report)
        words = told(report, asked)
        if words:
            sys.stdout.write(words + "\n")
        sys.stdout.write(f"seed {report['seed']}: {len(report['findings'])} found\n")
        sys.stdout.flush()
    sys.stdout.write(summary(found) + "\n")
    return 1 if any(each["findings"] for each in found) else 0


if __name__ == "__main__":
    sys.exit(main())
