"""The colour of a glass of beer on a screen.

The mean absorption spectrum of 99 beers, scaled by SRM, gives the light that passes a path through
the beer; the standard observer under daylight turns that into the screen's red, green and blue.
Doubling the path is the same as doubling the SRM (Beer-Lambert), so one table for 5 cm serves every
glass. Between its rows each channel runs straight.

Below about 6 SRM all colours can be shown; darker ones clip in blue, then in green, so that a very
dark beer is pure red-black here. Left out: haze, foam and light from around the glass.

Sources: deLange, chapter "Color" in Brewing Materials and Processes (2016; coefficients as quoted
in two places that agree); CIE 1931 observer, illuminant D65, 380 to 780 nm by 5 nm; IEC 61966-2-1
(sRGB). The table is recomputed from these by a test.
"""

from __future__ import annotations

from designer.wort.numeric import interpolate, largest

TABLE_PATH_CM = 5.0

_ROWS = (
    (0, 255, 255, 255), (1, 250, 232, 182), (2, 244, 209, 128), (3, 238, 189, 85),
    (4, 231, 170, 49), (5, 224, 154, 3), (6, 217, 138, 0), (7, 209, 125, 0), (8, 201, 112, 0),
    (9, 194, 101, 0), (10, 186, 91, 0), (11, 179, 82, 0), (12, 172, 73, 0), (13, 165, 65, 0),
    (14, 159, 58, 0), (15, 153, 52, 0), (16, 147, 46, 0), (17, 141, 40, 0), (18, 135, 35, 0),
    (19, 130, 30, 0), (20, 125, 25, 0), (21, 120, 20, 0), (22, 115, 16, 0), (23, 111, 12, 0),
    (24, 107, 8, 0), (25, 102, 4, 0), (26, 99, 1, 0), (27, 95, 0, 0), (28, 91, 0, 0),
    (29, 88, 0, 0), (30, 84, 0, 0), (31, 81, 0, 0), (32, 78, 0, 0), (33, 75, 0, 0), (34, 72, 0, 0),
    (35, 69, 0, 0), (36, 67, 0, 0), (37, 64, 0, 0), (38, 62, 0, 0), (39, 60, 0, 0), (40, 57, 0, 0),
    (45, 47, 0, 0), (50, 39, 0, 0), (60, 26, 0, 0), (70, 17, 0, 0), (80, 10, 0, 0),
)  # fmt: skip
_SRM = tuple(float(row[0]) for row in _ROWS)
_CHANNELS = tuple(tuple(float(row[channel]) for row in _ROWS) for channel in (1, 2, 3))


def swatch_rgb(colour_srm: float, path_cm: float = TABLE_PATH_CM) -> tuple[int, int, int]:
    """Return red, green and blue (0 to 255) of `path_cm` of beer before white light."""
    scaled = float(largest(colour_srm * path_cm / TABLE_PATH_CM, 0.0))
    red, green, blue = (round(float(interpolate(scaled, _SRM, one))) for one in _CHANNELS)
    return red, green, blue


def hex_colour(rgb: tuple[int, int, int]) -> str:
    """Return red, green and blue as "#rrggbb"."""
    return "#{:02x}{:02x}{:02x}".format(*rgb)


def swatch_hex(colour_srm: float, path_cm: float = TABLE_PATH_CM) -> str:
    """Return the colour of `path_cm` of beer as "#rrggbb"."""
    return hex_colour(swatch_rgb(colour_srm, path_cm))
