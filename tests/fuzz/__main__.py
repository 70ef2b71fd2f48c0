"""Try texts and files changed by chance: `python -m tests.fuzz [--seconds N] [TARGET ...]`.

Each target runs in a process of its own, its memory bounded, driven by the fuzzer atheris (PyPI, to
be installed for this alone), which seeks inputs that reach new lines. Whatever made a target fail
is kept in `--keep`, and `python -m tests.fuzz --again FILE TARGET` tries it once more.
"""

import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from designer.errors import DesignerError
from tests.fuzz.guard import Guard
from tests.fuzz.targets import TARGETS, Target

MEMORY_MB = 1500
SLOWEST_S = 20
READABLE = (Path(__file__).parents[2], Path(sys.prefix), Path(sys.base_prefix), Path("/usr"),
            Path("/etc/localtime"), Path("/dev/null"), Path("/proc/self"))  # fmt: skip


def main() -> int:
    """Try the targets one after another and print a table; 1 if any failed."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("targets", nargs="*", metavar="TARGET")
    words.add_argument("--seconds", type=int, default=60, help="for each target")
    words.add_argument("--keep", type=Path, default=Path(tempfile.gettempdir()) / "hobwort-fuzz")
    words.add_argument("--json", type=Path, help="write the counts to this file too")
    words.add_argument("--again", type=Path, help="try one input that was kept")
    words.add_argument("--within", action="store_true", help=argparse.SUPPRESS)
    chosen = words.parse_args()
    wanted = [each for each in TARGETS if not chosen.targets or each.name in chosen.targets]
    if chosen.again:
        tried(wanted[0], chosen.again.read_bytes())
        return 0
    if chosen.within:
        _drive(wanted[0], chosen.seconds, chosen.keep)
    rows = [_in_a_process(each, chosen.seconds, chosen.keep) for each in wanted]
    if chosen.json:
        chosen.json.write_text(json.dumps(rows, indent=2), encoding="utf-8")
    return 1 if any(row["failed"] for row in rows) else 0


def tried(target: Target, data: bytes) -> None:
    """Try one input in a folder of its own; raises whatever is no refusal."""
    with tempfile.TemporaryDirectory() as name:
        _at_home_in(Path(name))
        _attempt(target, data, Path(name), Guard(Path(name), READABLE))


def _at_home_in(folder: Path) -> None:
    """Let settings and what is written for a moment lie in a folder."""
    os.environ |= {"HOBWORT_SETTINGS": str(folder), "HOME": str(folder), "TMPDIR": str(folder)}
    tempfile.tempdir = str(folder)


def _attempt(target: Target, data: bytes, folder: Path, guard: Guard) -> None:
    with guard:
        try:
            target.attempt(data, folder)
        except DesignerError:
            return


def _drive(target: Target, seconds: int, keep: Path) -> None:
    """Hand this process over to the fuzzer, which ends it."""
    import atheris  # type: ignore[import-not-found]

    atheris.instrument_all()
    corpus = Path(tempfile.mkdtemp(prefix="hobwort-corpus-"))
    for number, seed in enumerate(target.seeds()):
        (corpus / f"seed{number}").write_bytes(seed)
    folder = Path(tempfile.mkdtemp(prefix="hobwort-fuzz-"))
    _at_home_in(folder)
    for seed in target.seeds():  # all that is loaded late is loaded now
        target.attempt(seed, folder)
    guard = Guard(folder, READABLE)

    def once(data: bytes) -> None:
        _attempt(target, data, folder, guard)

    options = [f"-max_total_time={seconds}", f"-max_len={target.longest}", "-print_final_stats=1",
               f"-rss_limit_mb={MEMORY_MB}", f"-timeout={SLOWEST_S}",
               f"-artifact_prefix={keep}/{target.name}-"]  # fmt: skip
    atheris.Setup([sys.argv[0], *options, str(corpus)], once, enable_python_coverage=True)
    atheris.Fuzz()


def _in_a_process(target: Target, seconds: int, keep: Path) -> dict[str, object]:
    keep.mkdir(parents=True, exist_ok=True)
    words = [sys.executable, "-m", "tests.fuzz", "--within", f"--seconds={seconds}",
             f"--keep={keep}", target.name]  # fmt: skip
    began = time.monotonic()
    done = subprocess.run(words, capture_output=True, text=True, errors="replace", check=False)
    said = done.stdout + done.stderr
    row = {
        "target": target.name,
        "seconds": round(time.monotonic() - began),
        "inputs": _told(said, "number_of_executed_units"),
        "new": _told(said, "new_units_added"),
        "memory_mb": _told(said, "peak_rss_mb"),
        "failed": done.returncode != 0,
    }
    line = "{target:10} {inputs:>9} inputs, {new:>6} of a new kind, {memory_mb:>5} MB, {seconds} s"
    sys.stdout.write(line.format(**row) + ("  FAILED" if row["failed"] else "") + "\n")
    if row["failed"]:
        told = said.find(" === Uncaught Python exception")
        sys.stdout.write((said[told : told + 4000] if told >= 0 else said[-4000:]) + "\n")
    sys.stdout.flush()
    return row


def _told(said: str, what: str) -> int:
    found = re.search(rf"{what}:\s*(\d+)", said)
    return int(found.group(1)) if found else 0


if __name__ == "__main__":
    raise SystemExit(main())
