"""The whole sheet as HTML, in two unit settings and three languages: read a change like code."""

from __future__ import annotations

from dataclasses import asdict
from datetime import date
from pathlib import Path
from pprint import pformat

import pytest

from designer.brewday.outlook import look_ahead
from designer.sheet.html import sheet_html
from designer.sheet.plain import sheet_text
from designer.sheet.stove import stove_steps
from designer.units import ShownUnits

from . import odd_kitchens, plans

GOLDEN = Path(__file__).parents[1] / "golden"


def _compare(path, made, update_golden):
    if update_golden:
        path.write_text(made, encoding="utf-8")
    assert made == path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "units", "language"),
    [
        ("harbour_lamp_porter", "metric", "en"),
        ("foghorn_wheat", "us", "en"),
        ("harbour_lamp_porter", "metric", "de"),
        ("slipway_bitter", "metric", "fr"),
    ],
)
def test_the_sheet_reads_as_it_was_agreed(example, sheet_of, update_golden, name, units, language):
    # Without ranges no random numbers are drawn, which another numpy might draw otherwise.
    sheet = sheet_of(
        example(name), units, ranges=False, brew_date=date(2026, 3, 28), language=language
    )
    suffix = units if language == "en" else f"{units}-{language}"
    _compare(GOLDEN / f"{name}-{suffix}.html", sheet_html(sheet), update_golden)


@pytest.mark.parametrize("name", plans.FOUND)
@pytest.mark.parametrize("variant", ["full", "bench"])
def test_the_sheet_of_a_plan_reads_as_it_was_agreed(sheet_of, update_golden, name, variant):
    sheet = sheet_of(plans.FOUND[name](), ranges=False, variant=variant)
    part = "" if variant == "full" else f"-{variant}"
    path = GOLDEN / f"breakwater_red-{name.replace(' ', '-')}{part}.txt"
    _compare(path, sheet_text(sheet), update_golden)


@pytest.mark.parametrize("name", plans.ODD)
def test_the_sheet_of_an_odd_plan_reads_as_it_was_agreed(sheet_of, update_golden, name):
    """As a page of its own too, for the drawings of many vessels."""
    sheet = sheet_of(plans.ODD[name](), ranges=False)
    path = GOLDEN / f"breakwater_red-{name.replace(',', '').replace(' ', '-')}.html"
    _compare(path, sheet_html(sheet), update_golden)


@pytest.mark.parametrize("name", odd_kitchens.ALL)
@pytest.mark.parametrize("variant", ["full", "bench"])
def test_the_sheet_of_an_odd_kitchen_reads_as_it_was_agreed(sheet_of, update_golden, name, variant):
    make, units = odd_kitchens.ALL[name]
    recipe = make()
    sheet = sheet_of(recipe, units, ranges=False, variant=variant)
    path = GOLDEN / f"odd-{name.replace(' ', '-')}-{variant}"
    if variant == "bench":
        _compare(path.with_suffix(".txt"), sheet_text(sheet), update_golden)
    else:
        _compare(path.with_suffix(".html"), sheet_html(sheet), update_golden)


@pytest.mark.parametrize("name", ["two pots at once", "two boils", "unlike, on two days"])
def test_the_steps_at_the_stove_read_as_they_were_agreed(update_golden, name):
    recipe = plans.ALL[name]()
    seen = look_ahead(recipe, ranges=False)
    steps = stove_steps(
        recipe, seen, shown=ShownUnits.METRIC, start=None, brew_date=None, language="en"
    )
    told = "".join(f"{pformat(asdict(each), width=100)}\n" for each in steps)
    path = GOLDEN / f"stove-{name.replace(',', '').replace(' ', '-')}.txt"
    _compare(path, told, update_golden)


def test_the_bench_card_reads_as_it_was_agreed(example, sheet_of, update_golden):
    sheet = sheet_of(example("slipway_bitter"), "both", ranges=False, variant="bench")
    _compare(GOLDEN / "slipway_bitter-bench-both.txt", sheet_text(sheet), update_golden)
