"""A recipe of one's own for another batch: gravity, bitterness and colour held, then rounded."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from designer.brewday.fit.answer import Compared
from designer.brewday.fit.changed_recipe import (
    edit_between,
    line_kg,
    litres,
    with_amounts,
    with_mark,
    with_process,
    with_water,
    without_empty_lines,
)
from designer.brewday.fit.hop_roles import late_followed
from designer.brewday.fit.original import Original, original_of
from designer.brewday.fit.pack_choice import Pack, Packs, Want, nearest_packs, sizes_of
from designer.brewday.fit.packets import yeast_in_share
from designer.brewday.fit.portion import Shares, hops_held, in_shares, portion
from designer.brewday.fit.pot_limits import filled, own_water_l
from designer.brewday.outlook import look_ahead
from designer.recipe.choices import is_grain
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import Edit, Together
from designer.recipe.kind_defaults import extract_fraction
from designer.recipe.kinds import typed
from designer.recipe.message import Message, Number, refused, say
from designer.recipe.named import has_locked
from designer.recipe.plan import as_written, is_planned, planning
from designer.recipe.quantity import Kind
from designer.recipe.shares import extras_in_share

FULL_BOIL_TOP_UP_L = 0.1
_AMPLE = 1.08
LEAST_L, MOST_L = 0.5, 1000.0


@dataclass(frozen=True, slots=True)
class Scaled:
    """The recipe for another batch.

    `forecasts` are those after rounding, beside the original's. `packs` are those chosen for each
    line of extract (line_id), empty where the amounts are weighed. `shares` are those of the
    original's extract, grain and hops, before rounding. `words` say which late hops are more or
    less a litre than they were; none where bittering hops alone hold the bitterness.
    """

    recipe: Recipe
    edit: Edit
    shares: Shares
    forecasts: dict[str, Compared]
    packs: dict[int, Packs]
    words: tuple[Message, ...]


def scale(recipe: Recipe, batch_l: float, *, whole_packs: Sequence[Pack] = ()) -> Scaled:
    """Return the recipe for `batch_l` litres in the fermenter.

    Bittering hops hold the bitterness, all others go by the litre. The boil stays as concentrated
    as it was, as far as the pot takes it; without top-up it stays a full boil. Amounts are rounded
    to what a kitchen weighs or, with `whole_packs`, extract to whole packs. Yeast goes in whole
    packets, one at the least.

    A plan by which it was brewed was made for another size and goes with the same edit.

    Raises RefusedInputError for a batch of no sense, for more of a locked kit than it holds, and
    where no whole pack comes near to so small a batch.
    """
    if not LEAST_L <= batch_l <= MOST_L:
        raise refused(
            "no-batch",
            "{batch_l} L is not a batch; give {least_l} to {most_l} L.",
            batch_l=Number(f"{batch_l:g}"),
            least_l=Number(f"{LEAST_L:g}"),
            most_l=Number(f"{MOST_L:g}"),
        )
    written, recipe = recipe, as_written(recipe)
    original = original_of(recipe)
    if original.batch_l <= 0.0:
        raise refused("no-beer-yet", "The recipe makes no beer yet: give it water and extract.")
    locked = has_locked(recipe)
    if locked and batch_l > original.batch_l:
        raise refused(
            "locked-kit",
            "A locked kit makes no more than its {batch_l} L; unlock its lines.",
            batch_l=Number(f"{original.batch_l:.1f}"),
        )
    found = _exact(original, batch_l, locked=locked)
    if found is None:
        raise refused(
            "no-start-makes",
            "No amount of water to start with makes {batch_l} L of this recipe.",
            batch_l=Number(f"{batch_l:g}"),
        )
    exact, shares = found
    made = _rounded(recipe, exact, shares, batch_l / original.batch_l)
    packs = {} if not whole_packs else _in_packs(made, whole_packs)
    made = with_amounts(made, {line_id: each.total_kg for line_id, each in packs.items()})
    if packs and not any(_extract_kg(line) > 0.0 for line in made.fermentables):
        raise refused(
            "pack-too-much",
            "A whole pack is too much for {batch_l} L: have the amounts weighed instead.",
            batch_l=Number(f"{batch_l:g}"),
        )
    made = without_empty_lines(hops_held(made, original.day) if packs and not locked else made)
    text = say("scale-to", "scale to {volume}", volume=Number(f"{batch_l:g} L"))
    edit = edit_between(recipe, made, text)
    if is_planned(written):
        edit = Together((*edit.edits, planning((), (), text)), text)
    forecasts = original.compared(look_ahead(made).forecasts)
    words = tuple(late_followed(recipe, made, batch_l / original.batch_l))
    return Scaled(made, edit, shares, forecasts, packs, words)


def _exact(original: Original, batch_l: float, *, locked: bool) -> tuple[Recipe, Shares] | None:
    recipe = original.recipe
    ratio = batch_l / original.batch_l
    full_boil = float(original.day.fermenter.top_up_l) < FULL_BOIL_TOP_UP_L
    most = 3.0 * batch_l if full_boil else own_water_l(recipe) * ratio
    frozen = recipe.process.frozen_top_up
    if frozen is not None:
        kg = round(frozen.value * ratio, 1)
        recipe = with_process(recipe, frozen_top_up=typed(Kind.MASS, kg, unit="kg"))

    marked = with_mark(recipe, litres(batch_l).value)
    ample = Shares(*[_AMPLE * ratio] * 5)  # what is sought may come out somewhat above the ratio
    in_pot = filled(in_shares(marked, ample), original, most, hold_bitterness=False) is not None

    def water(tried: Recipe) -> Recipe | None:
        pot = tried.pot if in_pot else replace(tried.pot, volume=None)
        made = filled(replace(tried, pot=pot), original, most, hold_bitterness=False)
        if made is None:
            return None if full_boil else with_water(tried, round(most, 1))
        return replace(made, pot=tried.pot)

    return portion(marked, original.day, batch_l, water, from_contents=locked)


def _rounded(recipe: Recipe, exact: Recipe, shares: Shares, ratio: float) -> Recipe:
    made = replace(in_shares(recipe, shares), process=exact.process)
    extras = extras_in_share(recipe.extras, ratio)
    return replace(made, extras=extras, yeast=yeast_in_share(recipe.yeast, ratio))


def _in_packs(recipe: Recipe, packs: Sequence[Pack]) -> dict[int, Packs]:
    """Choose whole packs for the lines of extract and sugar that are sold in packs."""
    lines = [
        line
        for line in recipe.fermentables
        if not is_grain(line.kind) and not line.locked and sizes_of(line.kind, packs)
    ]
    wants = [
        Want(line_kg(line), extract_fraction(line), sizes_of(line.kind, packs)) for line in lines
    ]
    chosen = nearest_packs(wants)
    return {line.line_id: each for line, each in zip(lines, chosen, strict=True)}


def _extract_kg(line: Fermentable) -> float:
    return 0.0 if is_grain(line.kind) else line_kg(line)
