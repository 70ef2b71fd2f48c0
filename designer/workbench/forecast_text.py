"""A forecast as lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.in_words import said_of
from designer.brewday.instrument import reading_range
from designer.brewday.leaflet import Checked
from designer.brewday.predictions import Prediction
from designer.brewday.results import Finding, Outlook, Range
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.translation import labelled, message, parted, tr
from designer.units.quoting import one_line
from designer.workbench.figures import PLAIN, Figures, told_forecasts
from designer.workbench.kit_check import stated_of
from designer.workbench.plan_text import plan_lines
from designer.workbench.supplies_text import after_lines, steep_lines, time_line, water_lines
from designer.workbench.vessels_text import fermenter_line, pot_lines

WIDTH = 50
"""Columns to the causes of a forecast, at least."""
SPANS = {
    "": message("{low} to {high}"),
    "higher": message("{low} to {high}, more likely higher"),
    "lower": message("{low} to {high}, more likely lower"),
}

LEADS_TO = {
    "fit": message("every way to brew it here: hobwort fit FILE"),
    "styles": message("the nearest styles: hobwort styles FILE"),
}
"""Where other cures are found than the one that is offered, by the command that tells them."""


def forecast_lines(recipe: Recipe, outlook: Outlook, figures: Figures = PLAIN) -> list[str]:
    """Return the forecast as lines: figures with ranges and main causes, vessels, findings."""
    lines = [one_line(recipe.name), ""]
    told = {
        each.key: _figures(each, outlook.forecasts[each.key], figures) for each in told_forecasts()
    }
    width = max(WIDTH, *(len(text) + 2 for text in told.values()))
    for key, text in told.items():
        lines.append(f"{text:<{width}}{_causes(outlook.forecasts[key], figures)}".rstrip())
    lines += leaflet_lines(stated_of(recipe, outlook), figures)
    values = {key: found.value for key, found in outlook.forecasts.items()}
    lines.append(f"  {parted(tr(words) for words in said_of(values).values())}")
    day = outlook.day
    lines += ["", *water_lines(recipe, day.beer, figures)]
    if outlook.plan is None:
        lines += [*steep_lines(day, figures), *pot_lines(recipe, day, figures)]
        lines += [fermenter_line(recipe, day, figures), time_line(recipe, day)]
    else:
        lines += plan_lines(recipe, outlook, outlook.plan, figures)
    lines += after_lines(recipe, day, figures)
    lines += [_reading_line(recipe, outlook, figures)]
    lines += ["", tr("Watch out:")] if outlook.findings else []
    lines += [f"  {finding_line(each, figures)}" for each in outlook.findings]
    return lines


def finding_line(finding: Finding, figures: Figures, *, cures: bool = True) -> str:
    """Return how grave a finding is, what it says, and what is offered against it."""
    said = figures.said(finding.message)
    if cures:
        said += "".join(f" [{each}]" for each in _cures(finding, figures))
    return labelled(tr(finding.severity), said)


def leaflet_lines(stated: tuple[Checked, ...], figures: Figures = PLAIN) -> list[str]:
    """Return what the leaflet of a kit states beside the forecast, as lines; none where nothing."""
    if not stated:
        return []
    return ["", tr("The leaflet:"), *(f"  {figures.said(each.said)}" for each in stated)]


def _cures(finding: Finding, figures: Figures) -> Iterator[str]:
    """Yield what is offered against a finding: its cure, and where others are found."""
    if finding.offer is not None:
        yield figures.said(finding.offer)
    if finding.leads_to:
        yield tr(LEADS_TO[finding.leads_to])


def _figures(each: Prediction, found: Range, figures: Figures) -> str:
    low, high = figures.span(each, found)
    span = tr(SPANS[found.leans], low=low, high=high)
    return f"  {tr(each.label):<18} {figures.forecast(each, found.value):>9}   {span}"


def _causes(found: Range, figures: Figures) -> str:
    return ", ".join(
        f"{figures.said(cause.words)} {100.0 * cause.share:.0f} %" for cause in found.causes[:2]
    )


def _reading_line(recipe: Recipe, outlook: Outlook, figures: Figures) -> str:
    """What the hydrometer should show, its own error and the marks of its scale included."""
    first = reading_range(outlook.forecasts["original_gravity"], recipe.process)
    last = reading_range(outlook.forecasts["final_gravity"], recipe.process)
    said = tr(
        "Hydrometer, corrected: OG {low} to {high}, FG {last_low} to {last_high}",
        low=figures(Kind.GRAVITY, first[0]),
        high=figures(Kind.GRAVITY, first[1]),
        last_low=figures(Kind.GRAVITY, last[0]),
        last_high=figures(Kind.GRAVITY, last[1]),
    )
    return f"  {said}"
