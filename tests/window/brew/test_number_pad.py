"""Figures to tap, wherever a reading is typed: only for fingers, and gone with the keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget

from designer.recipe.quantity import Kind
from designer.window.brew.fermenting.figure_field import FigureField
from designer.window.brew.fermenting.reading_form import ReadingForm
from designer.window.brew.reading.sample_form import SampleForm
from tests.active_window import made_active
from tests.stories.by_finger import touch_screen


@pytest.fixture
def window(qtbot, display):
    """A window with a form for a sample, one for a reading of the beer, and a figure."""
    made = QWidget()
    qtbot.addWidget(made)
    made.sample, made.reading = SampleForm(display), ReadingForm(display)
    made.taken = []
    figure = made.figure = FigureField(
        display, Kind.VOLUME, "Beer", (1.0, 50.0), made.taken.append, lambda: None, lambda: None
    )
    layout = QVBoxLayout(made)
    for each in (figure, made.sample, made.reading):
        layout.addWidget(each)
    made.resize(900, 900)
    made_active(qtbot, made)
    return made


def tap(window, widget):
    place = widget.mapTo(window, widget.rect().center())
    QTest.touchEvent(window, touch_screen()).press(0, place, window).commit()
    QTest.touchEvent(window, touch_screen()).release(0, place, window).commit()


def test_a_touched_field_has_figures_beside_it_that_type_as_keys_do(qtbot, window):
    field, at_hand = window.sample.reading, window.sample.at_hand
    with qtbot.waitSignal(window.sample.typing):
        tap(window, field)
        assert at_hand.pad.isVisible()
        assert not at_hand.pad.geometry().intersects(
            field.rect().translated(field.mapTo(window, field.rect().topLeft()))
        )
        for sign in "1.04":
            tap(window, at_hand.pad.buttons[sign])
    tap(window, at_hand.pad.buttons["9"])
    tap(window, at_hand.pad.back_button)
    assert field.text() == "1.04"
    assert field.hasFocus()
    tap(window, window.reading.value)
    assert not at_hand.pad.isVisible(), "the figures go where the keyboard goes"
    assert window.reading.at_hand.pad.isVisible()


def test_a_figure_of_packaging_is_taken_with_each_tap_in_place_of_what_stood_there(qtbot, window):
    figure = window.figure
    figure.show_value(9.5)
    tap(window, figure)
    qtbot.waitUntil(figure.hasSelectedText)
    for sign in "12":
        tap(window, figure.at_hand.pad.buttons[sign])
    assert window.taken == [1.0, 12.0]


def test_a_pointer_and_a_keyboard_are_offered_none(qtbot, window):
    qtbot.mouseClick(window.sample.reading, Qt.MouseButton.LeftButton)
    qtbot.keyClicks(window.sample.reading, "1.046")
    assert window.sample.at_hand.pad is None
