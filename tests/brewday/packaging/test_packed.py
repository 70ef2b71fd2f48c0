"""Packaging: sugar, pressure of the fullest bottle, what is refused, counts, kegs and dates.

Limits of bottles, tolerance of beer that is done, days of conditioning: judgement and common
practice, no source.
"""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from designer.brewday.beer import warmest_after_c
from designer.brewday.day import brew
from designer.brewday.packaging.filling import counted_to_fit, filled_by
from designer.brewday.packaging.fizz import FIZZ, fizz_of, nearest_fizz
from designer.brewday.packaging.kegs import keg_setting, keg_settings
from designer.brewday.packaging.packaged import Bears, BottleSize, Packing, Refused
from designer.brewday.packaging.packed import packaged
from designer.brewday.packaging.sugars import extract_ferments
from designer.brewday.packaging.waiting import condition_days
from designer.library.places import set_field
from designer.recipe.choices import Bottle, Package, PrimingSugar
from designer.recipe.document import BOTTLES
from designer.wort.carbonation import BAR_PER_PSI, most_volumes

TODAY = date(2026, 4, 8)
HALF, HEAVY, SMALL = BottleSize(0.5, 12), BottleSize(0.75, 4, Bottle.HEAVY), BottleSize(0.33, 1)
DONE = Packing(9.6, 2.3, 21.0, 0.0, done=True, bottles=(HALF,))


def grams(packed):
    return {each.sugar.value: each.grams for each in packed.sugars}


@pytest.mark.parametrize(
    ("litres", "warmest_c", "volumes", "sucrose", "dextrose", "extract"),
    # Computed from Hall, Zymurgy, Summer 1995 (residual, quoted), stoichiometry and Balling.
    [
        (19, 20, 2.4, 111.7, 129.2, 207.3),
        (20, 18, 2.5, 121.1, 140.1, 224.7),
        (23, 22, 2.2, 121.7, 140.8, 225.9),
        (10, 12, 2.6, 56.6, 65.5, 105.1),
        (15, 20, 3.0, 122.5, 141.8, 227.4),
    ],
)
def test_sugar_by_its_kind(litres, warmest_c, volumes, sucrose, dextrose, extract):
    strong = (BottleSize(0.75, 6, Bottle.SPARKLING),)
    case = replace(DONE, beer_l=litres, volumes=volumes, warmest_c=warmest_c, bottles=strong)
    found = grams(packaged(replace(case, fermentability=0.62), TODAY))
    assert found["table sugar"] == pytest.approx(sucrose, abs=0.06)
    assert found["dextrose monohydrate"] == pytest.approx(dextrose, abs=0.06)
    assert found["dry malt extract"] == pytest.approx(extract, abs=0.06)
    # USDA: honey is 82 % sugars, nearly all of them glucose and fructose, which ferment alike.
    assert found["honey"] == pytest.approx(found["dextrose anhydrous"] / 0.82, rel=0.002)


def test_the_warmest_since_it_fermented_out_decides_what_gas_is_left():
    """Published: 1.2 volumes at 10 °C, 0.83 at 22 °C, Hibberd, "A primer on priming", table 2."""
    cold, warm = (packaged(replace(DONE, warmest_c=each), TODAY) for each in (10.0, 22.0))
    assert cold.residual_volumes == pytest.approx(1.2, abs=0.025)
    assert warm.residual_volumes == pytest.approx(0.83, abs=0.025)
    assert grams(warm)["table sugar"] > grams(cold)["table sugar"]


@pytest.mark.parametrize("attenuation", [0.62, 0.75, 0.82])
def test_packaging_tells_what_the_day_tells(harbour_porter, attenuation):
    recipe = set_field(harbour_porter, "yeast.attenuation", f"{attenuation * 100:.0f} %")
    beer = brew(recipe).beer
    packing = Packing(
        beer.packaged_l,
        2.3,
        warmest_after_c(recipe.process),
        0.0,
        done=True,
        fermentability=extract_ferments(attenuation),
    )
    packed = packaged(packing, TODAY)
    assert grams(packed) == pytest.approx(beer.priming_g)
    assert set(grams(packed)) == {each.value for each in PrimingSugar}
    assert packed.pressure.warm_bar == beer.bottled.most_bar
    kegged = packaged(replace(packing, package=Package.KEG), TODAY)
    assert kegged.keg[0].bar == pytest.approx(beer.keg_bar)


@pytest.mark.parametrize(
    ("volumes", "at_20", "at_30"),
    # Computed, Henry form: gauge pressure of so many volumes in a bottle.
    [(2.0, 1.40, 2.13), (2.5, 2.00, 2.91), (3.0, 2.60, 3.70), (3.5, 3.20, 4.48), (4.0, 3.80, 5.27)],
)
def test_the_pressure_is_that_of_the_fullest_of_twenty(volumes, at_20, at_30):
    aimed = volumes - 0.4085  # 0.12, 0.3 and 0.25 in quadrature; judgement
    pressure = packaged(replace(DONE, volumes=aimed), TODAY).pressure
    assert pressure.volumes == pytest.approx(volumes, abs=0.001)
    assert pressure.at_20_bar == pytest.approx(at_20, abs=0.01)
    assert (pressure.warm_bar, pressure.warm_c) == (pytest.approx(at_30, abs=0.01), 30.0)


@pytest.mark.parametrize(
    ("kind", "comfortable", "never"),
    # Judgement: gauge pressures warm, and the volumes that they are.
    [
        (Bottle.UNKNOWN, 2.5, 3.0),
        (Bottle.HEAVY, 3.0, 3.5),
        (Bottle.PLASTIC, 4.0, 4.5),
        (Bottle.SPARKLING, 4.5, 5.0),
    ],
)
def test_above_ease_a_caution_is_ticked_and_above_never_there_is_no_sugar(kind, comfortable, never):
    one = replace(DONE, bottles=(BottleSize(0.5, 12, kind),))
    easy = packaged(replace(one, volumes=comfortable - 0.45), TODAY)
    assert (easy.bears, easy.to_tick, easy.may_go_ahead) == (Bears.AT_EASE, frozenset(), True)
    assert easy.pressure.comfortable_volumes == pytest.approx(comfortable, abs=0.05)
    assert easy.pressure.never_volumes == pytest.approx(never, abs=0.05)
    near = replace(one, volumes=never - 0.45)
    strained = packaged(near, TODAY)
    assert (strained.bears, strained.may_go_ahead) == (Bears.CAUTION, False)
    (code,) = strained.to_tick
    assert code.startswith("bottle-strain")
    assert code in dict(strained.cautions)
    ticked = packaged(replace(near, cautions=strained.to_tick), TODAY)
    assert ticked.may_go_ahead
    assert code in dict(ticked.cautions)  # said and printed all the same
    otherwise = replace(near, volumes=near.volumes - 0.1, cautions=strained.to_tick)
    assert packaged(otherwise, TODAY).to_tick  # what tells another pressure is ticked anew
    over = replace(one, volumes=never - 0.35, cautions=strained.to_tick)
    refused = packaged(over, TODAY)
    assert (refused.bears, refused.refused_for) == (Bears.REFUSED, Refused.PRESSURE)
    assert (refused.sugars, refused.may_go_ahead) == ((), False)


def test_the_weakest_bottle_that_is_filled_decides():
    heavy = replace(DONE, volumes=2.8, bottles=(HEAVY,))
    assert packaged(heavy, TODAY).bears is Bears.CAUTION
    assert packaged(replace(heavy, bottles=(HEAVY, SMALL)), TODAY).bears is Bears.REFUSED
    none_filled = replace(SMALL, count=0)
    assert packaged(replace(heavy, bottles=(HEAVY, none_filled)), TODAY).bears is Bears.CAUTION
    assert packaged(replace(heavy, bottles=()), TODAY).pressure.kind is Bottle.UNKNOWN


@pytest.mark.parametrize("done", [True, False])
@pytest.mark.parametrize("volumes", [0.0, 0.5, 2.3])
def test_bottles_not_for_pressure_are_refused_without_sugar_too(volumes, done):
    jars = (HEAVY, BottleSize(1.0, 2, Bottle.NOT_FOR_PRESSURE))
    refused = packaged(replace(DONE, volumes=volumes, bottles=jars, done=done), TODAY)
    assert refused.refused_for is Refused.NOT_FOR_PRESSURE
    assert (refused.sugars, refused.to_tick) == ((), frozenset())
    assert "not made for pressure" in str(refused.refusal)


@pytest.mark.parametrize("package", list(Package))
@pytest.mark.parametrize(
    ("may_fall", "done", "why"),
    [
        (None, False, Refused.NOT_READ),
        (None, True, Refused.NOT_READ),
        (0.0, False, Refused.UNFINISHED),
        (0.001, False, Refused.UNFINISHED),
        (0.002, True, Refused.UNFINISHED),
    ],
)
def test_unfinished_beer_is_refused_and_told_when_to_read_again(may_fall, done, why, package):
    unfinished = replace(DONE, may_fall=may_fall, done=done, package=package)
    refused = packaged(unfinished, TODAY, date(2026, 4, 12))
    assert (refused.refused_for, refused.sugars) == (why, ())
    assert "Sun 12 April" in str(refused.refusal)
    twice = date(2026, 4, 15 if may_fall is None else 12)  # nothing is told of one reading
    assert refused.dates[0][0] == refused.dates[1][0] == twice
    assert packaged(unfinished, TODAY).dates[0][0] == date(2026, 4, 11)


@pytest.mark.parametrize("kind", BOTTLES)
def test_what_still_ferments_adds_half_a_volume_a_point(kind):
    """0.50 volumes a point, computed by Balling: four points left are two volumes."""
    unfinished = replace(DONE, may_fall=0.004, done=False, bottles=(BottleSize(0.5, 9, kind),))
    found, settled = packaged(unfinished, TODAY), packaged(replace(unfinished, may_fall=0.0), TODAY)
    assert found.unfinished_volumes == pytest.approx(2.0)
    assert found.pressure.volumes > settled.pressure.volumes + 1.6
    assert found.pressure.warm_bar > settled.pressure.warm_bar


@pytest.mark.parametrize("may_come", [0.2, 0.5, 1.0, 2.0])
def test_one_bottle_of_twenty_holds_more_than_the_fullest(may_come):
    """Computed: 400,000 bottles whose doubts are drawn; what may come is spread evenly, or most of
    the time little."""
    draws = np.random.default_rng(17)
    doubts = sum(draws.normal(0.0, each / 1.645, 400_000) for each in (0.12, 0.3, 0.25))
    most = most_volumes(2.3, may_come)
    evenly = 2.3 + doubts + draws.uniform(0.0, may_come / 0.95, 400_000)
    little = 2.3 + doubts + draws.exponential(may_come / 3.0, 400_000)
    assert 0.02 < (evenly > most).mean() < 0.0505
    assert (little > most).mean() < 0.0505
    assert (2.3 + doubts > most_volumes(2.3)).mean() == pytest.approx(0.05, abs=0.002)


@pytest.mark.parametrize(
    ("first", "days"),
    [
        (None, ("Wed 8 April", "Sat 11 April")),
        (date(2026, 4, 15), ("Wed 15 April", "Sat 18 April")),
    ],
)
def test_beer_that_nobody_read_is_read_when_it_is_due_and_again_three_days_on(first, days):
    unread = packaged(replace(DONE, may_fall=None), TODAY, first)
    assert "Read the gravity on {} and again on {}.".format(*days) in str(unread.refusal)


def test_what_may_still_ferment_of_finished_beer_is_counted_and_another_reading_helps():
    heavy = replace(DONE, may_fall=0.001, bottles=(HEAVY,))
    assert packaged(heavy, TODAY).bears is Bears.CAUTION
    unknown = packaged(replace(heavy, bottles=(HALF,), may_fall=0.0012), TODAY)
    assert unknown.refused_for is Refused.PRESSURE
    assert "read again on Sat 11 April" in str(unknown.refusal)
    assert (unknown.dates[0][0], unknown.sugars) == (date(2026, 4, 11), ())
    assert packaged(replace(heavy, bottles=(HALF,), may_fall=0.0004), TODAY).sugars


@pytest.mark.parametrize("broken", [float("nan"), float("inf"), -float("inf")])
@pytest.mark.parametrize("field", ["beer_l", "volumes", "warmest_c", "may_fall", "fermentability"])
def test_a_figure_that_is_none_is_refused(field, broken):
    refused = packaged(replace(DONE, **{field: broken}), TODAY)
    assert (refused.bears, refused.sugars) == (Bears.REFUSED, ())


def test_beer_with_gas_enough_gets_no_sugar():
    """Published: 1.7 volumes are left at 0 °C; Hibberd, "A primer on priming", table 2."""
    found = packaged(replace(DONE, volumes=1.2, warmest_c=0.0), TODAY)
    assert set(grams(found).values()) == {0.0}
    assert found.aimed_volumes == pytest.approx(1.71, abs=0.01)


def test_bottles_are_counted_to_fit_the_beer():
    assert filled_by(0.5, Bottle.HEAVY, 9.6) == BottleSize(0.5, 19, Bottle.HEAVY)
    assert filled_by(0.3, Bottle.UNKNOWN, 9.6).count == 32
    mixed = counted_to_fit((HALF, HEAVY, SMALL), 9.6)
    left = 9.6 - sum(each.count * each.litres for each in mixed)
    assert 0.0 <= left < 0.03
    assert [each.kind for each in mixed] == [HALF.kind, HEAVY.kind, SMALL.kind]
    assert counted_to_fit((HALF, HEAVY), 0.2) == (replace(HALF, count=0), replace(HEAVY, count=0))
    many = counted_to_fit(tuple(BottleSize(0.3 + 0.01 * each, 0) for each in range(20)), 5000.0)
    assert sum(each.count * each.litres for each in many) == pytest.approx(5000.0, abs=0.3)


def test_what_is_filled_left_over_and_empty_adds_up():
    found = packaged(replace(DONE, bottles=(HALF, HEAVY, SMALL)), TODAY)
    assert (found.filled_l, found.left_over_l) == (pytest.approx(9.33), pytest.approx(0.27))
    assert (found.caps, found.empty_bottles) == (17, 0)
    short = packaged(replace(DONE, beer_l=7.0, bottles=(HALF, HEAVY, SMALL)), TODAY)
    assert (short.filled_l, short.left_over_l) == (pytest.approx(7.0), 0.0)
    assert short.empty_bottles == 5  # four of 750 mL and eight of 500 mL take 7 L


@pytest.mark.parametrize(
    ("fahrenheit", "volumes", "psi"),
    # Published: the table printed with the polynomial fit to the ASBC/Zahm chart.
    [(38, 2.5, 11.2), (40, 2.5, 12.3), (50, 2.5, 17.6)],
)
def test_a_keg_is_set_as_the_chart_says(fahrenheit, volumes, psi):
    setting = keg_setting(volumes, (fahrenheit - 32) / 1.8)
    assert setting.bar / BAR_PER_PSI == pytest.approx(psi, abs=0.35)
    assert (setting.fewest_days, setting.days, setting.shaken_min) == (7.0, 10.0, 20.0)


def test_a_keg_takes_pressure_and_no_sugar():
    found = packaged(replace(DONE, package=Package.KEG, keg_c=4.0), TODAY)
    assert (found.sugars, found.pressure, found.caps) == ((), None, 0)
    assert found.may_go_ahead
    assert [each.temp_c for each in found.keg[:2]] == [4.0, 2.0]
    assert {"keg-limit", "keg-open", "gas-bottle"} == dict(found.cautions).keys()
    assert [(day.day, str(what)) for day, what in found.dates[:2]] == [
        (15, "taste a glass from the keg"),
        (18, "the keg is ready"),
    ]


def test_a_keg_is_never_set_to_more_than_it_should_get():
    found = packaged(replace(DONE, package=Package.KEG, volumes=4.5, keg_c=25.0), TODAY)
    assert found.refused_for is Refused.WARM_KEG
    assert all(each.bar <= 3.5 for each in keg_settings(4.5, 25.0))


def test_bottles_are_ready_after_two_weeks_sooner_when_warm_and_later_when_cold():
    (tasted, _), (_, _), (by, _) = packaged(DONE, TODAY).dates
    assert (tasted, by) == (date(2026, 4, 22), date(2026, 10, 5))
    warm, usual, cool, cold = (condition_days(2.3, each) for each in (24.0, 20.0, 10.0, -40.0))
    assert (warm, usual, cool, cold) == (11, 14, 28, 42)
    assert condition_days(3.5, 20.0) == 21


def test_plain_words_stand_for_volumes():
    """Common practice, no source."""
    assert [each.word for each in FIZZ] == ["soft", "usual", "lively", "sparkling"]
    assert sorted(each.volumes for each in FIZZ) == [each.volumes for each in FIZZ]
    assert fizz_of(" Lively").volumes == nearest_fizz(2.55).volumes == 2.6
    assert fizz_of("very") is None


@pytest.mark.parametrize(
    ("sizes", "beer_l", "counts"),
    [
        # 0.75 and 0.5: 2.25 L fill three large ones, or one large one and three small ones.
        ((0.75, 0.5), 2.25, (3, 0)),
        ((0.75, 0.5), 2.0, (2, 1)),
        ((0.75, 0.5), 1.0, (0, 2)),
        ((0.5, 0.33), 1.16, (1, 2)),
        ((0.5,), 1.49, (2,)),
        ((0.5,), 1.5, (3,)),
        ((0.5,), -1.0, (0,)),
        ((0.0, 0.5), 1.0, (0, 2)),
        ((1.0, 0.75, 0.5), 1.25, (0, 1, 1)),
        ((), 5.0, ()),
    ],
)
def test_little_is_left_over_with_the_fewest_bottles(sizes, beer_l, counts):
    fitted = counted_to_fit(tuple(BottleSize(each, 7) for each in sizes), beer_l)
    assert tuple(each.count for each in fitted) == counts


def test_beer_that_is_done_may_still_fall_by_a_point_and_a_half():
    strong = replace(DONE, volumes=1.0, bottles=(BottleSize(0.5, 12, Bottle.SPARKLING),))
    assert packaged(replace(strong, may_fall=0.0015), TODAY).sugars
    assert packaged(replace(strong, may_fall=0.0016), TODAY).refused_for is Refused.UNFINISHED


def test_what_comes_after_the_end_of_the_calendar_is_left_out():
    last = date.max
    assert packaged(DONE, last).dates == ()
    unread = packaged(replace(DONE, may_fall=None), last)
    assert unread.refused_for is Refused.NOT_READ
    assert unread.dates[0][0] == last


def test_large_bottles_are_filled_first_and_a_keg_leaves_nothing():
    two = BottleSize(0.33, 4), BottleSize(0.75, 2)
    assert packaged(replace(DONE, beer_l=1.9, bottles=two), TODAY).empty_bottles == 3
    assert packaged(replace(DONE, beer_l=0.0, bottles=two), TODAY).empty_bottles == 6
    keg = packaged(replace(DONE, beer_l=1.9, bottles=two, package=Package.KEG), TODAY)
    assert (keg.filled_l, keg.left_over_l, keg.empty_bottles) == (1.9, 0.0, 0)


def test_lively_bottles_take_a_week_longer_and_none_is_ready_before_ten_days():
    assert condition_days(3.0, 20.0) == 14
    assert condition_days(3.01, 20.0) == 21
    assert condition_days(2.3, 40.0) == 10
    assert condition_days(2.3, 15.0) == 20  # 14 days times the root of two
    assert condition_days(2.3, 4.0) == 42
