"""`hobwort fit`: every way to brew a recipe in the vessels at hand, or the plan of one written."""

from __future__ import annotations

from argparse import Namespace
from dataclasses import replace

from designer.brewday.fit.answer import FitAnswer, Way
from designer.brewday.fit.ways import ways
from designer.brewday.fit.wish import FitWish, HopInHand, sized_pot, wish_for
from designer.command_line.as_chosen import figures_of, units_of
from designer.command_line.kitchen_figures import filled_by_kitchen
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
from designer.command_line.recipes import read_recipe, write_new
from designer.errors import DesignerError, RefusedInputError
from designer.recipe.document import Recipe
from designer.recipe.message import refused
from designer.recipe.quantity import Kind
from designer.recipe.taught import without_taught
from designer.translation import tr
from designer.units import read
from designer.units.quoting import quoted
from designer.workbench.fit_text import fit_document, fit_lines, used_document, used_line
from designer.workbench.hops_in_hand import checked_alpha, checked_amount


def carry_out(chosen: Namespace) -> int:
    """Print the ways as lines or as JSON, or write the recipe with the plan of one and say so."""
    if (chosen.use is None) is not (chosen.output is None):
        complain([tr("--use N and -o OUT go together: which way, and the file to write it to.")])
        return USAGE
    written = read_recipe(chosen.file, chosen.set)
    recipe, _ = filled_by_kitchen(written, wanted=chosen.kitchen)
    answer = ways(recipe, fit_wish(chosen, recipe))
    if chosen.use is not None:
        used = _way(answer, chosen.use)
        write_new(without_taught(used.planned), chosen.output, force=chosen.force)
        if chosen.json:
            print_json(used_document(used, chosen.output))
        elif chosen.output != STANDARD:
            remark(used_line(used, chosen.output))
    elif chosen.json:
        print_json(fit_document(answer))
    else:
        print_lines(*fit_lines(recipe, answer, figures_of(chosen)))
    return FINE


def _way(answer: FitAnswer, rank: int) -> Way:
    """Return the way of a rank. Raises RefusedInputError that says how many there are."""
    for each in answer.every_way:
        if each.rank == rank:
            return each
    if not answer.every_way:
        raise refused(
            "no-way-to-use", "--use {rank}: {sentence}", rank=rank, sentence=answer.sentence
        )
    if len(answer.every_way) == 1:
        raise refused("no-way-but-one", "--use {rank}: there is one way only; use 1.", rank=rank)
    raise refused(
        "no-way-of-that-number",
        "--use {rank}: no way has that number; there are {count}, from 1 to {count}. Without "
        "--use they are printed.",
        rank=rank,
        count=len(answer.every_way),
    )


def fit_wish(chosen: Namespace, recipe: Recipe) -> FitWish:
    """Return what the brewer has; raises RefusedInputError with every fault of the words typed."""
    options = _Options()
    pot = options.quantity("--pot", Kind.VOLUME, chosen.pot, 0.5, 10_000.0)
    fermenters = [
        options.quantity("--fermenter", Kind.VOLUME, each, 0.5, 10_000.0)
        for each in chosen.fermenter
    ]
    power = options.value("--power", Kind.POWER, chosen.power, 50.0, 1e6)
    frozen = options.value("--frozen", Kind.MASS, chosen.frozen, 0.0, 1e4)
    second = options.quantity("--second-pot", Kind.VOLUME, chosen.second_pot, 0.5, 1e4)
    late = options.value("--late", Kind.FRACTION, chosen.late, 0.0, 1.0)
    hops = tuple(hop for each in chosen.hop if (hop := options.hop(each)) is not None)
    if options.problems:
        raise RefusedInputError(options.problems)
    known = tuple(each for each in fermenters if each is not None)
    return replace(
        wish_for(recipe, pot, known, power_w=power),
        second_pot=sized_pot(recipe.pot, second) if second is not None else None,
        late_fraction=1.0 if late is None else late,
        most_frozen_kg=frozen,
        hops_in_hand=hops,
        whole_packs=chosen.whole_packs,
        packs=packs_of_shop(units_of(chosen)),
    )


class _Options(Options):
    """Reads the options of `fit`."""

    def hop(self, typed: str) -> HopInHand | None:
        """Return a hop given as its name, alpha acid and amount; None if it cannot be taken."""
        words = [each.strip() for each in typed.split(",")]
        if len(words) != 3 or not words[0]:
            self.problems.append(
                tr('--hop: write {typed} as "NAME, 7.2 %, 50 g".', typed=quoted(typed))
            )
            return None
        try:
            alpha = checked_alpha(read(Kind.FRACTION, words[1]), words[1])
            amount = checked_amount(read(Kind.MASS, words[2]), words[2])
        except DesignerError as fault:
            self.refuse("--hop", fault)
            return None
        return HopInHand(words[0], alpha, amount.value)
