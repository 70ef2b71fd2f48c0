"""A brewer changes a recipe by keys and mouse, and sees the forecast follow."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit

from designer.brewday.day import brew
from designer.brewday.predictions import MAIN
from designer.brewday.results import Range
from designer.recipe.edits import ChangeLine, ChangePart
from designer.recipe.message import word
from designer.recipe.quantity import Kind
from designer.units import read
from designer.window.parts.beside_field import note_of
from designer.window.session.looking_ahead import Known
from tests.brewday.quantities import assert_no_half_gram_comes_nearer

from .acts import type_over


def settle(qtbot, window):
    """Wait until the forecast is that of the recipe as it now is."""
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)


def edit_cell(qtbot, window, view, row, key):
    view.setFocus()
    view.setCurrentIndex(view.model().index(row, view.model().column_of(key)))
    qtbot.keyClick(view, Qt.Key.Key_F2)
    editor = view.viewport().findChild(QLineEdit)
    assert editor is not None
    editor.selectAll()
    return editor


def row_named(window, key):
    return next(row for row in window.compose.forecast.rows if row.key == key)


def test_the_forecast_follows_each_key_and_escape_takes_it_all_back(qtbot, window, porter):
    view = window.compose.fermentables.view
    before = row_named(window, "original_gravity").sentence()
    editor = edit_cell(qtbot, window, view, 0, "amount")
    qtbot.keyClicks(editor, "3 kg")
    settle(qtbot, window)
    assert window.opened.recipe.fermentables[0].amount.value == 3.0
    assert row_named(window, "original_gravity").sentence() != before
    assert window.opened.undo_stack.count() == 1
    qtbot.keyClick(editor, Qt.Key.Key_Escape)
    settle(qtbot, window)
    assert window.opened.recipe == porter
    assert row_named(window, "original_gravity").sentence() == before


def test_a_row_says_where_the_beer_more_likely_lies(window):
    row = row_named(window, "bitterness_ibu")
    told = Range(20.0, 18.0, 40.0, (), 24.0, 28.0, 32.0)
    row.show_range(told)
    assert row.sentence() == "Bitterness 20 IBU, likely 18 IBU to 40 IBU, more likely higher"
    plain = row.grab().toImage()
    row.show_range(Range(20.0, 18.0, 40.0, (), 19.0, 28.0, 32.0))
    assert row.sentence() == "Bitterness 20 IBU, likely 18 IBU to 40 IBU"
    assert row.grab().toImage() != plain


def test_return_keeps_what_was_typed_as_one_undo_step(qtbot, window, porter):
    view = window.compose.fermentables.view
    editor = edit_cell(qtbot, window, view, 0, "amount")
    qtbot.keyClicks(editor, "3.3 lb")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: view.viewport().findChild(QLineEdit) is None)
    assert window.opened.recipe.fermentables[0].amount.text == "3.3 lb"
    assert window.opened.undo_stack.count() == 1
    assert window.header.undo.toolTip() == "Undo change fermentable amount"
    qtbot.mouseClick(window.header.undo, Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert not window.opened.unsaved


def test_nonsense_is_marked_while_typed_and_stays_to_be_mended(qtbot, window, porter):
    view = window.compose.hops.view
    editor = edit_cell(qtbot, window, view, 0, "amount")
    qtbot.keyClicks(editor, "20 litres")
    assert editor.property("refused")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    note = note_of(view)
    assert note.isVisible()
    assert note.text.text().startswith("Not taken: “20 litres”")
    assert editor.hasFocus()
    assert window.opened.recipe == porter
    qtbot.keyClicks(editor, "20 g")
    assert not note.isVisible()
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert window.opened.recipe.hops[0].amount.text == "20 g"


@pytest.mark.parametrize("leaving", [Qt.Key.Key_Return, Qt.Key.Key_Tab])
def test_of_a_unit_that_stayed_half_typed_nothing_counts(qtbot, window, porter, leaving):
    """30 L may become 30 lb while it is typed, and 30 g counts so long; once it is left, not."""
    view = window.compose.hops.view
    editor = edit_cell(qtbot, window, view, 0, "amount")
    qtbot.keyClicks(editor, "30 L")
    assert window.opened.recipe.hops[0].amount.value == 0.03
    qtbot.keyClick(editor, leaving)
    settle(qtbot, window)
    assert window.opened.recipe == porter
    assert window.opened.undo_stack.count() == 0


def test_typing_on_a_cell_replaces_it(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("alpha")))
    qtbot.keyClick(view, "8")
    editor = QApplication.focusWidget()
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.opened.recipe.hops[0].alpha.value == pytest.approx(0.08))
    assert window.opened.recipe.hops[0].alpha.text == "8 %"


def test_a_hop_is_added_moved_and_removed_by_keys_alone(qtbot, window, porter):
    view = window.compose.hops.view
    qtbot.keyClick(
        window,
        Qt.Key.Key_H,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    editor = view.viewport().findChild(QLineEdit)
    qtbot.keyClicks(editor, "15 g fuggle")
    editor.completer().popup().hide()
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(window.opened.recipe.hops) == 3)
    hop = window.opened.recipe.hops[2]
    assert (hop.name, hop.amount.text) == ("Fuggle", "15 g")
    view.setCurrentIndex(view.model().index(2, 0))
    qtbot.keyClick(view, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert window.opened.recipe.hops[1].name == "Fuggle"
    view.setCurrentIndex(view.model().index(1, 0))
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert window.opened.recipe == porter


def test_the_process_takes_any_unit_and_counts_at_once(qtbot, window):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "2.5 gal")
    settle(qtbot, window)
    day = window.opened.outlook.day
    assert day.fermenter.batch_l == pytest.approx(2.5 * 3.785411784)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert window.opened.recipe.process.top_up_to.text == "2.5 gal"
    assert window.opened.undo_stack.count() == 1


def test_arrow_keys_step_a_field(qtbot, window):
    field = window.compose.process.by_place["process.start_water"]
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Down)
    qtbot.keyClick(field, Qt.Key.Key_Down)
    assert window.opened.recipe.process.start_water.text == "5.8 L"
    assert window.opened.undo_stack.count() == 1


def test_a_field_left_empty_takes_its_default(qtbot, window):
    field = window.compose.process.by_place["process.evaporation"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Delete)
    assert window.opened.recipe.process.evaporation is None
    assert field.placeholderText() == "1.8 L/h"


def test_a_refused_field_keeps_what_was_typed_until_it_is_mended(qtbot, window, porter):
    field = window.compose.process.by_place["process.boil_time"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "60 litres")
    window.compose.fermentables.view.setFocus()
    assert field.text() == "60 litres"
    assert field.property("refused")
    assert window.opened.recipe == porter
    note = note_of(window)
    assert note.isVisible()
    assert "Escape brings 60 min back" in note.text.text()
    assert window.header.untaken.text() == "1 not taken"
    field.setFocus()
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert field.text() == "60 min"
    assert not field.property("refused")
    assert not note.isVisible()
    assert not window.header.untaken.isVisible()


def test_a_cure_is_one_click_and_one_undo(qtbot, window):
    window.opened.make(
        ChangePart("process", "start_water", read(Kind.VOLUME, "7 L"), word("fill it"))
    )
    settle(qtbot, window)
    too_full = window.opened.recipe
    card = window.compose.watch_out.cards[0]
    assert card.cure.text() == "Start with 6.4 L: that makes 31 IBU"
    qtbot.mouseClick(card.cure, Qt.MouseButton.LeftButton)
    settle(qtbot, window)
    assert window.opened.recipe.process.start_water.value == pytest.approx(6.4)
    codes = {each.code for each in window.opened.outlook.findings}
    assert "foam-room" not in codes
    window.opened.undo_stack.undo()
    assert window.opened.recipe == too_full


def test_pressing_a_number_tells_what_makes_it_doubtful(qtbot, window):
    qtbot.waitUntil(lambda: window.opened.outlook.forecasts["bitterness_ibu"].causes != ())
    row = row_named(window, "bitterness_ibu")
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.waitUntil(behind.isVisible)
    assert "bitterness model" in behind.causes.text()
    assert "Tinseth" in behind.causes.text()
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    assert not behind.isVisible()


def test_the_energy_of_the_beer_is_told_behind_its_alcohol_and_nowhere_else(qtbot, window):
    qtbot.waitUntil(lambda: window.opened.outlook.forecasts["abv_percent"].causes != ())
    keys = [row.key for row in window.compose.forecast.rows]
    assert keys == [each.key for each in MAIN]
    qtbot.mouseClick(row_named(window, "abv_percent"), Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.waitUntil(behind.isVisible)
    kcal, kj = (window.opened.outlook.forecasts[f"{unit}_per_100ml"] for unit in ("kcal", "kj"))
    told = behind.further.text()
    assert told.startswith(f"Energy in 100 mL: {kcal.value:.0f} kcal ({kj.value:.0f} kJ)")
    assert f"likely {kcal.low:.0f} to {kcal.high:.0f} kcal" in told
    assert "ASBC" in told
    qtbot.mouseClick(row_named(window, "bitterness_ibu"), Qt.MouseButton.LeftButton)
    assert not behind.further.isVisible()


def test_what_a_leaflet_states_is_typed_and_stands_behind_the_number(qtbot, window, porter):
    window.compose.process.more_button.click()
    fields = window.compose.process.by_place
    type_over(qtbot, fields["leaflet.original_gravity"], "1.100 to 1.105")
    qtbot.keyClick(fields["leaflet.original_gravity"], Qt.Key.Key_Return)
    settle(qtbot, window)
    qtbot.mouseClick(row_named(window, "original_gravity"), Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.waitUntil(behind.leaflet.isVisible)
    assert "stated 1.100 to 1.105; here 1.04" in behind.leaflet.text()
    assert "leaflet-differs" in {each.code for each in window.opened.outlook.findings}
    qtbot.mouseClick(row_named(window, "bitterness_ibu"), Qt.MouseButton.LeftButton)
    assert not behind.leaflet.isVisible()
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_a_number_is_made_what_the_brewer_wants(qtbot, window, porter):
    qtbot.mouseClick(row_named(window, "bitterness_ibu"), Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.waitUntil(behind.isVisible)
    qtbot.keyClicks(behind.wanted, "35")
    behind.by.setCurrentText("Challenger")
    qtbot.keyClick(behind.wanted, Qt.Key.Key_Return)
    settle(qtbot, window)
    assert_no_half_gram_comes_nearer(window.opened.recipe, 35.0)
    assert window.opened.recipe.hops[1] == porter.hops[1]
    after = window.opened.recipe.hops[0].amount.text
    assert behind.answer.text().startswith(f"Challenger from 18 g to {after} gives 35 IBU.")
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_what_cannot_be_reached_is_said_and_nothing_changes(qtbot, window, porter):
    qtbot.mouseClick(row_named(window, "original_gravity"), Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.waitUntil(behind.isVisible)
    behind.by.setCurrentText("Crystal malt 60 °L")
    qtbot.keyClicks(behind.wanted, "1.020")
    qtbot.mouseClick(behind.press, Qt.MouseButton.LeftButton)
    assert "cannot make it 1.020" in behind.answer.text()
    assert window.opened.recipe == porter


def test_other_methods_are_set_side_by_side(qtbot, window):
    from PySide6.QtWidgets import QLabel

    qtbot.mouseClick(row_named(window, "bitterness_ibu"), Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    texts = [label.text() for label in behind.methods.findChildren(QLabel)]
    for method in ("Tinseth (default)", "Rager", "Garetz"):
        assert any(method in text for text in texts)


def test_an_addition_is_dragged_along_the_boil(qtbot, window):
    line = window.compose.day_line
    marker = next(m for m in line._markers if m.names == "Light dry malt extract")
    y = int(line.scale.plot.bottom()) - 4
    start = QPoint(int(line.scale.x(marker.time_min)), y)
    goal = QPoint(int(line.scale.x(marker.time_min - 15.0)), y)
    qtbot.mousePress(line, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(line, goal)
    qtbot.mouseRelease(line, Qt.MouseButton.LeftButton, pos=goal)
    settle(qtbot, window)
    when = window.opened.recipe.fermentables[1].when
    assert when.minutes == pytest.approx(30.0, abs=1.0)
    assert window.opened.undo_stack.count() == 1


def test_an_addition_is_moved_by_keys(qtbot, window):
    line = window.compose.day_line
    line.setFocus()
    for _ in range(len(line._markers)):
        qtbot.keyClick(line, Qt.Key.Key_Right)
        if line._chosen_marker().names == "Carrageenan finings":
            break
    qtbot.keyClick(line, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    settle(qtbot, window)
    qtbot.keyClick(line, Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert window.opened.recipe.extras[0].when.text == "boil 7 min"


def test_the_name_is_changed_in_the_header(qtbot, window):
    field = window.header.name
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Night Watch Porter")
    assert window.opened.recipe.name == "Night Watch Porter"
    assert window.windowTitle().startswith("Night Watch Porter")
    assert window.isWindowModified()


def test_the_window_shows_what_the_day_says(window):
    day = brew(window.opened.recipe)
    text = row_named(window, "original_gravity").sentence()
    assert f"{day.beer.original_gravity:.3f}" in text
    described = window.compose.vessels.accessibleDescription()
    assert f"{day.pot.fullest_l:.1f} L" in described


def test_undo_in_a_field_takes_back_the_recipe_s_last_step(qtbot, window, porter):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9 L")
    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.recipe == porter
    assert field.text() == "10 L"
    qtbot.keyClick(field, Qt.Key.Key_Y, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.recipe.process.top_up_to.text == "9 L"


@pytest.mark.parametrize("shown_anew", ["1.5 kg", "2 kg"])
def test_what_is_chosen_to_be_typed_over_stays_chosen_when_its_cell_is_shown_anew(
    qtbot, window, porter, shown_anew
):
    view = window.compose.fermentables.view
    editor = edit_cell(qtbot, window, view, 0, "amount")
    line_id = porter.fermentables[0].line_id
    amount = read(Kind.MASS, shown_anew)
    window.opened.make(
        ChangeLine("fermentables", line_id, (("amount", amount),), word("change amount"))
    )
    cell = view.currentIndex()
    view.model().dataChanged.emit(cell, cell)  # as when what was left is shown, or a band comes
    assert editor.text() == shown_anew
    qtbot.keyClicks(editor, "1 1/2 lb")
    assert editor.text() == "1 1/2 lb"


def test_what_is_chosen_in_a_field_stays_chosen_when_it_is_shown_anew(qtbot, window):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "9 L")
    field.selectAll()
    window.opened.undo_stack.undo()
    qtbot.keyClicks(field, "8 L")
    assert field.text() == "8 L"


def test_a_command_in_a_choice_opens_no_list(qtbot, window):
    panel = window.compose.hops
    view = panel.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("name")))
    view.edit(view.currentIndex())
    qtbot.keyClick(view.viewport().findChild(QLineEdit), Qt.Key.Key_Tab)  # a list is not opened
    qtbot.waitUntil(lambda: isinstance(QApplication.focusWidget(), QComboBox))
    editor = QApplication.focusWidget()
    for modifier in (Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier):
        qtbot.keyClick(editor, Qt.Key.Key_Y, modifier)
        assert not editor.view().isVisible()
    qtbot.keyClick(editor, Qt.Key.Key_W)
    qtbot.waitUntil(lambda: editor.view().isVisible())


def test_each_line_says_how_sure_it_is_taken_to_be(qtbot, window):
    panel = window.compose.hops
    panel.view.setCurrentIndex(panel.view.model().index(0, 0))
    panel.more_button.setChecked(True)
    assert "alpha acid ± 10 % of it" in panel.details.sure.text()
    assert panel.details.sure.text().endswith("such as 7.2 % ± 0.3 %.")
    malts = window.compose.fermentables
    malts.view.setCurrentIndex(malts.view.model().index(0, 0))
    malts.more_button.setChecked(True)
    assert malts.details.sure.text().endswith("such as 500 g ± 2 g.")
    editor = edit_cell(qtbot, window, panel.view, 0, "alpha")
    qtbot.keyClicks(editor, "7.2 % ± 0.3 %")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "alpha acid ± 0.3 %" in panel.details.sure.text())


def test_the_ice_that_a_bath_takes_stands_above_the_day(qtbot, window):
    assert "ice" not in window.compose.day_line.summary()
    cold = read(Kind.TEMPERATURE, "20 °C")
    window.opened.make(ChangePart("process", "cool_to", cold, word("cool further")))
    settle(qtbot, window)
    ice_kg = float(window.opened.day.fermenter.bath_ice_kg)
    assert 1.0 < ice_kg <= 1.5
    assert window.compose.day_line.summary().startswith("1.5 kg of ice for the bath · starts 09:00")


@pytest.mark.parametrize(
    ("lines", "typed", "name", "found"),
    [
        ("fermentables", "0.91 kg", "Light dry malt extract", "dry extract"),
        ("fermentables", "8 oz", "Sunday's own barley", "steeping grain"),
        ("hops", "25 g", "Fuggle", None),
        ("extras", "5 g", "Irish moss (dried carrageen flakes)", None),
    ],
)
def test_an_amount_typed_alone_is_taken_and_its_name_is_typed_next(
    qtbot, window, porter, lines, typed, name, found
):
    panel = getattr(window.compose, lines)
    view, row = panel.view, len(getattr(porter, lines))
    view.add_line()
    qtbot.keyClicks(view.viewport().findChild(QLineEdit), typed)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    added = getattr(window.opened.recipe, lines)[row]
    assert (added.name, added.amount.text) == ("", typed)
    assert view.is_editing
    assert view.currentIndex() == panel.model.index(row, panel.model.column_of("name"))
    for sign in name:  # at once, as fast as a machine types
        qtbot.keyClicks(QApplication.focusWidget(), sign)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Return)
    named = getattr(window.opened.recipe, lines)[row]
    assert (named.name, named.amount.text) == (name, typed)
    assert found is None or named.kind == found
    if lines == "hops":
        assert named.alpha is not None
    window.opened.undo_stack.undo()
    assert getattr(window.opened.recipe, lines)[row] == added
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_a_line_left_without_a_name_keeps_its_amount_and_says_so(qtbot, window, porter):
    panel = window.compose.extras
    panel.view.add_line()
    qtbot.keyClicks(panel.view.viewport().findChild(QLineEdit), "5 g")
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    row = len(porter.extras)
    assert window.opened.recipe.extras[row].amount.text == "5 g"
    cell = panel.model.index(row, panel.model.column_of("name"))
    assert cell.data() == "unnamed extra"
    assert cell.data(Qt.ItemDataRole.EditRole) == ""
    panel.view.setCurrentIndex(cell)
    with qtbot.waitSignal(panel.model.removed) as removed:
        qtbot.keyClick(panel.view, Qt.Key.Key_Delete)
    assert removed.args == ["An extra removed."]
    assert window.opened.undo_stack.undoText() == "remove unnamed extra"
    assert window.opened.recipe == porter


@pytest.mark.parametrize("pasted", ["0.91 kg", " 0.91 kg\n"])
def test_an_amount_pasted_alone_is_taken_in_one_step_and_its_name_asked(
    qtbot, window, porter, pasted
):
    view, row = window.compose.fermentables.view, len(porter.fermentables)
    QApplication.clipboard().setText(pasted)
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    added = window.opened.recipe.fermentables[row]
    assert (added.name, added.amount.text) == ("", "0.91 kg")
    assert view.is_editing
    assert view.currentIndex() == view.model().index(row, view.model().column_of("name"))
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    assert window.opened.undo_stack.count() == 1
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_what_only_counts_is_a_name_where_it_stands_alone(qtbot, window, porter):
    window.compose.extras.model.add("2 lemons")
    assert window.opened.recipe.extras[-1].name == "2 lemons"
    window.compose.fermentables.model.add("1.5 kg light extract")
    line = window.opened.recipe.fermentables[-1]
    assert (line.name, line.amount.text) == ("light extract", "1.5 kg")
