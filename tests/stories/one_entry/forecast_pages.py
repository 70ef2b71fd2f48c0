"""Every place where a forecast is shown, asked for one that is but an entry of the list."""

import json
from datetime import date

import pytest
from made_up_forecast import RESIDUE
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from designer.brewday.aiming import make_it, means_for
from designer.brewday.day import brew
from designer.brewday.fit.original import apart_day
from designer.brewday.outlook import look_ahead
from designer.command_line import run
from designer.library.recipe_file import document_text, load, save
from designer.library.store import Store
from designer.paper.head import head_row
from designer.resource_files import resource_path
from designer.sheet.content import brew_sheet
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.recipe_summary import summary_of
from tests.brewday.days import with_figures

KEY = RESIDUE.key


@pytest.fixture
def value(porter):
    """The forecast of the porter."""
    return float(RESIDUE.compute(brew(porter)))


@pytest.fixture
def file(porter, tmp_path):
    path = tmp_path / "porter.hobwort"
    save(porter, path)
    return str(path)


@pytest.fixture
def sheet(porter):
    return brew_sheet(porter, look_ahead(porter), shown=ShownUnits.METRIC, start=None,
                      brew_date=date(2026, 1, 3))  # fmt: skip


def test_it_is_a_row_of_the_forecast_and_is_told_about_in_detail(qtbot, window, value):
    row = next(each for each in window.compose.forecast.rows if each.key == KEY)
    assert row.isVisible()
    assert row.sentence().startswith(f"Body (EL) {value:.2f} g/L, likely ")
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    assert behind.isVisible()
    assert "Calculated with: what no yeast ferments; made up for a test." in behind.causes.text()


def test_it_is_made_what_the_brewer_wants(qtbot, window, value):
    row = next(each for each in window.compose.forecast.rows if each.key == KEY)
    qtbot.mouseClick(row, Qt.MouseButton.LeftButton)
    behind = window.compose.forecast.behind
    qtbot.keyClicks(behind.wanted, f"{1.1 * value:.2f}")
    qtbot.keyClick(behind.wanted, Qt.Key.Key_Return)
    assert float(RESIDUE.compute(brew(window.opened.recipe))) == pytest.approx(1.1 * value, abs=0.1)
    assert window.opened.undo_stack.undoText().startswith("make it ")


def test_it_can_be_aimed_at_by_any_fermentable(porter, value):
    means = means_for(KEY, porter)
    assert [each.name for each in means] == [each.name for each in porter.fermentables]
    aim = make_it(porter, KEY, 1.1 * value, means[0])
    assert aim.reached == pytest.approx(1.1 * value, abs=0.1)
    assert aim.edit.text.text.endswith(f" g/L by {means[0].name}")


def test_it_has_a_row_of_its_own_where_ways_stand_side_by_side(qtbot, window, value):
    window.show_page(1)
    qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=30_000)
    model = window.fit.table.model()
    row = next(at for at in range(model.rowCount()) if model.index(at, 0).data() == "Body (EL)")
    assert model.index(row, 1).data().startswith(f"{value:.2f} g/L")
    for column in range(2, 2 + min(len(window.fit.ways), 5)):
        shown = model.index(row, column).data()
        assert shown == "same" or shown.endswith(" g/L")
    texts = [label.text() for label in window.fit.chosen.findChildren(QLabel)]
    assert any(text.startswith("Body (EL): ") for text in texts)


def test_it_counts_where_ways_are_put_in_order(porter):
    """Two g/L beyond the half that nobody tells count one: 2.5 g/L are 0.00096 of gravity."""
    day = brew(porter)
    thinner = with_figures(day, final_gravity=day.beer.final_gravity - 2.5 / 2600.0)
    assert apart_day(day, thinner) == pytest.approx(1.0)


def test_it_stands_at_the_head_of_the_sheet_as_web_page_text_and_paper(qapp, sheet, value):
    figure = f"{value:.2f} g/L"
    assert f"Extract left over<b>{figure}</b>" in sheet_html(sheet)
    line = next(each for each in sheet_text(sheet).splitlines() if "Extract left over" in each)
    assert line.strip().startswith(f"Extract left over: {figure} (likely ")
    assert line.endswith(")")
    head = sheet.head
    assert head.figures[-1].value == figure
    fewer = type(sheet)(**{name: getattr(sheet, name) for name in sheet.__slots__}
                        | {"head": type(head)(**{name: getattr(head, name) for name in
                                                 head.__slots__} | {"figures": head.figures[:5]})}
                        )  # fmt: skip
    assert head_row(sheet, 500.0, 20.0).height > head_row(fewer, 500.0, 20.0).height + 20.0


def test_the_command_line_tells_it_with_its_range(file, capsys, value):
    assert run(["forecast", file]) == 0
    line = next(each for each in capsys.readouterr().out.splitlines() if "Extract left" in each)
    assert line.split()[3:5] == [f"{value:.2f}", "g/L"]
    assert run(["forecast", file, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)[KEY]
    assert found["value"] == pytest.approx(value)
    assert found["low"] < value < found["high"]
    assert found["causes"]


def test_the_ways_to_fit_tell_it_too(file, capsys, value):
    words = ["fit", file, "--pot", "6 L", "--fermenter", "8 L"]
    assert run(words) == 0
    assert "Extract left over " in capsys.readouterr().out
    assert run([*words, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["original"][KEY]["value"] == pytest.approx(value)
    assert all(KEY in way["forecasts"] for way in found["ways"])


def test_the_recipe_box_has_a_column_for_it(qtbot, on_a_box, porter, tmp_path, value):
    other = load(resource_path("examples/slipway_bitter.hobwort"))
    with Store.open(tmp_path / "box") as store:
        for recipe in (porter, other):
            store.recipes.add(document_text(recipe), summary_of(recipe, look_ahead(recipe)))
    window = on_a_box(OpenRecipe(porter))
    window.show_page(window.page_names.index("Recipe box"))
    model = window.box.model
    qtbot.waitUntil(lambda: len(model.rows_read) == 2, timeout=10_000)
    headings = [model.headerData(n, Qt.Orientation.Horizontal) for n in range(model.columnCount())]
    column = headings.index("EL")
    row = next(n for n, each in enumerate(model.rows_read) if each.name == porter.name)
    assert model.index(row, column).data() == f"{value:.2f} g/L"
