"""The steps of a way in words, read off its day, and the cautions that belong to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import Boil, Said, named, say
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.results import AT_STAGE
from designer.recipe.quantity import Kind
from designer.wort.bitterness import POT_CEILING_IBU

_TIGHT_L = 0.3


def steps_of(boils: Sequence[Boil], draft: Draft, kitchen: Kitchen) -> tuple[Said, ...]:
    """Return what is done, in order: water, topping up, sharing out, yeast."""
    distinct = boils[:1] if _alike(boils) else boils
    said: list[Said] = []
    for boil in distinct:
        said += [_water(boil, each_of=len(boils) > 1), *_filling(boil)]
    return (*said, *_yeast(draft, kitchen))


def _alike(boils: Sequence[Boil]) -> bool:
    return all(boil.recipe == boils[0].recipe for boil in boils)


def _water(boil: Boil, *, each_of: bool) -> Said:
    start = "Start each boil with" if each_of else "Start with"
    where = AT_STAGE.get(boil.fullest_at, boil.fullest_at)
    pot = named(boil.recipe.pot.name)
    figures = [(Kind.VOLUME, boil.start_water_l), (Kind.VOLUME, boil.fullest_l)]
    if boil.rim_l == float("inf"):
        return say(
            f"{start} {{0}} of water; at its fullest the pot holds {{1}} ({where}).", *figures
        )
    figures.append((Kind.VOLUME, boil.rim_l))
    return say(
        f"{start} {{0}} of water in the {pot}; at its fullest it holds {{1}} of {{2}} ({where}).",
        *figures,
    )


def _filling(boil: Boil) -> Iterator[Said]:
    first = boil.fillings[0]
    top_up = first.liquid_top_up_l
    if len(boil.fillings) > 1:
        yield say(
            "Stir the cooled wort and share it out: {0} into the {1} fermenter"
            + "".join(
                f", {{{2 * place}}} into the {{{2 * place + 1}}} fermenter"
                for place in range(1, len(boil.fillings))
            )
            + ".",
            *(
                figure
                for each in boil.fillings
                for figure in (
                    (Kind.VOLUME, each.from_pot_l),
                    (Kind.VOLUME, _brim(each.fermenter.volume)),
                )
            ),
        )
    each_word = "each " if len(boil.fillings) > 1 else ""
    if boil.frozen_kg > 0.0:
        yield say(
            f"Top {each_word}up to {{0}}: {{1}} of boiled and frozen water, then {{2}} from the "
            "tap; mix well.",
            (Kind.VOLUME, first.filled_l),
            (Kind.MASS, first.frozen_kg),
            (Kind.VOLUME, top_up),
        )
    elif top_up > 0.01:
        yield say(
            f"Top {each_word}up to {{0}} with {{1}} of water; mix well.",
            (Kind.VOLUME, first.filled_l),
            (Kind.VOLUME, top_up),
        )


def _brim(volume: object) -> float:
    return float(getattr(volume, "value", 0.0))


def _yeast(draft: Draft, kitchen: Kitchen) -> Iterator[Said]:
    yeast = kitchen.recipe.yeast
    if not yeast.name:
        return
    name = named(yeast.name)
    if len(draft.fermenters) > 1:
        yield say(f"Pitch a whole packet of yeast into each fermenter ({name}).")
    elif draft.keeps_rest:
        yield say(f"Pitch the whole packet of yeast ({name}): an opened one does not keep.")


def cautions_of(boils: Sequence[Boil]) -> Iterator[Said]:
    """Yield the cautions that this way's figures call for."""
    tightest = min(boils, key=lambda boil: boil.foam_room_l)
    if tightest.foam_room_l < _TIGHT_L:
        yield say(
            "The pot is as full as it may be: stay with it as it comes to the boil and as hops and "
            "extract go in, ready to turn the burner off. Boiling wort scalds."
        )
    if max(boil.pot_bitterness_ibu for boil in boils) > POT_CEILING_IBU:
        yield say(
            "{0} in the pot is more than the {1} that a pot carries in practice: the beer may be "
            "less bitter than forecast.",
            (Kind.BITTERNESS, max(boil.pot_bitterness_ibu for boil in boils)),
            (Kind.BITTERNESS, POT_CEILING_IBU),
        )
    if any(boil.frozen_kg > 0.0 for boil in boils):
        yield say(
            "Freeze water that was boiled, in a clean closed box; put it into plastic or steel, "
            "never into hot glass."
        )
    strongest = max(float(boil.day.boil_gravity_end) for boil in boils)
    if strongest > 1.130:
        yield say(
            "The boil ends at {0}: stir it, it scorches, and take its bitterness as rough.",
            (Kind.GRAVITY, strongest),
        )
