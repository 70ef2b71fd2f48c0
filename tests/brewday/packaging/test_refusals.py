"""What a refusal says, by what is packaged: its words by their ids, its figures reckoned anew.

What bottles bear is judgement (`designer.wort.carbonation`); 30 °C is the warmest that they stand.
"""

from dataclasses import replace
from datetime import date

import pytest

from designer.brewday.bottles import Bottled
from designer.brewday.packaging import refusing
from designer.brewday.packaging.packaged import Bears, Packaged, Packing, Pressure, SugarWanted
from designer.recipe.choices import Package, PrimingSugar
from designer.recipe.quantity import Kind

BEER = Packing(9.6, 2.3, 21.0, 0.003)
KEG = replace(BEER, package=Package.KEG)
AGAIN = date(2026, 4, 11)
BEARS, BURSTS = Bottled("unknown", 2.9, 2.5, 3.0), Bottled("unknown", 3.01, 2.5, 3.0)
NONE = Bottled("not for pressure", 1.2, 0.0, 0.0)


def figures(message):
    return [value for _, value in message.figures]


def points_of(message):
    return str(dict(message.names)["points"])


def test_what_nobody_read_is_dangerous_in_a_keg_otherwise_than_in_bottles():
    words = [refusing.not_read(each, date(2026, 4, 8), AGAIN) for each in (BEER, KEG)]
    assert [each.id for each in words] == ["bottles-not-read", "keg-not-read"]
    for each in words:
        assert "Wed 8 April" in each.text
        assert "Sat 11 April" in each.text


@pytest.mark.parametrize(
    ("packing", "judged", "adds", "words", "told"),
    [
        (KEG, None, 1.5, "keg-unfinished", []),
        (replace(BEER, may_fall=0.0), BURSTS, 1.5, "bottles-not-settled", []),
        (BEER, BURSTS, 0.0, "bottles-not-settled", []),
        (BEER, BURSTS, float("nan"), "bottles-not-settled", []),
        (BEER, BURSTS, 1.5, "bottles-unfinished", [1.5, 3.1, 30.0, 3.0]),
        (BEER, BEARS, 1.5, "bottles-unfinished-within", [1.5]),
        (BEER, None, 1.5, "bottles-unfinished-within", [1.5]),
    ],
)
def test_unfinished_beer_is_told_what_it_may_still_do(packing, judged, adds, words, told):
    found = refusing.unfinished(packing, judged, adds, AGAIN)
    assert found.id == words
    assert figures(found) == pytest.approx(told)
    assert "Sat 11 April" in found.text


@pytest.mark.parametrize(
    ("falls", "words"),
    [(0.001, "1 point"), (0.003, "3 points"), (0.0024, "2.4 points"), (0.00104, "1 point")],
)
def test_points_are_thousandths_of_gravity(falls, words):
    found = refusing.unfinished(replace(BEER, may_fall=falls), BEARS, 1.0, AGAIN)
    assert points_of(found) == words


def test_too_much_pressure_is_told_with_its_way_out():
    aim = BURSTS.comfortable_volumes
    plain = refusing.too_much(BURSTS)
    assert (plain.id, figures(plain)) == ("too-much-pressure", [3.1, 30.0, 3.0, aim])
    with_rest = refusing.too_much(BURSTS, 0.4, AGAIN)
    assert with_rest.id == "too-much-with-what-ferments"
    assert figures(with_rest) == pytest.approx([3.1, 30.0, 3.0, aim - 0.4])
    assert figures(refusing.too_much(BURSTS, 9.0, AGAIN))[-1] == 0.0
    assert refusing.too_much(BURSTS, 0.4).id == "too-much-pressure"  # no day to read again on
    assert refusing.too_much(BURSTS, 0.0, AGAIN).id == "too-much-pressure"
    assert (refusing.too_much(NONE).id, figures(refusing.too_much(NONE))) == (
        "not-for-pressure",
        [1.2],
    )


@pytest.mark.parametrize(
    ("most", "told"), [(3.0, 3.0), (3.001, 3.1), (3.0 + 1e-9, 3.0), (2.95, 3.0)]
)
def test_a_pressure_that_just_exceeds_its_limit_is_told_above_it(most, told):
    assert refusing.most_bar(replace(BURSTS, most_bar=most)) == (
        Kind.PRESSURE,
        pytest.approx(told),
    )


def test_a_warm_keg_and_a_figure_that_is_none():
    found = refusing.too_warm_a_keg(22.0, 3.5)
    assert found.figures == ((Kind.TEMPERATURE, 22.0), (Kind.PRESSURE, 3.5))
    assert "numbers" in refusing.no_figure().text


def test_only_what_nothing_refuses_and_no_tick_waits_for_goes_ahead():
    pressure = Pressure(2.5, 2.0, 2.5, 30.0, 2.5, 3.0)
    sugar = SugarWanted(PrimingSugar.TABLE_SUGAR, 50.0, 5.0)
    one = Packaged(
        Bears.AT_EASE, 0.85, pressure, (sugar,), None, (), frozenset(), 9.5, 0.1, 19
    )  # fmt: skip
    assert (one.may_go_ahead, one.strains) == (True, False)
    assert not replace(one, bears=Bears.REFUSED).may_go_ahead
    assert not replace(one, to_tick=frozenset({"a code"})).may_go_ahead
    assert replace(one, pressure=replace(pressure, warm_bar=2.51)).strains
    assert replace(one, pressure=replace(pressure, warm_bar=float("nan"))).strains
    assert not replace(one, pressure=None).strains
    assert one.sugar(PrimingSugar.TABLE_SUGAR) is sugar
    assert one.sugar(PrimingSugar.DEXTROSE) is None
