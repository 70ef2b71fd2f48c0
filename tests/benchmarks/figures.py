"""Where a benchmark notes what it measured, for the table of `python -m tests.measured`.

A figure is a line of JSON in the file that HOBWORT_MEASURED names; without it nothing is noted.
"""

from __future__ import annotations

import json
import os
from pathlib import Path

VARIABLE = "HOBWORT_MEASURED"


def note(name: str, value: float, unit: str, *, bound: float | None = None) -> None:
    """Note a figure, and the most that it may be; unit "x" for a ratio within one run."""
    file = os.environ.get(VARIABLE)
    if file:
        line = json.dumps({"name": name, "value": value, "unit": unit, "bound": bound})
        with Path(file).open("a", encoding="utf-8") as out:
            out.write(line + "\n")
