"""Every place where a field of an ingredient stands, asked for one that is but a declaration."""

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.errors import RefusedInputError
from designer.library.bill import bill_csv, bill_text, read_bill
from designer.library.places import set_field
from designer.library.recipe_file import document_text, load, save
from designer.library.schema import schema
from designer.recipe.comparing import differences
from designer.sheet.content import brew_sheet
from designer.sheet.html import sheet_html
from designer.units import ShownUnits


@pytest.fixture
def damp(porter):
    """The porter, the water in its first fermentable known."""
    return set_field(porter, "fermentables.1.moisture", "4.5 %")


def column_of(view, key):
    return [column.key for column in view.model().spec.columns].index(key)


def test_it_is_a_column_that_is_typed_in_and_undone(qtbot, window, porter):
    view = window.compose.fermentables.view
    column = column_of(view, "moisture")
    assert view.model().headerData(column, Qt.Orientation.Horizontal) == "Water in it"
    assert not view.isColumnHidden(column)
    assert column < column_of(view, "gives")
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, column))
    qtbot.keyClick(view, Qt.Key.Key_F2)
    editor = view.viewport().findChild(QLineEdit)
    qtbot.keyClicks(editor, "4.5 %")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: view.viewport().findChild(QLineEdit) is None)
    line = window.opened.recipe.fermentables[0]
    assert (line.moisture.value, line.moisture.text) == (pytest.approx(0.045), "4.5 %")
    assert window.header.undo.toolTip() == "Undo change fermentable moisture"
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_what_lies_beyond_its_limits_is_refused_with_them(window, porter):
    model = window.compose.fermentables.model
    cell = model.index(0, column_of(window.compose.fermentables.view, "moisture"))
    assert "0 % to 20 %" in model.fault_of(cell, "30 %")
    with pytest.raises(RefusedInputError, match="0 % to 20 %"):
        set_field(porter, "fermentables.1.moisture", "30 %")


def test_only_the_list_it_was_declared_for_has_it(window):
    for panel in (window.compose.hops, window.compose.extras):
        assert "moisture" not in [column.key for column in panel.model.spec.columns]


def test_a_file_gives_it_back(damp, tmp_path):
    path = tmp_path / "damp.hobwort"
    save(damp, path)
    assert '"moisture": "4.5 %"' in path.read_text(encoding="utf-8")
    assert load(path) == damp
    assert document_text(load(path)) == document_text(damp)


def test_a_file_beyond_its_limits_is_refused(damp, tmp_path, capsys):
    path = tmp_path / "wet.hobwort"
    path.write_text(document_text(damp).replace("4.5 %", "45 %"), encoding="utf-8")
    assert run(["check", str(path)]) == 1
    assert "fermentables[1].moisture" in capsys.readouterr().err


def test_the_schema_describes_it():
    lines = schema()["properties"]["fermentables"]["items"]["properties"]
    assert lines["moisture"]["description"].startswith("Moisture: ")
    assert "moisture" not in schema()["properties"]["hops"]["items"]["properties"]


def test_the_sheet_says_it_where_it_is_bought(damp):
    sheet = brew_sheet(damp, look_ahead(damp), shown=ShownUnits.METRIC, start=None,
                       brew_date=date(2026, 1, 3))  # fmt: skip
    assert sheet_html(sheet).count("4.5 % water") == 1


def test_the_bill_has_a_column_for_it_both_ways(damp):
    text = bill_csv(damp)
    assert text.splitlines()[0] == "list,amount,name,kind,goes in,figure,water in it"
    assert text.splitlines()[1].endswith(",4.5 %")
    assert text.splitlines()[2].endswith(",")
    lines = [line for name, line in read_bill(text) if name == "fermentables"]
    assert [line.moisture for line in lines] == [line.moisture for line in damp.fermentables]
    assert "4.5 %" in bill_text(damp)


def test_a_bill_of_before_is_still_read(porter):
    rows = [row.rpartition(",")[0] for row in bill_csv(porter).splitlines()]
    assert rows[0] == "list,amount,name,kind,goes in,figure"
    names = [line.name for _, line in read_bill("\n".join(rows))]
    assert names[0] == porter.fermentables[0].name


def test_a_bill_beyond_its_limits_is_refused(damp):
    with pytest.raises(RefusedInputError, match=r"line 2: .*0 % to 20 %"):
        read_bill(bill_csv(damp).replace("4.5 %", "45 %"))


def test_two_recipes_are_told_apart_by_it(porter, damp):
    (found,) = differences(porter, damp)
    assert "4.5 %" in found.after
    assert "4.5 %" not in found.before


def test_a_copied_line_brings_it_along(qtbot, window, damp):
    window.opened.replace_by(damp, None)
    model = window.compose.fermentables.model
    model.paste(model.copied([0]))
    first, last = window.opened.recipe.fermentables[0], window.opened.recipe.fermentables[-1]
    assert replace(last, line_id=0) == replace(first, line_id=0)
    assert last.moisture.text == "4.5 %"
