"""Every field that a recipe has can be typed somewhere: the declarations are walked, not a list."""

from dataclasses import fields, replace

import pytest
from PySide6.QtCore import Qt

from designer.library.recipe_file import load
from designer.recipe.document import (
    LINE_TYPES,
    PART_TYPES,
    PLAN_TYPES,
    PlannedBoil,
    PlannedFermenter,
    Recipe,
)
from designer.recipe.place import read_place
from designer.recipe.plan_edits import OF_A_BOIL, OF_A_FERMENTER
from designer.recipe.quantity import Quantity
from designer.resource_files import resource_path

from .acts import type_over


@pytest.fixture
def form(window):
    """The form of the process, all its fields shown."""
    window.compose.process.more_button.click()
    return window.compose.process


PLACES = [f"{part}.{each.name}" for part, of in PART_TYPES.items() for each in fields(of)]


def test_every_field_that_is_no_line_has_its_place_in_the_form(form):
    for place in (*PLACES, "notes"):
        field = form.by_place[place]
        assert field.isVisible(), place
        assert field.isEnabled(), place
        assert field.accessibleName(), place
        assert form.go_to(read_place(place)), place
        assert field.hasFocus(), place


def test_the_form_has_no_field_that_a_recipe_has_not(form):
    assert set(form.by_place) == {*PLACES, "notes"}
    others = {each.name for each in fields(Recipe)} - {*PART_TYPES, *LINE_TYPES, "notes"}
    assert others - {*PLAN_TYPES} == {"name", "style"}  # these two stand in the header


def test_what_a_boil_or_fermenter_of_a_plan_has_for_itself_is_in_the_form_and_the_lines():
    """Shares, turns and what goes where are the way itself: Fit makes another one."""
    of_boil = {each.name for each in fields(PlannedBoil)}
    assert of_boil == {"share", "turn", "pot", *OF_A_BOIL, *LINE_TYPES}
    of_fermenter = {each.name for each in fields(PlannedFermenter)}
    assert of_fermenter == {"wort_from", "fermenter", "yeast", *OF_A_FERMENTER}
    assert {f"process.{each}" for each in (*OF_A_BOIL, *OF_A_FERMENTER)} <= {*PLACES}


@pytest.mark.parametrize("lines", list(LINE_TYPES))
def test_every_field_of_a_line_is_a_column_or_stands_in_its_details(window, lines):
    panel = window.compose._panels()[lines]
    panel.more_button.click()
    columns = {column.key for column in panel.model.spec.columns}
    declared = {each.name for each in fields(LINE_TYPES[lines])} - {"line_id"}
    details = set(panel.details.by_name)
    assert declared == columns - {"gives"} | details
    assert not columns & details
    for name in details:
        assert panel.details.by_name[name].isVisibleTo(panel)


def test_what_a_way_costs_is_told_once_the_yeast_has_its_price_too(qtbot, window):
    red = load(resource_path("examples/breakwater_red.hobwort"))
    price = Quantity(2.0, "2 €")
    priced = {
        name: tuple(
            replace(line, price=price, amount=line.amount or Quantity(1.0, "1 g", unit="g"))
            for line in getattr(red, name)
        )
        for name in LINE_TYPES
    }
    window.opened.replace_by(replace(red, **priced), None)
    window.compose.process.more_button.click()
    field = window.compose.process.by_place["yeast.price"]
    field.setFocus()
    qtbot.keyClicks(field, "4.50")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert window.opened.recipe.yeast.price.value == pytest.approx(4.5)
    window.show_page(1)
    qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=30_000)
    costs = [way.cost for way in window.fit.ways]
    assert any(cost is not None and cost > 4.5 for cost in costs)


def test_notes_are_typed_line_by_line_and_undone_as_one_step(qtbot, window, form, porter):
    field = form.by_place["notes"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "Pour slowly.")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    qtbot.keyClicks(field, "Keep cool.")
    assert window.opened.recipe.notes == "Pour slowly.\nKeep cool."
    assert window.opened.undo_stack.count() == 1
    qtbot.keyClick(field, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.opened.recipe == porter
    assert field.toPlainText() == porter.notes


def test_notes_too_long_for_a_file_stay_where_they_are_typed(qtbot, window, form, porter):
    field = form.by_place["notes"]
    field.setPlainText("x" * 20_001)
    assert window.opened.recipe.notes == porter.notes
    assert field.property("refused")
    assert "Not taken" in field.toolTip()
    field.setPlainText("x")
    assert window.opened.recipe.notes == "x"
    assert not field.property("refused")


def test_a_yield_is_typed_as_the_bag_states_it_and_counts_in_the_gravity(qtbot, window):
    panel = window.compose._panels()["fermentables"]
    panel.more_button.click()
    panel.view.setCurrentIndex(panel.model.index(0, 0))
    field = panel.details.by_name["extract"]
    line_id = window.opened.recipe.fermentables[0].line_id

    def points():
        return window.opened.newest_outlook().day.gives[line_id].points

    type_over(qtbot, field, "20 ppg")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert window.opened.recipe.fermentables[0].extract.text == "20 ppg"
    weak = points()
    type_over(qtbot, field, "334 L°/kg")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.text() == "334 L°/kg"
    assert points() / weak == pytest.approx(334.0 / (20.0 * 8.3454), rel=0.01)
    window.opened.undo_stack.undo()
    assert window.opened.recipe.fermentables[0].extract.text == "20 ppg"


def test_the_range_of_a_variety_is_seen_in_its_cell_and_told_below_it(qtbot, window):
    panel = window.compose._panels()["hops"]
    panel.more_button.click()
    add = panel.model.index(len(window.opened.recipe.hops), 0)
    assert panel.model.type_in(add, "20 g Cascade")
    row = len(window.opened.recipe.hops) - 1
    alpha = window.opened.recipe.hops[row].alpha
    column = [each.key for each in panel.model.spec.columns].index("alpha")
    panel.view.setCurrentIndex(panel.model.index(row, column))
    shown = panel.model.index(row, column).data()
    assert shown == alpha.text
    room = panel.view.columnWidth(column)
    assert panel.view.fontMetrics().horizontalAdvance(shown) < room
    low, high = (f"{100.0 * end:.3g} %" for end in alpha.ends)
    assert f"alpha acid {low} to {high}" in panel.details.sure.text()
    assert panel.model.type_in(panel.model.index(row, column), "5.8 %")
    assert window.opened.recipe.hops[row].alpha.ends is None
    assert "alpha acid ± 10 % of it" in panel.details.sure.text()


def test_how_hops_were_kept_is_chosen_beside_their_age_and_undone(qtbot, window):
    panel = window.compose._panels()["hops"]
    panel.more_button.click()
    panel.view.setCurrentIndex(panel.model.index(0, 0))
    value = window.opened.outlook.forecasts["bitterness_ibu"].value
    type_over(qtbot, panel.details.by_name["age"], "2 years")
    qtbot.keyClick(panel.details.by_name["age"], Qt.Key.Key_Return)
    kept = panel.details.by_name["kept"]
    assert kept.currentText() == "not known"
    kept.setCurrentIndex(kept.findText("opened, not cold"))
    kept.activated.emit(kept.currentIndex())
    assert window.opened.recipe.hops[0].kept == "opened, not cold"
    assert window.opened.recipe.hops[1].kept == "not known"
    qtbot.waitUntil(lambda: window.opened.outlook.forecasts["bitterness_ibu"].value < 0.7 * value)
    panel.view.setCurrentIndex(panel.model.index(1, 0))
    qtbot.waitUntil(lambda: kept.currentText() == "not known")
    window.opened.undo_stack.undo()
    assert window.opened.recipe.hops[0].kept == "not known"
