"""The list of forecasts, and what a careful kitchen makes of each tolerance."""

import pytest

from designer.brewday.day import brew, brew_samples
from designer.brewday.malt_doubts import FERMENTABILITY, YIELD
from designer.brewday.measuring_better import better_half_width
from designer.brewday.outlook import look_ahead
from designer.brewday.predictions import MAIN, PREDICTIONS, further
from designer.brewday.tolerances import (
    ALPHA_ACID,
    COLOUR,
    LABEL_BITTERNESS,
    WEIGHT,
    Tolerance,
    input_of,
)
from designer.recipe.quantity import Kind

# key, what handbooks call it, its kind, who is behind its number
FORECASTS = [
    ("original_gravity", "Original gravity", Kind.GRAVITY, "ICUMSA"),
    ("final_gravity", "Final gravity", Kind.GRAVITY, "Balling"),
    ("abv_percent", "Alcohol by volume", Kind.NUMBER, "ASBC"),
    ("bitterness_ibu", "Bitterness", Kind.BITTERNESS, "Tinseth"),
    ("colour_srm", "Colour", Kind.BEER_COLOUR, "Morey"),
    ("colour_ebc", "Colour, EBC", Kind.BEER_COLOUR, "1.97 times SRM"),
    ("kcal_per_100ml", "Energy in 100 mL", Kind.NUMBER, "ASBC"),
    ("kj_per_100ml", "Energy, kJ/100 mL", Kind.NUMBER, "4.184 times kcal"),
]


def test_every_forecast_has_its_handbook_s_name_its_kind_and_its_source():
    """In the order of a brew sheet: strength, bitterness, colour."""
    assert [(each.key, each.label, each.kind) for each in PREDICTIONS] == [
        row[:3] for row in FORECASTS
    ]
    for each, (_, _, _, author) in zip(PREDICTIONS, FORECASTS, strict=True):
        assert author in each.source
        assert not each.source.endswith(".")


def test_every_forecast_reads_the_number_of_its_name(harbour_porter):
    day = brew(harbour_porter)
    for each in PREDICTIONS:
        assert each.compute(day) == getattr(day.beer, each.key)


def test_a_forecast_on_another_scale_is_so_many_of_the_one_it_is_the_same_as(harbour_porter):
    """A calorie is 4.184 J by definition; EBC = 1.97 SRM (ASBC Beer-10 and EBC 9.6)."""
    outlook = look_ahead(harbour_porter)
    for key, other, of_one in (
        ("colour_ebc", "colour_srm", 1.97),
        ("kj_per_100ml", "kcal_per_100ml", 4.184),
    ):
        scaled, main = outlook.forecasts[key], outlook.forecasts[other]
        assert scaled.value == getattr(outlook.day.beer, key)
        for name in ("value", "low", "high", "first_quartile", "middle", "third_quartile"):
            assert getattr(scaled, name) == pytest.approx(of_one * getattr(main, name))
        assert scaled.leans == main.leans
        assert [(cause.key, cause.share, cause.advice) for cause in scaled.causes] == [
            (cause.key, cause.share, cause.advice) for cause in main.causes
        ]
        assert [cause.low for cause in scaled.causes] == pytest.approx(
            [of_one * cause.low for cause in main.causes]
        )


def test_energy_stands_behind_the_alcohol_and_takes_no_row_of_its_own():
    assert [each.key for each in further("abv_percent")] == ["kcal_per_100ml"]
    assert not {"kcal_per_100ml", "kj_per_100ml"} & {each.key for each in MAIN}


# What is usually doubted of an input, and the part that is left, worked by hand.
LEFT = [
    # 2 % of 6.5 L is 0.13 L, a scale reads 0.05
    ("water measured in", Tolerance(6.5, 0.02, True), "weigh the water to 50 g", 0.05 / 0.13),
    ("wort left in the pot", Tolerance(0.6, 0.4, True), "measure what stays in the pot",
     0.05 / 0.24),
    ("water held by grain", Tolerance(1.5, 0.3, False), "weigh the wet bag", 1 / 3),
    ("wort held by hops", Tolerance(5.0, 2.0, False), "weigh the wet hops", 0.5),
    ("kitchen scale", Tolerance(0.25, 0.01, True), "check the scale with a litre of water", 0.3),
    ("attenuation", Tolerance(0.75, 0.04, False),
     "use what this yeast did in your own last beers", 0.5),
    ("syrup left in the tin", Tolerance(0.01, 0.0115, False),
     "rinse the tin with hot wort, or weigh it empty", 0.002 / 0.0115),
    ("extract held in the bag", Tolerance(0.5, 0.5, False),
     "rinse the bag with some of the water", 0.3),
    ("base malt that converts in the steep", Tolerance(0.5, 0.5, False),
     "measure the gravity of the steep once", 0.16),
    (input_of(FERMENTABILITY, "A"), Tolerance(0.61, 0.045, False),
     "ferment a glass of it warm with much yeast, 2 days, and read its end", 1 / 3),
    (input_of(YIELD, "A"), Tolerance(0.39, 0.155, False), "use the steep yield of a handbook",
     0.039 / 0.155),
    ("tap water temperature", Tolerance(12.0, 4.0, False), "measure the tap water", 0.25),
    ("freezer temperature", Tolerance(-18.0, 4.0, False), "measure the freezer", 0.25),
    ("steep yield", Tolerance(0.39, 0.2, True), "measure the gravity of the steep once", 0.4),
    ("stove power", Tolerance(2000.0, 0.15, True), "time how long a known volume takes to heat",
     1 / 3),
    ("efficiency of the stove", Tolerance(0.74, 0.10, False),
     "time how long a known volume takes to heat", 0.37),
    ("cooling constant", Tolerance(1.0, 0.5, False),
     "take two readings of the wort while it cools", 0.3),
    ("temperature of the stand", Tolerance(0.0, 2.0, False),
     "try the thermometer in ice and at the boil", 0.25),
    (input_of(ALPHA_ACID, "A"), Tolerance(0.07, 0.1, True),
     "use the alpha acid printed for this lot, fresh", 0.4),
    # two tenths of a gram of one and a half
    (input_of(WEIGHT, "A, boil 60 min"), Tolerance(0.02, 0.0015, False),
     "weigh the hops to 0.2 g", 2 / 15),
    (input_of(LABEL_BITTERNESS, "A"), Tolerance(25.0, 0.15, True),
     "ask the supplier for the lot's figure", 0.4),
    (input_of(COLOUR, "A"), Tolerance(60.0, 0.15, True), "use the colour on the data sheet", 0.4),
]  # fmt: skip


@pytest.mark.parametrize(("key", "tolerance", "advice", "left"), LEFT, ids=[row[0] for row in LEFT])
def test_each_doubt_that_a_kitchen_can_lessen_has_its_advice(key, tolerance, advice, left):
    """The widths are those of careful kitchens; common practice, no source."""
    assert better_half_width(key, tolerance) == (advice, pytest.approx(left))


def test_every_doubt_of_the_porter_has_advice_but_those_that_no_kitchen_measures(harbour_porter):
    _, tolerances = brew_samples(harbour_porter, 8)
    without = {
        key
        for key, tolerance in tolerances.items()
        if better_half_width(key, tolerance) == ("", 1.0)
    }
    assert without == {
        "heat lost by the pot",
        "bitterness model",
        "effect of gravity on hops",
        "what hops give below the boil",
        "hops that do not dissolve",
        "how much more pellets give than whole hops",
        "colour model",
        "extract that has darkened",
        "fermentability of steeped grain",
    }


def test_an_outlook_is_of_the_day_itself(harbour_porter):
    outlook = look_ahead(harbour_porter, ranges=False)
    assert outlook.day == brew(harbour_porter)
    assert set(outlook.forecasts) == {each.key for each in PREDICTIONS}
    for key, found in outlook.forecasts.items():
        assert found.low == found.value == found.high == getattr(outlook.day.beer, key)
