"""What putting one ingredient in place of another means, in words."""

from __future__ import annotations

from collections.abc import Callable

from designer.brewday.fit.answer import Compared, named
from designer.brewday.fit.changed_recipe import line_kg
from designer.brewday.predictions import PREDICTIONS
from designer.recipe.choices import FermentableKind
from designer.recipe.document import Fermentable, Hop, Recipe
from designer.recipe.kind_defaults import alpha_acid, colour_lovibond, real_fermentability
from designer.recipe.message import Message, say, word
from designer.recipe.quantity import Kind, Stage


def hop_words(made: Recipe, old: Hop, instead: Hop, *, bitters: bool) -> list[Message]:
    """Return what another hop in a line's place means; `bitters` where the line made it bitter."""
    kg = next(line_kg(each) for each in made.hops if each.line_id == old.line_id)
    words = [
        say(
            "hop-in-place-of",
            "{0} of {name} at {1} in place of {2} of {old} at {3}.",
            (Kind.MASS, kg),
            (Kind.FRACTION, alpha_acid(instead)),
            (Kind.MASS, line_kg(old)),
            (Kind.FRACTION, alpha_acid(old)),
            name=named(instead.name),
            old=named(old.name),
        )
    ]
    if not bitters:
        words.append(
            say(
                "bitters-little",
                "It bitters little where it is, so its weight stays: only aroma changes.",
            )
        )
    elif old.when.stage is Stage.BOIL and old.when.minutes >= 45.0:
        words.append(
            say(
                "boiled-long",
                "Boiled so long, little of a hop's own aroma is left: few will notice.",
            )
        )
    else:
        words.append(
            say(
                "put-in-late", "Put in late, a hop brings its own aroma: the beer will smell of it."
            )
        )
    return words


def fermentable_words(made: Recipe, old: Fermentable, new: Fermentable) -> list[Message]:
    """Return the amounts in words, and what the change does to the taste."""
    kg = sum(line_kg(each) for each in made.fermentables if each.line_id == old.line_id)
    words = [
        say(
            "fermentable-in-place-of",
            "{0} of {name} in place of {1} of {old}.",
            (Kind.MASS, kg),
            (Kind.MASS, line_kg(old)),
            name=named(new.name),
            old=named(old.name),
        )
    ]
    return words + [said for tells, said in _CHARACTER if tells(old, new)]


def _is_malt(line: Fermentable) -> bool:
    return line.kind != FermentableKind.SUGAR


def _goes_from(old_kind: str, new_kind: str) -> Callable[[Fermentable, Fermentable], bool]:
    return lambda old, new: (old.kind, new.kind) == (old_kind, new_kind)


_CHARACTER: tuple[tuple[Callable[[Fermentable, Fermentable], bool], Message], ...] = (
    (
        _goes_from(FermentableKind.LIQUID_EXTRACT, FermentableKind.DRY_EXTRACT),
        say(
            "dry-for-liquid",
            "The same wort with less water in it: dry extract keeps paler and "
            "fresher, and clumps over steam.",
        ),
    ),
    (
        _goes_from(FermentableKind.DRY_EXTRACT, FermentableKind.LIQUID_EXTRACT),
        say(
            "liquid-for-dry",
            "The same wort with water in it: liquid extract darkens with age, use it fresh.",
        ),
    ),
    (
        lambda old, new: _is_malt(new) and colour_lovibond(new) > 1.5 * colour_lovibond(old),
        say(
            "darker-extract", "A darker extract brings toast and body of its own, not colour alone."
        ),
    ),
    (
        lambda old, new: _is_malt(new) and colour_lovibond(new) < colour_lovibond(old) / 1.5,
        say(
            "paler-extract",
            "A paler extract tastes of less; steeped grain gives back colour and some sweetness.",
        ),
    ),
    (
        lambda old, new: real_fermentability(new) > real_fermentability(old) + 0.1,
        say("ferments-further", "It ferments further: a drier, thinner beer."),
    ),
    (
        lambda old, new: real_fermentability(new) < real_fermentability(old) - 0.1,
        say("ferments-less", "It ferments less far: a fuller, sweeter beer."),
    ),
)
"""What a change of fermentable does to the taste; common practice, no source."""


def beer_words(forecasts: dict[str, Compared]) -> list[Message]:
    """Say what the beer is afterwards where it is not as it was."""
    found: list[Message] = []
    for each in PREDICTIONS:
        if each.deadband is None:
            continue
        now = forecasts[each.key]
        if abs(now.change) > each.deadband:
            figures = (each.kind, now.value), (each.kind, now.original)
            what = word(each.label)
            found.append(say("beer-then", "{what}: {0} instead of {1}.", *figures, what=what))
    return found
