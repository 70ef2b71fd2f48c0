"""What if: variants beside the recipe, by the keyboard alone and by the mouse alone."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QStyle, QStyleOptionSlider

from designer.brewday.day import brew
from designer.library.recipe_file import load
from designer.recipe.place import Place
from designer.units import ShownUnits
from designer.window.compose.what_if import WhatIf
from designer.window.parts.plain_text import as_read
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.knobs import change_to, figure_now, knobs, now_at, turned
from designer.workbench.style_watch import outlook_of
from tests.active_window import made_active
from tests.stories.acts import press, rename, type_over, wait_for_words
from tests.workbench.planned_red import two_boils

BOIL, BITTER = "process.boil_time", "bitterness_ibu"
CTRL_SHIFT = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier


def open_by_key(qtbot, window, place=BOIL):
    """Press the key while a field of the process has the keyboard."""
    field = made_active(qtbot, window).compose.process.by_place[place]
    field.setFocus()
    QTest.keyClick(
        field, Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    )
    return shown(qtbot, window)


def shown(qtbot, window):
    qtbot.waitUntil(lambda: window.findChild(WhatIf) is not None)
    return made_active(qtbot, window.findChild(WhatIf))


def gone(qtbot, window):
    qtbot.waitUntil(lambda: window.findChild(WhatIf) is None)


def value(tried, at, key="original_gravity"):
    return tried.columns[at].values[key].text()


def ibu(tried, at):
    return float(value(tried, at, BITTER).split()[0])


def test_by_the_keyboard_a_shorter_boil_is_tried_seen_at_once_and_kept_as_one_step(qtbot, window):
    before = window.opened.recipe
    tried = open_by_key(qtbot, window)
    assert tried.chosen.currentText() == "Boil for"
    assert QApplication.focusWidget() is tried.slider
    for _ in range(30):
        qtbot.keyClick(tried.slider, Qt.Key.Key_Left)
    assert tried.field.text() == "30 min"
    short = replace(before, process=tried.trials[0].recipe.process)
    for column, recipe in ((0, before), (1, short)):
        beer = brew(recipe).beer
        assert value(tried, column) == f"{float(beer.original_gravity):.3f}"
        assert value(tried, column, BITTER) == f"{float(beer.bitterness_ibu):.0f} IBU"
    assert value(tried, 1, BITTER) != value(tried, 0, BITTER)
    assert tried.columns[1].changed.text() == "Boil for: 30 min, not 60 min"
    assert (window.opened.recipe, window.opened.undo_stack.count()) == (before, 0)
    for _ in range(30):
        if QApplication.focusWidget() is tried.keep_buttons[0]:
            break
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    gone(qtbot, window)
    assert window.opened.recipe == short
    assert window.opened.undo_stack.count() == 1
    assert window.opened.undo_stack.undoText() == "what if: Boil for: 30 min, not 60 min"
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_by_the_mouse_a_slider_is_dragged_and_keeping_none_leaves_no_trace(qtbot, window):
    opened = window.opened
    rename(window, "Another")
    opened.undo_stack.undo()
    before = opened.recipe
    index = window.compose.hops.model.index(0, 0)
    menu = window.compose.hops.view.line_menu(index)
    next(each for each in menu.actions() if "What if…" in as_read(each.text())).trigger()
    tried = shown(qtbot, window)
    assert tried.chosen.currentText() == "Challenger, amount"
    drag(qtbot, tried.slider, 0.9)
    assert tried.trials[0].changes
    assert ibu(tried, 1) > ibu(tried, 0)
    press(qtbot, tried.variants.button(1))
    drag(qtbot, tried.slider, 0.1)
    assert len(tried.trials[1].changes) == 1
    none = next(
        b for b in tried.findChildren(type(tried.keep_buttons[0])) if b.text() == "Keep none"
    )
    press(qtbot, none)
    gone(qtbot, window)
    assert opened.recipe == before
    assert opened.undo_stack.canRedo()
    assert not opened.undo_stack.canUndo()


def drag(qtbot, slider, share):
    """Drag the handle of a slider to a share of its length."""
    option = QStyleOptionSlider()
    slider.initStyleOption(option)
    handle = slider.style().subControlRect(
        QStyle.ComplexControl.CC_Slider, option, QStyle.SubControl.SC_SliderHandle, slider
    )
    to = QPoint(round(share * slider.width()), handle.center().y())
    qtbot.mousePress(slider, Qt.MouseButton.LeftButton, pos=handle.center())
    qtbot.mouseMove(slider, to)
    qtbot.mouseRelease(slider, Qt.MouseButton.LeftButton, pos=to)


def test_escape_leaves_the_recipe_and_ranges_follow_the_values(qtbot, window):
    before = window.opened.recipe
    tried = open_by_key(qtbot, window)
    with qtbot.waitSignals([tried.trials[0].seen_changed] * 2, timeout=10_000):
        qtbot.keyClick(tried.slider, Qt.Key.Key_Home)
    whole = outlook_of(tried.trials[0].whole, ranges=window.opened.with_ranges)
    assert tried.trials[0].seen == whole
    assert tried.columns[1].ranges["original_gravity"].text()
    qtbot.keyClick(tried.slider, Qt.Key.Key_Escape)
    gone(qtbot, window)
    assert (window.opened.recipe, window.opened.undo_stack.count()) == (before, 0)
    boil = made_active(qtbot, window).compose.process.by_place[BOIL]
    assert QApplication.focusWidget() is boil


def test_what_is_typed_is_read_in_any_unit_and_refused_in_place(qtbot, window):
    tried = open_by_key(qtbot, window)
    type_over(qtbot, tried.field, "45 lb")
    assert tried.field.property("refused")
    qtbot.keyClick(tried.field, Qt.Key.Key_Tab)
    assert tried.trials[0].changes == {}
    assert tried.field.text() == "45 lb"
    press(qtbot, tried.variants.button(1))
    qtbot.keyClick(tried.slider, Qt.Key.Key_Home)
    type_over(qtbot, tried.field, "45 lb")
    qtbot.keyClick(tried.field, Qt.Key.Key_Tab)
    press(qtbot, tried.keep_buttons[1])
    assert tried.said.text() == "Not taken yet: “45 lb” (Boil for)."
    assert window.opened.undo_stack.count() == 0
    press(qtbot, tried.variants.button(0))
    type_over(qtbot, tried.field, "1/2 h")
    assert not tried.field.property("refused")
    assert tried.trials[0].recipe.process.boil_time.value == pytest.approx(30.0)
    assert tried.slider.value() == tried.knob.nearest(30.0)
    assert tried.columns[1].changed.text() == "Boil for: 1/2 h, not 60 min"
    press(qtbot, tried.restore)
    assert tried.trials[0].changes == {}
    assert tried.columns[1].changed.text() == "nothing yet"
    assert not tried.keep_buttons[0].isEnabled()


def test_from_the_details_of_a_line_it_is_the_field_there_that_is_turned(qtbot, window):
    panel = made_active(qtbot, window).compose.fermentables
    panel.view.setCurrentIndex(panel.model.index(0, 0))
    panel.more_button.setChecked(True)
    field = panel.details.by_name["fermentability"]
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_W, CTRL_SHIFT)
    tried = shown(qtbot, window)
    assert tried.chosen.currentText() == "Light liquid malt extract, real fermentability"


def test_in_pounds_the_slider_goes_in_steps_of_them(qtbot, window, settings):
    settings.units = ShownUnits.US
    tried = open_by_key(qtbot, window, "process.top_up_to")
    qtbot.keyClick(tried.slider, Qt.Key.Key_Right)
    assert tried.field.text().endswith(" gal")
    assert tried.trials[0].recipe.process.top_up_to.text.endswith(" gal")
    assert "°P" not in value(tried, 1)


def test_a_boil_of_a_plan_is_tried_for_the_whole_beer(qtbot, window):
    window.opened.replace_by(two_boils(), None)
    window.compose.worked_on.choose_boil(1)
    before = window.opened.recipe
    tried = open_by_key(qtbot, window)
    qtbot.keyClick(tried.slider, Qt.Key.Key_Home)
    whole = tried.trials[0].whole
    assert whole.boils[0].boil_time.value == 0.0
    assert whole.boils[1] == before.boils[1]
    assert tried.trials[0].seen.day == outlook_of(whole, ranges=False).day
    press(qtbot, tried.keep_buttons[0])
    gone(qtbot, window)
    assert window.opened.recipe == whole


def test_a_kept_variant_is_in_the_file_and_one_that_is_not_kept_is_not(
    qtbot, on_a_box, porter, answers, tmp_path
):
    answers.file = tmp_path / "porter.hobwort"
    window = on_a_box(OpenRecipe(porter))
    tried = open_by_key(qtbot, window)
    qtbot.keyClick(tried.slider, Qt.Key.Key_Home)
    qtbot.keyClick(tried.slider, Qt.Key.Key_Escape)
    gone(qtbot, window)
    window.files.save_as()
    wait_for_words(qtbot, window, f"Saved to {answers.file}.")
    assert load(answers.file) == porter
    tried = open_by_key(qtbot, window)
    qtbot.keyClick(tried.slider, Qt.Key.Key_Home)
    press(qtbot, tried.keep_buttons[0])
    gone(qtbot, window)
    with qtbot.waitSignal(window.opened.written, timeout=10_000):
        window.files.save()
    assert load(answers.file).process.boil_time.text == "0 min"


def test_every_knob_gives_at_every_end_what_the_recipe_can_hold(porter):
    opened = OpenRecipe(porter)
    for units in (ShownUnits.METRIC, ShownUnits.US):
        for knob in knobs(porter, units=units):
            for at in (0, knob.nearest(figure_now(porter, knob)), knob.steps):
                opened.outcome(change_to(porter, knob, turned(porter, knob, at), ""))
            assert now_at(porter, knob.place) is not None or knob.facts.default is not None
    locked = replace(porter, hops=tuple(replace(each, locked=True) for each in porter.hops))
    assert not [each for each in knobs(locked) if each.place.of == "hops"]
    assert Place("process", "boil_time") in [each.place for each in knobs(porter)]
    idle = frozenset({"process.boil_time"})
    assert Place("process", "boil_time") not in [each.place for each in knobs(porter, idle)]
