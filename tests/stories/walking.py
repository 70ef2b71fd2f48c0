"""Brings a window to every page, dialog and part of a brew day, for whoever wants to look at them.

`see(place, widget)` is called at each of them.
"""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog

from designer.library.pasted import pasted_table
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, PotRecord
from designer.window.brew.part_names import Part
from designer.window.brew.reading.reading_form import ReadingForm
from designer.window.compose.paste_preview import PastePreview
from designer.window.parts.questions import Questions
from tests.driven_clock import DrivenClock
from tests.taught_kitchen import brewed
from tests.window.brew.beer_driver import Beer

from .acts import store_at_rest


def walk(see, qtbot, window, clock):
    """Go everywhere, in a window whose Recipe box was `filled`, with the clock it is to have."""
    look_at_pages(see, qtbot, window)
    look_at_dialogs(see, qtbot, window)
    look_at_a_brew(see, qtbot, window, clock)


def filled(folder):
    """Fill a Recipe box: brews that taught a kitchen, a pot, something in the cupboard."""
    with Store.open(folder) as store:
        brewed(store)
        store.pots.insert(PotRecord("Stockpot", "15 L"))
        store.cupboard.insert(CupboardRecord("Chocolate malt", amount="500 g", price="4 / kg"))


def saved_on_its_clock(qtbot, window):
    """Save the recipe of a window, and return the clock that its brew day is driven by."""
    window.brew_clock = clock = DrivenClock()
    window.files.save()
    store_at_rest(qtbot, window)
    return clock


def look_at_pages(see, qtbot, window):
    page = window.compose
    see("compose", window)
    page.process.more_button.setChecked(True)
    for panel in (page.fermentables, page.hops, page.extras):
        panel.more_button.setChecked(True)
        panel.view.setCurrentIndex(panel.model.index(0, 1))
    page.wort_button.setChecked(True)
    page.forecast.rows[0].setChecked(True)
    see("compose_more", window)
    page.styles.open_card()
    see("compose_styles", window)
    page.styles.card.hide()
    for name in ("Fit", "Sheet", "Recipe box", "Kitchen"):
        window.show_page(window.page_names.index(name))
        store_at_rest(qtbot, window)
        qtbot.wait(300)
        see(name.lower().replace(" ", "_"), window)
    window.show_page(window.page_names.index("Recipe box"))
    box = window.box
    qtbot.waitUntil(lambda: bool(box.model.rows_read), timeout=10_000)
    box.table.selectRow(0)
    store_at_rest(qtbot, window)
    see("box_chosen", window)
    box.show_backups()
    store_at_rest(qtbot, window)
    see("box_backups", window)
    window.show_page(window.page_names.index("Kitchen"))
    kitchen = window.kitchen
    kitchen.show_packs()
    see("kitchen_packs", window)
    kitchen.show_learned()
    panel = kitchen.learned
    qtbot.waitUntil(lambda: panel.taught is not None and panel.rows.isEnabled(), timeout=30_000)
    qtbot.waitUntil(lambda: not (panel._jobs.busy or panel._forecasts.busy), timeout=30_000)
    qtbot.wait(100)
    see("kitchen_learned", window)
    window.begin()
    begin = window.begin_page
    qtbot.waitUntil(lambda: begin.own.found is not None, timeout=20_000)
    see("begin_own", window)
    for number, door in enumerate(begin.doors.buttons()):
        door.click()
        qtbot.wait(100)
        see(f"begin_{number}", window)


def look_at_dialogs(see, qtbot, window):
    window.show_page(0)
    tried = window.compose.what_if()
    qtbot.wait(200)
    see("what_if", tried)
    tried.close()
    form = ReadingForm(window.display, Questions())
    qtbot.addWidget(form)
    form.show()
    see("reading_form", form)
    form.close()
    for name, act in (
        ("preferences", window.show_preferences),
        ("about", window.show_about),
        ("report", window.report_problem),
        ("glossary", window.explaining.all_terms),
    ):
        act()
        qtbot.wait(50)
        for dialog in window.findChildren(QDialog):
            if dialog.isVisible():
                see(name, dialog)
                dialog.close()
    window.show_help()
    see("help", window)
    window.help.put_away()
    window.finding.anywhere()
    see("finding", window.finding.card)
    window.finding.card.put_away()


def look_at_a_brew(see, qtbot, window, clock):
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    qtbot.wait(100)
    see("brew_before", window)
    beer = Beer(qtbot, page, clock)
    page.do()
    qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)
    see("brew_first", window)
    while page.brew.brewing.now.left_min != 15.0:
        page.brew.done()
    qtbot.waitUntil(lambda: not page.brew.reckoning, timeout=20_000)
    see("brew_boil", window)
    page.ask_for_timer()
    see("new_clock", window)
    page.new_timer.put_away()
    page.show_part(Part.LOG)
    see("the_log", window)
    page.show_part(Part.READING)
    see("brew_reading", window)
    beer.pitch()
    for day in (4, 9, 12, 15):
        beer.on_day(day)
        beer.type_reading("1.013")
    page.take_focus()
    see("fermenting", window)
    area = beer.part.area
    for place in (0.5, 1.0):
        bar = area.verticalScrollBar()
        bar.setValue(int(place * bar.maximum()))
        see(f"packaging_{place}", window)
    window.setFocus(Qt.FocusReason.OtherFocusReason)


def look_at_rare_dialogs(see, qtbot, window):
    """Go to what few ask for: the guide, a bill that is pasted, paper and phone of a brew."""
    window.guide.open()
    see("guide", window.guide.reader)
    window.guide.close()
    bill = pasted_table("Hop\tAmount\nFuggle\t20\nno hop\tmuch\n", "")
    preview = PastePreview(bill, window.opened.recipe, window.display)
    qtbot.addWidget(preview)
    preview.show()
    see("pasted", preview)
    preview.close()
    window.show_page(window.page_names.index("Brew day"))
    window.paper_wanted.emit(0)
    see("paper", _dialog_of(qtbot, window))
    window.brew_page.from_phone_wanted.emit()
    see("from phone", _dialog_of(qtbot, window))
    window.brew_page.to_phone_wanted.emit()
    see("onto phone", _dialog_of(qtbot, window))


def _dialog_of(qtbot, window):
    qtbot.waitUntil(lambda: QApplication.activeModalWidget() is not None, timeout=10_000)
    dialog = QApplication.activeModalWidget()
    QTimer.singleShot(0, dialog.reject)
    return dialog
