"""The colour of beer in a glass, from its spectrum, by the package colour-science."""

import math
import warnings

import numpy as np

with warnings.catch_warnings():
    # colour-science warns at import of a plotting library that it can do without.
    warnings.simplefilter("ignore")
    import colour

    STEPS = colour.SpectralShape(380, 780, 5)
    DAYLIGHT = colour.SDS_ILLUMINANTS["D65"].copy().align(STEPS)
    WHITE = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(STEPS)


def beer_transmission(colour_srm, path_cm, wavelength_nm):
    """Return the share of light that passes beer, by deLange's mean spectrum of 99 beers."""
    beyond = wavelength_nm - 430.0
    shape = 0.02465 * np.exp(-beyond / 17.591) + 0.97535 * np.exp(-beyond / 82.122)
    return np.exp(-math.log(10.0) * colour_srm / 12.7 * shape * path_cm)


def light_through(colour_srm, path_cm):
    """Return the spectrum of the light that passes a path of beer."""
    return beer_transmission(colour_srm, path_cm, STEPS.wavelengths)


def light_of_a_glass(colour_srm, across_cm):
    """Return the spectrum of the light that a round glass of beer sends to the eye, on average.

    Light from behind goes through chords of the round; a twentieth comes back out of the beer,
    after ways of exponential length, on average 0.3 of the width; 0.4 % comes off the front.
    """
    halves = (np.arange(200) + 0.5) / 200
    chords = across_cm * np.sqrt(1.0 - halves**2)
    behind = np.mean([light_through(colour_srm, each) for each in chords], axis=0)
    a_cm = -np.log(light_through(colour_srm, 1.0))
    back = 1.0 / (1.0 + 0.3 * across_cm * a_cm)
    return (1.0 - 0.05 - 0.004) * behind + 0.05 * back + 0.004


def tristimulus(light):
    """Return XYZ, white being Y = 100, of a spectrum under daylight (CIE 1931, D65)."""
    spectrum = colour.SpectralDistribution(light, STEPS.wavelengths)
    return colour.sd_to_XYZ(spectrum, OBSERVER, DAYLIGHT, method="Integration")


def seen_through(colour_srm, path_cm):
    """Return XYZ, white being Y = 100, of daylight behind a path of beer."""
    return tristimulus(light_through(colour_srm, path_cm))


def screen_rgb(xyz):
    """Return red, green and blue, 0 to 255, by IEC 61966-2-1 as colour-science has it."""
    to_rgb = colour.RGB_COLOURSPACES["sRGB"].matrix_XYZ_to_RGB
    linear = np.clip(to_rgb @ (xyz / 100), 0, 1)
    return tuple(int(v) for v in np.round(255 * colour.cctf_encoding(linear, function="sRGB")))


def on_screen(colour_srm, across_cm):
    """Return red, green and blue, 0 to 255, of a glass of beer."""
    return screen_rgb(tristimulus(light_of_a_glass(colour_srm, across_cm)))


def lab_of_xyz(xyz):
    """Return CIE L*a*b* under daylight."""
    return colour.XYZ_to_Lab(xyz / 100, WHITE)


def lab_of_rgb(rgb):
    """Return CIE L*a*b* of red, green and blue, 0 to 255."""
    linear = colour.cctf_decoding(np.array(rgb) / 255, function="sRGB")
    return colour.XYZ_to_Lab(colour.RGB_COLOURSPACES["sRGB"].matrix_RGB_to_XYZ @ linear, WHITE)


def apart(one, other):
    """Return the difference of two screen colours, CIEDE2000."""
    return float(colour.delta_E(lab_of_rgb(one), lab_of_rgb(other), method="CIE 2000"))
