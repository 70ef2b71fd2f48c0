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
    OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(STEPS)


def beer_transmission(colour_srm, path_cm, wavelength_nm):
    """Return the share of light that passes beer, by deLange's mean spectrum of 99 beers."""
    beyond = wavelength_nm - 430.0
    shape = 0.02465 * np.exp(-beyond / 17.591) + 0.97535 * np.exp(-beyond / 82.122)
    return np.exp(-math.log(10.0) * colour_srm / 12.7 * shape * path_cm)


def seen_through(colour_srm, path_cm):
    """Return XYZ, white being Y = 100, of daylight behind a path of beer (CIE 1931, D65)."""
    passed = beer_transmission(colour_srm, path_cm, STEPS.wavelengths)
    spectrum = colour.SpectralDistribution(passed, STEPS.wavelengths)
    return colour.sd_to_XYZ(spectrum, OBSERVER, DAYLIGHT, method="Integration")


def on_screen(colour_srm, path_cm=5.0):
    """Return red, green and blue, 0 to 255, by IEC 61966-2-1 as colour-science has it."""
    to_rgb = colour.RGB_COLOURSPACES["sRGB"].matrix_XYZ_to_RGB
    linear = np.clip(to_rgb @ (seen_through(colour_srm, path_cm) / 100), 0, 1)
    return tuple(int(v) for v in np.round(255 * colour.cctf_encoding(linear, function="sRGB")))
