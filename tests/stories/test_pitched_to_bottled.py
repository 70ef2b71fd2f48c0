"""From pitched to bottled: readings over days, the choice of bottles, what is on the disk."""

import time

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.library.store import Store
from designer.window.brew.part_names import Part
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.brewing import brewing_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import entries_of
from tests.driven_clock import DrivenClock
from tests.window.brew.beer_driver import DAY_S, Beer

from .acts import press, store_at_rest
from .real_program import Program


@pytest.fixture
def clock():
    """Clocks that begin three weeks ago, so that the story ends before today is over."""
    return DrivenClock(wall=time.time() - 21.0 * DAY_S)


@pytest.fixture
def on_brew_day(on_a_box, clock):
    def open_one(recipe):
        window = on_a_box(OpenRecipe(recipe))
        window.brew_clock = clock
        window.show_page(window.page_names.index("Brew day"))
        return window

    return open_one


def on_disk(qtbot, window, folder):
    """The brew of the box as its log tells it."""
    qtbot.waitUntil(lambda: window.keeping.brews.settled, timeout=10_000)
    store_at_rest(qtbot, window)
    with Store.open(folder) as store:
        (brew,) = store.brews.all()
        return entries_of(line.entry for line in store.brews.lines(brew.id))


def after(window, entries):
    return brewing_of(window.brew_page.brew.recipe, window.brew_page.brew.steps, entries).after


def undo(window):
    modifier = Qt.KeyboardModifier.ControlModifier
    Beer.press(None, Qt.Key.Key_Z, modifier)


def test_the_porter_is_read_until_it_is_done_and_bottled_and_found_again_after_a_restart(
    qtbot, on_brew_day, clock, porter, folder
):
    window = on_brew_day(porter)
    beer = Beer(qtbot, window.brew_page, clock).pitch()
    window.brew_page.show_part(Part.STOVE)
    press(qtbot, window.brew_page.card.second_button)
    assert window.brew_page.parts.shown is Part.FERMENTING
    for day, text, sample in ((3, "1.027", "20"), (6, "1.017", "21 C"), (9, "1.014", "68 F")):
        beer.on_day(day)
        beer.type_reading(text, sample=sample)
    assert beer.part.standing.title.text() != "Done"
    assert not beer.amounts()
    samples = after(window, on_disk(qtbot, window, folder)).samples
    assert [each.sample.shown for each in samples] == [1.027, 1.017, 1.014]
    beer.type_reading("1.031")
    QApplication.focusWidget().window().activateWindow()
    undo(window)
    beer.settle()
    assert len(window.brew_page.brew.brewing.after.samples) == 3
    for day in (12, 15, 18):
        beer.on_day(day)
        beer.type_reading("1.013", sample="20")
    assert beer.part.standing.title.text() == "Done"
    assert beer.amounts()
    kept_volumes = beer.part.choices.packing.volumes
    beer.click(beer.packing.bottles.rows[0].fewer)
    beer.qtbot.waitUntil(lambda: bool(beer.written(What.PACKING)))
    volumes = beer.packing.sugar.volumes
    volumes.setFocus()
    volumes.selectAll()
    beer.keys("2.1")
    undo(window)  # what is being typed is the last step
    beer.settle()
    assert beer.part.choices.packing.volumes != 2.1
    assert volumes.text() == window.display.short(volumes._kind, kept_volumes)
    kept = after(window, on_disk(qtbot, window, folder)).packing
    assert kept.bottles == beer.part.choices.packing.bottles
    undo(window)
    beer.settle()
    assert after(window, on_disk(qtbot, window, folder)).packing is None
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible(), timeout=10_000)

    again = on_brew_day(porter)
    page = again.brew_page
    qtbot.waitUntil(lambda: bool(page.brew.in_fermenters()), timeout=10_000)
    assert page.bar.brews.isVisible(), "the beer is one choice away"
    page.show_part(Part.FERMENTING)
    (button,) = page.parts.of(Part.FERMENTING).nothing.buttons
    assert button.text() == "Show Harbour Lamp Porter, day 18"
    press(qtbot, button)
    qtbot.waitUntil(lambda: page.brew.brew is not None, timeout=10_000)
    beer = Beer(qtbot, page, clock)
    beer.settle()
    assert beer.part.standing.title.text() == "Done"
    result = beer.part.choices.result
    beer.click(beer.packing.bears.package_button)
    beer.settle()
    (entry,) = [e for e in on_disk(qtbot, again, folder) if e.what is What.PACKAGED]
    packing, _ = page.brew.brewing.after.packaged
    assert entry.values["grams"] == result.sugar(packing.sugar).grams
    assert beer.packing.done.isVisible()
    page.brew.leave()
    qtbot.waitUntil(lambda: page.brew.in_fermenters() == (), timeout=10_000)


def test_dates_and_labels_are_written_where_the_brewer_says(
    qtbot, on_brew_day, clock, porter, tmp_path, answers
):
    window = on_brew_day(porter)
    beer = Beer(qtbot, window.brew_page, clock).pitch()
    beer.on_day(9)
    beer.type_reading("1.014")
    calendar, labels = tmp_path / "porter.ics", tmp_path / "labels.pdf"
    answers.calendar_where = lambda parent, suggested: calendar
    answers.labels_where = lambda parent, suggested: labels
    beer.click(beer.part.standing.calendar_button)
    beer.packing.label.menu.actions()[1].trigger()
    qtbot.waitUntil(lambda: calendar.exists() and labels.exists(), timeout=10_000)
    text = calendar.read_text(encoding="utf-8")
    assert text.count("BEGIN:VEVENT") == len(beer.page.brew.beer.dates)
    assert " g " not in text, "no amount of sugar leaves the window before it is done"
    assert labels.read_bytes().startswith(b"%PDF")


@pytest.fixture
def program(tmp_path):
    started = []

    def start():
        started.append(Program(tmp_path))
        return started[-1].seen()

    yield start
    for each in started:
        with each:
            pass


def test_a_reading_outlives_a_window_that_is_killed_and_begin_leads_back_to_the_beer(program):
    first = program()
    first.do("window.files.open_example()")
    first.do("window.show_page(window.page_names.index('Brew day'))")
    first.do("page = window.brew_page; page.do()")
    first.until("page.brew.brewing is not None")
    first.do("while page.brew.brewing.now is not None: page.brew.done()")
    first.do("from designer.window.brew.part_names import Part")
    first.do("page.brew.finish(); page.show_part(Part.FERMENTING)")
    first.until("page.brew.beer is not None and page.parts.current.pages.currentIndex() == 1")
    first.do("page.parts.current.take_focus(); press('N')")
    first.do("QTest.keyClicks(focus(), '1.045'); press('Return')")
    first.until("len(page.brew.brewing.after.samples) == 1 and window.keeping.brews.settled")
    first.kill()
    second = program()
    second.until("name() == 'Harbour Lamp Porter'")
    second.do("window.begin()")
    second.until("window.begin_page.column.go_on is not None")
    seen = "window.begin_page.column.things[0].accessibleDescription()"
    second.until(f"'in the fermenter, day 0' in {seen}")
    second.do("window.begin_page.column.go_on.click()")
    second.until("window.brew_page is not None and window.brew_page.brew.beer is not None")
    assert second.ask("[e.sample.shown for e in window.brew_page.brew.brewing.after.samples]") == [
        1.045
    ]
    second.until("str(window.brew_page.parts.shown) == 'fermenting'")
    second.do("window.opened.undo_stack.setClean()")
    assert second.close() == ""
