"""What parts of a day are, and several days together.

Masses, volumes and heat add up; what is mixed is a mean by volume: laws of physics.
"""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.plan_together import forecasts_mixed, in_share, mixed, one_after_another
from designer.brewday.results import Cause, Contribution, Range
from tests.brewday.days import with_figures
from tests.brewday.quantities import q


@pytest.fixture
def day(harbour_porter):
    return brew(harbour_porter)


@pytest.fixture
def other(harbour_porter):
    process = harbour_porter.process
    return brew(
        replace(
            harbour_porter,
            process=replace(process, top_up_to=q(8, "L"), start_water=q(5, "L")),
            fermentables=harbour_porter.fermentables[1:],
            hops=harbour_porter.hops[:1],
        )
    )


def test_a_quarter_of_a_wort_takes_a_quarter_of_all_that_goes_with_it(day):
    found = in_share(day, 0.25)
    for name in ("lost_to_trub_l", "lost_to_hops_l", "from_pot_l", "top_up_l", "frozen_kg",
                 "batch_l", "iso_mg", "colour_units"):  # fmt: skip
        whole = float(getattr(day.fermenter, name))
        assert getattr(found.fermenter, name) == pytest.approx(0.25 * whole), name
        assert whole > 0.0
    for name in ("packaged_l", "yeast_wanted_g", "water_l"):
        assert getattr(found.beer, name) == pytest.approx(0.25 * float(getattr(day.beer, name)))
    assert found.beer.priming_g == pytest.approx(
        {sugar: 0.25 * grams for sugar, grams in day.beer.priming_g.items()}
    )
    assert found.beer.original_gravity == day.beer.original_gravity
    assert found.fermenter.mixed_c == day.fermenter.mixed_c
    assert in_share(day, 1.0) is day


def test_worts_that_are_mixed_add_up_and_are_a_mean_by_volume(day, other):
    both = mixed([day, other])
    litres = float(day.fermenter.batch_l), float(other.fermenter.batch_l)
    first = litres[0] / sum(litres)
    assert 0.5 < first < 0.6
    assert both.fermenter.batch_l == pytest.approx(sum(litres))
    assert both.fermenter.from_pot_l == pytest.approx(
        float(day.fermenter.from_pot_l) + float(other.fermenter.from_pot_l)
    )
    assert both.beer.yeast_wanted_g == pytest.approx(
        float(day.beer.yeast_wanted_g) + float(other.beer.yeast_wanted_g)
    )
    for name in ("original_gravity", "final_gravity", "abv_percent", "bitterness_ibu",
                 "colour_srm", "kcal_per_100ml"):  # fmt: skip
        one, two = (float(getattr(each.beer, name)) for each in (day, other))
        assert one != pytest.approx(two), name
        assert getattr(both.beer, name) == pytest.approx(first * one + (1.0 - first) * two), name
    assert both.fermenter.mixed_c == pytest.approx(
        first * float(day.fermenter.mixed_c) + (1.0 - first) * float(other.fermenter.mixed_c)
    )
    line = 4
    hops = [float(each.beer.hop_ibu.get(line, 0.0)) for each in (day, other)]
    assert both.beer.hop_ibu[line] == pytest.approx(first * hops[0] + (1.0 - first) * hops[1])
    for sugar, grams in both.beer.priming_g.items():
        assert grams == pytest.approx(day.beer.priming_g[sugar] + other.beer.priming_g[sugar])
    assert mixed([day]) is day


def test_the_highest_of_what_is_highest_goes_for_all(day, other):
    warm = with_figures(other, cool_to_c=41.0, bath_ice_kg=3.0, pot_ibu=99.0)
    cool = with_figures(day, cool_to_c=20.0, bath_ice_kg=1.0, pot_ibu=40.0)
    for days in ([warm, cool], [cool, warm]):
        fermenter = mixed(days).fermenter
        assert (fermenter.cool_to_c, fermenter.bath_ice_kg, fermenter.pot_ibu) == (41.0, 3.0, 99.0)
        assert fermenter.frozen_melted
    assert not mixed([cool, with_figures(warm, frozen_melted=False)]).fermenter.frozen_melted


def test_what_a_line_brings_is_a_mean_by_volume_too(day, other):
    day = replace(with_figures(day, batch_l=15.0), gives={1: Contribution(40.0, 2.0, 0.0)})
    other = replace(
        with_figures(other, batch_l=5.0),
        gives={1: Contribution(20.0, 6.0, 0.0), 7: Contribution(0.0, 0.0, 12.0)},
    )
    gives = mixed([day, other]).gives
    assert gives[1] == Contribution(pytest.approx(35.0), pytest.approx(3.0), 0.0)
    assert gives[7] == Contribution(0.0, 0.0, pytest.approx(3.0))


def test_nothing_mixed_with_nothing_is_no_fault(day):
    none = with_figures(day, batch_l=0.0)
    assert mixed([none, none]).beer.original_gravity == pytest.approx(day.beer.original_gravity)


def test_boils_one_after_another_are_told_as_one_day(day, other):
    day, other = with_figures(day, bath_ice_kg=2.0), with_figures(other, bath_ice_kg=3.0)
    whole = one_after_another([day, other], (0.0, 120.0), 300.0)
    assert whole.total_min == 300.0
    assert whole.began is None
    for part, name in (("steep", "held_in_grain_l"), ("pot", "start_water_l"),
                       ("pot", "boil_start_l"), ("pot", "boil_end_l"), ("pot", "evaporated_l"),
                       ("fermenter", "cooling_min"), ("fermenter", "bath_ice_kg")):  # fmt: skip
        one, two = (float(getattr(getattr(each, part), name)) for each in (day, other))
        assert getattr(getattr(whole, part), name) == pytest.approx(one + two), name
        assert max(one, two) > 0.0
    assert len(whole.spans) == len(day.spans) + len(other.spans)
    assert whole.spans[: len(day.spans)] == day.spans
    later = whole.spans[len(day.spans)]
    assert later.start_min == pytest.approx(other.spans[0].start_min + 120.0)
    assert later.end_min == pytest.approx(other.spans[0].end_min + 120.0)
    assert later.key == other.spans[0].key
    times = [each.time_min for each in whole.additions]
    assert times == sorted(times)
    assert len(times) == len(day.additions) + len(other.additions)
    assert max(times) == pytest.approx(max(each.time_min for each in other.additions) + 120.0)
    assert whole.moments[: len(day.moments)] == day.moments
    assert whole.moments[-1].time_min == pytest.approx(other.moments[-1].time_min + 120.0)
    assert whole.moments[-1].stage == other.moments[-1].stage


def test_one_boil_is_its_own_day_however_long_that_is(day):
    assert one_after_another([day], (0.0,), 300.0) == replace(day, total_min=300.0)


def test_the_fullest_pot_and_the_strongest_boil_are_told_of_all_boils(day, other):
    full = with_figures(day, fullest_l=8.0, fullest_at="steep", boil_gravity_end=1.060)
    strong = with_figures(
        other, fullest_l=6.0, fullest_at="boil", boil_gravity_end=1.110, boiling_c=101.5
    )
    full = with_figures(full, fullest_boiling_l=6.0)
    strong = with_figures(strong, fullest_boiling_l=5.5)
    for days in ([full, strong], [strong, full]):
        pot = one_after_another(days, (0.0, 60.0), 200.0).pot
        assert (pot.fullest_l, pot.fullest_at, pot.fullest_boiling_l) == (8.0, "steep", 6.0)
        assert (pot.boil_gravity_end, pot.boiling_c) == (1.110, 101.5)
        assert pot.reached_boil
    weak = with_figures(strong, reached_boil=False)
    assert not one_after_another([full, weak], (0.0, 60.0), 200.0).pot.reached_boil


ALPHA = Cause("alpha", 0.5, "weigh", 28.0, 34.0)
SCALE = Cause("scale", 0.2, "", 25.0, 40.0)
FIRST = Range(30.0, 24.0, 36.0, (ALPHA,), 28.0, 30.5, 33.0)
SECOND = Range(40.0, 30.0, 50.0, (SCALE, replace(ALPHA, share=0.1, low=32.0, high=48.0)))


def test_ranges_that_are_mixed_are_means_by_volume():
    found = forecasts_mixed([{"ibu": FIRST}, {"ibu": SECOND}], (15.0, 5.0))["ibu"]
    assert (found.value, found.low, found.high) == pytest.approx((32.5, 25.5, 39.5))
    assert (found.first_quartile, found.middle, found.third_quartile) == (None, None, None)
    both = forecasts_mixed([{"ibu": FIRST}, {"ibu": replace(FIRST, middle=32.5)}], (15.0, 5.0))
    assert (both["ibu"].first_quartile, both["ibu"].middle) == pytest.approx((28.0, 31.0))


def test_what_causes_a_range_causes_as_much_of_the_mix_as_it_has_part_in_it():
    """A wort that it does not touch keeps its own range, whatever is known of it."""
    found = forecasts_mixed([{"ibu": FIRST}, {"ibu": SECOND}], (15.0, 5.0))["ibu"]
    alpha, scale = found.causes
    assert (alpha.key, alpha.advice) == ("alpha", "weigh")
    assert alpha.share == pytest.approx(0.75 * 0.5 + 0.25 * 0.1)
    assert (alpha.low, alpha.high) == pytest.approx((29.0, 37.5))
    assert scale.share == pytest.approx(0.05)
    assert (scale.low, scale.high) == pytest.approx((0.75 * 24.0 + 0.25 * 25.0, 37.0))


def test_worts_alike_keep_their_forecasts_and_empty_ones_count_for_nothing():
    assert forecasts_mixed([{"ibu": FIRST}, {"ibu": FIRST}], (1.0, 2.0)) == {"ibu": FIRST}
    found = forecasts_mixed([{"ibu": FIRST}, {"ibu": SECOND}], (10.0, 0.0))["ibu"]
    assert found.value == pytest.approx(30.0)
