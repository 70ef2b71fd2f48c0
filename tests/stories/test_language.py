"""Another language is chosen: the program opens anew in it, and nothing is lost on the way."""

import time
from pathlib import Path

import pytest

from designer.spoken_language import catalogue_of
from designer.window.opening_anew import OPEN_ANEW

from .real_program import Program

SPEAKING = "from designer.spoken_language import speak_as_wanted; speak_as_wanted()"
"""As the command line does before it opens the window."""
GERMAN = catalogue_of("program_de").gettext


@pytest.mark.skipif(not Path("/proc/self/cmdline").exists(), reason="Linux tells what runs")
def test_the_program_opens_anew_in_german_and_goes_on_where_it_was(tmp_path):
    with Program(tmp_path, hook=SPEAKING, anew=True) as program:
        program.do("window.files.open_example()")
        program.until("window.opened.is_open and window.opened.recipe.name != ''")
        program.do("window.opened.make(ChangeRecipe('notes', 'foams a lot', 'write notes'))")
        program.do("window.settings.language = 'de'")
        assert "Deutsch" in program.until("said()")
        program.do(f"choose({GERMAN(OPEN_ANEW)!r})")
        running = Path(f"/proc/{program.pid}/cmdline")
        until = time.monotonic() + 20.0
        while b"-m\0designer" not in running.read_bytes():
            assert time.monotonic() < until, running.read_bytes()
            time.sleep(0.05)
        program.kill()
    with Program(tmp_path, hook=SPEAKING, anew=True) as again:
        again.until("window.opened.is_open")
        assert again.ask("window.opened.recipe.notes") == "foams a lot"
        assert again.ask("window.opened.unsaved")
        assert again.ask("window.menuBar().actions()[0].text()") == GERMAN("&File")
        again.kill()
