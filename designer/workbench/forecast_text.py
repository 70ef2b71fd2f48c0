"""A forecast as lines for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from designer.brewday.instrument import reading_range
from designer.brewday.predictions import PREDICTIONS, Prediction
from designer.brewday.results import Day, Finding, Outlook, Range
from designer.brewday.time_line import at_stage
from designer.recipe.document import Recipe
from designer.recipe.fields import number_or_none
from designer.recipe.quantity import Kind
from designer.translation import message, tr
from designer.units import show
from designer.units.quoting import one_line
from designer.workbench.supplies_text import after_lines, steep_lines, time_line, water_lines

WIDTH = 50
"""Columns to the causes of a forecast, at least."""
SPANS = {
    "": message("{low} to {high}"),
    "higher": message("{low} to {high}, more likely higher"),
    "lower": message("{low} to {high}, more likely lower"),
}

LEADS_TO = {"fit": message("every way to brew it here: hobwort fit FILE")}
"""Where other cures are found than the one that is offered, by the command that tells them."""


def forecast_lines(recipe: Recipe, outlook: Outlook) -> list[str]:
    """Return the forecast as lines: figures with ranges and main causes, vessels, findings."""
    lines = [one_line(recipe.name), ""]
    figures = {each.key: _figures(each, outlook.forecasts[each.key]) for each in PREDICTIONS}
    width = max(WIDTH, *(len(text) + 2 for text in figures.values()))
    for key, text in figures.items():
        lines.append(f"{text:<{width}}{_causes(outlook.forecasts[key])}".rstrip())
    day = outlook.day
    lines += ["", *water_lines(recipe, day.beer), *steep_lines(day), *_vessel_lines(recipe, day)]
    lines += [time_line(recipe, day), *after_lines(recipe, day)]
    lines += [_reading_line(recipe, outlook)]
    lines += ["", tr("Watch out:")] if outlook.findings else []
    for finding in outlook.findings:
        cures = "".join(f" [{each}]" for each in _cures(finding))
        lines.append(f"  {tr(finding.severity)}: {one_line(f'{finding.message}{cures}')}")
    return lines


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


def _vessel_lines(recipe: Recipe, day: Day) -> list[str]:
    def litres(value: Any) -> str:
        return show(Kind.VOLUME, float(value), rounded=True)

    rim = number_or_none(recipe.pot, "volume")
    brim = number_or_none(recipe.fermenter, "volume")
    pot = tr(
        "Pot: start with {start}, fullest {fullest} ({when})",
        start=litres(day.pot.start_water_l),
        fullest=litres(day.pot.fullest_l),
        when=at_stage(day.pot.fullest_at),
    )
    boil = tr(
        "Boil: gravity {first} to {last}, {left} left at its end, hot",
        first=f"{float(day.pot.boil_gravity_start):.3f}",
        last=f"{float(day.pot.boil_gravity_end):.3f}",
        left=litres(day.boil_end_hot_l),
    )
    cool = tr(
        "Cool: {minutes} min to {pour}, mixed {mixed}",
        minutes=f"{float(day.fermenter.cooling_min):.0f}",
        pour=_degrees(day.fermenter.cool_to_c),
        mixed=_degrees(day.fermenter.mixed_c),
    )
    ice_kg = float(day.fermenter.bath_ice_kg)
    if ice_kg > 0.0:
        cool = tr(
            "{cooled}, with {ice} of ice in the bath",
            cooled=cool,
            ice=show(Kind.MASS, round(ice_kg, 1), rounded=True),
        )
    fermenter = _fermenter(day)
    if rim is not None:
        pot = tr("{filled} of {whole}", filled=pot, whole=litres(rim))
    if brim is not None:
        fermenter = tr("{filled} of {whole}", filled=fermenter, whole=litres(brim))
    return [f"  {line}" for line in (pot, boil, cool, fermenter)]


def _fermenter(day: Day) -> str:
    batch = show(Kind.VOLUME, float(day.fermenter.batch_l), rounded=True)
    water_l = float(day.fermenter.top_up_l)
    if water_l == 0.0:
        return tr("Fermenter: no water on top, it holds {batch}", batch=batch)
    parts = {
        "wort": show(Kind.VOLUME, float(day.fermenter.from_pot_l), rounded=True),
        "water": show(Kind.VOLUME, water_l, rounded=True),
        "batch": batch,
    }
    hot_l = float(day.fermenter.hot_l)
    if hot_l > 0.0:
        return tr(
            "Fermenter: {wort} from the pot and {water} of water make {batch}; {hot} of it just "
            "boiled, for the extract there",
            **parts,
            hot=show(Kind.VOLUME, hot_l, rounded=True),
        )
    return tr("Fermenter: {wort} from the pot and {water} of water make {batch}", **parts)


def _reading_line(recipe: Recipe, outlook: Outlook) -> str:
    """What the hydrometer should show, its own error and the marks of its scale included."""
    first = reading_range(outlook.forecasts["original_gravity"], recipe.process)
    last = reading_range(outlook.forecasts["final_gravity"], recipe.process)
    said = tr(
        "Hydrometer, corrected: {low} to {high} before yeast, {last_low} to {last_high} when done",
        low=f"{first[0]:.3f}",
        high=f"{first[1]:.3f}",
        last_low=f"{last[0]:.3f}",
        last_high=f"{last[1]:.3f}",
    )
    return f"  {said}"


def _degrees(value: Any) -> str:
    return show(Kind.TEMPERATURE, float(value), rounded=True)
