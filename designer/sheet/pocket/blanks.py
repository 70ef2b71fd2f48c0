"""The blanks of the pocket page: a field beside each forecast, and what the scripts know of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from html import escape
from typing import Any

from designer.brewday.measured.readings import By
from designer.recipe.quantity import Kind
from designer.sheet.language import Language
from designer.sheet.stove import Blank, StoveStep
from designer.units import ShownUnits, show


def blank_id(blank: Blank) -> str:
    """Return the lasting name of what is measured: what it is, and of which boil or fermenter."""
    minute = "" if blank.left_min is None else f" {blank.left_min:g}"
    return f"{blank.what} {blank.boil} {blank.fermenter}{minute}"


def blanks_of(
    steps: Iterable[StoveStep], shown: ShownUnits
) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Tell the scripts of each blank: its unit, its forecast as a number, and what a log keeps."""
    for step in steps:
        for blank in step.blanks:
            number, unit = in_one_unit(blank, shown)
            yield (
                blank_id(blank),
                {
                    "step": step.key,
                    "kind": str(blank.kind),
                    "unit": unit,
                    "value": float(number),
                    "places": len(number.partition(".")[2]),
                    "of": kept_of(blank),
                },
            )


def in_one_unit(blank: Blank, shown: ShownUnits) -> tuple[str, str]:
    """Return the forecast as a number and its unit; where both units are shown, the metric one."""
    system = ShownUnits.US if shown is ShownUnits.US else ShownUnits.METRIC
    number, _, unit = show(blank.kind, blank.value, system, rounded=True).partition(" ")
    return number.replace("−", "-"), unit


def kept_of(blank: Blank) -> dict[str, Any]:
    """Return what a log keeps of a blank, but for the figure."""
    kept: dict[str, Any] = {
        "what": str(blank.what),
        "by": str(blank.by),
        "kind": str(blank.kind),
        "boil": blank.boil,
        "fermenter": blank.fermenter,
    }
    return kept if blank.left_min is None else {**kept, "left_min": blank.left_min}


def blank_html(blank: Blank, place: str, shown: ShownUnits, spoken: Language) -> str:
    """Return a blank with its label; a hydrometer also has one for the warmth of the sample."""
    _, unit = in_one_unit(blank, shown)
    plan = spoken.say("forecast {value}", value=blank.forecast)
    sample = ""
    if blank.kind is Kind.GRAVITY and blank.by is By.HYDROMETER:
        degrees = degrees_of(shown)
        sample = (
            f'<span class="row"><label for="{place}-at">{escape(spoken.say("sample at"))}</label>\n'
            f"{_field(f'{place}-at', '')} <span>{degrees}</span></span>\n"
        )
    return (
        f'<div class="blank" data-blank="{escape(blank_id(blank))}">\n'
        f'<label for="{place}">{escape(blank.label)}</label>\n'
        f'<span class="plan" id="{place}-plan">{escape(plan)}</span>\n'
        f'<span class="row">{_field(place, f"{place}-plan {place}-diff")} '
        f'<span class="unit">{escape(unit)}</span> '
        f'<output class="diff" id="{place}-diff" for="{place}"></output></span>\n{sample}</div>'
    )


def degrees_of(shown: ShownUnits) -> str:
    """Return the unit in which a sample's warmth is typed."""
    return "°F" if shown is ShownUnits.US else "°C"


def _field(place: str, told_by: str) -> str:
    told = f' aria-describedby="{told_by}"' if told_by else ""
    return f'<input type="text" inputmode="decimal" autocomplete="off" id="{place}"{told}>'
