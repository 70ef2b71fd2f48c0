"""The steps of a way in words, read off its day, and the cautions that belong to them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from designer.brewday.fit.answer import Boil, Filling, named
from designer.brewday.fit.draft_way import Draft, Kitchen
from designer.brewday.fit.pot_losses import losses_said
from designer.brewday.fit.sachets import pitching
from designer.brewday.time_line import at_stage
from designer.recipe.message import Message, in_a_row, say
from designer.recipe.quantity import Kind
from designer.wort.bitterness import POT_CEILING_IBU, TABLE_SG

_TIGHT_L = 0.3


def steps_of(boils: Sequence[Boil], draft: Draft, kitchen: Kitchen) -> tuple[Message, ...]:
    """Return what is done, in order: water, topping up, sharing out, yeast."""
    distinct = boils[:1] if _alike(boils) else boils
    said: list[Message] = []
    for boil in distinct:
        losses = losses_said(kitchen.recipe, boil.recipe.pot)
        said += [_water(boil, each_of=len(boils) > 1), *losses, *_filling(boil)]
    fermenters, yeast = len(draft.fermenters), draft.recipes[0].yeast
    return (*said, *pitching(yeast, fermenters, keeps_rest=draft.keeps_rest))


def _alike(boils: Sequence[Boil]) -> bool:
    return all(boil.recipe == boils[0].recipe for boil in boils)


def _water(boil: Boil, *, each_of: bool) -> Message:
    start = (
        say(
            "start-each-with",
            "Start each boil with {0} of water",
            (Kind.VOLUME, boil.start_water_l),
        )
        if each_of
        else say("start-with-water", "Start with {0} of water", (Kind.VOLUME, boil.start_water_l))
    )
    if boil.rim_l == float("inf"):
        return say(
            "water-fullest",
            "{start}; at its fullest the pot holds {0} ({when}).",
            (Kind.VOLUME, boil.fullest_l),
            start=start,
            when=at_stage(boil.fullest_at),
        )
    return say(
        "water-fullest-of",
        "{start} in the {pot}; at its fullest it holds {0} of {1} ({when}).",
        (Kind.VOLUME, boil.fullest_l),
        (Kind.VOLUME, boil.rim_l),
        start=start,
        pot=named(boil.recipe.pot.name),
        when=at_stage(boil.fullest_at),
    )


def _filling(boil: Boil) -> Iterator[Message]:
    first = boil.fillings[0]
    top_up = first.liquid_top_up_l
    if len(boil.fillings) > 1:
        yield say(
            "share-out",
            "Stir the cooled wort and share it out: {shares}.",
            shares=in_a_row([_share(each) for each in boil.fillings]),
        )
    if boil.frozen_kg > 0.0:
        yield say(
            "top-up-frozen",
            "Top each up to {0}: {1} of boiled and frozen water, then {2} from the tap; mix well."
            if len(boil.fillings) > 1
            else "Top up to {0}: {1} of boiled and frozen water, then {2} from the tap; mix well.",
            (Kind.VOLUME, first.filled_l),
            (Kind.MASS, first.frozen_kg),
            (Kind.VOLUME, top_up),
        )
    elif top_up > 0.01:
        yield say(
            "top-up",
            "Top each up to {0} with {1} of water; mix well."
            if len(boil.fillings) > 1
            else "Top up to {0} with {1} of water; mix well.",
            (Kind.VOLUME, first.filled_l),
            (Kind.VOLUME, top_up),
        )


def _share(filling: Filling) -> Message:
    brim = filling.fermenter.volume
    return say(
        "share",
        "{0} into the {1} fermenter",
        (Kind.VOLUME, filling.from_pot_l),
        (Kind.VOLUME, brim.value if brim is not None else 0.0),
    )


def cautions_of(boils: Sequence[Boil]) -> Iterator[Message]:
    """Yield the cautions that this way's figures call for."""
    tightest = min(boils, key=lambda boil: boil.foam_room_l)
    if tightest.foam_room_l < _TIGHT_L:
        yield say(
            "full-pot",
            "The pot is as full as it may be: stay with it as it comes to the boil and as hops and "
            "extract go in, ready to turn the burner off. Boiling wort scalds.",
        )
    if max(boil.pot_bitterness_ibu for boil in boils) > POT_CEILING_IBU:
        yield say(
            "pot-bitterness-way",
            "{0} in the pot is more than the {1} that a pot carries in practice: the beer may be "
            "less bitter than forecast.",
            (Kind.BITTERNESS, max(boil.pot_bitterness_ibu for boil in boils)),
            (Kind.BITTERNESS, POT_CEILING_IBU),
        )
    if any(boil.frozen_kg > 0.0 for boil in boils):
        yield say(
            "freeze-boiled",
            "Freeze water that was boiled, in a clean closed box; put it into plastic or steel, "
            "never into hot glass.",
        )
    strongest = max(float(boil.day.pot.boil_gravity_end) for boil in boils)
    if strongest > TABLE_SG[1]:
        yield say(
            "strong-boil",
            "The boil ends at {0}: stir it, it scorches, and take its bitterness as rough.",
            (Kind.GRAVITY, strongest),
        )
