"""A robot brewer at the real program: it finds what is broken on purpose, and nothing else.

A long run is `tests/benchmarks/robot_brewer.py`; these are a few of its actions.
"""

import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from tests.some_cases import some_of

ROBOT = Path(__file__).parents[1] / "benchmarks" / "robot_brewer.py"
BROKEN = {
    "drafts": ("loss", "type_in_field,kill"),
    "versions": ("loss", "type_in_cell,save"),
    "values": ("wrong value", "type_in_cell"),
    "freeze": ("freeze", "type_name"),
    "stderr": ("stderr", "type_name"),
}
"""What is broken in the program, what the robot must find then, and the deed that shows it."""
TRIED = some_of(list(BROKEN), 2)


def brewed(*options):
    """Let the robot brew in a process of its own; return its report."""
    done = subprocess.run(
        [sys.executable, str(ROBOT), "--json", *options],
        capture_output=True,
        text=True,
        timeout=300,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
    )
    assert done.stdout, done.stderr
    return json.loads(done.stdout)


@pytest.fixture(scope="module")
def broken_reports():
    """What the robot reports of programs that are broken in one way each."""

    def of(item):
        what, (_, deed) = item
        return brewed(
            "--seed", "1", "--actions", "6", "--no-troubles", "--most", "1", "--break", what,
            "--only", deed,
        )  # fmt: skip

    with ThreadPoolExecutor(2) as pool:
        broken = {what: BROKEN[what] for what in TRIED}
        return dict(zip(broken, pool.map(of, broken.items()), strict=True))


@pytest.mark.parametrize("what", TRIED)
def test_the_robot_notices_a_program_that_is_broken(broken_reports, what):
    kinds = {each["kind"] for each in broken_reports[what]["findings"]}
    assert BROKEN[what][0] in kinds, broken_reports[what]["log"]


def test_two_short_sittings_lose_nothing_freeze_nowhere_and_end_in_silence():
    """Typing among closings and kills, with a lock held by another program in the second."""

    def sitting(seed):
        return brewed("--seed", seed, "--actions", "10", "--more", "kill,close")

    with ThreadPoolExecutor(2) as pool:
        reports = list(pool.map(sitting, ("101", "104")))
    for report in reports:
        assert report["findings"] == [], "\n".join(report["log"])
    assert sum(report["kills"] + report["closes"] for report in reports) >= 6
