"""How large the window opens, on screens of several sizes; each screen is a process of its own."""

import json
import os
import subprocess
import sys

import pytest

OPEN = """
import os, sys
from designer.window.parts.settings import Settings
from designer.window.parts.typeface import wear_typeface
from designer.window.start import made_application, opened_window
from designer.window.parts.theme import apply_scheme
from PySide6.QtTest import QTest
application = made_application()
settings = Settings(application)
wear_typeface(application, settings.typeface)
window = opened_window(None, settings)
apply_scheme(application, settings.scheme)
window.show()
QTest.qWaitForWindowExposed(window)
if len(sys.argv) > 1:
    window.resize(int(sys.argv[1]), int(sys.argv[2]))
    window.move(int(sys.argv[3]), int(sys.argv[4]))
    settings.geometry = window.saveGeometry()
    settings.write_out()
free, outer = window.screen().availableGeometry(), window.frameGeometry()
print(*window.size().toTuple(), free.contains(outer), flush=True)
os._exit(0)
"""


@pytest.fixture
def opens(tmp_path):
    """Open the window on a screen, as often as asked; its settings stay from start to start."""

    def on(width, height, *then):
        screen = {"name": "s", "x": 0, "y": 0, "width": width, "height": height}
        config = tmp_path / f"{width}.json"
        config.write_text(json.dumps({"screens": [{**screen, "logicalDpi": 96, "dpr": 1}]}))
        places = {name: str(tmp_path) for name in ("HOBWORT_SETTINGS", "HOBWORT_STORE")}
        platform = f"offscreen:configfile={config}"
        done = subprocess.run(
            [sys.executable, "-c", OPEN, *map(str, then)],
            capture_output=True,
            text=True,
            timeout=120,
            env=os.environ | places | {"QT_QPA_PLATFORM": platform},
        )
        assert done.returncode == 0, done.stderr
        across, down, is_inside = done.stdout.split()[-3:]
        return int(across), int(down), is_inside == "True"

    return on


def test_the_window_takes_its_usual_size_where_there_is_room(opens):
    assert opens(1920, 1080) == (1280, 800, True)


def test_a_size_kept_from_a_larger_screen_fits_the_smaller_one(opens):
    assert opens(1920, 1080, 1700, 1000, 150, 40)[:2] == (1700, 1000)
    across, down, is_inside = opens(1024, 600)
    assert is_inside
    assert across <= 1024
    assert down <= 600 - 30, "its title bar has room too"


def test_a_screen_smaller_than_the_least_size_still_shows_the_whole_window(opens):
    across, down, is_inside = opens(720, 480)
    assert is_inside
    assert (across, down) >= (700, 440)
