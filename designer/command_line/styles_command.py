"""`hobwort styles`: which styles a recipe falls in or nearly, and the change that brings it in."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Mapping

from designer.brewday.outlook import look_ahead
from designer.brewday.results import Range
from designer.command_line.as_chosen import figures_of
from designer.command_line.output import (
    FINE,
    REFUSED,
    STANDARD,
    USAGE,
    complain,
    print_json,
    print_lines,
    remark,
)
from designer.command_line.recipes import read_recipe, write_new
from designer.library.catalogue import StyleEntry, find_style, styles
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.style_watch import into_style
from designer.workbench.style_words import (
    brought_document,
    brought_words,
    difference_in,
    style_lines,
    styles_document,
)
from designer.workbench.styles import NEAREST, is_beer


def carry_out(chosen: Namespace) -> int:
    """Print the nearest styles, or find what brings the recipe into one and write it."""
    if chosen.output is not None and chosen.bring_in is None:
        complain([tr("-o OUT goes with --bring-in STYLE: there is nothing else to write.")])
        return USAGE
    recipe = read_recipe(chosen.file, chosen.set)
    if chosen.bring_in is not None:
        return _bring_in(chosen, recipe)
    forecasts = look_ahead(recipe).forecasts
    many = len(styles()) if chosen.all else NEAREST
    if chosen.json:
        document = styles_document(recipe, forecasts, many)
        print_json({**document, "attribution": STYLE_NUMBERS})
    elif not is_beer(forecasts):
        print_lines(tr("There is no beer in the recipe yet, so it is in no style."))
    else:
        print_lines(one_line(recipe.name), "", *_lines(chosen, forecasts, many), "", STYLE_NUMBERS)
    return FINE


def _lines(chosen: Namespace, forecasts: Mapping[str, Range], many: int) -> list[str]:
    figures = figures_of(chosen)
    return style_lines(forecasts, many, lambda miss: difference_in(figures, miss))


def _bring_in(chosen: Namespace, recipe: Recipe) -> int:
    style = _style(chosen.bring_in)
    edit, found = into_style(recipe, style)
    if chosen.output is not None and not found.is_out_of_reach:
        write_new(recipe if edit is None else edit.apply(recipe), chosen.output, force=chosen.force)
    if chosen.json:
        print_json(brought_document(style, edit, found))
    elif not found.is_out_of_reach:
        said = figures_of(chosen).said(brought_words(style, found))
        if chosen.output is None:
            print_lines(said)
        elif chosen.output != STANDARD:
            remark(said)
    if found.is_out_of_reach:
        complain([figures_of(chosen).said(brought_words(style, found))])
        return REFUSED
    return FINE


def _style(name: str) -> StyleEntry:
    found = find_style(name)
    if found is None:
        raise refused(
            "no-such-style",
            "There is no style called “{name}”. The styles are listed by hobwort styles FILE "
            "--all; a code such as 13C will do too.",
            name=one_line(name),
        )
    return found
