"""What is doubtful about extract, sugar and grain, and about what they become in the beer.

A figure of the recipe is rarely that of the very tin: it is a handbook's, or its class's. So its
draws are spread as makers differ, about the figure, and where a handbook's lies beside what makers
print, up to a hundredth nearer to theirs. A figure that is missing altogether takes the span of its
kind. A spread that was typed beside a figure takes the place of all this.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from designer.brewday.doubts import Doubt, Sure, ratio
from designer.brewday.tolerances import COLOUR, SOLIDS
from designer.recipe.choices import FermentableKind, GrainBag, SyrupTin, is_grain
from designer.recipe.document import Fermentable
from designer.recipe.kind_defaults import (
    colour_lovibond,
    extract_fraction,
    figures,
    real_fermentability,
)
from designer.translation import message
from designer.wort.numeric import clamp


class Span(NamedTuple):
    """The 5 %, 50 % and 95 % points of a figure among makes or lots."""

    low: float
    middle: float
    high: float


MALT_EXTRACTS = (
    FermentableKind.LIQUID_EXTRACT,
    FermentableKind.DRY_EXTRACT,
    FermentableKind.HOPPED_KIT,
)
_SYRUP = Span(0.770, 0.795, 0.820)
SOLIDS_OF_MAKERS: dict[str, Span] = {
    FermentableKind.LIQUID_EXTRACT: _SYRUP,
    FermentableKind.HOPPED_KIT: _SYRUP,
    FermentableKind.DRY_EXTRACT: Span(0.945, 0.965, 0.980),
}
_SHEETS = (
    "syrup 76 % at least, 77.6 to 80.1, 78 to 82, 78 to 81 %, powder 97 % at least by sheets of "
    "suppliers, and it takes up water once opened; common practice"
)
NEARER_MAKERS = 0.01
"""A handbook's 36 and 44 ppg (78 and 95 %) lie one to two hundredths below what makers print."""
LEAST_OF_DRY_SUGAR = 0.90
"""Sugar with less extract is a syrup, or honey."""
_DRY_SUGAR, _SUGAR_SYRUP = 0.01, 0.02

_UNNAMED_YIELD: dict[str, Span] = {
    FermentableKind.SUGAR: Span(0.75, 1.0, 1.0),
    FermentableKind.STEEPING_GRAIN: Span(0.17, 0.39, 0.48),
}
_UNNAMED_COLOUR: dict[str, Span] = {
    FermentableKind.LIQUID_EXTRACT: Span(3.0, 5.0, 25.0),
    FermentableKind.DRY_EXTRACT: Span(3.0, 5.0, 30.0),
    FermentableKind.HOPPED_KIT: Span(5.0, 10.0, 80.0),
    FermentableKind.SUGAR: Span(0.0, 0.0, 35.0),
    FermentableKind.STEEPING_GRAIN: Span(10.0, 60.0, 500.0),
    FermentableKind.MASH_GRAIN: Span(1.8, 4.0, 25.0),
}
_OF_THE_KIND = "the span of its kind in the catalogue; judgement"

YIELD = message("steep yield of {name}")
FERMENTABILITY = message("fermentability of {name}")
FERMENTABILITY_OF_GRAIN = message("fermentability of steeped grain")
DARK_LOVIBOND = 8.0
"""From this colour on an extract is amber or dark."""
_LESS, _PALE_MORE, _DARK_MORE = 0.05, 0.04, 0.05
_KIT_WITH_SUGAR = 0.72
_PAIK = (
    "44 commercial extracts, carbohydrates of considerable variation, sugar syrups in some: Paik, "
    "Low and Ingledew, J. ASBC 49 (1991) 8 (abstract); a maker's sheet, fermentable sugars 52 to "
    "72 % of the solids of syrup, 55 to 64 % of powder"
)

COLOUR_MODEL = ratio(
    message("colour model"), 0.15,
    "the rules that Morey's curve is fitted to differ, 4.5, 6.2 and 9.4 SRM at 5 MCU (Morey, "
    "BrewingTechniques); 21 laboratories, one wort, ±15 %: Angelino, Monatsschr. Brauwiss. 53 "
    "(2000) 54",
    Sure.ONE_SOURCE,
)  # fmt: skip
DARKENING = Doubt(
    message("extract that has darkened"), 0.0, 0.0, 1.0, 3.0,
    "boiling darkens pale wort by half, most of it in the first hour (\"Effect of boiling on the "
    "colour of laboratory malt worts\", J. Inst. Brew., abstract), by 2 to 4 EBC in practice; "
    "extract has been boiled once already: 1 to 4 SRM on pale beers, common practice",
    Sure.JUDGEMENT, least=0.0, most=5.0,
)  # fmt: skip
LEFT_IN_TIN = Doubt(
    message("syrup left in the tin"), 0.0, 0.002, 0.010, 0.025,
    "15 to 40 g stay in a tin of 1.5 kg; judgement", Sure.JUDGEMENT, most=0.10,
)  # fmt: skip
LEFT_IN_RINSED_TIN = LEFT_IN_TIN._replace(low=0.0, middle=0.002, high=0.005, least=0.0)
STEEP_YIELD = ratio(
    message("steep yield"), 0.25,
    "one experiment: Palmer, How to Brew, 1st ed., online, table 9 (1 lb in 1 US gal, "
    "71 °C, 30 min); crush, 15 to 60 min and 60 to 75 °C differ",
    Sure.JUDGEMENT,
)  # fmt: skip
HELD_IN_BAG = Doubt(
    message("extract held in the bag"), 0.0, 0.0, 0.5, 1.0,
    "Palmer's yields may be those of the whole liquid or those delivered; mass balance for the "
    "first, nothing lost for the second",
    Sure.JUDGEMENT, evenly=True,
)  # fmt: skip
HELD_IN_RINSED_BAG = HELD_IN_BAG._replace(middle=0.15, high=0.30)
BASE_MALT = Doubt(
    message("base malt that converts in the steep"), 0.0, 0.0, 0.5, 1.0,
    "starch does convert within 30 min at 62 to 70 °C, how much of it depends on crush and "
    "stirring; judgement",
    Sure.JUDGEMENT, evenly=True,
)  # fmt: skip


def solids(line: Fermentable) -> Doubt:
    """Return the extract of a line that is no grain, as a share of its mass."""
    if line.extract is None and line.kind in _UNNAMED_YIELD:
        return _unnamed(SOLIDS, extract_fraction(line), _UNNAMED_YIELD[line.kind])
    return _solids(line.kind, extract_fraction(line))


@lru_cache(maxsize=256)
def _solids(kind: str, figure: float) -> Doubt:
    made = SOLIDS_OF_MAKERS.get(kind)
    if made is None:
        half = _DRY_SUGAR if figure >= LEAST_OF_DRY_SUGAR else _SUGAR_SYRUP
        span = Span(figure - half, figure, figure + half)
        return _share(SOLIDS, figure, span, "honey and syrups differ in water; common practice")
    middle = figure + float(clamp(made.middle - figure, -NEARER_MAKERS, NEARER_MAKERS))
    off = middle - made.middle
    span = Span(made.low + off, middle, made.high + off)
    return _share(SOLIDS, figure, span, _SHEETS, Sure.ONE_SOURCE)


@lru_cache(maxsize=256)
def _share(
    words: str, figure: float, span: Span, source: str, sure: Sure = Sure.JUDGEMENT
) -> Doubt:
    return Doubt(words, figure, *span, source, sure, least=0.0, most=1.0)


@lru_cache(maxsize=256)
def _unnamed(words: str, figure: float, span: Span) -> Doubt:
    return Doubt(words, figure, *span, _OF_THE_KIND, Sure.JUDGEMENT, least=0.0)


def unnamed_steep_yield(line: Fermentable) -> Doubt | None:
    """Return what a steep gives of a grain whose yield is not known; None where it is."""
    span = _UNNAMED_YIELD.get(line.kind) if line.extract is None else None
    return None if span is None else _unnamed(YIELD, extract_fraction(line), span)


def unnamed_colour(line: Fermentable) -> Doubt | None:
    """Return the colour of a line that has none, in °L; None where it has one."""
    if line.colour is not None:
        return None
    return _unnamed(COLOUR, figures(line).colour, _UNNAMED_COLOUR[line.kind])


def fermentability(line: Fermentable) -> Doubt:
    """Return how much of a line's extract ferments, real; certain where nothing does."""
    figure = real_fermentability(line)
    dark = line.kind in MALT_EXTRACTS and colour_lovibond(line) >= DARK_LOVIBOND
    return _fermentability(line.kind, figure, dark)


@lru_cache(maxsize=256)
def _fermentability(kind: str, figure: float, dark: bool) -> Doubt:
    if figure <= 0.0:
        return _share(FERMENTABILITY, figure, Span(figure, figure, figure), "")
    if is_grain(kind):
        source = "46 of pale to 33 % of dark crystal, 35 % of roast: from memory, rounded"
        return _share(FERMENTABILITY_OF_GRAIN, figure, _about(figure, 0.05, 0.05), source)
    more = _DARK_MORE if dark else _PALE_MORE
    if kind == FermentableKind.HOPPED_KIT:
        more = max(more, _KIT_WITH_SUGAR - figure)
    span = _about(figure, _LESS, more)
    return _share(FERMENTABILITY, figure, span, _PAIK, Sure.ONE_SOURCE)


def _about(figure: float, less: float, more: float) -> Span:
    return Span(figure - less, figure, figure + more)


def is_from_a_tin(line: Fermentable) -> bool:
    """Tell whether a line is poured out of a tin or jar, and part of it sticks there."""
    if line.kind in (FermentableKind.LIQUID_EXTRACT, FermentableKind.HOPPED_KIT):
        return True
    return line.kind == FermentableKind.SUGAR and extract_fraction(line) < LEAST_OF_DRY_SUGAR


def about_figure(line: Fermentable, field: str) -> Doubt | None:
    """Return how a figure that a line has is doubted, in its unit; None by its field's spread."""
    if field == "fermentability":
        return fermentability(line)
    if field != "extract":
        return None
    if not is_grain(line.kind):
        return solids(line)
    figure = extract_fraction(line)
    low, high = (figure * end for end in (STEEP_YIELD.low, STEEP_YIELD.high))
    return STEEP_YIELD._replace(published=figure, low=low, middle=figure, high=high)


def left_in_tin(how: str) -> Doubt:
    """Return the share of a syrup that stays in its tin, by how that is emptied."""
    return LEFT_IN_RINSED_TIN if how == SyrupTin.RINSED else LEFT_IN_TIN


def held_in_bag(how: str) -> Doubt:
    """Return how much of its part of the steep the bag keeps, by what is done with it."""
    return HELD_IN_RINSED_BAG if how == GrainBag.RINSED else HELD_IN_BAG
