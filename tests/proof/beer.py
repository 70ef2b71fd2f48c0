"""Steeping, fermenting, carbonating, treating water."""

from collections.abc import Iterator

from designer.recipe.kind_defaults import FERMENTABLE_DEFAULTS
from designer.wort import (
    carbonation,
    extract,
    fermentation,
    pitching,
    steeping,
    water_treatment,
)
from tests.proof import comparisons
from tests.proof.row import Kind, Row

PAULS = (Kind.PRINTED, "Pauls & Whites, Brewing Room Book, 1984/85, as reprinted")
INFUSION = (Kind.COMPUTED, "Palmer, How to Brew, infusion equation as quoted")
TABLE_9 = "Palmer, How to Brew, 1st ed., table 9, 1 lb in 1 US gal at 160 °F for 30 min"
CUTAIA = (
    Kind.PRINTED,
    "Cutaia, Reid, Speers, J. Inst. Brew. 115 (2009), table III, means of measured brews",
)
ATTENUATION = (Kind.COMPUTED, "apparent attenuation as the trade defines it")
MEBAK = (Kind.COMPUTED, "MEBAK, real attenuation 0.81 of apparent, after Balling")
HIBBERD = (Kind.PRINTED, "Hibberd, A primer on priming, table 2")
HALL = (Kind.QUOTED, "Hall, Zymurgy, Summer 1995, quoted in Homebrew Digest 5471")
HONEY = (
    Kind.COMPUTED,
    "USDA National Nutrient Database (SR), 82.1 % sugars in honey, and the equation of fermenting",
)
CHART = (
    Kind.QUOTED,
    "chart of CO2 after ASBC and Zahm, points printed beside a polynomial through it",
)
MAKERS = (Kind.QUOTED, "data sheets of makers of dry yeast")
TABLETS = (Kind.COMPUTED, "BrewingTechniques as quoted: a tablet of 0.44 g treats 20 US gal")
WATER = (Kind.QUOTED, "Palmer and Kaminski, Water, 2013")

MEASURED = (
    (14.08, 3.11, 4.72, 5.28), (14.54, 2.53, 5.14, 4.88), (17.67, 2.45, 6.56, 5.38),
    (11.34, 2.01, 3.82, 3.8), (12.75, 2.79, 4.21, 4.74),
)  # fmt: skip
GAS_LEFT = (
    (0, 1.7), (4, 1.5), (8, 1.3), (10, 1.2), (12, 1.12), (16, 0.99), (18, 0.93), (20, 0.88),
    (22, 0.83),
)  # fmt: skip
KEG = ((38, 2.5, 11.2), (40, 2.5, 12.3), (50, 2.5, 17.6), (60, 2.0, 15.9))
PSI = 0.0689476


def rows() -> Iterator[Row]:
    yield from _steep()
    yield from _ferment()
    yield from _gas()
    yield from _doses()


def _steep() -> Iterator[Row]:
    for moisture in (3, 4):
        yield Row(*PAULS, f"specific heat of malt of {moisture} % moisture", 0.40,
                  steeping.MALT_SPECIFIC_HEAT, 1e-9)  # fmt: skip
    quarts = 2.0
    litres = quarts * 0.946353 / 0.45359237
    palmer_f = 0.2 / quarts * (152 - 70) + 152
    for name, specific_heat, why, tolerance in (
        ("with its own 0.2", 0.2 * 2.0864, "", 0.02),
        ("with malt at 0.40 of water's heat", 0.40, "0.2 stands for 0.417", 0.5),
    ):
        ours = steeping.strike_temperature((152 - 32) / 1.8, 1.0, litres, (70 - 32) / 1.8,
                                           specific_heat)  # fmt: skip
        yield Row(
            *INFUSION, f"strike for 152 °F at 2 qt/lb, °F, {name}",
            palmer_f, 1.8 * ours + 32, tolerance, why,
        )  # fmt: skip
    ours = FERMENTABLE_DEFAULTS["steeping grain"].extract
    yield Row(
        Kind.COMPUTED, TABLE_9, "medium crystal, 18 of 46.21 points, kg/kg", 18 / 46.21, ours, 0.001
    )
    yield Row(Kind.PRINTED, TABLE_9, "medium crystal by the pound and gallon", 18.0,
              extract.SUCROSE_PPG * ours, 0.05)  # fmt: skip


def _ferment() -> Iterator[Row]:
    for original, apparent, alcohol, real in MEASURED:
        what = f"{original} °P down to {apparent} °P"
        ours = fermentation.alcohol_by_weight(original, apparent)
        yield Row(*CUTAIA, f"alcohol, % by weight, {what}", alcohol, ours, 0.115,
                  "Balling's constants against measured beers")  # fmt: skip
        fitted = fermentation.alcohol_by_weight_cutaia(original, apparent)
        yield Row(*CUTAIA, f"the same by its fit, {what}", alcohol, fitted, 0.12)
        yield Row(*CUTAIA, f"real extract, °P, {what}", real,
                  fermentation.real_extract(original, apparent), 0.195)  # fmt: skip
    ours = fermentation.final_gravity(1.060, 0.80 * fermentation.REAL_PER_APPARENT)
    yield Row(*ATTENUATION, "1.060 at 80 % apparent attenuation", 1.012, ours, 1e-4)
    yield Row(*MEBAK, "real for 75 % apparent attenuation, %", 75 * 0.81,
              75.0 * fermentation.REAL_PER_APPARENT, 0.06)  # fmt: skip


def _gas() -> Iterator[Row]:
    for temp_c, printed in GAS_LEFT:
        ours = carbonation.residual_co2(temp_c)
        yield Row(*HIBBERD, f"gas left at {temp_c} °C, volumes",
                  printed, ours, 0.025)  # fmt: skip
    ours = carbonation.PRIMING_G_L_PER_VOLUME["dextrose anhydrous"] * 3.785412
    yield Row(*HALL, "dextrose for a volume, g a US gallon", 15.195,
              ours, 0.03)  # fmt: skip
    glucose_g = 180.156 / (2.0 * 44.0095) * carbonation.CO2_G_L_PER_VOLUME
    yield Row(*HONEY, "honey for a volume, g a litre", glucose_g / 0.821,
              carbonation.PRIMING_G_L_PER_VOLUME["honey"], 0.02)  # fmt: skip
    for fahrenheit, volumes, printed in KEG:
        ours = carbonation.keg_pressure_bar(volumes, (fahrenheit - 32) / 1.8) / PSI
        yield Row(*CHART, f"{volumes} volumes at {fahrenheit} °F, psi", printed, ours, 0.6,
                  "Henry's law in place of the chart's polynomial")  # fmt: skip
        chart = comparisons.chart_pressure_bar(volumes, (fahrenheit - 32) / 1.8) / PSI
        yield Row(*CHART, f"the same by the polynomial, {fahrenheit} °F, psi", printed, chart, 0.2)


def _doses() -> Iterator[Row]:
    for cool, low, high, why in (
        (False, 0.5, 0.8, ""), (True, 0.8, 1.2, "twice the warm dose, as cells are counted"),
    ):  # fmt: skip
        wanted = float(pitching.dry_yeast_wanted_g(1.0, 12.0, cool=cool))
        kind = "cool" if cool else "warm"
        for end, printed, part in (
            ("least", low, pitching.LOW_PART), ("most", high, pitching.HIGH_PART),
        ):  # fmt: skip
            yield Row(*MAKERS, f"dry yeast, {kind}, 12 °P, {end}, g/L", printed, part * wanted,
                      0.45 if cool else 1e-9, why)  # fmt: skip
    for source, printed in (
        (TABLETS, 440.0 / (20 * 3.785412)),
        (WATER, 9.0),
    ):
        ours = water_treatment.metabisulfite_mg(1.0, 3.0)
        yield Row(*source, "metabisulfite for 3 mg/L of chlorine, mg/L", printed, ours, 2.0,
                  "half as much again as reacts; advice lies on both sides")  # fmt: skip
