"""The colour on screen, recomputed with colour-science and held against published colours."""

from itertools import pairwise

import numpy as np
import pytest

from designer.wort import swatch
from designer.wort.swatch import hex_colour, ingredient_hex, swatch_hex, swatch_rgb
from tests.proof.glass import (
    apart,
    beer_transmission,
    lab_of_rgb,
    lab_of_xyz,
    light_of_a_glass,
    light_through,
    on_screen,
    seen_through,
    tristimulus,
)


@pytest.mark.parametrize("row", swatch._ROWS, ids=lambda row: f"{row[0]} SRM")
def test_every_row_of_the_table_is_what_spectrum_and_glass_give(row):
    # deLange, "Color", Brewing Materials and Processes (2016), as quoted; colour-science.
    assert row[1:] == on_screen(row[0], 7.0)


def test_straight_lines_between_the_rows_stay_near_the_curve():
    for colour_srm in [*np.arange(0.1, 20.0, 0.63), *np.arange(20.0, 300.0, 17.3)]:
        off = np.subtract(swatch_rgb(float(colour_srm)), on_screen(float(colour_srm), 7.0))
        assert np.abs(off).max() <= 2, colour_srm


@pytest.mark.parametrize("colour_srm", [5.0, 12.0, 30.0])
@pytest.mark.parametrize("across_cm", [1.0, 2.5, 9.0])
def test_any_glass_is_that_glass_by_the_spectrum(colour_srm, across_cm):
    off = np.subtract(swatch_rgb(colour_srm, across_cm), on_screen(colour_srm, across_cm))
    assert np.abs(off).max() <= 2


def test_a_wider_glass_looks_like_a_darker_beer():
    # Beer-Lambert: twice the way is twice the colour.
    for colour_srm, across_cm in ((10.0, 3.5), (20.0, 2.5), (4.0, 14.0)):
        assert swatch_hex(colour_srm, across_cm) == swatch_hex(colour_srm * across_cm / 7.0)


@pytest.mark.parametrize("colour_srm", [0.0, 2.0, 5.0, 10.0, 20.0, 40.0, 120.0])
def test_every_colour_of_beer_can_be_shown_on_a_screen(colour_srm):
    """Nothing of it lies outside the screen's colours, where blue or green would be cut to none."""
    meant = lab_of_xyz(tristimulus(light_of_a_glass(colour_srm, 7.0)))
    assert np.linalg.norm(meant - lab_of_rgb(swatch_rgb(colour_srm))) < 1.0


NAMED = {
    "pale yellow": "#f3e5ab", "light yellow": "#f8de7e", "moderate yellow": "#c9ae5d",
    "light orange yellow": "#fbc97f", "moderate orange yellow": "#e3a857",
    "strong orange yellow": "#eaa221", "deep orange yellow": "#c98500",
    "dark orange yellow": "#be8a3d", "strong orange": "#ed872d", "deep orange": "#be6516",
    "brownish orange": "#ae6938", "light brown": "#a67b5b", "strong brown": "#80461b",
    "deep brown": "#593319", "moderate brown": "#6f4e37", "dark brown": "#422518",
    "strong reddish brown": "#882d17", "deep reddish brown": "#56070c",
    "moderate reddish brown": "#79443b", "dark reddish brown": "#3e1d1e",
    "dark red": "#722f37", "very deep red": "#5c0923", "brownish black": "#28201c",
}  # fmt: skip
"""Centres of the ISCC-NBS colour names: Kelly and Judd, Color: Universal Language and Dictionary of
Names, National Bureau of Standards, special publication 440 (1976); figures from memory."""


@pytest.mark.parametrize(
    ("colour_srm", "name"),
    # Names of beer colours at their SRM: BJCP 2021, colour reference, from memory.
    [
        (2.5, "light orange yellow"),  # straw
        (3.5, "moderate orange yellow"),  # yellow
        (5.5, "deep orange yellow"),  # gold
        (10.0, "deep orange"),  # amber
        (17.0, "strong brown"),  # copper to light brown
        (20.0, "strong brown"),  # brown
        (25.0, "strong brown"),
        (32.0, "deep brown"),  # very dark brown
        (45.0, "dark brown"),
        (60.0, "dark brown"),
        (120.0, "brownish black"),
    ],
)
def test_beer_is_called_by_the_colour_name_that_brewers_give_it(colour_srm, name):
    """A brown ale is brown: neither reddish brown nor red."""
    seen = lab_of_rgb(swatch_rgb(colour_srm))

    def off(called):
        rgb = tuple(int(NAMED[called][at : at + 2], 16) for at in (1, 3, 5))
        return float(np.linalg.norm(lab_of_rgb(rgb) - seen))

    assert min(NAMED, key=off) == name


@pytest.mark.parametrize(
    ("colour_srm", "lightness", "yellow"),
    # Laboratories print CIE L*a*b* of 1 cm of beer: pale lager L* about 95 and b* 15 to 25, amber
    # ale L* about 80 and b* 50 to 65, brown ale L* 65 to 78 and b* 60 to 75; all from memory.
    [(3.5, (93, 97), (15, 25)), (14, (76, 84), (50, 65)), (22, (65, 78), (60, 75))],
)
def test_a_centimetre_of_beer_has_the_colour_that_laboratories_print(colour_srm, lightness, yellow):
    found = lab_of_xyz(tristimulus(light_through(colour_srm, 1.0)))
    assert lightness[0] <= found[0] <= lightness[1]
    assert yellow[0] <= found[2] <= yellow[1]


def test_ingredients_of_5_20_60_120_and_350_degrees_are_told_apart():
    """CIEDE2000 of 2 to 3 is seen side by side, common practice; here nine and more lie between."""
    shades = [ingredient_hex(each) for each in (0.0, 5.0, 20.0, 60.0, 120.0, 350.0, 600.0)]
    seen = [tuple(int(each[at : at + 2], 16) for at in (1, 3, 5)) for each in shades]
    steps = [apart(one, other) for one, other in pairwise(seen)]
    assert min(steps[:-1]) > 9.0
    assert steps[-1] > 2.5
    lightness = [lab_of_rgb(each)[0] for each in seen]
    assert lightness == sorted(lightness, reverse=True)


@pytest.mark.parametrize(
    ("colour_srm", "xyz"),
    # Computed from deLange's spectrum under D65, 380 to 780 nm by 5 nm.
    [
        (0, (95.043, 100.0, 108.880)),
        (5, (42.253, 38.830, 5.368)),
        (10, (23.760, 17.834, 0.508)),
    ],
)
def test_the_light_that_passes_has_the_stated_tristimulus_values(colour_srm, xyz):
    assert seen_through(colour_srm, 5.0) == pytest.approx(xyz, abs=0.0006)


@pytest.mark.parametrize(
    ("wavelength_nm", "of_430"),
    # deLange's spectrum, computed from the coefficients quoted.
    [(430, 1.0), (450, 0.77243), (500, 0.41634), (550, 0.22626), (600, 0.12307), (700, 0.03642)],
)
def test_absorption_falls_towards_red(wavelength_nm, of_430):
    # By definition SRM is 12.7 times the absorbance of 1 cm at 430 nm.
    absorbance = -np.log10(beer_transmission(12.7, 1.0, float(wavelength_nm)))
    assert absorbance == pytest.approx(of_430, abs=6e-6)


def test_colours_out_of_the_table_are_held_at_its_ends():
    assert swatch_rgb(-3.0) == (255, 255, 255)
    assert swatch_rgb(10.0, 0.0) == (255, 255, 255)
    assert swatch_rgb(9000.0) == swatch_rgb(300.0)
    assert hex_colour((0, 10, 255)) == "#000aff"
