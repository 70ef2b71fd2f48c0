"""From the first start of the program to a sheet of a recipe of one's own, as a process of its own.

How long a person takes is reckoned by the keystroke-level model, not waited for: 0.28 s for a key
of an average typist, 1.1 s to point, 0.4 s to go from mouse to keys or back, 1.35 s to make up
one's mind before each action (Card, Moran and Newell, 1980; from memory).
"""

import time

from pypdf import PdfReader

from .real_program import Program

KEY_S, POINT_S, HOMING_S, MIND_S = 0.28, 1.1, 0.4, 1.35
MOST_ACTIONS, MOST_S = 12, 180.0
IN_STYLE = (
    "all(low <= window.opened.newest_outlook().forecasts[key].value <= high"
    " for key, (low, high) in ((key, getattr(style, key)) for key in"
    " ('original_gravity', 'final_gravity', 'abv_percent', 'bitterness_ibu', 'colour_srm')))"
)
GRAVE = (
    "[each.code for each in window.opened.newest_outlook().findings"
    " if each.severity.name == 'STOP']"
)


class Brewer:
    """Counts what is done, and how long a person takes for it."""

    def __init__(self, program):
        self.program, self.actions, self.person_s = program, 0, 0.0
        self.began = time.monotonic()

    def _did(self, seconds):
        self.actions += 1
        self.person_s += MIND_S + seconds

    def types(self, text):
        self.program.do(f"QTest.keyClicks(focus(), {text!r})")
        self._did(HOMING_S + KEY_S * len(text))

    def presses(self, keys):
        self.program.do(f"press({keys!r})")
        self._did(KEY_S * len(keys.split("+")))

    def clicks(self, widget):
        # without a desktop a list that was offered stays the active window
        self.program.do("window.activateWindow()")
        self.program.until("window.isActiveWindow()")
        self.program.do(f"QTest.mouseClick({widget}, Qt.MouseButton.LeftButton)")
        self._did(HOMING_S + POINT_S)

    def names_the_file(self, path):
        """What the dialog of the desktop takes: a name and Return."""
        self._did(HOMING_S + KEY_S * len(path.name))
        self._did(KEY_S)

    @property
    def seconds(self):
        return self.person_s + time.monotonic() - self.began


def test_from_the_first_start_to_a_sheet_of_ones_own_in_a_dozen_actions(tmp_path):
    sheet = tmp_path / "my bitter.pdf"
    with Program(tmp_path / "home", anew=True) as program:
        brewer = Brewer(program)
        program.until("window.begin_page is not None and window.begin_page.isVisible()")
        program.do("window.resize(1280, 800)")
        program.do("own = window.begin_page.own")
        program.until("own.found is not None and own.form.words.hasFocus()")
        brewer.types("best bitter, not too sweet")
        brewer.clicks("own.form.flavours.chips[0]")
        brewer.clicks("own.form.kitchen.fields['pot']")
        program.do("focus().selectAll()")
        brewer.types("12 L")
        program.until("own.found.answers == own._asked and not own.reckoning.busy")
        assert program.ask("own.found.answers.pot.value") == 12.0
        brewer.clicks("own.three.cards[1].button")
        program.until("window.opened.is_open and window.pages.currentWidget() is window.compose")
        program.do(f"setattr(type(window.questions), 'pdf_where', lambda *_: Path({str(sheet)!r}))")
        brewer.presses("Ctrl+Shift+P")
        brewer.names_the_file(sheet)
        program.until(f"Path({str(sheet)!r}).exists()")
        assert brewer.actions <= MOST_ACTIONS
        assert brewer.seconds < MOST_S
        program.do("from designer.library.catalogue import find_style")
        program.do("style = find_style(window.opened.recipe.style)")
        assert program.ask(IN_STYLE)
        assert program.ask(GRAVE) == []
        assert program.ask("name()") == "My Best Bitter"
        program.until("window.autosave.settled and not window.autosave.store.busy")
        program.kill()  # what was designed is there at the next start
    pages = [page.extract_text() for page in PdfReader(sheet).pages]
    text = " ".join(" ".join(pages).split())
    assert "My Best Bitter" in text
    assert "Crystal malt" in text
    with Program(tmp_path / "home", anew=True) as program:
        program.until("window.opened.is_open")
        assert program.ask("name()") == "My Best Bitter"
        assert program.ask("window.opened.recipe.pot.volume.text") == "12 L"
