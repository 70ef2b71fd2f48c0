"""The window shows any recipe that a file can hold, however foolish."""

from dataclasses import replace

import pytest

from designer.library.places import set_field
from designer.library.recipe_file import read_document
from designer.recipe.document import Recipe
from designer.window.session.looking_ahead import Known
from tests.some_cases import some_of

ODD = {
    "empty": {},
    "no water": {"process.start_water": "0 L"},
    "no pot": {"pot.volume": "0 L"},
    "a brewery": {"pot.volume": "10000 L", "process.start_water": "9000 L"},
    "a thimble": {"pot.volume": "20 mL", "fermenter.volume": "10 mL"},
    "too much malt": {"fermentables.1.amount": "100 kg", "pot.volume": "5 L"},
    "no boil": {"process.boil_time": "0 min"},
    "a day's boil": {"process.boil_time": "24 h", "process.evaporation": "1 L/h"},
    "no stove": {"pot.power": "0 W"},
    "on a mountain": {"process.altitude": "6000 m"},
    "all frozen": {"process.frozen_top_up": "9 kg", "process.frozen_temperature": "-60 °C"},
    "a flood": {"process.top_up_to": "100000 L"},
    "black": {"fermentables.3.colour": "2000 °L", "fermentables.3.amount": "20 kg"},
    "a mountain of hops": {"hops.1.amount": "50 kg", "hops.1.alpha": "100 %"},
    "a long name": {"name": "Ω" * 9000, "fermentables.1.name": "<b>&amp; '; drop table " * 50},
    "starts at night": {"process.start_time": "23:50"},
}


@pytest.mark.parametrize(
    ("name", "page"), some_of([(name, page) for name in ODD for page in (0, 2)], 3)
)
def test_any_recipe_is_shown(qtbot, window, porter, name, page):
    changes = ODD[name]
    recipe = porter if changes else Recipe()
    for place, text in changes.items():
        recipe = set_field(recipe, place, text)
    window.opened.replace_by(recipe, None)
    window.show_page(page)
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    if page:
        window.sheet.refresh()
        assert window.sheet.count.text()
    for row in window.compose.forecast.rows:
        assert "nan" not in row.sentence()
    assert not window.grab().isNull()


def test_braces_in_names_do_no_harm(window):
    recipe = read_document('{"hobwort": 1, "name": "{0} {x}", "hops": [{"name": "{1}"}]}', "here")
    window.opened.replace_by(recipe, None)
    window.opened.refresh_outlook()
    assert not window.grab().isNull()


def test_five_hundred_lines_are_shown(window, porter):
    many = replace(porter, fermentables=porter.fermentables * 60)
    window.opened.replace_by(many, None)
    window.opened.refresh_outlook()
    assert not window.grab().isNull()
