"""A forecast as lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.in_words import said_of
from designer.brewday.instrument import reading_range
from designer.brewday.leaflet import Checked
from designer.brewday.predictions import PREDICTIONS, Prediction
from designer.brewday.results import Finding, Outlook, Range
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.units.quoting import one_line
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


def forecast_lines(recipe: Recipe, outlook: Outlook) -> list[str]:
    """Return the forecast as lines: figures with ranges and main causes, vessels, findings."""
    lines = [one_line(recipe.name), ""]
    figures = {each.key: _figures(each, outlook.forecasts[each.key]) for each in PREDICTIONS}
    width = max(WIDTH, *(len(text) + 2 for text in figures.values()))
    for key, text in figures.items():
        lines.append(f"{text:<{width}}{_causes(outlook.forecasts[key])}".rstrip())
    lines += leaflet_lines(stated_of(recipe, outlook))
    values = {key: found.value for key, found in outlook.forecasts.items()}
    lines.append(f"  {'; '.join(tr(words) for words in said_of(values).values())}")
    day = outlook.day
    lines += ["", *water_lines(recipe, day.beer)]
    if outlook.plan is None:
        lines += [*steep_lines(day), *pot_lines(recipe, day), fermenter_line(recipe, day)]
        lines.append(time_line(recipe, day))
    else:
        lines += plan_lines(recipe, outlook, outlook.plan)
    lines += after_lines(recipe, day)
    lines += [_reading_line(recipe, outlook)]
    lines += ["", tr("Watch out:")] if outlook.findings else []
    for finding in outlook.findings:
        cures = "".join(f" [{each}]" for each in _cures(finding))
        lines.append(f"  {tr(finding.severity)}: {one_line(f'{finding.message}{cures}')}")
    return lines


def leaflet_lines(stated: tuple[Checked, ...]) -> list[str]:
    """Return what the leaflet of a kit states beside the forecast, as lines; none where nothing."""
    if not stated:
        return []
    return ["", tr("The leaflet:"), *(f"  {one_line(each.said.text)}" for each in stated)]


def _cures(finding: Finding) -> Iterator[object]:
    """Yield what is offered against a finding: its cure, and where others are found."""
    if finding.offer is not None:
        yield finding.offer
    if finding.leads_to:
        yield tr(LEADS_TO[finding.leads_to])


def _figures(each: Prediction, found: Range) -> str:
    figure, low, high = (f"{x:.{each.decimals}f}" for x in (found.value, found.low, found.high))
    unit = f" {each.unit}" if each.kind is Kind.NUMBER else ""
    span = tr(SPANS[found.leans], low=low, high=high)
    return f"  {tr(each.label):<18} {figure + unit:>9}   {span}"


def _causes(found: Range) -> str:
    return ", ".join(
        f"{one_line(cause.words.text)} {100.0 * cause.share:.0f} %" for cause in found.causes[:2]
    )


def _reading_line(recipe: Recipe, outlook: Outlook) -> str:
    """What the hydrometer should show, its own error and the marks of its scale included."""
    first = reading_range(outlook.forecasts["original_gravity"], recipe.process)
    last = reading_range(outlook.forecasts["final_gravity"], recipe.process)
    said = tr(
        "Hydrometer, corrected: OG {low} to {high}, FG {last_low} to {last_high}",
        low=f"{first[0]:.3f}",
        high=f"{first[1]:.3f}",
        last_low=f"{last[0]:.3f}",
        last_high=f"{last[1]:.3f}",
    )
    return f"  {said}"
