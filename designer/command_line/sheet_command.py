"""`hobwort sheet`: brew sheets of recipes, as PDF, web page or text."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

from designer.brewday.outlook import look_ahead
from designer.command_line.as_chosen import language_of, paper_of, shop_of, units_of
from designer.command_line.kitchen_figures import all_filled_by_kitchen
from designer.command_line.new_file import refuse_those_there
from designer.command_line.output import FINE, STANDARD, print_bytes, remark
from designer.command_line.packs import packs_of_shop
from designer.command_line.recipes import read_for_paper
from designer.errors import RefusedInputError
from designer.paper.files import places_for, sheet_bytes, write_sheet
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.sheet.blocks import Form
from designer.sheet.content import brew_sheet
from designer.translation import labelled
from designer.units import read_clock
from designer.units.days import read_day
from designer.units.quoting import one_line

OF_STANDARD_INPUT = "recipe"
"""What a sheet is called that goes into a folder, of a recipe that came without a name."""
T = TypeVar("T")


def carry_out(chosen: Namespace) -> int:
    """Write a sheet of each recipe and say where; nothing is written if any cannot be read."""
    wishes = _wishes(chosen)
    read = read_for_paper(chosen.files, chosen.set)
    recipes = all_filled_by_kitchen(read, wanted=chosen.kitchen)
    places = [] if chosen.output is None else _places(chosen, _kind(chosen))
    refuse_those_there([each for each in places if each is not None], force=chosen.force)
    if chosen.pocket:
        return _pocket(chosen, recipes, places, **wishes)
    return write_sheets(chosen, recipes, places)


def _wishes(chosen: Namespace) -> dict[str, Any]:
    """Return what a sheet and a page for a phone are asked for alike."""
    return {
        "shown": units_of(chosen),
        "start": _given("--start", read_clock, chosen.start),
        "brew_date": _given("--date", read_day, chosen.date),
        "language": language_of(chosen),
    }


def write_sheets(
    chosen: Namespace, recipes: Sequence[Recipe], places: Sequence[Path | None]
) -> int:
    """Write a sheet of each recipe to its place, None for standard output, and say where.

    `chosen` has the words of `sheet`.
    """
    wishes, paper, shop = _wishes(chosen), paper_of(chosen), shop_of(chosen)
    packs = packs_of_shop(wishes["shown"])
    for recipe, place in zip(recipes, places, strict=True):
        sheet = brew_sheet(
            recipe,
            look_ahead(recipe),
            variant=chosen.variant,
            shop=shop,
            form=Form(chosen.large, chosen.pages),
            packs=packs,
            **wishes,
        )
        if place is None:
            print_bytes(sheet_bytes(sheet, chosen.format or "pdf", paper)[0])
        else:
            remark(labelled(one_line(str(place)), f"{write_sheet(sheet, place, paper)}."))
    return FINE


def _places(chosen: Namespace, kind: str) -> Sequence[Path | None]:
    """Return the file of each sheet; None is standard output."""
    if chosen.output == STANDARD:
        return [None]
    files = [Path(file if file != STANDARD else OF_STANDARD_INPUT) for file in chosen.files]
    return places_for(files, chosen.output, kind)


def _kind(chosen: Namespace) -> str:
    """Return what is written, one of the kinds of sheets; "" where the name of the file tells."""
    return "html" if chosen.pocket else chosen.format or ""


def _pocket(
    chosen: Namespace, recipes: list[Recipe], places: Sequence[Path | None], **wishes: Any
) -> int:
    """Write the page for a phone of each recipe, or offer that of one in the network."""
    # Few want it, and its words and scripts are read from files.
    from designer.command_line.pocket import serve_pocket, write_pocket
    from designer.sheet.pocket.page import pocket_page

    pages = [pocket_page(each, look_ahead(each), **wishes).encode("utf-8") for each in recipes]
    for page, place in zip(pages, places, strict=False):  # without -o it is but offered
        if place is None:
            print_bytes(page)
        else:
            write_pocket(page, place)
    return FINE if chosen.serve is None else serve_pocket(pages[0], chosen.serve)


def _given(option: str, read: Callable[[str], T], typed: str | None) -> T | None:
    """Return the value of an option if it was given; raises RefusedInputError that names it."""
    try:
        return None if typed is None else read(typed)
    except RefusedInputError as fault:
        raise refused("of-option", "{option}: {fault}", option=option, fault=fault) from None
