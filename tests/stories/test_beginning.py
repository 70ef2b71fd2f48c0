"""A brewer begins: with a kit, with the example."""

import pytest
from PySide6.QtCore import Qt

from .acts import type_over


@pytest.fixture
def doors(qtbot, window):
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(window, Qt.Key.Key_N, both)
    return window.begin_page


def test_a_kit_is_locked(qtbot, window, doors):
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    type_over(qtbot, doors.kit.fields["name"], "Quay Bitter")
    qtbot.mouseClick(doors.kit.button, Qt.MouseButton.LeftButton)
    recipe = window.opened.recipe
    assert recipe.name == "Quay Bitter"
    assert all(line.locked for line in recipe.fermentables)
    codes = {each.code for each in window.opened.newest_outlook().findings}
    assert "fermenter-overflows" in codes


def test_the_example_is_one_press_away(qtbot, window, doors, porter):
    window.opened.replace_by(type(porter)(), None)
    qtbot.mouseClick(doors.doors.button(2), Qt.MouseButton.LeftButton)
    qtbot.mouseClick(doors.example.examples["harbour_lamp_porter"], Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert window.opened.path is None


def test_return_goes_from_field_to_field_and_presses_the_button_at_the_end(qtbot, window, doors):
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    field = doors.kit.fields["pot"]
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Return)
    assert window.focusWidget() is doors.kit.button
    assert window.pages.currentWidget() is doors
    qtbot.keyClick(doors.kit.button, Qt.Key.Key_Return)
    assert window.pages.currentWidget() is window.compose
    assert window.opened.recipe.name == "My kit"


def test_a_refusal_on_a_card_moves_nothing_and_goes_when_it_is_mended(qtbot, window, doors):
    qtbot.keyClick(window, Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    before = doors.kit.button.mapTo(window, doors.kit.button.rect().topLeft())
    field = doors.kit.fields["pot"]
    type_over(qtbot, field, "9 kg")
    qtbot.mouseClick(doors.kit.button, Qt.MouseButton.LeftButton)
    assert doors.kit.refusal.isVisible()
    assert field.property("refused")
    assert doors.kit.button.mapTo(window, doors.kit.button.rect().topLeft()) == before
    type_over(qtbot, field, "9 L")
    assert not doors.kit.refusal.isVisible()
    assert not field.property("refused")
