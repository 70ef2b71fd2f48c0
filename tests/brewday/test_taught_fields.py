"""Fields that a kitchen teaches: what marks hold, what a steep and an extract really give."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.measured.expecting import expected
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.library.recipe_file import load
from designer.recipe.quantity import Kind
from designer.resource_files import resource_path
from designer.sheet.content import brew_sheet
from designer.sheet.plain import sheet_text
from designer.units import ShownUnits, read


@pytest.fixture
def porter():
    return load(resource_path("examples/harbour_lamp_porter.hobwort"))


def holding(porter, text):
    marks = read(Kind.FRACTION, text)
    return replace(porter, fermenter=replace(porter.fermenter, marks_hold=marks))


def processed(porter, **fields):
    return replace(porter, process=replace(porter.process, **fields))


def points(recipe):
    return 1000.0 * (float(brew(recipe).beer.original_gravity) - 1.0)


def test_a_fermenter_that_holds_more_than_its_mark_says_makes_weaker_wort(porter):
    """Mass balance: the same extract in 5 % more."""
    more = holding(porter, "105 %")
    assert float(brew(more).fermenter.batch_l) == pytest.approx(10.5)
    assert points(more) == pytest.approx(points(porter) / 1.05, rel=0.001)


def test_the_sheet_and_what_is_read_go_by_the_mark(porter):
    more = holding(porter, "105 % ± 1 %")
    outlook = look_ahead(more)
    sheet = sheet_text(
        brew_sheet(more, outlook, shown=ShownUnits.METRIC, start=None, brew_date=None)
    )
    assert "10 L" in sheet
    assert "Top up with cold water to 10 L" in sheet.replace("*", "")
    at_mark = Reading(Measured.TOPPED_UP, 0.0, By.MARK)
    weighed = Reading(Measured.TOPPED_UP, 0.0, By.SCALE)
    assert expected(outlook, at_mark).value == pytest.approx(10.0)
    assert expected(outlook, weighed).value == pytest.approx(10.5)


def test_a_mark_that_is_known_leaves_less_of_the_gravity_open(porter):
    wide = look_ahead(porter).forecasts["original_gravity"]
    known = look_ahead(holding(porter, "100 % ± 0.5 %")).forecasts["original_gravity"]
    share = {cause.key: cause.share for cause in wide.causes}["fermenter mark"]
    assert share > 0.05
    assert known.high - known.low < wide.high - wide.low


def test_readings_at_the_mark_and_by_the_scale_agree_where_it_is_known_what_the_mark_holds(porter):
    more = holding(porter, "105 % ± 1 %")
    at_mark = day_measured(more, [Reading(Measured.TOPPED_UP, 10.0, By.MARK)])
    weighed = day_measured(more, [Reading(Measured.TOPPED_UP, 10.5, By.SCALE)])
    planned = look_ahead(more)
    for outlook in (at_mark, weighed):
        assert float(outlook.day.fermenter.batch_l) == pytest.approx(10.5, abs=0.02)
        found = outlook.forecasts["original_gravity"].value
        assert found == pytest.approx(planned.forecasts["original_gravity"].value, abs=2e-4)


def test_a_share_of_the_extract_scales_the_gravity_and_its_spread_is_a_cause(porter):
    less = processed(porter, extract_got=read(Kind.FRACTION, "95 % ± 3 %"))
    steeped = processed(porter, extract_got=read(Kind.FRACTION, "0.001 %"))
    whole = points(porter)
    of_grain = float(points(replace(porter, fermentables=tuple(
        each for each in porter.fermentables if each.kind == "steeping grain"))))  # fmt: skip
    assert points(less) == pytest.approx(whole - 0.05 * (whole - of_grain), abs=0.15)
    assert points(steeped) == pytest.approx(of_grain, abs=0.5)
    causes = {cause.key for cause in look_ahead(less).forecasts["original_gravity"].causes}
    assert "extract that really gets in" in causes


def test_a_steep_yield_of_the_kitchen_takes_the_place_of_its_doubt(porter):
    own = processed(porter, steep_yield=read(Kind.FRACTION, "80 % ± 1 %"))
    assert points(own) < points(porter)
    shares = {c.key: c.share for c in look_ahead(own).forecasts["original_gravity"].causes}
    assert shares.get("steep yield", 0.0) < 0.01
