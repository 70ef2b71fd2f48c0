"""What if: variants of a recipe side by side, with what differs and what comes of each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap
from typing import Any

from designer.brewday.predictions import MAIN, Prediction
from designer.brewday.results import Outlook, Range
from designer.recipe.comparing import differences
from designer.recipe.comparing_parts import Difference
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.translation import message, parted, tr
from designer.units.quoting import one_line
from designer.workbench.figures import PLAIN, Figures
from designer.workbench.plan_document import forecasts_document
from designer.workbench.style_watch import outlook_of

NAMES = ("A", "B", "C")
"""What variants are called, in order: as many as can be compared at a glance."""
AS_IT_IS = message("As it is")

DOES_NOT_FIT = {
    "pot-overflows": message("the pot overflows"),
    "fermenter-overflows": message("the fermenter overflows"),
    "boils-dry": message("the pot boils dry"),
    "foam-room": message("little room for foam"),
    "krausen-room": message("little room for krausen"),
}
"""Findings of vessels that are too small, in a few words, the worst first."""
FITS = message("it fits")
FIRST, EACH = 22, 19
"""Columns of a terminal for what a line is of, and for each variant."""
WIDTH = FIRST + EACH * (len(NAMES) + 1)


@dataclass(frozen=True, slots=True)
class Column:
    """One variant, or the recipe as it is: what differs from that, and what is forecast."""

    name: str
    recipe: Recipe
    outlook: Outlook
    differs: tuple[Difference, ...] = ()

    @property
    def fullest_l(self) -> float:
        """The most that the fullest pot holds, hot, in litres."""
        return float(self.outlook.day.pot.fullest_l)

    @property
    def fits(self) -> str:
        """Whether it fits the vessels, in words."""
        return fits_words(self.outlook)


def fits_words(outlook: Outlook) -> str:
    """Return whether a day fits its vessels, in a few words."""
    codes = {each.code for each in outlook.findings}
    return tr(next((words for code, words in DOES_NOT_FIT.items() if code in codes), FITS))


def columns(recipe: Recipe, variants: Sequence[Recipe]) -> list[Column]:
    """Return the recipe as it is, and each variant of it."""
    first = Column(tr(AS_IT_IS), recipe, outlook_of(recipe))
    return [first, *(_column(*each, recipe) for each in zip(NAMES, variants, strict=False))]


def _column(name: str, variant: Recipe, recipe: Recipe) -> Column:
    return Column(name, variant, outlook_of(variant), differences(recipe, variant))


def differs_words(each: Difference) -> str:
    """Return one difference in words: "Boil for: 45 min, not 60 min"."""
    what, before, after = map(one_line, (each.what, *_parts_that_differ(each)))
    if not after:
        return tr("{what}: without", what=what)
    if not before:
        return tr("{what}: {after}", what=what, after=after)
    return tr("{what}: {after}, not {before}", what=what, after=after, before=before)


def _parts_that_differ(each: Difference) -> tuple[str, str]:
    """Return what is told of a line before and after without what is told alike of both."""
    before, after = each.before.split(", "), each.after.split(", ")
    if len(before) != len(after):
        return each.before, each.after
    apart = [pair for pair in zip(before, after, strict=True) if pair[0] != pair[1]]
    return ", ".join(one for one, _ in apart), ", ".join(other for _, other in apart)


def what_if_lines(found: Sequence[Column], figures: Figures = PLAIN) -> list[str]:
    """Return variants side by side as lines for a terminal; what differs is said above."""
    lines = []
    for each in found[1:]:
        said = parted(map(differs_words, each.differs)) or tr("nothing differs")
        lines += wrap(
            f"{each.name}  {said}", FIRST + EACH * (len(NAMES) + 1), subsequent_indent="   "
        )
    lines += ["", _row("", [each.name for each in found])]
    for forecast in MAIN:
        ranges = [each.outlook.forecasts[forecast.key] for each in found]
        values = [figures.forecast(forecast, each.value) for each in ranges]
        lines.append(_row(tr(forecast.label), values))
        lines.append(_row("", [_span(forecast, each, figures) for each in ranges]))
    fullest = [figures(Kind.VOLUME, each.fullest_l) for each in found]
    lines.append(_row(tr("Fullest pot"), fullest))
    return [*lines, *_wrapped_row(tr("Vessels"), [each.fits for each in found])]


def _row(label: str, cells: Sequence[str]) -> str:
    return f"  {label:<{FIRST}}{''.join(f'{cell:<{EACH}}' for cell in cells)}".rstrip()


def _wrapped_row(label: str, cells: Sequence[str]) -> Iterator[str]:
    parts = [wrap(cell, EACH - 2) for cell in cells]
    for at in range(max(map(len, parts))):
        yield _row(label if not at else "", [p[at] if at < len(p) else "" for p in parts])


def _span(forecast: Prediction, found: Range, figures: Figures) -> str:
    low, high = figures.span(forecast, found)
    return tr("({low} to {high})", low=low, high=high)


def what_if_document(found: Sequence[Column]) -> list[dict[str, Any]]:
    """Return each variant as plain values; the recipe as it is stands outside of them."""
    return [
        {
            "name": each.name,
            "differs": [
                {"what": one.what, "before": one.before, "after": one.after} for one in each.differs
            ],
            "forecasts": forecasts_document(each.outlook.forecasts, each.recipe.process),
            "fullest_l": each.fullest_l,
            "vessels": [one.code for one in each.outlook.findings if one.code in DOES_NOT_FIT],
        }
        for each in found[1:]
    ]
