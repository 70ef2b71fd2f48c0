"""What each kind of reading tells of a day, and what it does not.

That extract and water are neither made nor lost is mass balance; that two readings off one
instrument are off alike is how instruments err, `reading_errors` names the sources of how far.
"""

from dataclasses import replace
from math import hypot, sqrt

import pytest

from designer.brewday.measured.as_read import as_read
from designer.brewday.measured.expecting import expected
from designer.brewday.measured.known import KnownDay
from designer.brewday.measured.measured_day import day_measured
from designer.brewday.measured.observed import Told, observed
from designer.brewday.measured.reading_errors import usual_half_width
from designer.brewday.measured.readings import By, Measured, Reading
from designer.brewday.outlook import look_ahead
from designer.brewday.sample_columns import HALF_WIDTH_SIGMAS
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind
from designer.wort.extract import extract_for

M, B = Measured, By
GRAVITY = "original_gravity"


def width(found):
    return found.high - found.low


def of_gravity(recipe, *readings):
    return day_measured(recipe, readings).forecasts[GRAVITY]


def there(outlook, what, left_min=None):
    return expected(outlook, Reading(what, 0.0, B.MARK, left_min=left_min))


def test_what_comes_into_the_fermenter_is_what_was_in_the_pot_less_what_stayed(harbour_porter):
    outlook = day_measured(
        harbour_porter,
        [
            Reading(M.BOIL_END_VOLUME, 5.9, B.DIPSTICK),
            Reading(M.BOIL_END_GRAVITY, 1.118, B.HYDROMETER),
            Reading(M.INTO_FERMENTER, 5.2, B.MARK),
        ],
    )
    day, filled = outlook.day, outlook.day.fermenter
    in_pot = extract_for(day.pot.boil_gravity_end, filled.in_pot_l)
    in_fermenter = extract_for(day.beer.original_gravity, filled.batch_l)
    assert in_fermenter == pytest.approx(filled.moved_fraction * in_pot, rel=1e-4)
    shown = day.pot.boil_end_l, day.pot.boil_gravity_end
    planned = look_ahead(harbour_porter).day.pot
    assert abs(shown[1] - 1.118) < abs(planned.boil_gravity_end - 1.118)


def test_volume_and_gravity_in_the_boil_keep_the_extract_between_two_additions(harbour_porter):
    """From 60 to 15 minutes left nothing goes in: what boils away is water."""
    outlook = look_ahead(harbour_porter)
    late, early = (
        [there(outlook, what, left).value for what in (M.BOIL_VOLUME, M.BOIL_GRAVITY)]
        for left in (20.0, 50.0)
    )
    assert late[0] < early[0]
    points = [volume * (gravity - 1.0) for volume, gravity in (late, early)]
    assert points[0] == pytest.approx(points[1], rel=3e-3)


def test_at_the_minute_of_an_addition_the_wort_before_it_is_read(harbour_porter):
    outlook = look_ahead(harbour_porter)
    at, before = (there(outlook, M.BOIL_GRAVITY, left).value for left in (15.0, 15.1))
    after = there(outlook, M.BOIL_GRAVITY, 14.9).value
    assert at == pytest.approx(before, abs=1e-3)
    assert after > at + 0.01


def test_water_that_was_poured_otherwise_than_planned_is_taken_as_read(harbour_porter):
    outlook = day_measured(harbour_porter, [Reading(M.WATER_IN, 8.0, B.SCALE)])
    found = there(outlook, M.WATER_IN)
    assert found.value == pytest.approx(8.0, rel=2e-3)
    assert width(found) == pytest.approx(2.0 * 0.05, rel=0.05)  # a kitchen scale to 50 g


def test_what_boils_away_is_between_reading_and_forecast(harbour_porter):
    planned = there(look_ahead(harbour_porter), M.BOIL_END_VOLUME)
    read = planned.low - 0.2
    outlook = day_measured(harbour_porter, [Reading(M.BOIL_END_VOLUME, read, B.MARK)])
    found = there(outlook, M.BOIL_END_VOLUME)
    assert read < found.value < planned.value
    assert width(found) < 0.8 * width(planned)


def test_two_readings_off_one_hydrometer_are_less_than_of_two(harbour_porter):
    planned = look_ahead(harbour_porter).forecasts[GRAVITY]
    once = Reading(M.ORIGINAL_GRAVITY, planned.value, B.HYDROMETER)
    other = replace(once, by=B.REFRACTOMETER)
    alone, twice, by_both = (
        width(of_gravity(harbour_porter, *read)) for read in ((once,), (once, once), (once, other))
    )
    assert by_both < 0.95 * twice
    assert 0.85 * alone < twice < alone


def test_a_mark_that_was_filled_up_to_tells_nothing_of_itself_until_the_gravity_is_read(
    harbour_porter,
):
    planned = look_ahead(harbour_porter).forecasts[GRAVITY]
    mark = Reading(M.TOPPED_UP, 10.0, B.MARK)
    assert width(of_gravity(harbour_porter, mark)) == pytest.approx(width(planned), rel=0.02)
    low = Reading(M.ORIGINAL_GRAVITY, planned.low, B.HYDROMETER)
    filled = there(day_measured(harbour_porter, [mark, low]), M.TOPPED_UP)
    assert filled.value > 10.05  # more water than the mark says
    assert width(filled) < width(there(look_ahead(harbour_porter), M.TOPPED_UP))


def test_more_water_than_planned_makes_a_weaker_beer_of_the_same_extract(harbour_porter):
    planned = look_ahead(harbour_porter).day
    mark = Reading(M.TOPPED_UP, 11.0, B.MARK)
    day = day_measured(harbour_porter, [mark]).day
    assert day.fermenter.batch_l == pytest.approx(11.0)
    assert extract_for(day.beer.original_gravity, 11.0) == pytest.approx(
        extract_for(planned.beer.original_gravity, 10.0), rel=1e-4
    )


def test_wort_above_the_mark_is_what_the_pot_gave(harbour_porter):
    """Where nothing has to be topped up, the level tells of the pot."""
    low = replace(
        harbour_porter, process=replace(harbour_porter.process, top_up_to=typed(Kind.VOLUME, 4.0))
    )
    planned = there(look_ahead(low), M.TOPPED_UP)
    assert planned.value > 5.0
    read = planned.value - 0.3
    found = there(day_measured(low, [Reading(M.TOPPED_UP, read, B.SCALE)]), M.TOPPED_UP)
    assert read - 0.05 < found.value < planned.value - 0.1
    assert width(found) < width(planned)


def test_levels_at_the_same_marks_are_off_alike_so_their_ratio_is_known(harbour_porter):
    before = look_ahead(harbour_porter)
    value = there(before, M.INTO_FERMENTER).value
    of_marks, own = (
        Reading(M.INTO_FERMENTER, value, by, half_width=0.25) for by in (B.MARK, B.SCALE)
    )
    assert width(of_gravity(harbour_porter, of_marks)) < 0.95 * width(
        of_gravity(harbour_porter, own)
    )


def test_a_mark_and_the_eye_are_told_apart_in_litres(harbour_porter):
    """A moulded mark is 4 % off, the eye 0.15 L; the fill at 10 L is off by both together."""
    (read,) = observed(harbour_porter, [Told(Reading(M.INTO_FERMENTER, 5.0, B.MARK))])
    at_fill = hypot(0.04, 0.15 / 10.0)
    alike = 0.04**2 / at_fill
    assert read.half_width == pytest.approx(alike)
    assert HALF_WIDTH_SIGMAS * read.deviation == pytest.approx(
        hypot(0.15, 5.0 * sqrt(0.04**2 - alike**2))
    )


def test_the_marks_tell_nothing_of_a_fill_that_was_weighed(harbour_porter):
    weighed = Reading(M.TOPPED_UP, 10.0, B.SCALE)
    value = there(look_ahead(harbour_porter), M.INTO_FERMENTER).value
    by_mark, apart = (
        width(of_gravity(harbour_porter, weighed, Reading(M.INTO_FERMENTER, value, by, 0.25)))
        for by in (B.MARK, B.SCALE)
    )
    assert by_mark == pytest.approx(apart, rel=0.02)


def test_a_dipstick_that_told_both_levels_is_off_alike_in_them(harbour_porter):
    filled = Reading(M.TOPPED_UP, 10.0, B.DIPSTICK, half_width=0.5)
    value = there(look_ahead(harbour_porter), M.INTO_FERMENTER).value
    alike, apart = (
        width(of_gravity(harbour_porter, filled, Reading(M.INTO_FERMENTER, value, by, 0.25)))
        for by in (B.DIPSTICK, B.SCALE)
    )
    assert alike < 0.97 * apart


def test_water_and_wort_at_the_same_marks_tell_nothing_of_those_marks(harbour_porter):
    water = Reading(M.WATER_IN, 6.5, B.MARK)
    value = there(look_ahead(harbour_porter), M.BOIL_START_VOLUME).value
    before, same, other = (
        width(there(day_measured(harbour_porter, [water, *more]), M.WATER_IN))
        for more in (
            [],
            [Reading(M.BOIL_START_VOLUME, value, B.MARK)],
            [Reading(M.BOIL_START_VOLUME, value, B.SCALE)],
        )
    )
    assert same > 0.9 * before
    assert other < 0.8 * before


def test_a_thermometer_that_reads_high_has_read_high_before(harbour_porter):
    cooled = Reading(M.COOLED, 45.0, B.THERMOMETER)
    outlook = day_measured(harbour_porter, [cooled])
    assert there(outlook, M.COOLED).value == pytest.approx(45.0)
    warm = there(outlook, M.MIXED).value + 2.0
    again = day_measured(harbour_porter, [cooled, Reading(M.MIXED, warm, B.THERMOMETER)])
    assert there(again, M.COOLED).value < 44.9


def test_a_mark_whose_doubt_was_typed_stays_as_sure_at_another_level(harbour_porter):
    sure = replace(typed(Kind.VOLUME, 10.0), spread=0.1)
    recipe = replace(harbour_porter, process=replace(harbour_porter.process, top_up_to=sure))
    read = Reading(M.TOPPED_UP, 11.0, B.MARK)
    found = there(day_measured(recipe, [read]), M.TOPPED_UP)
    assert width(found) == pytest.approx(0.2, rel=0.05)


def test_a_coil_raises_the_level_that_is_read_in_the_pot(harbour_porter):
    coiled = replace(
        harbour_porter,
        pot=replace(harbour_porter.pot, coil=typed(Kind.VOLUME, 0.4)),
        process=replace(harbour_porter.process, cooling="coil"),
    )
    outlook = look_ahead(coiled)
    level = there(outlook, M.BOIL_END_VOLUME).value
    assert level == pytest.approx(outlook.day.boil_end_hot_l)
    assert level > there(look_ahead(harbour_porter), M.BOIL_END_VOLUME).value + 0.3


def test_what_a_reading_told_leaves_less_to_be_measured_better(harbour_porter):
    planned = look_ahead(harbour_porter).forecasts[GRAVITY]
    read = Told(Reading(M.ORIGINAL_GRAVITY, planned.value, B.HYDROMETER))
    (_, before), (_, after) = (KnownDay(harbour_porter, told).sampled for told in ((), (read,)))
    mark = "fermenter mark"
    assert after[mark].half_width < 0.95 * before[mark].half_width


def test_the_packet_in_hand_is_that_of_all_its_hops(harbour_porter):
    first = harbour_porter.hops[0]
    twice = replace(
        harbour_porter, hops=(first, replace(first, when=harbour_porter.hops[-1].when, line_id=99))
    )
    read = Reading(M.ALPHA, 0.09, B.PACKET, lines="hops", line_id=first.line_id)
    assert [each.alpha.value for each in as_read(twice, [read]).hops] == [0.09, 0.09]
    own = replace(read, value=0.04, line_id=99)
    assert [each.alpha.value for each in as_read(twice, [read, own]).hops] == [0.09, 0.04]


def test_a_weight_is_that_of_its_line_alone(harbour_porter):
    line = harbour_porter.fermentables[0]
    read = Reading(M.WEIGHT, 1.4, B.SCALE, lines="fermentables", line_id=line.line_id)
    found = as_read(harbour_porter, [read])
    assert found.fermentables[0].amount.value == 1.4
    assert found.fermentables[1:] == harbour_porter.fermentables[1:]
    assert (
        of_gravity(harbour_porter, read).value < look_ahead(harbour_porter).forecasts[GRAVITY].value
    )


def test_how_warm_it_was_steeped_and_how_far_cooled_is_taken_as_read(harbour_porter):
    outlook = day_measured(
        harbour_porter,
        [Reading(M.STEEP, 71.0, B.THERMOMETER), Reading(M.COOLED, 30.0, B.THERMOMETER)],
    )
    assert outlook.day.steep.steeped_c == pytest.approx(71.0)
    assert outlook.day.fermenter.cool_to_c == pytest.approx(30.0)
    assert width(there(outlook, M.COOLED)) == pytest.approx(4.0, rel=0.05)  # ± 2 °C


def test_water_so_hot_before_the_grain_steeps_as_warm_as_the_grain_leaves_it(harbour_porter):
    planned = look_ahead(harbour_porter).day.steep
    hotter = Reading(M.STRIKE, planned.strike_c + 3.0, B.THERMOMETER)
    outlook = day_measured(harbour_porter, [hotter])
    found = outlook.day.steep
    assert width(there(outlook, M.STEEP)) == pytest.approx(4.0, rel=0.05)  # ± 2 °C
    assert found.strike_c == pytest.approx(planned.strike_c + 3.0, abs=0.05)
    assert planned.steeped_c + 2.5 < found.steeped_c < planned.steeped_c + 3.0


def test_a_reading_that_no_error_explains_leaves_a_day_that_can_be(harbour_porter):
    outlook = day_measured(harbour_porter, [Reading(M.ORIGINAL_GRAVITY, 1.46, B.HYDROMETER)])
    for found in outlook.forecasts.values():
        assert 0.0 <= found.low <= found.value <= found.high < 1000.0


def test_a_reading_that_is_said_to_be_exact_is_taken_at_its_word(harbour_porter):
    planned = look_ahead(harbour_porter).forecasts[GRAVITY]
    exact = Reading(M.ORIGINAL_GRAVITY, planned.low, B.HYDROMETER, half_width=0.0)
    found = of_gravity(harbour_porter, exact, exact)
    assert found.value == pytest.approx(planned.low, abs=4e-4)
    assert width(found) < 0.2 * width(planned)


@pytest.mark.parametrize(
    ("reading", "half_width"),
    [
        (Reading(M.BOIL_END_GRAVITY, 1.08, B.HYDROMETER), 0.002),  # home lines, common practice
        (Reading(M.COOLED, 30.0, B.THERMOMETER), 2.0),  # kitchen thermometer, common practice
        (Reading(M.TOPPED_UP, 10.0, B.SCALE), 0.2),  # bathroom scale, common practice
        (Reading(M.WATER_IN, 6.0, B.MARK), 0.24),  # 4 % of every mark: ANSI Z61.1, quoted
        (Reading(M.INTO_FERMENTER, 5.0, B.MARK), 0.25),  # moulded: 4 % and 3 mm by eye
        (Reading(M.ORIGINAL_GRAVITY, 1.06, B.HYDROMETER), 0.00206),  # and half a point of layers
        # 5 mm of foam or 2 mm of a still level, 26 cm across, and 2 % of a dipstick's width
        (Reading(M.BOIL_VOLUME, 6.0, B.DIPSTICK), 0.291),
        (Reading(M.BOIL_END_VOLUME, 6.0, B.DIPSTICK), 0.160),
        (Reading(M.ALPHA, 0.072, B.PACKET, lines="hops"), 0.0),  # of no line
    ],
)
def test_a_reading_is_off_as_its_instrument_usually_is(harbour_porter, reading, half_width):
    assert usual_half_width(harbour_porter, reading) == pytest.approx(half_width, rel=5e-3)
    told = replace(reading, half_width=0.5)
    if half_width:
        assert usual_half_width(harbour_porter, told) == pytest.approx(0.5)


def test_a_hydrometer_that_was_floated_in_water_is_trusted_more(harbour_porter):
    water = typed(Kind.GRAVITY, 1.001, ".3f")
    checked = replace(
        harbour_porter, process=replace(harbour_porter.process, hydrometer_in_water=water)
    )
    read = Reading(M.ORIGINAL_GRAVITY, 1.066, B.HYDROMETER)
    loose, sure = (day_measured(each, [read]) for each in (harbour_porter, checked))
    assert width(sure.forecasts[GRAVITY]) < 0.8 * width(loose.forecasts[GRAVITY])
    advice = {each.key: each.advice for each in loose.forecasts[GRAVITY].causes}
    assert advice["hydrometer"].startswith("float the hydrometer in water")


def test_litres_at_a_mark_are_those_that_it_shows_and_by_weight_those_there_are(harbour_porter):
    """A bucket whose marks hold a twentieth more shows a twentieth less."""
    marks = replace(harbour_porter.fermenter, marks_hold=typed(Kind.FRACTION, 1.05))
    recipe = replace(harbour_porter, fermenter=marks)
    known = KnownDay(recipe, ())
    there = known.expected(M.INTO_FERMENTER).value
    by_mark, by_scale = (
        known.expects(Reading(M.INTO_FERMENTER, 0.0, by)).value for by in (B.MARK, B.SCALE)
    )
    assert by_scale == pytest.approx(there)
    assert by_mark == pytest.approx(there / 1.05)
    in_pot = known.expects(Reading(M.BOIL_END_VOLUME, 0.0, B.MARK))
    assert in_pot.value == pytest.approx(known.expected(M.BOIL_END_VOLUME).value)
