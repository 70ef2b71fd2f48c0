"""`hobwort forecast`: what a recipe will give, and what to watch."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.output import FINE, print_json, print_lines
from designer.command_line.recipes import read_recipe
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import forecast_lines
from designer.workbench.style_watch import outlook_of


def carry_out(chosen: Namespace) -> int:
    """Print the forecast as lines or as JSON."""
    recipe = read_recipe(chosen.file, chosen.set)
    outlook = outlook_of(recipe, cures=True)
    if chosen.json:
        print_json(forecast_document(recipe, outlook))
    else:
        print_lines(*forecast_lines(recipe, outlook))
    return FINE
