"""The colour of a glass of beer on a screen, and of what it is brewed from.

A round glass is seen against the light. The mean absorption spectrum of 99 beers, scaled by SRM,
gives what passes the longer and shorter ways through the round; a twentieth of the light comes back
out of the beer instead, from the far wall and from haze, after shorter ways still, so that a brown
ale is brown and a stout not black as ink; 0.4 % comes off the front. The standard observer under
daylight turns the mean of that into the screen's red, green and blue, all of which can be shown.
A glass twice as wide is the same as twice the SRM (Beer-Lambert), so one table for a glass of 7 cm
serves every width. Between its rows each channel runs straight.

Left out: foam, and the shape of other glasses.

Sources: deLange, chapter "Color" in Brewing Materials and Processes (2016; coefficients as quoted
in two places that agree); CIE 1931 observer, illuminant D65, 380 to 780 nm by 5 nm; IEC 61966-2-1
(sRGB). A wall of glass sends back 4 % (Fresnel); that a twentieth comes back in all, by ways of 0.3
of the width, and that it is a tenth as bright before the glass as behind it, is judgement. The
table is recomputed from these by a test, and its colours are held against published colour names.
"""

from __future__ import annotations

from designer.wort.colour import morey
from designer.wort.numeric import interpolate, largest

GLASS_CM, SMALL_GLASS_CM = 7.0, 5.0
"""Inner widths of a pint glass and a small one; common practice, no source."""

_ROWS = (
    (0, 255, 255, 255), (0.5, 252, 243, 214), (1, 249, 231, 182), (1.5, 247, 219, 155),
    (2, 243, 208, 132), (3, 237, 188, 98), (4, 229, 171, 75), (4.75, 224, 159, 61),
    (6, 214, 142, 46), (8, 199, 121, 31), (11, 178, 97, 23), (15, 155, 76, 20), (20, 132, 60, 20),
    (27, 109, 48, 19), (35, 90, 40, 19), (46, 74, 35, 18), (60, 61, 30, 17), (85, 48, 26, 16),
    (130, 37, 22, 15), (225, 28, 18, 14), (300, 24, 17, 14),
)  # fmt: skip
"""SRM; red, green and blue of a glass of GLASS_CM."""
_SRM = tuple(float(row[0]) for row in _ROWS)
_CHANNELS = tuple(tuple(float(row[channel]) for row in _ROWS) for channel in (1, 2, 3))


def swatch_rgb(colour_srm: float, across_cm: float = GLASS_CM) -> tuple[int, int, int]:
    """Return red, green and blue (0 to 255) of beer in a glass so wide."""
    scaled = float(largest(colour_srm * across_cm / GLASS_CM, 0.0))
    red, green, blue = (round(float(interpolate(scaled, _SRM, one))) for one in _CHANNELS)
    return red, green, blue


def hex_colour(rgb: tuple[int, int, int]) -> str:
    """Return red, green and blue as "#rrggbb"."""
    return "#{:02x}{:02x}{:02x}".format(*rgb)


def swatch_hex(colour_srm: float, across_cm: float = GLASS_CM) -> str:
    """Return the colour of beer in a glass so wide as "#rrggbb"."""
    return hex_colour(swatch_rgb(colour_srm, across_cm))


def ingredient_hex(colour_lovibond: float) -> str:
    """Return "#rrggbb" for an ingredient: a small glass of beer brewed of nothing else.

    Of a pound to the US gallon, 120 g to the litre, which makes its degrees the colour units.
    """
    return swatch_hex(float(morey(colour_lovibond)), SMALL_GLASS_CM)
