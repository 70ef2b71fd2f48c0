"""What may still be changed, by steps of a scale, a jug and a clock, and the search among steps.

Units by their definitions: a gallon 3.785411784 L, a pound 0.45359237 kg, 16 oz (NIST SP 811). The
best steps are those of trying all of them.
"""

from itertools import product

import pytest

from designer.brewday.measured.advice_levers import step_kg, step_l, stepped_kg, stepped_l, unit_of
from designer.brewday.measured.advice_search import Search, _lowest, off_by
from designer.brewday.measured.boil_lever import BoilTime
from designer.brewday.measured.line_levers import Added, Weighed
from designer.brewday.measured.water_levers import Ice, TopUp
from designer.brewday.results import Range
from designer.recipe.document import Fermentable, Hop
from designer.recipe.kinds import typed
from designer.recipe.quantity import Kind, Quantity, Stage, When

GALLON, POUND = 3.785411784, 0.45359237
OUNCE = POUND / 16.0


def in_(figure, unit, base):
    return Quantity(figure * base, f"{figure:g} {unit}")


LITRES, GALLONS = typed(Kind.VOLUME, 10.0), in_(2.5, "gal", GALLON)
KILOS, OUNCES, POUNDS = typed(Kind.MASS, 0.5), in_(8, "oz", OUNCE), in_(3.3, "lb", POUND)
BOIL_60 = When(Stage.BOIL, "boil 60 min", 60.0)


def test_a_jug_is_read_to_a_decilitre_or_a_twentieth_of_a_gallon():
    assert step_l(LITRES) == 0.1
    assert step_l(GALLONS) == pytest.approx(0.05 * GALLON)
    assert stepped_l(LITRES, 10.0, 4).text == "10.4 L"
    assert stepped_l(LITRES, 10.0, -3).value == pytest.approx(9.7)
    assert stepped_l(GALLONS, 2.5 * GALLON, 2).text == "2.6 gal"
    assert stepped_l(GALLONS, 2.5 * GALLON, -1).value == pytest.approx(2.45 * GALLON)


def test_a_scale_is_read_to_what_is_weighed_on_it():
    assert (step_kg(KILOS, "fermentables"), step_kg(KILOS, "hops")) == (0.01, 0.001)
    assert step_kg(None, "hops") == 0.001
    assert step_kg(OUNCES, "fermentables") == pytest.approx(0.5 * OUNCE)
    assert step_kg(OUNCES, "hops") == pytest.approx(0.05 * OUNCE)
    assert stepped_kg(KILOS, 0.5, 3, "fermentables").value == pytest.approx(0.53)
    assert stepped_kg(KILOS, 0.02, -3, "hops").value == pytest.approx(0.017)
    assert stepped_kg(OUNCES, 8 * OUNCE, 3, "fermentables").text == "9.5 oz"
    assert stepped_kg(OUNCES, 8 * OUNCE, 20, "fermentables").text == "18 oz"
    more = stepped_kg(POUNDS, 3.3 * POUND, 4, "fermentables")
    assert more.text == "3.425 lb"
    assert more.value == pytest.approx(3.425 * POUND)
    assert stepped_kg(POUNDS, 0.5 * POUND, 2, "fermentables").text == "9 oz"
    both = Quantity(2.25 * POUND, "2 pounds 4 oz")
    assert stepped_kg(both, 2.25 * POUND, 1, "fermentables").text == "2.281 lb"
    assert stepped_kg(None, 0.0, 9, "fermentables").value == pytest.approx(0.09)
    assert unit_of(GALLONS) == "gal"
    assert unit_of(Quantity(1.0, "")) == ""


def mark(**more):
    return TopUp((1,), 1, False, LITRES, 10.0, -5, 9, **more)


def test_a_mark_is_topped_up_to_and_water_poured_in_once_it_was():
    plain = mark()
    assert plain.said(4).text == "Top up to 10.4 L, not 10 L"
    assert (plain.use(4).text, plain.keep(4).text) == ("Use 10.4 L", "Keep 10 L")
    assert plain.changes(4) == (
        {"part": "process", "field": "top_up_to", "to": "10.4 L", "fermenter": 0},
    )
    after = mark(is_after=True)
    assert after.said(4).text == "Pour in 0.4 L more water"
    assert (after.use(4).text, after.keep(4).text) == ("Add 0.4 L", "No water")
    assert after.changes(4)[0]["more_l"] == pytest.approx(0.4)
    new = mark(is_new=True)
    assert (new.said(2).text, new.keep(2).text) == ("Top up to 10.2 L", "No water")
    assert mark(of_many=True).said(4).text == "Fermenter 1: Top up to 10.4 L, not 10 L"
    two = TopUp((1, 2), 1, True, LITRES, 10.0, 0, 9)
    assert two.said(4).text == "Top up each to 10.4 L, not 10 L"
    assert [each["fermenter"] for each in two.changes(1)] == [1, 2]
    assert (plain.code, after.code) == ("top-up:1", "water:1")
    assert plain.effort(5) == pytest.approx(0.2 * 0.5 / 10.0)
    assert plain.effort(-5) == pytest.approx(1.0 * 0.5 / 10.0)


def test_ice_is_never_more_than_was_frozen_nor_less_than_none():
    ice = Ice(1, 1, False, typed(Kind.MASS, 1.5), -15)
    assert ice.said(-3).text == "Put in 1.2 kg of ice, not 1.5 kg"
    assert (ice.use(-3).text, ice.keep(-3).text) == ("Use 1.2 kg", "Keep 1.5 kg")
    assert (ice.said(-15).text, ice.use(-16).text) == ("Put in no ice", "No ice")
    assert ice.effort(-3) == 0.0
    assert ice.changes(-3)[0]["fermenter"] == 0
    assert Ice(2, 1, True, LITRES, -3).changes(0)[0]["fermenter"] == 2
    pounds = Ice(1, 1, False, in_(3, "lb", POUND), -4)
    assert pounds.said(-1).text == "Put in 2.938 lb of ice, not 3 lb"  # an ounce less
    grams = Ice(1, 1, False, Quantity(1.5, "1500 g"), -15)
    assert grams.said(-3).text == "Put in 1200 g of ice, not 1500 g"


def hop(minutes, grams=20):
    when = When(Stage.BOIL, f"boil {minutes} min", float(minutes))
    return Hop(
        "Challenger", "pellets", None, Quantity(grams / 1000.0, f"{grams} g"), when, line_id=7
    )


def test_a_line_is_kept_back_or_more_of_it_put_in():
    early, late = (Weighed("hops", hop(each), 1, False, -10, 10) for each in (60, 10))
    assert early.said(-4).text == "Keep back 4 g of the Challenger"
    assert early.said(4).text == "Put in 4 g more Challenger"
    assert (early.use(-4).text, early.keep(-4).text) == ("Use 16 g", "Keep 20 g")
    last = Weighed("hops", hop(10), 1, True, -10, 10, is_last=True)
    assert last.said(-4).text == "Keep back 4 g of the last hops"
    assert last.changes(-4)[0]["boil"] == 1
    assert early.changes(-4)[0]["boil"] == 0
    assert early.effort(-4) == early.effort(4) == pytest.approx(0.15 * 0.2)
    assert late.effort(4) == pytest.approx(0.4 * 0.2)
    at_limit = Weighed("hops", hop(20), 1, False, -10, 10)
    assert at_limit.effort(4) == pytest.approx(0.15 * 0.2)
    syrup = Fermentable("Syrup", "liquid extract", typed(Kind.MASS, 1.5), When(Stage.BOIL, "", 5.0))
    assert Weighed("fermentables", syrup, 1, False, -9, 9).effort(3) == pytest.approx(0.15 * 0.02)


def test_extract_of_its_own_has_to_be_in_the_house():
    line = Fermentable("Light dry malt extract", "dry extract", None, BOIL_60, line_id=1001)
    added = Added(line, 1, False, None, 50)
    assert added.said(9).text == "Add 90 g Light dry malt extract"
    assert (added.use(9).text, added.keep(9).text) == ("Add 90 g", "Add none")
    assert added.effort(25) == pytest.approx(0.15 * 0.5 + 0.06)
    assert Added(line, 1, False, None, 0).effort(2) == pytest.approx(0.15 * 2 + 0.06)
    (change,) = Added(line, 2, True, None, 50, of_many=True).changes(9)
    assert (change["line_id"], change["boil"], change["add"]["when"]) == (1001, 2, "boil 60 min")
    many = Added(line, 2, True, None, 50, of_many=True)
    assert many.said(9).text.startswith("Wort of boil 2: Add 90 g")


def test_a_boil_is_longer_for_all_that_went_in():
    boil = BoilTime(1, False, typed(Kind.TIME, 60.0), (("hops", hop(60)),), -15, 30)
    assert (boil.said(8).text, boil.said(-8).text) == ("Boil 8 min longer", "Boil 8 min less")
    assert (boil.use(8).text, boil.keep(8).text) == ("Boil 68 min", "Keep 60 min")
    assert boil.effort(-15) == pytest.approx(0.3 * 0.25)
    time, moved = boil.changes(8)
    assert (time["to"], time["longer"], moved["to"], moved["boil"]) == (
        "68 min",
        8,
        "boil 68 min",
        0,
    )
    assert BoilTime(2, True, typed(Kind.TIME, 60.0), (), 0, 9).changes(1)[0]["boil"] == 2


# The search.
def test_a_miss_is_told_in_half_bands_of_its_side_and_never_of_less_than_can_be_told():
    band = Range(10.0, 8.0, 14.0)
    assert off_by(12.0, band, 0.1) == pytest.approx(0.5)
    assert off_by(9.0, band, 0.1) == pytest.approx(-0.5)
    assert off_by(12.0, band, 8.0) == pytest.approx(0.25)


@pytest.mark.parametrize("lowest", range(-20, 21))
@pytest.mark.parametrize(("low", "high"), [(-20, 20), (-3, 17), (-20, 0), (0, 20), (5, 9), (2, 2)])
def test_the_lowest_of_a_valley_is_found_and_a_dip_at_nought(lowest, low, high):
    def cost(steps):
        return abs(steps - lowest)

    found = _lowest(cost, low, high)
    assert cost(found) == min(cost(each) for each in range(low, high + 1))
    if low <= 0 <= high:
        assert _lowest(lambda each: cost(each) + (0.0 if each == 0 else 99.0), low, high) == 0


def test_the_best_steps_are_those_of_trying_all():
    ends = [(-6, 6), (0, 8), (-4, 0)]
    slopes = [{"a": 1.0, "b": 0.2}, {"a": -0.5, "b": 1.0}, {"a": 0.1, "b": 0.4}]
    start = {"a": 3.2, "b": -4.1}

    def values(steps):
        return {
            key: start[key] + sum(n * each[key] for n, each in zip(steps, slopes, strict=True))
            for key in start
        }

    def cost(found):
        return found["a"] ** 2 + found["b"] ** 2

    def effort(place, steps):
        return 0.01 * abs(steps)

    def whole(steps):
        return cost(values(steps)) + sum(0.04 + effort(0, n) for n in steps if n)

    found = Search(values, ends, cost, effort).best()
    every = product(*(range(low, high + 1) for low, high in ends))
    assert whole(found[0].steps) == pytest.approx(min(map(whole, every)), abs=0.02)
    assert found[0].values == pytest.approx(values(found[0].steps))
    assert found[-1].steps == (0, 0, 0)
    assert [whole(each.steps) for each in found[:-1]] == sorted(
        whole(each.steps) for each in found[:-1]
    )


def test_where_nothing_can_be_changed_nothing_is():
    found = Search(lambda _: {"a": 3.0}, [(0, 0)], lambda each: each["a"], lambda *_: 0.0).best()
    assert [each.steps for each in found] == [(0,)]
