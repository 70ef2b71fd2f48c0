"""What is typed into the strip becomes a reading; what cannot be is refused or asked about."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.brewday.measured.readings import Measured
from designer.units import ShownUnits
from designer.workbench.brew.entries import What

BOILS = "boil 1/boils"


def cell_of(page, what):
    return next(cell for cell in page.strip.cells.values() if cell.cell.blank.what is what)


def type_into(qtbot, cell, text):
    cell.field.setFocus()
    cell.field.selectAll()
    qtbot.keyClicks(cell.field, text)
    qtbot.keyClick(cell.field, Qt.Key.Key_Return)


def readings(page):
    return {each.reading.what: each for each in page.brew.brewing.readings}


def test_there_is_a_column_for_each_blank_of_the_steps_in_their_order(page):
    page.do()
    labels = [cell.cell.label for cell in page.strip.cells.values()]
    wanted = [blank.label for step in page.brew.steps for blank in step.blanks]
    assert labels == wanted
    assert labels[:3] == ["Water in", "Before the grain", "Steep"]


def test_before_the_day_begins_the_plan_is_shown_and_nothing_can_be_typed(page):
    cell = cell_of(page, Measured.WATER_IN)
    assert (cell.plan.text(), cell.now.text()) == ("6 L", "6 L")
    assert not cell.field.isEnabled()


def test_a_reading_is_taken_by_return_which_gives_the_keyboard_back_to_the_step(
    qtbot, page, up_to, settle
):
    up_to(BOILS)
    type_into(qtbot, cell_of(page, Measured.BOIL_START_VOLUME), "6.8")
    assert page.card.hasFocus()
    settle()
    kept = readings(page)[Measured.BOIL_START_VOLUME]
    assert kept.reading.value == pytest.approx(6.8)
    cell = cell_of(page, Measured.BOIL_START_VOLUME)
    assert cell.field.text() == "6.8 L"
    assert cell.now.text() == "+0.1 L"


def test_units_stay_as_they_were_typed_and_the_difference_is_told_in_the_shown_ones(
    qtbot, page, up_to
):
    up_to(BOILS)
    type_into(qtbot, cell_of(page, Measured.WATER_IN), "211 fl oz")
    cell = cell_of(page, Measured.WATER_IN)
    assert cell.field.text() == "211 fl oz"
    assert cell.now.text() == "+0.2 L"


def test_what_follows_is_shown_bold_and_green_where_it_is_another_figure_now(
    qtbot, page, up_to, settle
):
    up_to(BOILS)
    ends = cell_of(page, Measured.BOIL_END_GRAVITY)
    assert (ends.now.text(), ends.changed.text()) == ("1.086", "")
    type_into(qtbot, cell_of(page, Measured.BOIL_START_GRAVITY), "1.058")
    settle()
    qtbot.waitUntil(lambda: ends.changed.text() != "")
    assert ends.changed.text() > "1.086"
    assert ends.plan.text() == "1.086"
    assert ends.now.text() == ""


def test_a_refused_text_marks_its_field_stays_and_says_what_would_do(qtbot, page, up_to):
    up_to(BOILS)
    cell = cell_of(page, Measured.BOIL_START_VOLUME)
    type_into(qtbot, cell, "six")
    assert cell.field.hasFocus()
    assert cell.field.property("refused")
    assert cell.field.text() == "six"
    assert cell.refusal.isVisible()
    assert "L" in cell.refusal.text()
    assert Measured.BOIL_START_VOLUME not in readings(page)
    qtbot.keyClick(cell.field, Qt.Key.Key_Escape)
    assert (cell.field.text(), cell.field.property("refused")) == ("", False)
    assert page.card.hasFocus()


def test_an_impossible_reading_is_asked_about_at_once_and_the_slip_is_one_press(qtbot, page, up_to):
    up_to(BOILS)
    cell = cell_of(page, Measured.WATER_IN)
    type_into(qtbot, cell, "60")
    panel = page.measuring.doubt
    assert panel.isVisible()
    assert "60 L is more than the pot holds" in panel.text.text().replace("\xa0", " ")
    assert not page.brew.brewing.readings
    assert QApplication.activeModalWidget() is None
    assert panel.buttons[0].hasFocus()
    assert "6 L" in panel.buttons[0].text()
    panel.buttons[0].click()
    assert not panel.isVisible()
    assert readings(page)[Measured.WATER_IN].reading.value == pytest.approx(6.0)
    assert page.card.hasFocus()


def test_a_doubt_is_told_in_the_shown_units(qtbot, page, display, up_to):
    display.settings.units = ShownUnits.US
    up_to(BOILS)
    type_into(qtbot, cell_of(page, Measured.STEEP), "300 °F")
    panel = page.measuring.doubt
    assert "300 °F is hotter than it boils, at 213 °F" in panel.text.text().replace("\xa0", " ")
    assert "°C" not in panel.text.text()


@pytest.mark.parametrize("answer", ["anyway", "again"])
def test_a_doubted_reading_can_stay_or_be_typed_again(qtbot, page, up_to, answer):
    up_to(BOILS)
    cell = cell_of(page, Measured.WATER_IN)
    type_into(qtbot, cell, "60")
    anyway, again = page.measuring.doubt.buttons[-2:]
    (anyway if answer == "anyway" else again).click()
    assert not page.measuring.doubt.isVisible()
    if answer == "anyway":
        assert readings(page)[Measured.WATER_IN].reading.value == pytest.approx(60.0)
        assert page.card.hasFocus()
    else:
        assert page.brew.brewing.readings == ()
        assert cell.field.hasFocus()
        assert cell.field.selectedText() == "60"


def test_figures_typed_at_the_step_go_into_the_blank_that_comes_next(qtbot, page, up_to):
    up_to(BOILS)
    page.take_focus()
    qtbot.keyClicks(page.card, "6")
    field = cell_of(page, Measured.BOIL_START_VOLUME).field
    assert field.hasFocus()
    qtbot.keyClicks(field, ".7")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert readings(page)[Measured.BOIL_START_VOLUME].typed == "6.7 L"


def test_the_strip_scrolls_by_itself_to_the_blank_that_comes_next(qtbot, page, up_to):
    page.resize(1024, 600)
    up_to("boil 1/flame-out")
    cell = cell_of(page, Measured.BOIL_END_VOLUME)
    assert cell.is_next
    area = page.strip.area
    qtbot.waitUntil(lambda: area.horizontalScrollBar().value() > 0)
    seen = cell.mapTo(area.viewport(), cell.rect().topLeft()).x()
    assert 0 <= seen <= area.viewport().width() - cell.width()


def test_done_takes_what_is_typed_in_the_blank_first(qtbot, page, up_to, kept):
    up_to(BOILS)
    cell = cell_of(page, Measured.BOIL_START_VOLUME)
    cell.field.setFocus()
    qtbot.keyClicks(cell.field, "6.6")
    qtbot.mouseClick(page.card.done_button, Qt.MouseButton.LeftButton)
    told = [each.what for each in kept.entries()][-3:]
    assert told == [What.READING, What.DONE, What.TIMER]
    assert page.card.hasFocus()


@pytest.mark.parametrize("text", ["six", "60"])
def test_done_waits_where_what_is_typed_is_refused_or_asked_about(qtbot, page, up_to, text):
    up_to(BOILS)
    cell = cell_of(page, Measured.BOIL_START_VOLUME)
    cell.field.setFocus()
    qtbot.keyClicks(cell.field, text)
    qtbot.mouseClick(page.card.done_button, Qt.MouseButton.LeftButton)
    assert page.brew.brewing.now.key == BOILS
    assert cell.field.text() == text


def test_what_no_step_asks_for_is_measured_too_and_has_a_column_then(qtbot, page, up_to, settle):
    up_to("boil 1/hops 5")
    qtbot.mouseClick(page.strip.more_button, Qt.MouseButton.LeftButton)
    menu = page.measuring.more
    offered = {action.text(): action for action in menu.actions()}
    assert next(iter(offered)) == "Weighed, C: 18 g Challenger, pellets"
    assert "In the boil: It boils: start the timer" in offered
    offered["Alpha acid, C: 18 g Challenger, pellets"].trigger()
    menu.close()
    cell = cell_of(page, Measured.ALPHA)
    assert cell.field.hasFocus()
    assert (cell.label.text(), cell.plan.text()) == ("Alpha acid, C", "7.2 %")
    qtbot.keyClicks(cell.field, "8.1")
    qtbot.keyClick(cell.field, Qt.Key.Key_Return)
    settle()
    kept = readings(page)[Measured.ALPHA].reading
    assert (kept.lines, kept.line_id, kept.value) == ("hops", 5, pytest.approx(0.081))
    assert cell_of(page, Measured.ALPHA).now.text() == "+0.9 %"
    qtbot.waitUntil(lambda: page.forecasts.told[3].was != "")


def test_once_all_is_read_the_last_blanks_stay_in_sight(qtbot, page, up_to, settle):
    up_to("fermenter 1/pitch")
    for step in page.brew.brewing.steps:
        for blank in step.blanks:
            assert page.brew.measure(blank, page._display.value(blank.kind, blank.value))
    settle()
    last = list(page.strip.cells.values())[-1]
    page.resize(1024, 600)
    page.resize(1100, 640)
    qtbot.waitUntil(lambda: page.width() == 1100)
    area = page.strip.area.viewport()

    def is_seen():
        return area.rect().contains(last.mapTo(area, last.rect().center()))

    qtbot.waitUntil(is_seen)
