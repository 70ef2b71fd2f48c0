"""A number a thousand times off for its field is asked about beside it, and never changed alone."""

import pytest
from PySide6.QtCore import QLocale, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from designer.recipe.document import Fermentable, Hop, Process
from designer.recipe.fields import facts_of
from designer.units import ShownUnits
from designer.window.parts.beside_field import note_of
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import otherwise
from tests.typed_texts import Preferences

from .acts import store_at_rest

_Key = Qt.Key


@pytest.fixture
def comma(monkeypatch):
    """A place that writes 1,5."""
    monkeypatch.setattr(QLocale, "decimalPoint", lambda self: ",")


@pytest.fixture
def german(comma, window):
    """The window there, in metric units."""
    window.settings.units = ShownUnits.US
    window.settings.units = ShownUnits.METRIC
    return window


def type_into(qtbot, view, row, column, text):
    """Type into a cell and keep it with Return, as a hand does."""
    view.setFocus()
    view.setCurrentIndex(view.model().index(row, column))
    for sign in text:
        QTest.keyClick(QApplication.focusWidget(), sign)
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Return)


def press(qtbot, note, words):
    button = next(each for each in note.buttons if words in each.text())
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def test_fifteen_hundred_kilograms_of_extract_are_asked_about_and_one_press_mends_it(qtbot, german):
    view, recipe = german.compose.fermentables.view, lambda: german.opened.recipe
    type_into(qtbot, view, 0, 0, "1.500 kg")
    assert recipe().fermentables[0].amount.value == 1500.0
    note = note_of(view)
    assert note.isVisible()
    assert note.text.text() == "Read as 1500 kg. Meant 1,5 kg?"
    press(qtbot, note, "Make it 1,5 kg")
    assert recipe().fermentables[0].amount.value == 1.5
    assert view.model().index(0, 0).data() == "1,500 kg"
    assert not note.isVisible()
    german.opened.undo_stack.undo()
    assert recipe().fermentables[0].amount.value == 1500.0


def test_the_other_reading_can_be_chosen_by_keyboard_alone(qtbot, german):
    view = german.compose.fermentables.view
    type_into(qtbot, view, 0, 0, "1.500 kg")
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Tab)
    assert QApplication.focusWidget() is note_of(view).buttons[0]
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Space)
    assert german.opened.recipe.fermentables[0].amount.value == 1.5
    assert view.hasFocus()


def test_what_was_meant_can_be_kept_and_the_question_goes(qtbot, german):
    view = german.compose.fermentables.view
    type_into(qtbot, view, 0, 0, "1.500 kg")
    press(qtbot, note_of(view), "Keep 1500 kg")
    assert german.opened.recipe.fermentables[0].amount.value == 1500.0
    assert not note_of(view).isVisible()


def test_undo_takes_the_question_away_with_the_number(qtbot, german):
    view = german.compose.fermentables.view
    type_into(qtbot, view, 0, 0, "1.500 kg")
    german.opened.undo_stack.undo()
    assert not note_of(view).isVisible()


def test_a_question_moves_nothing_on_the_page(qtbot, german):
    view = german.compose.hops.view
    before = view.mapToGlobal(QPoint(0, 0))
    type_into(qtbot, view, 0, 0, "20 kg")
    assert note_of(view).text.text() == "Read as 20 kg. Meant 20 g?"
    assert view.mapToGlobal(QPoint(0, 0)) == before
    press(qtbot, note_of(view), "Make it 20 g")
    assert german.opened.recipe.hops[0].amount.text == "20 g"


def test_a_new_line_with_an_absurd_amount_is_asked_about_too(qtbot, german):
    view = german.compose.fermentables.view
    last = view.model().rowCount() - 1
    type_into(qtbot, view, last, 1, "2.250 kg Dark rye syrup")
    line = german.opened.recipe.fermentables[-1]
    assert (line.name, line.amount.value) == ("Dark rye syrup", 2250.0)
    press(qtbot, note_of(view), "Make it 2,25 kg")
    assert german.opened.recipe.fermentables[-1].amount.value == 2.25


def test_a_form_asks_beside_its_field(qtbot, german):
    field = german.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9.500 L")
    qtbot.keyClick(field, _Key.Key_Return)
    assert german.opened.recipe.process.top_up_to.value == 9500.0
    note = note_of(field)
    assert note.isVisible()
    assert note.text.text() == "Read as 9500 L. Meant 9,5 L?"
    press(qtbot, note, "Make it 9,5 L")
    assert german.opened.recipe.process.top_up_to.value == 9.5
    assert field.text() == "9,500 L"
    german.opened.undo_stack.undo()
    assert german.opened.recipe.process.top_up_to.value == 9500.0
    assert not note.isVisible()


def test_a_form_asks_again_when_the_field_is_entered_until_it_is_answered(qtbot, german):
    field = german.compose.process.by_place["process.top_up_to"]
    other = german.compose.process.by_place["process.start_water"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9.500 L")
    qtbot.keyClick(field, _Key.Key_Tab)
    assert note_of(field).isVisible()
    note_of(field).put_away()
    other.setFocus()
    field.setFocus()
    assert note_of(field).isVisible()
    press(qtbot, note_of(field), "Keep 9500 L")
    other.setFocus()
    field.setFocus()
    assert not note_of(field).isVisible()


def test_a_question_after_another_has_room_for_its_words_and_buttons(qtbot, german):
    view = german.compose.fermentables.view
    type_into(qtbot, view, 0, 0, "1.500 kg")
    field = german.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9.500 L")
    qtbot.keyClick(field, _Key.Key_Return)
    note = note_of(field)
    QApplication.sendPostedEvents()
    for each in (note.text, *note.buttons):
        assert each.height() >= each.fontMetrics().height()
    assert all(each.geometry().bottom() < note.height() for each in note.buttons)


def test_a_pot_of_nine_thousand_litres_is_asked_about_where_ways_are_sought(qtbot, german):
    german.show_page(1)
    field = german.fit.fields["pot"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9.500")
    qtbot.keyClick(field, _Key.Key_Return)
    note = note_of(field)
    assert note.text.text() == "Read as 9500 L. Meant 9,5 L?"
    press(qtbot, note, "Make it 9,5 L")
    assert field.text() == "9,500 L"


def test_a_pot_written_down_in_the_kitchen_is_asked_about_too(qtbot, on_a_box, opened, comma):
    window = on_a_box(opened)
    window.settings.units = ShownUnits.US
    window.settings.units = ShownUnits.METRIC
    window.show_page(window.page_names.index("Kitchen"))
    store_at_rest(qtbot, window)
    view = window.kitchen.pots
    model, volume = view.model(), view.model().column_of("volume")
    model.setData(model.index(0, 0), "Jam kettle")
    store_at_rest(qtbot, window)
    type_into(qtbot, view, 0, volume, "9.500 L")
    store_at_rest(qtbot, window)
    press(qtbot, note_of(view), "Make it 9,5 L")
    store_at_rest(qtbot, window)
    assert model.rows[0].volume == "9.500 L"
    assert model.index(0, volume).data() == "9,500 L"
    type_into(qtbot, view, 0, volume, "11")
    store_at_rest(qtbot, window)
    assert model.rows[0].volume == "11 L"


def test_what_is_refused_offers_the_reading_that_would_be_taken(qtbot, german):
    view = german.compose.hops.view
    alpha = view.model().column_of("alpha")
    type_into(qtbot, view, 0, alpha, "7.250")
    note = note_of(view)
    assert "outside 0 % to 100 %" in note.text.text()
    press(qtbot, note, "Make it 7,2 %")
    assert german.opened.recipe.hops[0].alpha.value == pytest.approx(0.0725)
    assert german.opened.recipe.hops[0].alpha.text == "7.250 %"
    assert not view.model().not_taken


@pytest.mark.parametrize(
    ("of", "field", "comma", "text", "meant"),
    [
        (Fermentable, "amount", True, "1.500 kg", "1,5 kg"),
        (Fermentable, "amount", False, "1,500 kg", "1.5 kg"),
        (Fermentable, "amount", False, "1500 kg", "1.5 kg"),
        (Fermentable, "amount", False, "1.5 g", "1.5 kg"),
        (Fermentable, "amount", False, "3.3 lb", ""),
        (Fermentable, "amount", False, "25 kg", ""),
        (Hop, "amount", False, "20 kg", "20 g"),
        (Hop, "amount", False, "0.020 g", "20 g"),
        (Hop, "amount", False, "1 1/2 oz", ""),
        (Process, "start_water", True, "6.500 L", "6,5 L"),
        (Process, "start_water", False, "6500 L", "6.5 L"),
        (Process, "boil_time", True, "60.000 min", "60 min"),
        (Process, "altitude", True, "1,250 m", ""),
        (Process, "altitude", False, "1.250 m", ""),
        (Process, "frozen_top_up", False, "0 kg", ""),
        (Process, "steep_temperature", False, "68 °C", ""),
    ],
)
def test_only_what_is_unlikely_and_has_a_likely_other_reading_is_asked_about(
    of, field, comma, text, meant
):
    display = DisplayFormat(Preferences(ShownUnits.METRIC, comma=comma))
    other = otherwise(display, facts_of(of, field), text)
    assert (other.meant if other is not None else "") == meant


def test_fifteen_kilograms_are_absurd_for_a_small_pot(porter):
    display = DisplayFormat(Preferences(ShownUnits.METRIC, comma=False))
    facts, line = facts_of(Fermentable, "amount"), porter.fermentables[0]
    assert otherwise(display, facts, "15 kg", line) is None
    assert otherwise(display, facts, "15 kg", line, porter).meant == "15 g"
    assert otherwise(display, facts, "2 kg", line, porter) is None
