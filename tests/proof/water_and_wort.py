"""Water, wort and sugar: standards, sucrose tables and the handbook's conversions.

A source stands beside the kind of figure that was taken from it.
"""

import warnings
from collections.abc import Iterator

from designer.wort import density, extract, heat, hydrometer, water
from tests.proof import comparisons
from tests.proof.row import Kind, Row

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from iapws import IAPWS95

GALLON_L, POUND_KG = 3.785412, 0.45359237
STANDARD = (Kind.LIBRARY, "IAPWS-95, run by the package iapws")
NBS = (
    Kind.PRINTED,
    "NBS Circular 440, sucrose table reprinted by the students' physics laboratory of Nicolaus "
    "Copernicus University",
)
BEET = (Kind.PRINTED, "Asadi, Beet-Sugar Handbook, Wiley 2006, table A.1")
BARREL = (Kind.QUOTED, "ASBC table, quoted by Mallett, Malt")
CUBIC = (Kind.COMPUTED, "cubic fitted to ASBC table 1, quoted by A. J. deLange")
APPENDIX = (Kind.PRINTED, "Palmer, How to Brew, 1st ed., appendix A")
POINTS = (Kind.PRINTED, "Palmer, How to Brew, 1st ed., points by the pound")
CHAPTER_3 = (Kind.PRINTED, "Palmer, How to Brew, 1st ed., ch. 3.4")
TABLE_9 = (Kind.PRINTED, "Palmer, How to Brew, 1st ed., table 9")
RULE_OF_POINTS = (Kind.PRACTICE, "rule of points: gravity points times litres stay the same")

SUCROSE = (
    (2, 1005.99, 1006.93), (5, 1017.84, 1018.84), (8, 1029.93, 1031.0), (10, 1038.13, 1039.25),
    (12, 1046.46, 1047.62), (15, 1059.16, 1060.41), (20, 1080.94, 1082.33), (25, 1103.54, 1105.07),
)  # fmt: skip
RELATIVE = (
    (1, 1.00389), (4, 1.01567), (8, 1.03176), (12, 1.04831), (15, 1.06104), (18, 1.07404),
    (20, 1.08287),
)  # fmt: skip
HYDROMETER = (
    (0, -0.0007), (5, -0.0009), (10, -0.0006), (20, 0.0009), (25, 0.0021), (30, 0.0035),
    (40, 0.0069), (45, 0.0089), (49, 0.0106),
)  # fmt: skip


def rows() -> Iterator[Row]:
    yield from _water()
    yield from _sucrose()
    yield from _handbook()
    yield from _hydrometer()


def _water() -> Iterator[Row]:
    for temp_c in (0.01, 4.0, 20.0, 40.0, 65.0, 80.0, 99.97):
        printed = IAPWS95(T=temp_c + 273.15, P=0.101325).rho
        what = f"density of water at {temp_c:g} °C, kg/m³"
        yield Row(*STANDARD, what, printed, water.water_density(temp_c), 0.006)
    for altitude_m in (0.0, 1000.0, 2000.0, 3000.0):
        pressure_mpa = water.air_pressure(altitude_m) / 1e6
        printed = IAPWS95(P=pressure_mpa, x=0.0).T - 273.15
        what = f"water boils at {altitude_m:.0f} m, °C"
        yield Row(*STANDARD, what, printed, water.boiling_point(altitude_m), 0.07)
    for temp_c in (90.0, 95.0, 100.0):
        liquid, steam = (IAPWS95(T=temp_c + 273.15, x=x).h for x in (0.0, 1.0))
        what = f"heat of vaporisation at {temp_c:.0f} °C, kJ/kg"
        yield Row(*STANDARD, what, steam - liquid, heat.heat_of_vaporisation(temp_c), 0.5)
    printed = IAPWS95(T=333.15, P=0.101325).cp
    why = "one value for all temperatures; 0.6 % high at 95 °C"
    yield Row(
        *STANDARD, "specific heat of water at 60 °C, kJ/(kg K)", printed,
        heat.heat_capacity_kj_k(0.0, 1.0, 60.0), 0.005, why,
    )  # fmt: skip


def _sucrose() -> Iterator[Row]:
    for percent, at_20, at_15 in SUCROSE:
        for temp_c, printed in ((20.0, at_20), (15.0, at_15)):
            what = f"density of {percent} % sucrose at {temp_c:.0f} °C, kg/m³"
            yield Row(*NBS, what, printed, density.wort_density(percent / 100, temp_c), 0.07)
    for percent, printed in RELATIVE:
        ours = density.wort_density(percent / 100, 20.0) / water.water_density(20.0)
        yield Row(*BEET, f"{percent} % sucrose over water at 20 °C", printed, ours, 0.00007)
    barrel_m3 = 31 * GALLON_L / 1000
    in_air = (density.wort_density(0.12, 20.0) - 1.2) * barrel_m3 * 0.12 / POUND_KG
    yield Row(
        *BARREL, "extract of a US barrel at 12 °P, lb", 32.45, in_air,
        0.01,
    )  # fmt: skip
    yield Row(
        *CUBIC, "1.048 in °P",
        comparisons.plato_from_gravity_asbc(1.048), density.plato_from_gravity(1.048), 0.012,
    )  # fmt: skip


def _handbook() -> Iterator[Row]:
    yield Row(
        *POINTS, "point litres a kilogram for one point gallon a pound", 8.3454,
        extract.POINTS_L_PER_KG_OF_PPG, 0.00005,
    )  # fmt: skip
    sucrose = _points_made_up_to_a_gallon(1.0)
    yield Row(*TABLE_9, "a pound of sugar made up to a US gallon, points", 46.0, sucrose, 0.3)
    solids_say = "suppliers print 97 % solids, which is 44 to 45 points; the solids are taken"
    for form, solids, ends, tolerance, why in (
        ("liquid", 0.80, (34.0, 38.0), 4.0, ""),
        ("dry", 0.965, (40.0, 43.0), 5.0, solids_say),
    ):
        ours = _points_made_up_to_a_gallon(solids)
        for end, printed in zip(("least", "most"), ends, strict=True):
            what = f"a pound of {form} malt extract in a US gallon, points, the {end}"
            yield Row(*CHAPTER_3, what, printed, ours, tolerance, why)
    for before_l, added_l, sg in ((10.0, 9.0, 1.090), (8.0, 11.0, 1.080), (6.0, 13.0, 1.100)):
        kilograms = extract.extract_for(sg, before_l)
        total_l = before_l + added_l
        water_kg = extract.water_for_volume(kilograms, total_l)
        points = 1000.0 * (extract.gravity(kilograms, water_kg) - 1.0)
        printed = 1000.0 * (sg - 1.0) * before_l / total_l
        yield Row(
            *RULE_OF_POINTS,
            f"{before_l:g} L at {sg:.3f} topped up to {total_l:g} L, points", printed, points, 0.3,
            "extract is counted as mass; points do not quite add up",
        )  # fmt: skip


def _points_made_up_to_a_gallon(solids: float) -> float:
    kilograms = solids * POUND_KG
    water_kg = extract.water_for_volume(kilograms, GALLON_L)
    return 1000.0 * (extract.gravity(kilograms, water_kg) - 1.0)


def _hydrometer() -> Iterator[Row]:
    for temp_c, printed in HYDROMETER:
        pure_water = water.water_density(15.0) / water.water_density(temp_c) - 1.0
        yield Row(
            *APPENDIX, f"correction at {temp_c} °C as printed, by pure water", printed,
            pure_water, 0.00016,
        )  # fmt: skip
        ours = hydrometer.true_gravity(1.040, temp_c, 15.0) - 1.040
        yield Row(
            *APPENDIX, f"the same at {temp_c} °C for a reading of 1.040", printed, ours, 0.0008,
            "wort grows more than water with heat, and so does the glass",
        )  # fmt: skip
