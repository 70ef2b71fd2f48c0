"""How a figure of a leaflet and a forecast go together, and which slip explains a difference."""

from dataclasses import replace

import pytest

from designer.brewday.day import brew
from designer.brewday.findings_leaflet import _beyond, _off, _points, leaflet_differs
from designer.brewday.leaflet import (
    Verdict,
    _figure,
    _verdict,
    checked,
    is_other_volume,
    stated_band,
)
from designer.brewday.results import Range
from designer.recipe.document import Leaflet, Process, Recipe
from designer.recipe.quantity import Kind, Quantity
from tests.brewday.days import with_figures
from tests.brewday.quantities import q


def gravity(value, spread=None, ends=None):
    return Quantity(value, f"{value:.3f}", spread, ends=ends)


def test_a_stated_figure_has_its_ends_or_its_spread_or_is_one_point():
    assert stated_band(Leaflet(original_gravity=gravity(1.050)), "original_gravity") == (1.05, 1.05)
    spread = Leaflet(original_gravity=gravity(1.050, spread=0.002))
    assert stated_band(spread, "original_gravity") == pytest.approx((1.048, 1.052))
    ends = Leaflet(alcohol=Quantity(0.05, "5 %", ends=(0.045, 0.056)))
    assert stated_band(ends, "abv_percent") == pytest.approx((4.5, 5.6))
    assert stated_band(Leaflet(bitterness=q(30, "IBU")), "bitterness_ibu") == (30.0, 30.0)
    assert stated_band(Leaflet(), "final_gravity") is None


@pytest.mark.parametrize(
    ("makes", "mark", "batch", "other"),
    [
        (20.0, 20.0, 5.0, False),
        (20.0, 20.59, 20.0, False),
        (20.0, 20.61, 20.0, True),
        (20.0, 19.39, 20.0, True),
        (20.0, None, 20.5, False),
        (20.0, None, 19.0, True),
        (None, 20.0, 5.0, False),
    ],
)
def test_a_batch_is_another_from_three_hundredths_on(makes, mark, batch, other):
    recipe = Recipe(
        leaflet=Leaflet(makes=None if makes is None else q(makes, "L")),
        process=Process(top_up_to=None if mark is None else q(mark, "L")),
    )
    assert is_other_volume(recipe, batch) is other


OURS = Range(1.0501, 1.046, 1.054)


@pytest.mark.parametrize(
    ("band", "verdict"),
    [
        ((1.050, 1.050), Verdict.AGREES),
        ((1.046, 1.050), Verdict.AGREES),
        ((1.052, 1.052), Verdict.AGREES),
        ((1.054, 1.054), Verdict.AGREES),
        ((1.055, 1.055), Verdict.DIFFERS),
        ((1.052, 1.058), Verdict.PARTLY),
        ((1.040, 1.046), Verdict.PARTLY),
        ((1.040, 1.045), Verdict.DIFFERS),
        ((1.055, 1.060), Verdict.DIFFERS),
        ((1.040, 1.0499999999), Verdict.AGREES),
    ],
)
def test_a_band_agrees_with_the_forecast_as_it_is_shown_and_a_figure_with_its_range(band, verdict):
    assert _verdict("original_gravity", band, OURS) is verdict


def test_figures_of_alcohol_are_told_as_the_share_that_they_are():
    assert _figure("abv_percent", 5.2) == (Kind.FRACTION, pytest.approx(0.052))
    stated = Quantity(0.05, "5 %")
    assert _figure("abv_percent", stated) == (Kind.FRACTION, stated)
    assert _figure("bitterness_ibu", 30.0) == (Kind.BITTERNESS, 30.0)
    assert _figure("original_gravity", 1.05) == (Kind.GRAVITY, 1.05)


def test_every_figure_is_set_beside_its_own_forecast(harbour_porter):
    leaflet = Leaflet(
        makes=q(10, "L"),
        original_gravity=gravity(1.050),
        final_gravity=gravity(1.030),
        bitterness=q(30, "IBU"),
    )
    forecasts = {
        "original_gravity": OURS,
        "final_gravity": Range(1.012, 1.010, 1.014),
        "bitterness_ibu": Range(29.0, 20.0, 40.0),
    }
    recipe = replace(harbour_porter, leaflet=leaflet)
    found = checked(recipe, forecasts, 10.0)
    assert [(each.key, each.verdict) for each in found] == [
        ("original_gravity", Verdict.AGREES),
        ("final_gravity", Verdict.DIFFERS),
        ("bitterness_ibu", Verdict.AGREES),
    ]
    assert found[2].said.text.endswith("stated 30 IBU; here 29 IBU, 20 IBU to 40 IBU. They agree.")
    other = replace(recipe, process=replace(recipe.process, top_up_to=q(8, "L")))
    assert {each.verdict for each in checked(other, forecasts, 8.0)} == {Verdict.OTHER_VOLUME}
    assert checked(other, forecasts, 8.0)[0].said.text.endswith(", in 8 L.")


def test_strength_is_counted_in_points_and_alcohol_in_tenths_of_a_per_cent():
    assert _points("original_gravity", 1.052) == pytest.approx(52.0)
    assert _points("abv_percent", 5.2) == pytest.approx(52.0)
    assert _beyond("original_gravity", (1.050, 1.060), 1.045) == pytest.approx(5.0)
    assert _beyond("original_gravity", (1.050, 1.060), 1.063) == pytest.approx(3.0)
    assert _beyond("original_gravity", (1.050, 1.060), 1.055) == 0.0


@pytest.mark.parametrize(
    ("band", "value", "off"),
    [
        ((1.050, 1.050), 1.0534, 0.0),
        ((1.050, 1.050), 1.0536, 3.6),
        ((1.050, 1.050), 1.0464, 3.6),
        ((1.040, 1.060), 1.0634, 0.0),
        ((1.040, 1.060), 1.0636, 3.6),
        ((1.020, 1.020), 1.0219, 0.0),
        ((1.020, 1.020), 1.0221, 2.1),
    ],
)
def test_a_difference_is_no_chance_beyond_seven_hundredths_and_two_points(
    harbour_porter, band, value, off
):
    day = with_figures(brew(harbour_porter), original_gravity=value)
    assert _off("original_gravity", band, day) == pytest.approx(off)


def stating(recipe, **stated):
    makes = recipe.process.top_up_to
    return replace(recipe, leaflet=Leaflet(makes=makes, **stated))


def codes(recipe, day):
    return [each.code for each in leaflet_differs(recipe, day)]


@pytest.mark.parametrize(
    ("stated", "found"),
    [
        ({"original_gravity": gravity(1.012)}, ["leaflet-gravities"]),
        ({"original_gravity": gravity(1.0159)}, ["leaflet-gravities"]),
        ({"original_gravity": gravity(1.0161)}, ["leaflet-differs"]),
        ({"final_gravity": gravity(1.050)}, ["leaflet-gravities"]),
        ({"final_gravity": gravity(1.0272)}, ["leaflet-gravities"]),
        ({"final_gravity": gravity(1.0268)}, []),
        (
            {"original_gravity": gravity(1.012), "final_gravity": gravity(1.050)},
            ["leaflet-gravities"],
        ),
        ({"original_gravity": gravity(1.050), "final_gravity": gravity(1.012)}, []),
        ({"original_gravity": gravity(1.050), "final_gravity": gravity(1.050)}, []),
    ],
)
def test_one_gravity_in_the_place_of_the_other_is_asked_about(harbour_porter, stated, found):
    """The beer falls from 1.050 to 1.012."""
    recipe = stating(harbour_porter, **stated)
    day = with_figures(brew(recipe), original_gravity=1.050, final_gravity=1.012)
    assert codes(recipe, day) == found


def test_swapped_gravities_are_put_right_and_next_to_no_fall_tells_nothing(harbour_porter):
    recipe = stating(harbour_porter, original_gravity=gravity(1.012), final_gravity=gravity(1.050))
    day = with_figures(brew(recipe), original_gravity=1.050, final_gravity=1.012)
    (found,) = leaflet_differs(recipe, day)
    after = found.fix.apply(recipe).leaflet
    assert (after.original_gravity.value, after.final_gravity.value) == (1.050, 1.012)
    assert found.mends_typing
    flat = with_figures(day, original_gravity=1.0269)
    assert "leaflet-gravities" not in codes(recipe, flat)


def test_a_slip_that_explains_the_difference_is_asked_and_undone(harbour_porter):
    """The syrup of 1.5 kg typed as 1.5 lb."""
    plain = float(brew(harbour_porter).beer.original_gravity)
    pounds = Quantity(1.5 * 0.45359237, "1.5 lb")
    lines = (
        replace(harbour_porter.fermentables[0], amount=pounds),
        *harbour_porter.fermentables[1:],
    )
    recipe = stating(replace(harbour_porter, fermentables=lines), original_gravity=gravity(plain))
    (found,) = leaflet_differs(recipe, brew(recipe))
    assert "Did you mean 1.5 kg of Light liquid malt extract, not 1.5 lb?" in found.message.text
    assert found.mends_typing
    right = brew(found.fix.apply(recipe)).beer.original_gravity
    assert float(right) == pytest.approx(plain)


def test_a_difference_that_no_slip_explains_is_told_all_the_same(harbour_porter):
    recipe = stating(harbour_porter, original_gravity=gravity(1.072))
    (found,) = leaflet_differs(recipe, brew(recipe))
    assert found.message.text == (
        "The leaflet says 1.072, and this comes to 1.063. Look at amounts and volume again."
    )
    assert found.fix is None
    assert found.about.field == "original_gravity"
    alcohol = stating(harbour_porter, alcohol=Quantity(0.072, "7.2 %"))
    (found,) = leaflet_differs(alcohol, brew(alcohol))
    assert found.message.text.startswith("The leaflet says 7.2 % alcohol, and this comes to 6.2 %.")
    assert found.about.field == "alcohol"
