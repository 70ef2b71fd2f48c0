"""`hobwort sheet`: brew sheets of recipes, as PDF, web page or text."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from designer.brewday.outlook import look_ahead
from designer.command_line.kitchen_figures import all_filled_by_kitchen
from designer.command_line.output import FINE, print_lines
from designer.command_line.packs import packs_of_shop
from designer.command_line.recipes import read_for_paper
from designer.errors import RefusedInputError
from designer.paper.files import places_for, write_sheet
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.sheet.blocks import Form
from designer.sheet.clock import read_date
from designer.sheet.content import brew_sheet
from designer.spoken_language import wanted_language
from designer.units import ShownUnits, read_clock
from designer.units.quoting import one_line

T = TypeVar("T")


def carry_out(chosen: Namespace) -> int:
    """Write a sheet of each recipe and say where; nothing is written if any cannot be read."""
    start = _given("--start", read_clock, chosen.start)
    brew_date = _given("--date", read_date, chosen.date)
    language = chosen.language or wanted_language()
    shown = ShownUnits(chosen.units)
    read = read_for_paper(chosen.files, chosen.set)
    recipes = all_filled_by_kitchen(read, wanted=chosen.kitchen)
    if chosen.pocket:
        return _pocket(
            chosen, recipes, shown=shown, start=start, brew_date=brew_date, language=language
        )
    packs = packs_of_shop(shown)
    places = places_for([Path(file) for file in chosen.files], chosen.output, web=chosen.html)
    for recipe, place in zip(recipes, places, strict=True):
        sheet = brew_sheet(
            recipe,
            look_ahead(recipe),
            shown=shown,
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


def _pocket(chosen: Namespace, recipes: list[Recipe], **wishes: Any) -> int:
    """Write the page for a phone of each recipe, or offer that of one in the network."""
    # Few want it, and its words and scripts are read from files.
    from designer.command_line.pocket import serve_pocket, write_pocket
    from designer.sheet.pocket.page import pocket_page

    pages = [pocket_page(each, look_ahead(each), **wishes).encode("utf-8") for each in recipes]
    if chosen.output is not None:
        places = places_for([Path(file) for file in chosen.files], chosen.output, web=True)
        for page, place in zip(pages, places, strict=True):
            write_pocket(page, place)
    return FINE if chosen.serve is None else serve_pocket(pages[0], chosen.serve)


def _given(option: str, read: Callable[[str], T], typed: str | None) -> T | None:
    """Return the value of an option if it was given; raises RefusedInputError that names it."""
    try:
        return None if typed is None else read(typed)
    except RefusedInputError as fault:
        raise refused("of-option", "{option}: {fault}", option=option, fault=fault) from None
