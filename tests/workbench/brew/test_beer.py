"""The beer in the fermenter as a brew's log tells it: corrected samples, warmth, dates."""

from __future__ import annotations

from dataclasses import replace

import pytest

from designer.brewday.explaining.asked import Drawn, GravitySample, Scale, Stirred, Taken
from designer.brewday.fermenting.beer_readings import refractometer_gravity
from designer.brewday.fermenting.course import Standing
from designer.brewday.measured.readings import By
from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.units import ShownUnits
from designer.workbench.brew.beer import DAY_S, beer_of, beers_of
from designer.workbench.brew.entries import What
from designer.workbench.brew.instants import Instant
from designer.workbench.brew.reckoning import reckoned
from designer.workbench.brew.sample_values import values_of_sample
from tests.workbench.brew.brew_days import STARTS, BrewDay
from tests.workbench.planned_red import two_boils


class Cellar(BrewDay):
    """A brew whose yeast is in, and what is noted of it from day to day."""

    def __init__(self, recipe) -> None:
        super().__init__(recipe)
        self.do_until("fermenter 1/pitch")
        self.pitched_min = self.minute

    def on_day(self, day: float) -> None:
        self.minute = self.pitched_min + 1440.0 * day

    def sample(self, day: float, shown: float, **told) -> str:
        self.on_day(day)
        made = GravitySample(shown, **{"taken": Taken.FERMENTING, "sample_c": 20.0, **told})
        return self.write(What.SAMPLE, sample=values_of_sample(made), typed=f"{shown}")

    def warmth(self, day: float, temp_c: float) -> str:
        self.on_day(day)
        wall = STARTS + 60.0 * self.minute
        return self.write(What.WARMTH, temperatures=[[wall, temp_c]], typed=f"{temp_c}")

    def beer(self, day: float, fermenter: int = 1):
        known = reckoned(self.now, ShownUnits.METRIC, advice=False)
        at = Instant(STARTS + 60.0 * self.pitched_min + DAY_S * day)
        return beer_of(self.now, known, at, fermenter)


@pytest.fixture
def cellar():
    return Cellar(load(resource_path("examples/harbour_lamp_porter.hobwort")))


def test_before_the_yeast_is_in_there_is_no_beer():
    day = BrewDay(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    known = reckoned(day.now, ShownUnits.METRIC, ranges=False)
    assert beers_of(day.now, known, Instant(STARTS)) == ()


def test_from_pitched_to_bottled(cellar):
    assert cellar.beer(0.5).fermenting.standing is Standing.NOT_READ
    assert cellar.beer(20.0).packing.may_fall is None
    cellar.warmth(0.0, 19.0)
    cellar.sample(3.0, 1.027)
    assert cellar.beer(3.0).fermenting.standing is Standing.FERMENTING
    cellar.sample(11.0, 1.013)
    cellar.warmth(12.0, 18.0)
    before = cellar.beer(11.0)
    assert before.fermenting.standing is Standing.NOT_SURE
    assert not before.packing.done
    cellar.sample(14.0, 1.013)
    beer = cellar.beer(14.0)
    assert beer.fermenting.standing is Standing.DONE
    assert beer.packing.done
    assert beer.packing.may_fall == beer.fermenting.may_fall[1]
    assert [each.day for each in beer.readings] == pytest.approx([3.0, 11.0, 14.0])
    when, what = beer.dates[0]
    assert (str(what), when) == ("bottle", beer.when(14.0))


def test_the_beer_really_there_is_less_by_lees_and_samples(cellar):
    known = reckoned(cellar.now, ShownUnits.METRIC, advice=False)
    there = known.outlook.day.beer.packaged_l
    cellar.sample(3.0, 1.027)
    cellar.sample(9.0, 10.0, scale=Scale.BRIX, by=By.REFRACTOMETER)
    assert cellar.beer(9.0).packing.beer_l == pytest.approx(there - 0.1)


def test_a_warm_sample_and_a_hydrometer_that_is_off_are_corrected(cellar):
    # 1.010 at 30 °C is 0.0024 low on an instrument made for 20 °C (computed, ICUMSA density)
    cellar.sample(9.0, 1.010, sample_c=30.0)
    assert cellar.beer(9.0).readings[-1].gravity == pytest.approx(1.0124, abs=0.0002)
    cellar.sample(9.1, 1.010, sample_c=20.0, in_water=1.002)
    found = cellar.beer(9.1).readings[-1]
    assert found.gravity == pytest.approx(1.008, abs=0.00005)
    assert found.half_width == pytest.approx(0.001)


def test_the_time_of_a_sample_and_of_pitching_can_be_set_right(cellar):
    entry = cellar.sample(9.0, 1.013)
    wall = STARTS + 60.0 * cellar.pitched_min
    cellar.write(What.CORRECTS, entry=entry, values={"wall": wall + 8.0 * DAY_S})
    assert cellar.beer(9.0).readings[0].day == pytest.approx(8.0)
    pitched = cellar.now.state_of("fermenter 1/pitch").entry
    cellar.write(What.CORRECTS, entry=pitched, values={"wall": wall + DAY_S})
    assert cellar.beer(9.0).readings[0].day == pytest.approx(7.0)
    cellar.write(What.TAKES_BACK, entry=entry)
    assert cellar.beer(9.0).readings == ()


def test_an_original_gravity_read_after_stirring_counts_one_in_layers_does_not(cellar):
    reckoned_og = cellar.beer(1.0).original
    assert "reckoned" in str(cellar.beer(1.0).original_words)
    told = {"taken": Taken.TOPPED_UP, "drawn": Drawn.MIDDLE}
    cellar.sample(0.0, 1.080, stirred=Stirred.NO, **told)
    assert cellar.beer(1.0).original == reckoned_og
    assert "reckoned" in str(cellar.beer(1.0).original_words)
    cellar.sample(0.0, 1.046, sample_c=20.0, **told)
    assert "as read" in str(cellar.beer(1.0).original_words)
    cellar.sample(0.0, reckoned_og + 0.002, stirred=Stirred.HARD, **told)
    beer = cellar.beer(1.0)
    assert reckoned_og + 0.0005 < beer.original < reckoned_og + 0.002
    assert "read after stirring" in str(beer.original_words)


def test_a_refractometer_uses_its_own_reading_of_the_wort_where_there_is_one(cellar):
    # S. Terrill, Refractometer FG results (2011): 12.5 and 6.2 °Bx, factor 1.04, linear 1.0105
    light = {"scale": Scale.BRIX, "by": By.REFRACTOMETER, "correction": 1.04}
    cellar.sample(0.0, 12.5, taken=Taken.TOPPED_UP, **light)
    cellar.sample(10.0, 6.2, **light)
    beer = cellar.beer(10.0)
    (found,) = beer.samples
    assert found.reading.gravity == pytest.approx(1.0105, abs=0.00005)
    assert found.reading.by_refractometer
    assert beer.fermenting.standing is Standing.NOT_SURE


# S. Terrill, Refractometer FG results (2011), computed from its fits: °Bx of wort and beer as read,
# factor 1.04, final gravity by the linear, the cubic and the older form.
TERRILL = [
    (12.5, 6.2, 1.0485, 1.0105, 1.0115, 1.0082),
    (15.0, 7.5, 1.0587, 1.0128, 1.0131, 1.0098),
    (10.4, 5.2, 1.0400, 1.0089, 1.0103, 1.0074),
    (12.0, 6.5, 1.0464, 1.0120, 1.0130, 1.0112),
]


@pytest.mark.parametrize(("wort", "beer", "og", "linear", "cubic", "older"), TERRILL)
def test_a_refractometers_three_fits_are_told_with_their_error(
    wort, beer, og, linear, cubic, older
):
    light = {"scale": Scale.BRIX, "by": By.REFRACTOMETER, "correction": 1.04}
    before = GravitySample(wort, taken=Taken.TOPPED_UP, **light)
    for known in (before, None):  # of its own sample, and as the original gravity makes it
        found = refractometer_gravity(GravitySample(beer, **light), og, known)
        fits = (found.linear, found.cubic, found.older)
        assert fits == pytest.approx((linear, cubic, older), abs=0.00007)
        assert found.half_width >= 0.002
        assert found.holds
        assert "never tells whether beer is safe" in str(found.words)


def test_a_refractometer_says_nothing_before_most_is_fermented(cellar):
    cellar.sample(2.0, 9.5, scale=Scale.BRIX, by=By.REFRACTOMETER)
    (found,) = cellar.beer(2.0).samples
    assert found.reading is None
    assert "Too early" in str(found.by_refractometer.words)


def test_each_fermenter_has_its_own_samples_and_band():
    shared = Cellar(two_boils())
    for number in (1, 2):
        shared.do_until(f"fermenter {number}/pitch")
    shared.pitched_min = shared.minute
    shared.sample(9.0, 1.013, fermenter=2)
    known = reckoned(shared.now, ShownUnits.METRIC, advice=False)
    first, second = beers_of(shared.now, known, Instant(STARTS + 60.0 * shared.minute))
    assert (first.fermenter, second.fermenter) == (1, 2)
    assert (len(first.readings), len(second.readings)) == (0, 1)
    assert first.packing.beer_l == pytest.approx(second.packing.beer_l + 0.1, abs=0.5)


def test_a_brew_written_down_afterwards_is_pitched_when_its_day_was_over():
    day = BrewDay(load(resource_path("examples/harbour_lamp_porter.hobwort")))
    day.minute = 300.0
    day.write(What.FINISHED)
    known = reckoned(day.now, ShownUnits.METRIC, advice=False)
    found = beer_of(day.now, known, Instant(STARTS + 300.0 * 60.0 + DAY_S))
    assert found.now_day == pytest.approx(1.0)


def test_beer_for_a_keg_counts_no_bottles(cellar):
    process = replace(cellar.recipe.process, package="keg")
    keg = Cellar(replace(cellar.recipe, process=process))
    assert keg.beer(1.0).packing.bottles == ()
    assert cellar.beer(1.0).packing.bottles[0].count > 10
