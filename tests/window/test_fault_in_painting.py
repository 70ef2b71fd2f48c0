"""A fault of the program while it paints must not take the program down."""

import subprocess
import sys

import pytest

PAINTING = """
import os, sys
from PySide6.QtCore import QTimer
from designer.resource_files import resource_path
from designer.window.parts.settings import Settings
from designer.window.start import made_application, opened_window
from designer.window.{module} import {name}

def fail(*anything):
    raise ZeroDivisionError("a fault in painting")

{name}._paint = fail
application = made_application()
window = opened_window(resource_path("examples/harbour_lamp_porter.hobwort"), Settings(application))
window.show()
for after in (100, 200):
    QTimer.singleShot(after, window.compose.update)
QTimer.singleShot(300, lambda: (print("still there", flush=True), os._exit(0)))
application.exec()
"""


@pytest.mark.parametrize(
    ("module", "name"),
    [
        ("compose.day_line", "DayLine"),
        ("compose.forecast_row", "ForecastRow"),
        ("parts.vessels_drawing", "VesselsDrawing"),
    ],
)
def test_a_fault_in_painting_leaves_the_window_open(qapp, module, name):
    done = subprocess.run(
        [sys.executable, "-c", PAINTING.format(module=module, name=name)],
        capture_output=True, text=True, timeout=120,
    )  # fmt: skip
    assert "a fault in painting" in done.stderr
    assert done.stdout.strip() == "still there"
    assert done.returncode == 0
