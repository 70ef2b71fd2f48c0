"""A brewer begins: with a wish, with a kit, with the example."""

import pytest
from PySide6.QtCore import Qt

from .acts import type_over


@pytest.fixture
def doors(qtbot, window):
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(window, Qt.Key.Key_N, both)
    return window.begin_page


def test_a_wish_becomes_a_first_recipe(qtbot, window, doors):
    type_over(qtbot, doors.own.fields["original_gravity"], "1.045")
    type_over(qtbot, doors.own.fields["bitterness_ibu"], "28")
    type_over(qtbot, doors.own.fields["pot"], "2 gal")
    qtbot.mouseClick(doors.own.button, Qt.MouseButton.LeftButton)
    outlook = window.opened.newest_outlook()
    assert outlook.forecasts["original_gravity"].value == pytest.approx(1.045, abs=0.001)
    assert outlook.forecasts["bitterness_ibu"].value == pytest.approx(28, abs=1.5)
    assert window.opened.recipe.pot.volume.text == "2 gal"
    assert window.pages.currentWidget() is window.compose


def test_a_style_fills_in_its_middle(qtbot, window, doors):
    type_over(qtbot, doors.own.fields["style"], "English Porter")
    assert doors.own.fields["original_gravity"].text() == "1.046"
    qtbot.keyClick(
        doors.own.fields["colour_srm"], Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier
    )
    assert window.opened.recipe.style == "English Porter"


def test_nonsense_is_refused_on_the_card(qtbot, window, doors, porter):
    type_over(qtbot, doors.own.fields["pot"], "9 kg")
    qtbot.mouseClick(doors.own.button, Qt.MouseButton.LeftButton)
    assert doors.own.refusal.isVisible()
    assert doors.own.refusal.text().startswith("Pot:")
    assert window.opened.recipe == porter


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
    qtbot.mouseClick(doors.example.button, Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert window.opened.path is None


def test_return_in_the_list_of_styles_picks_and_begins_nothing(qtbot, window, doors, porter):
    field = doors.own.fields["style"]
    type_over(qtbot, field, "english p")
    popup = field.completer().popup()
    qtbot.waitUntil(popup.isVisible)
    qtbot.keyClick(popup, Qt.Key.Key_Down)
    qtbot.keyClick(popup, Qt.Key.Key_Return)
    assert field.text() == "English Porter"
    assert not popup.isVisible()
    assert window.pages.currentWidget() is doors
    assert window.opened.recipe == porter
    assert doors.own.fields["original_gravity"].text() == "1.046"
    assert field.hasFocus()


def test_return_goes_from_field_to_field_and_presses_the_button_at_the_end(qtbot, window, doors):
    field = doors.own.fields["pot"]
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Return)
    assert window.focusWidget() is doors.own.button
    assert window.pages.currentWidget() is doors
    qtbot.keyClick(doors.own.button, Qt.Key.Key_Return)
    assert window.pages.currentWidget() is window.compose
    assert window.opened.recipe.name == "My first recipe"


def test_a_refusal_on_a_card_moves_nothing_and_goes_when_it_is_mended(qtbot, window, doors):
    before = doors.own.button.mapTo(window, doors.own.button.rect().topLeft())
    field = doors.own.fields["pot"]
    type_over(qtbot, field, "9 kg")
    qtbot.mouseClick(doors.own.button, Qt.MouseButton.LeftButton)
    assert doors.own.refusal.isVisible()
    assert field.property("refused")
    assert doors.own.button.mapTo(window, doors.own.button.rect().topLeft()) == before
    type_over(qtbot, field, "9 L")
    assert not doors.own.refusal.isVisible()
    assert not field.property("refused")
