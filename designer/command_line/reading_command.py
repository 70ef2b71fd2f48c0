"""`hobwort reading`: what an odd gravity reading says, with a recipe or with a caller's kit."""

from __future__ import annotations

from argparse import Namespace

from designer.brewday.explaining.asked import Asked
from designer.brewday.explaining.beliefs import Beliefs, beliefs_of
from designer.brewday.explaining.explain import explained
from designer.brewday.explaining.kit import beliefs_of_kit
from designer.brewday.outlook import look_ahead
from designer.command_line.as_chosen import figures_of
from designer.command_line.options import Options
from designer.command_line.output import FINE, print_json, print_lines
from designer.command_line.reading_asked import MOST_L, asked_of
from designer.command_line.recipes import read_recipe
from designer.errors import RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.fields import number
from designer.recipe.message import refused
from designer.recipe.plan import fermenters_of
from designer.recipe.quantity import Kind
from designer.workbench.kit_stated import kit_stated
from designer.workbench.reading_document import reading_document
from designer.workbench.reading_text import as_it_was_read, reading_lines

MADE_FOR_C = 20.0
"""What hydrometers are made for of which nothing is told."""


def carry_out(chosen: Namespace) -> int:
    """Print what a reading says, as lines or as JSON."""
    recipe = None if chosen.file is None else read_recipe(chosen.file, chosen.set)
    made_for_c = MADE_FOR_C if recipe is None else number(recipe.process, "hydrometer_made_for")
    asked = asked_of(chosen, made_for_c)
    beliefs = _of_kit(chosen, asked) if recipe is None else _of_recipe(recipe, chosen.fermenter)
    told = explained(asked, beliefs, recipe)
    if chosen.json:
        print_json(reading_document(told))
    else:
        sample, figures = asked.samples[-1], figures_of(chosen)
        if chosen.gravity is None:
            figures = as_it_was_read(figures, sample)
        print_lines(*reading_lines(told, sample, figures))
    return FINE


def _of_recipe(recipe: Recipe, fermenter: int) -> Beliefs:
    count = len(fermenters_of(recipe))
    if not 1 <= fermenter <= count:
        raise refused(
            "no-fermenter-of-that-number",
            "--fermenter {number}: fermenters are counted from 1 to {count}.",
            number=fermenter,
            count=count,
        )
    return beliefs_of(look_ahead(recipe), fermenter=fermenter)


def _of_kit(chosen: Namespace, asked: Asked) -> Beliefs:
    """Return what a kit is believed to give. Raises RefusedInputError."""
    options = Options()
    batch_l = options.value("--batch", Kind.VOLUME, chosen.batch, 0.5, MOST_L)
    pot_l = options.value("--pot", Kind.VOLUME, chosen.pot, 0.1, MOST_L)
    for option, typed in (("--band", chosen.band), ("--extract", chosen.extract)):
        try:
            kit_stated(1.0, **{option[2:]: typed}) if typed else None
        except RefusedInputError as fault:
            options.refuse(option, fault)
    if options.problems or batch_l is None:
        raise RefusedInputError(options.problems)
    in_pot_l = asked.pot_l if asked.pot_l is not None else pot_l
    return beliefs_of_kit(kit_stated(batch_l, chosen.band, in_pot_l, chosen.extract))
