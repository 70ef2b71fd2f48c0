"""Amounts as a kitchen weighs and pours them.

A pound is 0.45359237 kg, an ounce a sixteenth of it, a US gallon 3.785411784 L (NIST SP 811). The
steps are judgement, no source.
"""

import pytest

from designer.brewday.weighable import FINE, pourable, weighable
from designer.recipe.quantity import Quantity

POUND = 0.45359237
OUNCE, GALLON = POUND / 16.0, 3.785411784


@pytest.mark.parametrize(
    ("grams", "weighed", "finely"),
    [
        (0.2, 1.0, 1.0),
        (8.6, 9.0, 9.0),
        (87.4, 87.0, 87.0),
        (99.4, 99.0, 99.0),
        (103.2, 105.0, 103.0),
        (112.0, 110.0, 112.0),
        (248.0, 250.0, 248.0),
        (263.0, 260.0, 264.0),
        (488.0, 490.0, 488.0),
        (513.0, 500.0, 510.0),
        (984.0, 1000.0, 980.0),
        (1913.0, 1900.0, 1910.0),
        (2040.0, 2000.0, 2040.0),
        (2060.0, 2100.0, 2060.0),
        (3290.0, 3300.0, 3280.0),
    ],
)
def test_the_more_it_is_the_coarser_it_is_weighed_and_a_fifth_as_coarse_where_it_has_to_be(
    grams, weighed, finely
):
    """1 g, from 100 g on 5, from 250 on 10, from 500 on 50, from 2 kg on 100; a gram at least."""
    before = Quantity(1.0, "1 kg")
    assert weighable(grams / 1000.0, before).value == pytest.approx(weighed / 1000.0)
    assert weighable(grams / 1000.0, before, FINE).value == pytest.approx(finely / 1000.0)


def test_a_weight_is_written_as_a_scale_shows_it_and_a_search_has_it_unrounded():
    assert weighable(0.0874, None).text == "87 g"
    assert weighable(2.04, None).text == "2 kg"
    assert weighable(0.0874321, None, 0.0).value == 0.0874321
    assert weighable(0.0874321, None, 0.0).text == "87.4321 g"


@pytest.mark.parametrize(
    ("ounces", "weighed", "finely"),
    [
        (0.01, "0.05 oz", "0.01 oz"),
        (1.03, "1.05 oz", "1.03 oz"),
        (3.88, "3.9 oz", "3.88 oz"),
        (4.12, "4 oz", "4.1 oz"),
        (7.31, "7.25 oz", "7.3 oz"),
        (15.8, "15.75 oz", "15.8 oz"),
        (16.0, "1 lb", "1 lb"),
        (16.6, "1 lb", "1.04 lb"),
        (33.2, "2.1 lb", "2.08 lb"),
    ],
)
@pytest.mark.parametrize("before", ["2.2 lb", "2.2lbs", "2 lb 4 oz", "3 pounds"])
def test_who_weighs_in_ounces_is_told_ounces_and_pounds_from_one_on(
    before, ounces, weighed, finely
):
    before = Quantity(1.0, before)
    found = weighable(ounces * OUNCE, before)
    assert found.text == weighed
    figure, told = weighed.split()
    assert found.value == pytest.approx(float(figure) * {"oz": OUNCE, "lb": POUND}[told])
    assert weighable(ounces * OUNCE, before, FINE).text == finely


def test_an_amount_that_was_empty_is_weighed_in_grams():
    assert weighable(0.05, Quantity(0.0, "")).text == "50 g"
    assert pourable(9.96, Quantity(0.0, "")).text == "10 L"


@pytest.mark.parametrize(
    ("litres", "poured", "finely"),
    [(9.96, "10 L", "9.96 L"), (10.142, "10.1 L", "10.14 L"), (4.06, "4.1 L", "4.06 L")],
)
def test_a_jug_is_read_to_a_decilitre(litres, poured, finely):
    assert pourable(litres, None).text == poured
    assert pourable(litres, Quantity(10.0, "10 L")).text == poured
    assert pourable(litres, None, FINE).text == finely
    assert pourable(litres, None, 0.0).value == litres


@pytest.mark.parametrize("before", ["2.5 gal", "2.5gals", "10 qt", "2 gallons"])
def test_who_measures_in_gallons_is_told_twentieths_of_one(before):
    before = Quantity(10.0, before)
    found = pourable(2.53 * GALLON, before)
    assert found.text == "2.55 gal"
    assert found.value == pytest.approx(2.55 * GALLON)
    assert pourable(2.57 * GALLON, before).text == "2.55 gal"
    assert pourable(2.53 * GALLON, before, FINE).text == "2.53 gal"
