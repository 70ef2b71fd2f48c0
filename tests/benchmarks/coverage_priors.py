"""What the hidden errors of a brew day are: for each thing that is doubtful, figures with a source.

Written apart from the program's own tables, so that its ranges are tried against the sources and
not against themselves. There are two readings of them. `AS_READ` takes each source at its word,
5 %, middle and 95 %, log-normal or normal about the middle. `READ_OTHERWISE` takes other shapes
(triangles, even spreads) and other ends that the same sources name. Figures without a source are
called judgement or common practice.

A prior is a function of the draw and of the figure that the recipe has.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

Array = np.ndarray[Any, np.dtype[np.float64]]
SIGMAS = 1.6448536269514722


class Draw:
    """The random numbers of one thing on so many days: the same for whoever asks by its name."""

    def __init__(self, name: str, days: int, seed: int) -> None:
        self._random = np.random.default_rng([seed, zlib.crc32(name.encode("utf-8"))])
        self.days = days

    def normal(self, half_width: float) -> Array:
        """Return errors about 0, nine of ten within the half width."""
        return half_width / SIGMAS * self._random.standard_normal(self.days)

    def times(self, half_width: float) -> Array:
        """Return factors about 1, nine of ten within x or / e to the half width."""
        return np.exp(self.normal(half_width))

    def split(self, low: float, middle: float, high: float) -> Array:
        """Return figures with these 5 %, 50 % and 95 % points, normal on either side."""
        score = self._random.standard_normal(self.days) / SIGMAS
        return middle + score * np.where(score > 0.0, high - middle, middle - low)

    def split_times(self, low: float, middle: float, high: float) -> Array:
        """Return the same, log-normal on either side."""
        return np.exp(self.split(np.log(low), np.log(middle), np.log(high)))

    def even(self, low: float, high: float) -> Array:
        """Return figures alike likely between two ends."""
        return self._random.uniform(low, high, self.days)

    def triangle(self, low: float, middle: float, high: float) -> Array:
        """Return figures most likely about the middle, none beyond the ends."""
        return self._random.triangular(low, middle, high, self.days)

    def exponential(self, mean: float) -> Array:
        """Return figures above 0, the fewer the larger."""
        return self._random.exponential(mean, self.days)

    def ends(self, low: float, middle: float, high: float) -> Array:
        """Return a triangle about the middle whose 5 % and 95 % points are about low and high."""
        beyond = 1.4625  # of a triangle with equal sides
        low, high = middle - beyond * (middle - low), middle + beyond * (high - middle)
        return self._random.triangular(low, middle, high, self.days)


Prior = Callable[[Draw, float, Any], Array]
Priors = Mapping[str, Prior]


def about(half_width: float) -> Prior:
    """Return the prior of a figure that is off by so much."""
    return lambda draw, figure, line: figure + draw.normal(half_width)


def times(half_width: float) -> Prior:
    """Return the prior of a figure that is off by that share."""
    return lambda draw, figure, line: figure * draw.times(half_width)


def off_evenly(ends: float) -> Prior:
    """Return the prior of a figure that is off by up to so much, all alike likely."""
    return lambda draw, figure, line: figure + draw.even(-ends, ends)


def times_evenly(ends: float) -> Prior:
    """Return the prior of a figure that is off by up to that share, all alike likely."""
    return lambda draw, figure, line: figure * (1.0 + draw.even(-ends, ends))


def solids(draw: Draw, figure: float, line: Any) -> Array:
    """Makers print 76 % at least, 77.6 to 80.1, 78 to 82, 78 to 81 % for syrup, 97 for powder,

    which takes up water once it is open. What is printed in a recipe is a handbook's figure.
    """
    if line.kind in ("liquid extract", "hopped kit extract"):
        return draw.split(0.770, 0.795, 0.820)
    if line.kind == "dry extract":
        return np.minimum(draw.split(0.945, 0.965, 0.980), 0.995)
    if figure >= 0.9:  # dry sugar: its water by stoichiometry or none; judgement
        return np.minimum(figure + draw.normal(0.01), 1.0)
    return figure + draw.normal(0.02)  # honey and syrups: common practice


def solids_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same sheets, evenly: 77 to 82 % of syrup, 95 to 97.5 % of powder once opened."""
    if line.kind in ("liquid extract", "hopped kit extract"):
        return draw.even(0.77, 0.82)
    if line.kind == "dry extract":
        return draw.even(0.945, 0.98)
    if figure >= 0.9:
        return np.minimum(figure + draw.even(-0.015, 0.01), 1.0)
    return figure + draw.even(-0.03, 0.03)


def fermentability(draw: Draw, figure: float, line: Any) -> Array:
    """Real share of pale extract 0.56, 0.61, 0.65: 44 extracts of "considerable variation" (Paik,

    Low, Ingledew, J. ASBC 49 (1991) 8); a maker's 52 to 72 % of sugars in the solids; a shop's 75 %
    apparent, 0.61 real.
    """
    half = 0.05 if line.colour is not None and line.colour.value > 8.0 else 0.045
    upper = max(half, 0.72 - figure) if line.kind == "hopped kit extract" else half - 0.005
    return figure + draw.split(-half, 0.0, upper)


def fermentability_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same as triangles: extract from 0.055 less to 0.045 more in nine of ten."""
    return figure + draw.ends(-0.055, 0.0, 0.045)


UNKNOWN_COLOURS = {
    "liquid extract": (3.0, 5.0, 20.0),
    "dry extract": (3.0, 5.0, 20.0),
    "hopped kit extract": (4.0, 10.0, 60.0),
    "steeping grain": (10.0, 60.0, 450.0),
    "mash grain": (1.8, 3.5, 20.0),
    "sugar": (0.01, 0.1, 30.0),
}
"""Colours of what is sold under the name of a kind; spans of catalogues, judgement."""


def colour(draw: Draw, figure: float, line: Any) -> Array:
    """A label within 15 % (lots and labels differ; judgement); none: the span of its kind."""
    if line.colour is not None:
        return figure * draw.times(0.15)
    return draw.split_times(*UNKNOWN_COLOURS[line.kind])


def colour_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """A label within 20 % at the ends; none: most likely the usual of its kind."""
    if line.colour is not None:
        return figure * draw.ends(0.85, 1.0, 1.16)
    low, middle, high = np.log(UNKNOWN_COLOURS[line.kind])
    return np.exp(draw.ends(low, middle, high))


def alpha(draw: Draw, figure: float, line: Any) -> Array:
    """Printed: two laboratories differ by 5.7 % (EBC 7.7), contracts allow 5 %, labels round: 10 %.

    A variety's range: its low end a tenth lower, where the packet may be old. An unknown hop 3, 6,
    13 % (judgement).
    """
    if line.alpha is None:
        return draw.split_times(0.03, 0.06, 0.13)
    if line.alpha.ends is None:
        return figure * draw.times(0.10)
    low, high = line.alpha.ends
    return draw.split(low if line.age else 0.9 * low, figure, high)


def alpha_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same evenly; crop means of a variety lie 29 to 46 % apart (1969 to 1978, second-hand)."""
    if line.alpha is None:
        return np.exp(draw.ends(np.log(0.03), np.log(0.06), np.log(0.13)))
    if line.alpha.ends is None:
        return figure * draw.even(0.89, 1.11)
    low, high = line.alpha.ends
    return draw.even(low if line.age else 0.92 * low, high)


KEPT_FOR = {"in the freezer": 0.04, "in a cupboard": 0.20, "in an opened bag": 0.20}


def age(draw: Draw, figure: float, line: Any) -> Array:
    """Half of the alpha lost of each variety in 2 to 6 years cold, in half a year warm and open

    (Garetz, BrewingTechniques 2(1) 1994): most packets in shops are of this crop or the last, so
    0.08 lost on average (judgement); of bitterness six tenths of that (Foods 12(23) (2023) 4353).
    """
    kept = np.exp(-draw.exponential(KEPT_FOR.get(str(line.kept), 0.08)))
    return 1.0 - 0.6 * (1.0 - kept)


def age_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """A barrier bag at 5 °C for up to a year: 8 to 30 % of the alpha lost by variety, fewer old."""
    most = 3.0 * KEPT_FOR.get(str(line.kept), 0.08)
    return 1.0 - 0.6 * draw.triangle(0.0, 0.0, most)


def attenuation(draw: Draw, figure: float, line: Any) -> Array:
    """44 batches: makers 72 to 77 %, strains 79 to 86; handbook ales 5 points about (slides)."""
    if line.attenuation is None:
        return draw.split(0.67, 0.75, 0.82)
    return figure + draw.normal(0.04)


def attenuation_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same batches: more often above their makers' figures than below."""
    if line.attenuation is None:
        return draw.triangle(0.64, 0.76, 0.86)
    return figure + draw.ends(-0.035, 0.005, 0.045)


def left_in_pot(draw: Draw, figure: float, line: Any) -> Array:
    """A guess x or / e^0.6; told nothing: 0.2, 0.4, 1.0 L in a pot under 12 L (judgement)."""
    return figure * draw.times(0.6) if line.left_in_pot else draw.split_times(0.2, 0.4, 1.0)


def left_in_pot_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same, evenly between half and twice the guess."""
    if line.left_in_pot:
        return figure * np.exp(draw.even(-0.69, 0.69))
    return draw.triangle(0.1, 0.4, 1.2)


def fermenter_mark(draw: Draw, figure: float, line: Any) -> Array:
    """A moulded mark within 4 % (buckets 5 to 10 % off, home tests), the eye 2 to 3 mm: 0.15 L."""
    return figure * draw.times(0.04) + draw.normal(0.15)


def fermenter_mark_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """Within 5 % as household measures (ANSI Z61.1, quoted), the eye within 3 mm: 0.2 L."""
    return figure * (1.0 + draw.even(-0.05, 0.05)) + draw.even(-0.2, 0.2)


def held_by_hops(draw: Draw, figure: float, line: Any) -> Array:
    """Whole hops 4.9 L/kg weighed, pellets 4 to 6, 10 with trub (home records)."""
    if line.form == "pellets":
        return 6.0 * draw.times(0.45)
    return 5.0 * draw.times(0.25)


def held_by_hops_otherwise(draw: Draw, figure: float, line: Any) -> Array:
    """The same records, as triangles."""
    return draw.triangle(3.0, 5.5, 10.0) if line.form == "pellets" else draw.triangle(3.8, 5.0, 7.0)


STOVES = {
    "electric": (0.60, 0.74, 0.80), "gas": (0.30, 0.40, 0.50), "induction": (0.75, 0.86, 0.90),
}  # fmt: skip
"""Sweeney et al., EPRI, ACEEE Summer Study 2014: heads; ranges are judgement."""


def exactly(prior: Callable[[Draw], Array]) -> Prior:
    """Return the prior of a thing that the recipe says nothing of."""
    return lambda draw, figure, line: prior(draw)


AS_READ: Priors = {
    "kitchen scale": times(0.01),  # common practice
    "weight of {name}": about(0.0015),  # a scale in steps of 1 g, common practice
    "solids of {name}": solids,
    "colour of {name}": colour,
    "label bitterness of {name}": times(0.15),  # common practice
    "alpha acid of {name}": alpha,
    "fermentability of {name}": fermentability,
    "fermentability of steeped grain": about(0.05),  # 33 to 46 % by colour, from memory
    "attenuation": attenuation,
    # one split batch no different (blog article, 2010); +0, +1, +4 points: judgement
    "too little yeast": exactly(lambda draw: draw.split(0.0, 1.0, 4.0)),
    "yeast pitched too cold": exactly(lambda draw: draw.split(0.0, 1.0, 6.0)),  # judgement
    "tap water temperature": about(4.0),  # common practice
    "freezer temperature": about(4.0),  # common practice
    "water measured in": times(0.04),  # household measures 5 %, ANSI Z61.1 (quoted)
    "fermenter mark": fermenter_mark,
    "wort left in the pot": left_in_pot,
    # squeezed 0.7, drained 1.0, wet 1.1 to 1.3 L/kg; Oxford Companion to Beer, "spent grain"
    "water held by grain": about(0.3),
    "wort held by hops": held_by_hops,
    # at home 1.9 to 5.7 L/h, 10 to 24 % an hour: x or / e^0.35 unmeasured (second-hand)
    "evaporation": times(0.35),
    "stove power": times(0.15),  # hob ratings, common practice
    "heat lost by the pot": about(1.0),  # 0.2 to 0.4 kW at the boil of 10 L, estimate
    "efficiency of the stove": lambda draw, figure, line: draw.split(*STOVES[line.stove]),
    # 9.5 L in ice 0.040 to 0.073 a minute, 19 L 0.028 to 0.11 (home records)
    "cooling constant": times(0.5),
    "temperature of the stand": about(2.0),  # kitchen thermometer, common practice
    # one experiment: Palmer, How to Brew, 1st ed., online, ch. 13
    "steep yield": times(0.25),
    "steep yield of {name}": exactly(lambda draw: draw.split(0.17, 0.39, 0.48)),
    # whether Palmer's yields are delivered or in all the liquor is not said
    "extract held in the bag": exactly(lambda draw: draw.even(0.0, 1.0)),
    "base malt that converts in the steep": exactly(lambda draw: draw.even(0.0, 1.0)),  # judgement
    # 15 to 40 g of a tin of 1.5 kg; judgement
    "syrup left in the tin": exactly(lambda draw: draw.split_times(0.002, 0.010, 0.025)),
    # rules of colour 4.5, 6.2, 9.4 at MCU 5 (BrewingTechniques); 21 laboratories (Angelino 2000)
    "colour model": times(0.15),
    # pale wort darkens by half when boiled; a maltster's slides +3 of 30 (both abstracts)
    "extract that has darkened": exactly(lambda draw: draw.split(0.0, 1.0, 3.0)),
    "age of the hops": age,
    # 168 days, two varieties, all lost 14.5 to 23.4 % (Purdue thesis 2020)
    "how fast hops age": times(0.47),
    # none: Malowicki 2004; half: Rager, Garetz; all: Tinseth
    "effect of gravity on hops": exactly(lambda draw: draw.even(0.0, 1.0)),
    # books 0.81 to 1.34 of Tinseth; breweries 30 to 75 % (Jacobsen 1989); home ±33 % (second-hand)
    "bitterness model": times(0.25),
    # Daniels 1.2 to 1.27; Hosom: no faster isomerisation
    "how much more pellets give than whole hops": exactly(
        lambda draw: draw.split_times(1.00, 1.10, 1.25)
    ),
    # Hosom's fit 1.18 to 1.39 of Arrhenius; whirlpool 29.9 of 44 % (Justus 2018)
    "what hops give below the boil": exactly(lambda draw: draw.split_times(0.85, 1.2, 1.8)),
    # +10 % (Preis & Mitter 1995, from memory)
    "how much more first wort hops give": exactly(
        lambda draw: np.clip(draw.split_times(1.00, 1.05, 1.15), 1.0, 1.2)
    ),
    # 240 rising to 490 mg/L (fit to beers, Hosom) or no limit
    "hops that do not dissolve": exactly(lambda draw: draw.even(0.0, 1.0)),
}

READ_OTHERWISE: Priors = {
    "kitchen scale": times_evenly(0.012),
    "weight of {name}": off_evenly(0.0017),
    "solids of {name}": solids_otherwise,
    "colour of {name}": colour_otherwise,
    "label bitterness of {name}": times_evenly(0.17),
    "alpha acid of {name}": alpha_otherwise,
    "fermentability of {name}": fermentability_otherwise,
    "fermentability of steeped grain": off_evenly(0.06),
    "attenuation": attenuation_otherwise,
    "too little yeast": exactly(lambda draw: draw.triangle(0.0, 0.5, 4.5)),
    "yeast pitched too cold": exactly(lambda draw: draw.triangle(0.0, 1.0, 7.0)),
    "tap water temperature": off_evenly(5.0),
    "freezer temperature": off_evenly(5.0),
    "water measured in": times_evenly(0.05),
    "fermenter mark": fermenter_mark_otherwise,
    "wort left in the pot": left_in_pot_otherwise,
    "water held by grain": lambda draw, figure, line: figure + draw.ends(-0.3, 0.0, 0.25),
    "wort held by hops": held_by_hops_otherwise,
    "evaporation": lambda draw, figure, line: figure * np.exp(draw.ends(-0.35, 0.0, 0.35)),
    "stove power": times_evenly(0.17),
    "heat lost by the pot": off_evenly(1.2),
    "efficiency of the stove": lambda draw, figure, line: draw.triangle(*STOVES[line.stove]),
    "cooling constant": lambda draw, figure, line: figure * np.exp(draw.ends(-0.6, 0.0, 0.4)),
    "temperature of the stand": off_evenly(2.2),
    "steep yield": lambda draw, figure, line: figure * draw.ends(0.75, 1.0, 1.25),
    "steep yield of {name}": exactly(lambda draw: draw.triangle(0.15, 0.39, 0.50)),
    "extract held in the bag": exactly(lambda draw: draw.triangle(0.0, 0.5, 1.0)),
    "base malt that converts in the steep": exactly(lambda draw: draw.triangle(0.0, 0.5, 1.0)),
    "syrup left in the tin": exactly(lambda draw: draw.triangle(0.0, 0.010, 0.030)),
    "colour model": lambda draw, figure, line: figure * np.exp(draw.ends(-0.15, 0.0, 0.15)),
    "extract that has darkened": exactly(lambda draw: draw.even(0.0, 3.0)),
    "age of the hops": age_otherwise,
    "how fast hops age": lambda draw, figure, line: figure * draw.ends(0.6, 1.0, 1.6),
    "effect of gravity on hops": exactly(lambda draw: draw.triangle(0.0, 0.4, 1.0)),
    "bitterness model": lambda draw, figure, line: figure * np.exp(draw.even(-0.28, 0.29)),
    "how much more pellets give than whole hops": exactly(lambda draw: draw.even(1.00, 1.27)),
    "what hops give below the boil": exactly(lambda draw: draw.triangle(0.8, 1.2, 1.9)),
    "how much more first wort hops give": exactly(lambda draw: draw.even(1.00, 1.15)),
    "hops that do not dissolve": exactly(lambda draw: draw.triangle(0.0, 0.5, 1.0)),
}
