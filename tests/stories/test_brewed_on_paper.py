"""A brewer who brewed from the paper sheet types in what stands on it afterwards."""

from datetime import datetime

import pytest
from PySide6.QtCore import QDate, Qt, QTime

from designer.brewday.measured.readings import Measured
from designer.library.store import Store
from designer.window.brew.paper_form import PaperForm
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.brew.brewing import Status, brewing_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.entries_text import entries_of


@pytest.fixture
def window(on_a_box, porter):
    window = on_a_box(OpenRecipe(porter))
    yield window
    window.close()


@pytest.fixture
def form(qtbot, window):
    """The form of the open recipe, asked for where a brew day begins."""
    window.show_page(window.page_names.index("Brew day"))
    qtbot.mouseClick(window.brew_page.paper_button, Qt.MouseButton.LeftButton)
    [form] = window.findChildren(PaperForm)
    qtbot.waitUntil(lambda: form._outlook is not None, timeout=20_000)
    return form


def blank(form, what):
    return next(each for _, each in form.rows.blanks if each.blank.what is what)


def type_in(qtbot, form, what, text):
    field = blank(form, what).field
    field.setFocus()
    qtbot.keyClicks(field, text)
    qtbot.keyClick(field, Qt.Key.Key_Return)


def kept(folder, qtbot):
    """The one brew of the box with its log, and its recipe's version."""

    def there():
        with Store.open(folder) as store:
            return len(store.brews.all()) == 1 and store.brews.all()[0].version > 0

    qtbot.waitUntil(there, timeout=10_000)
    with Store.open(folder) as store:
        [brew] = store.brews.all()
        row = store.recipes.row(brew.recipe)
        return brew, entries_of(line.entry for line in store.brews.lines(brew.id)), row


def test_what_stands_on_the_paper_becomes_the_log_of_a_brew_with_times_by_guess(
    qtbot, window, form, folder
):
    form.day.setDate(QDate(2026, 3, 28))
    form.began.setTime(QTime(10, 0))
    form.pitched.setTime(QTime(15, 30))
    type_in(qtbot, form, Measured.ORIGINAL_GRAVITY, "1.046 at 24 C")
    type_in(qtbot, form, Measured.MIXED, "19 C")
    addition = next(each for each in form.steps if each.kind == "addition")
    form.rows.left_out[addition.key].setChecked(True)
    qtbot.keyClicks(form.yeast, "Ale yeast of the neighbour")
    qtbot.keyClicks(form.notes, "Rain all day")
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    assert form.isHidden()
    brew, entries, row = kept(folder, qtbot)
    assert all(each.by_guess for each in entries)
    day = brewing_of(window.opened.recipe, form.steps, entries)
    assert datetime.fromtimestamp(day.began.wall) == datetime(2026, 3, 28, 10, 0)
    assert datetime.fromtimestamp(day.finished.wall) == datetime(2026, 3, 28, 15, 30)
    assert (brew.is_under_way, row.last_brewed) == (False, "2026-03-28")
    gravity = day.reading_at(Measured.ORIGINAL_GRAVITY)
    assert gravity.typed == "1.046 at 24 C"
    assert gravity.reading.value == pytest.approx(1.0468, abs=4e-4), "read at 24 °C it is more"
    statuses = {each.step.key: each.status for each in day.states}
    assert statuses.pop(addition.key) is Status.LEFT_OUT
    assert set(statuses.values()) == {Status.DONE}
    assert [each.text for each in day.notes] == [
        "Yeast: Ale yeast of the neighbour",
        "Rain all day",
    ]
    walls = [each.at.wall for each in entries]
    assert walls == sorted(walls)


def test_with_nothing_typed_it_is_noted_that_it_was_brewed(qtbot, form, folder):
    assert "it is noted that it was brewed" in form.told.text()
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    brew, entries, row = kept(folder, qtbot)
    assert [each.what for each in entries] == [What.BEGAN, What.FINISHED]
    assert row.last_brewed == brew.started[:10] != ""


def test_a_slip_is_asked_about_as_at_the_stove_and_one_press_says_what_was_meant(
    qtbot, form, folder
):
    type_in(qtbot, form, Measured.ORIGINAL_GRAVITY, "1.460")
    asked = blank(form, Measured.ORIGINAL_GRAVITY)
    assert "far from" in asked.note.text() or "no gravity" in asked.note.text()
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    assert form.isVisible(), "it is not kept before that is answered"
    assert asked.field.hasFocus()
    asked.field.selectAll()
    qtbot.keyClicks(asked.field, "1.146")
    qtbot.keyClick(asked.field, Qt.Key.Key_Return)
    first = asked._ways.itemAt(0).widget()
    qtbot.mouseClick(first, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    _, entries, _ = kept(folder, qtbot)
    [reading] = [each for each in entries if each.what is What.READING]
    assert reading.values["reading"]["value"] == pytest.approx(1.046)


def test_what_cannot_be_read_is_said_beside_its_blank(qtbot, form):
    type_in(qtbot, form, Measured.MIXED, "lukewarm")
    asked = blank(form, Measured.MIXED)
    assert "lukewarm" in asked.note.text()
    assert asked.is_open


def test_what_is_typed_stays_in_the_form_when_it_is_closed(qtbot, window, form):
    type_in(qtbot, form, Measured.MIXED, "19 C")
    qtbot.keyClick(form, Qt.Key.Key_Escape)
    assert form.isHidden()
    qtbot.mouseClick(window.brew_page.paper_button, Qt.MouseButton.LeftButton)
    assert form.isVisible()
    assert blank(form, Measured.MIXED).typed == "19 C"


def test_a_brew_that_lasted_past_midnight_ends_on_the_next_day(qtbot, window, form, folder):
    form.day.setDate(QDate(2026, 3, 28))
    form.began.setTime(QTime(20, 0))
    form.pitched.setTime(QTime(1, 0))
    qtbot.mouseClick(form.keep_button, Qt.MouseButton.LeftButton)
    _, entries, _ = kept(folder, qtbot)
    assert datetime.fromtimestamp(entries[-1].at.wall) == datetime(2026, 3, 29, 1, 0)
