"""The three editors as Qt models."""

import pytest
from PySide6.QtCore import QModelIndex, Qt

from designer.recipe.edits import AddLine, RemoveLines
from designer.recipe.message import word
from designer.units import ShownUnits
from designer.window.compose.lines_columns import ALL, EXTRAS, FERMENTABLES, HOPS
from designer.window.compose.lines_model import LinesModel
from designer.wort.density import gravity_from_plato


def model_of(spec, opened, display):
    return LinesModel(opened, spec, display)


def cell(model, row, key):
    return model.index(row, model.column_of(key))


@pytest.mark.parametrize("spec", ALL, ids=lambda spec: spec.lines)
def test_every_editor_keeps_the_rules_of_a_model(qtmodeltester, opened, display, spec):
    model = model_of(spec, opened, display)
    qtmodeltester.check(model)
    assert model.rowCount() == len(getattr(opened.recipe, spec.lines)) + 1
    assert model.rowCount(model.index(0, 0)) == 0


def test_typing_pounds_changes_the_extract_and_undo_puts_it_back(opened, display, porter):
    model = model_of(FERMENTABLES, opened, display)
    assert model.setData(cell(model, 0, "amount"), "3.3 lb")
    assert opened.recipe.fermentables[0].amount.value == pytest.approx(3.3 * 0.45359237)
    assert opened.recipe.fermentables[0].amount.text == "3.3 lb"
    assert opened.undo_stack.undoText() == "change fermentable amount"
    opened.undo_stack.undo()
    assert opened.recipe == porter


def test_a_bare_number_takes_the_unit_that_the_cell_shows(opened, display):
    grain = model_of(FERMENTABLES, opened, display)
    grain.setData(cell(grain, 2, "amount"), "300")
    assert opened.recipe.fermentables[2].amount.text == "300 g"
    hops = model_of(HOPS, opened, display)
    hops.setData(cell(hops, 0, "amount"), "25")
    assert opened.recipe.hops[0].amount.value == pytest.approx(0.025)


@pytest.mark.parametrize(
    ("typed", "value", "unit", "name"),
    [
        ("2 tablets fish finings", 2.0, "tablets", "fish finings"),
        ("1 packet Quay yeast nutrient", 1.0, "packet", "Quay yeast nutrient"),
        ("6 g Quay moss 7", 6.0, "g", "Quay moss 7"),
        ("2 fl oz lemon juice", 59.147, "mL", "lemon juice"),
        ("1 1/2 tsp yeast nutrient", 7.393, "mL", "yeast nutrient"),
    ],
)
def test_a_new_extra_is_an_amount_and_a_name_of_any_number_of_words(
    opened, display, typed, value, unit, name
):
    model = model_of(EXTRAS, opened, display)
    assert model.setData(cell(model, model.rowCount() - 1, "name"), typed)
    added = opened.recipe.extras[-1]
    assert added.amount.value == pytest.approx(value, abs=1e-3)
    assert added.amount.unit.startswith(unit.rstrip("s"))
    assert added.name.lower() == name.lower()


def test_a_bare_number_in_us_units_is_kept_with_its_unit(opened, display):
    display.settings.units = ShownUnits.US
    hops = model_of(HOPS, opened, display)
    assert cell(hops, 0, "amount").data() == "0.63 oz"
    hops.setData(cell(hops, 0, "amount"), "1.5")
    assert opened.recipe.hops[0].amount.text == "1.5 oz"
    assert opened.recipe.hops[0].amount.value == pytest.approx(1.5 * 0.45359237 / 16)


def test_leaving_a_converted_cell_unchanged_changes_nothing(opened, display, porter):
    display.settings.units = ShownUnits.US
    model = model_of(FERMENTABLES, opened, display)
    amount = cell(model, 0, "amount")
    assert model.setData(amount, amount.data(Qt.ItemDataRole.EditRole))
    assert opened.recipe == porter
    assert opened.undo_stack.count() == 0


@pytest.mark.parametrize("typed", ["12 L", "-3 kg", "nan", "1e400 kg", "a lot", "20000 kg"])
def test_what_cannot_be_an_amount_is_refused_in_words(qtbot, opened, display, porter, typed):
    model = model_of(FERMENTABLES, opened, display)
    with qtbot.waitSignal(model.refused) as refused:
        assert not model.setData(cell(model, 0, "amount"), typed)
    assert "Light liquid malt extract" in refused.args[0]
    assert "\n" not in refused.args[0]
    assert opened.recipe == porter


def test_the_last_row_takes_a_new_line_with_its_amount(opened, display):
    model = model_of(FERMENTABLES, opened, display)
    assert model.setData(cell(model, 4, "name"), "120 g chocolate malt")
    line = opened.recipe.fermentables[4]
    assert line.amount.value == pytest.approx(0.12)
    assert line.kind == "steeping grain"
    assert line.when.text == "steep"
    assert line.colour is not None
    assert model.rowCount() == 6
    assert opened.undo_stack.undoText() == f"add {line.name}"


def test_a_hop_of_another_name_brings_its_own_alpha_acid(opened, display):
    model = model_of(HOPS, opened, display)
    model.setData(cell(model, 0, "name"), "Cascade")
    assert opened.recipe.hops[0].alpha.value == pytest.approx(0.06)
    assert opened.recipe.hops[0].amount.text == "18 g"


def test_an_unknown_name_is_taken_as_it_is(opened, display):
    model = model_of(HOPS, opened, display)
    model.setData(cell(model, 2, "name"), "Garden hop, unnamed")
    assert opened.recipe.hops[2].name == "Garden hop, unnamed"
    assert opened.recipe.hops[2].alpha is None


def test_extra_lines_take_a_dose_from_the_catalogue(opened, display):
    model = model_of(EXTRAS, opened, display)
    model.setData(cell(model, 1, "name"), "Irish moss (dried carrageen flakes)")
    assert opened.recipe.extras[1].amount.unit == "g"


def test_a_locked_line_cannot_be_edited(opened, display):
    model = model_of(FERMENTABLES, opened, display)
    model.set_locked(0, True)
    assert not model.flags(cell(model, 0, "amount")) & Qt.ItemFlag.ItemIsEditable
    model.set_locked(0, False)
    assert model.flags(cell(model, 0, "amount")) & Qt.ItemFlag.ItemIsEditable


def test_rows_that_come_and_go_are_told_one_by_one(qtbot, opened, display):
    model = model_of(HOPS, opened, display)
    with qtbot.waitSignal(model.rowsInserted) as inserted:
        opened.make(AddLine("hops", opened.recipe.hops[0], word("add"), position=1))
    assert inserted.args[1:] == [1, 1]
    new_id = opened.recipe.hops[1].line_id
    with qtbot.waitSignal(model.rowsRemoved) as removed:
        opened.make(RemoveLines("hops", frozenset({new_id}), word("remove")))
    assert removed.args[1:] == [1, 1]


def test_a_moved_line_keeps_its_selection(opened, display):
    from PySide6.QtCore import QPersistentModelIndex

    model = model_of(FERMENTABLES, opened, display)
    place = QPersistentModelIndex(model.index(0, 1))
    model.move(0, 2)
    assert place.row() == 2
    assert place.data() == "Light liquid malt extract"


def test_each_line_says_what_it_gives(opened, display):
    """The points of the lines add up to the original gravity, near enough for reading."""
    model = model_of(FERMENTABLES, opened, display)
    points = [float(cell(model, row, "gives").data().split()[0]) for row in range(4)]
    gravity = opened.outlook.forecasts["original_gravity"].value
    assert sum(points) == pytest.approx(1000 * (gravity - 1), abs=0.2)


def test_degrees_plato_are_shown_where_they_are_preferred(opened, display):
    display.settings.gravity = "plato"
    model = model_of(FERMENTABLES, opened, display)
    text = cell(model, 1, "gives").data()
    assert text.endswith("°P")
    points = opened.outlook.day.gives[opened.recipe.fermentables[1].line_id].points
    plato = float(text.split()[0])
    assert gravity_from_plato(plato) == pytest.approx(1 + points / 1000, abs=3e-4)


def test_cells_can_be_read_aloud(opened, display):
    model = model_of(HOPS, opened, display)
    role = Qt.ItemDataRole.AccessibleTextRole
    assert cell(model, 0, "alpha").data(role) == "Alpha acid of Challenger: 7.2 %"
    assert cell(model, 2, "name").data(role) == "Add a hop"


def test_no_index_has_no_data(opened, display):
    model = model_of(HOPS, opened, display)
    assert model.data(QModelIndex()) is None
