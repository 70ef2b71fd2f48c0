"""The equations of the guide are those that the program reckons with: worked out as they read."""

import math

import pytest

from designer.guide.blocks import Lines, every_block
from designer.workbench.guide import guide
from designer.wort import (
    bitterness,
    bitterness_methods,
    carbonation,
    chilling,
    colour,
    extract,
    fermentation,
    heat,
    hop_age,
    isomerisation_rate,
    refractometer,
    steeping,
    water,
    water_treatment,
)

KNOWN = {"e": math.e, "ln": math.log, "log10": math.log10, "tanh": math.tanh}


def worked_out(page, begins, **letters):
    """The value of the equation that begins so on a page, by the letters in it."""
    blocks = every_block(guide("en").page(page).blocks)
    lines = [line for each in blocks if isinstance(each, Lines) for line in each.lines]
    [line] = [each for each in lines if each.startswith(begins)]
    said = line.partition(" = ")[2].replace("·", "*").replace("^", "**").replace("°", "")
    return eval(said, {"__builtins__": {}}, {**KNOWN, **letters})


AGED = hop_age.ageing_per_day(5.0, hop_age.BARRIER, 0.4)
PRESSURE = carbonation.keg_pressure_bar(2.5, 12.0) / carbonation.BAR_PER_PSI
ORIGINAL, APPARENT = 12.0, 3.0
LEFT = fermentation.real_extract(ORIGINAL, APPARENT)
BY_WEIGHT = fermentation.alcohol_by_weight(ORIGINAL, APPARENT)
HEIGHT = 800.0
MM_HG = water.air_pressure(HEIGHT) / water.PASCAL_PER_MM_HG

ACROSS_M, LITRES = 0.24, 8.0
FALLS = math.log(53.70 / (353.15 - 319.55)) / math.log(80.0 / 60.0)
"""From 100 to 80 °C in a room of 20 °C: by Hosom's fit, against Newton's law."""

EQUATIONS = [
    ("gravity", "P", {"E": 1.2, "W": 9.0}, extract.plato(1.2, 9.0)),
    ("gravity", "share of extract", {"ppg": 36.0}, extract.yield_from_ppg(36.0)),
    (
        "heat",
        "b = 0.5",
        {"A": 1e4 * math.pi / 4.0 * ACROSS_M**2, "V": LITRES},
        chilling.standing_constant(LITRES, ACROSS_M) * FALLS,
    ),
    (
        "fermentation",
        "ABV",
        {"A_w": BY_WEIGHT, "FG": 1.012},
        fermentation.alcohol_by_volume(1.048, 1.012, extracts=(ORIGINAL, APPARENT)),
    ),
    (
        "carbonation",
        "grams",
        {"litres": 20.0, "wanted": 2.4, "v": carbonation.residual_co2(20.0), "g": 3.82},
        carbonation.priming_sugar_g(20.0, 2.4, 20.0),
    ),
    ("measuring", "°P", {"Bx": 12.48}, refractometer.plato_from_brix(12.48)),
    (
        "heat",
        "t_water",
        {"t_steep": 68.0, "t_grain": 20.0, "m_grain": 0.35, "m_water": 6.0},
        steeping.strike_temperature(68.0, 0.35, 6.0, 20.0),
    ),
    ("heat", "H", {"W": 6.0, "E": 1.0, "t": 80.0}, heat.enthalpy_kj(1.0, 6.0, 80.0)),
    ("heat", "kg an hour", {"P_net": 1200.0, "t": 99.0}, heat.evaporation_kg_h(1200.0, 99.0)),
    ("heat", "p", {"h": HEIGHT}, MM_HG),
    ("heat", "t = 1730", {"p": MM_HG}, water.boiling_point(HEIGHT)),
    (
        "heat",
        "t(τ)",
        {"t_bath": 12.0, "t_begin": 95.0, "k": 0.05, "τ": 20.0},
        chilling.newton_temperature(95.0, 12.0, 0.05, 20.0),
    ),
    ("heat", "bath", {"k8": 0.054, "V": 12.0}, chilling.bath_constant(0.054, 12.0)),
    ("heat", "coil", {"C": 34.0}, chilling.coil_constant(34.0)),
    (
        "bitterness",
        "U = 1.65",
        {"SG": 1.055, "τ": 45.0},
        bitterness.tinseth_utilisation(1.055, 45.0),
    ),
    (
        "bitterness",
        "IBU",
        {"U": 0.2, "m": 0.02, "\N{GREEK SMALL LETTER ALPHA}": 0.07, "V": 10.0},
        0.2 * bitterness.alpha_added_mg_l(0.02, 0.07, 10.0),
    ),
    ("bitterness", "r", {"T": 358.15}, isomerisation_rate.relative_rate(85.0)),
    ("bitterness", "factor of gravity", {"s": 0.5, "SG": 1.09}, bitterness.bigness(1.09, 0.5)),
    ("bitterness", "kept", {"k": AGED, "d": 90.0}, hop_age.alpha_kept(90.0 * AGED)),
    ("bitterness", "k = -ln", {"L": 0.4, "t": 5.0, "pack": 0.5}, AGED),
    ("bitterness", "dissolved", {"added": 400.0}, bitterness.dissolved_alpha_mg_l(400.0)),
    (
        "bitterness",
        "Rager",
        {"τ": 40.0, "SG": 1.07},
        bitterness_methods.rager_ibu(0.01, 0.1, 40.0, 1.07, 1.0) / 1000.0,
    ),
    ("colour", "SRM = 1.4922", {"MCU": 20.0}, colour.morey(20.0)),
    ("colour", "EBC = 1.97", {"SRM": 20.0}, colour.ebc_from_srm(20.0)),
    ("fermentation", "RE", {"OE": ORIGINAL, "AE": APPARENT}, LEFT),
    ("fermentation", "A_w", {"OE": ORIGINAL, "RE": LEFT}, BY_WEIGHT),
    (
        "fermentation",
        "kcal",
        {"A_w": BY_WEIGHT, "RE": LEFT, "FG": 1.012},
        fermentation.kcal_from_extracts(ORIGINAL, APPARENT, 1.012),
    ),
    ("fermentation", "FG", {"OG": 1.05, "F": 0.6}, fermentation.final_gravity(1.05, 0.6)),
    ("carbonation", "v", {"F": 66.2}, carbonation.residual_co2(19.0)),
    ("carbonation", "p", {"v": 2.5, "F": 53.6}, PRESSURE),
    (
        "measuring",
        "FG",
        {"B0": 11.0 / 1.04, "B1": 6.0 / 1.04},
        refractometer.final_gravity_linear(11.0, 6.0),
    ),
    (
        "forecast",
        "mg",
        {"V": 20.0, "c": 2.0, "M": 222.32},
        water_treatment.metabisulfite_mg(20.0, 2.0),
    ),
]


RHO = "\N{GREEK SMALL LETTER RHO}"
BY_OTHERS = {
    ("gravity", f"{RHO}(w, t)"): "the table of coefficients: tests/proof",
    ("gravity", f"SG = ({RHO}"): "weights in air: tests/proof",
    ("gravity", "SG - 1 after"): "mass balance: tests/wort/test_extract.py",
    ("heat", "P_net"): "tests/wort/test_heat.py",
    ("heat", "standing, lid on"): "by its b",
    ("colour", "MCU"): "a sum over lines: tests/wort/test_colour.py",
    ("colour", "SRM = 1.3546"): "below",
    ("colour", "EBC = 2.65"): "below",
    ("fermentation", "F = sum"): "a sum over lines: tests/wort/test_fermentation.py",
}
"""Equations that are no sum of one line, and where they are tried."""


def test_every_equation_of_the_guide_is_worked_out():
    told = {*BY_OTHERS, *((page, begins) for page, begins, *_ in EQUATIONS)}
    lines = [
        (page.name, line)
        for page in guide("en").pages()
        for each in every_block(page.blocks)
        if isinstance(each, Lines) and each.is_formula
        for line in each.lines
    ]
    assert len(lines) > 30
    of = {page: tuple(begins for name, begins in told if name == page) for page, _ in lines}
    assert [(page, line) for page, line in lines if not line.startswith(of[page])] == []
    assert {
        (p, b) for p, b in BY_OTHERS if not any(n == p and s.startswith(b) for n, s in lines)
    } == set()


@pytest.mark.parametrize(
    ("page", "begins", "letters", "reckoned"), EQUATIONS, ids=lambda each: str(each)[:20]
)
def test_an_equation_of_the_guide_gives_what_the_program_reckons(page, begins, letters, reckoned):
    assert worked_out(page, begins, **letters) == pytest.approx(reckoned, rel=2e-4)


def test_colours_of_malt_are_turned_as_the_guide_has_it():
    lines = [
        line
        for each in every_block(guide("en").page("colour").blocks)
        if isinstance(each, Lines)
        for line in each.lines
        if line.endswith(("- 0.76", "- 1.2"))
    ]
    reckoned = (colour.srm_from_lovibond(60.0), colour.ebc_from_lovibond(60.0))
    for line, value in zip(lines, reckoned, strict=True):
        said = line.partition(" = ")[2].replace("°L", "60.0").replace("·", "*")
        assert eval(said, {"__builtins__": {}}) == pytest.approx(value)
