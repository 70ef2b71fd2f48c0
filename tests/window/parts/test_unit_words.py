"""Rarer units where no program runs: a script of one's own has nobody to hear of them later."""

import subprocess
import sys
from pathlib import Path

TOP = Path(__file__).parents[2]
SCRIPT = """
import threading
from designer.units.pint_units import is_table_known
from designer.window.parts.unit_words import unit_words
unit_words().look_up()
print(is_table_known(), threading.active_count())
"""


def test_without_a_program_they_are_known_at_once_and_nothing_is_left_running():
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], cwd=TOP, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["True", "1"]
    assert done.stderr == ""
