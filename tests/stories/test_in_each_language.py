"""Every page in German: all words have room, down to a window of 1024 × 600; no name is English.

With HOBWORT_PICTURES each page is drawn into that folder, to be looked at; with
HOBWORT_EVERY_SIZE=yes French, and windows of 1280 × 800 and of 200 % (960 × 600), are walked too.
"""

import os
import re
from pathlib import Path

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtWidgets import QApplication, QDialog

from designer import translation
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, PotRecord
from designer.spoken_language import catalogue_of, names_in
from designer.window.brew.part_names import Part
from designer.window.brew.reading.reading_form import ReadingForm
from designer.window.parts.questions import Questions
from designer.workbench.brew.clocks import DrivenClock
from tests.cut_words import cut_words
from tests.shown_texts import shown_texts
from tests.taught_kitchen import brewed
from tests.window.brew.beer_driver import Beer

from .acts import store_at_rest

PICTURES = os.environ.get("HOBWORT_PICTURES")
SOURCE = re.compile(r"(?s)\b(?:Palmer|USDA|Oliver|Daniels|Briess|.*memory|.*practice).*")
"""Where a figure was read is told in the words of its source."""
SIZES, CODES = [(1024, 600)], ["de"]  # whose words are the longest
if os.environ.get("HOBWORT_EVERY_SIZE"):
    SIZES += [(1280, 800), (960, 600)]  # the last is a screen of 1920 × 1200 at 200 %
    CODES += ["fr"]


@pytest.fixture(params=CODES)
def code(request):
    """A language that the program speaks, with its numbers and dates."""
    spoken = request.param
    translation.use(catalogue_of(f"program_{spoken}"), spoken, names_in(spoken))
    before = QLocale()
    QLocale.setDefault(QLocale(spoken))
    yield spoken
    QLocale.setDefault(before)
    translation.use(None)


class Walk:
    """What is cut on the places that were seen, and what names are left in English there."""

    def __init__(self, name, code):
        self.name, self.cut, self.number = name, {}, 0
        pairs = names_in(code).pairs()
        self.english = [one for one, said in pairs if one[0].isupper() and one not in said]
        assert len(self.english) > 80
        self.left = set()

    def see(self, place, widget):
        """Look at a place of a window, or at a dialog."""
        QApplication.processEvents()
        found = cut_words(widget)
        if found:
            self.cut[place] = found
        for _, text in shown_texts(widget):
            text = SOURCE.sub("", text)
            self.left |= {(place, one) for one in self.english if one in text}
        if PICTURES:
            self.number += 1
            folder = Path(PICTURES)
            folder.mkdir(exist_ok=True)
            widget.grab().save(str(folder / f"{self.name}_{self.number:02}_{place}.png"))


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}")
def test_no_word_is_cut_on_any_page(qtbot, code, opened, on_a_box, folder, settings, size):
    settings.language = code
    with Store.open(folder) as store:
        brewed(store)
        store.pots.insert(PotRecord("Stockpot", "15 L"))
        store.cupboard.insert(CupboardRecord("Chocolate malt", amount="500 g", price="4 / kg"))
    window = on_a_box(opened, *size)
    window.brew_clock = clock = DrivenClock()
    window.files.save()
    store_at_rest(qtbot, window)
    walk = Walk(f"{code}_{size[0]}", code)
    _look_at_pages(walk, qtbot, window)
    _look_at_dialogs(walk, qtbot, window)
    _look_at_a_brew(walk, qtbot, window, clock)
    told = [f"{place}: {each}" for place, cut in walk.cut.items() for each in cut]
    assert not told, "\n".join(told)
    assert walk.left == set()


def _look_at_pages(walk, qtbot, window):
    page = window.compose
    walk.see("compose", window)
    page.process.more_button.setChecked(True)
    for panel in (page.fermentables, page.hops, page.extras):
        panel.more_button.setChecked(True)
        panel.view.setCurrentIndex(panel.model.index(0, 1))
    page.wort_button.setChecked(True)
    page.forecast.rows[0].setChecked(True)
    walk.see("compose_more", window)
    page.styles.open_card()
    walk.see("compose_styles", window)
    page.styles.card.hide()
    for name in ("Fit", "Sheet", "Recipe box", "Kitchen"):
        window.show_page(window.page_names.index(name))
        store_at_rest(qtbot, window)
        qtbot.wait(300)
        walk.see(name.lower().replace(" ", "_"), window)
    box = window.box
    qtbot.waitUntil(lambda: bool(box.model.rows_read), timeout=10_000)
    box.table.selectRow(0)
    store_at_rest(qtbot, window)
    walk.see("box_chosen", window)
    box.show_backups()
    store_at_rest(qtbot, window)
    walk.see("box_backups", window)
    kitchen = window.kitchen
    kitchen.show_packs()
    walk.see("kitchen_packs", window)
    kitchen.show_learned()
    panel = kitchen.learned
    qtbot.waitUntil(lambda: panel.taught is not None and panel.rows.isEnabled(), timeout=30_000)
    qtbot.waitUntil(lambda: not (panel._jobs.busy or panel._forecasts.busy), timeout=30_000)
    qtbot.wait(100)
    walk.see("kitchen_learned", window)
    window.begin()
    begin = window.begin_page
    qtbot.waitUntil(lambda: begin.own.found is not None, timeout=20_000)
    walk.see("begin_own", window)
    for number, door in enumerate(begin.doors.buttons()):
        door.click()
        qtbot.wait(100)
        walk.see(f"begin_{number}", window)


def _look_at_dialogs(walk, qtbot, window):
    window.show_page(0)
    tried = window.compose.what_if()
    qtbot.wait(200)
    walk.see("what_if", tried)
    tried.close()
    form = ReadingForm(window.display, Questions())
    qtbot.addWidget(form)
    form.show()
    walk.see("reading_form", form)
    form.close()
    for name, act in (
        ("about", window.show_about),
        ("report", window.report_problem),
        ("glossary", window.explaining.all_terms),
    ):
        act()
        qtbot.wait(50)
        for dialog in window.findChildren(QDialog):
            if dialog.isVisible():
                walk.see(name, dialog)
                dialog.close()
    window.show_help()
    walk.see("help", window)
    window.help.hide()


def _look_at_a_brew(walk, qtbot, window, clock):
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    qtbot.wait(100)
    walk.see("brew_before", window)
    beer = Beer(qtbot, page, clock)
    page.do()
    qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)
    walk.see("brew_first", window)
    while page.brew.brewing.now.left_min != 15.0:
        page.brew.done()
    qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)
    walk.see("brew_boil", window)
    page.ask_for_timer()
    walk.see("brew_timer", window)
    page.new_timer.put_away()
    page.show_part(Part.LOG)
    walk.see("brew_log", window)
    page.show_part(Part.READING)
    walk.see("brew_reading", window)
    beer.pitch()
    for day in (4, 9, 12, 15):
        beer.on_day(day)
        beer.type_reading("1.013")
    page.take_focus()
    walk.see("fermenting", window)
    area = beer.part.area
    for place in (0.5, 1.0):
        bar = area.verticalScrollBar()
        bar.setValue(int(place * bar.maximum()))
        walk.see(f"packaging_{place}", window)
    window.setFocus(Qt.FocusReason.OtherFocusReason)
