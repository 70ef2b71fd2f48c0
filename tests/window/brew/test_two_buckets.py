"""A kit that is poured into two buckets: what is done twice says for which of them it is."""

import pytest

from designer.brewday.measured.readings import Measured
from designer.brewday.outlook import look_ahead
from designer.sheet.stove import stove_steps
from designer.window.brew.step_words import title
from designer.window.brew.stove_texts import planned_rows
from designer.window.brew.strip_cells import cells_of
from tests.workbench.planned_red import two_boils, two_buckets


@pytest.fixture
def steps_of(display):
    def made(recipe):
        units = display.settings.units
        return stove_steps(recipe, look_ahead(recipe), shown=units, start=None, brew_date=None)

    return made


@pytest.mark.parametrize("recipe", [two_buckets(10.0, 10.0), two_boils()], ids=["buckets", "boils"])
def test_no_two_rows_of_the_list_read_alike(steps_of, recipe):
    rows = planned_rows(steps_of(recipe))
    told = [(each.title, each.below) for each in rows]
    assert len(set(told)) == len(told)
    assert len({each.title for each in rows}) < len(rows)


def test_a_row_says_its_bucket_and_a_reading_its_forecast_too(steps_of):
    steps = steps_of(two_buckets(10.0, 10.0))
    rows = {each.key: each for each in planned_rows(steps)}
    second = [each for each in steps if each.fermenter == 2]
    below = {each.kind: rows[each.key].below for each in second}
    assert below["top-up"] == "Fermenter 2"
    assert below["read"].startswith("Fermenter 2 · forecast 1.0")
    assert all(title(each) for each in second)


@pytest.mark.parametrize("recipe", [two_buckets(10.0, 10.0), two_boils()], ids=["buckets", "boils"])
def test_columns_of_the_strip_have_names_of_their_own_and_short_ones(steps_of, display, recipe):
    cells = cells_of(steps_of(recipe), {}, None, display)
    wholes = [each.whole for each in cells]
    assert len(set(wholes)) == len(wholes)
    assert max(len(each.label) for each in cells) <= len("Before the grain · 2")


def test_a_gravity_is_of_its_bucket_and_what_comes_from_a_pot_of_its_boil(steps_of, display):
    def labels(recipe, what):
        cells = cells_of(steps_of(recipe), {}, None, display)
        return [(each.label, each.whole) for each in cells if each.blank.what is what]

    assert labels(two_buckets(10.0, 10.0), Measured.ORIGINAL_GRAVITY) == [
        ("OG · 1", "OG, Fermenter 1"),
        ("OG · 2", "OG, Fermenter 2"),
    ]
    ends = labels(two_boils(), Measured.BOIL_END_VOLUME)
    assert [label[-1] for label, _ in ends] == ["1", "2"]
