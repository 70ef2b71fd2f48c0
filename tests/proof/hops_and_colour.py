"""Hops, colour and what is seen in the glass."""

from collections.abc import Iterator

from designer.wort import bitterness, bitterness_methods, colour, swatch
from tests.proof.glass import on_screen
from tests.proof.row import Kind, Row

OUNCE_KG, GALLON_L, POUND_KG = 0.028349523, 3.785412, 0.45359237
TABLE_7 = (
    Kind.QUOTED,
    "Tinseth, reprinted by Palmer, How to Brew, table 7; quoted in forum posts",
)
CHAPTER_5 = (Kind.QUOTED, "Palmer, How to Brew, ch. 5; quoted in forum posts")
TINSETH = (Kind.COMPUTED, "Tinseth, web page, 1995 to 1997: 7490 times alpha acid, oz and US gal")
RAGER = (Kind.MEMORY, "Rager, Zymurgy, special issue 1990, table")
RAGER_GRAVITY = (Kind.QUOTED, "Rager, Zymurgy, special issue 1990, quoted in a post of 1992")
GARETZ = (Kind.QUOTED, "Garetz, Using Hops, 1994, quoted in a post of 1995")
MOREY = (Kind.COMPUTED, "Morey, BrewingTechniques; equation as quoted")
MALT_SRM = (Kind.COMPUTED, "Morey, BrewingTechniques; line from Lovibond to SRM as quoted")
BY_DEFINITION = (Kind.COMPUTED, "ASBC and EBC define beer colour as 12.7 and 25 times absorbance")
SPECTRUM = (
    Kind.LIBRARY,
    "deLange's spectrum (quoted) through CIE 1931 and D65, by the package colour-science",
)
UTILISATION = (
    (1.050, 30, 0.177), (1.060, 30, 0.162), (1.080, 60, 0.176), (1.080, 15, 0.087),
    (1.057, 30, 0.166), (1.040, 60, 0.252), (1.040, 30, 0.194), (1.050, 60, 0.231),
)  # fmt: skip
RAGER_TABLE = (
    (0, 5, 5.0), (6, 10, 6.0), (11, 15, 8.0), (16, 20, 10.1), (21, 25, 12.1), (26, 30, 15.3),
    (31, 35, 18.8), (36, 40, 22.8), (41, 45, 26.9), (46, 50, 28.1), (51, 60, 30.0),
)  # fmt: skip
GLASSES = ((2.0, 5.0), (5.0, 5.0), (10.0, 5.0), (20.0, 5.0), (10.0, 1.0), (20.0, 2.5), (40.0, 5.0))


def rows() -> Iterator[Row]:
    yield from _tinseth()
    yield from _rager_and_garetz()
    yield from _colour()
    yield from _glass()


def _tinseth() -> Iterator[Row]:
    for sg, minutes, printed in UTILISATION:
        ours = bitterness.tinseth_utilisation(sg, minutes)
        yield Row(*TABLE_7, f"utilisation, {minutes} min at {sg:.3f}", printed, ours, 0.00056)
    added = bitterness.alpha_added_mg_l(1.5 * OUNCE_KG, 0.064, 5 * GALLON_L)
    yield Row(
        *TINSETH, "1.5 oz at 6.4 % in 5 US gal, mg/L",
        7490 * 0.064 * 1.5 / 5, added, 0.03,
    )  # fmt: skip
    for ounces, alpha, minutes, printed in ((1.5, 0.064, 60, 25.0), (1.0, 0.046, 15, 6.0)):
        ours = bitterness.tinseth_ibu(ounces * OUNCE_KG, alpha, minutes, 1.080, 5 * GALLON_L)
        what = f"{ounces} oz at {100 * alpha:.1f} %, {minutes} min in 3 gal at 1.080, 5 gal, IBU"
        yield Row(*CHAPTER_5, what, printed, ours, 0.5)


def _rager_and_garetz() -> Iterator[Row]:
    for first, last, printed in RAGER_TABLE:
        ours = 100.0 * bitterness_methods.rager_utilisation((first + last) / 2.0)
        yield Row(
            *RAGER,
            f"utilisation, {first} to {last} min, %", printed, ours, 1.5,
            "a smooth curve through the middles of steps",
        )  # fmt: skip
    whole = bitterness_methods.rager_ibu(0.03, 0.06, 60, 1.050, 19.0)
    strong = bitterness_methods.rager_ibu(0.03, 0.06, 60, 1.090, 19.0)
    yield Row(
        *RAGER_GRAVITY, "46 IBU at 1.050 corrected to 1.090", 38.0,
        46.0 * strong / whole, 0.5,
    )  # fmt: skip
    x = 35.3
    before = _garetz_answer_for(x)
    yield Row(
        *GARETZ, "hopping factor at 35.3 IBU in a full boil, %", 13.6,
        100.0 * (before / x - 1.0), 0.05,
    )  # fmt: skip


def _garetz_answer_for(wanted_ibu: float) -> float:
    """What Garetz' formula gives before its hopping factor, when it gives `wanted_ibu` after."""
    hop_kg = 0.05
    for _ in range(60):
        ours = bitterness_methods.garetz_ibu(hop_kg, 0.06, 60, 1.050, 19.0, 19.0)
        hop_kg *= wanted_ibu / ours
    added = bitterness.alpha_added_mg_l(hop_kg, 0.06, 19.0)
    return bitterness_methods.garetz_utilisation(60) * added


def _colour() -> Iterator[Row]:
    units = colour.malt_colour_units(9 * POUND_KG * 4.0 + 1 * POUND_KG * 77.0, 5 * GALLON_L)
    yield Row(*MOREY, "9 lb at 4 °L and 1 lb at 77 °L in 5 US gal, colour units", 22.6, units, 0.05)
    yield Row(*MOREY, "the same in SRM", 12.7, colour.morey(units), 0.05)
    yield Row(
        *MALT_SRM, "malt of 3.5 °L in SRM", 3.98, colour.srm_from_lovibond(3.5),
        0.005,
    )  # fmt: skip
    yield Row(
        *BY_DEFINITION, "EBC for one SRM", 25 / 12.7,
        colour.ebc_from_srm(1.0), 0.002, "1.97 is the figure in use",
    )  # fmt: skip


def _glass() -> Iterator[Row]:
    for srm, across_cm in GLASSES:
        ours, theirs = swatch.swatch_rgb(srm, across_cm), on_screen(srm, across_cm)
        for name, mine, printed in zip(("red", "green", "blue"), ours, theirs, strict=True):
            yield Row(
                *SPECTRUM,
                f"{name} of {srm:g} SRM in a glass of {across_cm:g} cm, 0 to 255",
                printed, mine, 2.0,
            )  # fmt: skip
