"""How fast a sheet is on paper: two pages as PDF beyond start-up.

    python -m pytest tests/benchmarks/test_sheet_speed.py -s

It is measured in fresh processes, nothing warm but what start-up itself has loaded; bound 250 ms,
held to the processor's own time, so that others at work on the machine do not count. The whole
command is measured by `sheet_against_spreadsheet.py` and `many_sheets.py`.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
from pathlib import Path

import pytest

from tests.benchmarks.figures import note

ROOT = Path(__file__).parents[2]
PORTER_FILE = ROOT / "resources" / "examples" / "harbour_lamp_porter.hobwort"
BOUND_MS = 250.0
TIMES = 9

BEYOND_START_UP = """
import sys, time
from pathlib import Path
import numpy
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.sheet.content import brew_sheet
from designer.units import ShownUnits
from designer.paper.pages import application, write_pdf

application()
recipe = load(Path(sys.argv[1]))
clocks = (time.perf_counter, time.process_time)
start = [clock() for clock in clocks]
outlook = look_ahead(recipe)
made = [clock() for clock in clocks]
sheet = brew_sheet(
    recipe, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None, language=sys.argv[3]
)
pages = write_pdf(sheet, Path(sys.argv[2]), "a4")
end = [clock() for clock in clocks]
assert pages == 2, pages
for place in range(len(clocks)):
    print(1000.0 * (made[place] - start[place]), 1000.0 * (end[place] - made[place]))
"""


def told(capsys, text):
    with capsys.disabled():
        print(f"\n{text}")  # noqa: T201 - what the benchmark is for


@pytest.mark.parametrize("language", ["en", "de"])
def test_two_pages_are_pdf_soon_after_start_up(tmp_path, capsys, language):
    took = []
    for _ in range(TIMES):
        done = subprocess.run(
            [sys.executable, "-c", BEYOND_START_UP, str(PORTER_FILE), str(tmp_path / "a.pdf"),
             language],
            cwd=ROOT, capture_output=True, text=True, check=True,
        )  # fmt: skip
        took.append([float(figure) for figure in done.stdout.split()])
    forecast, paper, busy_forecast, busy_paper = (
        statistics.median(each) for each in zip(*took, strict=True)
    )
    both = busy_forecast + busy_paper
    note(f"sheet to two pages of PDF beyond start-up, {language}", busy_paper, "ms", bound=100.0)
    note(f"forecast and sheet to PDF beyond start-up, {language}", both, "ms", bound=BOUND_MS)
    told(
        capsys,
        f"{language}: forecast {forecast:.0f} ms, sheet and two pages as PDF {paper:.0f} ms; of "
        f"that the processor's own time {busy_forecast:.0f} and {busy_paper:.0f} ms; bound for "
        f"both {BOUND_MS:.0f} ms",
    )
    assert both <= BOUND_MS
