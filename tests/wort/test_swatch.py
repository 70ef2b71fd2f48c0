"""The colour on screen, recomputed from the spectrum of beer with colour-science."""

import numpy as np
import pytest

from designer.wort.swatch import hex_colour, swatch_hex, swatch_rgb
from tests.proof.glass import beer_transmission, on_screen, seen_through

PRINTED_ROWS = [0, *range(1, 41), 45, 50, 60, 70, 80]


@pytest.mark.parametrize("colour_srm", PRINTED_ROWS)
def test_every_row_of_the_table_is_what_the_spectrum_gives(colour_srm):
    # deLange, "Color", Brewing Materials and Processes (2016), as quoted; colour-science.
    assert swatch_rgb(colour_srm) == on_screen(colour_srm)


def test_straight_lines_between_the_rows_stay_near_the_curve():
    # Worst where a channel runs into its end: 5 of 255 in blue at 4 to 5 SRM; from 6 SRM on, 1.
    for colour_srm in np.arange(0.05, 80.0, 0.35):
        off = np.abs(np.subtract(swatch_rgb(float(colour_srm)), on_screen(float(colour_srm))))
        assert off.max() <= (5 if colour_srm < 6 else 1), colour_srm


@pytest.mark.parametrize("colour_srm", [5.0, 12.0, 30.0])
@pytest.mark.parametrize("path_cm", [1.0, 2.5, 7.0])
def test_any_glass_is_that_glass_by_the_spectrum(colour_srm, path_cm):
    off = np.abs(np.subtract(swatch_rgb(colour_srm, path_cm), on_screen(colour_srm, path_cm)))
    assert off.max() <= 5


@pytest.mark.parametrize(
    ("colour_srm", "path_cm", "shown"),
    # Beer-Lambert: twice the path is twice the colour. Computed from deLange's spectrum.
    [
        (10, 1.0, "#f4d180"),
        (10, 3.0, "#d98a00"),
        (20, 2.5, "#ba5b00"),
        (10, 10.0, "#7d1900"),
        (0, 5.0, "#ffffff"),
        (1, 5.0, "#fae8b6"),
        (40, 5.0, "#390000"),
        (80, 5.0, "#0a0000"),
    ],
)
def test_a_longer_path_looks_like_a_darker_beer(colour_srm, path_cm, shown):
    assert swatch_hex(colour_srm, path_cm) == shown
    assert swatch_hex(colour_srm * path_cm / 5.0) == shown


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
    assert swatch_rgb(900.0) == swatch_rgb(80.0)
    assert hex_colour((0, 10, 255)) == "#000aff"
