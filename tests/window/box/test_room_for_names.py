"""Columns of the Recipe box leave their room to the names, as far as they can spare it."""

import pytest

from designer.library.store import RecipeRow, Summary
from designer.window.box.box_table import APART, NAMES, BoxTable
from designer.window.box.recipes_model import RecipesModel

LONG = "Harbour Lamp Porter (example)"
FIGURES = {"og": 1.046, "fg": 1.013, "abv": 4.4, "ibu": 29.0, "srm": 23.0, "batch_l": 10.0}


@pytest.fixture
def table(qtbot, display, settings):
    made = BoxTable(RecipesModel(display), settings)
    qtbot.addWidget(made)
    made.show()
    return made


def show(table, width, style, **days):
    table.resize(width, 300)
    table.model().show_rows([RecipeRow(1, LONG, summary=Summary(style=style, **FIGURES), **days)])


def widths(table):
    return {each.key: table.columnWidth(n) for n, each in enumerate(table.model().columns)}


def test_a_name_is_whole_where_other_columns_are_wider_than_what_they_say(table):
    show(table, 640, "Bitter")
    found = widths(table)
    assert found["name"] >= table.sizeHintForColumn(0)
    keys = [each.key for each in table.model().columns]
    for number, key in enumerate(keys[1:], 1):
        if not table.isColumnHidden(number):
            heading = table.horizontalHeader().sectionSizeHint(number)
            assert found[key] >= max(heading, table.sizeHintForColumn(number) + APART)
    assert table.horizontalHeader().length() <= table.viewport().width()


def test_columns_are_as_wide_as_usual_where_names_have_room(table):
    show(table, 1000, "Bitter")
    found = widths(table)
    assert found["name"] == NAMES.stop
    assert found["style"] == table.model().columns[1].width
    show(table, 640, "Strong Old Ale of the Harbour")
    assert widths(table)["style"] == table.model().columns[1].width, "and no wider"


def test_the_day_of_the_last_brew_takes_no_room_where_nothing_was_brewed(table):
    at = [each.key for each in table.model().columns].index("brewed")
    assert table.isColumnHidden(at)
    assert not table.horizontalHeader().stretchLastSection(), "a figure stays by its row"
    table.show_days(frozenset({"brewed"}))
    assert not table.isColumnHidden(at)
    assert table.horizontalHeader().stretchLastSection()
