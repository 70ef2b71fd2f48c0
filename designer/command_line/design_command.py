"""`hobwort design`: a first recipe of one's own, three to choose from and a study."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.as_chosen import figures_of, units_of
from designer.command_line.options import Options
from designer.command_line.output import (
    FINE,
    STANDARD,
    USAGE,
    complain,
    print_json,
    print_lines,
    remark,
)
from designer.command_line.packs import packs_of_shop
from designer.command_line.recipes import write_new
from designer.errors import DesignerError, RefusedInputError
from designer.library.sources import STYLE_NUMBERS
from designer.library.store.on_disk import cupboard_on_disk
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.recipe.same_name import is_same_name
from designer.translation import labelled, tr
from designer.units.quoting import one_line
from designer.workbench.cupboard import stock_of
from designer.workbench.first_recipe import (
    Answers,
    Draft,
    first_recipes,
    flavours,
    read_words,
    study_recipe,
    wished,
)
from designer.workbench.first_text import design_document, design_lines


def carry_out(chosen: Namespace) -> int:
    """Print the recipes as lines or as JSON, or write one of them and say so."""
    if (chosen.use is None) is not (chosen.output is None):
        complain([tr("--use N and -o OUT go together: which recipe, and the file to write it to.")])
        return USAGE
    answers = answers_of(chosen)
    drafts: tuple[Draft, ...] = (*first_recipes(answers), study_recipe(answers))
    reading, filled_in = read_words(answers.words), wished(answers)
    if chosen.use is not None:
        used = _draft(drafts, chosen.use)
        write_new(used.recipe, chosen.output, force=chosen.force)
        drafts = (used,)
    if chosen.json:
        document = design_document(reading, filled_in, answers, drafts)
        print_json({**document, "written": chosen.output, "attribution": STYLE_NUMBERS})
    elif chosen.use is None:
        lines = design_lines(reading, filled_in, drafts, figures_of(chosen))
        print_lines(*lines, "", STYLE_NUMBERS)
    elif chosen.output != STANDARD:
        remark(labelled(one_line(chosen.output), f"{drafts[0].name.text}, {drafts[0].recipe.name}"))
    return FINE


def _draft(drafts: tuple[Draft, ...], number: int) -> Draft:
    if not 1 <= number <= len(drafts):
        raise refused(
            "no-draft-of-that-number",
            "--use {number}: there are {count} recipes, from 1 to {count}.",
            number=number,
            count=len(drafts),
        )
    return drafts[number - 1]


def answers_of(chosen: Namespace) -> Answers:
    """Return the answers that were given; raises RefusedInputError with every fault in them."""
    options = Options()
    in_percent = chosen.strength is not None and "%" in chosen.strength
    strength = options.quantity(
        "--strength",
        Kind.FRACTION if in_percent else Kind.GRAVITY,
        chosen.strength,
        *((0.0, 1.0) if in_percent else (1.0, 2.0)),
    )
    bitterness = options.value("--bitterness", Kind.BITTERNESS, chosen.bitterness, 0.0, 1e4)
    colour = options.value("--colour", Kind.BEER_COLOUR, chosen.colour, 0.0, 1e3)
    pot, fermenter, batch = (
        options.quantity(f"--{name}", Kind.VOLUME, getattr(chosen, name), 0.0, 1e5)
        for name in ("pot", "fermenter", "batch")
    )
    tastes = tuple(_taste(options, each) for each in chosen.taste)
    if options.problems or pot is None or fermenter is None:
        raise RefusedInputError(options.problems)
    units = units_of(chosen)
    return Answers(
        words=chosen.words,
        original_gravity=strength.value if strength is not None and not in_percent else None,
        abv_percent=100.0 * strength.value if strength is not None and in_percent else None,
        bitterness_ibu=bitterness,
        colour_srm=colour,
        flavours=tastes,
        pot=pot,
        fermenter=fermenter,
        batch=batch,
        in_hand=stock_of(cupboard_on_disk()) if chosen.cupboard else (),
        is_simple=chosen.simple,
        whole_packs=chosen.whole_packs,
        units=units,
        packs=packs_of_shop(units) if chosen.whole_packs else (),
    )


def _taste(options: Options, typed: str) -> str:
    for each in flavours():
        if is_same_name(typed, each.label) or is_same_name(typed, each.key):
            return each.key
    known = ", ".join(tr(each.label) for each in flavours())
    options.refuse(
        "--taste",
        DesignerError(tr("“{typed}” is none of {known}", typed=one_line(typed), known=known)),
    )
    return ""
