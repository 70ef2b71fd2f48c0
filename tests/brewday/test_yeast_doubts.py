"""How much yeast is pitched, and what little or cold yeast leaves. A dry packet holds 11 g."""

from dataclasses import replace

import pytest

from designer.brewday.tolerances import LatinHypercube, Nominal
from designer.brewday.yeast_doubts import YeastIn, pitched_dry_g, yeast_in
from designer.recipe.document import Process, Recipe, Yeast
from designer.recipe.quantity import Quantity
from tests.brewday.quantities import q


def dose(value, unit):
    return Quantity(value, f"{value:g} {unit}", unit=unit)


@pytest.mark.parametrize(
    ("amount", "form", "grams"),
    [
        (dose(7.0, "g"), "dry", 7.0),
        (dose(1.0, "packet"), "dry", 11.0),
        (dose(2.0, "packets"), "dry", 22.0),
        (dose(1.0, "sachet"), "dry", 11.0),
        (dose(3.0, "sachets"), "dry", 33.0),
        (dose(100.0, "mL"), "dry", None),
        (dose(11.0, "g"), "liquid", None),
        (None, "dry", None),
    ],
)
def test_dry_yeast_is_counted_in_grams_or_packets(amount, form, grams):
    assert pitched_dry_g(Yeast(form=form, amount=amount)) == grams


def recipe(pitch_c, lowest=None, **yeast):
    lowest = None if lowest is None else q(lowest, "°C")
    process = Process(pitch_temperature=q(pitch_c, "°C"))
    return Recipe(process=process, yeast=Yeast(lowest=lowest, **yeast))


@pytest.mark.parametrize(
    ("pitch_c", "lowest", "times"),
    [(18.0, 16.0, 0.0), (16.0, 16.0, 0.0), (15.5, 16.0, 0.25), (14.0, 16.0, 1.0),
     (10.0, 16.0, 1.0), (15.0, None, 0.0)],
)  # fmt: skip
def test_yeast_leaves_the_more_the_colder_it_is_down_to_two_degrees_below(pitch_c, lowest, times):
    """One point at the middle of the draws, six at their end; judgement, no source."""
    found = yeast_in(recipe(pitch_c, lowest), LatinHypercube(64)).cold_points
    if not times:
        assert found == 0.0
        return
    assert sorted(found)[31:33] == pytest.approx([times, times], rel=0.1)
    assert 5.0 * times < max(found) <= 8.0 * times
    assert min(found) == 0.0
    assert yeast_in(recipe(pitch_c, lowest), Nominal()).cold_points == 0.0


def test_what_little_yeast_leaves_is_doubtful_only_where_it_is_known_how_much_there_is():
    sampler = LatinHypercube(8)
    assert yeast_in(recipe(19.0, form="dry"), sampler).little_points == 0.0
    assert sampler.tolerances == {}
    some = yeast_in(recipe(19.0, form="dry", amount=dose(11.0, "g")), sampler)
    assert some.dry_g == 11.0
    assert list(sampler.tolerances) == ["too little yeast"]


def test_as_much_yeast_as_is_wanted_leaves_nothing_and_less_leaves_points():
    enough = YeastIn(11.0, 1.0, 0.5)
    assert enough.left_points(11.0) == pytest.approx(0.5)
    assert enough.left_points(55.0) > enough.left_points(27.5) > 0.5
    assert replace(enough, little_points=4.0).left_points(27.5) - 0.5 == pytest.approx(
        4.0 * (enough.left_points(27.5) - 0.5)
    )
    assert YeastIn(None, 1.0, 0.5).left_points(55.0) == 0.5
