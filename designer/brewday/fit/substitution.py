"""Another hop, or another fermentable, in place of a line: amounts sought, and what changes.

Gravity is held by the new fermentable's own amount, colour, where wanted, by a steeping grain, and
bitterness by the new hop or by the hop that bitters most. All through the day of the recipe.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from designer.brewday.fit.answer import Compared, Said, named, say
from designer.brewday.fit.changing import (
    EXTRACT_STEP_KG,
    GRAIN_KINDS,
    HOP_STEP_KG,
    edit_between,
    line_kg,
    mass,
    quick_day,
    with_amounts,
)
from designer.brewday.fit.original import IBU_DEADBAND, OG_DEADBAND, Original, original_of
from designer.brewday.fit.portion import bitters
from designer.brewday.fit.seeking import nearest
from designer.brewday.outlook import look_ahead
from designer.errors import RefusedInputError
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.edits import Edit, next_line_id
from designer.recipe.kind_defaults import alpha_acid, colour_lovibond, real_fermentability
from designer.recipe.quantity import Kind, Stage

GRAIN_STEP_KG = EXTRACT_STEP_KG / 5.0
MOST_KG = 50.0
MOST_HOP_KG_PER_L, MOST_GRAIN_KG_PER_L = 0.02, 0.2
"""Beyond these a batch is sludge, and more hops hold back more than they give; an estimate."""
ROUNDS = 3
"""How often gravity, colour and bitterness are sought in turn; each moves the others but little."""


@dataclass(frozen=True, slots=True)
class Substituted:
    """The recipe with the substitute, as one edit, its forecasts beside the original's, and words.

    `held` is False where gravity or bitterness cannot be held so.
    """

    recipe: Recipe
    edit: Edit
    forecasts: dict[str, Compared]
    held: bool
    words: tuple[Said, ...]


def substitute(
    recipe: Recipe,
    line_id: int,
    instead: Fermentable | Hop,
    *,
    colour_by: Fermentable | None = None,
) -> Substituted:
    """Return the recipe with `instead` in place of a line, its amount sought; it keeps the time.

    `colour_by` is a steeping grain, one of the recipe's lines or a new one, whose amount holds the
    colour. Raises RefusedInputError for a line that is not there, is locked, or is of another sort.
    """
    original = original_of(recipe)
    old = _found(recipe, line_id, instead)
    if isinstance(instead, Hop) and isinstance(old, Hop):
        made, words = _other_hop(original, old, instead)
    elif isinstance(instead, Fermentable) and isinstance(old, Fermentable):
        made, words = _other_fermentable(original, old, instead, colour_by)
    else:
        raise RefusedInputError("A hop stands in for a hop, and a fermentable for a fermentable.")
    outlook = look_ahead(made)
    forecasts = {
        key: Compared(found.value, found.low, found.high, original.forecasts[key].value)
        for key, found in outlook.forecasts.items()
    }
    held = (
        abs(forecasts["original_gravity"].change) <= OG_DEADBAND
        and abs(forecasts["bitterness_ibu"].change) <= IBU_DEADBAND
    )
    edit = edit_between(recipe, made, f"{instead.name} in place of {old.name}")
    return Substituted(made, edit, forecasts, held, (*words, *_beer(forecasts)))


def _found(recipe: Recipe, line_id: int, instead: Fermentable | Hop) -> Fermentable | Hop:
    lines: tuple[Fermentable | Hop, ...] = (*recipe.fermentables, *recipe.hops)
    old = next((line for line in lines if line.line_id == line_id), None)
    if old is None:
        raise RefusedInputError(f"There is no line {line_id} in the recipe.")
    if old.locked:
        raise RefusedInputError(f"{old.name} is locked: unlock it to put {instead.name} there.")
    return old


def _put(recipe: Recipe, lines: str, old_id: int, new: Fermentable | Hop) -> Recipe:
    changed = tuple(new if each.line_id == old_id else each for each in getattr(recipe, lines))
    return replace(recipe, **{lines: changed})  # type: ignore[arg-type]


def _sought(
    recipe: Recipe,
    line_id: int,
    key: str,
    wanted: float,
    step_kg: float,
    most_kg: float,
) -> Recipe:
    """Return the recipe with the amount of one line that brings a forecast nearest to `wanted`."""

    def at(steps: int) -> Recipe:
        return with_amounts(recipe, {line_id: round(steps * step_kg, 6)})

    def value(steps: int) -> float:
        return float(getattr(quick_day(at(steps)), key))

    return at(nearest(value, wanted, 0, round(most_kg / step_kg)))


def _bitter_by(original: Original, made: Recipe, hop_id: int) -> Recipe:
    wanted, most = float(original.day.bitterness_ibu), MOST_HOP_KG_PER_L * original.batch_l
    return _sought(made, hop_id, "bitterness_ibu", wanted, HOP_STEP_KG, most)


def _other_hop(original: Original, old: Hop, instead: Hop) -> tuple[Recipe, list[Said]]:
    hop = replace(
        instead, amount=mass(line_kg(old)), when=old.when, line_id=old.line_id, locked=False
    )
    made = _put(original.recipe, "hops", old.line_id, hop)
    gives = original.day.gives.get(old.line_id)
    bitters_much = gives is not None and gives.bitterness_ibu > 0.5
    if bitters_much:
        made = _bitter_by(original, made, old.line_id)
    kg = next(line_kg(each) for each in made.hops if each.line_id == old.line_id)
    words = [
        say(
            f"{{0}} of {named(instead.name)} at {{1}} in place of {{2}} of {named(old.name)} at "
            "{3}.",
            (Kind.MASS, kg),
            (Kind.FRACTION, alpha_acid(instead)),
            (Kind.MASS, line_kg(old)),
            (Kind.FRACTION, alpha_acid(old)),
        )
    ]
    if not bitters_much:
        words.append(say("It bitters little where it is, so its weight stays: only aroma changes."))
    elif old.when.stage is Stage.BOIL and old.when.minutes >= 45.0:
        words.append(say("Boiled so long, little of a hop's own aroma is left: few will notice."))
    else:
        words.append(say("Put in late, a hop brings its own aroma: the beer will smell of it."))
    return made, words


def _other_fermentable(
    original: Original, old: Fermentable, instead: Fermentable, colour_by: Fermentable | None
) -> tuple[Recipe, list[Said]]:
    recipe, day = original.recipe, original.day
    new = replace(
        instead, amount=mass(line_kg(old)), when=old.when, line_id=old.line_id, locked=False
    )
    made = _put(recipe, "fermentables", old.line_id, new)
    made, grain_id = _with_grain(made, colour_by)
    bitter = max(
        (hop for hop in bitters(recipe) if not hop.locked),
        key=lambda hop: day.gives[hop.line_id].bitterness_ibu if hop.line_id in day.gives else 0.0,
        default=None,
    )
    for _ in range(ROUNDS):
        made = _sought(
            made, old.line_id, "original_gravity", float(day.original_gravity),
            EXTRACT_STEP_KG, MOST_KG,
        )  # fmt: skip
        if grain_id is not None:
            made = _sought(
                made,
                grain_id,
                "colour_srm",
                float(day.colour_srm),
                GRAIN_STEP_KG,
                MOST_GRAIN_KG_PER_L * original.batch_l,
            )
    lost = abs(float(quick_day(made).bitterness_ibu) - float(day.bitterness_ibu))
    if bitter is not None and lost > 0.5 * IBU_DEADBAND:
        made = _bitter_by(original, made, bitter.line_id)
    made = replace(
        made,
        fermentables=tuple(each for each in made.fermentables if line_kg(each) > 0.0),
    )
    return made, _fermentable_words(recipe, made, old, instead, grain_id)


def _with_grain(recipe: Recipe, grain: Fermentable | None) -> tuple[Recipe, int | None]:
    if grain is None:
        return recipe, None
    if grain.kind not in GRAIN_KINDS:
        raise RefusedInputError(f"{grain.name} is no grain to steep for colour.")
    own = next((each for each in recipe.fermentables if each.line_id == grain.line_id), None)
    if own is not None and grain.line_id:
        if own.locked:
            raise RefusedInputError(f"{own.name} is locked: unlock it to change its amount.")
        return recipe, own.line_id
    new = replace(grain, amount=mass(0.0), line_id=next_line_id(recipe), locked=False)
    return replace(recipe, fermentables=(*recipe.fermentables, new)), new.line_id


def _fermentable_words(
    before: Recipe, after: Recipe, old: Fermentable, new: Fermentable, grain_id: int | None
) -> list[Said]:
    def kg(recipe: Recipe, line_id: int) -> float:
        return sum(line_kg(each) for each in recipe.fermentables if each.line_id == line_id)

    words = [
        say(
            f"{{0}} of {named(new.name)} in place of {{1}} of {named(old.name)}.",
            (Kind.MASS, kg(after, old.line_id)),
            (Kind.MASS, line_kg(old)),
        )
    ]
    if grain_id is not None:
        name = named(next((g.name for g in (*after.fermentables, *before.fermentables)
                           if g.line_id == grain_id), "steeping grain"))  # fmt: skip
        words.append(
            say(
                f"{name}: {{0}} instead of {{1}}, for the colour.",
                (Kind.MASS, kg(after, grain_id)),
                (Kind.MASS, kg(before, grain_id)),
            )
        )
    words += [said for tells, said in _CHARACTER if tells(old, new)]
    return words


def _goes_from(old_kind: str, new_kind: str) -> Callable[[Fermentable, Fermentable], bool]:
    return lambda old, new: (old.kind, new.kind) == (old_kind, new_kind)


_CHARACTER: tuple[tuple[Callable[[Fermentable, Fermentable], bool], Said], ...] = (
    (
        _goes_from("liquid extract", "dry extract"),
        say("The same wort with less water in it: dry extract keeps paler and fresher, and clumps "
            "over steam."),
    ),
    (
        _goes_from("dry extract", "liquid extract"),
        say("The same wort with water in it: liquid extract darkens with age, use it fresh."),
    ),
    (
        lambda old, new: new.kind != "sugar" and colour_lovibond(new) > 1.5 * colour_lovibond(old),
        say("A darker extract brings toast and body of its own, not colour alone."),
    ),
    (
        lambda old, new: new.kind != "sugar" and colour_lovibond(new) < colour_lovibond(old) / 1.5,
        say("A paler extract tastes of less; steeped grain gives back colour and some sweetness."),
    ),
    (
        lambda old, new: real_fermentability(new) > real_fermentability(old) + 0.1,
        say("It ferments further: a drier, thinner beer."),
    ),
    (
        lambda old, new: real_fermentability(new) < real_fermentability(old) - 0.1,
        say("It ferments less far: a fuller, sweeter beer."),
    ),
)  # fmt: skip
"""What a change of fermentable does to the taste; common practice, no source."""


def _beer(forecasts: dict[str, Compared]) -> list[Said]:
    """Say what the beer is afterwards where it is not as it was."""
    found: list[Said] = []
    for key, kind, tells, least in (
        ("original_gravity", Kind.GRAVITY, "Gravity before yeast", OG_DEADBAND),
        ("final_gravity", Kind.GRAVITY, "Gravity when done", OG_DEADBAND),
        ("bitterness_ibu", Kind.BITTERNESS, "Bitterness", IBU_DEADBAND),
        ("colour_srm", Kind.BEER_COLOUR, "Colour", 0.5),
    ):
        now = forecasts[key]
        if abs(now.change) > least:
            figures = (kind, now.value), (kind, now.original)
            found.append(say(f"{tells}: {{0}} instead of {{1}}.", *figures))
    return found
