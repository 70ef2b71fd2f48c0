"""Another hop, or another fermentable, in place of a line: amounts sought, and what changes.

Gravity is held by the new fermentable's own amount, bitterness by the new hop or by the hop that
bitters most. All through the day of the recipe.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from designer.brewday.fit.answer import Compared
from designer.brewday.fit.changed_recipe import (
    EXTRACT_STEP_KG,
    HOP_STEP_KG,
    edit_between,
    forecast,
    line_kg,
    mass,
    quick_day,
    with_amounts,
)
from designer.brewday.fit.hop_roles import bitters
from designer.brewday.fit.original import IBU_DEADBAND, OG_DEADBAND, Original, original_of
from designer.brewday.fit.substitution_words import beer_words, fermentable_words, hop_words
from designer.brewday.outlook import look_ahead
from designer.brewday.search import nearest
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import Message, refused, say
from designer.recipe.named import lines_of

MOST_KG = 50.0
MOST_HOP_KG_PER_L = 0.02
"""Beyond it a batch is sludge, and more hops hold back more than they give; an estimate."""


@dataclass(frozen=True, slots=True)
class Substituted:
    """The recipe with the substitute, as one edit, its forecasts beside the original's, and words.

    `held` is False where gravity or bitterness cannot be held so.
    """

    recipe: Recipe
    edit: Edit
    forecasts: dict[str, Compared]
    held: bool
    words: tuple[Message, ...]


def substitute(recipe: Recipe, line_id: int, instead: Fermentable | Hop) -> Substituted:
    """Return the recipe with `instead` in place of a line, its amount sought; it keeps the time.

    Raises RefusedInputError for a line that is not there, is locked, or is of another sort.
    """
    original = original_of(recipe)
    old = _found(recipe, line_id, instead)
    if isinstance(instead, Hop) and isinstance(old, Hop):
        made, words = _other_hop(original, old, instead)
    elif isinstance(instead, Fermentable) and isinstance(old, Fermentable):
        made, words = _other_fermentable(original, old, instead)
    else:
        raise refused(
            "other-sort", "A hop stands in for a hop, and a fermentable for a fermentable."
        )
    forecasts = original.compared(look_ahead(made).forecasts)
    held = (
        abs(forecasts["original_gravity"].change) <= OG_DEADBAND
        and abs(forecasts["bitterness_ibu"].change) <= IBU_DEADBAND
    )
    text = say("in-place-of", "{name} in place of {old}", name=instead.name, old=old.name)
    edit = edit_between(recipe, made, text)
    return Substituted(made, edit, forecasts, held, (*words, *beer_words(forecasts)))


def _found(recipe: Recipe, line_id: int, instead: Fermentable | Hop) -> Fermentable | Hop:
    lines: tuple[Fermentable | Hop, ...] = (*recipe.fermentables, *recipe.hops)
    old = next((line for line in lines if line.line_id == line_id), None)
    if old is None:
        raise refused("no-such-line", "There is no line {line_id} in the recipe.", line_id=line_id)
    if old.locked:
        raise refused(
            "locked-for-substitute",
            "{old} is locked: unlock it to put {instead} there.",
            old=old.name,
            instead=instead.name,
        )
    return old


def _put(recipe: Recipe, lines: str, old_id: int, new: Fermentable | Hop) -> Recipe:
    changed = tuple(new if each.line_id == old_id else each for each in lines_of(recipe, lines))
    return replace(recipe, **{lines: changed})  # type: ignore[arg-type]


def _sought(
    recipe: Recipe, line_id: int, key: str, wanted: float, step_kg: float, most_kg: float
) -> Recipe:
    """Return the recipe with the amount of one line that brings a forecast nearest to `wanted`."""

    def at(steps: int) -> Recipe:
        return with_amounts(recipe, {line_id: round(steps * step_kg, 6)})

    def value(steps: int) -> float:
        return forecast(at(steps), key)

    return at(nearest(value, wanted, 0, round(most_kg / step_kg)))


def _bitter_by(original: Original, made: Recipe, hop_id: int) -> Recipe:
    wanted, most = float(original.day.beer.bitterness_ibu), MOST_HOP_KG_PER_L * original.batch_l
    return _sought(made, hop_id, "bitterness_ibu", wanted, HOP_STEP_KG, most)


def _other_hop(original: Original, old: Hop, instead: Hop) -> tuple[Recipe, list[Message]]:
    hop = replace(
        instead, amount=mass(line_kg(old)), when=old.when, line_id=old.line_id, locked=False
    )
    made = _put(original.recipe, "hops", old.line_id, hop)
    gives = original.day.gives.get(old.line_id)
    bitters_much = gives is not None and gives.bitterness_ibu > 0.5
    if bitters_much:
        made = _bitter_by(original, made, old.line_id)
    return made, hop_words(made, old, instead, bitters=bitters_much)


def _other_fermentable(
    original: Original, old: Fermentable, instead: Fermentable
) -> tuple[Recipe, list[Message]]:
    recipe, day = original.recipe, original.day
    new = replace(
        instead, amount=mass(line_kg(old)), when=old.when, line_id=old.line_id, locked=False
    )
    made = _put(recipe, "fermentables", old.line_id, new)
    bitter = max(
        (hop for hop in bitters(recipe) if not hop.locked),
        key=lambda hop: day.gives[hop.line_id].bitterness_ibu if hop.line_id in day.gives else 0.0,
        default=None,
    )
    wanted = float(day.beer.original_gravity)
    made = _sought(made, old.line_id, "original_gravity", wanted, EXTRACT_STEP_KG, MOST_KG)
    lost = abs(float(quick_day(made).beer.bitterness_ibu) - float(day.beer.bitterness_ibu))
    if bitter is not None and lost > 0.5 * IBU_DEADBAND:
        made = _bitter_by(original, made, bitter.line_id)
    made = replace(
        made, fermentables=tuple(each for each in made.fermentables if line_kg(each) > 0.0)
    )
    return made, fermentable_words(made, old, instead)
