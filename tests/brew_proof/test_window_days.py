"""Whole days brewed in the window by keys alone, as its own process; more of them by `-m`."""

import os
import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).parents[2]


def test_a_simulated_brewer_gets_through_days_in_the_window_and_all_of_it_is_on_the_disk():
    run = subprocess.run(
        [sys.executable, "-m", "tests.brew_proof.window_days", "2"],
        cwd=TOP,
        env={**os.environ, "PYTHONPATH": str(TOP)},
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert run.stdout.startswith("2 days in the window, proposals taken"), run.stderr
    assert "original_gravity" in run.stdout
