"""`hobwort forecast`: what a recipe will give, and what to watch; variants of it side by side."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.kitchen_figures import filled_by_kitchen, told_by_kitchen
from designer.command_line.output import FINE, USAGE, complain, print_json, print_lines
from designer.command_line.recipes import changed, read_recipe
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines
from designer.workbench.style_watch import outlook_of


def carry_out(chosen: Namespace) -> int:
    """Print the forecast, or variants side by side, as lines or as JSON."""
    written = read_recipe(chosen.file, chosen.set)
    recipe, fills = filled_by_kitchen(written, wanted=chosen.kitchen)
    if chosen.what_if:
        return _what_if(recipe, chosen)
    outlook = outlook_of(recipe, cures=True)
    if fills:
        from designer.workbench.learning.with_taught import naming_what_it_rests_on

        outlook = naming_what_it_rests_on(outlook, fills)
    if chosen.json:
        print_json(forecast_document(recipe, outlook))
    else:
        print_lines(*forecast_lines(recipe, outlook), *told_by_kitchen(fills))
    return FINE


def _what_if(recipe: Recipe, chosen: Namespace) -> int:
    # Most forecasts are of a recipe as it is.
    from designer.workbench.what_if import NAMES, columns, what_if_document, what_if_lines

    if len(chosen.what_if) > len(NAMES):
        complain([tr("--what-if may be given {most} times at most.", most=len(NAMES))])
        return USAGE
    found = columns(recipe, _variants(recipe, chosen.what_if))
    if chosen.json:
        document = forecast_document(recipe, outlook_of(recipe, cures=True))
        print_json({**document, "what_if": what_if_document(found)})
    else:
        print_lines(one_line(recipe.name), "", *what_if_lines(found))
    return FINE


def _variants(recipe: Recipe, wanted: list[list[str]]) -> list[Recipe]:
    """Return the variants, or raise all that is wrong with any of them."""
    variants, problems = [], list[str]()
    for changes in wanted:
        try:
            variants.append(changed(recipe, changes, "--what-if"))
        except RefusedInputError as fault:
            problems += fault.problems
    if problems:
        raise RefusedInputError(problems)
    return variants
