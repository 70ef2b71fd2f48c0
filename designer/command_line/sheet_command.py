"""`hobwort sheet`: brew sheets of recipes, as PDF, web page or text."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from designer.brewday.outlook import look_ahead
from designer.command_line.output import FINE, print_lines
from designer.command_line.packs import packs_of_shop
from designer.command_line.recipes import read_for_paper
from designer.errors import RefusedInputError
from designer.library.recipe_file import write_whole
from designer.paper.files import places_for, write_sheet
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.sheet.blocks import Form
from designer.sheet.clock import read_date
from designer.sheet.content import brew_sheet
from designer.sheet.language import language_of_locale
from designer.translation import tr
from designer.units import ShownUnits, read_clock
from designer.units.quoting import one_line

T = TypeVar("T")


def carry_out(chosen: Namespace) -> int:
    """Write a sheet of each recipe and say where; nothing is written if any cannot be read."""
    start = _given("--start", read_clock, chosen.start)
    brew_date = _given("--date", read_date, chosen.date)
    language = chosen.language or language_of_locale()
    packs = packs_of_shop(ShownUnits(chosen.units))
    recipes = read_for_paper(chosen.files, chosen.set)
    places = places_for(
        [Path(file) for file in chosen.files], chosen.output, web=chosen.html or chosen.pocket
    )
    for recipe, place in zip(recipes, places, strict=True):
        if chosen.pocket:
            _write_pocket(
                place,
                recipe,
                shown=ShownUnits(chosen.units),
                start=start,
                brew_date=brew_date,
                language=language,
            )
            continue
        sheet = brew_sheet(
            recipe,
            look_ahead(recipe),
            shown=ShownUnits(chosen.units),
            start=start,
            brew_date=brew_date,
            variant=chosen.variant,
            language=language,
            shop=chosen.shop,
            form=Form(chosen.large, chosen.pages),
            packs=packs,
        )
        print_lines(f"{one_line(str(place))}: {write_sheet(sheet, place, chosen.paper)}.")
    return FINE


def _write_pocket(place: Path, recipe: Recipe, **wishes: Any) -> None:
    """Write the page for a phone's browser and say where."""
    # Few want it, and its words and scripts are read from files.
    from designer.sheet.pocket.page import pocket_page

    page = pocket_page(recipe, look_ahead(recipe), **wishes).encode("utf-8")
    write_whole(place, page)
    size = f"{len(page) / 1000:.0f}"
    print_lines(
        tr(
            "{place}: a page for a phone’s browser, {size} kB.",
            place=one_line(str(place)),
            size=size,
        )
    )


def _given(option: str, read: Callable[[str], T], typed: str | None) -> T | None:
    """Return the value of an option if it was given; raises RefusedInputError that names it."""
    try:
        return None if typed is None else read(typed)
    except RefusedInputError as fault:
        raise refused("of-option", "{option}: {fault}", option=option, fault=fault) from None
