"""Grain steeped, wort fermented, beer looked at: what was measured, beside the forecast."""

from collections.abc import Iterator

from designer.brewday.results import Day
from designer.wort.numeric import Numeric
from tests.proof.measurement import Band, Measurement, compared, forecast, recipe_of, wort

STEEPED = "Palmer, How to Brew, 1st ed., table 9, 1 lb in 1 US gal at 160 °F for 30 min"
BATCHES_44 = "Observations on attenuations, article of April 2017, 44 batches of a small brewery"
SLIDES = "Calculating final gravity before you ferment it, slides, beers of Brewing Classic Styles"
SPLIT = "Yeast pitching rate results, article of May 2010, one batch split in two"
DEXTRINOUS = "Palmer, How to Brew, 1st ed., ch. 3, a dry extract rich in dextrin"
BOILED = "a firm for brewing aids, what wort darkens by in its boil"

GRAINS = (
    ("light crystal 10 to 15 °L", "14"), ("pale crystal 25 to 40 °L", "22"),
    ("dark crystal 120 °L", "16"), ("very dark caramel malt", "16"), ("chocolate malt", "15"),
    ("roast barley", "21"), ("black malt", "21"),
)  # fmt: skip
STARCHY = (("brown malt", "8"), ("dextrin malt", "4"))
"""Grains that ought to be mashed; the source marks what it got of them as unconverted starch."""
GALLON_L, POUND_KG = 3.785412, 0.45359237


def rows() -> Iterator[Measurement]:
    yield from _steeped()
    yield from _attenuated()
    yield _underpitched()
    yield from _darkened()


def _steeped() -> Iterator[Measurement]:
    """Each grain without its own yield, as one that the catalogue does not know."""
    for kind, grains in (("steeping grain", GRAINS), ("mash grain", STARCHY)):
        recipe = recipe_of(
            process={"start_water": "1 gal", "steep_temperature": "160 °F", "left_in_pot": "0 L",
                     "steep_time": "30 min", "boil_time": "0 min"},
            fermentables=[{"name": "Grain", "kind": kind, "amount": "1 lb", "when": "steep"}],
        )  # fmt: skip
        band = forecast(recipe, _points_gallons)
        for grain, told in grains:
            yield Measurement(STEEPED, f"points of a pound in a gallon, {grain}", told, band,
                              f"a {kind} of unknown yield")  # fmt: skip


def _points_gallons(day: Day) -> Numeric:
    return 1000.0 * (day.beer.original_gravity - 1.0) * day.fermenter.batch_l / GALLON_L


def _attenuated() -> Iterator[Measurement]:
    what = "apparent attenuation, %, maker's"
    for source, makers, told in (
        (BATCHES_44, "72-77 %", ("79", "86")), (SLIDES, "63-75 %", ("68", "74")),
        (SLIDES, "73-80 %", ("75", "82")),
    ):  # fmt: skip
        band = forecast(_fermented(1.050, makers), _attenuation)
        for end, each in zip(("least", "most"), told, strict=True):
            supposed = "wort of pale extract, 1.050; theirs was mashed"
            why = "mashed dry, and almost all above the makers' range" if each == "86" else ""
            yield Measurement(source, f"{what} {makers}, the {end}", each, band, supposed, why)
    final = forecast(_fermented(1.040, "75 %"), lambda day: day.beer.final_gravity)
    yield Measurement(
        DEXTRINOUS, "final gravity of 1.040", "1.020", final,
        "yeast of 75 %, an unnamed dry extract",
        "made to be dextrinous: its fermentability has to be typed",
    )  # fmt: skip


def _underpitched() -> Measurement:
    few, enough = (_fermented(1.048, "75 %", amount=f"{rate * 24:.1f} g") for rate in (0.29, 0.73))
    return Measurement(
        SPLIT, "points left with 0.29 over those with 0.73 million cells a mL and °P", "1.0",
        compared(few, enough, lambda day: day.beer.final_gravity - 1.0),
        "20 L of 12 °P, dry yeast of 10 thousand million cells a gram",
    )  # fmt: skip


def _fermented(gravity_sg: float, attenuation: str, **yeast: str):
    water, extract = wort(gravity_sg, 20.0)
    return recipe_of(
        process={"start_water": water, "boil_time": "0 min"},
        fermentables=[extract],
        yeast={"name": "Yeast", "attenuation": attenuation, **yeast},
    )


def _attenuation(day: Day) -> Numeric:
    original, final = day.beer.original_gravity, day.beer.final_gravity
    return 100.0 * (original - final) / (original - 1.0)


def _darkened() -> Iterator[Measurement]:
    water, extract = wort(1.050, 20.0)
    recipe = recipe_of(
        process={"start_water": water},
        pot={"volume": "30 L", "power": "5 kW"},
        fermentables=[{**extract, "colour": "4 °L"}],
    )
    band = forecast(recipe, lambda day: day.beer.colour_ebc)
    more = Band(0.0, band.low - band.value, band.high - band.value)
    for told, end in (("2", "least"), ("4", "most")):
        yield Measurement(BOILED, f"darker than computed, EBC, the {end}", told, more,
                          "pale extract of 4 °L, 1.050")  # fmt: skip
