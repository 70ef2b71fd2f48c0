"""How large the window opens, on screens of several sizes; each screen is a process of its own."""

import json
import os
import subprocess
import sys

import pytest

from designer.window.guide import guide_window
from designer.window.parts.questions import Questions

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
    application.processEvents()
    settings.geometry = window.saveGeometry()
    settings.write_out()
free, outer = window.screen().availableGeometry(), window.frameGeometry()
screen = window.screen()
print(*window.size().toTuple(), free.contains(outer), screen.devicePixelRatio(), screen.name())
sys.stdout.flush()
os._exit(0)
"""


@pytest.fixture
def opens(tmp_path):
    """Open the window on a screen, as often as asked; its settings stay from start to start."""

    def on(width, height, *then, beside=()):
        screens = [(0, width, height, 1.0), *beside]
        told = [
            {
                "name": f"{x}",
                "x": x,
                "y": 0,
                "width": wide,
                "height": high,
                "logicalDpi": 96,
                "dpr": scale,
            }
            for x, wide, high, scale in screens
        ]
        config = tmp_path / f"{width}_{len(screens)}.json"
        config.write_text(json.dumps({"screens": told}))
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
        across, down, is_inside, on.scale, on.screen = done.stdout.split()[-5:]
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


def test_a_window_goes_back_to_the_screen_it_was_on_and_from_one_that_is_gone(opens):
    """A desk of 1.0 beside one drawn half as large again, and one of 2.0 with less room."""
    for scale in (1.5, 2.0):
        second = (1920, int(1400 * scale), int(860 * scale), scale)
        kept = opens(1920, 1080, 1200, 760, 2000, 40, beside=[second])
        assert kept == (1200, 760, True)
        assert (float(opens.scale), opens.screen) == (scale, "1920")
        assert opens(1920, 1080, beside=[second])[2]
        assert opens.screen == "1920"
        across, down, is_inside = opens(1024, 600)  # the second was taken away
        assert is_inside
        assert (opens.screen, float(opens.scale)) == ("0", 1.0)
        assert (across, down) <= (1024, 600)


def test_the_guide_opens_no_larger_than_its_screen(qtbot, settings, monkeypatch):
    monkeypatch.setattr(guide_window, "SIZE", (4000, 3000))
    made = guide_window.GuideWindow("en", Questions(), lambda: "a4")
    qtbot.addWidget(made)
    free = made.screen().availableGeometry()
    assert made.width() < free.width()
    assert made.height() < free.height()
