"""A forecast, and a field of an ingredient, are one entry each: all pages follow.

The made-up entry must stand in its list before any module has read it, so the tests that look for
it run in a process of their own.
"""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROOT = HERE.parents[2]


@pytest.mark.parametrize(
    ("entry", "tests"),
    [("made_up_forecast", "forecast_pages.py"), ("made_up_field", "field_places.py")],
)
def test_one_entry_is_found_wherever_its_like_is_shown(entry, tests):
    places = os.pathsep.join((str(ROOT), str(HERE), os.environ.get("PYTHONPATH", "")))
    path = HERE / tests
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", entry, "-p", "no:cacheprovider",
         "-p", "no:xdist", str(path)],
        cwd=ROOT, env=os.environ | {"PYTHONPATH": places}, capture_output=True, text=True,
        timeout=300,
    )  # fmt: skip
    wanted = len(re.findall(r"^def test_", path.read_text(encoding="utf-8"), re.MULTILINE))
    assert wanted > 0
    assert f"{wanted} passed" in done.stdout, done.stdout + done.stderr
