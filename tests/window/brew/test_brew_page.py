"""What the page shows from before the day to after it, and what leaves the brew for the recipe."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from designer.brewday.measured.readings import Measured
from designer.window.brew.part_names import Part
from designer.window.parts.beside_field import note_of
from designer.workbench.brew.brewing import Status

from .test_measuring import BOILS, cell_of, type_into


def test_before_the_day_the_first_step_is_shown_and_what_begins_it(page):
    assert page.card.done_button.text() == "Fill 6 L of water; start the day"
    assert page.card.second_button.text() == "I brewed it on paper…"
    assert not page.card.later_button.isVisible()
    assert not page.timer_button.isEnabled()
    clocks = [row.clock for row in page.stove.steps.model.rows]
    assert (clocks[0], clocks[-1]) == ("09:00", "11:44")


def test_the_list_shows_what_was_done_last_the_step_now_and_what_comes(page, up_to):
    up_to(BOILS)
    rows = page.stove.steps.model.rows
    assert [each.status for each in rows[:3]] == [Status.DONE, Status.NOW, Status.AHEAD]
    assert page.stove.steps.all_button.text() == "All 19"
    page.stove.steps.all_button.click()
    assert len(page.stove.steps.model.rows) == 19
    heights = {page.stove.steps.place_of(each.key).height() for each in rows}
    assert min(heights) >= 44


def test_a_step_in_the_list_is_told_whole_and_can_be_gone_to(qtbot, page, up_to):
    up_to(BOILS)
    page._tell_step("boil 1/hops 5")
    note = note_of(page)
    assert "The first hops foam" in note.text.text()
    (go,) = note.buttons
    qtbot.mouseClick(go, Qt.MouseButton.LeftButton)
    assert page.brew.brewing.now.key == "boil 1/hops 5"
    assert page.card.hasFocus()


def test_a_proposal_says_why_and_what_it_changes_and_is_taken_by_one_press(
    qtbot, page, up_to, settle
):
    up_to(BOILS)
    assert page.measuring.proposal.proposal is None
    empty = page.measuring.proposal.geometry()
    page.do()
    type_into(qtbot, cell_of(page, Measured.BOIL_START_VOLUME), "7.1")
    type_into(qtbot, cell_of(page, Measured.BOIL_START_GRAVITY), "1.059")
    assert not page.measuring.doubt.isVisible()
    settle()
    qtbot.waitUntil(lambda: page.measuring.proposal.proposal is not None)
    card = page.measuring.proposal
    assert card.geometry() == empty, "nothing moves for it"
    assert card.is_whole()
    assert "OG" in card.figures.text()
    assert "→" in card.figures.text()
    before = page._opened.recipe
    qtbot.mouseClick(card.use_button, Qt.MouseButton.LeftButton)
    assert len(page.brew.brewing.accepted) == 1
    assert page._opened.recipe == before, "the recipe is not touched"


def test_when_the_yeast_is_in_the_card_tells_what_is_left_to_do(page, up_to, settle):
    up_to("fermenter 1/close")
    page.do()
    assert page.card.done_button.text() == "Finish the day"
    page.do()
    settle()
    assert page.brew.brewing.finished is not None
    assert page.parts.shown is Part.FERMENTING, "nothing was odd"
    page.show_part(Part.STOVE)
    assert "16 to 21 °C" in page.card.sentence.text()
    assert page.card.is_whole()
    page.do()
    assert page.brew.brew is None
    assert "start the day" in page.card.done_button.text()


def test_what_the_brew_made_of_it_is_kept_in_the_recipe_as_one_step(page, up_to, settle, opened):
    up_to("boil 1/extras 7")
    page.brew.leave_out(reason="none in the house")
    settle()
    before = opened.recipe
    page.keep_in_recipe()
    assert len(opened.recipe.extras) == len(before.extras) - 1
    assert opened.undo_stack.count() == 1
    opened.undo_stack.undo()
    assert opened.recipe == before


@pytest.mark.parametrize("size", [(1280, 736), (1024, 600), (760, 520)], ids=str)
def test_every_target_is_large_enough_for_a_wet_thumb(qtbot, page, up_to, size):
    up_to(BOILS)
    page.resize(*size)
    qtbot.waitUntil(lambda: page.size().toTuple() == size)
    targets = [each for each in page.card.buttons if each.isVisible()]
    targets += [page.full_button, page.timer_button, page.contrast_button, page.strip.more_button]
    targets += [cell.field for cell in page.strip.cells.values()]
    assert all(min(each.width(), each.height()) >= 44 for each in targets)


def test_where_the_line_is_short_how_late_it_is_stays_and_since_when_goes(qtbot, page):
    state = page.bar.state
    whole = "since 13:49 · step 9 of 19 · 2 min behind"
    state.setText(whole)
    advance = state.fontMetrics().horizontalAdvance
    seen = {}
    for parts in (whole, "step 9 of 19 · 2 min behind", "2 min behind"):
        state.resize(advance(parts) + 1, 20)
        seen[parts] = state.shown_text()
    assert all(shown == parts for parts, shown in seen.items())
    state.resize(advance("n behind") + 1, 20)
    assert state.shown_text().startswith("…")


def test_that_the_screen_may_go_dark_is_told_above_how_far_it_is_where_room_is_short(qtbot, page):
    bar = page.bar
    bar.state.setText("since 13:49 · step 9 of 19 · 2 min behind")
    bar.may_go_dark.setText("screen may go dark")
    bar.may_go_dark.show()
    screen, state = bar.may_go_dark, bar.state
    for width, beside in ((1024, False), (1700, True)):
        page.window().resize(width, 768)
        qtbot.waitUntil(lambda width=width: page.width() == width)
        qtbot.waitUntil(lambda beside=beside: (screen.geometry().right() < state.x()) is beside)
        assert screen.shown_text() == "screen may go dark"
        assert state.shown_text().endswith("2 min behind")


@pytest.mark.parametrize("width", [1280, 1000, 800])
def test_the_line_above_the_parts_cuts_no_word_whatever_its_buttons_come_to_say(qtbot, page, width):
    page.resize(width, 700)
    qtbot.waitUntil(lambda: page.width() == width)
    page.sound_button.setText("No sound here at all")
    page.bar.may_go_dark.show()

    def whole():
        seen = [each for each in page.bar.findChildren(QPushButton) if each.isVisible()]
        return all(each.width() >= each.minimumSizeHint().width() for each in seen)

    qtbot.waitUntil(whole)
    assert page.bar.choice.isVisible() or page.bar.button_of(Part.FERMENTING).isVisible()
    if page.bar.choice.isVisible():
        number = page.bar.choice.findData(str(Part.FERMENTING))
        page.bar.choice.setCurrentIndex(number)
        page.bar.choice.activated.emit(number)
        assert page.parts.shown is Part.FERMENTING
