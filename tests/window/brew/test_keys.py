"""Single keys mean the step, but only while no field has the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication

from designer.window.brew.part_names import Part
from designer.workbench.brew.brewing import Status

from .test_measuring import BOILS

SINGLE = (Qt.Key.Key_Space, Qt.Key.Key_Backspace, Qt.Key.Key_T, Qt.Key.Key_N)


def now(page):
    return page.brew.brewing.now.key


@pytest.mark.parametrize("key", [Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter])
def test_space_and_return_begin_the_day_and_do_its_steps(qtbot, page, key):
    qtbot.keyClick(page.card, key)
    assert now(page) == "boil 1/fill"
    qtbot.keyClick(page.card, key)
    assert page.brew.brewing.state_of("boil 1/fill").status is Status.DONE


def test_backspace_goes_back_a_step_and_nothing_is_lost(qtbot, page, up_to):
    up_to(BOILS)
    before = now(page)
    qtbot.keyClick(page.card, Qt.Key.Key_Backspace)
    assert now(page) == "boil 1/heat again"
    qtbot.keyClick(page.card, Qt.Key.Key_Space)
    assert now(page) == before


def test_t_asks_for_a_timer_which_starts_with_return(qtbot, page):
    page.do()
    qtbot.keyClick(page.card, Qt.Key.Key_T)
    field = QApplication.focusWidget()
    assert field is page.new_timer.field
    qtbot.keyClicks(field, "8")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    (timer,) = page.brew.timers
    assert (timer.kind, timer.length_s) == ("free", 480.0)
    assert page.card.hasFocus()
    assert now(page) == "boil 1/fill", "Return was meant for the timer alone"


@pytest.mark.parametrize("key", [Qt.Key.Key_T, Qt.Key.Key_N])
def test_the_letters_of_timer_and_note_count_on_a_button_too(qtbot, page, key):
    page.do()
    page.card.later_button.setFocus()
    qtbot.keyClick(page.card.later_button, key)
    asked = page.new_timer if key == Qt.Key.Key_T else page.note
    assert asked.field.hasFocus()
    qtbot.keyClick(asked.field, Qt.Key.Key_Escape)
    focus = QApplication.focusWidget()
    assert focus is page.card or page.card.isAncestorOf(focus)


def test_the_blank_that_comes_next_does_not_look_as_if_it_had_the_keyboard(qtbot, page):
    page.do()
    blank = next(each.field for each in page.strip.cells.values() if each.is_next)
    page.card.setFocus()
    before = blank.grab().toImage()
    blank.setFocus(Qt.FocusReason.TabFocusReason)
    after = blank.grab().toImage()
    sides = [(x, 0) for x in range(8, blank.width() - 8)]
    assert sum(before.pixel(*at) != after.pixel(*at) for at in sides) > len(sides) / 4


def test_undo_in_a_blank_takes_the_last_step_back_while_nothing_is_typed_in_it(qtbot, page):
    undo = QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), page)
    undo.activated.connect(page.brew.undo)
    page.do()
    page.do()
    before = now(page)
    blank = next(iter(page.strip.cells.values())).field
    blank.setFocus()
    qtbot.keyClicks(blank, "6")
    qtbot.keyClick(blank, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert (blank.text(), now(page)) == ("", before), "what was typed goes first"
    qtbot.keyClick(blank, Qt.Key.Key_Escape)
    blank.setFocus()
    qtbot.keyClick(blank, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert now(page) == "boil 1/fill"


def test_a_timer_without_a_sensible_time_is_refused_beside_its_field(qtbot, page):
    page.do()
    qtbot.keyClick(page.card, Qt.Key.Key_T)
    qtbot.keyClicks(page.new_timer.field, "soon")
    qtbot.keyClick(page.new_timer.field, Qt.Key.Key_Return)
    assert page.brew.timers == ()
    assert page.new_timer.isVisible()
    assert page.new_timer.refusal.isVisible()
    qtbot.keyClick(page.new_timer.field, Qt.Key.Key_Escape)
    assert not page.new_timer.isVisible()
    assert page.card.hasFocus()


@pytest.mark.parametrize("field", ["blank", "note", "minutes", "reason"])
def test_single_keys_do_nothing_while_a_field_has_the_keyboard(qtbot, page, up_to, field):
    up_to(BOILS)
    if field == "blank":
        next(iter(page.strip.cells.values())).field.setFocus()
    elif field == "note":
        page.ask_for_note()
    elif field == "minutes":
        page.ask_for_timer()
    else:
        page.card.leave_button.click()
    has_focus = QApplication.focusWidget()
    log, shown = len(page.brew.brewing.entries), [p.isVisible() for p in page.panels]
    for key in SINGLE:
        qtbot.keyClick(has_focus, key)
        assert len(page.brew.brewing.entries) == log, key
        assert QApplication.focusWidget() is has_focus, key
        assert [p.isVisible() for p in page.panels] == shown, key


def test_a_button_that_tab_came_to_has_space_and_return_for_itself(qtbot, page, up_to):
    up_to(BOILS)
    page.card.later_button.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(page.card.later_button, Qt.Key.Key_Space)
    assert page.brew.brewing.state_of(BOILS).status is Status.LATER


def test_what_is_pressed_with_the_pointer_leaves_the_keyboard_to_the_step(qtbot, page, up_to):
    up_to(BOILS)
    qtbot.mouseClick(page.bar.button_of(Part.STOVE), Qt.MouseButton.LeftButton)
    qtbot.mouseClick(page.card.later_button, Qt.MouseButton.LeftButton)
    assert page.card.hasFocus()


def test_a_step_is_left_out_with_a_usual_reason_by_one_tap(qtbot, page, up_to):
    up_to("boil 1/extras 7")
    qtbot.mouseClick(page.card.leave_button, Qt.MouseButton.LeftButton)
    assert "finings" in page.leaving.title.text()
    qtbot.mouseClick(page.leaving.usual[0], Qt.MouseButton.LeftButton)
    state = page.brew.brewing.state_of("boil 1/extras 7")
    assert (state.status, state.reason) == (Status.LEFT_OUT, "None in the house")
    row = next(r for r in page.stove.steps._rows if r.key == "boil 1/extras 7")
    assert row.below == "left out: None in the house"


def test_a_reason_of_ones_own_is_typed(qtbot, page, up_to):
    up_to("boil 1/extras 7")
    page.card.leave_button.click()
    qtbot.keyClicks(page.leaving.field, "the cat ate it")
    qtbot.keyClick(page.leaving.field, Qt.Key.Key_Return)
    assert page.brew.brewing.state_of("boil 1/extras 7").reason == "the cat ate it"
    assert now(page) == "boil 1/flame-out"
