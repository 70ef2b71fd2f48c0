"""`hobwort forecast`: what recipes will give, and what to watch; variants of one side by side."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

from designer.brewday.results import Outlook
from designer.command_line.as_chosen import figures_of
from designer.command_line.kitchen_figures import filled_by_kitchen, told_by_kitchen
from designer.command_line.output import FINE, REFUSED, USAGE, complain, print_json, print_lines
from designer.command_line.recipes import changed, name_of, read_recipe, told_apart
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.taught import Filled
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines
from designer.workbench.style_watch import outlook_of

MOST_VARIANTS = 3
FORM_OF_SEVERAL = 1
"""Number of the form of the JSON of several files, each of which holds a forecast as one does."""


def carry_out(chosen: Namespace) -> int:
    """Print each forecast, or variants side by side, as lines or as JSON."""
    if len(chosen.what_if) > MOST_VARIANTS:
        complain([tr("--what-if may be given {most} times at most.", most=MOST_VARIANTS)])
        return USAGE
    if len(chosen.files) == 1:
        _print_one(chosen, chosen.files[0])
        return FINE
    if chosen.json:
        return _print_documents(chosen)
    number = 0

    def tell(file: str) -> bool:
        nonlocal number
        lines = _lines(file, chosen)
        print_lines(*([""] if number else []), f"{name_of(file)}:", *lines)
        number += 1
        return True

    found = told_apart(chosen.files, tell)
    return FINE if all(told for _, told in found) else REFUSED


def _print_one(chosen: Namespace, file: str) -> None:
    if chosen.json:
        print_json(_document(file, chosen))
    else:
        print_lines(*_lines(file, chosen))


def _print_documents(chosen: Namespace) -> int:
    found = told_apart(chosen.files, lambda file: _document(file, chosen))
    files = [{"file": file, "forecast": document} for file, document in found]
    print_json({"form": FORM_OF_SEVERAL, "files": files})
    return FINE if all(document is not None for _, document in found) else REFUSED


def _lines(file: str, chosen: Namespace) -> list[str]:
    recipe, fills = _filled(file, chosen)
    figures = figures_of(chosen)
    if chosen.what_if:
        # Most forecasts are of a recipe as it is.
        from designer.workbench.what_if import columns, what_if_lines

        found = columns(recipe, _variants(recipe, chosen.what_if))
        return [one_line(recipe.name), "", *what_if_lines(found, figures)]
    outlook = _outlook(recipe, fills)
    return [*forecast_lines(recipe, outlook, figures), *told_by_kitchen(fills)]


def _document(file: str, chosen: Namespace) -> dict[str, Any]:
    recipe, fills = _filled(file, chosen)
    if chosen.what_if:
        from designer.workbench.what_if import columns, what_if_document  # as above

        found = columns(recipe, _variants(recipe, chosen.what_if))
        document = forecast_document(recipe, outlook_of(recipe, cures=True))
        return {**document, "what_if": what_if_document(found)}
    return forecast_document(recipe, _outlook(recipe, fills))


def _filled(file: str, chosen: Namespace) -> tuple[Recipe, tuple[Filled, ...]]:
    return filled_by_kitchen(read_recipe(file, chosen.set), wanted=chosen.kitchen)


def _outlook(recipe: Recipe, fills: tuple[Filled, ...]) -> Outlook:
    outlook = outlook_of(recipe, cures=True)
    if not fills:
        return outlook
    from designer.workbench.learning.with_taught import naming_what_it_rests_on  # few ask for it

    return naming_what_it_rests_on(outlook, fills)


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
